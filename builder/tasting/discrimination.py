"""Can guests tell? Exact tests for difference and similarity, and the share who can tell."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from builder.engine.methods import method
from builder.tasting.distributions import binomial_at_least, binomial_at_most
from builder.tasting.protocols import Protocol
from builder.tasting.thurstone import clopper_pearson

# Keeps a limit that is met exactly from being missed by the last bit of a sum.
_HAIR = 1e-12
FEWEST_FOR_SIMILARITY = 18


@dataclass(frozen=True, slots=True)
class DifferenceTest:
    """The answers to "can anybody tell?".

    `minimum_correct` is None where even all correct answers would not be enough.
    """

    protocol: Protocol
    correct: int
    tasters: int
    alpha: float
    p_value: float
    minimum_correct: int | None

    @property
    def different(self) -> bool:
        """Whether the test shows a difference at its level."""
        return self.p_value <= self.alpha * (1 + _HAIR)


@dataclass(frozen=True, slots=True)
class SimilarityTest:
    """The answers to "can fewer than the stated share tell?".

    `maximum_correct` is None where even no correct answer would not be few enough.
    """

    protocol: Protocol
    correct: int
    tasters: int
    limit: float
    beta: float
    p_value: float
    maximum_correct: int | None

    @property
    def can_be_shown(self) -> bool:
        """Whether this panel is large enough: guessing alone brings few enough correct answers.

        Where only fewer than guessing brings would do, a result says more of the test than of
        the samples, and no claim is made.
        """
        most = self.maximum_correct
        return most is not None and similarity_has_room(most, self.tasters, self.protocol)

    @property
    def few_enough(self) -> int | None:
        """The most correct answers with which a likeness is claimed; None where it never is."""
        return self.maximum_correct if self.can_be_shown else None

    @property
    def below_chance(self) -> bool:
        """Whether fewer are correct than guessing brings: no likeness is claimed from that."""
        return is_below_chance(self.correct, self.tasters, self.protocol)

    @property
    def similar(self) -> bool:
        """Whether the test shows that fewer than `limit` can tell."""
        few = self.p_value <= self.beta * (1 + _HAIR)
        return few and self.can_be_shown and not self.below_chance


@dataclass(frozen=True, slots=True)
class ShareWhoCanTell:
    """The share of people who can tell, guessing taken off.

    `lower` and `upper` are two-sided limits, `at_least` and `at_most` one-sided ones, the last
    at a confidence of its own. Where fewer are correct than guessing brings (`below_chance`),
    nothing is known from above: 1. `implausible`: they are too few even for guessing. Either way
    protocols count from −1 (all the other sample) to 1.
    """

    estimate: float
    standard_deviation: float
    lower: float
    upper: float
    at_least: float
    at_most: float
    confidence: float
    at_most_confidence: float
    tasters: int
    below_chance: bool
    implausible: bool


def is_below_chance(correct: int, tasters: int, protocol: Protocol) -> bool:
    """Whether fewer are correct than guessing brings on average; never in an either way pair."""
    return not protocol.two_sided and correct < tasters * protocol.guess * (1 - _HAIR)


def similarity_has_room(most: int, tasters: int, protocol: Protocol) -> bool:
    """Whether a similarity may be claimed with up to `most` correct answers.

    The printed tables start at 18 tasters (ISO 4120, from memory; taken for other protocols as
    well), and guessing alone must bring no more than `most`.
    """
    return tasters >= FEWEST_FOR_SIMILARITY and most >= tasters * protocol.guess * (1 - _HAIR)


def check_answers(correct: int, tasters: int) -> None:
    """Raise ValueError unless 0 <= correct <= tasters and tasters >= 1."""
    if tasters < 1:
        raise ValueError(f"tasters must be 1 or more, not {tasters}")
    if not 0 <= correct <= tasters:
        raise ValueError(f"correct must be from 0 to {tasters} answers, not {correct}")


def check_share(name: str, value: float) -> None:
    """Raise ValueError unless a share or risk lies above 0 and below 1."""
    if not 0 < value < 1:
        raise ValueError(f"{name} must be above 0 and below 1, not {value}")


def share_correct_from_tell(share: float, protocol: Protocol) -> float:
    """Give the share of correct answers when `share` can tell and the others guess."""
    return protocol.guess + share * (1 - protocol.guess)


def share_tell_from_correct(share_correct: float, protocol: Protocol) -> float:
    """Share who can tell from the share of correct answers, cut at 0 in one-sided tests."""
    share = (share_correct - protocol.guess) / (1 - protocol.guess)
    return share if protocol.two_sided else max(share, 0.0)


@method(
    unit="1",
    source="ISO 4120:2021 table A.1, ISO 10399:2017 table A.1, ISO 5495:2005 table A.1"
    " [exact binomial, equal to the tables that were read]",
    title="Correct answers needed for a difference",
)
def minimum_correct_answers(tasters: int, protocol: Protocol, alpha: float) -> int | None:
    """Fewest correct answers that show a difference at the level alpha.

    Smallest c with P(X >= c) <= alpha, X binomial with the share of correct guesses; the tail
    is alpha / 2 where either sample may be ahead. None where no number is enough.

    Parameters: tasters: [1], 1 or more. alpha: risk of a false "different" [1], above 0 and below
    1.
    Errors: ValueError outside those ranges.

    >>> from builder.tasting.protocols import TRIANGLE
    >>> minimum_correct_answers(12, TRIANGLE, 0.05), minimum_correct_answers(6, TRIANGLE, 0.001)
    (8, None)
    """
    check_answers(0, tasters)
    check_share("alpha", alpha)
    tail = (alpha / 2 if protocol.two_sided else alpha) * (1 + _HAIR)
    enough = (
        c for c in range(tasters + 1) if binomial_at_least(c, tasters, protocol.guess) <= tail
    )
    return next(enough, None)


@method(
    unit="1",
    source="ISO 4120:2021 (similarity) [exact binomial; printed tables may differ by one where a"
    " normal approximation was used]",
    title="Correct answers allowed for a similarity",
)
def maximum_correct_answers(
    tasters: int, protocol: Protocol, limit: float, beta: float
) -> int | None:
    """Most correct answers that still show that less than a stated share can tell.

    Largest c with P(X <= c) <= beta when exactly the stated share can tell. None where no number is
    small enough. One-sided protocols only.

    Parameters: tasters: [1], 1 or more. limit: share who can tell [1] and beta: risk of a false
    "similar" [1], both above 0 and below 1.
    Errors: ValueError outside those ranges.

    >>> from builder.tasting.protocols import TRIANGLE
    >>> maximum_correct_answers(36, TRIANGLE, 0.30, 0.05)
    13
    """
    check_answers(0, tasters)
    check_share("limit", limit)
    check_share("beta", beta)
    _check_one_sided(protocol)
    chance = share_correct_from_tell(limit, protocol)
    few = [
        c for c in range(tasters + 1) if binomial_at_most(c, tasters, chance) <= beta * (1 + _HAIR)
    ]
    return max(few, default=None)


def _check_one_sided(protocol: Protocol) -> None:
    if protocol.two_sided:
        raise ValueError("similarity needs a protocol with a correct answer, not either way")


def _difference_p(correct: int, tasters: int, protocol: Protocol) -> float:
    if protocol.two_sided:
        ahead = max(correct, tasters - correct)
        return min(1.0, 2 * float(binomial_at_least(ahead, tasters, protocol.guess)))
    return float(binomial_at_least(correct, tasters, protocol.guess))


@method(
    unit="1",
    source="ISO 4120:2021, ISO 10399:2017, ISO 5495:2005 [exact binomial]",
    title="Discrimination test for a difference",
)
def discrimination_difference(
    correct: int, tasters: int, protocol: Protocol, alpha: float = 0.05
) -> DifferenceTest:
    """Exact binomial test of whether anybody can tell.

    p = P(X >= correct) when all guess; doubled where either sample may be ahead.

    Parameters: correct: correct answers [1], 0 to tasters (either way: choices of the first
    sample). tasters: [1], 1 or more, one answer each. alpha: [1], above 0 and below 1.
    Errors: ValueError outside those ranges.

    >>> from builder.tasting.protocols import TRIANGLE
    >>> discrimination_difference(8, 12, TRIANGLE).different
    True
    """
    check_answers(correct, tasters)
    return DifferenceTest(
        protocol,
        correct,
        tasters,
        alpha,
        _difference_p(correct, tasters, protocol),
        minimum_correct_answers(tasters, protocol, alpha),
    )


@method(
    unit="1",
    source="ISO 4120:2021 (similarity) [exact binomial]",
    title="Discrimination test for similarity",
)
def discrimination_similarity(
    correct: int, tasters: int, protocol: Protocol, limit: float, beta: float = 0.05
) -> SimilarityTest:
    """Exact binomial test of whether less than a stated share can tell.

    p = P(X <= correct) when exactly the stated share can tell. A difference test that shows nothing
    says nothing of the kind: only this one does. No claim where only fewer correct answers than
    guessing brings would be few enough, nor where fewer are correct than guessing brings.

    Parameters: correct: [1], 0 to tasters. tasters: [1], 1 or more. limit: share who can tell [1]
    and beta: risk [1], above 0 and below 1.
    Errors: ValueError outside those ranges and for a protocol without a correct answer.

    >>> from builder.tasting.protocols import TRIANGLE
    >>> discrimination_similarity(2, 6, TRIANGLE, 0.30).similar
    False
    """
    check_answers(correct, tasters)
    maximum = maximum_correct_answers(tasters, protocol, limit, beta)
    chance = share_correct_from_tell(limit, protocol)
    p_value = float(binomial_at_most(correct, tasters, chance))
    return SimilarityTest(protocol, correct, tasters, limit, beta, p_value, maximum)


@method(
    unit="1",
    source="ISO 5495:2005/Amd 1:2016 (share and deviation) [read]; Clopper &"
    " Pearson, The use of confidence or fiducial limits, Biometrika 26, 1934 [from memory]",
    title="Share who can tell",
)
def share_who_can_tell(
    correct: int,
    tasters: int,
    protocol: Protocol,
    confidence: float = 0.95,
    at_most_confidence: float | None = None,
) -> ShareWhoCanTell:
    """Share of people who can tell, with exact limits.

    (pc − guess) / (1 − guess) with pc = correct / tasters; limits: those of pc after Clopper
    and Pearson put through the same formula, cut at 0 (either way: not cut). No limit from above
    where fewer are correct than guessing brings.

    Parameters: correct: [1], 0 to tasters. tasters: [1], 1 or more. confidence: [1], above 0.5 and
    below 1. at most confidence: of the limit "at most", as confidence where none.
    Errors: ValueError outside those ranges.
    Departure: the standard prints estimate ± z × deviation, which promises too much in small
    panels; the deviation is given for comparison.

    >>> from builder.tasting.protocols import PAIRED
    >>> round(share_who_can_tell(21, 30, PAIRED).estimate, 2)
    0.4
    """
    check_answers(correct, tasters)
    if not 0.5 < confidence < 1:
        raise ValueError(f"confidence must be above 0.5 and below 1, not {confidence}")
    observed = correct / tasters
    deviation = sqrt(observed * (1 - observed) / tasters) / (1 - protocol.guess)
    two_sided = clopper_pearson(correct, tasters, confidence)
    # The two-sided limits at 2c − 1 are the pair of one-sided limits at c.
    most = confidence if at_most_confidence is None else at_most_confidence
    low = clopper_pearson(correct, tasters, 2 * confidence - 1)[0]
    high = share_tell_from_correct(clopper_pearson(correct, tasters, 2 * most - 1)[1], protocol)
    below = is_below_chance(correct, tasters, protocol)
    return ShareWhoCanTell(
        estimate=share_tell_from_correct(observed, protocol),
        standard_deviation=deviation,
        lower=share_tell_from_correct(two_sided[0], protocol),
        upper=1.0 if below else share_tell_from_correct(two_sided[1], protocol),
        at_least=share_tell_from_correct(low, protocol),
        at_most=1.0 if below else high,
        confidence=confidence,
        at_most_confidence=most,
        tasters=tasters,
        below_chance=below,
        implausible=below and high <= 0,
    )
