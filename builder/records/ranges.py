"""What a value may be, in metric units; messages bring it to the kitchen's own."""

from __future__ import annotations

import math
from collections.abc import Callable

from builder.language import Deferred, tr
from builder.quantities import QuantityError, convert, find_unit, parse_quantity
from builder.records.fields import Measure

RANGE = Deferred("{rounded} to {rounded2} {unit}")
WANTED = Deferred("wanted: {words}")
_FIGURES = 3
_CUSTOMARY = {"lb", "oz", "fl oz", "cup", "qt", "gal", "pt", "in", "ft", "°F"}


def range_words(measure: Measure, low: float, high: float, words: str) -> str:
    """The range `low` to `high` [base unit] in the unit that the measure is written in.

    `words` name it in usual units; they count where the file writes one of these, or none, or
    one that is not metric.
    """
    unit = _unit(measure.text)
    return (
        words if unit in _CUSTOMARY or unit in ("", *words.split()) else limits_in(unit, low, high)
    )


def limits_in(unit: str, low: float, high: float) -> str:
    """The range in a unit; a limit is rounded inwards, so that what is named is allowed.

    >>> limits_in("gal", 1, 2000), limits_in("in", 1, 400)
    ('0.265 to 528 gal', '0.0394 to 15.7 in')
    """
    return tr(
        RANGE,
        rounded=_rounded(convert(low, unit), math.ceil),
        rounded2=_rounded(convert(high, unit)),
        unit=unit,
    )


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
