"""The core of a piece of meat in hot or cold surroundings: curves and times, by the column.

Not modelled: bags that touch or float, bone, ice, a bath that sags under a cold load,
and a dry surface that evaporates; log the core with a calibrated probe.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from builder.cooking.conduction import core_ratio, depth_ratio, fourier_to_ratio
from builder.cooking.ranges import Floats, require_within
from builder.engine.methods import method

# Lean meat [from memory; the conductivity that goes with the published pasteurisation table].
MEAT_CONDUCTIVITY_W_MK = 0.48
# Meat begins to freeze at about -1 °C; below, melting ice takes heat that no term here holds.
COLDEST_START_C = -1.0

SHAPES = {"slab": 0.0, "cylinder": 1.0, "sphere": 2.0}


@dataclass(frozen=True)
class Cases:
    """Columns of heating (or cooling) problems, one row a piece.

    thickness_mm [mm] whole thickness or diameter, 1 to 400; shape_factor [1] 0 slab, 1 long
    cylinder, 2 sphere, between allowed; start_c [°C] the piece throughout, -1 to 100;
    medium_c [°C] what surrounds it, held there, -40 to 110; diffusivity_m2_s [m²/s] 5e-8 to
    3e-7; surface_w_m2k [W/m²K] 2 to 5000; conductivity_w_mk [W/mK] 0.1 to 1. Numbers or
    arrays that broadcast to one shape P. ValueError names the range and the unit.
    """

    thickness_mm: ArrayLike
    shape_factor: ArrayLike
    start_c: ArrayLike
    medium_c: ArrayLike
    diffusivity_m2_s: ArrayLike
    surface_w_m2k: ArrayLike
    conductivity_w_mk: ArrayLike = MEAT_CONDUCTIVITY_W_MK

    def __post_init__(self) -> None:
        require_within("thickness", self.thickness_mm, 1, 400, "mm")
        require_within("shape factor", self.shape_factor, 0, 2, "(1)")
        require_within("starting temperature", self.start_c, COLDEST_START_C, 100, "°C")
        require_within("surrounding temperature", self.medium_c, -40, 110, "°C")
        require_within("thermal diffusivity", self.diffusivity_m2_s, 5e-8, 3e-7, "m²/s")
        require_within("surface coefficient", self.surface_w_m2k, 2, 5000, "W/m²K")
        require_within("thermal conductivity", self.conductivity_w_mk, 0.1, 1, "W/mK")

    @property
    def half_thickness_m(self) -> Floats:
        """Half the thickness [m], the length that conduction goes by."""
        return np.asarray(self.thickness_mm, dtype=np.float64) / 2000

    @property
    def biot(self) -> Floats:
        """Biot number h L / k [1], shape P."""
        ratio = np.divide(self.surface_w_m2k, self.conductivity_w_mk)
        return np.asarray(ratio * self.half_thickness_m, dtype=np.float64)

    @property
    def minutes_per_fourier(self) -> Floats:
        """Minutes in which the Fourier number grows by 1, L² / a [min]."""
        seconds = np.divide(self.half_thickness_m**2, self.diffusivity_m2_s)
        return np.asarray(seconds / 60, dtype=np.float64)

    @property
    def difference_c(self) -> Floats:
        """Start less surroundings [K], negative when the piece warms."""
        return np.subtract(self.start_c, self.medium_c, dtype=np.float64)


def _fourier(cases: Cases, time_min: ArrayLike) -> Floats:
    time = require_within("time", time_min, 0, 60 * 24 * 14, "min")
    return np.asarray(time / cases.minutes_per_fourier[..., None], dtype=np.float64)


@method(
    unit="°C",
    source="Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, Oxford [from memory]; "
    "Incropera et al., Fundamentals of Heat and Mass Transfer, ch. 5 [from memory]",
)
def core_temperature(cases: Cases, time_min: ArrayLike) -> Floats:
    """Temperature of the slowest point of each piece over time.

    Formula: T = Tm + (T0 - Tm) sum of C_n exp(-z_n² Fo), Fo = a t / L², L half the thickness.
    Parameters: pieces with their surroundings; times from the start [min].
    Returns: temperature of each core at each time [°C].
    Valid range: time 0 to 14 days.
    Errors: ValueError outside the range, naming it and the unit.
    Departs from the source: before Fo 0.015 the start temperature, which errs by under 1e-4 K.

    >>> slab = Cases(50, 0, 5, 60, 1.4e-7, 95)
    >>> [round(float(t), 1) for t in core_temperature(slab, [0, 60, 213])]
    [5.0, 43.0, 59.5]
    """
    shape = np.asarray(cases.shape_factor, dtype=np.float64)
    left = core_ratio(_fourier(cases, time_min), shape, cases.biot)
    medium = np.asarray(cases.medium_c, dtype=np.float64)
    return np.asarray(medium[..., None] + cases.difference_c[..., None] * left, dtype=np.float64)


@method(
    unit="°C",
    source="Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, Oxford [from memory]",
)
def temperature_at_depth(cases: Cases, time_min: ArrayLike, position: ArrayLike) -> Floats:
    """Temperature at several places between core and surface over time.

    Formula: as the core temperature, each term times its mode r^-v J_v(z r) scaled to 1 at r = 0.
    Parameters: pieces with their surroundings; times from the start [min]; positions, 0 the core, 1
    the surface.
    Returns: temperature at each time and depth [°C].
    Valid range: time 0 to 14 days; position 0 to 1.
    Errors: ValueError outside the range, naming it and the unit.
    Departs from the source: cut short before Fo 1e-4, which shows at the surface only.

    >>> slab = Cases(50, 0, 5, 60, 1.4e-7, 95)
    >>> [round(float(t), 1) for t in temperature_at_depth(slab, [30], [0, 0.5, 1])[0]]
    [26.0, 33.0, 51.3]
    """
    shape = np.asarray(cases.shape_factor, dtype=np.float64)
    left = depth_ratio(_fourier(cases, time_min), position, shape, cases.biot)
    medium = np.asarray(cases.medium_c, dtype=np.float64)
    return np.asarray(
        medium[..., None, None] + cases.difference_c[..., None, None] * left, dtype=np.float64
    )


@method(
    unit="min",
    source="Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, Oxford [from memory]",
)
def time_to_core(cases: Cases, target_c: ArrayLike) -> Floats:
    """Minutes until the core of each piece reaches a temperature.

    Formula: the t at which the core temperature is the target, by Newton on its logarithm.
    Parameters: pieces with their surroundings; temperature wanted at the core [°C].
    Returns: [min]; 0 where the piece starts at the target or past it.
    Valid range: the target on the start's side of the surroundings' temperature.
    Errors: ValueError for a target that the surroundings cannot bring the core to.

    >>> round(float(time_to_core(Cases(50, 0, 5, 60, 1.4e-7, 95), 59.5)))
    213
    >>> time_to_core(Cases(50, 0, 5, 57, 1.4e-7, 95), 60)
    Traceback (most recent call last):
    ValueError: 57 °C around a piece never brings its core to 60 °C
    """
    target, medium, first = np.broadcast_arrays(
        np.asarray(target_c, dtype=np.float64), cases.medium_c, cases.difference_c
    )
    remaining = (target - medium) * np.sign(first)
    if not (remaining > 0).all():
        at = np.unravel_index(np.argmin(remaining > 0), remaining.shape)
        raise ValueError(
            f"{medium[at]:g} °C around a piece never brings its core to {target[at]:g} °C"
        )
    ratio = remaining / np.abs(first)
    there = ratio >= 1
    fourier = fourier_to_ratio(np.where(there, 0.5, ratio), cases.shape_factor, cases.biot)
    return np.where(there, 0.0, fourier * cases.minutes_per_fourier)
