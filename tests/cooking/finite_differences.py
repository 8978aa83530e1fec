"""An independent solver of the same equation: control volumes in space, Crank-Nicolson in time.

It shares no line with the series: no roots, no Bessel functions, only heat that flows
through shells of area r^s and a film at the last one.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import solve_banded

Floats = NDArray[np.float64]


def temperatures(
    half_m: float,
    shape: float,
    start_c: float,
    medium_c: float,
    diffusivity: float,
    film: float,
    conductivity: float,
    minutes: float,
    *,
    nodes: int = 60,
    step_s: float = 5.0,
) -> tuple[Floats, Floats]:
    """Return the positions [1] of the cells' centres and their temperatures [°C]."""
    edges = np.linspace(0, half_m, nodes + 1)
    centres = (edges[1:] + edges[:-1]) / 2
    volumes = (edges[1:] ** (shape + 1) - edges[:-1] ** (shape + 1)) / (shape + 1)
    areas = edges**shape
    width = half_m / nodes
    between = conductivity * areas[1:-1] / width
    surface = areas[-1] / (1 / film + width / 2 / conductivity)
    capacity = conductivity / diffusivity * volumes
    out = np.append(between, surface)
    inward = np.insert(between, 0, 0.0)
    temperature = np.full(nodes, start_c) - medium_c
    steps = round(minutes * 60 / step_s)
    bands = np.zeros((3, nodes))
    half = step_s / 2 / capacity
    bands[0, 1:] = -(half * out)[:-1]
    bands[1] = 1 + half * (inward + out)
    bands[2, :-1] = -(half * inward)[1:]
    for _ in range(steps):
        warmer = np.append(temperature[1:], 0.0)
        inner = np.insert(temperature[:-1], 0, 0.0)
        flow = inward * (inner - temperature) + out * (warmer - temperature)
        temperature = solve_banded((1, 1), bands, temperature + half * flow)
    return centres / half_m, temperature + medium_c
