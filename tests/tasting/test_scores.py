"""Scales, analysis of variance, differences, margins and equivalence."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager

import numpy as np
import pandas as pd
import pytest
import statsmodels.formula.api as smf  # type: ignore[import-untyped]
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.stats import binomtest, permutation_test, ttest_1samp
from statsmodels.stats.anova import anova_lm  # type: ignore[import-untyped]
from statsmodels.stats.multitest import multipletests  # type: ignore[import-untyped]
from statsmodels.stats.power import TTestPower  # type: ignore[import-untyped]
from statsmodels.stats.weightstats import ttost_paired  # type: ignore[import-untyped]

from builder.tasting.comparisons import (
    benchmark_differences,
    equivalence_within_margin,
    holm_adjusted,
    no_worse_by_margin,
)
from builder.tasting.needed import tasters_for_margin
from builder.tasting.scales import Scale, rescale_scores, scale_use
from builder.tasting.scores import score_anova, taster_anova
from tests.tasting.usual_scales import LINE, NINE_POINT, ONE_TO_TEN, ZERO_TO_FIVE

from .published import DATA

Array = NDArray[np.float64]


def fish() -> Array:
    """Assessors x batches x replicates (ISO 8586 annex, read)."""
    table = pd.read_csv(DATA / "fish_on_ice.csv").sort_values(["assessor", "sample", "rep"])
    return table["score"].to_numpy(dtype=float).reshape(4, 6, 3)


def test_fish_on_ice_means() -> None:
    """ISO 8586 annex (read): batch means, assessor means, grand mean."""
    cube = fish()
    found = score_anova(cube).adjusted_means
    assert np.array(found, dtype=float) == pytest.approx(
        [7.50, 6.17, 4.25, 4.92, 3.92, 5.33], abs=5.1e-3
    )
    assessors = [row.mean for row in taster_anova(cube)]
    assert np.array(assessors, dtype=float) == pytest.approx([5.89, 4.83, 4.67, 6.00], abs=5.1e-3)
    assert cube.mean() == pytest.approx(5.35, abs=5.1e-3)


@pytest.mark.parametrize(
    ("assessor", "mean_square", "f_value", "status"),
    [
        (0, 7.42, 13.36, "read"),
        (1, 7.83, 2.66, "read"),
        (2, 2.80, 2.40, "read"),
        (3, 6.13, 13.80, "computed"),
    ],
)
def test_fish_on_ice_per_assessor(
    assessor: int, mean_square: float, f_value: float, status: str
) -> None:
    row = taster_anova(fish())[assessor]
    assert row.mean_square == pytest.approx(mean_square, abs=5.1e-3), status
    assert row.f_value == pytest.approx(f_value, abs=5.1e-3), status


def test_fish_on_ice_two_way() -> None:
    """Sums of squares computed outside the package, no published value compared."""
    table = score_anova(fish())
    assert table.interaction is not None
    for row, squares, degrees, f_value in (
        (table.samples, 104.903, 5, 16.42),
        (table.panel, 26.042, 3, 6.79),
        (table.interaction, 16.042, 15, 0.837),
        (table.error, 61.333, 48, None),
    ):
        assert row.sum_of_squares == pytest.approx(squares, abs=5.1e-4)
        assert row.degrees == degrees
        assert row.f_value == (None if f_value is None else pytest.approx(f_value, abs=5.1e-3))


@settings(max_examples=20)
@given(st.integers(0, 10_000), st.integers(3, 8), st.integers(3, 5), st.booleans())
def test_anova_equals_statsmodels(seed: int, tasters: int, samples: int, holes: bool) -> None:
    """statsmodels anova_lm, type II, with and without missing scores."""
    generator = np.random.default_rng(seed)
    table = generator.integers(1, 10, (tasters, samples)) + generator.normal(
        0, 0.1, (tasters, samples)
    )
    if holes:
        table[0, 0] = np.nan
    frame = pd.DataFrame(
        [(j, i, v) for (j, i), v in np.ndenumerate(table)], columns=["taster", "sample", "score"]
    ).dropna()
    expected = anova_lm(smf.ols("score ~ C(taster) + C(sample)", frame).fit(), typ=2)
    found = score_anova(table)
    for row, name in ((found.samples, "C(sample)"), (found.panel, "C(taster)")):
        assert row.sum_of_squares == pytest.approx(expected.loc[name, "sum_sq"])
        assert row.f_value == pytest.approx(expected.loc[name, "F"])
        assert row.p_value == pytest.approx(expected.loc[name, "PR(>F)"])
    assert found.error.sum_of_squares == pytest.approx(expected.loc["Residual", "sum_sq"])


def test_samples_that_share_no_taster_are_not_compared() -> None:
    nan = np.nan
    table = score_anova([[1, 2, nan, nan], [2, 4, nan, nan], [nan, nan, 5, 6], [nan, nan, 5, 7]])
    assert "share no taster" in table.note


@contextmanager
def frozen_heap() -> Iterator[None]:
    """multipletests collects garbage at every call: let it not walk all that the run holds."""
    gc.freeze()
    try:
        yield
    finally:
        gc.unfreeze()


@given(st.lists(st.floats(0, 1), min_size=1, max_size=8))
def test_holm_equals_statsmodels(p_values: list[float]) -> None:
    with frozen_heap():
        expected = multipletests(p_values, method="holm")[1]
    assert holm_adjusted(p_values) == pytest.approx(expected)


@settings(max_examples=15)
@given(st.lists(st.integers(-4, 4), min_size=2, max_size=8))
def test_sign_flip_p_equals_scipys_exact_one(steps: list[int]) -> None:
    """scipy.stats.permutation_test with all sign flips."""
    values = np.array(steps, dtype=float)
    if not values.any():
        return
    expected = permutation_test(
        (values,),
        lambda part: float(np.sum(part)),
        permutation_type="samples",
        n_resamples=10_000,
        alternative="greater",
    )
    table = np.stack([np.zeros(values.size), values], axis=1)
    found = benchmark_differences(table, 0, side="greater").differences[0]
    assert found.p_value == pytest.approx(expected.pvalue)


def test_the_interval_is_the_paired_t_interval() -> None:
    """scipy.stats.ttest_1samp."""
    values = np.array([1.0, 2.5, -0.5, 3.0, 1.5])
    expected = ttest_1samp(values, 0).confidence_interval(0.95)
    found = benchmark_differences(np.stack([np.zeros(5), values], axis=1), 0).differences[0]
    assert (found.lower, found.upper) == pytest.approx((expected.low, expected.high))


def test_joint_p_values_keep_the_family_error() -> None:
    """No sample differs: any adjusted p <= .05 in at most 5 % of 800 panels, + 4 SE."""
    generator = np.random.default_rng(3)
    hits = 0
    for _ in range(800):
        table = generator.normal(0, 1, (8, 5)) + generator.normal(0, 3, (8, 1))
        lines = benchmark_differences(table, 0).differences
        hits += min(line.adjusted_p_value for line in lines) <= 0.05
    assert hits / 800 < 0.05 + 4 * np.sqrt(0.05 * 0.95 / 800)


def test_joint_p_values_lie_between_the_single_and_holms_worst() -> None:
    generator = np.random.default_rng(4)
    table = generator.integers(1, 10, (10, 5)).astype(float)
    lines = benchmark_differences(table, 2).differences
    for line in lines:
        assert line.p_value <= line.adjusted_p_value <= min(1.0, len(lines) * line.p_value) + 1e-12


def with_moments(mean: float, error: float, count: int = 15) -> Array:
    """Differences with exactly that mean and standard error."""
    values = np.arange(count, dtype=float) ** 1.5
    values = (values - values.mean()) / values.std(ddof=1)
    return np.asarray(mean + values * error * np.sqrt(count))


@pytest.mark.parametrize(
    ("mean", "error", "low", "high", "p_value", "equivalent"),
    [
        (0.1646667, 0.1357514, -0.0744337, 0.4037670, 0.0031669, True),
        (0.5626667, 0.2478276, 0.1261653, 0.9991680, 0.4412034, False),
    ],
)
def test_equivalence_equals_a_librarys_own_test_values(
    mean: float, error: float, low: float, high: float, p_value: float, equivalent: bool
) -> None:
    """statsmodels' own test values for paired equivalence, n 15, margin .6 (read)."""
    found = equivalence_within_margin(with_moments(mean, error), 0.6)
    assert found.standard_error == pytest.approx(error, abs=1e-9)
    assert (found.lower, found.upper) == pytest.approx((low, high), abs=1e-6)
    assert found.p_value == pytest.approx(p_value, abs=1e-6)
    assert found.equivalent is equivalent


