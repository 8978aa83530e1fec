"""A figure with its low and high end, and the one check of an argument's range."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from builder.display.numerals import as_read
from builder.language import tr

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Range:
    """A figure known only between `low` and `high`, with the value thought typical."""

    low: float
    typical: float
    high: float

    def __post_init__(self) -> None:
        if not self.low <= self.typical <= self.high:
            raise ValueError(
                f"a range runs low <= typical <= high, not {self.low}, {self.typical}, {self.high}"
            )

    @classmethod
    def exactly(cls, value: float) -> Range:
        """Return the range of a figure with no spread."""
        return cls(value, value, value)

    @classmethod
    def around(cls, typical: float, share: float) -> Range:
        """Return the range `typical` ± `share` of it."""
        return cls(typical * (1 - share), typical, typical * (1 + share))

    def __add__(self, other: Range) -> Range:
        """Add end to end: the errors are taken to fall the same way."""
        return Range(self.low + other.low, self.typical + other.typical, self.high + other.high)

    def __mul__(self, other: float | Range) -> Range:
        """Multiply two ranges of figures that are not negative, or a range and a factor."""
        by = other if isinstance(other, Range) else Range.exactly(other)
        return Range(self.low * by.low, self.typical * by.typical, self.high * by.high)

    def each(self, function: Callable[[float], float]) -> Range:
        """Apply an increasing function to the three figures."""
        return Range(function(self.low), function(self.typical), function(self.high))


def require_within(name: str, value: ArrayLike, low: float, high: float, unit: str) -> Floats:
    """Return `value` as an array, or raise ValueError naming the range and the unit.

    >>> require_within("thickness", 3000, 1, 400, "mm")
    Traceback (most recent call last):
    ValueError: thickness 3000 mm is outside 1 to 400 mm
    """
    array = np.asarray(value, dtype=np.float64)
    outside = ~((array >= low) & (array <= high))
    if outside.any():
        worst = float(array[outside].flat[0])
        raise ValueError(f"{name} {worst:g} {unit} is outside {low:g} to {high:g} {unit}")
    return array


def worded_min(minutes: float) -> str:
    """Write minutes as a sentence does: whole minutes up to two hours, then hours to a tenth.

    >>> worded_min(89.6), worded_min(253), worded_min(360)
    ('90 min', '4.2 h', '6 h')
    """
    return (
        tr("{minutes:.0f} min", minutes=minutes)
        if minutes < 120
        else f"{as_read(minutes / 60, 1):g} h"
    )
