"""Ranks within tasters: Friedman, comparisons with the benchmark, Page's trend."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import chdtrc, ndtr, ndtri

from builder.engine.methods import method
from builder.language import tr
from builder.tasting.rank_distributions import (
    MOST_TABLE_STATES,
    Pattern,
    SumStates,
    contrast_tail,
    natural_pattern,
    permuted_sums,
    rank_sum_states,
)
from builder.tasting.score_tables import (
    FloatArray,
    check_column,
    complete_rows,
    informative_rows,
    rank_within_tasters,
    score_table,
    sorted_rows,
)

# Statistics nearer than this, relative to 1, are equal but for rounding.
_HAIR = 1e-9
MOST_TREND_SAMPLES = 8


@dataclass(frozen=True, slots=True)
class FriedmanTest:
    """Do tasters rank the samples alike?

    `informative`: tasters who told any two samples apart; the others change nothing.
    `exact`: every rearrangement was counted, else 2,000 to 10,000 fixed random ones.
    `chi_square_p_value` is the large-panel approximation, None where it has no degrees.
    """

    tasters: int
    informative: int
    samples: int
    statistic: float
    degrees: int
    p_value: float
    chi_square_p_value: float | None
    exact: bool
    mean_ranks: tuple[float | None, ...]
    note: str


def _centred(ranks: FloatArray) -> FloatArray:
    """Ranks less the mean rank of their row."""
    centred: FloatArray = ranks - np.nanmean(ranks, axis=1, keepdims=True)
    return centred


def _patterns(centred: FloatArray) -> tuple[Pattern, ...]:
    """Each row's ranks doubled, centred and sorted; the rows sorted too."""
    doubled = np.rint(2 * np.sort(centred, axis=1)).astype(int)
    return tuple(sorted(tuple(int(value) for value in row) for row in doubled))


def _covariance(centred: FloatArray) -> FloatArray:
    """Covariance of the rank sums when every row's ranks are rearranged at random."""
    there = ~np.isnan(centred)
    total = np.zeros((centred.shape[1],) * 2)
    for row, present in zip(np.nan_to_num(centred), there, strict=True):
        count = int(present.sum())
        variance = float((row**2).sum()) / (count - 1)
        total += variance * (np.diag(present * 1.0) - np.outer(present, present) / count)
    return total


def upper_tail(values: FloatArray, chances: FloatArray, exact: bool, observed: float) -> float:
    """Chance of a value as large as the observed one."""
    reached = values >= observed - _HAIR * max(1.0, abs(observed))
    share = float(chances[reached].sum())
    # Sampled: the observed arrangement is one of those possible, so p is never 0.
    return min(1.0, share if exact else (share * len(values) + 1) / (len(values) + 1))


def _complete_tail(centred: FloatArray, statistic: float) -> tuple[float, bool]:
    states = rank_sum_states(_patterns(centred))
    spread = float((centred**2).sum()) / (centred.shape[1] - 1)
    values = (states.sums.astype(np.float64) ** 2).sum(axis=1) / 4 / spread
    return upper_tail(values, states.chances, states.exact, statistic), states.exact


def _incomplete_tail(centred: FloatArray, inverse: FloatArray, statistic: float) -> float:
    sums = permuted_sums(centred)
    values: FloatArray = np.einsum("di,ij,dj->d", sums, inverse, sums)
    return upper_tail(values, np.full(len(values), 1 / len(values)), False, statistic)


def _mean_ranks(ranks: FloatArray) -> tuple[float | None, ...]:
    """Mean rank of each sample, as `friedman_test` says; None where nobody ranked it."""
    among = (~np.isnan(ranks)).sum(axis=1, keepdims=True)
    brought = ranks * (ranks.shape[1] + 1) / (among + 1)
    columns = [column[~np.isnan(column)] for column in brought.T]
    return tuple(float(column.mean()) if column.size else None for column in columns)


