"""One piece in one kind of surroundings, with the slow and fast ends of its heating.

The ends take every uncertain property at its slow or its fast value at once. For a
50 mm piece in a water bath they lie about 27 % above and 23 % below the typical time;
thinner pieces spread wider, because there the water and not the meat decides.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike

from builder.cooking.heating import COLDEST_START_C, Cases, core_temperature, time_to_core
from builder.cooking.ranges import Floats, Range, require_within
from builder.cooking.thawing import (
    COLDEST_FROZEN_C,
    COLDEST_MELTING_C,
    FREEZES_C,
    FROZEN_W_MK,
    ICE_KJ_KG,
    MEAT_KG_M3,
    FrozenCases,
    MeltingCurve,
    melting_curves,
)
from builder.engine.methods import method
from builder.language import Deferred, tr
from builder.quantities.prints import PRINTED_PAIR_C, ROUNDING_C, lower_print, upper_print

# Raw and cooked lean meat [from memory, 1.1e-7 to 1.6e-7 in the literature]. The slow end is
# what, with a water bath's slow end, gives the published pasteurisation table.
MEAT_DIFFUSIVITY_M2_S = Range(1.11e-7, 1.25e-7, 1.45e-7)

# A core never quite gets as hot as its bath. This near to it a probe that shows tenths shows
# about the same [our rule]; so a bath set to a limit brings a core to it.
NEAR_K = PRINTED_PAIR_C


@dataclass(frozen=True, slots=True)
class Medium:
    """What surrounds the piece and how well it passes heat on [W/m²K]."""

    name: str
    surface_w_m2k: Range
    source: str


_ENGINEERING = Deferred("engineering range [from memory], no published source")
WATER_BATH = Medium(
    Deferred("circulated water bath"),
    Range(95, 150, 300),
    Deferred(
        "low end fitted to the published pasteurisation table; rest common practice, "
        "no published source"
    ),
)
STEAM_OVEN = Medium(
    Deferred("steam oven"),
    Range(60, 110, 250),
    _ENGINEERING,
)
SIMMERING_LIQUID = Medium(
    Deferred("simmering liquid"),
    Range(150, 300, 600),
    _ENGINEERING,
)
ICE_BATH = Medium(
    Deferred("ice bath, stirred"),
    Range(60, 120, 250),
    _ENGINEERING,
)
BLAST_CHILLER = Medium(
    Deferred("blast chiller"),
    Range(15, 25, 40),
    _ENGINEERING,
)
COLD_ROOM = Medium(
    Deferred("cold room, still air"),
    Range(5, 8, 12),
    _ENGINEERING,
)


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece: whole thickness or diameter [mm], shape factor [1], start [°C].

    `thickness_share` [1] is how far pieces of a batch differ in thickness, 0.1 for ±10 %.
    From -1 °C down to -30 °C it holds ice, which melts on the way.
    """

    thickness_mm: float
    shape_factor: float = 0.0
    start_c: float = 5.0
    thickness_share: float = 0.0

    def __post_init__(self) -> None:
        require_within("thickness", self.thickness_mm, 1, 400, "mm")
        require_within("thickness share", self.thickness_share, 0, 0.5, "(1)")
        require_within("shape factor", self.shape_factor, 0, 2, "(1)")
        require_within("starting temperature", self.start_c, COLDEST_FROZEN_C, 100, "°C")

    @property
    def frozen(self) -> bool:
        """Whether it starts with ice in it."""
        return self.start_c < COLDEST_START_C


@dataclass(frozen=True)
class CoreBand:
    """Core temperature [°C] at `time_min` [min], at the slow end, typically, at the fast end."""

    time_min: Floats
    slow_c: Floats
    typical_c: Floats
    fast_c: Floats


