"""Where a week's count comes from: a forecast, the month counted, the guests of set menus."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from builder.display.style import Style
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
        both = "the forecast count and the guests of set menus"
        if self.month is None:
            alone = "the guests of set menus" if self.guests else ""
            return (both if self.guests else "the forecast count") if self.forecast else alone
        month = self._named(style)
        counted = f"the {'forecast and the ' if self.forecast else ''}count of {month}"
        return f"{counted} and the guests of set menus" if self.guests else counted

    def week(self, style: Style) -> str:
        """A week of them, as the subject of a sentence; nothing where no plate is counted."""
        if self.month is None:
            alone = "a week of set menus' guests" if self.guests else ""
            both = "a week's forecast with the guests of set menus"
            return (both if self.guests else "a week's forecast") if self.forecast else alone
        counted = f"a week {'as forecast and ' if self.forecast else ''}as in {self._named(style)}"
        return f"{counted} with the guests of set menus" if self.guests else counted

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
