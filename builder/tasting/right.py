"""Just-about-right answers: shares, and the window of durations in which texture is right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from builder.engine.methods import method
from builder.language import Deferred, clauses, tr
from builder.tasting.draws import random_words
from builder.tasting.score_tables import FloatArray, score_table, sorted_rows
from builder.tasting.thurstone import clopper_pearson

_RESAMPLES = 1_000
# A sum of shares that meets the limit exactly is not to miss it by rounding.
_HAIR = 1e-9
BOTH_ENDS = Deferred("both ends")
"""Stands in a note for the words of the scale's ends, which only a sentence knows."""
AGAINST_TIME = Deferred("the answers do not change one way with time, so no window is drawn")
POOLED = Deferred("neighbouring durations are pooled where the answers go against time")


@dataclass(frozen=True, slots=True)
class AnswerShare:
    """Count, share [1] and exact limits of one answer; None where nobody answered."""

    count: int
    share: float | None
    lower: float | None
    upper: float | None


@dataclass(frozen=True, slots=True)
class RightShares:
    """Answers to one just-about-right question on one sample."""

    sample: int
    answers: int
    below: AnswerShare
    right: AnswerShare
    above: AnswerShare


def _share(count: int, answers: int, confidence: float) -> AnswerShare:
    if not answers:
        return AnswerShare(0, None, None, None)
    return AnswerShare(count, count / answers, *clopper_pearson(count, answers, confidence))


def _right_shares(sample: int, column: FloatArray, confidence: float) -> RightShares:
    there = column[~np.isnan(column)]
    counts = [int((np.sign(there) == sign).sum()) for sign in (-1, 0, 1)]
    below, right, above = (_share(count, there.size, confidence) for count in counts)
    return RightShares(sample, there.size, below, right, above)


@method(
    unit="1",
    source="ASTM MNL63, Just-About-Right Scales, 2009 [from memory]",
    title="Just-about-right shares",
)
def just_about_right_shares(
    answers: ArrayLike, confidence: float = 0.95
) -> tuple[RightShares, ...]:
    """Shares of answers below, at and above "just about right", never a mean.

    Each share with exact (Clopper-Pearson) limits of its own.

    Parameters: answers: tasters by samples, 0 for right, negative below (too firm), positive above
    (falling apart), empty where missing. confidence: [1], above 0 and below 1.
    Errors: ValueError outside that.

    >>> just_about_right_shares([[0], [-1], [0], [2]])[0].right.share
    0.5
    """
    table = score_table(answers)
    return tuple(_right_shares(sample, column, confidence) for sample, column in enumerate(table.T))


@dataclass(frozen=True, slots=True)
class WindowEnd:
    """One end of the window [h].

    `hours` is None when the end was not located within the durations tried; `lower`,
    `upper`: limits over resampled tasters, no tighter than the durations tried on either
    side of it; None where a limit lies outside what was tried.
    """

    hours: float | None
    lower: float | None
    upper: float | None


@dataclass(frozen=True, slots=True)
class RightWindow:
    """Durations in which few find the texture off.

    `fewest`: answers on the duration with fewest. `exists`: whether any duration tried or
    between qualifies. Not located: at the start,
    the shortest duration tried was right already; at the end, the longest was still right.
    `note` says so in words. `times`: the durations tried; `right_at`: those of them that lie
    within it; `below_at`, `above_at`: the nearest on either side that more than `limit` found
    too firm, or too soft.
    """

    tasters: int
    fewest: int
    limit: float
    confidence: float
    exists: bool
    start: WindowEnd
    end: WindowEnd
    tried: tuple[float, float]
    note: str
    times: tuple[float, ...] = ()
    right_at: tuple[float, ...] = ()
    below_at: float | None = None
    above_at: float | None = None


def _rising(shares: FloatArray, weights: FloatArray) -> FloatArray:
    """Least-squares shares that never fall [... by durations], by the max-min formula."""
    mass = np.cumsum(weights, axis=-1)
    total = np.cumsum(shares * weights, axis=-1)
    pad = [(0, 0)] * (shares.ndim - 1) + [(1, 0)]
    mass, total = np.pad(mass, pad), np.pad(total, pad)
    places = range(shares.shape[-1])
    fitted = np.full(shares.shape, -np.inf)
    for first in places:
        means = (total[..., first + 1 :] - total[..., [first]]) / (
            mass[..., first + 1 :] - mass[..., [first]]
        )
        least = np.minimum.accumulate(means[..., ::-1], axis=-1)[..., ::-1]
        fitted[..., first:] = np.maximum(fitted[..., first:], least)
    return fitted


