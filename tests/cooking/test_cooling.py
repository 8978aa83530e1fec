"""Cooling limits, the thickest piece that keeps them, holding and reheating."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.cooking.cooling import (
    judge_cooling,
    judge_reheating,
    largest_cooling_thickness,
)
from builder.cooking.foods import Cut, Food, Species
from builder.cooking.holding import judge_hot_holding
from builder.cooking.pieces import (
    BLAST_CHILLER,
    ICE_BATH,
    SIMMERING_LIQUID,
    STEAM_OVEN,
    WATER_BATH,
    CoreEstimate,
    Medium,
    Piece,
)
from builder.cooking.rule_library import rule_sets
from builder.cooking.storing import judge_storing, judge_unsealed_storing
from builder.cooking.verdict import DEFERENCE, Outcome, Verdict
from builder.cooking.verdicts import CookPlan, judge

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
    assert first.from_c == 55


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


def roast(bath_c: float, hours: float) -> Verdict:
    """A roast that is cooked so under the Food Code."""
    heat = CoreEstimate(Piece(60, start_c=4), WATER_BATH, bath_c)
    return judge(CookPlan(Food(Species.BEEF), bath_c, hours * 60), heat, FOOD_CODE)


def test_a_roast_may_be_reheated_by_the_table_that_it_was_cooked_by() -> None:
    """3-403.11(E) [read]: an unsliced roast cooked by 3-401.11(B); 131 °F for 89 min."""
    again = CoreEstimate(Piece(60, start_c=3), WATER_BATH, 57)
    cooked, short = roast(57, 30), roast(57, 3)
    assert [v.outcome for v in (cooked, short)] == [Outcome.MEETS, Outcome.DOES_NOT_MEET]
    enough = max(again.reach_min(c(131)).high + 89, 0)
    found = judge_reheating(again, enough + 1, FOOD_CODE, cooked=cooked)
    assert (found.outcome, found.clause) == (Outcome.MEETS, "3-403.11(E)")
    for time, verdict in ((60.0, cooked), (enough + 1, short), (enough + 1, None)):
        refused = judge_reheating(again, time, FOOD_CODE, cooked=verdict)
        assert (refused.outcome, refused.clause) == (Outcome.DOES_NOT_MEET, "3-403.11")


@pytest.mark.parametrize("thickness", [40, 50, 60])
def test_a_reheating_that_is_long_enough_is_never_printed_as_too_long(thickness: float) -> None:
    """131 °F for 89 min [read]: what is left for the way there is the plan's time less the hold."""
    again = CoreEstimate(Piece(thickness, start_c=3), WATER_BATH, 57)
    time = again.reach_min(c(131)).high + 89 + 0.5
    found = judge_reheating(again, time, FOOD_CODE, cooked=roast(57, 30))
    assert found.outcome is Outcome.MEETS
    printed = re.search(r"after about ([\d.]+)\sh at the slow end", found.reasons[0])
    assert printed
    assert float(printed[1]) * 60 <= time - 89 + 3  # half of a printed tenth of an hour


def test_what_is_served_to_order_may_be_reheated_to_any_temperature() -> None:
    """3-403.10 [read]: cooked and chilled food for the consumer's order."""
    again = CoreEstimate(Piece(60, start_c=3), WATER_BATH, 57)
    found = judge_reheating(again, 60, FOOD_CODE, cooked=roast(57, 30), held_hot=False)
    assert (found.outcome, found.clause) == (Outcome.MEETS, "3-403.10")
    assert "held hot instead, 3-403.11 counts" in found.reasons[0]
    raw = judge_reheating(again, 60, FOOD_CODE, cooked=roast(57, 3), held_hot=False)
    assert raw.outcome is Outcome.DOES_NOT_MEET


def test_to_order_after_a_cook_that_is_not_modelled_is_not_known() -> None:
    """3-403.10 is for cooked food: what no model shows is neither met nor failed by it."""
    again = CoreEstimate(Piece(60, start_c=3), WATER_BATH, 70)
    braised = judge(CookPlan(Food(Species.BEEF), 95, 600), None, FOOD_CODE)
    assert braised.outcome is Outcome.NOT_COVERED
    order, held = (
        judge_reheating(again, 60, FOOD_CODE, cooked=braised, held_hot=hot) for hot in (False, True)
    )
    assert (order.outcome, order.clause) == (Outcome.NOT_COVERED, "3-403.10")
    assert "can't be compared with" in order.sentence
    assert held.outcome is Outcome.DOES_NOT_MEET


