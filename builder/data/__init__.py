"""Published figures that come with the tool, each with its source and status."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from builder.language import Deferred


@dataclass(frozen=True, slots=True)
class CookingYield:
    """A published cooking yield [share], with the samples behind it and their spread [share].

    `deviation`: the standard deviation among the samples; None where none is published.
    `status`: how far the source was read.
    """

    entry: str
    description: str
    how: str
    value: float
    samples: int
    deviation: float | None
    source: str
    status: str = ""


@cache
def cooking_yields() -> Mapping[str, CookingYield]:
    """The published cooking yields by entry, such as "usda 13806".

    >>> cooking_yields()["usda 13806"].value
    0.69
    """
    text = files(__name__).joinpath("usda_cooking_yields.csv").read_text(encoding="utf-8")
    return {row["entry"]: _cooking_yield(row) for row in csv.DictReader(text.splitlines())}


def _cooking_yield(row: Mapping[str, str]) -> CookingYield:
    return CookingYield(
        entry=row["entry"],
        description=row["description"],
        how=Deferred(row["method"].lower()),
        value=float(row["yield_pct"]) / 100,
        samples=int(row["n"] or 0),
        deviation=float(row["sd"]) / 100 if row["sd"] else None,
        source=row["source"],
        status=Deferred(row["status"]),
    )


@dataclass(frozen=True, slots=True)
class PlausibleRange:
    """What a key can be in any kitchen, in `unit`, with the reason.

    Money is in hours of the kitchen's own wage, so that it holds in every currency; the wage and
    tariffs themselves are in money, by currency.
    """

    unit: str
    low: float
    high: float
    reason: str


@cache
def plausible_ranges() -> Mapping[str, tuple[PlausibleRange, ...]]:
    """The ranges by key, such as "plates.portion"; several where several units fit.

    >>> [(found.unit, found.low) for found in plausible_ranges()["plates.portion"]]
    [('each', 0.05), ('kg', 0.03)]
    """
    text = files(__name__).joinpath("plausible.csv").read_text(encoding="utf-8")
    found: dict[str, tuple[PlausibleRange, ...]] = {}
    for row in csv.DictReader(text.splitlines()):
        limits = PlausibleRange(
            row["unit"], float(row["low"]), float(row["high"]), Deferred(row["reason"])
        )
        found[row["key"]] = (*found.get(row["key"], ()), limits)
    return found
