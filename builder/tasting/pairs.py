"""All samples against each other within tasters, also where not everybody had every one."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import chain, combinations

import numpy as np
from numpy.typing import ArrayLike

from builder.engine.methods import method
from builder.language import Deferred
from builder.tasting.rank_distributions import permuted_rows
from builder.tasting.score_tables import (
    BoolArray,
    FloatArray,
    informative_rows,
    score_table,
    sorted_rows,
)

_HAIR = 1e-9
DRAWS = 5_000
_MOST_CLOSED = 6
_HOPELESS = 0.2
# Of the variance of a difference, how much is taken from the pair alone. All of it would cost
# small panels power; none of it lets two samples that divide the tasters, each loved by half and
# disliked by half, be told apart in 18 of 100 panels at 5 %, as calm ones beside them narrow
# what chance brings.
_OWN = 0.6
_SOURCE = Deferred(
    "Nichols & Holmes, Human Brain Mapping 15, 2002 (rearrangement within "
    "blocks, largest statistic of all); Westfall & Young, Resampling-Based "
    "Multiple Testing, 1993; Chung & Romano, Annals of Statistics 41, 2013 "
    "(a difference over its own spread) [all from memory]"
)


@dataclass(frozen=True, slots=True)
class Pair:
    """Two samples: `difference` of the first less the second [points], None where no chain of
    tasters joins them; `adjusted_p_value` counts all pairs at once.
    """

    first: int
    second: int
    difference: float | None
    adjusted_p_value: float

    @property
    def ordered(self) -> tuple[int, int]:
        """Both, the higher one first."""
        above = (self.difference or 0.0) > 0
        return (self.first, self.second) if above else (self.second, self.first)


@dataclass(frozen=True, slots=True)
class _Model:
    """Additive model of tasters and samples: what a taster's scores add to each difference.

    shares: of every two samples in turn [samples by pairs], 0 where no chain of tasters joins
    them. joined: [samples by samples]. usual: variance of each difference if all spread alike
    [points²].
    """

    shares: FloatArray
    joined: BoolArray
    usual: FloatArray

    @staticmethod
    def of(centred: FloatArray) -> _Model:
        """From the tasters' scores less their means, NaN where missing [tasters by samples]."""
        there = ~np.isnan(centred)
        shares, joined, usual = _of_servings(there.tobytes(), there.shape[1])
        spread = np.nansum(centred**2) / max(there.sum() - len(there), 1)
        return _Model(shares, joined, usual * spread)

    def statistics(self, rows: Iterator[FloatArray]) -> FloatArray:
        """Difference of every two samples in turn over its standard [draws by pairs].

        rows: of one taster or more, scores less the mean, 0 where missing [draws by samples]. The
        variance is partly the sum of the tasters' squared shares of that one difference, so
        that no pair is judged only by how much tasters differ on the others.
        """
        apart = next(rows) @ self.shares
        squares = apart * apart
        for row in rows:
            shares = row @ self.shares
            # In place: new tables of all draws take longer than what is reckoned with them.
            apart += shares
            shares *= shares
            squares += shares
        variance = _OWN * squares
        variance += (1 - _OWN) * self.usual
        known = variance > _HAIR**2
        found: FloatArray = np.where(known, apart / np.sqrt(np.where(known, variance, 1.0)), 0.0)
        return found


@lru_cache(maxsize=256)
def _of_servings(there: bytes, samples: int) -> tuple[FloatArray, BoolArray, FloatArray]:
    """Of a model what follows from who was served what: shares, joined, usual variance.

    there: a flag for each taster and sample. The variance is that for scores that spread by 1.
    """
    served = np.frombuffer(there, dtype=np.bool_).reshape(-1, samples).astype(np.float64)
    size = np.maximum(served.sum(axis=1), 1)
    # The information on samples, tasters taken out [samples by samples].
    information = np.diag(served.sum(axis=0)) - served.T @ (served / size[:, None])
    joined = np.linalg.matrix_power((information != 0) * 1.0, len(information)) > 0
    inverse = np.linalg.pinv(information, hermitian=True).astype(np.float64)
    first, second = np.triu_indices(len(inverse), 1)
    shares = (joined[first, second][:, None] * (inverse[first] - inverse[second])).T
    return shares, joined, (shares[first] - shares[second]).diagonal()


def _centred(table: FloatArray) -> FloatArray:
    """Scores less the taster's mean, rows in an order that names and samples don't change."""
    rows = sorted_rows(informative_rows(table))
    if not rows.size:
        return rows
    rows = rows[np.lexsort(np.sort(rows, axis=1).T[::-1])]
    centred: FloatArray = rows - np.nanmean(rows, axis=1, keepdims=True)
    return centred


