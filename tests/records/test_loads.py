"""What goes in at once fits into what the kitchen has, by what was written of both."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.problems import Problem
from tests.kitchens import read, write
from tests.kitchens.small import SMALL

COOK, KITCHEN = "cooks/chuck-30h.yaml", "kitchen.yaml"


def found(tmp_path: Path, kitchen: tuple[str, str], cook: tuple[str, str] = ("", "")) -> Problem:
    """The one problem at the cook's file after a change to the kitchen's and to the cook's."""
    files = {
        KITCHEN: SMALL[KITCHEN].replace(*kitchen), COOK: SMALL[COOK].replace(*cook)
    }  # fmt: skip
    problems = read(write(tmp_path, {**SMALL, **files}))[1]
    (problem,) = [p for p in problems if p.place.file == COOK]
    return problem


def test_of_several_alike_the_load_of_one_is_asked_for(tmp_path: Path) -> None:
    load = ("equipment: bath\n", "equipment: bath\nload: 14.4 kg\n")
    problem = found(tmp_path, ("holds: 12 kg", "how many: 2, holds: 12 kg"), load)
    assert problem.is_error
    assert problem.hint == "bath holds 12 kg, each of 2; write the load of one"


def test_a_piece_that_its_equipment_does_not_hold_is_refused(tmp_path: Path) -> None:
    """The tests alone would leave it room: 7.10 and 7.51 kg lay in more than one bath."""
    kitchen = SMALL[KITCHEN].replace("12 kg", "2.3 kg")
    problems = read(write(tmp_path, {**SMALL, KITCHEN: kitchen}))[1]
    (problem,) = [p for p in problems if p.is_error]
    assert str(problem.place) == f"{COOK}:5:17"
    assert problem.message == "one piece is heavier than bath holds"
    assert problem.hint == "bath holds 2.3 kg"


@pytest.mark.parametrize(
    ("written", "hint"),
    [
        ("12.5 kg", "bath holds 12 kg; write load: 12 kg or less"),
        ("72 kg", "bath holds 12 kg; did you mean 7.2 kg?"),
        ("6 pieces", "bath holds 12 kg; write load: 12 kg or less"),
    ],
)
def test_a_load_s_hint_is_made_of_what_was_written(tmp_path: Path, written: str, hint: str) -> None:
    load = ("piece:", f"load: {written}\npiece:")
    problem = found(tmp_path, ("", ""), load)
    assert (problem.is_error, problem.hint) == (True, hint)


def test_tests_that_weigh_more_than_fits_ask_for_the_load(tmp_path: Path) -> None:
    """(7.10 + 7.51) / 2 = 7.305 kg; of that much a bath holds seven, and a load costs by it."""
    problem = found(tmp_path, ("holds: 12 kg", "holds: 7 kg"))
    assert str(problem.place) == f"{COOK}:10:28"
    assert problem.message == "by its tests the load is 7.305 kg; Bath holds 7 kg"
    assert problem.hint.startswith("write what goes into one at once as load:")
    quiet = ("equipment: bath\n", "equipment: bath\nload: 7 kg\n")
    files = {KITCHEN: SMALL[KITCHEN].replace("holds: 12 kg", "holds: 7 kg")}
    files[COOK] = SMALL[COOK].replace(*quiet)
    assert read(write(tmp_path / "stated", {**SMALL, **files}))[1] == []


def test_what_is_held_in_pieces_asks_for_their_weight(tmp_path: Path) -> None:
    kitchen = SMALL[KITCHEN].replace("holds: 12 kg", "holds: 12 pieces")
    problems = read(write(tmp_path, {**SMALL, KITCHEN: kitchen}))[1]
    (problem,) = [p for p in problems if p.is_error]
    assert problem.hint.startswith("write what 12 pieces weigh together; units that fit: ")


def test_pieces_of_a_weight_written_in_pounds_and_ounces_are_summed(tmp_path: Path) -> None:
    load = ("piece: {weight: 2.4 kg}", "piece: {weight: 5 lb 4 oz}\nload: 6 each")
    problem = found(tmp_path, ("", ""), load)
    assert problem.message == "6 each, 14.29 kg, is more than bath holds"


def test_equipment_that_holds_nothing_is_reported_at_its_own_line_only(tmp_path: Path) -> None:
    kitchen = SMALL[KITCHEN].replace("holds: 12 kg", "holds: 0 kg")
    cook = SMALL[COOK].replace("piece:", "load: 9 kg\npiece:")
    problems = read(write(tmp_path, {**SMALL, KITCHEN: kitchen, COOK: cook}))[1]
    assert {p.place.file for p in problems if p.is_error} == {KITCHEN}
