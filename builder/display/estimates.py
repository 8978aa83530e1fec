"""How pages write a time or a thickness that comes from a model: rounded to what it knows.

A model of heat in meat is good to about a quarter. From four minutes on no step of rounding is
larger than a quarter of the time, from an hour on an eighth, for other times are compared with it.
What has to be waited for is rounded up (common practice, no published source). Data files keep
every digit.
"""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, floor, inf, isfinite
from typing import Literal

from builder.display.numerals import MISSING
from builder.display.scales import UnitSystem
from builder.display.style import NBSP, Style
from builder.language import tr
from builder.rounding import nearest_whole

Way = Literal["up", "down", "near"]
"""Up for what is waited for, down for what is left or what still fits, near for the typical."""

_TO: dict[Way, Callable[[float], float]] = {"up": ceil, "down": floor, "near": nearest_whole}
# Up to so many minutes, to steps of so many.
_STEPS_MIN = ((2, 1 / 6), (20, 1), (120, 5), (240, 15), (720, 30), (inf, 60))
_MINUTES_UP_TO = 120
# 3 h computed as 180.0000000001 min is 3 h.
_HAIR = 1e-9
_TENTH_OF_AN_INCH_MM = 2.54
_THIN_MM = 10


def rounded_min(minutes: float, way: Way = "up", limit: float | None = None) -> float:
    """Round an estimated time [min]; a finer step is taken where it would cross `limit` [min].

    So a time that keeps a limit is never written as one that does not. Reaching the limit
    is keeping it: from below by "up", from above by "down".

    >>> rounded_min(253), rounded_min(253, "down"), rounded_min(118, "down", limit=112)
    (270.0, 240.0, 115.0)
    """
    for step in _steps(minutes):
        found = _stepped(minutes, step, way)
        if limit is None or _same_side(minutes, found, limit, way):
            return found
    return minutes


def _steps(minutes: float) -> list[float]:
    """The step of a size, then finer ones down to a second."""
    first = next(n for n, (up_to, _) in enumerate(_STEPS_MIN) if abs(minutes) <= up_to)
    return [*(step for _, step in reversed(_STEPS_MIN[: first + 1])), 1 / 60]


def _stepped(minutes: float, step: float, way: Way) -> float:
    hair = {"up": -_HAIR, "down": _HAIR, "near": 0.0}[way]
    count = float(_TO[way](minutes / step + hair))
    return count * step if step >= 1 else count / nearest_whole(1 / step)


def _same_side(minutes: float, found: float, limit: float, way: Way) -> bool:
    above = (minutes > limit) == (found > limit)
    below = (minutes < limit) == (found < limit)
    return (above or way == "down") and (below or way == "up")


def about(style: Style, minutes: float, way: Way = "up", limit: float | None = None) -> str:
    """Write an estimated time [min] as a kitchen says it; `limit` [min] as in `rounded_min`.

    >>> metric = Style.of("en_CA", "CAD")
    >>> about(metric, 83).replace(NBSP, " "), about(metric, 253).replace(NBSP, " ")
    ('about 85 min', 'about 4 h 30 min')
    """
    if not isfinite(minutes):
        return MISSING
    found = rounded_min(minutes, way, limit)
    return tr("about {words}", words=_words(style, found)) if found else _words(style, found)


def about_span(style: Style, low: float, high: float, limit: float | None = None) -> str:
    """Write the two ends [min] of an estimated time, the first down and the last up.

    An end that lies beyond `limit` [min] is written beyond it.

    >>> metric = Style.of("en_CA", "CAD")
    >>> about_span(metric, 193, 236).replace(NBSP, " ")
    'about 3 to 4 h'
    >>> about_span(metric, 97, 196, limit=90).replace(NBSP, " ")
    'about 95 min to 3 h 30 min'
    """
    first, last = rounded_min(low, "down", _beyond(low, limit)), rounded_min(high, "up", limit)
    words, until = _words(style, first), _words(style, last)
    if words == until:
        return tr("about {until}", until=until)
    number, _, unit = words.partition(NBSP)
    shared = until.count(NBSP) == 1 and until.endswith(f"{NBSP}{unit}")
    return tr("about {number} to {until}", number=number if shared else words, until=until)


def _beyond(low: float, limit: float | None) -> float | None:
    """The first moment past a limit [min] that the low end lies beyond: at it is not beyond."""
    return None if limit is None else limit + _HAIR * limit if low > limit else limit


def _words(style: Style, minutes: float) -> str:
    """Minutes below two hours, for nobody says 1 h 30 min."""
    if 2 <= abs(minutes) < _MINUTES_UP_TO:
        return f"{style.count(minutes)}{NBSP}min"
    return style.duration(minutes / 60)


def written_thickness(style: Style, mm: float) -> str:
    """Write a piece's thickness [mm] to the millimetre, or tenth of an inch; thin ones in full.

    >>> written_thickness(Style.of("en_CA", "CAD"), 50.8).replace(NBSP, " ")
    '51 mm'
    """
    whole = style.units is UnitSystem.METRIC and mm >= _THIN_MM
    return style.length(nearest_whole(mm) if whole else mm)


def thickness_that_fits(style: Style, mm: float) -> str:
    """Write an estimated thickness [mm] that still fits, down to a millimetre or tenth of an inch.

    >>> thickness_that_fits(Style.of("en_CA", "CAD"), 63.9).replace(NBSP, " ")
    '63 mm'
    """
    step = 1.0 if style.units is UnitSystem.METRIC else _TENTH_OF_AN_INCH_MM
    return style.length(floor(mm / step + _HAIR) * step)
