"""Which duration: the best tried and its rivals, and the next experiment worth cooking."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, sqrt

import numpy as np
from numpy.typing import ArrayLike

from builder.engine.methods import method
from builder.language import tr
from builder.tasting.discrimination import check_share
from builder.tasting.durations import (
    FEWEST_DURATIONS,
    FEWEST_TASTERS,
    DurationCurve,
    Shape,
    check_hours,
    duration_curve,
)
from builder.tasting.pairs import Pair, all_pairs, chance_below
from builder.tasting.score_tables import FloatArray, informative_rows, score_table
from builder.tasting.scores import score_anova


@dataclass(frozen=True, slots=True)
class BestTried:
    """The sample with the highest mean and those that can't be told from the best.

    p_values: for each sample, the chance of any other as far above it, every pair counted.
    """

    best: int
    rivals: tuple[int, ...]
    p_values: tuple[float, ...]
    means: tuple[float | None, ...]


@method(
    unit="1",
    source="after Hsu, Multiple Comparisons, 1996 (comparisons with the best) [from memory], with"
    " rearrangement within tasters in place of normal errors",
    title="Samples not distinguishable from the best",
)
def not_distinguishable_from_best(
    scores: ArrayLike, alpha: float = 0.05, pairs: Sequence[Pair] | None = None
) -> BestTried:
    """Which samples may be the best, as far as this panel can tell.

    A sample drops out when another is told apart above it with p <= alpha, every pair counted
    (see all pairs of samples). Departure: permutation in place of the source's normal theory.

    Parameters: scores: tasters by samples [points], empty where missing. alpha: [1], above 0 and
    below 1. pairs: of these samples, compared in a table that holds others too; those of scores
    if none.
    Errors: ValueError outside that or when nothing is scored.

    >>> scores = [[1, 8, 9], [2, 9, 8], [1, 7, 9], [3, 8, 8], [1, 9, 7]]
    >>> not_distinguishable_from_best(scores).rivals
    (1, 2)
    """
    table = score_table(scores)
    check_share("alpha", alpha)
    means = score_anova(table).adjusted_means
    compared = all_pairs(table) if pairs is None else pairs
    columns = range(len(means))
    p_values = tuple(chance_below(compared, column, columns) for column in columns)
    best = max(columns, key=lambda column: _or_lowest(means[column]))
    scored = [column for column in columns if means[column] is not None]
    rivals = tuple(column for column in scored if p_values[column] > alpha or column == best)
    return BestTried(best, rivals, p_values, means)


def _or_lowest(value: float | None) -> float:
    """Round so that the first of equal means wins, whatever the last bit says."""
    return -np.inf if value is None else round(value, 9)


@dataclass(frozen=True, slots=True)
class NextCook:
    """The next experiment worth cooking: durations to add [h], tasters to have [1 or None]."""

    hours: tuple[float, ...]
    tasters: int | None
    reason: str


@dataclass(frozen=True, slots=True)
class DurationStudy:
    """All that scores over durations support; `curve` is None where none may be drawn."""

    tasters: int
    hours: tuple[float, ...]
    curve: DurationCurve | None
    best_tried: BestTried
    next_cook: NextCook | None
    note: str
    told: bool = True  # whether anybody told two durations apart


def kitchen_hours(hours: float) -> float:
    """Hours as a kitchen sets them: quarters below 6 h, halves below 12 h, else whole.

    >>> kitchen_hours(5.3), kitchen_hours(35.5)
    (5.25, 36.0)
    """
    step = 0.25 if hours < 6 else 0.5 if hours < 12 else 1.0
    return max(step, round(hours / step) * step)


def beyond(times: FloatArray, longer: bool) -> float:
    """One step past an end, in the ratio of the last two durations, at most doubling."""
    ratio = 2.0
    if len(times) > 1:
        pair = (times[-2], times[-1]) if longer else (times[0], times[1])
        ratio = min(2.0, max(1.25, float(pair[1] / pair[0])))
    return kitchen_hours(float(times[-1]) * ratio if longer else float(times[0]) / ratio)


def _widest_gap(times: FloatArray) -> float:
    """Geometric middle of the widest gap in ratio."""
    gap = int(np.argmax(times[1:] / times[:-1]))
    return kitchen_hours(sqrt(float(times[gap] * times[gap + 1])))


def _fill_up(times: FloatArray, best: int) -> tuple[float, ...]:
    """Durations to add until there are four: past the best's end first, then into gaps."""
    have = times
    while len(have) < FEWEST_DURATIONS:
        at_start, at_end = times[best] == have[0], times[best] == have[-1]
        new = beyond(have, longer=True) if at_end else beyond(have, longer=False)
        if not (at_start or at_end):
            new = _widest_gap(have)
        if new in have:
            new = kitchen_hours(float(have[-1]) * 1.5)
        have = np.sort(np.append(have, new))
    return tuple(float(hour) for hour in have if hour not in times)


