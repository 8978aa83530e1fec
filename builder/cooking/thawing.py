"""The core of a piece that goes in frozen or tempered: its ice melts on the way to the cook.

Meat gives up its ice over several degrees, and ice leads heat three times better than thawed
meat, so that no series holds. The heat content of shells is followed instead, implicitly in
time; at the very end the first term of the series is all that is left.

Not modelled, beside what `heating` leaves out: meat that drips, and ice between the pieces.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike
from scipy.linalg import solve_banded

from builder.cooking.conduction import conduction_roots
from builder.cooking.heating import COLDEST_START_C, Cases, time_to_core
from builder.cooking.ranges import Floats, Range, require_within
from builder.engine.methods import method
from builder.language import tr

COLDEST_FROZEN_C = -30.0
# Surroundings that melt a piece and leave no doubt of it.
COLDEST_MELTING_C = 5.0
# Lean to fat meat [from memory, after the usual tables of foods].
FREEZES_C = Range(-1.7, -1.2, -1.0)
ICE_KJ_KG = Range(165, 207, 234)
FROZEN_W_MK = Range(1.1, 1.4, 1.6)
FROZEN_J_M3K = 2.0e6
MEAT_KG_M3 = 1050.0

SHELLS = 24
STEPS = 500
_NEWTON = 3
# Nearer to the surroundings than this [K] the core follows the first term of the series.
TAIL_K = 0.5


@dataclass(frozen=True)
class FrozenCases:
    """Columns of pieces that start frozen, in surroundings that melt them, one row a piece.

    thawed: the same pieces once melted, as `Cases` from -1 °C, shape P; start_c [°C] -30 to
    -1; freezes_c [°C] -3 to -0.5, where the last ice melts; ice_j_m3 [J/m³] 1e7 to 3.5e8,
    what all the ice takes to melt; frozen_w_mk [W/mK] 0.5 to 2.5. ValueError names the range.
    """

    thawed: Cases
    start_c: ArrayLike
    freezes_c: ArrayLike
    ice_j_m3: ArrayLike
    frozen_w_mk: ArrayLike

    def __post_init__(self) -> None:
        start, medium = self.start_c, self.thawed.medium_c
        require_within("frozen start", start, COLDEST_FROZEN_C, COLDEST_START_C, "°C")
        require_within("melting surroundings", medium, COLDEST_MELTING_C, 110, "°C")
        require_within("freezing point", self.freezes_c, -3, -0.5, "°C")
        require_within(tr("heat of the ice"), self.ice_j_m3, 1e7, 3.5e8, "J/m³")
        require_within("frozen conductivity", self.frozen_w_mk, 0.5, 2.5, "W/mK")

    @property
    def warm_j_m3k(self) -> Floats:
        """Heat capacity of the melted meat [J/m³K], conductivity over diffusivity."""
        thawed = self.thawed
        return np.divide(thawed.conductivity_w_mk, thawed.diffusivity_m2_s, dtype=np.float64)


def ice_share(celsius: ArrayLike, freezes_c: ArrayLike) -> Floats:
    """Return the part of its ice that meat holds at a temperature, 1 - Tf / T below Tf [°C].

    >>> ice_share([-2.0, 0.0], -1.0).tolist()
    [0.5, 0.0]
    """
    return np.asarray(1 - np.divide(freezes_c, np.minimum(celsius, freezes_c)), dtype=np.float64)


def melting_kj_kg(start_c: float) -> Range:
    """Return the heat [kJ/kg] that brings meat to -1 °C with its ice melted; 0 from there on.

    >>> melting_kj_kg(-18).typical > 20 * melting_kj_kg(-1.05).typical
    True
    """
    if start_c >= COLDEST_START_C:
        return Range.exactly(0)
    ice = ICE_KJ_KG * float(ice_share(start_c, COLDEST_START_C))
    return ice + Range.exactly(FROZEN_J_M3K / 1000 / MEAT_KG_M3 * (COLDEST_START_C - start_c))


@method(
    unit="min",
    source="R. Plank's equation for freezing and thawing times, 1913, with all heat that the piece "
    "can take up in place of the latent heat alone [from memory]",
)
def latest_thaw(cases: FrozenCases) -> Floats:
    """Minutes by which the last ice of each piece has surely melted.

    Formula: t = E / (Tm - Tf) (L / h + L² / 2 k) / (1 + s), L half the thickness, s the shape
    factor, k thawed, E = ice + thawed heat up to Tm + frozen heat up to Tf, a volume of it.
    Parameters: frozen pieces with their surroundings.
    Returns: time until each is thawed [min].
    Errors: none beyond those of `FrozenCases`.
    Departs from the source: Plank counts the latent heat alone, which is the soonest.
    """
    thawed, half = cases.thawed, cases.thawed.half_thickness_m
    ahead = np.subtract(thawed.medium_c, cases.freezes_c)
    cold = np.maximum(np.subtract(cases.freezes_c, cases.start_c), 0)
    taken = np.add(cases.ice_j_m3, cases.warm_j_m3k * ahead + FROZEN_J_M3K * cold)
    film, inside = (np.divide(1, a) for a in (thawed.surface_w_m2k, thawed.conductivity_w_mk))
    seconds = taken / ahead * (half * film + half**2 / 2 * inside) / np.add(1, thawed.shape_factor)
    return np.asarray(seconds / 60, dtype=np.float64)


@method(
    unit="°C",
    source="enthalpy method of melting by control volumes, V. R. Voller, Numerical Heat Transfer "
    "B 17, 1990 [from memory]; ice in meat as 1 - Tf / T, H. G. Schwartzberg 1976 [from memory]",
)
def melting_core(cases: FrozenCases) -> tuple[Floats, Floats]:
    """Temperature of the slowest point of each frozen piece over time, until it is nearly there.

    Formula: V dH/dt = flow in - flow out of 24 shells, T(H) with the ice melting up to Tf,
    conductivity between thawed and frozen by the share of ice; backward in time, by Newton.
    Parameters: frozen pieces with their surroundings, one after another.
    Returns: times [min] and core temperatures [°C], 501 of each for every piece.
    Valid range: the last temperature is within half a degree of the medium.
    Errors: ValueError outside the range, naming it and the unit.
    Departs from the source: 501 moments and 24 shells, which err by about 1 %.

    >>> slab = Cases([50], 0, -1, 60, 1.25e-7, 150)
    >>> minutes, core = melting_core(FrozenCases(slab, [-18], -1.2, 2.2e8, 1.4))
    >>> round(float(np.interp(0, core[0], minutes[0])), -1)
    60.0
    """
    nearly = np.subtract(cases.thawed.medium_c, TAIL_K)
    end = latest_thaw(cases) + time_to_core(cases.thawed, nearly)
    shells = _Shells(cases)
    heat = shells.at_start()
    core = [shells.celsius(heat)[:, 0]]
    for _ in range(STEPS):
        heat = shells.later(heat, end[:, None] * 60 / STEPS)
        core.append(shells.celsius(heat)[:, 0])
    return end[:, None] * np.linspace(0, 1, STEPS + 1), np.stack(core, axis=1)


@dataclass(frozen=True)
class _Shells:
    """Heat content [J/m³] of shells, shape (pieces, SHELLS), 0 where the last ice has melted."""

    cases: FrozenCases

    def _column(self, values: ArrayLike) -> Floats:
        array = np.asarray(values, dtype=np.float64)
        return np.broadcast_to(array, np.shape(self.cases.thawed.biot))[:, None]

    @cached_property
    def _freezes(self) -> Floats:
        return self._column(self.cases.freezes_c)

    @cached_property
    def _ice(self) -> Floats:
        return self._column(self.cases.ice_j_m3)

    @cached_property
    def _warm(self) -> Floats:
        return self._column(self.cases.warm_j_m3k)

    @cached_property
    def _medium(self) -> Floats:
        return self._column(self.cases.thawed.medium_c)

    @cached_property
    def _edges(self) -> Floats:
        half = self._column(self.cases.thawed.half_thickness_m)
        return np.asarray(np.linspace(0, 1, SHELLS + 1) * half)

    @cached_property
    def _volume(self) -> Floats:
        power = self._column(self.cases.thawed.shape_factor) + 1
        return np.asarray(np.diff(self._edges**power, axis=1) / power)

    def at_start(self) -> Floats:
        """Return the heat content at the start, the same in every shell."""
        start = self._column(self.cases.start_c)
        below = FROZEN_J_M3K * (start - self._freezes) - self._ice * ice_share(start, self._freezes)
        held = np.where(start < self._freezes, below, self._warm * (start - self._freezes))
        return np.repeat(held, SHELLS, axis=1)

    def celsius(self, heat: Floats) -> Floats:
        """Return temperatures; below Tf the root of c T² - (c Tf + ice + heat) T + ice Tf = 0."""
        half = (FROZEN_J_M3K * self._freezes + self._ice + np.minimum(heat, 0)) / 2
        root = half - np.sqrt(half**2 - FROZEN_J_M3K * self._ice * self._freezes)
        return np.where(heat < 0, root / FROZEN_J_M3K, self._freezes + heat / self._warm)

    def _kelvin_per_heat(self, celsius: Floats) -> Floats:
        ice = -self._ice * self._freezes / np.minimum(celsius, self._freezes) ** 2
        return 1 / np.where(celsius < self._freezes, FROZEN_J_M3K + ice, self._warm)

    def _passes(self, celsius: Floats) -> Floats:
        """What a kelvin drives outward through each shell's outer face [W/K]."""
        thawed = self.cases.thawed
        soft, hard = (self._column(k) for k in (thawed.conductivity_w_mk, self.cases.frozen_w_mk))
        resists = 1 / (soft + (hard - soft) * ice_share(celsius, self._freezes))
        resists *= self._edges[:, 1:2] / 2
        film = 1 / self._column(thawed.surface_w_m2k)
        beyond = np.concatenate([resists[:, 1:], film], axis=1)
        area = self._edges[:, 1:] ** self._column(thawed.shape_factor)
        return np.asarray(area / (resists + beyond))

    def later(self, before: Floats, seconds: Floats) -> Floats:
        """Return the heat content a step later: Newton, all pieces in one band of equations."""
        outward = self._passes(self.celsius(before)) * seconds
        heat = before
        for _ in range(_NEWTON):
            heat = heat + self._correction(heat, before, outward)
        return heat

    def _correction(self, heat: Floats, before: Floats, outward: Floats) -> Floats:
        inward = np.concatenate([np.zeros_like(self._medium), outward[:, :-1]], axis=1)
        here = self.celsius(heat)
        inner = np.concatenate([here[:, :1], here[:, :-1]], axis=1)
        outer = np.concatenate([here[:, 1:], self._medium], axis=1)
        flow = inward * (inner - here) + outward * (outer - here)
        slope = self._kelvin_per_heat(here)
        bands = np.zeros((3, heat.size))
        bands[0, 1:] = _neighbours(outward[:, :-1] * slope[:, 1:])
        bands[1] = (self._volume + (inward + outward) * slope).ravel()
        bands[2, :-1] = _neighbours(outward[:, :-1] * slope[:, :-1])
        rest = (self._volume * (before - heat) + flow).ravel()
        step = solve_banded((1, 1), bands, rest, check_finite=False)
        return np.asarray(step.reshape(heat.shape))