@dataclass(frozen=True, slots=True)
class CoreEstimate:
    """The model's answer for one piece held at `medium_c` [°C]."""

    piece: Piece
    medium: Medium
    medium_c: float

    def __post_init__(self) -> None:
        piece, share = self.piece, self.piece.thickness_share
        require_within("surrounding temperature", self.medium_c, -40, 110, "°C")
        require_within("thickest piece", piece.thickness_mm * (1 + share), 1, 400, "mm")
        require_within("thinnest piece", piece.thickness_mm * (1 - share), 1, 400, "mm")
        if piece.frozen:
            require_within(tr("around a frozen piece"), self.medium_c, COLDEST_MELTING_C, 110, "°C")

    def cases(self) -> Cases:
        """Return the slow, the typical and the fast case, in that order; ice taken as melted."""
        return Cases(**{name: column[0] for name, column in _columns([self]).items()})

    def melting(self) -> Sequence[MeltingCurve]:
        """Return the slow, the typical and the fast curve of a piece that starts frozen."""
        return _melted([self])[0]

    def curve(self, time_min: ArrayLike) -> CoreBand:
        """Return the band of core temperature over time."""
        times = np.asarray(time_min, dtype=np.float64)
        if self.piece.frozen:
            slow, typical, fast = (curve.at(times) for curve in self.melting())
        else:
            slow, typical, fast = core_temperature(self.cases(), times)
        return CoreBand(times, slow, typical, fast)

    def reach_min(self, target_c: float) -> Range:
        """Return the minutes to a core temperature; ValueError when it is never reached."""
        if self.piece.frozen:
            return self._melted_min(target_c)
        slow, typical, fast = time_to_core(self.cases(), self.counting_as(target_c))
        return Range(float(fast), float(typical), float(slow))

    def _melted_min(self, target_c: float) -> Range:
        target_c = self.counting_as(target_c)
        if not self.reaches(target_c):
            raise ValueError(f"{self.medium_c:g} °C never brings a core to {target_c:g} °C")
        return Range(*sorted(curve.reach_min(target_c) for curve in self.melting()))

    def reaches(self, target_c: float) -> bool:
        """Tell whether the surroundings can bring the core to a temperature, by any print of it."""
        if self.piece.start_c < self.medium_c:
            return lower_print(target_c) <= self.medium_c + ROUNDING_C
        cools = self.piece.start_c > self.medium_c
        return cools and upper_print(target_c) >= self.medium_c - ROUNDING_C

    def counting_as(self, target_c: float) -> float:
        """Return a target [°C], or what counts as it where the surroundings are just there."""
        if abs(target_c - self.medium_c) > NEAR_K:
            return target_c
        ahead = -NEAR_K if self.piece.start_c < self.medium_c else NEAR_K
        return self.medium_c + ahead


@dataclass(frozen=True, slots=True)
class SolvedEstimate(CoreEstimate):
    """An estimate whose times to some temperatures were computed among many others."""

    reached: Mapping[float, Range] = field(default_factory=dict, compare=False, repr=False)
    melted: Sequence[MeltingCurve] = field(default=(), compare=False, repr=False)

    def melting(self) -> Sequence[MeltingCurve]:
        """Return the curves that were solved with others."""
        return self.melted or CoreEstimate.melting(self)

    def reach_min(self, target_c: float) -> Range:
        """Return the minutes to a core temperature, computed now where they are not known."""
        found = self.reached.get(target_c)
        return CoreEstimate.reach_min(self, target_c) if found is None else found


@method(
    unit="min",
    title="time of a core, with its fast and its slow end",
    source="Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, Oxford [from memory]",
)
def core_times(estimate: CoreEstimate, target_c: float) -> Range | None:
    """Minutes until the core of a piece reaches a temperature, warming or cooling.

    Formula: the time to core of the slow, the typical and the fast case; a piece that starts
    frozen by that of a melting core.
    Parameters: the piece and what surrounds it; temperature wanted at the core [°C].
    Returns: time to the core [min], fast, typical and slow; none where the surroundings never bring
    the core there.
    Errors: ValueError outside the range, naming it and the unit.

    >>> core_times(CoreEstimate(Piece(50), WATER_BATH, 60), 61) is None
    True
    """
    return estimate.reach_min(target_c) if estimate.reaches(target_c) else None


# Estimates solved at once: what they hold in memory stays below 50 MB.
_AT_ONCE = 2000


def solve(
    estimates: Sequence[CoreEstimate], targets_c: Sequence[Sequence[float]]
) -> list[SolvedEstimate]:
    """Return each estimate with its times to its own targets [°C], by the column.

    A target that the surroundings cannot bring the core to is left unsolved.

    >>> piece = CoreEstimate(Piece(50), WATER_BATH, 60)
    >>> (solved,) = solve([piece], [[55, 70]])
    >>> solved.reached.keys() == {55} and solved.reach_min(55) == piece.reach_min(55)
    True
    """
    frozen = [estimate for estimate in estimates if estimate.piece.frozen]
    melted = dict(zip(frozen, _melted(frozen), strict=True))
    warm = [pair for pair in zip(estimates, targets_c, strict=True) if not pair[0].piece.frozen]
    found: dict[CoreEstimate, SolvedEstimate] = {
        e: SolvedEstimate(e.piece, e.medium, e.medium_c, melted=curves)
        for e, curves in melted.items()
    }
    for start in range(0, len(warm), _AT_ONCE):
        some, targets = zip(*warm[start : start + _AT_ONCE], strict=True)
        found.update(zip(some, _solve(some, targets), strict=True))
    return [found[estimate] for estimate in estimates]


