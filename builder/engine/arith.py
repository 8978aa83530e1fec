"""The arithmetic that a formula body may use beside + - * / and comparisons.

Each works on whole columns, and each has an obvious twin in a page script, so
that a body can later be written out in another language from its syntax tree.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Column = NDArray[np.float64]
"""Values of one figure, shape (rows, draws); NaN means "not known"."""

Flags = NDArray[np.bool_]

# Weights come from scales and factors from binary floats: 10 portions of 180 g
# must not become 9 because 1.8 / 0.18 falls one bit short.
_SLACK = 1e-9


def whole(x: Column) -> Column:
    """Round down to whole pieces, forgiving the last bits of binary arithmetic.

    >>> float(whole(np.float64(1.8) / np.float64(0.18)))
    10.0
    """
    return np.floor(x + _SLACK)


def whole_up(x: Column) -> Column:
    """Round up to whole pieces, forgiving the last bits of binary arithmetic.

    >>> float(whole_up(np.float64(3.0000000001)))
    3.0
    """
    return np.ceil(x - _SLACK) + 0.0  # no minus zero


def least(x: Column, y: Column | float) -> Column:
    """Return the smaller of two columns, element by element."""
    return np.minimum(x, y)


def most(x: Column, y: Column | float) -> Column:
    """Return the larger of two columns, element by element."""
    return np.maximum(x, y)


def either(condition: Flags, yes: Column | float, no: Column | float) -> Column:
    """Take `yes` where the condition holds, else `no`.

    >>> either(np.array([True, False]), np.array([1.0, 1.0]), 0.0)
    array([1., 0.])
    """
    return np.where(condition, yes, no)


def known(x: Column) -> Flags:
    """Tell where a value is known, that is, not NaN."""
    return ~np.isnan(x)


def endless(x: Column) -> Flags:
    """Tell where a value is infinite: the cost of a portion of a piece that gives none.

    >>> endless(np.array([1.0, np.inf, np.nan]))
    array([False,  True, False])
    """
    return np.isinf(x)


def or_else(x: Column, fallback: Column | float) -> Column:
    """Take the first value where it is known, else the second.

    >>> or_else(np.array([np.nan, 2.0]), 7.0)
    array([7., 2.])
    """
    return np.where(np.isnan(x), fallback, x)
