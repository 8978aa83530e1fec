"""Frozen and tempered starts: an independent solver, Plank's equation from both sides, direction.

Plank's equation for thawing, t = H / (Tm - Tf) (P d / h + R d² / k) with P 1/2, 1/4, 1/6 and
R 1/8, 1/16, 1/24 for slab, cylinder and sphere: R. Plank 1913, as handbooks of refrigeration
print it [from memory]. With the latent heat alone it is the soonest, because warming up counts
for nothing; with all heat that the piece can take up it is the latest.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.cooking.heating import Cases
from builder.cooking.pieces import WATER_BATH, CoreEstimate, Piece, even_times, solve
from builder.cooking.thawing import (
    FREEZES_C,
    FROZEN_J_M3K,
    FrozenCases,
    ice_share,
    latest_thaw,
    melting_core,
    melting_curves,
    melting_kj_kg,
)
from tests.cooking.melting_steps import core_of_a_slab

ICE = 2.17e8
PLANK = {0: (1 / 2, 1 / 8), 1: (1 / 4, 1 / 16), 2: (1 / 6, 1 / 24)}
SOME = settings(max_examples=12, deadline=None)


def frozen(
    thickness: float = 60,
    shape: float = 0,
    start: float = -18,
    medium: float = 57,
    film: float = 150,
) -> FrozenCases:
    thawed = Cases([thickness], shape, -1, medium, 1.25e-7, film)
    return FrozenCases(thawed, [start], -1.0, ICE, 1.4)


@pytest.mark.parametrize(("start", "film"), [(-18, 150), (-5, 95), (-2, 300)])
def test_agrees_with_small_explicit_steps(start: float, film: float) -> None:
    """Half a kelvin at every minute once the ice is gone, and 2 % in time on the way."""
    there = core_of_a_slab(
        0.02, start, 57, diffusivity=1.25e-7, film=film, soft=0.48, hard=1.4, freezes=-1.0,
        ice_j_m3=ICE, minutes=180,
    )  # fmt: skip
    minutes, core = melting_core(frozen(40, start=start, film=film))
    clock = np.arange(1, 181)
    for target in (0, 10, 30, 50, 56):
        ours = np.interp(target, core[0], minutes[0])
        assert ours == pytest.approx(np.interp(target, there, clock), rel=0.02)
    assert np.interp(clock, minutes[0], core[0])[60:] == pytest.approx(there[60:], abs=0.6)


@pytest.mark.parametrize("shape", [0, 1, 2])
@pytest.mark.parametrize("medium", [8, 20, 57])
def test_the_ice_is_gone_between_planks_soonest_and_latest(shape: int, medium: float) -> None:
    """The soonest with the ice melting at its mean temperature, Tf ln(T0 / Tf) over its share."""
    cases = frozen(50, shape, -18, medium, 100)
    p, r = PLANK[shape]
    share = float(ice_share(-18, -1.0))
    ahead = medium + np.log(18) / share
    soonest = ICE * share / ahead * (p * 0.05 / 100 + r * 0.05**2 / 0.48) / 60
    minutes, core = melting_core(cases)
    melted = float(np.interp(-0.9, core[0], minutes[0]))
    ahead, heat = medium + 1, ICE + 0.48 / 1.25e-7 * (medium + 1) + FROZEN_J_M3K * (18 - 1)
    latest = heat / ahead * (p * 0.05 / 100 + r * 0.05**2 / 0.48) / 60
    assert float(latest_thaw(cases)[0]) == pytest.approx(latest, rel=1e-9)
    assert 0.93 * soonest < melted < latest
    if medium == 8:
        # Little else than ice is warmed here, where Plank's equation is known to hold.
        assert melted == pytest.approx(soonest, rel=0.07)


def test_the_ice_of_a_piece_takes_its_heat() -> None:
    """Lean beef from -18 to 0 °C takes about 240 kJ/kg by handbooks' enthalpies [from memory]."""
    assert melting_kj_kg(-18).low < 240 < melting_kj_kg(-18).high + 10
    assert melting_kj_kg(-1).high == melting_kj_kg(4).high == 0


