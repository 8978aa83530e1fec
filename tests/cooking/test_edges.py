"""Edges of the cook's functions: just there, just not, and which of two clauses holds."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

import numpy as np
import pytest
from scipy.special import jn_zeros

from builder.cooking.conduction import bessel_zeros
from builder.cooking.cooling import (
    StageCheck,
    judge_cooling,
    judge_reheating,
    largest_cooling_thickness,
)
from builder.cooking.foods import Food, Species
from builder.cooking.heating import Cases, core_temperature, time_to_core
from builder.cooking.holding import hot_holding_clause, judge_hot_holding
from builder.cooking.pieces import ICE_BATH, WATER_BATH, CoreEstimate, Piece
from builder.cooking.ranges import Range
from builder.cooking.rule_library import rule_sets
from builder.cooking.rules import CoolingStage
from builder.cooking.schedule import Booking, ClashKind, find_clashes
from builder.cooking.storing import judge_unsealed_storing
from builder.cooking.thawing import FREEZES_C, ICE_KJ_KG
from builder.cooking.verdict import Outcome
from builder.cooking.verdicts import CookPlan, judge
from tests.cooking.test_rules import INTACT_ROAST

FOOD_CODE = rule_sets()["us-food-code-2017"]


def slab(medium: float, start: float) -> Cases:
    return Cases(50, 0, start, medium, 1.4e-7, 95)


@pytest.mark.parametrize(
    ("medium", "start", "target"),
    [(57.0, 5.0, 5.0), (57.0, 5.0, 4.0), (2.0, 57.0, 57.0), (2.0, 57.0, 60.0)],
)
def test_a_core_that_is_there_already_takes_no_time(
    medium: float, start: float, target: float
) -> None:
    assert float(time_to_core(slab(medium, start), target)) == 0.0


@pytest.mark.parametrize(
    ("medium", "start", "target"), [(57.0, 5.0, 5.01), (57.0, 5.0, 56.9), (2.0, 57.0, 5.0)]
)
def test_the_time_put_back_gives_the_target(medium: float, start: float, target: float) -> None:
    cases = slab(medium, start)
    minutes = float(time_to_core(cases, target))
    assert minutes > 0
    assert float(core_temperature(cases, [minutes])[0]) == pytest.approx(target, abs=1e-6)


@pytest.mark.parametrize(("medium", "start", "target"), [(57.0, 5.0, 57.0), (2.0, 57.0, 2.0)])
def test_the_surroundings_own_temperature_is_never_reached(
    medium: float, start: float, target: float
) -> None:
    with pytest.raises(ValueError, match="never brings its core"):
        time_to_core(slab(medium, start), target)


def test_a_series_of_targets_takes_longer_and_longer() -> None:
    targets = np.array([10.0, 30.0, 50.0, 56.0])
    minutes = time_to_core(slab(57.0, 5.0), targets)
    assert (np.diff(minutes) > 0).all()


def test_a_roast_that_was_cooked_so_is_held_at_the_lower_of_two_temperatures() -> None:
    """US FDA Food Code 2017, 3-501.16(A)(1) [read]: 135 °F, cooked by 3-401.11(B) 130 °F."""
    cooked, not_cooked = (
        hot_holding_clause(INTACT_ROAST, FOOD_CODE, cooked=cooked) for cooked in (True, False)
    )
    assert cooked is not None
    assert not_cooked is not None
    assert cooked.at_c == pytest.approx((130 - 32) / 1.8, abs=0.01)
    assert not_cooked.at_c == pytest.approx((135 - 32) / 1.8, abs=0.01)


def test_a_range_around_a_figure_lies_as_far_below_as_above() -> None:
    assert Range.around(200.0, 0.25) == Range(150.0, 200.0, 250.0)


@pytest.mark.parametrize(("slow", "kept"), [(119.0, True), (120.0, True), (120.1, False)])
def test_a_stage_of_cooling_that_ends_just_in_time_is_in_time(slow: float, kept: bool) -> None:
    """US FDA Food Code 2017, 3-501.14(A) [read]: "within 2 hours"."""
    assert StageCheck(CoolingStage(57.2, 21.1, 120.0), Range(60.0, 90.0, slow), 57.2).kept is kept


def test_what_is_held_at_just_the_milder_limit_is_not_failed() -> None:
    """3-501.16(A)(1) [read]: 130 °F or above for a roast cooked so, 135 °F for other food."""
    at = (130 - 32) / 1.8
    found = judge_hot_holding(at, INTACT_ROAST, FOOD_CODE, cooked=None)
    assert found.outcome is Outcome.NOT_COVERED
    colder = judge_hot_holding(at - 1, INTACT_ROAST, FOOD_CODE, cooked=None)
    assert colder.outcome is Outcome.DOES_NOT_MEET


def test_a_reheating_as_long_as_its_table_asks_to_the_minute_meets_it() -> None:
    """3-403.11(E) [read], by 3-401.11(B): each row's time at its temperature, and no longer."""
    roast, again = (
        CoreEstimate(Piece(60, start_c=start), WATER_BATH, 60.0) for start in (4.0, 3.0)
    )
    cooked = judge(CookPlan(Food(Species.BEEF), 60.0, 1800.0), roast, FOOD_CODE)
    assert cooked.ruling_hold is not None
    rows = [row for row in cooked.ruling_hold.table.rows if again.reaches(row.least_c)]
    enough = min(again.reach_min(row.at_c).high + row.hold_min for row in rows)

    def outcome(minutes: float) -> Outcome:
        return judge_reheating(again, minutes, FOOD_CODE, cooked=cooked).outcome

    assert outcome(enough) is Outcome.MEETS
    assert outcome(enough - 0.01) is not Outcome.MEETS
    # Of the rows that it is long enough for the first is named, not the nearest.
    first = rows[0]
    long = again.reach_min(first.at_c).high + first.hold_min
    words = judge_reheating(again, long, FOOD_CODE, cooked=cooked).reasons[-1]
    assert f"the core reaches {' / '.join(first.printed)} after" in words


