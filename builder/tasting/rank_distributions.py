"""Exact and sampled distributions of rank sums when no sample differs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache, reduce
from itertools import permutations

import numpy as np
from numpy.typing import NDArray

from builder.tasting.draws import random_words
from builder.tasting.score_tables import FloatArray, IntArray

# Ranks enter doubled and centred, 2 r − (p + 1), so ties stay whole numbers.
Pattern = tuple[int, ...]

MOST_STATES = 60_000
MOST_TABLE_STATES = 1_000_000
_DRAWN_CELLS = 1_000_000
MOST_DRAWS = 10_000


@dataclass(frozen=True, slots=True)
class SumStates:
    """Distribution of doubled, centred rank sums [states by samples].

    Within a state sums are sorted from the column `apart` on: when no sample differs, which
    of them is which does not matter.
    """

    sums: IntArray
    chances: FloatArray
    exact: bool


def natural_pattern(samples: int) -> Pattern:
    """Ranks of a taster without ties, doubled and centred."""
    return tuple(range(1 - samples, samples, 2))


@lru_cache(maxsize=64)
def _arrangements(pattern: Pattern) -> tuple[IntArray, FloatArray]:
    """Distinct arrangements of a pattern, each equally likely."""
    rows = np.array(sorted(set(permutations(pattern))), dtype=np.int64)
    return rows, np.full(len(rows), 1 / len(rows))


def _merge(sums: IntArray, chances: FloatArray) -> tuple[IntArray, FloatArray]:
    """Add up the chances of equal states."""
    # The last sum follows from the others, which add up to zero; those are digits of one number.
    base = 2 * int(np.abs(sums).max()) + 1
    codes = sums[:, :-1] @ base ** np.arange(sums.shape[1] - 1)
    order = np.argsort(codes)
    ordered = codes[order]
    first = np.flatnonzero(np.concatenate(([True], ordered[1:] != ordered[:-1])))
    return sums[order[first]], np.add.reduceat(chances[order], first)


def _grow(state: SumStates, pattern: Pattern, apart: int, most: int) -> SumStates | None:
    moves, shares = _arrangements(pattern)
    if len(state.sums) * len(moves) > most:
        return None
    sums = (state.sums[:, None, :] + moves[None, :, :]).reshape(-1, len(pattern))
    sums[:, apart:].sort(axis=1)
    chances = np.outer(state.chances, shares).ravel()
    return SumStates(*_merge(sums, chances), exact=True)


def _exact_states(patterns: tuple[Pattern, ...], apart: int, most: int) -> SumStates | None:
    samples = len(patterns[0])
    if samples > 7:
        return None
    state: SumStates | None = SumStates(np.zeros((1, samples), np.int64), np.ones(1), exact=True)
    for pattern in patterns:
        state = _grow(state, pattern, apart, most) if state else None
    return state


def _draws(cells: int) -> int:
    return max(2_000, min(MOST_DRAWS, _DRAWN_CELLS // cells))


@lru_cache(maxsize=512)
def _orders(row: int, count: int) -> NDArray[np.intp]:
    """Random orders of `count` things for one row of a table; shared by all tastings."""
    words = random_words((MOST_DRAWS, count), "rank permutations", row, count)
    return np.argsort(words, axis=1)


def permuted_rows(centred: FloatArray, most: int = MOST_DRAWS) -> Iterator[FloatArray]:
    """Each row in random rearrangements [draws by samples].

    centred: values less their row's mean, NaN where missing; a missing cell stays empty: 0.
    """
    draws = min(most, _draws(centred.size))
    for number, row in enumerate(centred):
        there = ~np.isnan(row)
        given = np.sort(row[there]).take(_orders(number, int(there.sum()))[:draws])
        if there.all():
            yield given
        else:
            rows = np.zeros((draws, len(row)))
            rows[:, there] = given
            yield rows


def permuted_sums(centred: FloatArray, most: int = MOST_DRAWS) -> FloatArray:
    """Column sums over random rearrangements within rows [draws by samples]."""
    none = np.zeros((min(most, _draws(centred.size)), centred.shape[1]))
    return sum(permuted_rows(centred, most), none)


@lru_cache(maxsize=64)
def rank_sum_states(
    patterns: tuple[Pattern, ...], apart: int = 0, most: int = MOST_STATES
) -> SumStates:
    """Distribution of rank sums over all rearrangements, sampled where there are too many.

    patterns: one per taster, all of the same length, in sorted order. most: states times moves
    that are counted before it is sampled.
    """
    return _exact_states(patterns, apart, most) or _drawn_states(patterns)


@lru_cache(maxsize=16)
def _drawn_states(patterns: tuple[Pattern, ...]) -> SumStates:
    """A sample of the rank sums in the columns' own order, whichever is asked to be apart."""
    drawn = np.rint(permuted_sums(np.array(patterns, dtype=np.float64))).astype(np.int64)
    return SumStates(drawn, np.full(len(drawn), 1 / len(drawn)), exact=False)


def _contrast_counts(pattern: Pattern, weights: Pattern) -> NDArray[np.float64]:
    """Distribution of Σ weight × doubled rank over arrangements, from its smallest value."""
    rows, _ = _arrangements(pattern)
    values = rows @ np.array(weights, dtype=np.int64)
    least = -int(np.dot(sorted(np.abs(pattern)), sorted(np.abs(weights))))
    return np.bincount(values - least, minlength=1 - 2 * least) / len(rows)


@lru_cache(maxsize=64)
def contrast_tail(patterns: tuple[Pattern, ...], weights: Pattern) -> FloatArray:
    """P(Σ weight × rank sum >= v) for v from −reach to reach, exactly, by convolution."""
    parts = [_contrast_counts(pattern, weights) for pattern in patterns]
    whole = reduce(np.convolve, parts)
    tail: FloatArray = np.cumsum(whole[::-1])[::-1]
    return tail
