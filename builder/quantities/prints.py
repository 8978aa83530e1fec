"""A limit of temperature and its prints in °C and °F, which differ by their rounding."""

from __future__ import annotations

# A temperature in °F read into °C and back is off by less than this.
ROUNDING_C = 1e-6
# A printed pair such as 131 °F / 55.0 °C is rounded to 0.1 °C at the coarsest.
PRINTED_PAIR_C = 0.06


def lower_print(limit_c: float) -> float:
    """Return the lowest of a limit [°C] and of its prints in °C and °F: any of them meets it.

    >>> lower_print((130 - 32) / 1.8), round(lower_print(62.8), 3), lower_print(60)
    (54.4, 62.778, 60)
    """
    return min(_prints(limit_c))


def upper_print(limit_c: float) -> float:
    """Return the highest of a limit [°C] and of its prints in °C and °F.

    >>> upper_print((35 - 32) / 1.8), round(upper_print(1.1), 3)
    (1.7, 1.111)
    """
    return max(_prints(limit_c))


def _prints(limit_c: float) -> tuple[float, ...]:
    """The limit, then what it is in tenths of a °C and in whole °F, where that is the same."""
    others = round(limit_c, 1), (round(limit_c * 1.8 + 32) - 32) / 1.8
    return limit_c, *(c for c in others if ROUNDING_C < abs(c - limit_c) <= PRINTED_PAIR_C)
