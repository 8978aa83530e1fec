"""Verdicts: next lower row, first row, the right clause, forbidding, and direction."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.cooking.foods import Cut, Food, Form, Species
from builder.cooking.pieces import WATER_BATH, CoreEstimate, Piece
from builder.cooking.rule_library import rule_sets
from builder.cooking.rules import RuleSet
from builder.cooking.verdict import DEFERENCE, Outcome, Verdict
from builder.cooking.verdicts import CookPlan, judge

FOOD_CODE = rule_sets()["us-food-code-2017"]
APPENDIX_A = rule_sets()["us-fsis-appendix-a-1999-6.5-log"]
UK = rule_sets()["uk-core-equivalents"]
VICTORIA = rule_sets()["au-victoria-55-60"]
FAILS = Outcome.DOES_NOT_MEET
BEEF = Food(Species.BEEF)
STEAK = Food(Species.BEEF, cut=Cut.STEAK, surface_seared=True)
THAT_FORBID = [r for r in rule_sets().values() if r.forbids]
THAT_PERMIT = [r for r in rule_sets().values() if not r.forbids]


def verdict(
    bath_c: float,
    hours: float,
    rule_set: RuleSet = FOOD_CODE,
    food: Food = BEEF,
    *,
    thickness_mm: float = 60,
    moist: bool = True,
    start_c: float = 4,
) -> Verdict:
    heat = CoreEstimate(Piece(thickness_mm, start_c=start_c), WATER_BATH, bath_c)
    return judge(CookPlan(food, bath_c, hours * 60, moist), heat, rule_set)


def test_a_long_cook_meets_and_says_with_what_margin() -> None:
    found = verdict(57, 30)
    assert found.outcome is Outcome.MEETS
    assert found.clause == "3-401.11(B)"
    assert found.hold is not None
    held = found.hold
    assert held.available_min == pytest.approx(30 * 60 - held.reach_min.high)
    assert held.margin_min == pytest.approx(held.available_min - held.row.hold_min)
    assert held.reach_min.low < held.reach_min.typical < held.reach_min.high


def test_the_sentence_defers_and_names_the_edition() -> None:
    for outcome, found in {
        "meets": verdict(57, 30),
        "does not meet": verdict(57, 1),
        "is not covered by": verdict(52, 30, APPENDIX_A),
    }.items():
        assert found.sentence.startswith(f"{outcome} {found.rule_set.name}")
        assert found.sentence.endswith(DEFERENCE)


def test_between_rows_the_next_lower_one_counts() -> None:
    """At 57.0 °C (134.6 °F) there is no row of 134: 133 °F and below are all that may count."""
    found = verdict(57, 30)
    assert found.hold is not None
    assert found.hold.row.at_c <= 56.2
    # The printed row at 135 °F asks 36 min, that of 133 °F 56 min: nothing lies between.
    assert found.hold.row.hold_s in (6720, 5340, 3360)


def test_a_hold_is_counted_from_the_core() -> None:
    """130 °F for 112 min: the first minutes, in which the core comes up, do not count."""
    heat = CoreEstimate(Piece(60, start_c=4), WATER_BATH, 54.9)
    slow = heat.reach_min((130 - 32) / 1.8).high
    short, enough = (
        judge(CookPlan(BEEF, 54.9, slow + 112 + more), heat, FOOD_CODE) for more in (-1, 1)
    )
    assert short.outcome is Outcome.DOES_NOT_MEET
    assert enough.outcome is Outcome.MEETS


@pytest.mark.parametrize("bath", [50, 54, 54.39])
def test_below_the_first_row_of_a_text_that_leaves_others_open_no_rule_covers(bath: float) -> None:
    found = verdict(bath, 72, APPENDIX_A)
    assert found.outcome is Outcome.NOT_COVERED
    assert found.reasons[0].startswith("no rule of this set covers the plan")
    assert found.clause == ""


@pytest.mark.parametrize("bath", [45, 50, 54, 54.39])
def test_the_colder_of_two_plans_never_gets_the_milder_word(bath: float) -> None:
    """A steak below 145 °F fails 3-401.11(A)(1); a roast, colder than 3-401.11(B) asks, fails it.

    3-401.11(D) leaves both to a variance [from memory].
    """
    steak = verdict(62, 3, FOOD_CODE, Food(Species.BEEF, cut=Cut.STEAK), thickness_mm=30)
    roast = verdict(bath, 48)
    assert steak.clause == "3-401.11(A)(1)"
    assert (roast.outcome, roast.clause) == (steak.outcome, "3-401.11(B)")
    assert roast.outcome is Outcome.DOES_NOT_MEET
    assert roast.reasons[0].endswith("lower needs a variance or a plan approved by the authority")


@pytest.mark.parametrize(
    ("prints", "food", "clause"),
    [
        ((54.4, 130), BEEF, "3-401.11(B)"),
        ((57.2, 135), BEEF, "3-401.11(B)"),
        ((62.8, 145), Food(Species.FISH), "3-401.11(A)(1)"),
        ((73.9, 165), Food(Species.POULTRY), "3-401.11(A)(3)"),
    ],
)
def test_a_bath_set_to_either_print_of_a_row_brings_a_core_to_it(
    prints: tuple[float, float], food: Food, clause: str
) -> None:
    """3-401.11 prints both units; a core a hundredth below 54.4 °C shows as 54.4 on a probe."""
    for bath in (prints[0], (prints[1] - 32) / 1.8):
        long, short = verdict(bath, 72, FOOD_CODE, food), verdict(bath, 3, FOOD_CODE, food)
        assert (long.outcome, long.clause) == (Outcome.MEETS, clause)
        assert short.hold is not None
        assert short.outcome is FAILS
        assert verdict(bath - 0.1, 72, FOOD_CODE, food).hold != long.hold


def test_the_come_up_binds_in_a_bath_of_either_print() -> None:
    for bath in (54.4, (130 - 32) / 1.8):
        slow = verdict(bath, 72, APPENDIX_A)
        assert slow.come_up is not None
        assert slow.comes_up_late
        assert slow.outcome is FAILS


@pytest.mark.parametrize("species", Species)
@pytest.mark.parametrize("form", Form)
def test_the_uk_starts_at_60_and_a_colder_cook_does_not_meet_it(
    species: Species, form: Form
) -> None:
    """70 °C for 2 min or of equal effect [secondary]; lower by a validated plan [from memory]."""
    food = Food(species, frozenset({form}))
    cold = verdict(58, 30, UK, food)
    assert cold.outcome is FAILS
    assert "never brings the core to 60 °C; lower needs a validated HACCP plan" in cold.reasons[0]
    assert cold.target is not None
    assert str(cold.target.row) == "60 °C for 45 min"
    assert verdict(61, 30, UK, food).outcome is Outcome.MEETS


def test_burgers_below_65_degrees_do_not_meet_the_report() -> None:
    """ACMSF 2007 [read] prints 65 °C for 13.6 min; it is for minced beef alone."""
    burgers = rule_sets()["uk-acmsf-2007-burgers"]
    assert verdict(62, 2, burgers, Food(Species.BEEF, frozenset({Form.GROUND}))).outcome is FAILS
    assert verdict(62, 2, burgers, BEEF).outcome is Outcome.NOT_COVERED


def test_whole_cuts_of_beef_and_lamb_may_be_served_pink_in_the_uk() -> None:
    """The Agency's advice [secondary]: cooked all over outside; not pork, not in a long cook."""
    lamb = Food(Species.LAMB, cut=Cut.ROAST, surface_seared=True)
    for food in (STEAK, lamb):
        assert verdict(55, 1, UK, food, thickness_mm=30).outcome is Outcome.MEETS
    pork = Food(Species.PORK, cut=Cut.STEAK, surface_seared=True)
    minced = Food(Species.BEEF, frozenset({Form.GROUND}), surface_seared=True)
    assert {verdict(55, 1, UK, food).outcome for food in (pork, minced, BEEF)} == {FAILS}
    assert verdict(55, 30, UK, STEAK).outcome is FAILS


