"""Which durations are out, which may be right, which came closest, and what to cook next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import sqrt

import numpy as np
from numpy.typing import ArrayLike
from scipy.stats import binom

from builder.engine.methods import method
from builder.tasting.comparisons import holm_adjusted
from builder.tasting.durations import check_hours
from builder.tasting.pairs import all_pairs, told_below
from builder.tasting.scores import score_anova
from builder.tasting.studies import beyond, kitchen_hours
from builder.tasting.tables import FloatArray, score_table

_HAIR = 1e-9
_WIDE_GAP = 1.3
_MOST_MORE = 60


class Fault(StrEnum):
    """Why a duration is out."""

    TOO_EARLY = "too many find it at the low end of the scale"
    TOO_LATE = "too many find it at the high end of the scale"
    LESS = "others score above it"


@dataclass(frozen=True, slots=True)
class Question:
    """A just-about-right question: answers [tasters by durations], and the share [1] who may
    find either end.
    """

    answers: ArrayLike
    limit: float


@dataclass(frozen=True, slots=True)
class Counts:
    """Answers of one duration to one question."""

    early: int
    right: int
    late: int

    @property
    def answers(self) -> int:
        """How many answered."""
        return self.early + self.right + self.late

    def within(self, limit: float) -> bool:
        """Whether both ends are as rare as asked, as counted."""
        return max(self.early, self.late) <= limit * self.answers + _HAIR


@dataclass(frozen=True, slots=True)
class Judged:
    """One duration: `faults` name the question by its number, None for the score."""

    place: int
    hours: float
    mean: float | None
    counts: tuple[Counts, ...]
    faults: tuple[tuple[Fault, int | None], ...]

    @property
    def out(self) -> bool:
        """Whether it is ruled out."""
        return bool(self.faults)

    @property
    def answers(self) -> int:
        """Fewest answers to any question."""
        return min((count.answers for count in self.counts), default=0)


class Step(StrEnum):
    """What to cook next, and why."""

    SETTLED = "one duration is left, and shown within the limits"
    MORE = "taste those left again"
    LONGER = "the longest is still at the low end"
    SHORTER = "the shortest is already at the high end"
    BETWEEN = "right lies between two that were tried"


@dataclass(frozen=True, slots=True)
class Following:
    """The next cook: `hours` to add, places to taste `again`, `more` tasters who would settle

    the closest if none finds it off (None: no such number, or not asked).
    """

    step: Step
    hours: tuple[float, ...]
    again: tuple[int, ...]
    more: int | None


@dataclass(frozen=True, slots=True)
class Shortlist:
    """What a panel says of durations; places count along the hours.

    `left`: not ruled out. `closest`: the best so far as counted, several if level. `told_apart`:
    pairs of `texture_left`, the durations not out by texture, whose answers to the first question
    differ beyond chance. `risk`: that
    any duration is ruled out which keeps the limits and is as good as the best [1].
    `fewest`: answers with which even a unanimous panel could rule out anything.
    """

    judged: tuple[Judged, ...]
    left: tuple[int, ...]
    closest: tuple[int, ...]
    texture_left: tuple[int, ...]
    told_apart: tuple[tuple[int, int], ...]
    following: Following | None
    risk: float
    fewest: int


def _counts(questions: Sequence[FloatArray], place: int) -> tuple[Counts, ...]:
    columns = [np.sign(answers[:, place]) for answers in questions]
    return tuple(
        Counts(*(int((column == side).sum()) for side in (-1, 0, 1))) for column in columns
    )


def _off_chances(counts: Sequence[Counts], limit: float) -> tuple[float, ...]:
    """Chance of so many at each end if the limit holds, after Holm: early, late, early, ..."""
    ends = [(n, count.answers) for count in counts for n in (count.early, count.late)]
    return holm_adjusted([float(binom.sf(n - 1, total, limit)) if total else 1.0
                          for n, total in ends])  # fmt: skip


def _texture_faults(
    counts: Sequence[tuple[Counts, ...]], limits: Sequence[float], level: float
) -> list[tuple[tuple[Fault, int | None], ...]]:
    """Faults of every duration in the answers to each question, at a level for each."""
    found: list[list[tuple[Fault, int | None]]] = [[] for _ in counts]
    for number, limit in enumerate(limits):
        chances = _off_chances([each[number] for each in counts], limit)
        for place, faults in enumerate(found):
            ends = zip((Fault.TOO_EARLY, Fault.TOO_LATE), chances[2 * place :][:2], strict=True)
            faults += [(fault, number) for fault, chance in ends if chance <= level]
    return [tuple(faults) for faults in found]


def _with_scores(
    faults: list[tuple[tuple[Fault, int | None], ...]], scores: ArrayLike, level: float
) -> list[tuple[tuple[Fault, int | None], ...]]:
    """Add who scores below others; one that is out already is nobody's rival."""
    left = [place for place, found in enumerate(faults) if not found]
    if left:
        chances = told_below(score_table(scores)[:, left])
        for place, chance in zip(left, chances, strict=True):
            if chance <= level:
                faults[place] = ((Fault.LESS, None),)
    return faults


