"""How sure a pooled yield is: Student's t by table and library, the error of a ratio of sums.

Sources: the 0.975 column of the NIST/SEMATECH table, in student_t.csv [from memory];
scipy.stats.t; and for the standard error the residual form of Cochran, Sampling
Techniques, ch. 6 [from memory], worked out here through the variances and the
covariance of the weights instead of the residuals.
"""

from __future__ import annotations

import csv
import math
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from builder.yields.intervals import t_975
from tests.yields.exact import Weighing, weighings
from tests.yields.test_chain import costed, one_stage, value

with (Path(__file__).parent / "student_t.csv").open(encoding="utf-8", newline="") as file:
    TABLE = [(int(row["degrees_of_freedom"]), row["t_975"]) for row in csv.DictReader(file)]


@pytest.mark.parametrize(("freedom", "printed"), TABLE)
def test_t_is_that_of_the_table(freedom: int, printed: str) -> None:
    assert f"{t_975(np.array([float(freedom)]))[0]:.3f}" == printed


def test_t_is_that_of_the_library() -> None:
    freedom = np.arange(1.0, 200.0)
    np.testing.assert_allclose(t_975(freedom), stats.t.ppf(0.975, freedom), rtol=1e-10)


def test_without_a_degree_of_freedom_there_is_no_t() -> None:
    assert np.isnan(t_975(np.array([0.0, -1.0, np.nan]))).all()


def standard_error(tests: list[Weighing]) -> float:
    """Root of (s_yy - 2 R s_xy + R^2 s_xx) / n over the mean weight in."""
    # Whole grams and exact fractions: the variances of tests that agree cancel to nothing.
    into = [Fraction(test.into) for test in tests]
    out = [Fraction(test.out) for test in tests]
    ratio = sum(out, Fraction()) / sum(into, Fraction())
    spread = (
        _covariance(out, out)
        - 2 * ratio * _covariance(into, out)
        + ratio**2 * _covariance(into, into)
    )
    # s of y - R x about its own mean; the residuals of a ratio of sums have mean zero.
    return math.sqrt(spread / len(tests)) / float(sum(into) / len(into))


def _covariance(xs: list[Fraction], ys: list[Fraction]) -> Fraction:
    x, y = sum(xs, Fraction()) / len(xs), sum(ys, Fraction()) / len(ys)
    total = sum(((a - x) * (b - y) for a, b in zip(xs, ys, strict=True)), Fraction())
    return total / (len(xs) - 1)


@settings(max_examples=40, deadline=None)
@given(st.lists(weighings(), min_size=2, max_size=6))
def test_the_standard_error_is_that_of_a_ratio_estimator(tests: list[Weighing]) -> None:
    figures = costed(one_stage(tests)).figures
    error = standard_error(tests)
    assert value(figures, "stage", "yield_standard_error") == pytest.approx(
        error, rel=1e-6, abs=1e-9
    )
    half = float(stats.t.ppf(0.975, len(tests) - 1)) * error
    pooled = value(figures, "stage", "measured_yield")
    # No share is below nothing, and none is above one where no test gained weight.
    gained = any(test.out > test.into for test in tests)
    low, high = max(pooled - half, 0.0), pooled + half if gained else min(pooled + half, 1.0)
    assert value(figures, "stage", "yield_low") == pytest.approx(low, rel=1e-6, abs=1e-7)
    assert value(figures, "stage", "yield_high") == pytest.approx(high, rel=1e-6, abs=1e-7)


def test_tests_that_agree_leave_no_doubt() -> None:
    tests = [Weighing(8000, 6000, {}), Weighing(4000, 3000, {}), Weighing(6000, 4500, {})]
    figures = costed(one_stage(tests)).figures
    assert value(figures, "stage", "yield_half_width") == pytest.approx(0.0, abs=1e-12)


def test_batches_of_one_size_give_the_error_of_a_mean() -> None:
    """With equal weights in, the ratio of sums is the plain mean: scipy's standard error."""
    yields = [0.62, 0.71, 0.66, 0.69]
    tests = [Weighing(5000, round(5000 * share), {}) for share in yields]
    figures = costed(one_stage(tests)).figures
    assert value(figures, "stage", "yield_standard_error") == pytest.approx(
        float(stats.sem(yields)), rel=1e-9
    )
    low, high = stats.t.interval(0.95, 3, loc=np.mean(yields), scale=stats.sem(yields))
    assert value(figures, "stage", "yield_low") == pytest.approx(float(low), rel=1e-9)
    assert value(figures, "stage", "yield_high") == pytest.approx(float(high), rel=1e-9)


def test_one_test_has_no_interval() -> None:
    figures = costed(one_stage([Weighing(5000, 3300, {})])).figures
    for name in ("yield_standard_error", "yield_half_width", "yield_low", "yield_high"):
        assert np.isnan(value(figures, "stage", name))
    assert value(figures, "stage", "stage_yield") == pytest.approx(0.66)


def test_one_test_has_no_error_though_rounding_leaves_a_residual() -> None:
    """In binary a 49th part times 49 is not one: a residual that n - 1 would divide by nothing."""
    assert 1 / 49 * 49 != 1
    figures = costed(one_stage([Weighing(49000, 1000, {})])).figures
    for name in ("yield_standard_error", "yield_half_width", "test_yield_spread"):
        assert math.isnan(value(figures, "stage", name))