def _standings(table: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Differences, statistics [samples by samples], and the largest one in each draw."""
    centred = _centred(table)
    model = _Model.of(centred)
    given = np.nan_to_num(centred)
    largest = np.abs(model.statistics(permuted_rows(centred, DRAWS))).max(axis=1)
    apart, statistics = (
        _both_ways(of_pairs, len(model.joined))
        for of_pairs in (
            given.sum(axis=0) @ model.shares,
            model.statistics(row[None] for row in given)[0],
        )
    )
    return np.where(model.joined, apart, np.nan), statistics, largest


def _both_ways(of_pairs: FloatArray, samples: int) -> FloatArray:
    """What is of the first less the second of every two, as a table [samples by samples]."""
    table = np.zeros((samples, samples))
    table[np.triu_indices(samples, 1)] = of_pairs
    return table - table.T


def _chance(largest: FloatArray, statistic: float) -> float:
    """Share of draws that reach a statistic, the observed arrangement counted as one."""
    return float(((largest >= statistic - _HAIR).sum() + 1) / (len(largest) + 1))


@method(unit="points", source=_SOURCE, title="All pairs of samples")
def all_pairs(scores: ArrayLike) -> tuple[Pair, ...]:
    """Difference of every two samples within tasters, all counted at once.

    Effects of samples beside tasters by least squares. p of a set of samples = share of 5,000
    fixed random rearrangements within tasters whose largest standardised difference of any two
    reaches the observed one; of a difference's variance 0.6 is the pair's own and 0.4 that of
    all samples, so that two that divide the tasters aren't judged by calm ones beside them.
    Adjusted p of a pair: the same for all samples, or where that is smaller the largest p of any
    way to part the samples into sets that are alike, both in one set: the least p of its sets
    times how many they are (closed testing; up to 6 samples). Incomplete servings need no filling
    in.

    Parameters: scores: tasters by samples [points of one scale], empty where missing.
    Errors: ValueError unless it is such a table.

    >>> table = [[9, 2, 6], [8, 1, 5], [9, 3, 7], [7, 2, 6], [8, 2, 7], [9, 2, 8], [8, 1, 6]]
    >>> [(p.first, p.second) for p in all_pairs(table) if p.adjusted_p_value < 0.05]
    [(0, 1), (0, 2), (1, 2)]
    """
    table = score_table(scores)
    pairs = list(combinations(range(table.shape[1]), 2))
    if not informative_rows(table).size:
        return tuple(Pair(*pair, None, 1.0) for pair in pairs)
    apart, statistics, largest = _standings(table)
    chances = {pair: _chance(largest, abs(float(statistics[pair]))) for pair in pairs}
    if table.shape[1] <= _MOST_CLOSED and min(chances.values(), default=1.0) <= _HOPELESS:
        chances = {pair: min(chances[pair], p) for pair, p in _closed(table).items()}
    return tuple(
        Pair(*pair, None if np.isnan(apart[pair]) else float(apart[pair]), chances[pair])
        for pair in pairs
    )


def _closed(table: FloatArray) -> dict[tuple[int, int], float]:
    """Adjusted chance of every pair: the largest of all ways in which its two may be alike."""
    found = dict.fromkeys(combinations(range(table.shape[1]), 2), 0.0)
    chance_of = cache(lambda chosen: _chance_of_set(table[:, list(chosen)]))
    for sets in _ways_alike(table.shape[1]):
        chance = min(1.0, len(sets) * min(map(chance_of, sets)))
        for pair in chain.from_iterable(combinations(chosen, 2) for chosen in sets):
            found[pair] = max(found[pair], chance)
    return found


@cache
def _ways_alike(samples: int) -> tuple[tuple[tuple[int, ...], ...], ...]:
    """Every way to part samples into sets of which those of two and more are alike.

    >>> _ways_alike(3)
    (((0, 1, 2),), ((0, 1),), ((0, 2),), ((1, 2),))
    """
    ways: list[list[tuple[int, ...]]] = [[]]
    for sample in range(samples):
        ways = [
            [*way[:place], (*way[place], sample), *way[place + 1 :]] if place < len(way)
            else [*way, (sample,)]
            for way in ways
            for place in range(len(way) + 1)
        ]  # fmt: skip
    alike = (tuple(chosen for chosen in way if len(chosen) > 1) for way in ways)
    return tuple(filter(None, alike))


def chance_below(pairs: Iterable[Pair], sample: int, others: Container[int]) -> float:
    """The chance of any of the others so far above a sample, every pair counted; 1 if none is.

    >>> pairs = [Pair(0, 1, 7.0, 0.02), Pair(0, 2, -1.0, 0.9), Pair(1, 2, -8.0, 0.01)]
    >>> chance_below(pairs, 1, {0}), chance_below(pairs, 1, {0, 2}), chance_below(pairs, 2, {0, 1})
    (0.02, 0.01, 1.0)
    """
    return min(
        (
            pair.adjusted_p_value
            for pair in pairs
            if pair.ordered[1] == sample and pair.ordered[0] in others and pair.difference
        ),
        default=1.0,
    )


def _chance_of_set(table: FloatArray) -> float:
    """Chance of samples as far apart if none of them differ."""
    if not informative_rows(table).size:
        return 1.0
    _, statistics, largest = _standings(table)
    return _chance(largest, float(statistics.max()))