def _closeness(judged: Judged, limits: Sequence[float]) -> tuple[float, ...]:
    """Sorts durations: within the limits as counted, then by score; else by right answers."""
    mean = -np.inf if judged.mean is None else round(judged.mean, 6)
    if not limits:
        return (mean,)
    tasted = [c for c in judged.counts if c.answers]
    right = round(min((c.right / c.answers for c in tasted), default=-1.0), 9)
    pairs = zip(judged.counts, limits, strict=True)
    within = bool(tasted) and all(count.within(limit) for count, limit in pairs)
    return (1.0, mean, right) if within else (0.0, right, mean)


def _closest(judged: Sequence[Judged], limits: Sequence[float]) -> tuple[int, ...]:
    keys = {each.place: _closeness(each, limits) for each in judged}
    best = max(keys.values())
    return tuple(place for place, key in keys.items() if key == best)


def _missing(count: Counts, limit: float, alpha: float) -> int | None:
    """Tasters who would show both ends within the limit if none of them complained."""
    worst = max(count.early, count.late)
    panels = np.arange(count.answers, count.answers + _MOST_MORE + 1)
    enough = np.flatnonzero(binom.cdf(worst, panels, limit) <= alpha)
    return int(enough[0]) if enough.size else None


def _more(judged: Judged, limits: Sequence[float], alpha: float) -> int | None:
    found = [_missing(c, limit, alpha) for c, limit in zip(judged.counts, limits, strict=True)]
    known = [more for more in found if more is not None]
    return max(known) if len(known) == len(found) else None


def _sides(judged: Judged) -> int:
    """−1: more complain of the low end, 1: of the high end, 0: level."""
    return int(np.sign(sum(count.late - count.early for count in judged.counts)))


def _next_without_any(judged: Sequence[Judged], times: FloatArray) -> Following:
    """What to cook where every duration is out."""
    sides = [_sides(each) for each in judged]
    if all(side < 0 for side in sides):
        return Following(Step.LONGER, (beyond(times, longer=True),), (), None)
    if all(side > 0 for side in sides):
        return Following(Step.SHORTER, (beyond(times, longer=False),), (), None)
    turns = [i for i in range(len(sides) - 1) if sides[i] < 0 < sides[i + 1]]
    if turns:
        middle = kitchen_hours(sqrt(float(times[turns[0]] * times[turns[0] + 1])))
        if middle not in times:
            return Following(Step.BETWEEN, (middle,), (), None)
    return Following(Step.MORE, (), tuple(each.place for each in judged), None)


def _new_hours(
    judged: Sequence[Judged], left: Sequence[int], closest: Judged, limits: Sequence[float]
) -> tuple[Step, tuple[float, ...]]:
    """One duration to add: past an end that is off itself, else between the closest and a rival.

    Where nothing is out yet, more tasters tell more than more durations.
    """
    times, side = np.array([each.hours for each in judged]), _sides(closest)
    off = not all(c.within(limit) for c, limit in zip(closest.counts, limits, strict=True))
    if off and closest.place == len(times) - 1 and side < 0:
        return Step.LONGER, (beyond(times, longer=True),)
    if off and closest.place == 0 and side > 0:
        return Step.SHORTER, (beyond(times, longer=False),)
    for first, second in pairwise(left if len(left) < len(judged) else ()):
        middle = kitchen_hours(sqrt(float(times[first] * times[second])))
        wide = times[second] > _WIDE_GAP * times[first]
        if closest.place in (first, second) and wide and middle not in times:
            return Step.BETWEEN, (middle,)
    return Step.MORE, ()


