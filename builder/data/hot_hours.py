"""How long anything stays in dry heat or a pot, in any kitchen."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from builder.language import Deferred


@dataclass(frozen=True, slots=True)
class HotHours:
    """The most hours [h] at `from_c` [degrees Celsius] or hotter, with the reason."""

    from_c: float
    high: float
    reason: str


@cache
def hot_hours() -> tuple[HotHours, ...]:
    """The rows of the table, from the mildest heat.

    >>> [row.high for row in hot_hours() if row.from_c <= 200]
    [12.0, 8.0, 6.0]
    """
    text = files("builder.data").joinpath("hot_hours.csv").read_text(encoding="utf-8")
    return tuple(
        HotHours(float(row["from_c"]), float(row["high_h"]), Deferred(row["reason"]))
        for row in csv.DictReader(text.splitlines())
    )