def _crossing(hours: FloatArray, rising: FloatArray, limit: float) -> FloatArray:
    """Last time at which rising shares [draws by durations] are within the limit.

    Infinity where they are to the end, minus infinity where even the first is past it.
    """
    past = rising > limit + _HAIR
    first = np.argmax(past, axis=1)
    draws, before = np.arange(len(rising)), np.maximum(first - 1, 0)
    low, high = rising[draws, before], rising[draws, first]
    step = np.where(high > low, high - low, 1.0)
    part = np.maximum(0.0, (limit - low) / step)
    found = hours[before] + part * (hours[first] - hours[before])
    found = np.where(first == 0, -np.inf, found)
    return np.where(past.any(axis=1), found, np.inf)


@dataclass(frozen=True, slots=True)
class _Shares:
    """Shares too firm and too soft [draws by durations], as counted, and how many answered."""

    below: FloatArray
    above: FloatArray
    counts: FloatArray

    @staticmethod
    def of(signs: FloatArray) -> _Shares:
        """Count answers [draws by tasters by durations]."""
        counts = np.maximum((~np.isnan(signs)).sum(axis=1), 1).astype(np.float64)
        below, above = ((side * signs > 0).sum(axis=1) / counts for side in (-1, 1))
        return _Shares(below, above, counts)

    def in_step(self) -> tuple[FloatArray, FloatArray]:
        """Too firm made to fall, too soft to rise with time, neighbours pooled where not."""
        backwards = _rising(self.below[:, ::-1], self.counts[:, ::-1])
        return backwards[:, ::-1], _rising(self.above, self.counts)


def _ends(hours: FloatArray, shares: _Shares, limit: float) -> tuple[FloatArray, FloatArray]:
    """Start and end of the window of each draw; ∓infinity where it is open on that side."""
    below, above = shares.in_step()
    # "Too firm" falls with time: read backwards it rises.
    start = -_crossing(-hours[::-1], below[:, ::-1], limit)
    return start, _crossing(hours, above, limit)


def _quantiles(found: FloatArray, confidence: float) -> tuple[float | None, float | None]:
    """Order statistics of resampled ends; those not located lie outside on their side."""
    values = np.sort(found)
    tail = (1 - confidence) / 2
    low = float(values[int(np.floor(tail * (len(values) - 1)))])
    high = float(values[int(np.ceil((1 - tail) * (len(values) - 1)))])
    return (low if np.isfinite(low) else None), (high if np.isfinite(high) else None)


def _window_end(
    times: FloatArray, hours: float | None, lower: float | None, upper: float | None
) -> WindowEnd:
    """An end with its limits: between two durations tried nothing is known of the way."""
    if hours is None:
        return WindowEnd(None, lower, upper)
    before, after = times[times <= hours + _HAIR].max(), times[times >= hours - _HAIR].min()
    return WindowEnd(
        hours,
        None if lower is None else float(min(lower, before)),
        None if upper is None else float(max(upper, after)),
    )


def _at_tried(
    times: FloatArray, shares: _Shares, limit: float, ends: Sequence[float]
) -> dict[str, Any]:
    """The durations tried within a window, and the nearest that counts put out on either side."""
    inside = (times >= ends[0] - _HAIR) & (times <= ends[1] + _HAIR)
    early = times[(times < ends[0]) & (shares.below[0] > limit + _HAIR)]
    late = times[(times > ends[1]) & (shares.above[0] > limit + _HAIR)]
    return {
        "times": tuple(times.tolist()),
        "right_at": tuple(times[inside].tolist()),
        "below_at": float(early[-1]) if early.size else None,
        "above_at": float(late[0]) if late.size else None,
    }


@lru_cache(maxsize=64)
def _picks(tasters: int) -> NDArray[np.intp]:
    """Which tasters each of the resampled panels holds; shared by all tastings."""
    words = random_words((_RESAMPLES, tasters), "resampled tasters")
    return (words % np.uint64(tasters)).astype(np.intp)


def _resampled_ends(
    hours: FloatArray, signs: FloatArray, limit: float
) -> tuple[FloatArray, FloatArray]:
    rows = sorted_rows(signs)
    return _ends(hours, _Shares.of(rows[_picks(len(rows))]), limit)


