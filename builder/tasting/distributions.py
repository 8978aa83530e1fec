"""Tails and quantiles of the binomial distribution, by the special functions of scipy.

`scipy.stats` has them, too, and takes longer to import than a kitchen takes to compute.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import bdtrik, betainc, betaincc

FloatArray = NDArray[np.float64]

_HAIR = 1e-6


def binomial_at_most(count: ArrayLike, total: ArrayLike, share: float) -> FloatArray:
    """P(X <= count) of a binomial [1]; `count` may lie outside 0 to `total`.

    >>> [round(float(binomial_at_most(count, 4, 0.5)), 4) for count in (-1, 0, 2, 4)]
    [0.0, 0.0625, 0.6875, 1.0]
    """
    k, n = np.asarray(count, np.float64), np.asarray(total, np.float64)
    inside = (k >= 0) & (k < n)
    tail = betaincc(np.where(inside, k + 1, 1), np.where(inside, n - k, 1), share)
    return np.asarray(np.where(inside, tail, (k >= n) * 1.0))


def binomial_at_least(count: ArrayLike, total: ArrayLike, share: float) -> FloatArray:
    """P(X >= count) of a binomial [1], as exact where it is small; `count` may lie outside.

    >>> [round(float(binomial_at_least(count, 4, 0.5)), 4) for count in (0, 2, 4, 5)]
    [1.0, 0.6875, 0.0625, 0.0]
    """
    k, n = np.asarray(count, np.float64), np.asarray(total, np.float64)
    inside = (k > 0) & (k <= n)
    tail = betainc(np.where(inside, k, 1), np.where(inside, n - k + 1, 1), share)
    return np.asarray(np.where(inside, tail, (k <= 0) * 1.0))


def binomial_quantile(tail: float, total: ArrayLike, share: float) -> FloatArray:
    """The smallest count with P(X <= count) of at least `tail`, above 0 and below 1.

    >>> binomial_quantile(0.5, [4, 10], 0.5).tolist()
    [2.0, 5.0]
    """
    nearly = bdtrik(tail, np.asarray(total, np.float64), share)
    # A count that the inverse misses by rounding is still the one to ask.
    count = np.maximum(np.floor(nearly + _HAIR), 0)
    return np.asarray(count + (binomial_at_most(count, total, share) < tail))


def binomial_enough(tail: float, total: ArrayLike, share: float) -> FloatArray:
    """The smallest count with P(X >= count) of at most `tail`, above 0 and below 1.

    One above `total` where every count is likelier.

    >>> binomial_enough(0.05, [3, 12], 1 / 3).tolist()
    [3.0, 8.0]
    """
    count = np.asarray(total) - binomial_quantile(tail, total, 1 - share)
    return np.asarray(count + (binomial_at_least(count, total, share) > tail))