@given(st.lists(st.floats(-20, 20), min_size=3, max_size=20), st.floats(0.5, 10))
def test_equivalence_equals_statsmodels(steps: list[float], margin: float) -> None:
    values = np.array(steps)
    if np.ptp(values) < 1e-3:
        return
    expected = ttost_paired(values, np.zeros(values.size), -margin, margin)[0]
    assert equivalence_within_margin(values, margin).p_value == pytest.approx(expected, abs=1e-9)


def test_a_misprinted_paired_t_is_not_followed() -> None:
    """FAO paper 348 App. F prints t = 2.889 for these differences; SD is .7071, t 6.708."""
    values = [0, 1, 1, 2, 2, 2, 2, 2, 2, 1]
    found = no_worse_by_margin(values, margin=1e-9)
    assert found.mean is not None
    assert found.spread == pytest.approx(0.7071, abs=5e-5)
    assert found.mean / (found.spread / np.sqrt(10)) == pytest.approx(6.708, abs=5e-4)


@given(st.lists(st.floats(-20, 20), min_size=2, max_size=20), st.floats(0.5, 10))
def test_bound_and_p_value_say_alike(steps: list[float], margin: float) -> None:
    found = no_worse_by_margin(steps, margin)
    if found.lower is not None and abs(found.lower + margin) > 1e-6:
        assert found.established == (found.lower > -margin)