@pytest.mark.parametrize(("loads", "clash"), [(1, False), (2, False), (3, True)])
def test_as_many_cooks_as_there_are_ovens_fit(loads: int, clash: bool) -> None:
    start = datetime(2026, 9, 28, 6)
    cooks = [
        Booking(f"cook {n}", "oven", 60.0 + 10 * n, start, start + timedelta(hours=5), 4.0, 1)
        for n in range(loads)
    ]
    found = find_clashes(cooks, {"oven": 12.0}, {"oven": 2})
    assert [each.kind for each in found if each.kind is ClashKind.NUMBER] == (
        [ClashKind.NUMBER] * clash
    )


def test_a_storage_that_is_no_whole_number_of_days_is_said_in_hours() -> None:
    words = judge_unsealed_storing(3.0, 1.5, FOOD_CODE).reasons[0].replace("\xa0", " ")
    assert "kept for 36 h" in words
    assert "kept for 2 days" in judge_unsealed_storing(3.0, 2.0, FOOD_CODE).reasons[0]


@pytest.mark.parametrize("order", [0, 1])
def test_the_expansion_of_the_zeros_lies_near_them(order: int) -> None:
    """As near as stated; after the first ones, where the expansion is good to a thousandth."""
    found, true = bessel_zeros(np.array(float(order)), 12), jn_zeros(order, 12)
    assert np.abs(found - true).max() < 0.05
    assert np.abs(found - true)[2:].max() < 1e-4


def test_the_thickest_piece_of_an_uneven_batch_is_within_what_can_be_solved() -> None:
    """Where no limit stops it: 400 mm at the slow end, which lies a quarter above the piece."""
    assert FOOD_CODE.cooling is not None
    stages = tuple(replace(stage, within_min=1e9) for stage in FOOD_CODE.cooling.stages)
    endless = replace(FOOD_CODE, cooling=replace(FOOD_CODE.cooling, stages=stages))
    uneven = Piece(10, 0.0, 60.0, thickness_share=0.25)
    found = largest_cooling_thickness(uneven, ICE_BATH, 0.5, endless)
    assert found == pytest.approx(400 / 1.25, abs=0.2)


@pytest.mark.parametrize(("thick", "share"), [(1.55, 0.0), (1.9, 0.25), (60.0, 0.25)])
def test_what_just_keeps_the_limits_is_the_thickest_that_does(thick: float, share: float) -> None:
    """Each stage is given just the minutes that this piece takes, as few as a slice's."""
    piece = Piece(thick, 0.0, 60.0, thickness_share=share)
    taken = judge_cooling(CoreEstimate(piece, ICE_BATH, 0.5), FOOD_CODE).stages
    stages = tuple(
        replace(check.stage, within_min=check.taken_min.high * (1 + 1e-9))
        for check in taken
        if check.taken_min
    )
    assert FOOD_CODE.cooling is not None
    strict = replace(FOOD_CODE, cooling=replace(FOOD_CODE.cooling, stages=stages))
    found = largest_cooling_thickness(piece, ICE_BATH, 0.5, strict)
    assert found == pytest.approx(thick - 0.1, abs=0.1001)


def test_a_frozen_piece_thaws_in_about_plank_s_time() -> None:
    """Plank's equation of 1913 [secondary], good to about 30 %: all ice melts at one point.

    A slab of 60 mm in a bath of 12 °C, from -20 °C, where all but a twentieth is ice.
    """
    heat = CoreEstimate(Piece(60, start_c=-20.0), WATER_BATH, 12.0)
    latent = ICE_KJ_KG.typical * 1000 * 1050
    film = WATER_BATH.surface_w_m2k.typical
    plank = latent / (12.0 - FREEZES_C.typical) * (0.06 / 2 / film + 0.06**2 / 8 / 0.48) / 60
    assert heat.reach_min(0.0).typical == pytest.approx(plank, rel=0.3)


@pytest.mark.parametrize(("minutes", "fahrenheit"), [(60, 133), (56.1, 133), (56, 135), (113, 130)])
def test_a_roast_that_is_not_modelled_is_to_be_logged_at_the_coldest_row_it_has_time_for(
    minutes: float, fahrenheit: float
) -> None:
    """3-401.11(B) [secondary]: 130 °F for 112 min, 131 for 89, 133 for 56, 135 for 36.

    A hold as long as the whole cook leaves no time to come up.
    """
    asked = judge(CookPlan(INTACT_ROAST, 75.0, minutes), None, FOOD_CODE).asked
    assert asked is not None
    assert asked.row.at_c == pytest.approx((fahrenheit - 32) / 1.8, abs=0.06)
