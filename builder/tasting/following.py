"""What to cook and taste next, after what a panel found of durations."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import prod, sqrt

import numpy as np

from builder.tasting.distributions import binomial_at_most
from builder.tasting.judged import Counts, Judged
from builder.tasting.score_tables import FloatArray
from builder.tasting.studies import beyond, kitchen_hours

_WIDE_GAP = 1.3
_MOST_MORE = 60


class FollowingKind(StrEnum):
    """What to cook next, and why."""

    SETTLED = "one duration is left, and shown within the limits"
    MORE = "taste those left again"
    LONGER = "the longest is still at the low end"
    SHORTER = "the shortest is already at the high end"
    BETWEEN = "right lies between two that were tried"
    OTHER = "more than the time has to change"


@dataclass(frozen=True, slots=True)
class Following:
    """The next cook: `hours` to add, places to taste `again`, `more` tasters who would settle

    the closest if none finds it off (None: no such number, or not asked).
    """

    step: FollowingKind
    hours: tuple[float, ...]
    again: tuple[int, ...]
    more: int | None


def _missing(count: Counts, limit: float, alpha: float) -> int | None:
    """Tasters who would show both ends within the limit if none of them complained."""
    worst = max(count.early, count.late)
    panels = np.arange(count.answers, count.answers + _MOST_MORE + 1)
    enough = np.flatnonzero(binomial_at_most(worst, panels, limit) <= alpha)
    return int(enough[0]) if enough.size else None


def _more(judged: Judged, limits: Sequence[float], alpha: float) -> int | None:
    found = [_missing(c, limit, alpha) for c, limit in zip(judged.counts, limits, strict=True)]
    known = [more for more in found if more is not None]
    return None if None in found else max(known)


def complaint_side(judged: Judged) -> int:
    """−1: more complain of the low end, 1: of the high end, 0: level."""
    return int(np.sign(sum(count.late - count.early for count in judged.counts)))


def _off_at_both_ends(judged: Judged, limits: Sequence[float]) -> bool:
    """Whether too many complain of either end, as counted: no longer or shorter time mends both."""
    pairs = zip(judged.counts, limits, strict=True)
    return any(min(c.early, c.late) > limit * c.answers for c, limit in pairs)


def _at_the_turn(judged: Sequence[Judged], times: FloatArray) -> tuple[float, ...]:
    """The middle of the first two neighbours of which one is at the low end, the next at the high.

    None where nobody can cook between them.
    """
    sides = [complaint_side(each) for each in judged]
    for pair, (low, high) in zip(pairwise(times), pairwise(sides), strict=True):
        if low < 0 < high:
            middle = kitchen_hours(sqrt(float(prod(pair))))
            return () if middle in times else (middle,)
    return ()


def _next_without_any(judged: Sequence[Judged], times: FloatArray) -> Following:
    """What to cook where every duration is out."""
    sides = [complaint_side(each) for each in judged]
    if all(side < 0 for side in sides):
        return Following(FollowingKind.LONGER, (beyond(times, longer=True),), (), None)
    if all(side > 0 for side in sides):
        return Following(FollowingKind.SHORTER, (beyond(times, longer=False),), (), None)
    if turn := _at_the_turn(judged, times):
        return Following(FollowingKind.BETWEEN, turn, (), None)
    if not all(each.by_texture for each in judged):
        return Following(FollowingKind.OTHER, (), (), None)
    return Following(FollowingKind.MORE, (), tuple(each.place for each in judged), None)


def _new_hours(
    judged: Sequence[Judged], left: Sequence[int], closest: Judged, limits: Sequence[float]
) -> tuple[FollowingKind, tuple[float, ...]]:
    """One duration to add: where the answers turn or past an end, if the closest is off itself;
    else between it and the next one tried, if that is left.

    Where the closest is right as counted and nothing is out yet, more tasters tell more.
    """
    times, side = np.array([each.hours for each in judged]), complaint_side(closest)
    off = not all(c.within(limit) for c, limit in zip(closest.counts, limits, strict=True))
    if off and closest.place == len(times) - 1 and side < 0:
        return FollowingKind.LONGER, (beyond(times, longer=True),)
    if off and closest.place == 0 and side > 0:
        return FollowingKind.SHORTER, (beyond(times, longer=False),)
    if off and (turn := _at_the_turn(judged, times)):
        return FollowingKind.BETWEEN, turn
    for first, second in pairwise(left if len(left) < len(judged) else ()):
        if second > first + 1:
            continue  # one that is out was tried between them
        middle = kitchen_hours(sqrt(float(times[first] * times[second])))
        wide = times[second] > _WIDE_GAP * times[first]
        if closest.place in (first, second) and wide and middle not in times:
            return FollowingKind.BETWEEN, (middle,)
    return FollowingKind.MORE, ()


def following(
    judged: Sequence[Judged], left: Sequence[int], closest: Sequence[int],
    limits: Sequence[float], times: FloatArray, alpha: float,
) -> Following | None:  # fmt: skip
    """The next cook by texture; None where no question on it was asked."""
    if not limits:
        return None
    if all(_off_at_both_ends(each, limits) for each in judged):
        return Following(FollowingKind.OTHER, (), (), None)
    if not left:
        return _next_without_any(judged, times)
    best = judged[closest[0]]
    more = _more(best, limits, alpha)
    if len(left) == 1 and more == 0:
        return Following(FollowingKind.SETTLED, (), (), 0)
    step, added = _new_hours(judged, left, best, limits)
    return Following(step, added, tuple(left), more)