def _melted(estimates: Sequence[CoreEstimate]) -> list[Sequence[MeltingCurve]]:
    """The slow, the typical and the fast curve of each frozen piece, all stepped together."""
    curves: list[MeltingCurve] = []
    for start in range(0, len(estimates), _AT_ONCE):
        columns = _columns(estimates[start : start + _AT_ONCE])
        count = len(columns["start_c"])
        ice = np.array([ICE_KJ_KG.high, ICE_KJ_KG.typical, ICE_KJ_KG.low]) * 1000 * MEAT_KG_M3
        cases = FrozenCases(
            Cases(**{name: column.ravel() for name, column in columns.items()}),
            np.repeat([e.piece.start_c for e in estimates[start : start + _AT_ONCE]], 3),
            np.tile([FREEZES_C.high, FREEZES_C.typical, FREEZES_C.low], count),
            np.tile(ice, count),
            np.tile([FROZEN_W_MK.low, FROZEN_W_MK.typical, FROZEN_W_MK.high], count),
        )
        curves += melting_curves(cases)
    return [curves[n : n + 3] for n in range(0, len(curves), 3)]


def _solve(
    estimates: Sequence[CoreEstimate], targets_c: Sequence[Sequence[float]]
) -> list[SolvedEstimate]:
    within = [
        [t for t in dict.fromkeys(targets) if estimate.reaches(t)]
        for estimate, targets in zip(estimates, targets_c, strict=True)
    ]
    # Short lists are filled up with the start, which takes no time to reach.
    width = max((len(targets) for targets in within), default=0)
    padded = [
        [
            *(estimate.counting_as(t) for t in targets),
            *[estimate.piece.start_c] * (width - len(targets)),
        ]
        for estimate, targets in zip(estimates, within, strict=True)
    ]
    if not width:
        return [SolvedEstimate(e.piece, e.medium, e.medium_c) for e in estimates]
    cases = Cases(**{name: column[..., None] for name, column in _columns(estimates).items()})
    times = time_to_core(cases, np.array(padded)[:, None, :])
    return [
        SolvedEstimate(e.piece, e.medium, e.medium_c, _ranges(targets, rows))
        for e, targets, rows in zip(estimates, within, times, strict=True)
    ]


def _ranges(targets: Sequence[float], rows: Floats) -> dict[float, Range]:
    """Read the slow, the typical and the fast row, in that order."""
    slow, typical, fast = rows.tolist()
    return {t: Range(fast[n], typical[n], slow[n]) for n, t in enumerate(targets)}


def _columns(estimates: Sequence[CoreEstimate]) -> dict[str, Floats]:
    """Stack the slow, typical and fast case of every estimate, shape (estimates, 3)."""
    pieces = [estimate.piece for estimate in estimates]
    films = [estimate.medium.surface_w_m2k for estimate in estimates]
    spread = np.array([[1 + p.thickness_share, 1, 1 - p.thickness_share] for p in pieces])
    meat = MEAT_DIFFUSIVITY_M2_S
    return {
        "thickness_mm": _thrice([p.thickness_mm for p in pieces]) * spread,
        "shape_factor": _thrice([p.shape_factor for p in pieces]),
        "start_c": _thrice([max(p.start_c, COLDEST_START_C) for p in pieces]),
        "medium_c": _thrice([estimate.medium_c for estimate in estimates]),
        "diffusivity_m2_s": np.tile([meat.low, meat.typical, meat.high], (len(estimates), 1)),
        "surface_w_m2k": np.array([[film.low, film.typical, film.high] for film in films]),
    }


def _thrice(values: Sequence[float]) -> Floats:
    return np.repeat(np.array(values, dtype=np.float64)[:, None], 3, axis=1)


def even_times(until_min: float, count: int = 61) -> Floats:
    """Return `count` evenly spaced minutes from 0, for a chart."""
    require_within("time", until_min, 1, 60 * 24 * 14, "min")
    return np.linspace(0, until_min, count)