@method(
    unit="1",
    source="ISO 8587 (Friedman) [from memory]; Benard & van Elteren, Indagationes Mathematicae"
    " 15, 1953 (ties and missing ranks) [from memory]",
    title="Friedman test",
)
def friedman_test(scores: ArrayLike) -> FriedmanTest:
    """Rank test of whether samples differ, each taster a block.

    T = u′ V⁻ u with u the rank sums less their expectation, V their covariance under random
    rearrangement within tasters. Complete without ties it is Friedman's
    12 / (J p (p + 1)) Σ R² − 3 J (p + 1); with ties the tie-corrected form; with missing
    scores Durbin's test and its relatives. p by the distribution over all rearrangements.

    A rank among k of p samples enters the mean rank (p + 1) / (k + 1) times as large: as it would
    be among all p on average.

    Parameters: scores: tasters by samples [any scale, each taster their own], empty where missing.
    Errors: ValueError unless it is such a table.

    >>> round(friedman_test([[1, 2, 3]] * 5).p_value, 6)
    0.000772
    """
    ranks = rank_within_tasters(scores)
    # Sorted, so that sums of fractions don't depend on who is listed first.
    rows = sorted_rows(informative_rows(ranks))
    means = _mean_ranks(ranks)
    if not rows.size:
        note = (
            tr("one sample only") if ranks.shape[1] < 2 else tr("nobody told any two samples apart")
        )
        return FriedmanTest(len(ranks), 0, ranks.shape[1], 0.0, 0, 1.0, None, True, means, note)
    centred = _centred(rows)
    covariance = _covariance(centred)
    sums = np.nansum(centred, axis=0)
    inverse: FloatArray = np.linalg.pinv(covariance, hermitian=True).astype(np.float64)
    degrees = int(np.linalg.matrix_rank(covariance, hermitian=True))
    statistic = float(sums @ inverse @ sums)
    if np.isnan(centred).any():
        p_value, exact = _incomplete_tail(centred, inverse, statistic), False
    else:
        p_value, exact = _complete_tail(centred, statistic)
    return FriedmanTest(
        tasters=len(ranks),
        informative=len(rows),
        samples=ranks.shape[1],
        statistic=statistic,
        degrees=degrees,
        p_value=p_value,
        chi_square_p_value=float(chdtrc(degrees, statistic)),
        exact=exact,
        mean_ranks=means,
        note="" if len(ranks) > 1 else tr("one taster only"),
    )


def _natural_states(samples: int, tasters: int) -> SumStates:
    if not (2 <= samples <= 7 and 1 <= tasters <= 50):
        raise ValueError(
            f"samples must be from 2 to 7 and tasters from 1 to 50, not {samples}, {tasters}"
        )
    return rank_sum_states((natural_pattern(samples),) * tasters, most=MOST_TABLE_STATES)


@method(
    unit="1",
    source="exact enumeration; ISO 8587 prints such limits [from memory]",
    title="Friedman limit for small panels",
)
def friedman_limit(samples: int, tasters: int, alpha: float) -> float | None:
    """Smallest Friedman statistic that is significant at alpha, without ties.

    Parameters: samples: [1], 2 to 7. tasters: [1], 1 to 50. alpha: [1], above 0 and below 1. None
    where no statistic is large enough.
    Errors: ValueError outside those ranges.

    >>> round(friedman_limit(3, 5, 0.05), 2)
    6.4
    """
    states = _natural_states(samples, tasters)
    scale = 3 / (tasters * samples * (samples + 1))
    statistics, place = np.unique(
        scale * (states.sums**2).sum(axis=1).round(9), return_inverse=True
    )
    tails = np.cumsum(np.bincount(place, weights=states.chances)[::-1])[::-1]
    enough = statistics[tails <= alpha * (1 + _HAIR)]
    return float(enough[0]) if enough.size else None


