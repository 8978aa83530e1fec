"""Rounding as a cook does it: of the decimal that is read, a half goes up, away from zero.

Python's own `round` and formats take a half to the even neighbour, and take the binary number, of
which 1.005 is a hair less. `numbers.js` holds the twin of `half_up` and `without_noise`.
"""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Context, Decimal
from functools import cache
from math import isfinite

# Digits enough for any float with decimals: a format never fails.
_CONTEXT = Context(prec=700, rounding=ROUND_HALF_UP)
_SPEC = re.compile(r"(?P<sign>[+]?)(?P<group>,?)\.(?P<places>\d+)(?P<kind>[f%g])")
# A float is good to fifteen digits; a conversion takes the last of them.
_DIGITS = 14


@cache
def _last(places: int) -> Decimal:
    return Decimal(1).scaleb(-places)


def half_up(x: float, places: int = 0, scale: int = 0) -> Decimal:
    """The shortest decimal that is read back as `x`, rounded; `scale` moves its point first.

    `places` is the number of decimals, below 0 of zeros before the point. Raises
    decimal.InvalidOperation for a number that is not finite.

    >>> half_up(1.125, 2), half_up(-0.5), half_up(1.005, 2), half_up(0.625, 0, scale=2)
    (Decimal('1.13'), Decimal('-1'), Decimal('1.01'), Decimal('63'))
    """
    exact = Decimal(repr(float(x)))
    if scale:
        exact = exact.scaleb(scale, _CONTEXT)
    return exact.quantize(_last(places), context=_CONTEXT)


def nearest_whole(x: float) -> int:
    """The nearest whole number.

    >>> nearest_whole(2.5), nearest_whole(-2.5), nearest_whole(0.49999999999999994)
    (3, -3, 0)
    """
    return int(float(half_up(x)))


def without_noise(x: float) -> float:
    """A converted number without the digits that converting alone gives it.

    3/8 in is 9.525 mm, which as a float is 0.37499999999999994 in.

    >>> without_noise(0.37499999999999994), without_noise(1.125)
    (0.375, 1.125)
    """
    return float(f"{x:.{_DIGITS}g}")


class Halved(float):
    """A float that a format such as ".1f", ".0%" or ".3g" writes with its halves up.

    >>> f"{Halved(0.625):.0%} {Halved(4.25):+.1f} {Halved(0.62345):.4g} {Halved(0.5)}"
    '63% +4.3 0.6235 0.5'
    """

    __slots__ = ()

    def __format__(self, spec: str) -> str:
        found = _SPEC.fullmatch(spec) if isfinite(self) else None
        if not found:
            return float.__format__(self, spec)
        places, kind = int(found["places"]), found["kind"]
        scale = 2 if kind == "%" else 0
        rounded = half_up(self, _places_of(self, places) if kind == "g" else places, scale)
        if kind == "g":
            return format(float(rounded), spec)
        mark = f"{found['sign']}{found['group']}"
        return f"{rounded:{mark}.{places}f}{'%' if scale else ''}"


def _places_of(x: float, figures: int) -> int:
    """Decimals that leave so many figures of a number."""
    return max(figures, 1) - 1 - Decimal(repr(float(x))).adjusted() if x else 0
