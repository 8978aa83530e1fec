"""Where a count of plates a week comes from: a written forecast, or the month that was counted."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from builder.display.style import Style
from builder.records.kinds import Plate


@dataclass(frozen=True, slots=True)
class Counts:
    """What the weekly counts of some plates rest on."""

    forecast: bool
    month: date | None

    def words(self, style: Style) -> str:
        """What to call them in a sentence; nothing where no plate is counted."""
        if self.month is None:
            return "the forecast count" if self.forecast else ""
        month = self._named(style)
        return f"the {'forecast and the ' if self.forecast else ''}count of {month}"

    def week(self, style: Style) -> str:
        """A week of them, as the subject of a sentence; nothing where no plate is counted."""
        if self.month is None:
            return "a week's forecast" if self.forecast else ""
        return f"a week {'as forecast and ' if self.forecast else ''}as in {self._named(style)}"

    def _named(self, style: Style) -> str:
        return style.month((self.month.year, self.month.month)) if self.month else ""


def counts_of(plates: Iterable[Plate], month: date) -> Counts:
    """Whether any of the plates has a forecast, and whether any other was counted in the month."""
    listed = list(plates)
    counted = any(
        plate.forecast is None and any(written.first == month for written in plate.sold)
        for plate in listed
    )
    return Counts(any(p.forecast is not None for p in listed), month if counted else None)
