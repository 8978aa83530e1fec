"""Reduction of bacteria along a core curve, by the D and z model.

It reproduces a published pasteurisation table; it is no rule, and a verdict never
rests on it. Strains in meat have been measured to be more heat-tolerant than it says.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import scipy
from numpy.typing import ArrayLike

from builder.cooking.heating import Cases, core_temperature
from builder.cooking.ranges import Floats
from builder.engine.methods import method
from builder.language import Deferred

SECONDARY = Deferred(
    "regression over published meat data, reprinted with the pasteurisation table [2nd]"
)


@dataclass(frozen=True, slots=True)
class Organism:
    """D [min] at a reference temperature [°C], z [K], and the reduction asked for [log10]."""

    name: str
    d_min: float
    at_c: float
    z_k: float
    target_log: float
    source: str


LISTERIA = Organism("Listeria monocytogenes", 12.66, 55, 9.22, 6, SECONDARY)
SALMONELLA = Organism("Salmonella", 13.18, 55, 7.58, 6.5, SECONDARY)
E_COLI = Organism("Escherichia coli", 19.35, 55, 4.87, 5, SECONDARY)
ORGANISMS = (LISTERIA, SALMONELLA, E_COLI)


@method(
    unit="log10",
    source="Baldwin, Sous vide cooking: A review, Int. J. Gastronomy and Food Science 1(1), 2012 "
    "[secondary]",
)
def log_reduction(core_c: ArrayLike, time_min: ArrayLike, organism: Organism) -> Floats:
    """Decimal reductions of an organism up to each moment of a core curve.

    Formula: R(t) = integral of 10^((T - Tref) / z) / D dt, by trapezoids.
    Parameters: core temperatures [°C] and their times [min], rising; the organism with D [min] and
    z [K].
    Returns: decimal reductions up to each time, from 0.
    Valid range: at least two times.
    Errors: ValueError for fewer, or for times that fall.

    >>> held = log_reduction([55, 55], [0, 131.8], SALMONELLA)
    >>> round(float(held[-1]), 6)
    10.0
    """
    time = np.asarray(time_min, dtype=np.float64)
    if time.shape[-1] < 2 or (np.diff(time, axis=-1) <= 0).any():
        raise ValueError("a core curve needs at least 2 times [min], each later than the last")
    rate = 10 ** ((np.asarray(core_c, dtype=np.float64) - organism.at_c) / organism.z_k)
    return np.asarray(
        scipy.integrate.cumulative_trapezoid(rate / organism.d_min, time, axis=-1, initial=0),
        dtype=np.float64,
    )


@method(
    unit="min",
    source="Baldwin, Sous vide cooking: A review, Int. J. Gastronomy and Food Science 1(1), 2012 "
    "[secondary]",
)
def pasteurisation_time(
    cases: Cases, organisms: tuple[Organism, ...] = ORGANISMS, *, until_min: float = 1440.0
) -> Floats:
    """Minutes from the start until the slowest of several organisms is reduced as asked.

    Formula: the first t with a log reduction at the core >= the organism's target, linear
    between steps of half a minute at most; the largest over the organisms.
    Parameters: pieces with their surroundings; organisms; time at which the search ends [min].
    Returns: time [min]; infinite where the search ends before.
    Valid range: the search ends after 1 to 20160 min.
    Errors: ValueError outside the range.
    Departs from the source: three organisms and properties fitted to its printed table.

    >>> round(float(pasteurisation_time(Cases(25, 0, 5, 60, 1.11e-7, 95))))
    79
    """
    time = np.linspace(0, until_min, max(int(until_min * 2), 2) + 1)
    core = core_temperature(cases, time)
    each = [_crossing(log_reduction(core, time, o), time, o) for o in organisms]
    return np.asarray(np.max(each, axis=0), dtype=np.float64)


def _crossing(reduction: Floats, time: Floats, organism: Organism) -> Floats:
    """Return when each curve first meets the organism's target, linear between two steps."""
    after = np.argmax(reduction >= organism.target_log, axis=-1)[..., None]
    before = np.maximum(after - 1, 0)
    low, high = (np.take_along_axis(reduction, i, axis=-1)[..., 0] for i in (before, after))
    step = time[after[..., 0]] - time[before[..., 0]]
    share = (organism.target_log - low) / np.where(high > low, high - low, 1)
    met = reduction[..., -1] >= organism.target_log
    return np.where(met, time[before[..., 0]] + share * step, np.inf)