def test_alike_differences_fall_back_on_signs() -> None:
    """0.5^4 = .0625 is not enough at 5 %, 0.5^5 = .03125 is."""
    assert not no_worse_by_margin([0, 0, 0, 0], 5).established
    found = no_worse_by_margin([0, 0, 0, 0, 0], 5)
    assert found.established
    assert found.by_signs
    assert found.p_value == 0.03125
    assert not no_worse_by_margin([-6, -6, -6, -6, -6], 5).established


@pytest.mark.parametrize(
    ("power", "ratio", "tasters", "status"),
    [
        (0.80, 0.5, 27, "computed"),
        (0.80, 0.75, 13, "computed"),
        (0.80, 1.0, 8, "computed"),
        (0.80, 1.5, 5, "computed"),
        (0.90, 0.5, 36, "computed"),
        (0.90, 0.75, 17, "computed; a hand table had 18, statsmodels agrees with 17"),
        (0.90, 1.0, 11, "computed"),
        (0.90, 1.5, 6, "computed"),
    ],
)
def test_tasters_for_a_margin(power: float, ratio: float, tasters: int, status: str) -> None:
    """Paired, one-sided 5 %; statsmodels TTestPower as second opinion."""
    assert tasters_for_margin(ratio, 1, power=power).first == tasters, status
    exact = TTestPower().solve_power(
        effect_size=ratio, alpha=0.05, power=power, alternative="larger"
    )
    assert np.ceil(exact) == tasters


def test_power_for_a_margin_by_simulation() -> None:
    """20,000 panels of 13, margin .75 SD; 4 standard errors about the exact power."""
    generator = np.random.default_rng(5)
    values = generator.normal(0, 1, (20_000, 13))
    bound = values.mean(axis=1) - 1.7823 * values.std(axis=1, ddof=1) / np.sqrt(13)
    expected = TTestPower().power(0.75, 13, 0.05, alternative="larger")
    shown = (bound > -0.75).mean()
    assert abs(shown - expected) < 4 * np.sqrt(expected * (1 - expected) / 20_000)
    one = no_worse_by_margin(values[0], 0.75)
    assert one.lower == pytest.approx(bound[0], abs=1e-4)