def _tasters_for_curvature(curve: DurationCurve, tasters: int) -> int | None:
    """Tasters with whom the curvature, were it as fitted, would be established."""
    error = sqrt(curve.fit.curvature_variance)
    if curve.fit.curvature >= 0:
        return None
    ratio = curve.fit.critical(curve.confidence) * error / -curve.fit.curvature
    return ceil(tasters * ratio**2) if ratio < 4 else None


def _next_with_curve(curve: DurationCurve, times: FloatArray, tasters: int) -> NextCook | None:
    if curve.shape is Shape.RISING:
        return NextCook((beyond(times, longer=True),), None, tr("the longest still gains"))
    if curve.shape is Shape.FALLING:
        return NextCook((beyond(times, longer=False),), None, tr("the shortest is still the best"))
    if not curve.fits:
        gap = _widest_gap(times)
        return NextCook((gap,), None, tr("the curve does not fit: fill the widest gap"))
    if curve.shape is Shape.PEAK and curve.limits is not None and curve.best is not None:
        if curve.limits_inside and curve.limits[1] - curve.limits[0] <= np.diff(times).max():
            return None
        near = {kitchen_hours(float(h)) for h in (*curve.limits, curve.best)}
        inside = sorted(h for h in near if times[0] <= h <= times[-1] and h not in times)
        return NextCook(tuple(inside), 2 * tasters, tr("the best time has wide limits"))
    needed = _tasters_for_curvature(curve, tasters)
    if needed is not None:
        return NextCook((), needed, tr("the curve bends, but too weakly for this many tasters"))
    ends = (beyond(times, longer=False), beyond(times, longer=True))
    return NextCook(ends, None, tr("nothing bends between these durations: spread them wider"))


def _study_note(table: FloatArray, telling: int) -> str:
    if table.shape[1] < 2:
        return tr("one duration only: nothing to compare")
    if telling == 0:
        return tr("nobody told any two durations apart")
    if table.shape[1] < FEWEST_DURATIONS:
        return tr(
            "a curve needs at least {fewest_durations} durations", fewest_durations=FEWEST_DURATIONS
        )
    if telling < FEWEST_TASTERS:
        return tr(
            "a curve needs at least {fewest_tasters} tasters who told durations apart",
            fewest_tasters=FEWEST_TASTERS,
        )
    return tr("no spread is left between tasters to draw a band from")


@method(
    unit="h",
    source="common practice, no published source (what to cook next)",
    title="Study of durations",
)
def study_durations(
    scores: ArrayLike,
    hours: Sequence[float],
    log_time: bool = False,
    confidence: float = 0.95,
    pairs: Sequence[Pair] | None = None,
) -> DurationStudy:
    """Put the curve, the best duration tried, its rivals and the next cook together.

    Next: with fewer than four durations those that are missing, past an end that is the
    best; with a curve that still rises or falls one step past that end; with a wide or
    missing peak more tasters or durations near it. None when the best is located closely.

    Parameters: scores: tasters by durations [points], empty where missing. hours: one per column
    [h], above 0, rising. confidence: [1], 0.5 to below 1. pairs: of the durations, compared in a
    table that holds other samples too; those of scores if none.
    Errors: ValueError outside those ranges.

    >>> study_durations([[3, 5], [4, 6]], [24, 36]).note
    'a curve needs at least 4 durations'
    """
    table = score_table(scores)
    times = check_hours(hours, table.shape[1])
    best = not_distinguishable_from_best(table, 1 - confidence, pairs)
    curve = duration_curve(table, hours, log_time, confidence)
    telling = len(informative_rows(table))
    tasters = int((~np.isnan(table)).any(axis=1).sum())
    common = tasters, tuple(float(hour) for hour in times)
    if curve:
        return DurationStudy(*common, curve, best, _next_with_curve(curve, times, tasters), "")
    note = _study_note(table, telling)
    if len(times) < FEWEST_DURATIONS:
        following = NextCook(_fill_up(times, best.best), None, note)
    else:
        following = NextCook((), max(2 * tasters, 6), note)
    return DurationStudy(*common, None, best, following, note, told=telling > 0)
