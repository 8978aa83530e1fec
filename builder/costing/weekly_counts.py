"""Where a week's count comes from: a forecast, the month counted, the guests of set menus."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from builder.display.style import Style
from builder.language import tr
from builder.records.kinds import Plate
from builder.records.menus import SetMenu


@dataclass(frozen=True, slots=True)
class Counts:
    """What the weekly counts of some plates rest on; `guests` are those of set menus."""

    forecast: bool
    month: date | None
    guests: bool = False

    def words(self, style: Style) -> str:
        """What to call them in a sentence; nothing where no plate is counted."""
        both = tr("the forecast count and the guests of set menus")
        if self.month is None:
            alone = tr("the guests of set menus") if self.guests else ""
            return (both if self.guests else tr("the forecast count")) if self.forecast else alone
        month = self._named(style)
        counted = tr(
            "the {forecast_and}count of {month}",
            forecast_and=tr("forecast and the ") if self.forecast else "",
            month=month,
        )
        return (
            tr("{counted} and the guests of set menus", counted=counted) if self.guests else counted
        )

    def week(self, style: Style) -> str:
        """A week of them, as the subject of a sentence; nothing where no plate is counted."""
        if self.month is None:
            alone = tr("a week of set menus' guests") if self.guests else ""
            both = tr("a week's forecast with the guests of set menus")
            return (both if self.guests else tr("a week's forecast")) if self.forecast else alone
        week = tr("a week, set menus included,") if self.guests else "a week"
        as_sold = tr("as sold in {named}", named=self._named(style))
        return (
            tr("{week} as forecast and {as_sold}", week=week, as_sold=as_sold)
            if self.forecast
            else f"{week} {as_sold}"
        )

    def _named(self, style: Style) -> str:
        return style.month((self.month.year, self.month.month)) if self.month else ""


def counts_of(plates: Iterable[Plate], month: date, menus: Iterable[SetMenu] = ()) -> Counts:
    """Whether any of the plates has a forecast, and whether any other was counted in the month.

    With `menus` also whether any of these has guests who may take one of the plates.
    """
    listed = list(plates)
    counted = any(
        plate.forecast is None and any(written.first == month for written in plate.sold)
        for plate in listed
    )
    ids = {plate.id for plate in listed}
    guests = any(menu.guests and not ids.isdisjoint(menu.plate_ids) for menu in menus)
    forecast = any(plate.forecast is not None for plate in listed)
    return Counts(forecast, month if counted else None, guests)
