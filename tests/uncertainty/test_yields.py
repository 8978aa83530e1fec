"""The interval drawn for a yield: Student's t about a ratio of sums, and what it covers.

Sources: Cochran, Sampling Techniques, 3rd ed. 1977, ch. 6 [from memory] by way of
statsmodels, whose regression through the origin with weights 1 / weight in has the ratio of
sums as its slope; the jackknife of scipy; and simulated panels of tests of a known yield.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from scipy import stats
from scipy.special import gammaln
from statsmodels.regression.linear_model import WLS  # type: ignore[import-untyped]

from builder.costing.model import MODEL
from builder.costing.spreads import YIELD
from builder.engine.book import Book, Entry, Origin
from builder.engine.draws import Basis, Spread, drawn
from builder.engine.figures import compute
from builder.yields.weighings import STAGE, TEST
from tests.uncertainty.drawn import Values, costed, ends, spreads

TESTS = [(8420, 6010), (9050, 6600), (4100, 2890), (7300, 5400), (6650, 4700)]
PRICE, PORTION = 9.0, 0.1
TRUE = 0.7


def kitchen(tests: list[tuple[int, int]]) -> dict[str, str]:
    rows = "".join(f"  - {{date: 2026-09-01, in: {i} g, out: {o} g}}\n" for i, o in tests)
    return {
        "cuts/shank.yaml": f"species: beef\nprice: {PRICE}/kg\n",
        "cooks/shank.yaml": f"cut: shank\nhow: braise\nload: 8 kg\ntests:\n{rows}",
        "plates/shank.yaml": "menu: mains\ncook: shank\nportion: 100 g\nprice: 30.00\n",
    }


def ratio_and_error(into: Values, out: Values) -> tuple[Values, Values]:
    """Ratio of sums and its error for panels, shape (panels, tests), by the delete-one jackknife.

    Pseudo-values weighted by the weights in, so that linear residuals come back exactly.
    """
    total_in, total_out = into.sum(axis=1), out.sum(axis=1)
    ratio = total_out / total_in
    left = (total_out[:, None] - out) / (total_in[:, None] - into)
    n = into.shape[1]
    moved = (ratio[:, None] - left) * (total_in[:, None] - into)
    return ratio, np.sqrt(n / (n - 1) * (moved**2).sum(axis=1)) / total_in


@pytest.mark.parametrize("n", [2, 3, 5])
def test_a_yield_is_drawn_from_students_t_about_the_ratio_of_sums(n: int) -> None:
    into, out = np.array(TESTS[:n], dtype=float).T
    ratio, error = (float(x[0]) for x in ratio_and_error(into[None], out[None]))
    # The slope of the weighted regression is the ratio of sums itself.
    assert WLS(out, into, weights=1 / into).fit().params[0] == pytest.approx(ratio)
    made = costed(kitchen(TESTS[:n]))
    [spread] = spreads(made, YIELD).values()
    assert spread.basis is Basis.TESTS
    reach = stats.t.ppf(0.95, n - 1) * error
    assert spread.ends == pytest.approx((ratio - reach, min(ratio + reach, 1.0)), rel=1e-9)
    # The cost of a portion falls as the yield rises: its ends are those of the yield.
    cost = [PRICE * PORTION / end for end in spread.ends[::-1]]
    assert ends(made, "plate", "food_cost") == pytest.approx(cost, rel=0.005)


def test_alike_batches_give_the_plain_mean_with_the_librarys_interval() -> None:
    yields = [0.62, 0.71, 0.66, 0.69]
    made = costed(kitchen([(5000, round(5000 * share)) for share in yields]))
    [spread] = spreads(made, YIELD).values()
    interval = stats.t.interval(0.90, 3, loc=np.mean(yields), scale=stats.sem(yields))
    assert spread.ends == pytest.approx(interval, rel=1e-9)


def test_draws_of_a_yield_are_students_t() -> None:
    """Kolmogorov and Smirnov's distance of stratified draws is half a stratum."""
    spread = Spread(0.7, 0.01, Basis.TESTS, freedom=4.0)
    values = (drawn(spread, "any", 4000) - 0.7) / 0.01
    assert stats.kstest(values, stats.t(4).cdf).statistic == pytest.approx(0.5 / 4000, rel=1e-3)