@pytest.mark.parametrize(
    ("food", "bath", "outcome", "clause"),
    [
        (Food(Species.BEEF, frozenset({Form.INJECTED})), 57, FAILS, "3-401.11(A)(2)"),
        (Food(Species.PORK, frozenset({Form.TENDERISED})), 62.7, FAILS, "3-401.11(A)(2)"),
        (Food(Species.BEEF, frozenset({Form.GROUND})), 60, FAILS, "3-401.11(A)(2)"),
        (Food(Species.BEEF, frozenset({Form.TENDERISED})), 64, Outcome.MEETS, "3-401.11(A)(2)"),
        (Food(Species.BEEF, frozenset({Form.GROUND})), 69, Outcome.MEETS, "3-401.11(A)(2)"),
        (Food(Species.PORK, frozenset({Form.STUFFED})), 70, FAILS, "3-401.11(A)(3)"),
        (Food(Species.PORK, frozenset({Form.STUFFED})), 75, Outcome.MEETS, "3-401.11(A)(3)"),
        (Food(Species.POULTRY), 60, FAILS, "3-401.11(A)(3)"),
        (Food(Species.POULTRY), 65, FAILS, "3-401.11(A)(3)"),
        (Food(Species.GAME), 73.8, FAILS, "3-401.11(A)(3)"),
        (Food(Species.GAME), 73.9, Outcome.MEETS, "3-401.11(A)(3)"),
        (Food(Species.POULTRY), 75, Outcome.MEETS, "3-401.11(A)(3)"),
        (Food(Species.PORK), 58, Outcome.MEETS, "3-401.11(B)"),
        (Food(Species.FISH), 60, FAILS, "3-401.11(A)(1)"),
        (Food(Species.FISH), 64, Outcome.MEETS, "3-401.11(A)(1)"),
        (Food(Species.PORK, cut=Cut.STEAK), 60, FAILS, "3-401.11(A)(1)"),
    ],
    ids=str,
)
def test_each_food_has_its_own_clause(
    food: Food, bath: float, outcome: Outcome, clause: str
) -> None:
    found = verdict(bath, 12, FOOD_CODE, food)
    assert (found.outcome, found.clause) == (outcome, clause)