def _against_counts(hours: FloatArray, shares: _Shares, limit: float) -> bool:
    """Whether a window takes in what the counts put out, or the other way round."""
    start, end = (float(found[0]) for found in _ends(hours, shares, limit))
    within = np.maximum(shares.below[0], shares.above[0]) <= limit + _HAIR
    inside = (hours >= start - _HAIR) & (hours <= end + _HAIR)
    return bool((within != inside).any())


def _pooled(shares: _Shares) -> bool:
    below, above = shares.in_step()
    return not (np.allclose(below, shares.below) and np.allclose(above, shares.above))


def _window_note(exists: bool, start: float | None, end: float | None, pooled: bool) -> str:
    if not exists:
        return tr("at no duration tried were {both_ends} rare enough", both_ends=BOTH_ENDS)
    notes = []
    if start is None:
        notes.append(tr("the shortest duration tried was right already"))
    if end is None:
        notes.append(tr("the longest duration tried was still right"))
    if pooled:
        notes.append(tr(POOLED))
    return clauses(notes)


@method(
    unit="h",
    source="isotonic regression: Barlow et al., Statistical Inference under Order Restrictions,"
    " 1972; bootstrap over tasters: Efron & Tibshirani, 1993 [both from memory]",
    title="Window of right texture",
)
def right_window(
    answers: ArrayLike, hours: Sequence[float], limit: float = 0.2, confidence: float = 0.9
) -> RightWindow:
    """Durations in which at most a stated share find the texture too firm, and too soft.

    Shares "below" may only fall and shares "above" only rise with time (least squares under
    that order), straight lines between durations tried; start and end where they meet the
    limit. Limits of both ends: resampling tasters, 1,000 times, and never tighter than the
    durations tried on either side. A duration on which nobody answered counts as not tried.
    No window is drawn where it would contradict the counts at a duration tried.

    Parameters: answers: tasters by durations, 0 right, negative too firm, positive too soft, empty
    where missing. hours: one per column [h], above 0, rising. limit: share [1], above 0 and below
    0.5. confidence: [1], above 0 and below 1.
    Errors: ValueError outside those ranges.

    >>> window = right_window([[-1, 0, 1]] * 5, [12, 24, 48], limit=0.2)
    >>> round(window.start.hours, 1), round(window.end.hours, 1)
    (21.6, 28.8)
    """
    signs = np.sign(score_table(answers))
    times = np.array(hours, dtype=np.float64)
    if times.shape != (signs.shape[1],) or not (times > 0).all() or not (np.diff(times) > 0).all():
        raise ValueError("hours must be one per column, above 0 h and rising")
    if not (0 < limit < 0.5 and 0 < confidence < 1):
        raise ValueError("limit must be above 0 and below 0.5, confidence above 0 and below 1")
    there = ~np.isnan(signs)
    answered, nowhere = signs[there.any(axis=1)], WindowEnd(None, None, None)
    if not answered.size:
        tried = float(times[0]), float(times[-1])
        return RightWindow(0, 0, limit, confidence, False, nowhere, nowhere, tried, "no answers")
    answered, times = answered[:, there.any(axis=0)], times[there.any(axis=0)]
    tried = float(times[0]), float(times[-1])
    counts = len(answered), int((~np.isnan(answered)).sum(axis=0).min())
    shares = _Shares.of(answered[None])
    if _against_counts(times, shares, limit):
        note = tr(AGAINST_TIME)
        return RightWindow(*counts, limit, confidence, False, nowhere, nowhere, tried, note)
    ends = [float(found[0]) for found in _ends(times, shares, limit)]
    start, end = (None if ends[0] == -np.inf else ends[0]), (None if ends[1] == np.inf else ends[1])
    exists = (tried[0] if start is None else start) <= (tried[1] if end is None else end)
    note = _window_note(exists, start, end, _pooled(shares))
    if not exists:
        return RightWindow(*counts, limit, confidence, False, nowhere, nowhere, tried, note)
    resampled = _resampled_ends(times, answered, limit)
    first, last = (
        _window_end(times, found, *_quantiles(again, confidence))
        for found, again in zip((start, end), resampled, strict=True)
    )
    found = RightWindow(*counts, limit, confidence, True, first, last, tried, note)
    return replace(found, **_at_tried(times, shares, limit, ends))
