"""Scores over cooking time: the curve, the best time with limits, the window near it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import exp, log, sqrt

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import fdtrc

from builder.engine.methods import method
from builder.tasting.quadratics import QuadraticFit, fieller_vertex_interval, fit_quadratic
from builder.tasting.score_tables import FloatArray, informative_rows, score_table
from builder.tasting.scores import score_anova

FEWEST_DURATIONS = 4
FEWEST_TASTERS = 3


class Shape(StrEnum):
    """What the curve over time does, as far as the data establish it."""

    PEAK = "rises, then falls"
    RISING = "still rises at the longest duration"
    FALLING = "falls from the shortest duration on"
    VALLEY = "falls, then rises"
    UNCLEAR = "no shape established"


@dataclass(frozen=True, slots=True)
class CurvePoint:
    """The curve and its band at one duration [h]; scores in [points]."""

    hours: float
    mean: float
    lower: float
    upper: float


@dataclass(frozen=True, slots=True)
class DurationCurve:
    """A quadratic over time (or its logarithm), every taster a block.

    best: where the fitted curve peaks [h], also outside the durations tried, None where it
    has no peak; limits: Fieller's [h], None when the peak is not located. misfit_p_value:
    chance that means stray so far from a true quadratic, None where that can't be tested.
    """

    fit: QuadraticFit
    log_time: bool
    confidence: float
    shape: Shape
    best: float | None
    limits: tuple[float, float] | None
    shortest: float
    longest: float
    misfit_p_value: float | None

    @property
    def fits(self) -> bool:
        """Whether the means stray no further from the curve than chance would have them."""
        return self.misfit_p_value is None or self.misfit_p_value > 1 - self.confidence

    @property
    def best_inside(self) -> bool:
        """Whether the peak lies inside the durations tried."""
        return self.best is not None and self.shortest < self.best < self.longest

    @property
    def limits_inside(self) -> bool:
        """Whether both limits lie inside the durations tried."""
        if self.limits is None:
            return False
        return self.shortest <= self.limits[0] and self.limits[1] <= self.longest

    def at(self, hours: float) -> CurvePoint:
        """Give the curve and its band at a duration.

        The band is that of the mean of these tasters. Raises ValueError outside the
        durations tried, naming them [h].
        """
        slack = 1e-9 * self.longest
        if not self.shortest - slack <= hours <= self.longest + slack:
            raise ValueError(
                f"hours must be from {self.shortest:g} to {self.longest:g} h (the durations"
                f" tried), not {hours:g}"
            )
        x = log(hours) if self.log_time else hours
        return CurvePoint(hours, *self.fit.predict(x, self.confidence))

    def band(self, count: int = 41) -> tuple[CurvePoint, ...]:
        """Points evenly spread from the shortest to the longest duration tried."""
        return tuple(
            self.at(float(h)) for h in np.linspace(self.shortest, self.longest, max(2, count))
        )


def check_hours(hours: Sequence[float], columns: int) -> FloatArray:
    """Give hours as an array; ValueError unless one per column, above 0 h and rising."""
    times = np.array(hours, dtype=np.float64)
    rising = times.shape == (columns,) and (np.diff(times) > 0).all() and (times > 0).all()
    if not rising or not np.isfinite(times).all():
        raise ValueError("hours must be one per column, above 0 h and rising")
    return times


def _exponential(x: float) -> float:
    """Hours from their logarithm, cut before the number would overflow."""
    return exp(min(x, 700.0))


def _shape(fit: QuadraticFit, confidence: float) -> Shape:
    critical = fit.critical(confidence)
    vertex = fit.vertex
    if vertex is not None and abs(fit.curvature) > critical * sqrt(fit.curvature_variance):
        if fit.low < vertex < fit.high:
            return Shape.PEAK if fit.curvature < 0 else Shape.VALLEY
        return Shape.RISING if (vertex >= fit.high) == (fit.curvature < 0) else Shape.FALLING
    if abs(fit.linear) > critical * sqrt(fit.linear_variance):
        return Shape.RISING if fit.linear > 0 else Shape.FALLING
    return Shape.UNCLEAR


@method(
    unit="1",
    source="Draper & Smith, Applied Regression Analysis, 1998 (lack of fit) [from memory]",
    title="Does the curve fit?",
)
def curve_misfit(fit: QuadraticFit, scores: ArrayLike) -> float | None:
    """Chance of means so far from the curve if a quadratic is the truth.

    F = fall of the residual sum of squares when every duration gets a mean of its own, per
    degree, over the residual mean square that is left.

    Parameters: fit: of these scores. scores: tasters by durations [points], empty where missing.
    None where no degree or no spread is left.
    Errors: ValueError unless it is such a table.

    >>> table = [[1, 2, 5, 8, 9], [1, 3, 5, 7, 9.5], [0, 2, 5, 8, 9]]
    >>> x = np.broadcast_to([1.0, 2, 3, 4, 5], (3, 5))
    >>> fit = fit_quadratic(x, table, np.repeat([0, 1, 2], 5))
    >>> round(curve_misfit(fit, table), 3)
    0.112
    """
    left = score_anova(scores).error
    gained = fit.degrees - left.degrees
    if gained < 1 or not left.mean_square:
        return None
    fall = max(fit.spread**2 * fit.degrees - left.sum_of_squares, 0.0)
    return float(fdtrc(gained, left.degrees, fall / gained / left.mean_square))


@method(
    unit="points",
    source="least squares with Fieller limits, see the quadratic with blocks; four durations at"
    " least: common practice, no published source",
    title="Curve over duration",
)
def duration_curve(
    scores: ArrayLike, hours: Sequence[float], log_time: bool = False, confidence: float = 0.95
) -> DurationCurve | None:
    """Quadratic of scores over cooking time, every taster a block.

    The time of the best is the vertex, its limits Fieller's, its shape only what both
    curvature and slope establish. None with fewer than 4 durations or 3 tasters who told
    any apart, or without residual spread.

    Parameters: scores: tasters by durations [points], empty where missing. hours: one per column
    [h], above 0, rising. log time: fit over the logarithm of time. confidence: [1], above 0 and
    below 1.
    Errors: ValueError outside those ranges.

    >>> scores = [[3, 6, 7, 5], [4, 7, 7, 4], [2, 6, 8, 5], [3, 5, 7, 6]]
    >>> duration_curve(scores, [12, 24, 36, 48]).shape.value
    'rises, then falls'
    """
    table = score_table(scores)
    times = check_hours(hours, table.shape[1])
    if not 0 < confidence < 1:
        raise ValueError(f"confidence must be above 0 and below 1, not {confidence}")
    if len(times) < FEWEST_DURATIONS or len(informative_rows(table)) < FEWEST_TASTERS:
        return None
    x = np.broadcast_to(np.log(times) if log_time else times, table.shape)
    blocks = np.broadcast_to(np.arange(len(table))[:, None], table.shape)
    fit = fit_quadratic(x, table, blocks)
    if fit is None:
        return None
    back = _exponential if log_time else float
    limits = fieller_vertex_interval(fit, confidence) if fit.curvature < 0 else None
    vertex = fit.vertex if fit.curvature < 0 else None
    tried = times[(~np.isnan(table)).any(axis=0)]
    return DurationCurve(
        fit=fit,
        log_time=log_time,
        confidence=confidence,
        shape=_shape(fit, confidence),
        best=None if vertex is None else back(vertex),
        limits=None if limits is None else (back(limits[0]), back(limits[1])),
        shortest=float(tried[0]),
        longest=float(tried[-1]),
        misfit_p_value=curve_misfit(fit, table),
    )


@dataclass(frozen=True, slots=True)
class NearBestWindow:
    """Durations [h] at which the curve is within `margin` of its highest point.

    open_start, open_end: the window runs into the shortest or longest duration tried.
    """

    margin: float
    start: float
    end: float
    open_start: bool
    open_end: bool


@method(
    unit="h",
    source="common practice, no published source",
    title="Window near the best duration",
)
def near_best_window(curve: DurationCurve, margin: float) -> NearBestWindow | None:
    """Durations at which the fitted curve is within a margin of its highest point.

    Only where a peak is established; cut at the durations tried; a point estimate.

    Parameters: curve: as fitted. margin: [points], above 0.
    Errors: ValueError outside that.

    >>> scores = [[3, 6, 7, 5], [4, 7, 7, 4], [2, 6, 8, 5], [3, 5, 7, 6]]
    >>> window = near_best_window(duration_curve(scores, [12, 24, 36, 48]), 1)
    >>> 20 < window.start < 34 < window.end < 48
    True
    """
    if not margin > 0:
        raise ValueError(f"margin must be above 0 points, not {margin}")
    fit = curve.fit
    if curve.shape is not Shape.PEAK or fit.vertex is None:
        return None
    reach = fit.half * sqrt(margin / -fit.curvature)
    low, high = fit.vertex - reach, fit.vertex + reach
    back = _exponential if curve.log_time else float
    return NearBestWindow(
        margin=margin,
        start=back(max(low, fit.low)),
        end=back(min(high, fit.high)),
        open_start=low < fit.low,
        open_end=high > fit.high,
    )
