"""A stage's spread pooled with that of like stages: coverage, expected widths, the promise.

Sources: simulated stages of one true spread, built into kitchens' books of tests; scipy's own
F distribution; Bancroft 1944 [from memory] for pooling after an F-test.
"""

from __future__ import annotations

import re
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from builder.costing.next_weighing import next_weighing, width_after_one_more
from builder.costing.pooling import Variance, expected_width, is_unlike, pooled
from builder.costing.spreads import YIELD
from builder.engine.draws import Basis, quantile
from tests.uncertainty.drawn import Values, costed, known, spreads

PANELS, TRUE = 8000, 0.7
# Three standard deviations, and the 6 in 1000 that choosing by a test first may cost.
BY_CHANCE = 3 * (0.9 * 0.1 / PANELS) ** 0.5 + 0.006
WIDTH_BY_CHANCE = 0.04


def intervals(tests: int, others: int, times: float, seed: int) -> tuple[Values, Values]:
    """Center and half an interval of panels of one stage and `others` freedom of like stages.

    A test lies off by 3 %, one of the stage itself by `times` as much.
    """
    chance = np.random.default_rng(seed)
    own = TRUE + 0.03 * times * chance.standard_normal((PANELS, tests))
    like = 0.03**2 * chance.chisquare(others, PANELS) if others else np.zeros(PANELS)
    squares = ((own - own.mean(axis=1, keepdims=True)) ** 2).sum(axis=1)
    half = []
    for mine, theirs in zip(squares, like, strict=True):
        found = pooled(Variance(float(mine), tests - 1.0), Variance(float(theirs), float(others)))
        half.append((found.mean / tests) ** 0.5 * quantile(0.95, found.freedom))
    return own.mean(axis=1), np.array(half)


def share_held(tests: int, others: int, times: float) -> float:
    center, half = intervals(tests, others, times, seed=100 * tests + others)
    return float((np.abs(center - TRUE) <= half).mean())


@pytest.mark.parametrize("tests", [1, 2, 3, 4, 8, 12])
@pytest.mark.parametrize("others", [1, 4, 20])
def test_nine_intervals_in_ten_of_a_stage_like_its_like_hold_the_true_yield(
    tests: int, others: int
) -> None:
    assert share_held(tests, others, 1.0) == pytest.approx(0.9, abs=BY_CHANCE)


def test_a_stage_that_spreads_more_than_its_like_comes_to_its_own_with_tests() -> None:
    """Three times as far: short of nine in ten while few tests show it, the nearer the more."""
    held = [share_held(tests, 10, 3.0) for tests in (1, 2, 3, 6, 12)]
    assert all(before < after for before, after in pairwise(held))
    assert held[0] < 0.5
    assert held[-1] == pytest.approx(0.9, abs=BY_CHANCE)


def test_what_the_method_page_says_of_an_odd_stage_is_what_is_simulated() -> None:
    said = re.search(r"(\d+), (\d+), (\d+) and (\d+)\s+intervals in 100", is_unlike.__doc__ or "")
    assert said
    for tests, share in enumerate(said.groups(), start=1):
        assert share_held(tests, 10, 2.0) == pytest.approx(int(share) / 100, abs=0.02)


@pytest.mark.parametrize("others", [1, 2, 4, 20])
def test_one_two_three_four_tests_narrow_in_expectation_as_the_promise_says(others: int) -> None:
    """Simulated widths against the closed form, and the promise against their ratio."""
    widths = [float(intervals(n, others, 1.0, seed=n)[1].mean()) / 0.03 for n in (1, 2, 3, 4)]
    assert all(wider > narrower for wider, narrower in pairwise(widths))
    expected = [expected_width(n, others) for n in (1, 2, 3, 4)]
    np.testing.assert_allclose(widths, expected, rtol=WIDTH_BY_CHANCE)
    for n, (now, then) in enumerate(pairwise(widths), start=1):
        promised = width_after_one_more(n, others + n - 1.0)
        assert promised == pytest.approx(then / now, rel=WIDTH_BY_CHANCE)


@given(st.integers(1, 60), st.integers(0, 300))
def test_one_more_test_never_widens_in_expectation(tests: int, others: int) -> None:
    if tests > 1 or others:
        assert 0 < width_after_one_more(tests, others + tests - 1.0) < 1


spread = st.floats(1e-4, 0.3)


@given(spread, st.integers(1, 30), spread, st.integers(1, 60))
def test_a_stage_clearly_wider_than_its_like_rests_on_its_own_tests(
    own: float, freedom: int, like: float, others: int
) -> None:
    """Above the library's point of F; then not a degree of freedom is borrowed."""
    mine = Variance(own**2 * freedom, float(freedom))
    found = pooled(mine, Variance(like**2 * others, float(others)))
    ratio = (own / like) ** 2
    if ratio > stats.f.ppf(0.975, freedom, others) * 1.000001:
        assert found == mine
        assert is_unlike(own, freedom, like, others)
    else:
        assert found == mine or found.freedom == freedom + others
        assert found.mean >= min(own, like) ** 2 * 0.999999


STAGE = "cut: c\nhow: braise\nload: 8 kg\ntests:\n"


def weighed(*shares: float) -> str:
    return STAGE + "".join(
        f"  - {{date: 2026-09-01, in: 8000 g, out: {round(8000 * share)} g}}\n" for share in shares
    )


def kitchen(*shares: float) -> dict[str, str]:
    return {
        "cuts/c.yaml": "species: beef\nprice: 9.00/kg\n",
        "cooks/a.yaml": weighed(*shares),
        "cooks/m.yaml": weighed(0.70, 0.72, 0.68),
        "cooks/n.yaml": weighed(0.61, 0.64),
        "plates/p.yaml": "menu: mains\ncook: a\nportion: 100 g\nprice: 30.00\n",
    }


LIKE = (np.var([0.70, 0.72, 0.68], ddof=1) * 2 + np.var([0.61, 0.64], ddof=1)) / 3


@pytest.mark.parametrize(
    ("shares", "basis", "variance", "freedom"),
    [
        ((0.70,), Basis.LIKE, LIKE, 3),
        ((0.70, 0.67), Basis.POOLED, (LIKE * 3 + 0.03**2 / 2) / 4, 4),
        ((0.70, 0.70), Basis.LIKE, LIKE * 3 / 4, 4),
        ((0.80, 0.50), Basis.TESTS, 0.3**2 / 2, 1),
    ],
)
def test_a_kitchen_pools_its_like_stages(
    shares: tuple[float, ...], basis: Basis, variance: float, freedom: int
) -> None:
    """By the textbook's pooled variance of groups of equal batches; the far ones stay apart."""
    [found] = [s for row, s in spreads(costed(kitchen(*shares)), YIELD).items() if row == 0]
    assert (found.basis, found.freedom, found.count) == (basis, freedom, len(shares))
    assert found.scale == pytest.approx((variance / len(shares)) ** 0.5, rel=1e-6)


def test_weigh_next_promises_what_the_next_test_leaves_in_expectation() -> None:
    """One input moves the cost, so its interval narrows as that of the yield."""
    reaches = known(costed(kitchen(0.70))).plates.of(("plate", "food_cost"), 0)
    promised = next_weighing(reaches)
    assert promised is not None
    assert promised.narrower == pytest.approx(1 - expected_width(2, 3) / expected_width(1, 3))