@pytest.mark.parametrize("thickness", [5, 60, 200])
def test_a_food_that_the_code_names_is_never_uncovered_for_being_cold(thickness: float) -> None:
    """3-401.11(A) [secondary] names every raw animal food; only roasts have a table of times."""
    for species in Species:
        for form in Form:
            food = Food(species, frozenset({form}), Cut.OTHER)
            found = verdict(55, 30, FOOD_CODE, food, thickness_mm=thickness)
            assert found.outcome is Outcome.DOES_NOT_MEET, food
            assert "this cook never brings the core to 1" in found.reasons[0]
            assert "a variance or a plan approved by the authority" in found.reasons[0]


@pytest.mark.parametrize("medium", [60, 110])
def test_a_core_aimed_too_low_fails_in_every_way_of_cooking(medium: float) -> None:
    """An oven's core is not modelled, but one aimed at 60 °C is known to stay below 165 °F."""
    plan = CookPlan(Food(Species.POULTRY), medium, 60, core_c=60)
    found = judge(plan, None, FOOD_CODE)
    assert (found.outcome, found.clause) == (Outcome.DOES_NOT_MEET, "3-401.11(A)(3)")
    assert found.target is not None
    assert found.target.row.printed == ("165 °F", "73.9 °C")


@pytest.mark.parametrize("core", [165 / 1.8 - 32 / 1.8, 73.9])
def test_a_core_aimed_at_either_print_is_not_too_low(core: float) -> None:
    found = judge(CookPlan(Food(Species.POULTRY), 110, 60, core_c=core), None, FOOD_CODE)
    assert found.outcome is Outcome.NOT_COVERED
    assert found.target is not None


