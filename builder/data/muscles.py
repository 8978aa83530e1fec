"""What is published of beef muscles: how tender they are, and a cooking yield to stand in."""

from __future__ import annotations

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from builder.language import Deferred, tr

SPECIES = "beef"
"""The one species whose muscles are in the tables."""

GRADES = ("very tender", "tender", "intermediate", "tough")
"""Grades of tenderness by shear force, the most tender first."""

# Of a beef muscle that no cut of the yields is matched with: all boneless beef, braised.
_ANY_BEEF = "usda beef-all-boneless-braised"


@dataclass(frozen=True, slots=True)
class ShearForce:
    """A published shear force [kg, Warner-Bratzler] of a muscle: a range, or a class open at one
    end (then that end is NaN), with how far its source was read."""

    low: float
    high: float
    published: str
    source: str
    status: str


@dataclass(frozen=True, slots=True)
class Muscle:
    """A beef muscle: its grade of tenderness, every published shear force, the entry of a cooking
    yield that stands in for it, its cut and how that was matched (empty: no cut of its own)."""

    name: str
    grade: str
    shear_forces: tuple[ShearForce, ...]
    cooking_yield: str
    cut: str
    match: str

    @property
    def matched(self) -> str:
        """The cut whose yield stands in, and how that was matched; empty where none is."""
        return tr("{cut}: {match}", cut=self.cut, match=self.match) if self.cut else ""


@cache
def muscles() -> Mapping[str, Muscle]:
    """The muscles by name.

    >>> muscles()["infraspinatus"].grade, muscles()["infraspinatus"].cooking_yield
    ('very tender', 'usda 13598')
    """
    matched = {row["muscle"]: row for row in _rows("muscle_cooking_yields.csv")}
    rows = _rows("muscle_shear_force.csv")
    found = {}
    for row in rows:
        if not row["grade"]:
            continue
        name, match = row["muscle"], matched.get(row["muscle"])
        forces = tuple(_shear_force(each) for each in rows if each["muscle"] == name)
        entry = match["entry"] if match else _ANY_BEEF
        cut, how = (Deferred(match[key]) if match else "" for key in ("cut", "status"))
        found[name] = Muscle(name, Deferred(row["grade"]), forces, entry, cut, how)
    return found


def _rows(name: str) -> list[dict[str, str]]:
    text = files("builder.data").joinpath(name).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


def _shear_force(row: Mapping[str, str]) -> ShearForce:
    low, high = (float(row[end]) if row[end] else math.nan for end in ("low_kg", "high_kg"))
    return ShearForce(low, high, Deferred(row["published"]), row["source"], Deferred(row["status"]))