def panels(n: int, count: int, weights: float, alike: bool, seed: int) -> list[Values]:
    """Weights in and out of tests of one true yield, each of shape (count, n).

    `weights` is the standard deviation of the logarithm of the weight in. A test's yield lies
    off by 3 % of the weight in, or, where `alike`, by less in a large batch, as its pieces
    even out.
    """
    chance = np.random.default_rng(seed)
    into = 8 * np.exp(weights * chance.standard_normal((count, n)))
    off = 0.03 * (np.sqrt(8 * into) if alike else into)
    return [into, TRUE * into + off * chance.standard_normal((count, n))]


def covered(into: Values, out: Values) -> tuple[float, float]:
    """Share of the panels whose 90 % interval holds the true yield, and its mean width."""
    book = Book(MODEL)
    for tests in zip(into, out, strict=True):
        row = book.add(STAGE)
        for weight_in, weight_out in zip(*tests, strict=True):
            values = {
                "weight_in": Entry(float(weight_in), Origin()),
                "weight_out": Entry(float(weight_out), Origin()),
            }
            book.add(TEST, values=values, links={"stage": row})
    figures = compute(book)
    centers, errors = (
        figures.column("stage", name)[:, 0] for name in ("measured_yield", "yield_standard_error")
    )
    found = np.array(
        [
            Spread(float(center), float(error), Basis.TESTS, into.shape[1] - 1.0).ends
            for center, error in zip(centers, errors, strict=True)
        ]
    )
    holds = (found[:, 0] <= TRUE) & (found[:, 1] >= TRUE)
    return float(holds.mean()), float((found[:, 1] - found[:, 0]).mean())


PANELS = 6000
# Three standard deviations of a share of 90 % among so many panels.
BY_CHANCE = 3 * (0.9 * 0.1 / PANELS) ** 0.5


@pytest.mark.parametrize("n", [2, 3, 4, 6, 8, 12])
def test_nine_intervals_in_ten_hold_the_true_yield(n: int) -> None:
    """Batches within a factor of about one and a half of each other, as kitchens cook them."""
    share, _ = covered(*panels(n, PANELS, 0.2, True, seed=n))
    assert share == pytest.approx(0.9, abs=BY_CHANCE)


@pytest.mark.parametrize("n", [2, 3, 6, 12])
def test_batches_of_very_unlike_weights_cover_a_little_less(n: int) -> None:
    """Student's t takes batches alike. Weights in that differ threefold, each off by the same
    share: 87 to 89 in 100 intervals hold the true yield."""
    share, _ = covered(*panels(n, PANELS, 0.5, False, seed=n))
    assert 0.87 - BY_CHANCE <= share <= 0.9 + BY_CHANCE


@pytest.mark.parametrize("unlike", [0.0, 0.2, 0.5])
def test_more_tests_never_widen_an_interval_in_expectation(unlike: float) -> None:
    """The first n tests of the same panels, n from 2 to 8."""
    into, out = panels(8, 400, unlike, False, seed=90)
    widths = [covered(into[:, :n], out[:, :n])[1] for n in range(2, 9)]
    assert all(wider > narrower for wider, narrower in pairwise(widths))
    if not unlike:
        # Of a normal sample the standard deviation is c4 times the true one in expectation.
        n = np.arange(2.0, 9.0)
        c4 = np.sqrt(2 / (n - 1)) * np.exp(gammaln(n / 2) - gammaln((n - 1) / 2))
        expected = 2 * stats.t.ppf(0.95, n - 1) * 0.03 * c4 / np.sqrt(n)
        np.testing.assert_allclose(widths, expected, rtol=0.1)
