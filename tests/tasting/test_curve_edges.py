"""Curves over duration by hand: their edges, shapes, windows and the duration to add."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from builder.tasting.durations import Shape, duration_curve, near_best_window
from builder.tasting.quadratics import fit_quadratic
from builder.tasting.right import right_window
from builder.tasting.studies import study_durations

from .test_durations import HOURS, panel


@pytest.mark.parametrize(
    ("limits", "inside"),
    [((12, 60), True), ((11, 40), False), ((20, 61), False), ((11, 61), False), (None, False)],
)
def test_limits_lie_inside_the_durations_tried_or_not(
    limits: tuple[float, float] | None, inside: bool
) -> None:
    curve = duration_curve(panel(35, 0.02, 2), HOURS)
    assert curve is not None
    assert replace(curve, limits=limits).limits_inside is inside


@pytest.mark.parametrize(("best", "inside"), [(12, False), (13, True), (60, False), (61, False)])
def test_a_peak_at_the_edge_is_not_inside(best: float, inside: bool) -> None:
    curve = duration_curve(panel(35, 0.02, 2), HOURS)
    assert curve is not None
    assert replace(curve, best=best).best_inside is inside


@pytest.mark.parametrize(
    ("hours", "added"),
    [
        ((12.0, 24.0, 30.0), (17.0,)),
        ((24.0, 30.0, 60.0), (42.0,)),
        ((24.0, 25.0, 26.0), (39.0,)),
    ],
)
def test_a_fourth_duration_halves_the_widest_gap_in_ratio(
    hours: tuple[float, ...], added: tuple[float, ...]
) -> None:
    """By hand: the root of 12 x 24 is 16.97 h, that of 30 x 60 is 42.4 h.

    Between 24 and 25 h no whole hour is left: then half as long again as the longest.
    """
    found = study_durations([[40, 80, 50]] * 6, hours)
    assert found.next_cook is not None
    assert found.next_cook.hours == added


@pytest.mark.parametrize("margin", [0, -1, np.nan])
def test_a_window_needs_a_margin_above_nothing(margin: float) -> None:
    curve = duration_curve(panel(35, 0.02, 2), HOURS)
    assert curve is not None
    with pytest.raises(ValueError, match="margin must be above 0 points"):
        near_best_window(curve, margin)


@pytest.mark.parametrize(("slope", "shape"), [(0.8, Shape.RISING), (-0.8, Shape.FALLING)])
def test_a_straight_line_rises_or_falls(slope: float, shape: Shape) -> None:
    noise = panel(36, 0, 4, noise=3)
    curve = duration_curve(noise + slope * (np.array(HOURS) - 36), HOURS)
    assert curve is not None
    assert curve.shape is shape


def test_a_window_of_one_moment_is_a_window() -> None:
    """By hand: at 24 h just a fifth finds it too little done and a fifth too much."""
    answers = [[-1, -1, 0], [-1, 0, 0], [0, 0, 0], [0, 0, 1], [0, 1, 1]]
    window = right_window(answers, (12, 24, 36), limit=0.2)
    assert window.exists
    assert (window.start.hours, window.end.hours) == (24, 24)


@pytest.mark.parametrize(
    "sizes", [(4, 5, 5), (6, 5, 5), (5, 5, 4), (5, 5, 6), (5, 4, 5), (4, 4, 5)]
)
def test_columns_of_unequal_length_are_refused(sizes: tuple[int, int, int]) -> None:
    x, y, blocks = (np.arange(float(size)) for size in sizes)
    with pytest.raises(ValueError, match="equally long"):
        fit_quadratic(x, y, blocks)


def test_the_curve_is_known_at_both_ends_of_the_data_and_not_beyond() -> None:
    fit = fit_quadratic([18, 24, 30, 42, 60], [40, 55, 64, 70, 52], [0] * 5)
    assert fit is not None
    for x in (18.0, 60.0):
        mean, low, high = fit.predict(x, 0.95)
        assert low < mean < high
    for x in (17.999, 60.001, float("nan")):
        with pytest.raises(ValueError, match="x must be from 18 to 60"):
            fit.predict(x, 0.95)


@pytest.mark.parametrize(
    ("peak", "bend", "shape"),
    [
        (5.0, -0.02, Shape.FALLING),
        (70.0, -0.02, Shape.RISING),
        (5.0, 0.02, Shape.RISING),
        (70.0, 0.02, Shape.FALLING),
    ],
)
def test_a_curve_that_bends_beyond_the_durations_tried_only_rises_or_falls(
    peak: float, bend: float, shape: Shape
) -> None:
    """Exact parabolas about a turn before the first or after the last duration, and a little noise.

    Their derivative, 2 bend (h - peak), has one sign over all durations tried.
    """
    hours = np.array(HOURS, dtype=np.float64)
    noise = np.random.default_rng(4).normal(0, 0.5, (8, hours.size))
    curve = duration_curve(50 + bend * (hours - peak) ** 2 + noise, HOURS)
    assert curve is not None
    assert curve.shape is shape
    assert (np.sign(bend * (hours - peak)) > 0).all() == (shape is Shape.RISING)


def test_window_limits_are_those_of_a_bootstrap_written_apart() -> None:
    """Tasters find it too soft from one duration on, so resampled shares rise by themselves.

    10 tasters: 0, 1, 3 and 6 too soft. Quantiles of 4,000 panels drawn with another generator;
    half an hour covers four standard errors of both.
    """
    hours = np.array([24.0, 36, 48, 60])
    turns = np.array([1, 2, 2, 3, 3, 3, 9, 9, 9, 9])
    answers = (np.arange(4) >= turns[:, None]).astype(float)
    window = right_window(answers, hours.tolist(), limit=0.25, confidence=0.8)
    picks = np.random.default_rng(1).integers(0, 10, (4000, 10))
    ends = []
    for shares in answers[picks].mean(axis=1):
        past = shares > 0.25 + 1e-9
        if not past.any():
            ends.append(np.inf)
            continue
        first = int(np.argmax(past))
        way = (0.25 - shares[first - 1]) / (shares[first] - shares[first - 1])
        between = hours[first - 1] + way * (hours[first] - hours[first - 1])
        ends.append(between)
    high = np.quantile(ends, 0.9, method="closest_observation")
    assert high > 48
    assert window.end.upper == pytest.approx(high, abs=0.5)
