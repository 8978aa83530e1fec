"""Hot holding of a piece that the files leave open: one verdict where it holds of any piece."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from builder.cooking.foods import Cut, Food, Form, Species
from builder.cooking.holding import judge_hot_holding_of_any
from builder.cooking.rule_library import rule_sets
from builder.cooking.verdict import Outcome

FOOD_CODE = rule_sets()["us-food-code-2017"]
UK = rule_sets()["uk-core-equivalents"]
ROAST, STEAK = Food(Species.PORK), Food(Species.PORK, cut=Cut.STEAK)
GROUND = Food(Species.PORK, frozenset({Form.GROUND}), Cut.OTHER)


def c(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


@pytest.mark.parametrize(
    ("fahrenheit", "outcome"),
    [
        (129, Outcome.DOES_NOT_MEET),
        (131, Outcome.NOT_COVERED),
        (135.1, Outcome.MEETS),
        (160, Outcome.MEETS),
    ],
)
@pytest.mark.parametrize("foods", [(ROAST, STEAK, GROUND), (GROUND, STEAK, ROAST)])
def test_a_piece_of_any_kind(fahrenheit: float, outcome: Outcome, foods: Sequence[Food]) -> None:
    """Food Code 3-501.16(A)(1) [read]: 135 °F, roasts 130 °F."""
    found = judge_hot_holding_of_any(c(fahrenheit), foods, FOOD_CODE)
    assert found.outcome is outcome
    assert found.clause == "3-501.16(A)(1)"
    open_piece = "rests on what the piece is (form, counts as)"
    assert any(open_piece in reason for reason in found.reasons) is found.waits


def test_the_limit_that_is_named_decides_for_all() -> None:
    """What meets all meets the highest, what fails all fails the lowest."""
    met, failed = (
        judge_hot_holding_of_any(c(held), (ROAST, STEAK), FOOD_CODE) for held in (140, 120)
    )
    assert "57.2 °C" in met.reasons[0]
    assert "54.4 °C" in failed.reasons[0]


def test_a_species_without_a_name_in_the_rules() -> None:
    """No food at all: there is a rule set, so the sentence names it."""
    found = judge_hot_holding_of_any(60, (), UK)
    assert (found.outcome, found.clause) == (Outcome.NOT_COVERED, "")
    assert "has no clause here for hot holding" in found.reasons[0]
