"""Which durations are out, which may be right, which came closest, and what to cook next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from builder.engine.methods import method
from builder.tasting.comparisons import fewest_for_orders, holm_adjusted
from builder.tasting.discrimination import check_share
from builder.tasting.distributions import binomial_at_least
from builder.tasting.durations import check_hours
from builder.tasting.following import Following, following
from builder.tasting.judged import (
    Counts,
    Fault,
    Judged,
    Margin,
    Question,
    Rather,
    put_above,
)
from builder.tasting.pairs import Pair, all_pairs, chance_below
from builder.tasting.score_tables import FloatArray, score_table
from builder.tasting.scores import score_anova

_HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class Shortlist:
    """What a panel says of durations; places count along the hours.

    `left`: not ruled out. `closest`: the best so far as counted, several if level. `told_apart`:
    pairs of `texture_left`, the durations not out by texture, whose answers to the first question
    differ beyond chance. `risk`: that any duration is ruled out which keeps the limits, is as
    good as the best and no worse than the benchmark by more than the margin [1]. `level`: the
    share of it for the score, each question and the margin [1]. `fewest`: answers with which
    even a unanimous panel could rule out anything. `rather`: see there.
    """

    judged: tuple[Judged, ...]
    left: tuple[int, ...]
    closest: tuple[int, ...]
    texture_left: tuple[int, ...]
    distinguished: tuple[tuple[int, int], ...]
    following: Following | None
    risk: float
    level: float
    fewest: int
    rather: tuple[Rather, ...] = ()

    @property
    def can_rule_out(self) -> bool:
        """Whether every duration has answers enough to be ruled out if all agree."""
        return all(each.answers >= self.fewest for each in self.judged)


def _counts(questions: Sequence[FloatArray], place: int) -> tuple[Counts, ...]:
    columns = [np.sign(answers[:, place]) for answers in questions]
    return tuple(
        Counts(*(int((column == side).sum()) for side in (-1, 0, 1))) for column in columns
    )


def _off_chances(counts: Sequence[Counts], limit: float) -> tuple[float, ...]:
    """Chance of so many at each end if the limit holds, after Holm: early, late, early, ..."""
    ends = [(n, count.answers) for count in counts for n in (count.early, count.late)]
    return holm_adjusted([float(binomial_at_least(n, total, limit)) if total else 1.0
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
    faults: list[tuple[tuple[Fault, int | None], ...]], pairs: Sequence[Pair], level: float
) -> list[tuple[tuple[Fault, int | None], ...]]:
    """Add who scores below others; one that is out already is nobody's rival."""
    left = [place for place, found in enumerate(faults) if not found]
    for place in left:
        if chance_below(pairs, place, left) <= level:
            faults[place] = ((Fault.LESS, None),)
    return faults


def _with_margin(
    faults: list[tuple[tuple[Fault, int | None], ...]], worse: Sequence[float], level: float
) -> list[tuple[tuple[Fault, int | None], ...]]:
    """Add which are worse than the benchmark by more than the margin, also if out already."""
    return [
        (*found, (Fault.WORSE, None)) if chance <= level else found
        for found, chance in zip(faults, holm_adjusted(worse), strict=True)
    ]


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


def _distinguished(
    questions: Sequence[FloatArray], left: Sequence[int], alpha: float
) -> tuple[tuple[int, int], ...]:
    if not questions or len(left) < 2:
        return ()
    pairs = all_pairs(np.sign(questions[0][:, list(left)]))
    return tuple((left[p.first], left[p.second]) for p in pairs if p.adjusted_p_value <= alpha)


def _fewest(
    durations: int, limits: Sequence[float], compared: int, level: float, margin: Margin | None
) -> int:
    """Smallest panel that could rule a duration out if all agree, in any of the ways.

    compared: samples in the table that pairs of durations are taken from, 0 where none is scored.
    """
    share = level / (2 * durations)
    found = [int(np.ceil(np.log(share) / np.log(limit) - _HAIR)) for limit in limits]
    if compared and durations > 1:
        found.append(fewest_for_orders(compared, level))
    return min(found + ([margin.fewest] if margin else []), default=0)


