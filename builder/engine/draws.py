"""Draws of inputs that are not known for sure: the same for the same kitchen, on any machine.

Each input is drawn by itself, from a generator that is seeded with the input's own name
(table, figure, the owner's path and the key there). So the draws of one input change neither
when other records come or go, nor with the number of processes, and whatever two plates share
is drawn once for both.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from hashlib import blake2b

import numpy as np
from numpy.typing import NDArray
from scipy.special import chdtri, ndtri, stdtrit

from builder.engine.arith import Column
from builder.engine.book import Identity
from builder.engine.model import Node

Draws = NDArray[np.float64]
"""Draws of one input, shape (draws,)."""

SEED = "shankbook 1"
"""The first words of every seed; another text gives other draws of the same kitchen."""

# 90 % of a normal variable lies within so many standard deviations of its mean.
Z_90 = float(ndtri(0.95))


class Basis(StrEnum):
    """What is behind a spread."""

    TESTS = "the tests of the stage"
    POOLED = "the tests of the stage, pooled with like stages in this kitchen"
    LIKE = "the spread of like stages in this kitchen"
    LIKE_CUTS = "the spread among other cuts of this kitchen"
    PUBLISHED = "the published spread"
    LIST = "the changes of its price list"
    LIKE_PRICES = "the changes of all listed prices"
    STATED = "as the kitchen states"
    WEIGHED = "the weighed portions"
    MONTHS = "the months that were counted"
    MODEL = "the range of the energy estimate"


@dataclass(frozen=True, slots=True)
class Spread:
    """How far an input may lie from its plain value.

    `scale` is the standard deviation of a normal variable, or the scale of Student's t with
    `freedom` degrees; in the logarithm of the value where `relative`. What inputs move by
    together are `shared`: factors by name, each with its loading in units of the scale's
    variable (then the scale is the root of their sum of squares), which `group` divides by one
    common chi-square. A draw is cut at `low` and `high`. `count` says how many tests, changes,
    portions or months are behind it. Where the input takes the place of a computed figure,
    `stands_in` names that.
    """

    center: float
    scale: float
    basis: Basis
    freedom: float = math.inf
    relative: bool = False
    low: float = -math.inf
    high: float = math.inf
    shared: tuple[tuple[str, float], ...] = ()
    group: str = ""
    count: int = 0
    stands_in: str = ""

    def at(self, standard: Draws) -> Draws:
        """The values at some standard draws.

        >>> wide = Spread(10.0, 1.0, Basis.STATED, high=11.0)
        >>> wide.at(np.array([-1.0, 0.0, 3.0])).tolist()
        [9.0, 10.0, 11.0]
        """
        step = self.scale * standard
        moved = self.center * np.exp(step) if self.relative else self.center + step
        return np.clip(moved, self.low, self.high)

    @property
    def ends(self) -> tuple[float, float]:
        """Both ends of its 90 % interval."""
        reach = quantile(0.95, self.freedom)
        low, high = self.at(np.array([-reach, reach]))
        return float(low), float(high)


def quantile(share: float, freedom: float) -> float:
    """The point that Student's t (normal where freedom is infinite) stays below.

    >>> round(quantile(0.95, 4), 3), round(quantile(0.95, math.inf), 3)
    (2.132, 1.645)
    """
    return float(ndtri(share) if math.isinf(freedom) else stdtrit(freedom, share))


def nearest_draws(values: Column, shares: tuple[float, ...]) -> Column:
    """The draws at some shares of their order, (shares, rows): nothing lies between two draws.

    As `np.quantile` by the method "nearest", which also looks for draws without a value: none of
    these may be without.

    >>> nearest_draws(np.array([[3.0, 1.0, 2.0]]), (0.05, 0.5)).tolist()
    [[1.0], [2.0]]
    """
    at = list(_places(values.shape[1], shares))
    # To put all in order takes less than to look for many places.
    ordered = np.partition(values, at, axis=1) if len(at) < _MANY else np.sort(values, axis=1)
    found: Column = ordered[:, at].T
    return found


_MANY = 4


@lru_cache(maxsize=64)
def _places(draws: int, shares: tuple[float, ...]) -> tuple[int, ...]:
    return tuple(np.quantile(np.arange(draws), shares, method="nearest").tolist())


Spreads = Mapping[Node, Mapping[int, Spread]]
"""By input figure the rows that are not known for sure."""


def spread_name(node: Node, who: Identity) -> str:
    """What an input's draws are seeded with.

    >>> spread_name(("cut", "ap_price"), Identity("cuts/shank"))
    'cut.ap_price cuts/shank#'
    """
    return f"{'.'.join(node)} {who.owner}#{who.key}"


def drawn(spread: Spread, name: str, draws: int) -> Draws:
    """The draws of one input; the same for the same name, spread and number of draws."""
    if not spread.shared:
        return spread.at(_shuffled(name, _strata(spread.freedom, draws)))
    total = np.zeros(draws)
    for factor, loading in spread.shared:
        total += loading * _shuffled(factor, _strata(math.inf, draws))
    if math.isfinite(spread.freedom):
        total /= _shuffled(f"{spread.group} width", _widths(spread.freedom, draws))
    return spread.at(total / spread.scale)


@lru_cache(maxsize=64)
def _strata(freedom: float, draws: int) -> Draws:
    """The middles of equally likely strata of Student's t, as in Latin hypercube sampling."""
    share = (np.arange(draws) + 0.5) / draws
    return np.asarray(ndtri(share) if math.isinf(freedom) else stdtrit(freedom, share))


@lru_cache(maxsize=64)
def _widths(freedom: float, draws: int) -> Draws:
    share = (np.arange(draws) + 0.5) / draws
    return np.asarray(np.sqrt(chdtri(freedom, share) / freedom))


def _shuffled(name: str, strata: Draws) -> Draws:
    """The strata in an order of the name's own."""
    key = int.from_bytes(blake2b(f"{SEED} {name}".encode(), digest_size=16).digest())
    return np.random.Generator(np.random.Philox(key=key)).permutation(strata)


def together(spreads: Sequence[Spread]) -> float:
    """Correlation of two inputs' logarithms or values that share factors; 0 where none."""
    one, other = (dict(spread.shared) for spread in spreads)
    product = sum(loading * other.get(factor, 0.0) for factor, loading in one.items())
    return product / (spreads[0].scale * spreads[1].scale) if product else 0.0
