"""Least-squares quadratics with blocks, their vertex and Fieller's limits of it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import sqrt

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import stdtrit

from builder.engine.methods import method
from builder.tasting.score_tables import FloatArray

# A residual this small beside the total is rounding.
_ROUNDING = 1e-18


@dataclass(frozen=True, slots=True)
class QuadraticFit:
    """y = level + linear (u − mean u) + curvature (u² − mean u²), u = (x − centre) / half.

    In u the data reach from −1 to 1. Variances are those of `linear`, of both, of
    `curvature` and of `level`; `spread` is the residual standard deviation.
    """

    centre: float
    half: float
    level: float
    linear: float
    curvature: float
    linear_variance: float
    covariance: float
    curvature_variance: float
    level_variance: float
    mean_u: float
    mean_square: float
    spread: float
    degrees: int

    @property
    def low(self) -> float:
        """Smallest x of the data."""
        return self.centre - self.half

    @property
    def high(self) -> float:
        """Largest x of the data."""
        return self.centre + self.half

    @property
    def vertex(self) -> float | None:
        """Give x of the highest or lowest point; None for a straight line."""
        if not self.curvature:
            return None
        return self.centre - self.half * self.linear / (2 * self.curvature)

    def critical(self, confidence: float) -> float:
        """Two-sided quantile of Student's t."""
        return _quantile(confidence, self.degrees)

    def predict(self, x: float, confidence: float) -> tuple[float, float, float]:
        """Mean and limits at x.

        Raises ValueError outside the data: nothing is known there.
        """
        u = (x - self.centre) / self.half
        if not abs(round(u, 9)) <= 1:
            raise ValueError(f"x must be from {self.low:g} to {self.high:g} (the data), not {x:g}")
        line, curve = u - self.mean_u, u * u - self.mean_square
        mean = self.level + self.linear * line + self.curvature * curve
        variance = (
            self.level_variance
            + line * line * self.linear_variance
            + 2 * line * curve * self.covariance
            + curve * curve * self.curvature_variance
        )
        reach = self.critical(confidence) * sqrt(max(variance, 0.0))
        return mean, mean - reach, mean + reach


@lru_cache(maxsize=1024)
def _quantile(confidence: float, degrees: int) -> float:
    """Two-sided quantile of Student's t."""
    return float(-stdtrit(degrees, (1 - confidence) / 2))


def _block_means(columns: FloatArray, blocks: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Means of every column in each block, and the block number of each row."""
    _, place = np.unique(blocks, return_inverse=True)
    counts = np.bincount(place).astype(np.float64)
    means = np.stack([np.bincount(place, weights=column) / counts for column in columns.T], axis=1)
    return means, means[place]


def _checked(x: ArrayLike, y: ArrayLike, blocks: ArrayLike) -> tuple[FloatArray, ...]:
    """Arrays of equal length without the rows whose y is missing."""
    xs, ys, bs = (np.array(part, dtype=np.float64).ravel() for part in (x, y, blocks))
    if not xs.size == ys.size == bs.size:
        raise ValueError(
            f"x, y and blocks must be equally long, not {xs.size}, {ys.size}, {bs.size}"
        )
    if not np.isfinite(xs).all() or np.isinf(ys).any():
        raise ValueError("x and y must be finite, y may be NaN where missing")
    there = ~np.isnan(ys)
    return xs[there], ys[there], bs[there]


@method(
    unit="1",
    source="least squares; worked vertex example of a published course text [read]",
    title="Quadratic with blocks",
)
def fit_quadratic(x: ArrayLike, y: ArrayLike, blocks: ArrayLike) -> QuadraticFit | None:
    """Least-squares quadratic of y on x with a level of its own for every block.

    y and both columns less their block's mean; residual degrees n − blocks − 2; level: mean
    over blocks. None with fewer than three different x, no degree to spare or no residual
    spread: then no limits could be given.

    Parameters: x: [any], finite. y: [any], empty where missing. blocks: one label per row.
    Errors: ValueError for unequal lengths or infinite values.

    >>> fit = fit_quadratic([1, 2, 3, 4, 5], [0, 3, 4, 3, 0.1], [0] * 5)
    >>> round(fit.vertex, 2)
    3.01
    """
    xs, ys, bs = _checked(x, y, blocks)
    if np.unique(xs).size < 3:
        return None
    centre, half = float(xs.max() + xs.min()) / 2, float(np.ptp(xs)) / 2
    u = (xs - centre) / half
    data = np.stack([u, u * u, ys], axis=1)
    means, spread_out = _block_means(data, bs)
    within = data - spread_out
    design, response = within[:, :2], within[:, 2]
    slopes, _, rank, _ = np.linalg.lstsq(design, response, rcond=None)
    degrees = ys.size - len(means) - 2
    residual = float(((response - design @ slopes) ** 2).sum())
    if rank < 2 or degrees < 1 or residual <= _ROUNDING * max(float((ys**2).sum()), 1.0):
        return None
    variance = residual / degrees
    covariance = variance * np.linalg.inv(design.T @ design)
    sizes = np.unique(bs, return_counts=True)[1]
    return QuadraticFit(
        centre=centre,
        half=half,
        level=float(means[:, 2].mean()),
        linear=float(slopes[0]),
        curvature=float(slopes[1]),
        linear_variance=float(covariance[0, 0]),
        covariance=float(covariance[0, 1]),
        curvature_variance=float(covariance[1, 1]),
        level_variance=variance * float((1 / sizes).mean()) / len(sizes),
        mean_u=float(means[:, 0].mean()),
        mean_square=float(means[:, 1].mean()),
        spread=sqrt(variance),
        degrees=degrees,
    )


@method(
    unit="unit of x",
    source="Fieller, Some problems in interval estimation, Journal of the Royal Statistical"
    " Society B 16, 1954 [from memory]",
    title="Fieller interval of a vertex",
)
def fieller_vertex_interval(fit: QuadraticFit, confidence: float) -> tuple[float, float] | None:
    """Limits of the vertex, or None when the curvature is not established.

    All m with 4 (b₂² − t² v₂₂) m² + 4 (b₁ b₂ − t² v₁₂) m + b₁² − t² v₁₁ <= 0. With
    b₂² <= t² v₂₂ that is no interval: the peak is not located.

    Parameters: fit: as fitted. confidence: [1], above 0 and below 1.
    Errors: ValueError outside that.

    >>> fit = fit_quadratic([1, 2, 3, 4, 5], [0, 3, 4, 3, 0.1], [0] * 5)
    >>> low, high = fieller_vertex_interval(fit, 0.95)
    >>> low < fit.vertex < high
    True
    """
    if not 0 < confidence < 1:
        raise ValueError(f"confidence must be above 0 and below 1, not {confidence}")
    square = fit.critical(confidence) ** 2
    lead = 4 * (fit.curvature**2 - square * fit.curvature_variance)
    if lead <= 0:
        return None
    middle = 4 * (fit.linear * fit.curvature - square * fit.covariance)
    last = fit.linear**2 - square * fit.linear_variance
    # The vertex itself satisfies the inequality, so rounding alone can make this negative.
    root = sqrt(max(middle**2 - 4 * lead * last, 0.0))
    ends = sorted(((-middle - root) / (2 * lead), (-middle + root) / (2 * lead)))
    return fit.centre + fit.half * ends[0], fit.centre + fit.half * ends[1]