def _rather(
    scores: ArrayLike | None, judged: Sequence[Judged], left: Sequence[int], closest: int
) -> tuple[Rather, ...]:
    """Durations left that two thirds, and three more tasters, score above, against the means."""
    if scores is None:
        return ()
    table, means = score_table(scores), [each.mean for each in judged]
    return tuple(each for each in put_above(table, means, closest) if each.place in left)


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
    margin: Margin | None = None,
    means: Sequence[float | None] | None = None,
    pairs: Sequence[Pair] | None = None,
    compared: int | None = None,
) -> Shortlist:
    """Rule out durations, as far as a panel can, and name the one that came closest.

    Out: more find it at one end of a just-about-right scale than the limit allows (exact
    binomial, Holm over durations and ends), or it is worse than the benchmark by more than the
    margin (Holm over durations), or another of those that are left scores above it (all pairs of
    samples). The risk alpha is shared equally among the score, the
    questions and the margin, so it holds for all durations together. Closest: of those left the
    one that keeps the limits as counted and scores highest; where none keeps them the one with
    most right answers.

    Parameters: hours: one per column [h], above 0, rising. scores: tasters by durations [points],
    empty where missing, none where nothing is scored. questions: of texture, each with its limit.
    alpha: [1], above 0, below 1. margin: against the benchmark, none where none was stated. means:
    [points], of a table that holds other samples too; those of scores if none. pairs: of the
    durations, compared in such a table; those of scores if none. compared: samples in the table
    of those pairs [1], the durations among them; the durations alone if none.
    Errors: ValueError outside those ranges.

    >>> texture = [[-1, 0, 1], [0, 0, 1], [-1, 0, 1], [0, 0, 1], [0, -1, 1], [0, 0, 1], [0, 0, 1]]
    >>> found = shortlist([24, 48, 72], None, [Question(texture, 0.2)])
    >>> found.left, found.closest
    ((0, 1), (1,))
    """
    check_share("alpha", alpha)
    times = check_hours(hours, len(hours))
    tables = [score_table(question.answers) for question in questions]
    limits = [question.limit for question in questions]
    counts = [_counts(tables, place) for place in range(len(times))]
    families = max(1, len(limits) + (scores is not None) + (margin is not None))
    level = alpha / families
    faults = _texture_faults(counts, limits, level * (1 + _HAIR))
    if margin is not None:
        faults = _with_margin(faults, margin.worse, level * (1 + _HAIR))
    if scores is not None:
        found = all_pairs(scores) if pairs is None else pairs
        faults = _with_scores(faults, found, level * (1 + _HAIR))
    of_scores, scored = _means(scores, len(times))
    rows = zip(times, of_scores if means is None else means, scored, counts, faults, strict=True)
    judged = tuple(Judged(place, float(row[0]), *row[1:]) for place, row in enumerate(rows))
    left = tuple(each.place for each in judged if not each.out)
    closest = _closest([judged[place] for place in left] or judged, limits)
    eaten = tuple(each.place for each in judged if any(c.answers for c in each.counts)
                  and not each.by_texture)  # fmt: skip
    return Shortlist(
        judged, left, closest, eaten, _distinguished(tables, eaten, alpha),
        following(judged, left, closest, limits, times, alpha), alpha, level,
        _fewest(len(times), limits, (compared or len(times)) * (scores is not None), level, margin),
        _rather(scores, judged, left, closest[0]),
    )  # fmt: skip


def _means(
    scores: ArrayLike | None, durations: int
) -> tuple[tuple[float | None, ...], tuple[int, ...]]:
    """Means of the durations, and how many scored each."""
    if scores is None or np.isnan(score_table(scores)).all():
        return (None,) * durations, (0,) * durations
    there = (~np.isnan(score_table(scores))).sum(axis=0)
    return score_anova(scores).adjusted_means, tuple(int(count) for count in there)
