"""Slips of amounts and of work that only their plate shows, at their line, in the first kitchens.

The slips are made up by hand (common practice, no published source): a decimal point, a gallon
for a litre or a quart, kilograms for grams. The share of work is worked out in fractions.
"""

from __future__ import annotations

import shutil
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from builder.build import compute_content
from builder.problems import Problem
from tests.site.sites import DEMO, STARTER

CUSTOMARY = STARTER.parent / "customary"
TODAY = date(2031, 5, 6)


def found(root: Path, folder: Path, changes: dict[str, tuple[str, str]]) -> list[Problem]:
    """The warnings of the changed files, in a copy of a kitchen."""
    shutil.copytree(root, folder, dirs_exist_ok=True)
    for file, (old, new) in changes.items():
        target = folder / file
        text = target.read_text("utf-8") if target.exists() else old
        assert text.count(old) == 1, (file, old)
        target.write_text(text.replace(old, new), "utf-8")
    return [p for p in compute_content(folder, None, TODAY)[1] if p.place.file in changes]


SLIPS = {
    "butter for grams": (
        STARTER, "pantry/bone-sauce.yaml", "butter: 100 g", "butter: 2.8 kg", "too heavy"),
    "a gallon of cream": (
        DEMO, "pantry/gratin.yaml", "cream: 1.8 L", "cream: 1.8 gal", "all that goes in weighs"),
    "ten times the butter": (
        DEMO, "pantry/mash.yaml", "5 kg, butter: 700 g", "5 kg, butter: 7 kg", "butter puts"),
    "work of a plate": (
        STARTER, "plates/chuck-steak.yaml", "hands-on: 3 min", "hands-on: 30 min", "far outside"),
    "work of a plate, in cups and pounds": (
        CUSTOMARY, "plates/chuck-steak.yaml", "on: 3 min", "on: 40 min", "far outside"),
    "a steak of kilograms": (
        STARTER, "cooks/ribeye-grill.yaml", "weight: 250 g", "weight: 2500 g", "far outside"),
    "a sauce boat": (STARTER, "plates/chuck-steak.yaml", "60 ml", "600 ml", "far outside"),
    "a sauce boat in fluid ounces": (
        CUSTOMARY, "plates/chuck-steak.yaml", "2 fl oz", "20 fl oz", "far outside"),
}  # fmt: skip


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_is_a_warning_at_its_line(slip: str, tmp_path: Path) -> None:
    root, file, old, new, words = SLIPS[slip]
    warnings = found(root, tmp_path, {file: (old, new)})
    line = (tmp_path / file).read_text("utf-8").partition(new)[0].count("\n") + 1
    assert [p.place.line for p in warnings if words in p.message] == [line]
    assert not any(p.is_error for p in warnings)


def test_butter_is_followed_through_recipes_to_the_plate(tmp_path: Path) -> None:
    """1.5 kg in ten portions, each on a plate by number: 150 g a guest."""
    item = "of: {bones: 2 kg, butter: 1.5 kg}\nmakes: 10 each\n"
    plate = "menu: mains\ncook: chuck-roll-30h\nportion: 180 g\nwith: {pot: 1 each}\nprice: 30.00\n"
    changes = {"pantry/pot.yaml": (item, item), "plates/pot.yaml": (plate, plate)}
    [problem] = [p for p in found(STARTER, tmp_path, changes) if "butter" in p.message]
    assert problem.message == "1.5 kg of butter puts 150 g of it on Pot"
    less = {"pantry/pot.yaml": ("1.5 kg", "900 g")}
    assert not [p for p in found(tmp_path, tmp_path / "less", less) if "butter" in p.message]


def test_the_share_of_work_is_that_of_the_price_without_tax(tmp_path: Path) -> None:
    """20 min of finishing, 3.8 min of the cook and the sauce, at 24.50 of 15.00 with 5 % tax."""
    lines = "price: 26.00\nhands-on: 3 min", "price: 15.00\nhands-on: 20 min"
    [problem] = found(STARTER, tmp_path, {"plates/chuck-steak.yaml": lines})
    sales = 15 / Fraction("1.05")
    finishing = Fraction(20, 60) * Fraction("24.50") / sales
    sauce = Fraction(40, 60) * Fraction(60, 1200) * Fraction("24.50") / sales
    said = float(problem.message.partition("costs ")[2].partition("%")[0]) / 100
    # The rest is the cook's 35 min, shared by the portions of a load of at most 12 kg.
    assert 0 < said - float(finishing + sauce) < 0.05
    hint = problem.hint.partition(";")[0]
    assert hint == "did you mean 2 min? look at hands-on" or hint.startswith("did you mean 2 min?")


def test_work_on_a_sauce_is_doubted_where_it_is_written(tmp_path: Path) -> None:
    """Not on the cook of every plate that has it: there nothing is wrong."""
    work = {
        "pantry/bone-sauce.yaml": ("hands-on: 40 min", "hands-on: 40 h"),
        "plates/chuck-steak.yaml": ("menu: mains", "menu: mains"),
        "cooks/chuck-roll-30h.yaml": ("cut: chuck-roll", "cut: chuck-roll"),
    }
    problems = [p for p in found(STARTER, tmp_path, work) if "work" in p.message]
    assert {str(problem.place.file) for problem in problems} == {"pantry/bone-sauce.yaml"}
    assert all("did you mean" in problem.hint for problem in problems)


@pytest.mark.parametrize("root", [DEMO, STARTER, CUSTOMARY])
def test_true_amounts_are_left_alone(root: Path) -> None:
    words = ("the work for", " of butter puts", " of cream puts", "are far apart")
    problems = compute_content(root, None, date(2026, 9, 30))[1]
    assert not [p.message for p in problems if any(each in p.message for each in words)]
