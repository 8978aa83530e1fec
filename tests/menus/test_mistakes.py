"""Mistakes in covers, garnish and set menus, at their place, with what would be right."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.kitchens import read, write
from tests.menus.kitchens import BASE
from tests.records.mistakes import Mistake
from tests.records.test_mistakes import check_one_error, made, name

KITCHEN, STEW, SUNDAY, LUNCH = (
    "kitchen.yaml",
    "plates/stew.yaml",
    "menus/sunday.yaml",
    "menus/lunch.yaml",
)
_COVER = "{of: {bread: 100 g, butter: 20 g}, on: [mains]}"

MISTAKES = [
    Mistake(KITCHEN, _COVER, "{of: {§bred: 100 g}, on: [mains]}", "no pantry item", '"bread"'),
    Mistake(KITCHEN, _COVER, "{of: {bread: §1 each}, on: [mains]}", "does not fit how bread"),
    Mistake(KITCHEN, _COVER, "{of: {bread: §100}, on: [mains]}", '"100" has no unit'),
    Mistake(KITCHEN, _COVER, "{of: {bread: 90 g}, on: [§main]}", "no section", '"mains"'),
    Mistake(KITCHEN, _COVER, "{of: {bread: §90 g}}", "which of them bear", "on: [mains]"),
    Mistake(KITCHEN, _COVER, "§1.20", "which of them bear", "{money: 1.20, on: [mains]}"),
    Mistake(KITCHEN, _COVER, "{money: §1.20, of: {bread: 90 g}, on: [mains]}", "its items or an"),
    Mistake(KITCHEN, "cover cost: {", "cover cost: {§items: {}, ", "unknown key", 'mean "of"'),
    Mistake(KITCHEN, _COVER, "§{on: [mains]}", "what a cover costs is not said", "money: 1.10"),
    Mistake(KITCHEN, "seasoning: 10 %", "garnish: §120 %", "more than can be", "100 %"),
    Mistake(KITCHEN, "seasoning: 10 %", "garnish: §a bit", "a bit"),
    Mistake(KITCHEN, "seasoning: 10 %", "§garnish factor: 1.1", "unknown key", '"garnish"'),
    Mistake(STEW, "price:", "cover cost: §yes\nprice:", '"yes"'),
    Mistake(STEW, "price:", "seasoning: §5\nprice:", '"5" has no unit', "%"),
    Mistake(STEW, "price:", "garnish: §1.405\nprice:", "3 decimals"),
    Mistake(SUNDAY, "soup: 60 %", "§soop: 60 %", 'no plate "soop"', '"soup"'),
    Mistake(SUNDAY, "soup: 60 %, salad: [20 %", "soup: 60 %, salad: [§50 %", "more guests than",
            "110 %: take 10 % off"),
    Mistake(SUNDAY, "stew: 50 %, pie: equal", "stew: 100 %, §pie: equal", "no guest is left"),
    Mistake(SUNDAY, "soup: 60 %", "soup: §60", '"60" has no unit', "%"),
    Mistake(SUNDAY, "soup: 60 %", "soup: §evenly", "evenly"),
    Mistake(SUNDAY, "[20 %, 5.50]", "§[20 %, 5.50, 7]", "3 values here"),
    Mistake(SUNDAY, "{soup: 60 %, salad: [20 %, 5.50]}", "{soup: {§part: 60 %}}", "unknown key"),
    Mistake(SUNDAY, "price: 33.00", "price: §0.00", "more than nothing"),
    Mistake(SUNDAY, "name: Sunday\nprice: 33.00\n", "§", '"price" is missing'),
    Mistake(SUNDAY, "guests: 50", "guests: §50.5", "not a whole number"),
    Mistake(SUNDAY, "guests: 50", "§gests: 50", "unknown key", '"guests"'),
    Mistake(SUNDAY, "{soup: 60 %, salad: [20 %, 5.50]}", "{}", 'nothing is served as "starter"'),
    Mistake(LUNCH, "plates: [soup, salad]\n", "", "no plate is on this menu", "plates:"),
    Mistake(LUNCH, "salad]", "§soup]", "is there twice"),
    Mistake(LUNCH, "salad]", "§salat]", 'no plate "salat"', '"salad"'),
]  # fmt: skip


@pytest.mark.parametrize("mistake", MISTAKES, ids=name)
def test_a_mistake_is_one_error_at_its_place(mistake: Mistake, tmp_path: Path) -> None:
    check_one_error(mistake, BASE, tmp_path)


def test_without_mistakes_there_is_no_problem(tmp_path: Path) -> None:
    costed, problems = read(write(tmp_path, BASE))
    assert costed is not None
    assert problems == []


DOUBTS = [
    Mistake(KITCHEN, "seasoning: 10 %", "seasoning: 10 %\ngarnish: §90 %", "far outside"),
    Mistake(KITCHEN, "seasoning: 10 %", "seasoning: 10 %\ngarnish: §140.00", "far outside"),
    Mistake(KITCHEN, "bread: 100 g", "bread: §10 kg", "far outside"),
    Mistake(STEW, "price:", "seasoning: §60 %\nprice:", "far outside"),
    Mistake(SUNDAY, "price: 33.00", "price: §3300.00", "far outside"),
    Mistake(SUNDAY, "price: 33.00", "price: §8.00", "of what guests pay"),
    Mistake(SUNDAY, "guests: 50", "guests: §50000", "far outside"),
]


@pytest.mark.parametrize("mistake", DOUBTS, ids=name)
def test_a_slip_is_a_warning_at_its_place(mistake: Mistake, tmp_path: Path) -> None:
    text, place = made(mistake, BASE[mistake.file])
    costed, problems = read(write(tmp_path, {**BASE, mistake.file: text}))
    assert costed is not None, problems
    found = [each for each in problems if mistake.message in each.message]
    assert [str(each.place) for each in found] == [place]


def test_a_menu_of_a_plate_without_a_price_yet_is_left_out(tmp_path: Path) -> None:
    files = {
        **BASE,
        "pantry/leek.yaml": "allergens: none\n",
        "prices/list.csv": "date,item,price\n2026-09-20,leek,2.00/each\n",
        "kitchen.yaml": BASE["kitchen.yaml"] + "as of: 2026-09-10\n",
    }
    costed, problems = read(write(tmp_path, files))
    assert costed is not None, problems
    assert costed.content.menus == {}
    [found] = [each for each in problems if "has no price before" in each.message]
    assert "2 set menus" in found.message