@pytest.mark.parametrize(("thickness", "shape"), [(20, 0.0), (60, 0.28), (110, 1.0)])
def test_a_start_at_minus_one_joins_the_series(thickness: float, shape: float) -> None:
    for target in (30, 55, 56.9):
        series = CoreEstimate(Piece(thickness, shape, -1.0), WATER_BATH, 57).reach_min(target)
        ice = CoreEstimate(Piece(thickness, shape, -1.001), WATER_BATH, 57).reach_min(target)
        for end in ("low", "typical", "high"):
            assert getattr(ice, end) == pytest.approx(getattr(series, end), rel=0.02)


def test_the_tail_is_the_first_term_of_the_series() -> None:
    """The last half degree, where both are one exponential."""
    (curve,) = melting_curves(frozen())
    assert curve.reach_min(56.499) == pytest.approx(curve.reach_min(56.501), abs=0.6)
    halved = curve.reach_min(56.9) - curve.reach_min(56.8)
    assert halved == pytest.approx(np.log(2) / curve.decay)
    times = np.array([curve.reach_min(t) for t in (-10, 0, 30, 56, 56.7, 56.99)])
    assert curve.at(times) == pytest.approx(np.array([-10, 0, 30, 56, 56.7, 56.99]), abs=0.02)


def test_solved_together_or_alone() -> None:
    several = [
        CoreEstimate(Piece(40, 0, -18), WATER_BATH, 57),
        CoreEstimate(Piece(60, 0.28, 4), WATER_BATH, 62),
        CoreEstimate(Piece(90, 1, -3), WATER_BATH, 80),
    ]
    for alone, solved in zip(several, solve(several, [[50]] * 3), strict=True):
        one, many = alone.reach_min(50), solved.reach_min(50)
        assert (many.low, many.typical, many.high) == pytest.approx(
            (one.low, one.typical, one.high), rel=1e-6
        )


def test_the_band_holds_the_typical_curve() -> None:
    band = CoreEstimate(Piece(60, 0, -18), WATER_BATH, 57).curve(even_times(600))
    assert (band.slow_c <= band.typical_c + 1e-9).all()
    assert (band.typical_c <= band.fast_c + 1e-9).all()
    assert band.slow_c[0] == band.fast_c[0] == pytest.approx(-18)
    assert (np.diff(band.slow_c) > -1e-9).all()


@given(st.floats(-30, -1.1), st.floats(15, 120), st.floats(0, 2), st.floats(0.1, 5))
@SOME
def test_colder_or_thicker_never_comes_up_faster(
    start: float, thickness: float, shape: float, more: float
) -> None:
    def slow(piece: Piece) -> float:
        return CoreEstimate(piece, WATER_BATH, 60).reach_min(55).high

    plain = slow(Piece(thickness, shape, start))
    assert slow(Piece(thickness, shape, max(start - more, -30))) >= plain * (1 - 1e-3)
    assert slow(Piece(thickness + more, shape, start)) > plain


@pytest.mark.parametrize(("start", "medium"), [(-31, 57), (-5, 2), (-0.5, 57)])
def test_what_the_model_does_not_hold_is_refused(start: float, medium: float) -> None:
    with pytest.raises(ValueError, match="outside"):
        frozen(start=start, medium=medium)
    with pytest.raises(ValueError, match="outside"):
        CoreEstimate(Piece(50, start_c=min(start, -5)), WATER_BATH, min(medium, 4))


@pytest.mark.parametrize("start", [-18.0, -2.0, FREEZES_C.typical, -1.05])
def test_a_piece_begins_as_cold_as_it_is_whatever_its_freezing_point(start: float) -> None:
    """Between the ends of the freezing point it holds ice in one case and none in another."""
    band = CoreEstimate(Piece(50, start_c=start), WATER_BATH, 60).curve([0.0])
    begun = [float(core[0]) for core in (band.slow_c, band.typical_c, band.fast_c)]
    assert begun == pytest.approx([start] * 3, abs=1e-6)
