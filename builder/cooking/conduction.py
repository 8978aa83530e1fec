"""Transient conduction without units: one series for slab, cylinder, sphere and between.

The equation  dT/dt = a (T'' + s/r T')  with shape factor s is a slab at s = 0, a long
cylinder at 1 and a sphere at 2. With order v = (s - 1) / 2 its eigenfunctions are
r^-v J_v(z r), so that one pair of Bessel functions serves every shape. Lengths are
fractions of the half thickness, time is the Fourier number a t / L^2, the surface is
the Biot number h L / k, and a temperature is the part of the first difference that is
left: 1 at the start, 0 when the piece is as warm as what surrounds it.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import gamma, jv

from builder.cooking.ranges import Floats, require_within
from builder.engine.methods import method
from builder.language import tr

# Below this Fourier number the core has moved by less than a millionth of the difference.
CORE_STILL = 0.015
# Away from the core the series is summed down to this Fourier number (under a second for 60 mm).
DEPTH_FLOOR = 1e-4
# exp(-5^2) = 1e-11 is what the first neglected term is worth.
TAIL = 5.0
# Newton ends where a step changes less than this part of the answer.
SETTLED = 1e-12


def bessel_zeros(order: Floats, count: int) -> Floats:
    """Return the first `count` zeros of J_order by McMahon's expansion, order -1/2 to 3/2.

    Within 0.05 of the truth, exact at order ±1/2: good enough to start Newton from.
    """
    b = (np.arange(1, count + 1) + order / 2 - 0.25) * np.pi
    m = 4 * order**2
    return np.asarray(
        b - (m - 1) / (8 * b) - 4 * (m - 1) * (7 * m - 31) / (3 * (8 * b) ** 3), dtype=np.float64
    )


def _first_guess(shape: Floats, biot: Floats, terms: int) -> Floats:
    order = (shape - 1) / 2
    high = bessel_zeros(order, terms)
    low = bessel_zeros(order + 1, terms)[..., :-1]
    first = (shape + 1) * biot
    lumped = np.sqrt(first / (1 + first / high[..., :1] ** 2))
    upper = high[..., 1:]
    later = low + (upper - low) * 2 / np.pi * np.arctan(2 * biot / (low + upper))
    return np.concatenate([lumped, later], axis=-1)


@method(
    unit="1",
    source="Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, Oxford [from memory]",
)
def conduction_roots(shape_factor: ArrayLike, biot: ArrayLike, terms: int) -> Floats:
    """The first roots of the conduction series for a convective surface.

    Formula: z J_v+1(z) = Bi J_v(z), v = (s - 1) / 2; solved by Newton as
    arctan(J_v+1 / J_v) = arctan(Bi / z), whose left side is all but straight in z.
    Parameters: shape factor s and Biot number, how many terms of the series.
    Returns: the roots, rising.
    Valid range: s 0 to 2, Biot 1e-4 to 1e4.
    Errors: ValueError outside the range.

    >>> round(float(conduction_roots(2.0, 1.0, 1)[0]), 6)  # a sphere at Biot 1: pi / 2
    1.570796
    """
    shape = require_within("shape factor", shape_factor, 0, 2, "(1)")
    bi = require_within(tr("Biot number"), biot, 1e-4, 1e4, "(1)")
    shape, bi = (np.expand_dims(a, -1) for a in np.broadcast_arrays(shape, bi))
    order = (shape - 1) / 2
    z = _first_guess(shape, bi, terms)
    for _ in range(30):
        tangent = jv(order + 1, z) / jv(order, z)
        # At its root a branch's angle lies between 0 and pi / 2; a quarter turn of slack on
        # either side keeps a step that overshoots on the same branch.
        angle = (np.arctan(tangent) + np.pi / 4) % np.pi - np.pi / 4
        slope = 1 - shape * tangent / (z * (1 + tangent**2)) + bi / (z**2 + bi**2)
        step = (angle - np.arctan(bi / z)) / slope
        before, z = z, z - step
        if np.allclose(before, z, rtol=SETTLED, atol=0):
            break
    return z


@method(
    unit="1",
    source="Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, Oxford [from memory]",
)
def conduction_coefficients(shape_factor: ArrayLike, roots: Floats) -> Floats:
    """The weight of each term of the conduction series at the core.

    Formula: C = phi(0) (J_v+1 / z) / (1/2 [J_v^2 + J_v+1^2 - (2 v / z) J_v J_v+1]) at z,
    phi(0) = (z / 2)^v / Gamma(v + 1).
    Parameters: shape factor and the roots for it.
    Returns: a coefficient for each root, signs alternating, sum 1.
    Valid range: shape factor 0 to 2.
    Errors: ValueError outside the range.

    >>> round(float(conduction_coefficients(2.0, conduction_roots(2.0, 1.0, 1))[0]), 4)  # 4 / pi
    1.2732
    """
    shape = require_within("shape factor", shape_factor, 0, 2, "(1)")
    order = (np.expand_dims(shape, -1) - 1) / 2
    here, above = jv(order, roots), jv(order + 1, roots)
    norm = (here**2 + above**2 - 2 * order / roots * here * above) / 2
    centre = (roots / 2) ** order / gamma(order + 1)
    return np.asarray(centre * above / roots / norm, dtype=np.float64)


def _terms_down_to(fourier: float) -> int:
    return int(np.ceil(TAIL / (np.pi * np.sqrt(fourier)))) + 1


def _series(shape_factor: ArrayLike, biot: ArrayLike, floor: float) -> tuple[Floats, Floats]:
    roots = conduction_roots(shape_factor, biot, _terms_down_to(floor))
    return roots, conduction_coefficients(shape_factor, roots)


def core_ratio(fourier: ArrayLike, shape_factor: ArrayLike, biot: ArrayLike) -> Floats:
    """Return the part of the first temperature difference left at the core.

    `fourier` has the shape P + (times,), the others broadcast to P. Before CORE_STILL
    the answer is 1, because there the truncated series would ring.
    """
    time = np.asarray(fourier, dtype=np.float64)
    roots, weights = _series(shape_factor, biot, CORE_STILL)
    left = np.zeros(np.broadcast_shapes(time.shape, (*roots.shape[:-1], 1)))
    # Term by term keeps the memory at pieces x times, whatever the number of terms.
    for n in range(roots.shape[-1]):
        left += weights[..., n, None] * np.exp(-(roots[..., n, None] ** 2) * time)
    return np.where(time < CORE_STILL, 1.0, np.clip(left, 0.0, 1.0))


def depth_ratio(
    fourier: ArrayLike, position: ArrayLike, shape_factor: ArrayLike, biot: ArrayLike
) -> Floats:
    """Return the part of the first difference left at each position, 0 core to 1 surface.

    `fourier` has the shape P + (times,), `position` (depths,); the result P + (times, depths).
    Between the start and DEPTH_FLOOR the series is cut short: clipped, it errs by at most
    about 0.005 Biot at the very surface.
    """
    time = np.asarray(fourier, dtype=np.float64)[..., None]
    place = require_within("position", position, 0, 1, "(1)")
    begun = time[time > 0]
    floor = max(DEPTH_FLOOR, float(begun.min())) if begun.size else 1.0
    roots, weights = _series(shape_factor, biot, min(floor, CORE_STILL))
    order = (np.asarray(shape_factor, dtype=np.float64)[..., None, None] - 1) / 2
    left = np.zeros(np.broadcast_shapes(time.shape, (*roots.shape[:-1], 1, 1), place.shape))
    for n in range(roots.shape[-1]):
        root = roots[..., n, None, None]
        left += weights[..., n, None, None] * np.exp(-(root**2) * time) * _mode(root * place, order)
    return np.where(time <= 0, 1.0, np.clip(left, 0.0, 1.0))


def _mode(argument: Floats, order: Floats) -> Floats:
    """Return the eigenfunction scaled to 1 at the core."""
    x = np.where(argument == 0, 1.0, argument)
    shape = gamma(order + 1) * (x / 2) ** -order * jv(order, x)
    return np.where(argument == 0, 1.0, shape)


def fourier_to_ratio(ratio: ArrayLike, shape_factor: ArrayLike, biot: ArrayLike) -> Floats:
    """Return the Fourier number at which the core has `ratio` of its difference left.

    ln(ratio) is a concave, falling function of time whose asymptote is the first term;
    Newton from the asymptote's own root therefore comes down on the answer from above.
    All arguments broadcast to P; `ratio` lies strictly between 0 and 1.
    """
    left = np.asarray(ratio, dtype=np.float64)
    if not ((left > 0) & (left < 1)).all():
        raise ValueError("the ratio left at the core lies strictly between 0 and 1 (1)")
    roots, weights = _series(shape_factor, biot, CORE_STILL)
    squares = roots**2
    time = np.log(weights[..., 0] / left) / squares[..., 0]
    for _ in range(50):
        terms = weights * np.exp(-squares * np.maximum(time, CORE_STILL)[..., None])
        total = terms.sum(axis=-1)
        step = np.log(total / left) * total / (squares * terms).sum(axis=-1)
        before, time = time, np.maximum(time + step, CORE_STILL)
        if np.allclose(before, time, rtol=SETTLED, atol=0):
            break
    return time
