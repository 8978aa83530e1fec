"""Core times and bands: published sensitivities, direction, refusals."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from builder.cooking.heating import Cases, core_temperature, time_to_core
from builder.cooking.pieces import (
    BLAST_CHILLER,
    ICE_BATH,
    WATER_BATH,
    CoreEstimate,
    Piece,
    even_times,
)

# Computed beforehand with finite differences and kept beside the published values
# [computed]: a 50 mm slab in 60 °C to within 0.5 K, and what each property does to it.
BASE = {"thickness_mm": 50.0, "diffusivity_m2_s": 1.4e-7, "surface_w_m2k": 95.0}


def minutes(**changed: float) -> float:
    given_values = {**BASE, **changed}
    case = Cases(shape_factor=0, start_c=5, medium_c=60, **given_values)
    return float(time_to_core(case, 59.5))


def test_the_reference_piece_takes_213_minutes() -> None:
    assert minutes() == pytest.approx(213, abs=1)


@pytest.mark.parametrize(
    ("changed", "percent"),
    [
        ({"diffusivity_m2_s": 1.1e-7}, 27),
        ({"diffusivity_m2_s": 1.6e-7}, -13),
        ({"surface_w_m2k": 50}, 28),
        ({"surface_w_m2k": 300}, -21),
        ({"thickness_mm": 55}, 18),
        ({"thickness_mm": 45}, -16),
    ],
)
def test_sensitivity_is_as_computed_before(changed: dict[str, float], percent: int) -> None:
    assert (minutes(**changed) / minutes() - 1) * 100 == pytest.approx(percent, abs=1)


def test_the_band_is_about_a_quarter_either_way() -> None:
    reach = CoreEstimate(Piece(50), WATER_BATH, 60).reach_min(59.5)
    assert 1.2 < reach.high / reach.typical < 1.3
    assert 0.72 < reach.low / reach.typical < 0.8


def test_the_time_of_a_piece_is_that_of_the_series_first_term() -> None:
    """Carslaw & Jaeger: the others have died out where under a tenth of the difference is left.

    The root of z tan z = Bi for a slab of 50 mm in water of 150 W/m²K, and its weight.
    """
    reach = CoreEstimate(Piece(50), WATER_BATH, 60).reach_min(59.5)
    biot = 150 * 0.025 / 0.48
    root = float(brentq(lambda z: z * math.sin(z) - biot * math.cos(z), 0.1, 1.57))
    weight = 4 * math.sin(root) / (2 * root + math.sin(2 * root))
    hand = 0.025**2 / 1.25e-7 / 60 * math.log(weight * 55 / 0.5) / root**2
    assert reach.typical == pytest.approx(hand, rel=1e-6)


def test_the_ends_of_an_uneven_batch_are_those_of_its_thickest_and_thinnest_piece() -> None:
    uneven, thick, thin = (
        CoreEstimate(piece, WATER_BATH, 60).reach_min(59.5)
        for piece in (Piece(50, thickness_share=0.1), Piece(55), Piece(45))
    )
    assert uneven.high == pytest.approx(thick.high, rel=1e-9)
    assert uneven.low == pytest.approx(thin.low, rel=1e-9)


def test_the_ends_of_a_band_enclose_the_typical_curve() -> None:
    band = CoreEstimate(Piece(60, 0.28), WATER_BATH, 57).curve(even_times(600))
    assert (band.slow_c <= band.typical_c).all()
    assert (band.typical_c <= band.fast_c).all()
    assert band.slow_c[0] == band.fast_c[0] == 5


def test_a_thickness_that_varies_widens_the_band() -> None:
    even = CoreEstimate(Piece(50), WATER_BATH, 60).reach_min(57)
    uneven = CoreEstimate(Piece(50, thickness_share=0.1), WATER_BATH, 60).reach_min(57)
    assert uneven.low < even.low < even.high < uneven.high
    assert uneven.typical == even.typical


def test_cooling_is_heating_turned_over() -> None:
    """The equation is linear: the same part of the difference at the same moment."""
    warm = core_temperature(Cases(40, 1, 5, 60, 1.3e-7, 100), [15, 60])
    cold = core_temperature(Cases(40, 1, 60, 5, 1.3e-7, 100), [15, 60])
    assert warm + cold == pytest.approx(np.array([65, 65]))


def test_ice_water_cools_sooner_than_moving_air() -> None:
    piece = Piece(60, start_c=57)
    ice, air = (CoreEstimate(piece, m, 1).reach_min(5) for m in (ICE_BATH, BLAST_CHILLER))
    assert (ice.low < air.low, ice.typical < air.typical, ice.high < air.high) == (True,) * 3


@given(st.floats(5, 190), st.floats(1.01, 2), st.floats(0, 2), st.floats(20, 500))
def test_a_thicker_piece_never_heats_faster(
    thickness: float, factor: float, shape: float, film: float
) -> None:
    thin, thick = time_to_core(
        Cases(np.array([thickness, thickness * factor]), shape, 5, 60, 1.3e-7, film), 57
    )
    assert thick > thin


@given(st.floats(10, 200), st.floats(0, 1.9), st.floats(0.01, 0.1))
def test_a_rounder_piece_never_heats_slower(thickness: float, shape: float, more: float) -> None:
    flat, round_ = time_to_core(
        Cases(thickness, np.array([shape, shape + more]), 5, 60, 1.3e-7, 95), 57
    )
    assert round_ < flat


@given(st.floats(54.5, 80), st.floats(0.1, 15), st.floats(10, 200))
def test_a_hotter_bath_never_heats_slower(bath: float, more: float, thickness: float) -> None:
    cool, hot = time_to_core(
        Cases(thickness, 0.5, 5, np.array([bath, bath + more]), 1.3e-7, 95), 54.4
    )
    assert hot < cool


def test_a_piece_at_its_target_takes_no_time() -> None:
    assert time_to_core(Cases(50, 0, 60, 65, 1.3e-7, 95), 57) == 0


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"thickness_mm": 0}, "thickness 0 mm is outside 1 to 400 mm"),
        ({"thickness_mm": 3000}, "thickness 3000 mm is outside 1 to 400 mm"),
        ({"thickness_mm": float("nan")}, "thickness nan mm is outside"),
        ({"shape_factor": 3}, "shape factor 3"),
        ({"start_c": -31}, "starting temperature -31 °C is outside -30 to 100 °C"),
        ({"thickness_share": 0.9}, "thickness share"),
    ],
)
def test_an_impossible_piece_is_refused(changed: dict[str, float], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        Piece(**{"thickness_mm": 50, **changed})


@pytest.mark.parametrize(("bath", "target"), [(57, 60), (57, 57), (5, 3)])
def test_a_core_that_is_never_reached_is_refused(bath: float, target: float) -> None:
    start = 5 if bath > 5 else 60
    with pytest.raises(ValueError, match=rf"{bath} °C around a piece never .* {target} °C"):
        time_to_core(Cases(50, 0, start, bath, 1.3e-7, 95), target)
    estimate = CoreEstimate(Piece(50, start_c=start), WATER_BATH, bath)
    assert estimate.reaches(target) is (bath == target)
    if bath != target:
        with pytest.raises(ValueError, match="never brings"):
            estimate.reach_min(target)


@pytest.mark.parametrize("start", [4, -10])
def test_a_core_in_a_bath_of_just_a_limit_gets_as_near_as_a_probe_can_tell(start: float) -> None:
    """The curve itself is within a tenth then, and a hotter bath never takes longer."""
    print_c, exact_c = 54.4, (130 - 32) / 1.8
    took = []
    for bath in (print_c, exact_c, 54.48, 54.51, 54.6, 55):
        heat = CoreEstimate(Piece(60, start_c=start), WATER_BATH, bath)
        assert heat.reaches(exact_c)
        took.append(heat.reach_min(exact_c).high)
        assert heat.curve([took[-1]]).slow_c[0] == pytest.approx(exact_c, abs=0.11)
    assert all(hotter <= colder + 0.5 for colder, hotter in pairwise(took))
    below = CoreEstimate(Piece(60, start_c=4), WATER_BATH, 54.3)
    assert not below.reaches(exact_c)


@pytest.mark.parametrize("name", ["medium_c", "diffusivity_m2_s", "surface_w_m2k"])
def test_a_property_outside_its_range_is_refused(name: str) -> None:
    with pytest.raises(ValueError, match="is outside"):
        Cases(**{**BASE, "shape_factor": 0, "start_c": 5, "medium_c": 60, name: 1e5})


def test_a_negative_time_is_refused() -> None:
    with pytest.raises(ValueError, match="time -1 min is outside 0 to 20160 min"):
        core_temperature(Cases(50, 0, 5, 60, 1.3e-7, 95), [-1])