@dataclass(frozen=True, slots=True)
class RankComparison:
    """One sample against the benchmark by ranks.

    above, below, alike: tasters who put the sample there; rank_sum_difference [ranks].
    """

    sample: int
    rank_sum_difference: float
    above: int
    below: int
    alike: int
    adjusted_p_value: float


@dataclass(frozen=True, slots=True)
class BenchmarkRanks:
    """All samples against the benchmark by ranks; tasters who scored all samples."""

    benchmark: int
    tasters: int
    exact: bool
    comparisons: tuple[RankComparison, ...]


def largest_difference(rows: FloatArray, apart: int = 1) -> tuple[FloatArray, FloatArray, bool]:
    """Distribution of the largest rank-sum difference to one sample, none differing.

    rows: ranks without gaps. apart: 0 for the largest of any two samples.
    """
    if not rows.size:
        return np.zeros(1), np.ones(1), True
    states = rank_sum_states(_patterns(_centred(rows)), apart=apart)
    steps = states.sums - states.sums[:, :1] if apart else np.ptp(states.sums, axis=1)[:, None]
    largest: FloatArray = np.abs(steps).max(axis=1) / 2.0
    return largest, states.chances, states.exact


@method(
    unit="1",
    source="Hollander & Wolfe, Nonparametric Statistical Methods, 2nd ed. 1999, section 7.4 (many"
    " to one, rank sums) [from memory]",
    title="Rank comparisons with the benchmark",
)
def benchmark_ranks(scores: ArrayLike, benchmark: int) -> BenchmarkRanks:
    """Compare every sample's rank sum with the benchmark's, all at once.

    Adjusted p = P(largest |R_i − R_b| over the samples >= the observed one) over all
    rearrangements within tasters. Read it after a Friedman test that shows a difference.

    Parameters: scores: tasters by samples [any scale], tasters with a missing score are left out.
    benchmark: number of its column.
    Errors: ValueError outside that.

    >>> [c.above for c in benchmark_ranks([[1, 2, 3], [1, 3, 2]], 0).comparisons]
    [2, 2]
    """
    table = score_table(scores)
    check_column("benchmark", benchmark, table)
    ranks = rank_within_tasters(complete_rows(table)) if complete_rows(table).size else table[:0]
    largest, chances, exact = largest_difference(informative_rows(ranks))
    found = []
    for column in range(table.shape[1]):
        if column == benchmark:
            continue
        steps = ranks[:, column] - ranks[:, benchmark]
        total = float(steps.sum())
        counts = int((steps > 0).sum()), int((steps < 0).sum()), int((steps == 0).sum())
        p_value = upper_tail(largest, chances, exact, abs(total))
        found.append(RankComparison(column, total, *counts, p_value))
    return BenchmarkRanks(benchmark, len(ranks), exact, tuple(found))


@method(
    unit="ranks",
    source="ISO 8587 [formula from memory]",
    title="Least significant difference of rank sums",
)
def least_significant_rank_difference(tasters: int, samples: int, alpha: float = 0.05) -> float:
    """Rank-sum difference that two samples named beforehand need at the level alpha.

    z × √(J p (p + 1) / 6). Not for picking the largest of several differences afterwards.

    Parameters: tasters J: [1], 1 or more. samples p: [1], 2 or more. alpha: [1], above 0 and below
    1.
    Errors: ValueError outside those ranges.

    >>> round(least_significant_rank_difference(10, 4), 2)
    11.32
    """
    if tasters < 1 or samples < 2 or not 0 < alpha < 1:
        raise ValueError("tasters must be 1 or more, samples 2 or more, alpha above 0 and below 1")
    return float(-ndtri(alpha / 2)) * sqrt(tasters * samples * (samples + 1) / 6)


@dataclass(frozen=True, slots=True)
class PageTrend:
    """Do scores rise along an order stated beforehand? `tasters`: those who scored all.

    `falling`: the chance [1], if there is no trend, that they fall as steeply.
    """

    tasters: int
    informative: int
    samples: int
    statistic: float
    p_value: float
    exact: bool
    note: str
    falling: float


