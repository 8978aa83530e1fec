"""Cooling limits, the thickest piece that keeps them, holding and reheating."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.cooking.cooling import (
    judge_cooling,
    judge_hot_holding,
    judge_reheating,
    largest_cooling_thickness,
)
from builder.cooking.foods import Cut, Food, Species
from builder.cooking.pieces import (
    BLAST_CHILLER,
    ICE_BATH,
    SIMMERING_LIQUID,
    CoreEstimate,
    Medium,
    Piece,
)
from builder.cooking.rule_library import rule_sets
from builder.cooking.verdicts import DEFERENCE, Outcome

FOOD_CODE = rule_sets()["us-food-code-2017"]
APPENDIX_B = rule_sets()["us-fsis-appendix-a-1999-6.5-log"]
UK = rule_sets()["uk-core-equivalents"]
HOT = Piece(50, start_c=80)


def c(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


def test_the_stages_are_those_published() -> None:
    """Food Code 3-501.14(A) [read]; FSIS Appendix B option 1 [secondary]."""
    for rule_set, stages in (
        (FOOD_CODE, [(135, 70, 120), (135, 41, 360)]),
        (APPENDIX_B, [(130, 80, 90), (80, 40, 300)]),
    ):
        assert rule_set.cooling is not None
        held = [(s.from_c, s.to_c, s.within_min) for s in rule_set.cooling.stages]
        assert len(held) == len(stages)
        for stage, (above, below, minutes) in zip(held, stages, strict=True):
            assert stage == pytest.approx((c(above), c(below), minutes))


def test_a_thin_piece_in_ice_water_keeps_the_limits() -> None:
    found = judge_cooling(CoreEstimate(replace(HOT, thickness_mm=30), ICE_BATH, 1), FOOD_CODE)
    assert found.outcome is Outcome.MEETS
    assert found.sentence.startswith("meets US model Food Code, 2017 and later (3-501.14(A))")
    assert found.sentence.endswith(DEFERENCE)


def test_a_thick_piece_in_a_blast_chiller_does_not() -> None:
    thick = replace(HOT, thickness_mm=120)
    found = judge_cooling(CoreEstimate(thick, BLAST_CHILLER, 1), FOOD_CODE)
    assert found.outcome is Outcome.DOES_NOT_MEET


def test_each_stage_is_timed_from_its_own_temperature() -> None:
    heat = CoreEstimate(HOT, ICE_BATH, 1)
    found = judge_cooling(heat, APPENDIX_B)
    (first, second) = found.stages
    assert first.taken_min is not None
    assert second.taken_min is not None
    whole = heat.reach_min(c(40)).high - heat.reach_min(c(130)).high
    assert first.taken_min.high + second.taken_min.high == pytest.approx(whole)


def test_a_cook_below_the_first_temperature_is_on_the_clock_at_once() -> None:
    heat = CoreEstimate(Piece(50, start_c=55), ICE_BATH, 1)
    (first, _) = judge_cooling(heat, FOOD_CODE).stages
    assert first.taken_min == heat.reach_min(c(70))


def test_a_stage_is_judged_at_its_slow_end() -> None:
    limit = largest_cooling_thickness(HOT, ICE_BATH, 1, FOOD_CODE)
    assert limit is not None
    past = CoreEstimate(replace(HOT, thickness_mm=limit + 1), ICE_BATH, 1)
    slack = [(s.taken_min, s.stage.within_min) for s in judge_cooling(past, FOOD_CODE).stages]
    assert all(taken is not None and taken.typical < within for taken, within in slack)
    assert any(taken is not None and taken.high > within for taken, within in slack)
    assert judge_cooling(past, FOOD_CODE).outcome is Outcome.DOES_NOT_MEET


def test_air_that_is_too_warm_never_gets_there() -> None:
    found = judge_cooling(CoreEstimate(HOT, BLAST_CHILLER, 6), FOOD_CODE)
    assert found.outcome is Outcome.DOES_NOT_MEET
    assert "never cools" in found.reasons[1]


def test_a_rule_set_without_cooling_does_not_cover_it() -> None:
    assert judge_cooling(CoreEstimate(HOT, ICE_BATH, 1), UK).outcome is Outcome.NOT_COVERED
    assert largest_cooling_thickness(HOT, ICE_BATH, 1, UK) is None


def test_surroundings_that_warm_are_refused() -> None:
    with pytest.raises(ValueError, match="85 °C does not cool a piece of 80 °C"):
        judge_cooling(CoreEstimate(HOT, ICE_BATH, 85), FOOD_CODE)


@settings(max_examples=25)
@given(
    st.floats(0, 2), st.floats(55, 90), st.floats(0, 2), st.sampled_from([ICE_BATH, BLAST_CHILLER])
)
def test_the_largest_thickness_is_where_the_verdict_turns(
    shape: float, start: float, medium_c: float, medium: Medium
) -> None:
    piece = Piece(10, shape, start)
    limit = largest_cooling_thickness(piece, medium, medium_c, FOOD_CODE)
    assert limit is not None
    at, past = (
        judge_cooling(
            CoreEstimate(replace(piece, thickness_mm=limit + more), medium, medium_c), FOOD_CODE
        )
        for more in (0.0, 0.3)
    )
    assert at.outcome is Outcome.MEETS
    assert past.outcome is Outcome.DOES_NOT_MEET


def test_no_thickness_cools_in_air_above_the_limit() -> None:
    assert largest_cooling_thickness(HOT, BLAST_CHILLER, 8, FOOD_CODE) == 0


@pytest.mark.parametrize(
    ("food", "fahrenheit", "outcome"),
    [
        (Food(Species.BEEF), 131, Outcome.MEETS),
        (Food(Species.BEEF), 129, Outcome.DOES_NOT_MEET),
        (Food(Species.BEEF, cut=Cut.STEAK), 131, Outcome.DOES_NOT_MEET),
        (Food(Species.POULTRY), 134, Outcome.DOES_NOT_MEET),
        (Food(Species.POULTRY), 135.1, Outcome.MEETS),
    ],
)
def test_hot_holding(food: Food, fahrenheit: float, outcome: Outcome) -> None:
    """Food Code 3-501.16 [read]: 135 °F, roasts 130 °F."""
    assert judge_hot_holding(c(fahrenheit), food, FOOD_CODE).outcome is outcome


def test_hot_holding_where_no_clause_is_held() -> None:
    found = judge_hot_holding(60, Food(Species.BEEF), APPENDIX_B)
    assert found.outcome is Outcome.NOT_COVERED


def test_reheating_within_two_hours() -> None:
    """Food Code 3-403.11 [read]: 165 °F for 15 s within 2 h."""
    thin, thick = (CoreEstimate(Piece(t, start_c=3), SIMMERING_LIQUID, 90) for t in (30, 120))
    assert judge_reheating(thin, 120, FOOD_CODE).outcome is Outcome.MEETS
    reached = thin.reach_min(c(165)).high
    assert judge_reheating(thin, reached + 0.26, FOOD_CODE).outcome is Outcome.MEETS
    assert judge_reheating(thin, reached + 0.24, FOOD_CODE).outcome is Outcome.DOES_NOT_MEET
    assert judge_reheating(thin, 5, FOOD_CODE).outcome is Outcome.DOES_NOT_MEET
    assert judge_reheating(thick, 600, FOOD_CODE).outcome is Outcome.DOES_NOT_MEET
    cool = CoreEstimate(Piece(30, start_c=3), SIMMERING_LIQUID, 60)
    assert judge_reheating(cool, 600, FOOD_CODE).outcome is Outcome.DOES_NOT_MEET
    assert judge_reheating(thin, 120, UK).outcome is Outcome.NOT_COVERED