def test_declared_scales_and_their_ends() -> None:
    rows: list[list[float]] = [[0, 5, 2.0], [1, 10, 5.5], [1, 9, 5], [0, 100, 50]]
    with pytest.raises(ValueError, match=r"taster 2: 5\.5 is off the 1-10 scale"):
        rescale_scores(rows, [ZERO_TO_FIVE, ONE_TO_TEN, NINE_POINT, LINE])
    rows[1][2] = 10
    found = rescale_scores(rows, [ZERO_TO_FIVE, ONE_TO_TEN, NINE_POINT, LINE])
    assert found[:, 0].tolist() == [0, 0, 0, 0]
    assert found[:, 1].tolist() == [100, 100, 100, 100]
    assert found[2, 2] == 50


def test_a_scale_whose_low_end_is_best_is_turned_over() -> None:
    school = Scale("marks", 1, 6, best_is_low=True)
    assert rescale_scores([[1, 6]], [school]).tolist() == [[100.0, 0.0]]


@pytest.mark.parametrize("value", [0, 10, 4.5, float("inf")])
def test_values_off_the_nine_points(value: float) -> None:
    assert not NINE_POINT.holds(value)


def test_scale_use_is_noticed() -> None:
    nan = np.nan
    use = scale_use(np.array([[50, 50, 50], [0, 100, 0], [20, 60, nan], [nan, nan, nan]]))
    assert [line.one_score_for_all for line in use] == [True, False, False, False]
    assert [line.only_ends for line in use] == [False, True, False, False]
    assert use[2].mean == 40
    assert use[3].mean is None


def test_many_tasters_are_sampled_near_the_exact_p() -> None:
    """16 tasters: scipy's exact p over 65,536 sign patterns; 4 SE of 20,000 draws."""
    values = np.random.default_rng(14).normal(0.5, 1, 16)
    expected = permutation_test(
        (values,),
        lambda part: float(np.sum(part)),
        permutation_type="samples",
        n_resamples=2**16,
        alternative="greater",
    ).pvalue
    table = np.stack([np.zeros(16), values], axis=1)
    found = benchmark_differences(table, 0, side="greater")
    assert not found.exact
    error = np.sqrt(expected * (1 - expected) / 20_000)
    assert abs(found.differences[0].p_value - expected) < 4 * error


def test_a_sampled_p_is_never_zero() -> None:
    """The observed signs are one of the patterns, so p is at least 1 / 20,000."""
    table = np.stack([np.zeros(40), np.ones(40)], axis=1)
    assert benchmark_differences(table, 0).differences[0].p_value == 1 / 20_000


def test_rounding_is_no_spread() -> None:
    """Tasters who differ in level only leave no error to divide by."""
    table = score_anova([[0.1, 0.2, 0.3], [0.4, 0.5, 0.6], [0.7, 0.8, 0.9]])
    assert table.samples.f_value is None
    assert table.note == "no spread is left to judge by"


def test_differences_all_alike_are_worse_by_the_sign_test() -> None:
    """Eight tasters each 25 points below: 0.5^8 by binomial."""
    found = no_worse_by_margin([-25.0] * 8, 10)
    assert found.by_signs
    assert found.worse_p_value == binomtest(8, 8, 0.5, alternative="greater").pvalue
    assert (found.worse, found.established) == (True, False)
    assert not no_worse_by_margin([-5.0] * 8, 10).worse


def test_worse_is_scipy_s_one_sided_t_test() -> None:
    values = np.array([-20.0, -12, -31, -8, -25, -19])
    found = no_worse_by_margin(values, 10)
    expected = ttest_1samp(values, -10, alternative="less").pvalue
    assert found.worse_p_value == pytest.approx(expected, rel=1e-12)
    assert found.worse == (found.upper is not None and found.upper < -10)


@pytest.mark.parametrize("scales", [1, 3])
def test_every_taster_declares_one_scale(scales: int) -> None:
    with pytest.raises(ValueError, match=f"scales must be one per taster, 2, not {scales}"):
        rescale_scores([[1, 5], [2, 6]], [NINE_POINT] * scales)
