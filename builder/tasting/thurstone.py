"""Thurstonian models: from the distance between two samples to the share of correct answers."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from math import sqrt

import numpy as np
import scipy
from numpy.typing import NDArray
from scipy.special import betaincinv, ndtr

from builder.engine.methods import method
from builder.tasting.protocols import Protocol, Question

_LARGEST = 12.0
_STEP = 1e-4
# Nearer to certainty than this the curve is flat to the last digits.
_HAIR = 1e-9


@cache
def _nodes(low: float, high: float, count: int) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Gauss-Legendre nodes and weights, the weights times the normal density."""
    points, weights = np.polynomial.legendre.leggauss(count)
    places = (high - low) / 2 * points + (high + low) / 2
    density = np.exp(-(places**2) / 2) / sqrt(2 * np.pi)
    return places, weights * (high - low) / 2 * density


def _triangle(distance: float) -> float:
    places, weights = _nodes(0, 9, 120)
    spread, shift = places * sqrt(3), distance * sqrt(2 / 3)
    return float(2 * (weights * (ndtr(shift - spread) + ndtr(-shift - spread))).sum())


def _duo_trio(distance: float) -> float:
    near, far = ndtr(distance / sqrt(2)), ndtr(distance / sqrt(6))
    return float(1 - near - far + 2 * near * far)


def _choice(distance: float, alternatives: int) -> float:
    places, weights = _nodes(-9, 9, 200)
    return float((weights * ndtr(places + distance) ** (alternatives - 1)).sum())


@method(
    unit="1",
    source="Ennis, The power of sensory discrimination methods, Journal of Sensory Studies 8, 1993"
    " [from memory; evaluated from the definitions by quadrature]",
    title="Share of correct answers at a sensory distance",
)
def thurstonian_share_correct(d_prime: float, protocol: Protocol) -> float:
    """Share of correct answers that a sensory distance d′ brings, guessing included.

    Triangle: 2 ∫₀^∞ [Φ(−z√3 + d′√⅔) + Φ(−z√3 − d′√⅔)] φ(z) dz. Duo-trio:
    1 − Φ(d′/√2) − Φ(d′/√6) + 2 Φ(d′/√2) Φ(d′/√6). m-AFC: ∫ Φ(z + d′)^(m−1) φ(z) dz.

    Parameters: d prime: distance in standard deviations of perception [1], 0 to 12 (−12 to 12 for a
    paired comparison either way).
    Errors: ValueError outside that range.

    >>> from builder.tasting.protocols import TRIANGLE
    >>> round(thurstonian_share_correct(1.0, TRIANGLE), 3)
    0.418
    """
    lowest = -_LARGEST if protocol.two_sided else 0.0
    if not lowest <= d_prime <= _LARGEST:
        raise ValueError(
            f"d_prime must be from {lowest:g} to {_LARGEST:g} standard deviations, not {d_prime}"
        )
    if protocol.question is Question.TRIANGLE:
        return _triangle(d_prime)
    if protocol.question is Question.DUO_TRIO:
        return _duo_trio(d_prime)
    return _choice(d_prime, protocol.alternatives)


def _invert(share_correct: float, protocol: Protocol) -> float | None:
    """Give the distance with that share of correct answers; None where it has no finite one."""
    lowest = -_LARGEST if protocol.two_sided else 0.0
    if share_correct >= thurstonian_share_correct(_LARGEST, protocol) - _HAIR:
        return None
    if share_correct <= thurstonian_share_correct(lowest, protocol) + _HAIR:
        return None if protocol.two_sided else 0.0
    return float(
        scipy.optimize.brentq(
            lambda distance: thurstonian_share_correct(distance, protocol) - share_correct,
            lowest,
            _LARGEST,
        )
    )


@lru_cache(maxsize=4096)
def clopper_pearson(count: int, total: int, confidence: float) -> tuple[float, float]:
    """Exact two-sided limits of a share [1] from `count` of `total`.

    confidence: [1], above 0 and below 1. Raises ValueError outside 0 <= count <= total.

    >>> [round(limit, 4) for limit in clopper_pearson(0, 10, 0.95)]
    [0.0, 0.3085]
    """
    if not (0 <= count <= total and total >= 1):
        raise ValueError(f"count must be from 0 to the total, at least 1; not {count} of {total}")
    if not 0 < confidence < 1:
        raise ValueError(f"confidence must be above 0 and below 1, not {confidence}")
    tail = (1 - confidence) / 2
    low = betaincinv(count, total - count + 1, tail) if count else 0.0
    high = betaincinv(count + 1, total - count, 1 - tail) if count < total else 1.0
    return float(low), float(high)


@dataclass(frozen=True, slots=True)
class DPrime:
    """A sensory distance with its limits; None where no finite figure exists.

    `estimate` is None when everybody was correct; `standard_error` is None there and at or
    below guessing, where the curve is flat or cut; `upper` None means without limit.
    """

    estimate: float | None
    standard_error: float | None
    lower: float | None
    upper: float | None
    confidence: float
    tasters: int


def _slope(distance: float, protocol: Protocol) -> float:
    low = distance - _STEP if protocol.two_sided else max(distance - _STEP, 0.0)
    high = distance + _STEP
    rise = thurstonian_share_correct(high, protocol) - thurstonian_share_correct(low, protocol)
    return rise / (high - low)


@method(
    unit="1",
    source="Bi, Ennis & O'Mahony, How to estimate and use the variance of d' from difference"
    " tests, Journal of Sensory Studies 12, 1997 [from memory]",
    title="Sensory distance d-prime",
)
def sensory_distance(
    correct: int, tasters: int, protocol: Protocol, confidence: float = 0.95
) -> DPrime:
    """Sensory distance d′ from the answers of a discrimination test.

    d′ solves share correct = correct / tasters; standard error √(pc (1 − pc) / n) divided by
    the slope of the curve there. Limits: the exact (Clopper-Pearson) limits of the share of
    correct answers put through the same curve.

    Parameters: correct: correct answers [1], 0 to tasters. tasters: [1], 1 or more, one answer
    each. confidence: [1], above 0 and below 1.
    Errors: ValueError outside those ranges.
    Departure: the interval is exact, not estimate ± 1.96 standard errors as in the source.

    >>> from builder.tasting.protocols import TRIANGLE
    >>> round(sensory_distance(21, 50, TRIANGLE).estimate, 2)
    1.01
    """
    low, high = clopper_pearson(correct, tasters, confidence)
    observed = correct / tasters
    estimate = _invert(observed, protocol)
    error = None
    if estimate is not None and (protocol.two_sided or observed > protocol.guess):
        error = sqrt(observed * (1 - observed) / tasters) / _slope(estimate, protocol)
    # Fewer correct than guessing brings are no evidence of likeness: no limit from above.
    below = not protocol.two_sided and observed < protocol.guess * (1 - 1e-12)
    upper = None if below else _invert(high, protocol)
    return DPrime(estimate, error, _invert(low, protocol), upper, confidence, tasters)