def _neighbours(values: Floats) -> Floats:
    """Lay the pieces' couplings in one row; nothing passes from one piece to the next."""
    return np.asarray(-np.pad(values, ((0, 0), (0, 1))).ravel()[:-1])


@dataclass(frozen=True)
class MeltingCurve:
    """One piece's core [°C] at `time_min` [min], and how fast the rest decays [1/min]."""

    time_min: Floats
    core_c: Floats
    medium_c: float
    decay: float

    @property
    def _tail_from(self) -> float:
        return float(np.interp(self.medium_c - TAIL_K, self.core_c, self.time_min))

    def reach_min(self, target_c: float) -> float:
        """Return the minutes to a core temperature below the surroundings'."""
        left = self.medium_c - target_c
        if left >= TAIL_K:
            return float(np.interp(target_c, self.core_c, self.time_min))
        return float(self._tail_from + np.log(TAIL_K / left) / self.decay)

    def at(self, time_min: Floats) -> Floats:
        """Return the core at several moments [min]."""
        late = np.maximum(time_min - self._tail_from, 0)
        tail = self.medium_c - TAIL_K * np.exp(-self.decay * late)
        return np.where(late > 0, tail, np.interp(time_min, self.time_min, self.core_c))


def melting_curves(cases: FrozenCases) -> list[MeltingCurve]:
    """Return the curve of each piece, cases of shape (pieces,)."""
    minutes, core = melting_core(cases)
    thawed = cases.thawed
    first = conduction_roots(thawed.shape_factor, thawed.biot, 1)[..., 0]
    decay = np.broadcast_to(first**2 / thawed.minutes_per_fourier, len(minutes)).tolist()
    medium = np.broadcast_to(thawed.medium_c, len(minutes)).tolist()
    return [MeltingCurve(*row) for row in zip(minutes, core, medium, decay, strict=True)]
