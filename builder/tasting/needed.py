"""How many tasters a question needs, before anybody cooks."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

import numpy as np
from numpy.typing import NDArray
from scipy.special import chdtri, chndtr, nctdtr, stdtrit

from builder.engine.methods import method
from builder.tasting.discrimination import (
    FEWEST_FOR_SIMILARITY,
    check_share,
    maximum_correct_answers,
    minimum_correct_answers,
    share_correct_from_tell,
    similarity_has_room,
)
from builder.tasting.distributions import (
    binomial_at_least,
    binomial_at_most,
    binomial_enough,
    binomial_quantile,
)
from builder.tasting.protocols import Protocol

MOST_TASTERS = 1500
_HAIR = 1e-12


@dataclass(frozen=True, slots=True)
class TastersNeeded:
    """Tasters for a question.

    `first` is the smallest panel with the power; as power is saw-toothed in the number of
    tasters, `at_least` is the panel from which every larger one has it too. None: more than
    `searched`.
    """

    first: int | None
    at_least: int | None
    power: float
    searched: int


def tasters_of_some(needed: TastersNeeded, share: float) -> TastersNeeded:
    """Tasters to ask where only a share of them is served the samples in question.

    share: [1], above 0, at most 1.

    >>> tasters_of_some(TastersNeeded(10, 12, 0.9, 1500), 0.4).at_least
    30
    """
    first, steady = (
        None if n is None else ceil(n / share - _HAIR) for n in (needed.first, needed.at_least)
    )
    return TastersNeeded(first, steady, needed.power, needed.searched)


@method(
    unit="1",
    source="exact binomial; Ennis, Journal of Sensory Studies 8, 1993 [from memory]",
    title="Power of a difference test",
)
def difference_test_power(tasters: int, share: float, protocol: Protocol, alpha: float) -> float:
    """Chance that a difference test shows a difference when a given share can tell.

    P(X >= minimum correct), X binomial with guess + share (1 − guess).

    Parameters: tasters: [1], 1 or more. share: who can tell [1], 0 to 1. alpha: [1], above 0, below
    1.
    Errors: ValueError outside those ranges.

    >>> from builder.tasting.protocols import TRIANGLE
    >>> round(difference_test_power(66, 0.3, TRIANGLE, 0.05), 2)
    0.95
    """
    if not 0 <= share <= 1:
        raise ValueError(f"share must be from 0 to 1, not {share}")
    minimum = minimum_correct_answers(tasters, protocol, alpha)
    if minimum is None:
        return 0.0
    chance = share_correct_from_tell(share, protocol)
    power = float(binomial_at_least(minimum, tasters, chance))
    return power + float(binomial_at_most(tasters - minimum, tasters, chance)) * protocol.two_sided


@method(
    unit="1",
    source="exact binomial, no published table compared",
    title="Power of a similarity test",
)
def similarity_test_power(
    tasters: int, share: float, protocol: Protocol, limit: float, beta: float
) -> float:
    """Chance that a similarity test shows "less than the limit" when a given share can tell.

    P(X <= maximum correct), X binomial with guess + share (1 − guess), among the results of which
    a likeness may be claimed: those with no fewer correct than guessing brings. 0 where that
    maximum lies below what guessing brings.

    Parameters: tasters: [1], 1 or more. share: who can tell [1], 0 to 1. limit, beta: [1], above 0
    and below 1.
    Errors: ValueError outside those ranges.

    >>> from builder.tasting.protocols import TRIANGLE
    >>> similarity_test_power(6, 0.0, TRIANGLE, 0.30, 0.05) < 0.1
    True
    """
    if not 0 <= share <= 1:
        raise ValueError(f"share must be from 0 to 1, not {share}")
    maximum = maximum_correct_answers(tasters, protocol, limit, beta)
    if maximum is None or not similarity_has_room(maximum, tasters, protocol):
        return 0.0
    return float(_claimable(maximum, tasters, share_correct_from_tell(share, protocol), protocol))


def _claimable(
    maximum: NDArray[np.float64] | float,
    tasters: NDArray[np.int_] | int,
    chance: float,
    protocol: Protocol,
) -> NDArray[np.float64]:
    """Chance of at most `maximum` correct, of the results with as many as guessing brings."""
    below = binomial_at_most(np.ceil(tasters * protocol.guess * (1 - _HAIR)) - 1, tasters, chance)
    few = binomial_at_most(maximum, tasters, chance)
    return np.asarray(np.clip((few - below) / (1 - below), 0.0, 1.0))


def _first_and_steady(enough: NDArray[np.bool_], power: float) -> TastersNeeded:
    """Read both counts off a row of yes and no for panels of 1, 2, 3, ..."""
    if not enough.any():
        return TastersNeeded(None, None, power, enough.size)
    failing = np.flatnonzero(~enough)
    steady = int(failing[-1]) + 2 if failing.size else 1
    first = int(np.argmax(enough)) + 1
    return TastersNeeded(first, steady if steady <= enough.size else None, power, enough.size)


@method(
    unit="tasters",
    source="ISO 4120 [exact; 66 tasters equals the standard's figure, others have none compared]",
    title="Tasters needed to show a difference",
)
def tasters_for_difference(
    share: float, protocol: Protocol, alpha: float = 0.05, power: float = 0.90
) -> TastersNeeded:
    """Smallest panels that show a difference when a given share can tell.

    Parameters: share: smallest share who can tell that matters [1]; alpha, power: each above 0 and
    below 1.
    Errors: ValueError outside that range.

    >>> from builder.tasting.protocols import TRIANGLE
    >>> tasters_for_difference(0.3, TRIANGLE, 0.05, 0.95).first
    66
    """
    for name, value in (("share", share), ("alpha", alpha), ("power", power)):
        check_share(name, value)
    panels = np.arange(1, MOST_TASTERS + 1)
    tail = (alpha / 2 if protocol.two_sided else alpha) * (1 + _HAIR)
    minimum = binomial_enough(tail, panels, protocol.guess)
    chance = share_correct_from_tell(share, protocol)
    reached = binomial_at_least(minimum, panels, chance)
    if protocol.two_sided:
        reached = reached + binomial_at_most(panels - minimum, panels, chance)
    return _first_and_steady(np.asarray(reached >= power), power)


@method(
    unit="tasters",
    source="exact binomial, no published table compared",
    title="Tasters needed to show similarity",
)
def tasters_for_similarity(
    limit: float, protocol: Protocol, beta: float = 0.05, power: float = 0.80
) -> TastersNeeded:
    """Smallest panels that show "less than the limit can tell" when nobody can.

    Results with fewer correct than guessing brings show nothing and are not counted.

    Parameters: limit: share who can tell [1]; beta, power: each above 0 and below 1.
    Errors: ValueError outside that range and for a protocol without a correct answer.

    >>> from builder.tasting.protocols import TRIANGLE
    >>> tasters_for_similarity(0.3, TRIANGLE).first > 30
    True
    """
    for name, value in (("limit", limit), ("beta", beta), ("power", power)):
        check_share(name, value)
    maximum_correct_answers(1, protocol, limit, beta)
    panels = np.arange(1, MOST_TASTERS + 1)
    chance = share_correct_from_tell(limit, protocol)
    maximum = binomial_quantile(beta, panels, chance)
    # The quantile is the first count that passes beta, or the one that meets it but for rounding.
    maximum = maximum - (binomial_at_most(maximum, panels, chance) > beta * (1 + _HAIR))
    claimed = (panels >= FEWEST_FOR_SIMILARITY) & (maximum >= panels * protocol.guess * (1 - _HAIR))
    reached = np.where(claimed, _claimable(maximum, panels, protocol.guess, protocol), 0.0)
    return _first_and_steady(np.asarray(reached >= power), power)


@method(
    unit="tasters",
    source="noncentral t; Julious, Sample sizes for clinical trials with normal data, Statistics"
    " in Medicine 23, 2004 [from memory]",
    title="Tasters needed for a margin",
)
def tasters_for_margin(
    margin: float,
    spread: float,
    true_difference: float = 0.0,
    alpha: float = 0.05,
    power: float = 0.80,
) -> TastersNeeded:
    """Smallest panels that show "no worse by more than the margin".

    Paired one-sided t test: power 1 − F(t₁₋α; n − 1, √n (margin + true difference) / spread),
    F the noncentral t distribution.

    Parameters: margin: [points], above 0. spread: standard deviation of the tasters' differences
    [points], above 0. true difference: challenger − benchmark [points], above −margin. alpha,
    power: [1], above 0 and below 1.
    Errors: ValueError outside those ranges.

    >>> tasters_for_margin(10, 10).first
    8
    """
    if not (margin > 0 and spread > 0 and true_difference > -margin):
        raise ValueError(
            "margin and spread must be above 0 points and true_difference above −margin points,"
            f" not {margin}, {spread}, {true_difference}"
        )
    check_share("alpha", alpha)
    check_share("power", power)
    panels = np.arange(2, MOST_TASTERS + 1)
    shift = np.sqrt(panels) * (margin + true_difference) / spread
    # Past 30 the test can't fail, and the distribution function loses its footing.
    critical = -stdtrit(panels - 1, alpha)
    reached = np.where(shift > 30, 1.0, 1 - nctdtr(panels - 1, np.minimum(shift, 30), critical))
    return _first_and_steady(np.concatenate([[False], reached >= power]), power)


@method(
    unit="tasters",
    source="noncentral chi-square approximation, common practice, no published source",
    title="Tasters needed for a rank test",
)
def tasters_for_ranks(
    statistic: float, degrees: int, tasters: int, alpha: float = 0.05, power: float = 0.80
) -> TastersNeeded:
    """Smallest panels whose Friedman test shows a pattern as strong as the one observed.

    Pattern per taster λ = max(T − degrees, 0) / J; power P(χ²(degrees, n λ) > χ²₁₋α). Without
    a pattern beyond chance no panel would do.

    Parameters: statistic T: [1], 0 or more. degrees: [1], 1 or more. tasters J: [1], 1 or more.
    alpha, power: [1], above 0 and below 1.
    Errors: ValueError outside those ranges.

    >>> tasters_for_ranks(6.0, 2, 10).first
    25
    """
    if statistic < 0 or degrees < 1 or tasters < 1:
        raise ValueError("statistic must be 0 or more, degrees and tasters 1 or more")
    check_share("alpha", alpha)
    check_share("power", power)
    pattern = max(statistic - degrees, 0.0) / tasters
    if not pattern:
        return TastersNeeded(None, None, power, MOST_TASTERS)
    panels = np.arange(1, MOST_TASTERS + 1)
    reached = 1 - chndtr(chdtri(degrees, alpha), degrees, panels * pattern)
    return _first_and_steady(np.asarray(reached >= power), power)
