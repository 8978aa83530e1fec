"""The binomial distribution against its own sum in exact fractions, and against scipy.stats."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
from scipy.stats import binom

from builder.tasting.distributions import (
    binomial_at_least,
    binomial_at_most,
    binomial_enough,
    binomial_quantile,
)

SHARES = (Fraction(1, 9), Fraction(1, 3), Fraction(1, 2), Fraction(9, 10))


def chance_of(counts: range, total: int, share: Fraction) -> Fraction:
    """The chance of any of these counts, summed."""
    each = (math.comb(total, k) * share**k * (1 - share) ** (total - k) for k in counts)
    return sum(each, Fraction(0))


@pytest.mark.parametrize("share", SHARES)
@pytest.mark.parametrize("total", [1, 2, 5, 24, 80])
def test_tails_equal_the_exact_sums(total: int, share: Fraction) -> None:
    counts = range(-2, total + 3)
    least = [chance_of(range(max(count, 0), total + 1), total, share) for count in counts]
    most = [chance_of(range(min(count, total) + 1), total, share) for count in counts]
    least_found = binomial_at_least(counts, total, float(share))
    assert least_found == pytest.approx([float(chance) for chance in least], rel=1e-11)
    most_found = binomial_at_most(counts, total, float(share))
    assert most_found == pytest.approx([float(chance) for chance in most], rel=1e-11)


@pytest.mark.parametrize("share", [0.0, 1.0])
def test_what_never_or_always_happens(share: float) -> None:
    counts = np.arange(-1, 6)
    assert binomial_at_least(counts, 4, share).tolist() == (counts <= 4 * share).tolist()
    assert binomial_at_most(counts, 4, share).tolist() == (counts >= 4 * share).tolist()


@pytest.mark.parametrize("share", [float(share) for share in SHARES])
@pytest.mark.parametrize("tail", [1e-12, 1e-4, 0.01, 0.0499, 0.2, 0.51, 0.95])
def test_quantiles_equal_scipys(share: float, tail: float) -> None:
    """scipy.stats.binom.ppf and isf, of every panel up to 1,500."""
    panels = np.arange(1, 1501)
    assert (binomial_quantile(tail, panels, share) == binom.ppf(tail, panels, share)).all()
    assert (binomial_enough(tail, panels, share) == binom.isf(tail, panels, share) + 1).all()


def test_a_tail_that_is_met_exactly_is_met() -> None:
    """Four of four by guessing one of two: 1/16; none of four, too."""
    assert binomial_enough(1 / 16, [4], 0.5).tolist() == [4]
    assert binomial_quantile(1 / 16, [4], 0.5).tolist() == [0]
    assert binomial_enough(1 / 17, [4], 0.5).tolist() == [5]
    assert binomial_quantile(1 / 15, [4], 0.5).tolist() == [1]
