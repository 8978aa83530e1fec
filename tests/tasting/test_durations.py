"""Curves over duration, vertex and Fieller limits, just-about-right windows."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest
import statsmodels.api as sm  # type: ignore[import-untyped]
import statsmodels.formula.api as smf  # type: ignore[import-untyped]
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.stats import binomtest
from scipy.stats import t as student

from builder.tasting.durations import Shape, curve_misfit, duration_curve, near_best_window
from builder.tasting.panel_sentences import study_sentence
from builder.tasting.quadratics import QuadraticFit, fieller_vertex_interval, fit_quadratic
from builder.tasting.right import just_about_right_shares, right_window
from builder.tasting.studies import not_distinguishable_from_best, study_durations

from .published import DATA

Array = NDArray[np.float64]
HOURS = (12.0, 24.0, 36.0, 48.0, 60.0)


def panel(peak: float, bend: float, seed: int, tasters: int = 10, noise: float = 5) -> Array:
    """Scores of tasters with levels of their own about a quadratic with that peak [h]."""
    generator = np.random.default_rng(seed)
    curve = 70 - bend * (np.array(HOURS) - peak) ** 2
    levels = generator.normal(0, 10, (tasters, 1))
    return np.asarray(curve + levels + generator.normal(0, noise, (tasters, len(HOURS))))


def worked() -> QuadraticFit:
    data = pd.read_csv(DATA / "quadratic_vertex.csv")
    fit = fit_quadratic(data["x"], data["y"], np.zeros(len(data)))
    assert fit is not None
    return fit


def coefficients(fit: QuadraticFit) -> tuple[float, float, float]:
    """Constant, linear and quadratic coefficient in x, out of those in the scaled x."""
    square = fit.curvature / fit.half**2
    line = fit.linear / fit.half - 2 * square * fit.centre
    constant = fit.level - fit.linear * fit.mean_u - fit.curvature * fit.mean_square
    shift = fit.centre * (fit.linear / fit.half - square * fit.centre)
    return constant - shift, line, square


def test_worked_vertex_example() -> None:
    """Coefficients, residual spread, vertex and its error as printed (read)."""
    fit = worked()
    assert coefficients(fit) == pytest.approx((-2.9234, 10.7942, -1.0398), abs=5.1e-5)
    assert fit.spread == pytest.approx(8.711, abs=5.1e-4)
    assert fit.degrees == 27
    assert fit.vertex == pytest.approx(5.1903, abs=5.1e-5)


def test_worked_fieller_interval() -> None:
    """Fieller 4.6396-5.8813 computed outside the package; the published profile interval

    (read) is 4.639-5.8815, which it meets to three digits.
    """
    limits = fieller_vertex_interval(worked(), 0.95)
    assert limits is not None
    assert limits == pytest.approx((4.6396, 5.8813), abs=5.1e-5)
    assert limits == pytest.approx((4.639, 5.8815), abs=7e-4)


def test_band_equals_statsmodels() -> None:
    data = pd.read_csv(DATA / "quadratic_vertex.csv")
    model = smf.ols("y ~ x + I(x**2)", data).fit()
    for x in (1.0, 5.0, 9.0):
        expected = model.get_prediction(pd.DataFrame({"x": [x]})).conf_int()[0]
        assert worked().predict(x, 0.95)[1:] == pytest.approx(tuple(expected))


def test_blocked_curve_equals_statsmodels() -> None:
    """Curvature, its error and degrees of an OLS with a column per taster, one score missing."""
    scores = panel(35, 0.02, 1)
    scores[0, 2] = np.nan
    frame = pd.DataFrame(
        [(j, HOURS[i], v) for (j, i), v in np.ndenumerate(scores)], columns=["j", "h", "y"]
    ).dropna()
    model = smf.ols("y ~ C(j) + h + I(h**2)", frame).fit()
    curve = duration_curve(scores, HOURS)
    assert curve is not None
    assert coefficients(curve.fit)[2] == pytest.approx(model.params["I(h ** 2)"])
    error = np.sqrt(curve.fit.curvature_variance) / curve.fit.half**2
    assert error == pytest.approx(model.bse["I(h ** 2)"])
    assert curve.fit.degrees == model.df_resid
    # The level: mean prediction over all tasters, as the model gives it.
    rows = pd.DataFrame({"j": range(10), "h": [30.0] * 10})
    assert curve.at(30).mean == pytest.approx(model.predict(rows).mean())
    design = np.asarray(model.model.exog)
    names = list(model.params.index)
    row = np.array([1.0] + [0.1] * 9 + [30.0, 900.0])
    assert names[0] == "Intercept"
    variance = row @ np.asarray(model.cov_params()) @ row
    reach = (curve.at(30).upper - curve.at(30).lower) / 2
    assert reach == pytest.approx(curve.fit.critical(0.95) * np.sqrt(variance))
    assert design.shape[1] == row.size


def test_fieller_covers_as_often_as_stated() -> None:
    """600 panels with the peak at 33 h: 95 % limits hold it in 95 % of them, 4 SE.

    An unbounded answer counts as covering: it excludes nothing.
    """
    held = 0
    for seed in range(600):
        curve = duration_curve(panel(33, 0.02, seed), HOURS)
        assert curve is not None
        held += curve.limits is None or curve.limits[0] <= 33 <= curve.limits[1]
    assert abs(held / 600 - 0.95) < 4 * np.sqrt(0.05 * 0.95 / 600)


def test_a_flat_curve_is_not_located() -> None:
    """No bend at all: a peak is claimed in at most 2.5 % of 400 panels, + 4 SE."""
    claimed = 0
    for seed in range(400):
        curve = duration_curve(panel(33, 0, seed), HOURS)
        assert curve is not None
        claimed += curve.limits is not None
    assert claimed / 400 < 0.025 + 4 * np.sqrt(0.025 * 0.975 / 400)


def test_nothing_is_predicted_beyond_the_durations_tried() -> None:
    curve = duration_curve(panel(35, 0.02, 2), HOURS)
    assert curve is not None
    for hours in (11.9, 60.1, 0, 1000):
        with pytest.raises(ValueError, match=r"hours must be from 12 to 60 h"):
            curve.at(hours)
    band = curve.band()
    assert (band[0].hours, band[-1].hours) == (12, 60)
    assert all(point.lower < point.mean < point.upper for point in band)


def test_a_peak_past_the_longest_is_said_to_be_still_rising() -> None:
    study = study_durations(panel(90, 0.02, 3), HOURS)
    assert study.curve is not None
    assert study.curve.shape is Shape.RISING
    assert not study.curve.best_inside
    assert study.next_cook is not None
    assert min(study.next_cook.hours) > 60


def test_a_peak_inside_is_found_with_its_window() -> None:
    curve = duration_curve(panel(36, 0.03, 4, tasters=20), HOURS)
    assert curve is not None
    assert curve.shape is Shape.PEAK
    assert curve.best_inside
    assert curve.best is not None
    window = near_best_window(curve, 5)
    assert window is not None
    assert 12 < window.start < curve.best < window.end < 60
    top = curve.at(curve.best).mean
    assert curve.at(window.start).mean == pytest.approx(top - 5)
    assert curve.at(window.end).mean == pytest.approx(top - 5)


def test_log_time_finds_a_peak_in_log_time() -> None:
    hours = (6.0, 12.0, 24.0, 48.0, 96.0)
    generator = np.random.default_rng(6)
    curve_values = 70 - 12 * np.log(np.array(hours) / 24) ** 2
    scores = curve_values + generator.normal(0, 3, (12, 5))
    curve = duration_curve(scores, hours, log_time=True)
    assert curve is not None
    assert curve.limits is not None
    assert curve.limits[0] < 24 < curve.limits[1]
    assert (curve.shortest, curve.longest) == (6, 96)
    assert curve.at(96).hours == 96


@settings(max_examples=20)
@given(st.integers(0, 5000), st.floats(0.1, 10), st.floats(-50, 50))
def test_the_best_time_moves_with_nothing_but_time(seed: int, factor: float, shift: float) -> None:
    scores = panel(36, 0.03, seed)
    plain = duration_curve(scores, HOURS)
    scaled = duration_curve(scores * factor + shift, HOURS)
    assert plain is not None
    assert scaled is not None
    assert scaled.best == pytest.approx(plain.best)
    assert scaled.shape is plain.shape


def test_rivals_hold_the_true_best_as_often_as_stated() -> None:
    """Durations 36 and 48 h are equally good: both stay among the rivals in 95 % of 400

    panels for each one, 4 standard errors.
    """
    kept = np.zeros(5)
    for seed in range(400):
        generator = np.random.default_rng(seed)
        scores = np.array([40, 55, 70, 70, 50]) + generator.normal(0, 8, (9, 5))
        kept[list(not_distinguishable_from_best(scores).rivals)] += 1
    assert (kept[2:4] / 400 > 0.95 - 4 * np.sqrt(0.05 * 0.95 / 400)).all()
    assert kept[0] / 400 < 0.2


@pytest.mark.parametrize(
    ("hours", "fewest"), [((24.0,), 3), ((24.0, 48.0), 2), ((12.0, 24.0, 48.0), 1)]
)
def test_too_few_durations_name_the_missing_ones(hours: tuple[float, ...], fewest: int) -> None:
    scores = panel(36, 0.02, 5)[:, : len(hours)]
    study = study_durations(scores, hours)
    assert study.curve is None
    assert study.next_cook is not None
    assert len(study.next_cook.hours) == fewest
    assert not set(study.next_cook.hours) & set(hours)


@pytest.mark.parametrize("hours", [(24, 12), (0, 12), (12, 12), (12,), (12, float("inf"))])
def test_bad_durations_are_refused(hours: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match="hours must be one per column"):
        study_durations([[1, 2], [2, 3]], hours)


def test_right_shares_have_exact_limits() -> None:
    """scipy.stats.binomtest exact limits; zero counts included."""
    answers = [[0], [0], [-1], [0], [0], [-2], [0]]
    shares = just_about_right_shares(answers)[0]
    assert (shares.below.count, shares.right.count, shares.above.count) == (2, 5, 0)
    for part in (shares.below, shares.right, shares.above):
        limits = binomtest(part.count, 7).proportion_ci(0.95, "exact")
        assert (part.lower, part.upper) == pytest.approx((limits.low, limits.high))


def jar(tasters: int, seed: int) -> Array:
    """Each taster turns from too firm to right to overdone at times of their own."""
    generator = np.random.default_rng(seed)
    tender = generator.normal(22, 4, (tasters, 1))
    overdone = generator.normal(52, 5, (tasters, 1))
    hours = np.array([12, 18, 24, 30, 36, 48, 60, 72])
    return np.asarray((hours > overdone) * 1.0 - (hours < tender) * 1.0)


def test_the_window_is_where_tasters_were_made_to_want_it() -> None:
    """20 % still too firm at 22 + .84 x 4 = 25.4 h, 20 % overdone at 52 − .84 x 5 = 47.8 h.

    Straight lines between durations allow half a step.
    """
    window = right_window(jar(400, 1), [12, 18, 24, 30, 36, 48, 60, 72], limit=0.2)
    assert window.start.hours == pytest.approx(25.4, abs=3)
    assert window.end.hours == pytest.approx(47.8, abs=6)
    for end in (window.start, window.end):
        assert end.lower is not None
        assert end.upper is not None
        assert end.hours is not None
        assert end.lower <= end.hours <= end.upper


def test_ends_not_reached_are_not_located() -> None:
    hours = [12, 18, 24, 30, 36]
    window = right_window(jar(30, 2)[:, :5], hours, limit=0.2)
    assert window.end.hours is None
    assert "still right" in window.note
    late = right_window(jar(30, 2)[:, 4:], [36, 48, 60, 72], limit=0.2)
    assert late.start.hours is None
    assert "right already" in late.note


def test_no_window_is_said_so() -> None:
    window = right_window([[-1, 1], [-1, 1], [1, -1]], [12, 24])
    assert not window.exists
    assert "at no duration tried" in window.note


def test_a_valley_is_no_peak() -> None:
    study = study_durations(140 - panel(36, 0.03, 7, tasters=20), HOURS)
    assert study.curve is not None
    assert study.curve.shape is Shape.VALLEY
    assert study.curve.best is None
    assert near_best_window(study.curve, 5) is None


def test_a_window_past_the_longest_is_open_at_its_end() -> None:
    curve = duration_curve(panel(52, 0.03, 8, tasters=20), HOURS)
    assert curve is not None
    assert curve.shape is Shape.PEAK
    window = near_best_window(curve, 5)
    assert window is not None
    assert (window.open_start, window.open_end) == (False, True)
    assert window.end == 60


@pytest.mark.parametrize("seed", [0, 12, 41])
def test_a_weak_bend_asks_for_as_many_tasters_as_would_show_it(seed: int) -> None:
    """The error of a mean falls with the root of n: so must the curvature's."""
    scores = panel(36, 0.008, seed, tasters=5, noise=8)
    study = study_durations(scores, HOURS)
    assert study.curve is not None
    assert study.curve.limits is None
    assert study.curve.shape is Shape.UNCLEAR
    assert study.next_cook is not None
    assert study.next_cook.tasters is not None
    frame = pd.DataFrame(
        [(j, HOURS[i], v) for (j, i), v in np.ndenumerate(scores)], columns=["j", "h", "y"]
    )
    model = smf.ols("y ~ C(j) + h + I(h**2)", frame).fit()
    short = student.ppf(0.975, model.df_resid) / abs(model.tvalues["I(h ** 2)"])
    assert study.next_cook.tasters == np.ceil(5 * short**2)
    copies = -(-study.next_cook.tasters // 5)
    repeated = duration_curve(np.tile(scores, (copies, 1)), HOURS)
    assert repeated is not None
    assert repeated.limits is not None


@pytest.mark.parametrize(("noise", "close"), [(1, True), (14, True), (20, False)])
def test_a_peak_between_limits_closer_than_the_durations_is_located(
    noise: float, close: bool
) -> None:
    """Durations lie 12 h apart: limits as close ask for no cook, wider ones for some near it."""
    study = study_durations(panel(36, 0.03, 4, noise=noise), HOURS)
    assert study.curve is not None
    assert study.curve.limits is not None
    low, high = study.curve.limits
    assert study.curve.limits_inside
    assert (high - low < 12) is close
    if close:
        assert study.next_cook is None
    else:
        assert study.next_cook is not None
        assert study.curve.best is not None
        assert study.next_cook.tasters == 2 * 10
        assert study.next_cook.hours == (round(low), round(study.curve.best), round(high))


# Does the curve fit?


@pytest.mark.parametrize("missing", [0, 7])
def test_misfit_is_the_f_test_of_statsmodels(missing: int) -> None:
    """A quadratic against a mean for every duration, tasters as blocks: anova_lm of the two."""
    table = panel(40, 0.03, seed=5)
    table.flat[:missing] = np.nan
    fitted = duration_curve(table, HOURS)
    assert fitted is not None
    long = pd.DataFrame(
        {"y": table.ravel(), "h": np.tile(HOURS, 10), "taster": np.repeat(np.arange(10), 5)}
    ).dropna()
    small = smf.ols("y ~ C(taster) + h + I(h ** 2)", long).fit()
    large = smf.ols("y ~ C(taster) + C(h)", long).fit()
    expected = sm.stats.anova_lm(small, large)["Pr(>F)"].iloc[1]
    assert fitted.misfit_p_value == pytest.approx(expected, rel=1e-9)
    assert curve_misfit(fitted.fit, table) == fitted.misfit_p_value


def test_misfit_is_rare_where_a_quadratic_is_true() -> None:
    """At the 5 % level it cries out in 5 % of 400 panels, 4 standard errors wide."""
    curves = [duration_curve(panel(40, 0.03, seed), HOURS) for seed in range(400)]
    cries = np.mean([not curve.fits for curve in curves if curve])
    assert abs(cries - 0.05) < 4 * np.sqrt(0.05 * 0.95 / 400)


def test_a_plateau_is_no_parabola_and_the_page_says_so() -> None:
    """Tenderness that rises and then stays: the vertex of a quadratic would be made up."""
    generator = np.random.default_rng(11)
    table = np.array([30.0, 75, 80, 80, 80]) + generator.normal(0, 5, (12, 5))
    study = study_durations(table, HOURS)
    assert study.curve is not None
    assert not study.curve.fits
    assert "though the curve does not fit the means (p < 0.001)" in study_sentence(study, "taste")
    assert study.next_cook is not None
    assert "does not fit" in study.next_cook.reason


def test_a_duration_without_answers_is_not_tried() -> None:
    answers = np.array([[-1.0, 0, 0, 1]] * 6)
    answers[:, 2] = np.nan
    window = right_window(answers, (12, 24, 36, 48), limit=0.2)
    assert window.exists
    whole = right_window(answers[:, [0, 1, 3]], (12, 24, 48), limit=0.2)
    assert (window.start, window.end) == (whole.start, whole.end)


def test_window_limits_are_no_tighter_than_what_was_tried() -> None:
    """All agree, so that resampling tasters alone would leave no width at all."""
    window = right_window([[-1, 0, 0, 1]] * 6, (18, 24, 36, 48), limit=0.2)
    assert (window.start.lower, window.start.upper) == (18, 24)
    assert (window.end.lower, window.end.upper) == (36, 48)