def test_appendix_a_is_never_used_for_poultry() -> None:
    found = verdict(75, 30, APPENDIX_A, Food(Species.POULTRY))
    assert found.outcome is Outcome.NOT_COVERED
    assert "poultry" in found.reasons[0]


def test_an_oven_that_is_neither_humid_nor_sealed_is_not_covered() -> None:
    assert verdict(57, 30, moist=False).outcome is Outcome.NOT_COVERED
    assert verdict(61, 30, UK, moist=False).outcome is Outcome.MEETS


def test_a_core_that_is_not_modelled_is_not_covered() -> None:
    found = judge(CookPlan(BEEF, 90, 600), None, FOOD_CODE)
    assert found.outcome is Outcome.NOT_COVERED
    assert "not modelled" in found.reasons[0]


def test_come_up_within_six_hours_binds_where_the_text_has_it() -> None:
    """FSIS Appendix A [secondary]: 50 to 130 °F within 6 h; elsewhere a caution."""
    bound = verdict(57, 60, APPENDIX_A, thickness_mm=160)
    assert bound.come_up is not None
    assert not bound.come_up.kept
    assert bound.hold is not None
    assert bound.hold.margin_min > 0
    assert bound.outcome is Outcome.DOES_NOT_MEET
    assert bound.clause == "Appendix A"
    assert "longer than 6 h" in bound.reasons[0]
    assert bound.ruling_hold is None
    elsewhere = verdict(57, 60, FOOD_CODE, thickness_mm=160)
    assert elsewhere.outcome is Outcome.MEETS
    assert elsewhere.come_up is None
    kept = verdict(57, 60, APPENDIX_A, thickness_mm=60)
    assert kept.come_up is not None
    assert kept.come_up.kept
    assert kept.outcome is Outcome.MEETS


def test_come_up_is_the_slow_pieces_own_way_from_50_to_130_degrees() -> None:
    heat = CoreEstimate(Piece(90, start_c=4), WATER_BATH, 57)
    found = judge(CookPlan(BEEF, 57, 1800), heat, APPENDIX_A).come_up
    assert found is not None
    slow = heat.reach_min(130 / 1.8 - 32 / 1.8).high - heat.reach_min(10).high
    assert found.taken_min == pytest.approx(slow)


def test_a_piece_that_had_two_things_done_needs_both_in_the_scope() -> None:
    both = Food(Species.BEEF, frozenset({Form.GROUND, Form.INJECTED}), Cut.OTHER)
    ground = Food(Species.BEEF, frozenset({Form.GROUND}), Cut.OTHER)
    burgers = rule_sets()["uk-acmsf-2007-burgers"]
    assert verdict(70, 12, burgers, ground).outcome is Outcome.MEETS
    assert verdict(70, 12, burgers, both).outcome is Outcome.NOT_COVERED


def test_a_forbidding_rule_set_turns_a_long_cook_down() -> None:
    """Victoria [secondary]: at most 6 h in all at 55 to 60 °C."""
    found = verdict(57, 24, VICTORIA)
    assert found.outcome is Outcome.DOES_NOT_MEET
    assert found.forbidden_by is not None
    assert found.sentence.startswith("does not meet Victoria")
    # The plan's own hours are as it has them, those of a core are the model's.
    assert found.reasons[0].replace("\N{NO-BREAK SPACE}", " ").startswith("24 h between 55 °C")
    assert verdict(57, 6, VICTORIA).outcome is Outcome.NOT_COVERED
    assert verdict(65, 24, VICTORIA).forbidden_by is None


