"""Slips that only another figure of the same record, or of the same kitchen, shows.

The kitchens are made up; each slip is a true value with its point moved.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from builder.problems import Problem
from tests.kitchens import read, write

FILES: Mapping[str, str] = {
    "kitchen.yaml": (
        "name: X\ncurrency: USD\nlocale: en_US\nunits: us customary\ntax: 5 %\n"
        "loaded wage: 24.50/h\ntargets: {food cost: 30 %}\n"
    ),
    "cuts/ribeye.yaml": "species: beef\nprice: 16.30/lb\ntrim: 8 %\n",
    "cooks/grill.yaml": "cut: ribeye\nhow: grill\nload: 10 lb\nloss: 20 %\n",
    "plates/steak.yaml": "menu: mains\ncook: grill\nportion: 7 oz\nprice: 38.00\n",
}


def warned(root: Path, files: Mapping[str, str], path: str) -> list[Problem]:
    """What is said at a line of a file that is out of proportion."""
    costed, problems = read(write(root, {**FILES, **files}))
    assert costed is not None, problems
    return [p for p in problems if p.place.file == path and "checked:" in p.hint]


@pytest.mark.parametrize(("price", "meant"), [("3.45", "34.50"), ("3.80", "38.00"), ("0.38", "38")])
def test_food_that_costs_more_than_guests_pay_is_reported(
    price: str, meant: str, tmp_path: Path
) -> None:
    path = "plates/steak.yaml"
    text = FILES[path].replace("38.00", price)
    problem = warned(tmp_path, {path: text}, path)[0]
    assert problem.place.line == 4
    assert f"did you mean {meant}?" in problem.hint
    assert warned(tmp_path, {path: f"{text}checked: 2026-09-01\n"}, path) == []


def test_a_price_far_above_its_section_and_its_food_is_reported(tmp_path: Path) -> None:
    path, chop = "plates/steak.yaml", FILES["plates/steak.yaml"].replace("38.00", "31.00")
    others = {"plates/chop.yaml": chop, "plates/rib.yaml": chop}
    dear = {**others, path: FILES[path].replace("38.00", "83.00")}
    [problem] = warned(tmp_path, dear, path)
    assert "2.7 times the middle of the other prices in its section" in problem.message
    assert "did you mean 38.00?" in problem.hint
    assert warned(tmp_path, others, path) == []


def test_prices_that_cannot_be_read_are_no_measure_of_another(tmp_path: Path) -> None:
    """Three plates priced with a decimal comma: each is an error, and the fourth is in order."""
    path = "plates/steak.yaml"
    text = FILES[path].replace("38.00", "38,00")
    unread = {f"plates/{name}.yaml": text for name in ("chop", "rib", "roast")}
    costed, problems = read(write(tmp_path, {**FILES, **unread}))
    assert costed is None
    plates = [found.place.file for found in problems if found.place.file.startswith("plates/")]
    assert sorted(plates) == sorted(unread)


def test_food_that_costs_most_of_the_price_is_reported(tmp_path: Path) -> None:
    rolls, path = "price: 7.20/{}\neach: 70 g\n", "plates/roll.yaml"
    plate = "menu: small\nwith: {rolls: 1 each}\nprice: 9.50\n"
    for unit, count in (("each", 1), ("dozen", 0)):
        files = {"pantry/rolls.yaml": rolls.format(unit), path: plate}
        assert len(warned(tmp_path, files, path)) == count


def test_a_plate_is_not_blamed_for_a_price_that_is_reported_itself(tmp_path: Path) -> None:
    cut, plate = "cuts/ribeye.yaml", "plates/steak.yaml"
    files = {cut: FILES[cut].replace("16.30/lb", "1630/lb")}
    assert len(warned(tmp_path, files, cut)) == 1
    assert warned(tmp_path, files, plate) == []


SCORES = (
    "test: scores\ndate: 2026-05-05\nsamples: {a: grill, b: grill, c: grill}\nbenchmark: a\n"
    "tasters: 3\nattributes: {liking: line 0-100}\nscores:\n"
    "  T1: {a: 82, b: 55, c: 78}\n  T2: {a: 74, b: 61, c: 70}\n  T3: {a: 60, b: 48, c: 20}\n"
)


def test_a_score_with_its_point_moved_is_reported(tmp_path: Path) -> None:
    path = "tastings/duration.yaml"
    assert warned(tmp_path, {path: SCORES}, path) == []
    [problem] = warned(tmp_path, {path: SCORES.replace("b: 55", "b: 5.5")}, path)
    assert problem.place.line == 8
    assert "did you mean 55?" in problem.hint


def test_a_plate_that_earns_is_left_alone(tmp_path: Path) -> None:
    assert warned(tmp_path, {}, "plates/steak.yaml") == []


# Tests of one stage against each other


ROLL = "cooks/roll.yaml"
CUT = "cuts/ribeye.yaml"
TESTS = (
    "cut: ribeye\nhow: water bath\n{}tests:\n"
    "  - {{date: 2026-01-14, in: 7.05 kg, out: 5.60 kg, parts: {{juices: 1.0 kg}}}}\n"
    "  - {{date: 2026-01-21, in: {} kg, out: {} kg, parts: {{juices: {} kg}}}}\n"
)
BATH = "equipment:\n  bath: {kind: water bath, volume: 40 L, holds: 12 kg}\n"
SLIPPED, TRUE = ("77.0", "62.0", "10.0"), ("7.70", "6.20", "1.00")


def test_a_test_that_its_equipment_can_t_hold_is_reported(tmp_path: Path) -> None:
    kitchen = {"kitchen.yaml": f"{FILES['kitchen.yaml']}{BATH}"}
    for numbers, lines in ((SLIPPED, [6]), (TRUE, [])):
        text = TESTS.format("equipment: bath\n", *numbers)
        found = warned(tmp_path, {**kitchen, ROLL: text}, ROLL)
        assert [problem.place.line for problem in found] == lines
        assert all("did you mean 7.70 kg?" in problem.hint for problem in found)


def test_of_two_tests_that_differ_neither_is_the_norm(tmp_path: Path) -> None:
    [problem] = warned(tmp_path, {ROLL: TESTS.format("", *SLIPPED)}, ROLL)
    assert problem.message.startswith("77.0 kg and 7.05 kg at cooks/roll.yaml:4:")
    assert "did you mean" not in problem.hint
    assert warned(tmp_path, {ROLL: TESTS.format("", *TRUE)}, ROLL) == []


GRINDS = (
    "species: beef\nprice: {}\ntrim:\n  tests:\n"
    "    - {{date: 2026-01-12, in: 8 kg, out: 7 kg, parts: {{grind: [0.8 kg, {}]}}}}\n"
    "    - {{date: 2026-01-19, in: 9 kg, out: 8 kg, parts: {{grind: [0.8 kg, {}]}}}}\n"
)


@pytest.mark.parametrize("worths", [("75.0/kg", "7.50/kg"), ("7.50/kg", "75.0/kg")])
def test_of_two_worths_neither_is_the_norm(worths: tuple[str, str], tmp_path: Path) -> None:
    [problem] = warned(tmp_path, {CUT: GRINDS.format("36.00/kg", *worths)}, CUT)
    assert "75.0/kg" in problem.message
    assert "7.50/kg" in problem.message
    assert "did you mean" not in problem.hint


def test_a_price_below_that_of_every_by_product_is_the_slip(tmp_path: Path) -> None:
    grind = ("3.40/lb", "3.40/lb")
    [problem] = warned(tmp_path, {CUT: GRINDS.format("$0.61/lb", *grind)}, CUT)
    assert problem.place.line == 2
    assert "did you mean $6.10/lb?" in problem.hint
    assert warned(tmp_path, {CUT: GRINDS.format("$6.10/lb", *grind)}, CUT) == []


# Days


def test_a_check_that_is_still_to_come_is_refused(tmp_path: Path) -> None:
    path = "plates/steak.yaml"
    text = FILES[path].replace("7 oz", "0.7 oz")
    _, problems = read(write(tmp_path, {**FILES, path: f"{text}checked: 2099-11-01\n"}))
    [error] = [problem for problem in problems if problem.is_error]
    assert str(error.place) == f"{path}:5:10"
    assert error.message == "checked: 2099-11-01 is still to come"


def test_days_written_for_hours_are_no_guess(tmp_path: Path) -> None:
    text = f"{FILES['cooks/grill.yaml']}cool: {{to: 40 °F, within: 6 h}}\n"
    store = "store: {at: 38 °F, for: 140 d}\n"
    path = "cooks/grill.yaml"
    [problem] = warned(tmp_path, {path: text + store}, path)
    assert "140 h" not in problem.hint


@pytest.mark.parametrize("of", ["plates: [steak]", "courses: {main: {steak: 60 %, rib: equal}}"])
def test_a_set_menu_far_above_its_plates_is_reported(of: str, tmp_path: Path) -> None:
    """Of the two a guest takes one: 290.0 is 7.6 times the dearer, 38.00."""
    path = "menus/lunch.yaml"
    rib = FILES["plates/steak.yaml"].replace("38.00", "30.00")
    files = {"plates/rib.yaml": rib, path: f"price: 290.0\n{of}\n"}
    [problem] = warned(tmp_path, files, path)
    assert (problem.place.line, problem.place.column) == (1, 8)
    assert "290.0 is 7.63 times what the dearest of its plates cost singly" in problem.message
    assert "did you mean 29.00?" in problem.hint
    [problem] = warned(tmp_path, {**files, path: f"price: 290.00\n{of}\n"}, path)
    assert "did you mean 29.00?" in problem.hint
    assert warned(tmp_path, {**files, path: f"price: 29.00\n{of}\n"}, path) == []


def test_no_point_is_moved_in_a_value_of_several_numbers(tmp_path: Path) -> None:
    """1.5 h 10 min, of 15 h 10 min, would be read by nobody."""
    path = "cooks/grill.yaml"
    text = FILES[path] + "hands-on: 15 h 10 min\n"
    hints = [p.hint for p in warned(tmp_path, {path: text}, path)]
    assert hints
    assert not [hint for hint in hints if "did you mean" in hint]


def test_ounces_bought_for_the_money_of_pounds_are_meant_as_pounds(tmp_path: Path) -> None:
    """668.30 at 16.30/lb are 41 lb; a sixteenth of the money, 41.76875, nobody can pay."""
    path = "counts/week.yaml"
    text = (
        "from: 2026-09-21\nto: 2026-09-27\nplates: {steak: 60}\n"
        "cuts:\n  ribeye: {opening: 4 lb, bought: 41 oz, paid: 668.30, closing: 2 lb}\n"
    )
    [problem] = warned(tmp_path, {path: text}, path)
    assert "668.30 for 41 oz is 16 times the price of" in problem.message.replace("\xa0", " ")
    assert problem.hint.startswith("did you mean 41 lb?")
    assert warned(tmp_path, {path: text.replace("41 oz", "41 lb")}, path) == []