def _normal_trend(centred: FloatArray, weights: FloatArray) -> float:
    """Tail of the normal approximation, the variance that of the ties at hand."""
    observed = float((centred @ weights).sum())
    row_variances = (centred**2).sum(axis=1) / (centred.shape[1] - 1)
    deviation = sqrt(float(row_variances.sum()) * float((weights**2).sum()))
    return float(ndtr(-observed / deviation))


def _trend_p(rows: FloatArray) -> tuple[float, bool]:
    if not rows.size:
        return 1.0, True
    centred = _centred(rows)
    weights = natural_pattern(rows.shape[1])
    if rows.shape[1] > MOST_TREND_SAMPLES:
        return _normal_trend(centred, np.array(weights) / 2), False
    tail = contrast_tail(_patterns(centred), weights)
    observed = round(float((2 * centred @ np.array(weights)).sum()))
    return min(1.0, float(tail[observed + tail.size // 2])), True


@method(
    unit="1",
    source="Page, Ordered hypotheses for multiple treatments, JASA 58, 1963 [from memory]",
    title="Page's trend test",
)
def page_trend(scores: ArrayLike, order: Sequence[int] | None = None) -> PageTrend:
    """Rank test of a rise along an order of samples stated before the tasting.

    L = Σ i R_i, R_i the rank sum of the sample expected in place i; one-sided p by exact
    convolution up to 8 samples, ties kept; above by the normal approximation.

    Parameters: scores: tasters by samples [any scale], tasters with a missing score are left out.
    order: columns from the lowest expected to the highest; none: as they stand.
    Errors: ValueError when it doesn't name each column once.

    >>> page_trend([[1, 2, 3], [1, 2, 3]]).statistic
    28.0
    """
    table = score_table(scores)
    columns = list(range(table.shape[1])) if order is None else list(order)
    if sorted(columns) != list(range(table.shape[1])):
        raise ValueError(f"order must name each column from 0 to {table.shape[1] - 1} once")
    ranked = complete_rows(table)[:, columns]
    ranks = rank_within_tasters(ranked) if ranked.size else ranked
    rows = informative_rows(ranks)
    statistic = float((ranks.sum(axis=0) * np.arange(1, len(columns) + 1)).sum())
    p_value, exact = _trend_p(rows)
    note = "" if rows.size else tr("nobody who had all the samples told any two apart")
    falling = _trend_p(rows[:, ::-1])[0]
    return PageTrend(len(ranks), len(rows), len(columns), statistic, p_value, exact, note, falling)


@method(
    unit="1",
    source="Page, JASA 58, 1963; Siegel & Castellan, Nonparametric Statistics, 2nd ed. 1988"
    " [limits read]",
    title="Page limit",
)
def page_limit(samples: int, tasters: int, alpha: float) -> int | None:
    """Smallest Page's L that is significant at alpha, without ties.

    Parameters: samples: [1], 2 to 8. tasters: [1], 1 to 50. alpha: [1], above 0 and below 1. None
    where no L is large enough.
    Errors: ValueError outside those ranges.

    >>> page_limit(3, 2, 0.05)
    28
    """
    if not (2 <= samples <= MOST_TREND_SAMPLES and 1 <= tasters <= 50 and 0 < alpha < 1):
        raise ValueError("samples must be from 2 to 8, tasters from 1 to 50, alpha within 0 to 1")
    pattern = natural_pattern(samples)
    tail = contrast_tail((pattern,) * tasters, pattern)
    # Contrasts move in steps of 4 when ranks and weights are both doubled.
    enough = np.flatnonzero(tail[::4] <= alpha * (1 + _HAIR))
    if not enough.size:
        return None
    lowest = tasters * samples * (samples + 1) * (samples + 2) // 6
    return lowest + int(enough[0])