ROAST = Food(Species.BEEF)


def test_a_roast_whose_cook_is_not_modelled_may_be_reheated_by_its_table() -> None:
    """3-403.11(E) [read]: what an oven cooked may have met 3-401.11(B), so nothing is refused."""
    again = CoreEstimate(Piece(60, start_c=3), WATER_BATH, 57)
    oven = judge(CookPlan(ROAST, 110, 600), None, FOOD_CODE)
    enough = again.reach_min(c(131)).high + 90
    found = judge_reheating(again, enough, FOOD_CODE, cooked=oven, foods=[ROAST])
    assert (found.outcome, found.clause) == (Outcome.NOT_COVERED, "3-403.11(E)")
    assert "the files do not show that this is" in found.reasons[-1]
    # A bath that holds no row for long enough fails either clause, and so does another food.
    for time, food in ((60.0, ROAST), (enough, Food(Species.POULTRY))):
        refused = judge_reheating(again, time, FOOD_CODE, cooked=oven, foods=[food])
        assert refused.outcome is Outcome.DOES_NOT_MEET
    short = judge_reheating(again, 60, FOOD_CODE, cooked=oven, foods=[ROAST])
    assert "never reaches 73.9" in short.reasons[0].replace("\xa0", " ")
    assert "by 3-403.11(E), the core reaches" in short.reasons[0]


def test_how_fast_a_steam_oven_reheats_a_roast_is_not_known() -> None:
    """Between its fast and its slow end nothing is said; below every row nothing is reached."""
    hot, cold = (CoreEstimate(Piece(60, start_c=3), STEAM_OVEN, at) for at in (57, 50))
    first, held = hot.reach_min(c(131)), 89
    cooked = roast(57, 30)

    def outcome(heat: CoreEstimate, minutes: float) -> tuple[Outcome, str]:
        found = judge_reheating(heat, minutes, FOOD_CODE, cooked=cooked)
        return found.outcome, found.reasons[-1]

    assert outcome(hot, first.high + held + 1)[0] is Outcome.MEETS
    between, why = outcome(hot, first.typical + held)
    assert between is Outcome.NOT_COVERED
    assert "how fast a steam oven reheats is known too roughly" in why
    assert outcome(hot, first.low + 1)[0] is Outcome.DOES_NOT_MEET
    assert outcome(cold, 600)[0] is Outcome.DOES_NOT_MEET
    bath = CoreEstimate(Piece(60, start_c=3), WATER_BATH, 57)
    reached = bath.reach_min(c(131))
    assert outcome(bath, (reached.typical + reached.low) / 2 + held)[0] is Outcome.DOES_NOT_MEET


def test_hot_holding_of_a_roast_whose_cook_is_not_known() -> None:
    """3-501.16(A)(1) [read]: 130 °F for roasts cooked by the table, 135 °F for others."""
    outcomes = {
        hold: judge_hot_holding(c(hold), ROAST, FOOD_CODE, cooked=None).outcome
        for hold in (129, 131, 135)
    }
    assert outcomes == {
        129: Outcome.DOES_NOT_MEET, 131: Outcome.NOT_COVERED, 135: Outcome.MEETS,
    }  # fmt: skip
    failed = judge_hot_holding(c(131), ROAST, FOOD_CODE, cooked=False)
    assert failed.outcome is Outcome.DOES_NOT_MEET


def test_a_hold_that_is_met_by_one_print_shows_it() -> None:
    """54.4 °C prints as 129.9 °F beside a limit of 130 °F: the other print is named."""
    met = judge_hot_holding(54.4, Food(Species.BEEF), FOOD_CODE)
    assert "130 °F / 54.4 °C asked for; it is met as printed in the other unit" in met.reasons[0]
    for held in (54.3, c(130), 60.0):
        assert "as printed" not in judge_hot_holding(held, Food(Species.BEEF), FOOD_CODE).reasons[0]


@pytest.mark.parametrize(
    ("food", "held", "outcome"),
    [
        (Food(Species.BEEF), 54.4, Outcome.MEETS),
        (Food(Species.BEEF), 54.3, Outcome.DOES_NOT_MEET),
        (Food(Species.POULTRY), 57.2, Outcome.MEETS),
        (Food(Species.POULTRY), c(135), Outcome.MEETS),
        (Food(Species.POULTRY), 57.1, Outcome.DOES_NOT_MEET),
    ],
)
def test_a_limit_is_met_by_either_print(food: Food, held: float, outcome: Outcome) -> None:
    """135 °F / 57.2 °C and 130 °F / 54.4 °C: 57.2 °C is 134.96 °F."""
    assert judge_hot_holding(held, food, FOOD_CODE).outcome is outcome


