"""An independent solver of melting: small explicit steps, temperature looked up in a table.

It shares no line with the package: no closed form of the heat content, no band of equations, no
Newton; the heat content is summed up degree by degree from an apparent heat capacity.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
FROZEN_J_M3K = 2.0e6


def heat_table(freezes: float, ice_j_m3: float, warm_j_m3k: float) -> tuple[Floats, Floats]:
    """Return temperatures [°C] and the heat content [J/m³] up to each, from -40 °C."""
    below = freezes - np.geomspace(40 + freezes, 1e-6, 40_000)
    celsius = np.concatenate([below, [freezes, 100.0]])
    # Of ice, 1 - Tf / T, a kelvin melts -Tf / T² of it.
    middle = (below[1:] + below[:-1]) / 2
    apparent = FROZEN_J_M3K - ice_j_m3 * freezes / middle**2
    rises = np.concatenate([apparent * np.diff(below), [0.0, warm_j_m3k * (100 - freezes)]])
    return celsius, np.concatenate([[0.0], np.cumsum(rises)])


def core_of_a_slab(
    half_m: float,
    start_c: float,
    medium_c: float,
    *,
    diffusivity: float,
    film: float,
    soft: float,
    hard: float,
    freezes: float,
    ice_j_m3: float,
    minutes: float,
    nodes: int = 30,
    step_s: float = 0.25,
) -> Floats:
    """Return the core's temperature [°C] at the end of each minute of a frozen slab's warming."""
    celsius, content = heat_table(freezes, ice_j_m3, soft / diffusivity)
    width = half_m / nodes
    heat = np.full(nodes, np.interp(start_c, celsius, content))
    core = []
    for _ in range(round(minutes)):
        for _ in range(round(60 / step_s)):
            now = np.interp(heat, content, celsius)
            ice = np.clip(1 - freezes / np.minimum(now, freezes), 0, 1)
            leads = soft + (hard - soft) * ice
            between = 2 * leads[1:] * leads[:-1] / (leads[1:] + leads[:-1]) / width
            flow = between * np.diff(now)
            film_flow = (medium_c - now[-1]) / (1 / film + width / 2 / leads[-1])
            gain = np.concatenate([flow, [film_flow]]) - np.concatenate([[0.0], flow])
            heat = heat + gain * step_s / width
        core.append(float(np.interp(heat[0], content, celsius)))
    return np.array(core)
