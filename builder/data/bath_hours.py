"""How long pieces of a kind of cut stay in a warm bath, in any kitchen."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from builder.language import Deferred


@dataclass(frozen=True, slots=True)
class BathHours:
    """Least and most hours [h] of cuts by the words of their names, with the reason.

    Of `species` with one of `words` and none of `but`, at `up_to_c` or colder [degrees Celsius] and
    thicker than `thicker_mm` [mm], as far as that is known.
    """

    species: frozenset[str]
    words: tuple[str, ...]
    but: tuple[str, ...]
    up_to_c: float
    thicker_mm: float
    low: float
    high: float
    reason: str


@cache
def bath_hours() -> tuple[BathHours, ...]:
    """The rows of the table.

    >>> [(row.low, row.high) for row in bath_hours() if "brisket" in row.words]
    [(8.0, 120.0)]
    """
    text = files("builder.data").joinpath("bath_hours.csv").read_text(encoding="utf-8")
    return tuple(
        BathHours(
            frozenset(row["species"].split()),
            tuple(row["words"].split(",")),
            tuple(filter(None, row["but"].split(","))),
            float(row["up_to_c"]),
            float(row["thicker_mm"]),
            float(row["low_h"]),
            float(row["high_h"]),
            Deferred(row["reason"]),
        )
        for row in csv.DictReader(text.splitlines())
    )
