"""Discrimination protocols: what a taster is asked, and what guessing scores."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from builder.language import Deferred


class Question(StrEnum):
    """The family that a protocol belongs to."""

    TRIANGLE = "triangle"
    DUO_TRIO = "duo-trio"
    CHOICE = "choice"


@dataclass(frozen=True, slots=True)
class Protocol:
    """A discrimination protocol.

    alternatives: cups to choose from [1]; guess: share of correct answers by guessing alone
    [1]; two_sided: either sample may turn out ahead (nobody is "correct").
    """

    name: str
    question: Question
    alternatives: int
    two_sided: bool = False

    @property
    def guess(self) -> float:
        """Share of correct answers by guessing alone [1]."""
        return 1 / self.alternatives


TRIANGLE = Protocol(Deferred("triangle"), Question.TRIANGLE, 3)
DUO_TRIO = Protocol(Deferred("duo-trio"), Question.DUO_TRIO, 2)
PAIRED = Protocol(Deferred("paired comparison"), Question.CHOICE, 2)
PAIRED_EITHER_WAY = Protocol(
    Deferred("paired comparison, either way"), Question.CHOICE, 2, two_sided=True
)


def forced_choice(alternatives: int) -> Protocol:
    """Make an m-alternative forced choice: which of m cups has more of a named attribute.

    alternatives: cups m [1], 2 to 10. Raises ValueError outside that range.

    >>> forced_choice(3).name
    '3-AFC'
    """
    if not 2 <= alternatives <= 10:
        raise ValueError(f"alternatives must be from 2 to 10 cups, not {alternatives}")
    return Protocol(f"{alternatives}-AFC", Question.CHOICE, alternatives)
