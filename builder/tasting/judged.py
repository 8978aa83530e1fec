"""One duration as a panel judged it: its answers as counted, and what rules it out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import ArrayLike

from builder.tasting.score_tables import FloatArray

_HAIR = 1e-9


class Fault(StrEnum):
    """Why a duration is out."""

    TOO_EARLY = "too many find it at the low end of the scale"
    TOO_LATE = "too many find it at the high end of the scale"
    LESS = "others score above it"
    WORSE = "worse than the benchmark by more than the margin"


TEXTURE = (Fault.TOO_EARLY, Fault.TOO_LATE)


@dataclass(frozen=True, slots=True)
class Question:
    """A just-about-right question: answers [tasters by durations], and the share [1] who may
    find either end.
    """

    answers: ArrayLike
    limit: float


@dataclass(frozen=True, slots=True)
class Margin:
    """Durations against a benchmark: for each the chance of the answers if it is not worse by
    more than the margin [1], and with how few tasters none is shown to be.
    """

    worse: Sequence[float]
    fewest: int


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
    """One duration: `faults` name the question by its number, None for the score.

    `scored`: how many scored it.
    """

    place: int
    hours: float
    mean: float | None
    scored: int
    counts: tuple[Counts, ...]
    faults: tuple[tuple[Fault, int | None], ...]

    @property
    def out(self) -> bool:
        """Whether it is ruled out."""
        return bool(self.faults)

    @property
    def by_texture(self) -> bool:
        """Whether its texture rules it out."""
        return any(fault in TEXTURE for fault, _ in self.faults)

    @property
    def answers(self) -> int:
        """Most answers to any question, the score among them."""
        return max((self.scored, *(count.answers for count in self.counts)))


@dataclass(frozen=True, slots=True)
class Rather:
    """A duration that `above` of `both` tasters score above the closest, though its mean is lower.

    Fewer of them score it below.
    """

    place: int
    above: int
    both: int


def is_notable_majority(most: int, others: int) -> bool:
    """Whether so many tasters against the others are worth a word beside a mean.

    Two thirds, and three more: common practice, no published source.

    >>> is_notable_majority(9, 3), is_notable_majority(4, 2), is_notable_majority(2, 0)
    (True, False, False)
    """
    return most >= 2 * others and most >= others + 3


def put_above(scores: FloatArray, means: Sequence[float | None], best: int) -> tuple[Rather, ...]:
    """Samples that most tasters score above the one with the highest mean.

    scores: tasters by samples [points], empty where missing. means: [points], by sample.

    >>> put_above(np.array([[62.0, 60.0]] * 11 + [[5.0, 95.0]] * 3), [49.8, 67.5], 1)
    (Rather(place=0, above=11, both=14),)
    """
    own = means[best]
    if own is None:
        return ()
    apart = scores - scores[:, [best]]
    above, below = (apart > 0).sum(axis=0), (apart < 0).sum(axis=0)
    both = (~np.isnan(apart)).sum(axis=0)
    return tuple(
        Rather(place, int(above[place]), int(both[place]))
        for place, mean in enumerate(means)
        if is_notable_majority(int(above[place]), int(below[place])) and (mean or 0.0) < own
    )
