"""Which one slip of the pen explains a value that is out of proportion."""

from __future__ import annotations

import math
import re

from builder.records.fields import Measure

_NUMBER = re.compile(r"\d[\d,]*\.?\d*")
# Units that are taken for each other, and how many times the right one the wrong one makes it.
_UNITS = {
    "kg": (("g", 1e-3),), "g": (("kg", 1e3),), "L": (("ml", 1e-3),), "l": (("ml", 1e-3),),
    "ml": (("L", 1e3),), "mL": (("L", 1e3),), "h": (("min", 1 / 60),), "min": (("h", 60.0),),
    "cm": (("mm", 0.1),), "mm": (("cm", 10.0),), "lb": (("oz", 1 / 16),), "oz": (("lb", 16.0),),
    "in": (("mm", 1 / 25.4),), "d": (("h", 1 / 24),), "kW": (("W", 1e-3),), "W": (("kW", 1e3),),
}  # fmt: skip


def slip(measure: Measure, factor: float, middle: float | None = None) -> str:
    """Say what may have been meant by a value that should be about `factor` times as large.

    A unit taken for another, a decimal point lost or put in, a temperature in the other
    scale; empty where none of these comes near. `middle` is the usual temperature [°C].

    >>> from builder.problems import Place
    >>> slip(Measure(200, Place("a"), "200 kg"), 0.001)
    'did you mean 200 g?'
    >>> slip(Measure(1360, Place("a"), "1360/kg"), 0.012)
    'did you mean 13.60/kg?'
    """
    if middle is not None:
        return _other_scale(measure)
    text, wanted = measure.text, math.log10(max(abs(factor), 1e-12))
    found = [*_other_units(text), *_moved_points(text)]
    near = [(abs(wanted - math.log10(times)), words) for words, times in found]
    # Of two that explain it alike the unit comes first: it is the commoner slip.
    best = min(near, default=(math.inf, ""), key=lambda each: each[0])
    return f"did you mean {best[1]}?" if best[0] < min(1.0, abs(wanted)) else ""


def _other_scale(measure: Measure) -> str:
    number = _NUMBER.search(measure.text)
    if number is None or "C" not in measure.text:
        return ""
    return f"did you mean {measure.text.replace('C', 'F')}?"


def _other_units(text: str) -> list[tuple[str, float]]:
    number, unit = re.fullmatch(r"(.*?)([A-Za-z]*)", text).groups()  # type: ignore[union-attr]
    per = number.rstrip().endswith("/")
    return [
        (f"{number}{other}", 1 / times if per else times) for other, times in _UNITS.get(unit, ())
    ]


def _moved_points(text: str) -> list[tuple[str, float]]:
    """The number with its point one, two or three places further left or right."""
    number = _NUMBER.search(text)
    if number is None:
        return []
    bare = number[0].replace(",", "")
    return [
        (text.replace(number[0], _shifted(bare, places), 1), 10.0**places)
        for places in (-3, -2, -1, 1, 2, 3)
    ]


def _shifted(number: str, places: int) -> str:
    """A number's digits with its point moved.

    >>> _shifted("1360", -2), _shifted("3.45", 1), _shifted("21", 1)
    ('13.60', '34.5', '210')
    """
    whole, _, part = number.partition(".")
    at = len(whole) + places
    digits = (whole + part).ljust(at, "0")
    digits = digits.rjust(len(digits) - min(at - 1, 0), "0")
    at = max(at, 1)
    whole, part = digits[:at].lstrip("0") or "0", digits[at:]
    return f"{whole}.{part}" if part else whole