def test_a_core_that_creeps_through_the_band_is_forbidden_too() -> None:
    found = verdict(60.5, 100, VICTORIA, thickness_mm=250)
    assert found.forbidden_by is not None
    assert found.reasons[0].startswith("about ")


def test_the_seared_steak_clause_is_for_a_short_cook() -> None:
    """3-401.11(C) [read]; the 4 h are time as a control, 3-501.19 [from memory]."""
    short = verdict(52, 2, FOOD_CODE, STEAK, thickness_mm=30)
    assert short.outcome is Outcome.MEETS
    assert short.clause == "3-401.11(C)"
    assert any("labelled" in asked for asked in short.asks)
    long = verdict(52, 24, FOOD_CODE, STEAK, thickness_mm=30)
    assert (long.outcome, long.clause) == (FAILS, "3-401.11(A)(1)")
    assert any("at most 4 h" in reason for reason in long.reasons)
    for other in (
        Food(Species.BEEF, cut=Cut.STEAK),
        Food(Species.PORK, cut=Cut.STEAK, surface_seared=True),
        Food(Species.BEEF, frozenset({Form.TENDERISED}), Cut.STEAK, surface_seared=True),
    ):
        assert verdict(52, 2, FOOD_CODE, other).outcome is FAILS


@pytest.mark.parametrize("hours", [0, 24 * 8])
def test_a_plan_of_impossible_length_is_refused(hours: float) -> None:
    with pytest.raises(ValueError, match="outside 1 to 10080 min"):
        CookPlan(BEEF, 57, hours * 60)


def test_an_estimate_for_another_bath_is_refused() -> None:
    heat = CoreEstimate(Piece(60), WATER_BATH, 58)
    with pytest.raises(ValueError, match="57 °C, the estimate 58 °C"):
        judge(CookPlan(BEEF, 57, 600), heat, FOOD_CODE)


PLAN = {
    "bath": st.floats(45, 85),
    "hours": st.floats(0.1, 100),
    "thick": st.floats(5, 250),
    "rule_set": st.sampled_from(THAT_PERMIT),
    "food": st.builds(
        Food,
        st.sampled_from(Species),
        st.sampled_from([frozenset({form}) for form in Form]),
        st.sampled_from(Cut),
    ),
}


@given(**PLAN, more=st.floats(0.01, 15))
def test_hotter_never_makes_it_worse(
    bath: float, hours: float, thick: float, rule_set: RuleSet, food: Food, more: float
) -> None:
    before = verdict(bath, hours, rule_set, food, thickness_mm=thick)
    after = verdict(bath + more, hours, rule_set, food, thickness_mm=thick)
    assert after.outcome.rank >= before.outcome.rank


@given(**PLAN, part=st.floats(0.2, 0.99))
def test_thinner_never_makes_it_worse(
    bath: float, hours: float, thick: float, rule_set: RuleSet, food: Food, part: float
) -> None:
    before = verdict(bath, hours, rule_set, food, thickness_mm=thick)
    after = verdict(bath, hours, rule_set, food, thickness_mm=thick * part)
    assert after.outcome.rank >= before.outcome.rank


@given(**PLAN, more=st.floats(0.01, 60))
def test_longer_never_makes_it_worse(
    bath: float, hours: float, thick: float, rule_set: RuleSet, food: Food, more: float
) -> None:
    before = verdict(bath, hours, rule_set, food, thickness_mm=thick)
    after = verdict(bath, hours + more, rule_set, food, thickness_mm=thick)
    assert after.outcome.rank >= before.outcome.rank


@given(st.floats(55, 60), st.floats(6.01, 100), st.floats(0.1, 60))
def test_where_a_rule_set_forbids_longer_can_only_be_forbidden(
    bath: float, hours: float, more: float
) -> None:
    for rule_set in THAT_FORBID:
        before = verdict(bath, hours, rule_set)
        assert before.forbidden_by is not None
        assert verdict(bath, hours + more, rule_set).forbidden_by is not None
