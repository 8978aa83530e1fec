"""What a value may be, named in the unit that its file writes it in."""

from __future__ import annotations

import math
from collections.abc import Callable

from builder.quantities import QuantityError, convert, find_unit, parse_quantity
from builder.records.fields import Measure

_FIGURES = 3


def range_words(measure: Measure, low: float, high: float, words: str) -> str:
    """The range `low` to `high` [base unit] in the unit that the measure is written in.

    `words` name it in usual units; they count where the file writes one of these, or none.
    A limit is rounded inwards, so that what is named is allowed.
    """
    unit = _unit(measure.text)
    if not unit or unit in words.split():
        return words
    return f"{_rounded(convert(low, unit), math.ceil)} to {_rounded(convert(high, unit))} {unit}"


def _unit(text: str) -> str:
    try:
        found = find_unit(parse_quantity(text).unit)
    except QuantityError:
        return ""
    return found.name if found else ""


def _rounded(x: float, inwards: Callable[[float], int] = math.floor) -> str:
    """Three figures at the least, every digit before the point."""
    digits = _FIGURES - 1 - math.floor(math.log10(abs(x))) if x else 0
    scale = 10.0 ** max(0, digits)
    whole = inwards(round(x * scale, 6)) / scale
    return f"{whole:.{max(0, digits)}f}".rstrip("0").rstrip(".") if digits > 0 else f"{whole:.0f}"