@pytest.mark.parametrize("store", [c(34), 1.1])
def test_the_cold_limit_is_met_by_either_print(store: float) -> None:
    assert judge_storing(store, 30, FOOD_CODE).outcome is Outcome.MEETS
    assert judge_storing(1.2, 30, FOOD_CODE).outcome is Outcome.DOES_NOT_MEET


@pytest.mark.parametrize(
    ("cooked", "cooled", "outcome", "words"),
    [
        (Outcome.MEETS, Outcome.MEETS, Outcome.MEETS, "of 30 days allowed"),
        (Outcome.DOES_NOT_MEET, Outcome.MEETS, Outcome.DOES_NOT_MEET, "a cook that meets 3-401.11"),
        (Outcome.MEETS, Outcome.DOES_NOT_MEET, Outcome.DOES_NOT_MEET, "cooling that meets 3-501"),
        (Outcome.NOT_COVERED, Outcome.MEETS, Outcome.NOT_COVERED, "do not show"),
        (Outcome.NOT_COVERED, Outcome.DOES_NOT_MEET, Outcome.DOES_NOT_MEET, "cooling that meets"),
    ],
)
def test_storing_in_a_bag_asks_for_the_cook_and_its_cooling(
    cooked: Outcome, cooled: Outcome, outcome: Outcome, words: str
) -> None:
    """3-502.12(D): cooked by 3-401.11 [from memory], cooled by 3-501.14 [read]."""
    found = judge_storing(1, 14, FOOD_CODE, cooked=cooked, cooled=cooled)
    assert (found.outcome, found.clause) == (outcome, "3-502.12(D)")
    assert words in found.reasons[0]


@pytest.mark.parametrize(
    ("to", "hours", "days", "outcome"),
    [
        (34, 48, 30, Outcome.MEETS),
        (34, 49, 30, Outcome.DOES_NOT_MEET),
        (38, 6, 30, Outcome.NOT_COVERED),
        (38, 6, 7, Outcome.MEETS),
    ],
)
def test_thirty_days_ask_for_34_degrees_within_48_hours(
    to: float, hours: float, days: float, outcome: Outcome
) -> None:
    """3-502.12(D): 34 °F within 48 h, then 30 days [read]; at 41 °F seven [from memory]."""
    found = judge_storing(c(34), days, FOOD_CODE, cooling=(c(to), hours * 60))
    assert found.outcome is outcome
    asked = "cooling to 1.1 °C within 48 h for 30 days" in " ".join(found.reasons)
    assert asked is (outcome is not Outcome.MEETS)


@pytest.mark.parametrize(
    ("days", "store", "outcome"),
    [
        (14, 3, Outcome.DOES_NOT_MEET),
        (7, 3, Outcome.DOES_NOT_MEET),
        (6, 5, Outcome.MEETS),
        (6.9, 3, Outcome.MEETS),
        (1, 6, Outcome.DOES_NOT_MEET),
    ],
)
def test_without_a_bag_the_day_of_preparation_is_day_one(
    days: float, store: float, outcome: Outcome
) -> None:
    """3-501.17: day 1 [read], seven days at 41 °F [from memory]; seven whole days end on day 8."""
    found = judge_unsealed_storing(store, days, FOOD_CODE)
    assert (found.outcome, found.clause) == (outcome, "3-501.17")
    assert judge_unsealed_storing(store, days, UK).outcome is Outcome.NOT_COVERED


def test_a_steak_is_not_reheated_by_the_table_of_another_clause() -> None:
    """3-403.11(E) [read] is for roasts of 3-401.11(B); a pork steak is of (A)(1)."""
    steak = Food(Species.PORK, cut=Cut.STEAK)
    heat = CoreEstimate(Piece(30, start_c=4), WATER_BATH, 66)
    cooked = judge(CookPlan(steak, 66, 300), heat, FOOD_CODE)
    assert (cooked.outcome, cooked.clause) == (Outcome.MEETS, "3-401.11(A)(1)")
    again = CoreEstimate(Piece(30, start_c=3), WATER_BATH, 66)
    found = judge_reheating(again, 300, FOOD_CODE, cooked=cooked, foods=[steak])
    assert (found.outcome, found.clause) == (Outcome.DOES_NOT_MEET, "3-403.11")
    assert len(found.reasons) == 1