def _following(
    judged: Sequence[Judged], left: Sequence[int], closest: Sequence[int],
    limits: Sequence[float], times: FloatArray, alpha: float,
) -> Following | None:  # fmt: skip
    """The next cook by texture; None where no question on it was asked."""
    if not limits:
        return None
    if not left:
        return _next_without_any(judged, times)
    best = judged[closest[0]]
    more = _more(best, limits, alpha)
    if len(left) == 1 and more == 0:
        return Following(Step.SETTLED, (), (), 0)
    step, added = _new_hours(judged, left, best, limits)
    return Following(step, added, tuple(left), more)


def _told_apart(
    questions: Sequence[FloatArray], left: Sequence[int], alpha: float
) -> tuple[tuple[int, int], ...]:
    if not questions or len(left) < 2:
        return ()
    pairs = all_pairs(np.sign(questions[0][:, list(left)]))
    return tuple((left[p.first], left[p.second]) for p in pairs if p.adjusted_p_value <= alpha)


def _fewest(durations: int, limits: Sequence[float], families: int, alpha: float) -> int:
    """Smallest panel in which unanimous complaints could rule a duration out."""
    share = alpha / families / (2 * durations)
    return max((int(np.ceil(np.log(share) / np.log(limit) - _HAIR)) for limit in limits), default=0)


@method(
    unit="1",
    source="exact binomial tails and rearrangement within tasters, joined after Holm (1979) and"
    " Bonferroni: common practice, no published source for the whole",
    title="Durations that may be right",
)
def shortlist(
    hours: Sequence[float],
    scores: ArrayLike | None,
    questions: Sequence[Question],
    alpha: float = 0.05,
) -> Shortlist:
    """Rule out durations, as far as a panel can, and name the one that came closest.

    Out: more find it at one end of a just-about-right scale than the limit allows (exact
    binomial, Holm over durations and ends), or others of those that are left score above it
    (rearrangement within tasters, step by step). The risk alpha is shared equally among the
    score and the questions, so it holds for all durations together. Closest: of those left the
    one that keeps the limits as counted and scores highest; where none keeps them the one with
    most right answers.

    hours: one per column [h], above 0, rising. scores: tasters by durations [points], NaN where
    missing, None where nothing is scored. questions: see there. alpha: [1], above 0, below 1.
    Raises ValueError outside those ranges.

    >>> texture = [[-1, 0, 1], [0, 0, 1], [-1, 0, 1], [0, 0, 1], [0, -1, 1], [0, 0, 1], [0, 0, 1]]
    >>> found = shortlist([24, 48, 72], None, [Question(texture, 0.2)])
    >>> found.left, found.closest
    ((0, 1), (1,))
    """
    if not 0 < alpha < 1:
        raise ValueError(f"alpha must be above 0 and below 1, not {alpha}")
    times = check_hours(hours, len(hours))
    tables = [score_table(question.answers) for question in questions]
    limits = [question.limit for question in questions]
    counts = [_counts(tables, place) for place in range(len(times))]
    families = max(1, len(limits) + (scores is not None))
    level = alpha / families * (1 + _HAIR)
    faults = _texture_faults(counts, limits, level)
    if scores is not None:
        faults = _with_scores(faults, scores, level)
    means = _means(scores, len(times))
    rows = zip(times, means, counts, faults, strict=True)
    judged = tuple(Judged(place, float(row[0]), *row[1:]) for place, row in enumerate(rows))
    left = tuple(each.place for each in judged if not each.out)
    closest = _closest([judged[place] for place in left] or judged, limits)
    eaten = tuple(
        each.place
        for each in judged
        if each.answers and all(fault is Fault.LESS for fault, _ in each.faults)
    )
    return Shortlist(
        judged, left, closest, eaten, _told_apart(tables, eaten, alpha),
        _following(judged, left, closest, limits, times, alpha), alpha,
        _fewest(len(times), limits, families, alpha),
    )  # fmt: skip


def _means(scores: ArrayLike | None, durations: int) -> tuple[float | None, ...]:
    if scores is None or np.isnan(score_table(scores)).all():
        return (None,) * durations
    return score_anova(scores).adjusted_means
