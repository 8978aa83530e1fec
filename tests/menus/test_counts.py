"""Guests of set menus in a count: plates, sales, covers and meat by hand, and mistakes."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.costing.costed import Costed
from builder.pages.counts import count_pages
from builder.pages.view import View
from tests.kitchens import costed_from, write
from tests.menus.test_guests import BRAISED
from tests.moving import with_row
from tests.pages_data.kitchens import html_of, text_of
from tests.records.mistakes import Mistake
from tests.records.test_mistakes import check_one_error, name

COUNT = "counts/week.yaml"
COUNTED = {
    **BRAISED,
    COUNT: (
        "from: 2026-09-21\nto: 2026-09-27\nplates: {stew: 30}\nmenus: {sunday: 40}\n"
        "cuts: {shoulder: {used: 20 kg}}\n"
    ),
}
# By 40 guests, of whom 60 and 20 % take a starter, 50, 25 and 25 % a main course.
TAKEN = {"soup": 24, "salad": 8, "stew": 20, "pie": 10, "roast": 10}
# Without the cover: braised meat at 18.00/kg, 10 % of seasoning.
FOOD = {"soup": 2.20, "salad": 3.30, "stew": 3.60 * 1.1, "pie": 6.80 * 1.1, "roast": 13.20}
COVER = 0.60


@pytest.fixture(scope="module")
def costed(tmp_path_factory: pytest.TempPathFactory) -> Costed:
    return costed_from(write(tmp_path_factory.mktemp("kitchen"), COUNTED))


def of_count(costed: Costed, figure: str) -> float:
    return costed.figures.value("count", figure, costed.counts["week"].row)


def of_plate(costed: Costed, plate: str, figure: str) -> float:
    return costed.figures.value("sale", figure, costed.counts["week"].sales[plate])


@pytest.mark.parametrize("plate", TAKEN)
def test_what_guests_took_comes_on_top_of_what_was_sold_alone(costed: Costed, plate: str) -> None:
    alone = 30 if plate == "stew" else 0
    assert of_plate(costed, plate, "plates_sold") == pytest.approx(alone + TAKEN[plate])
    food = alone * (FOOD[plate] + COVER) + TAKEN[plate] * FOOD[plate]
    assert of_plate(costed, plate, "theoretical_food") == pytest.approx(food)


def test_guests_pay_for_their_menu_and_get_one_cover(costed: Costed) -> None:
    """30 stews at 20.00 and 40 guests at 31.00 without tax; 40 covers at 0.60."""
    assert of_count(costed, "sales") == pytest.approx(30 * 20.00 + 40 * 31.00)
    food = sum(TAKEN[plate] * FOOD[plate] for plate in TAKEN) + 40 * COVER
    assert of_count(costed, "theoretical_food") == pytest.approx(food + 30 * (3.96 + COVER))
    # A guest's food is what the menu's own page says.
    row = costed.rows.menus["sunday"].row
    assert 40 * costed.figures.value("set_menu", "food_cost", row) == pytest.approx(food)


def test_meat_that_guests_took_is_accounted_for(costed: Costed) -> None:
    """50 stews of 200 g and 10 pies of 100 g at a yield of two thirds: 16.5 kg of the 20 used."""
    usage = costed.counts["week"].usages["shoulder"]
    value = costed.figures.value
    assert value("usage", "explained_use", usage) == pytest.approx(16.5)
    assert value("usage", "unexplained", usage) == pytest.approx(3.5 * 12.00)
    parts = ("portion_effect", "yield_effect", "thrown_effect", "unexplained", "price_effect")
    whole = sum(of_count(costed, part) for part in parts)
    assert whole == pytest.approx(of_count(costed, "difference"))
    assert of_count(costed, "difference") == pytest.approx(42.00)


def test_the_count_follows_who_takes_what(costed: Costed) -> None:
    choice = costed.rows.menus["sunday"].choices["main", "stew"]
    moved = with_row(costed.figures, ("choice", "stated_share"), choice, [0.75])
    stew = costed.counts["week"].sales["stew"]
    assert moved.value("sale", "plates_sold", stew) == pytest.approx(30 + 30)


def test_a_decision_counts_what_was_sold_on_its_own(costed: Costed) -> None:
    plates = costed.content.counts["week"].plates
    assert {str(plate) for plate in plates} == set(TAKEN)
    assert [each.sold.value for each in plates.values()] == [30, 0, 0, 0, 0]


def test_its_page_says_what_guests_took(costed: Costed) -> None:
    page = next(p for p in count_pages(View.of(costed, [])) if p.title == "Week")
    text = " ".join(text_of(html_of(page)).split())
    assert re.search(r"Stew \$[\d.]+ \S+ \S+ 50 20 by guests of set menus", text)
    assert "Sunday 40 $1,240.00 $24.00" in text


MISTAKES = [
    Mistake(COUNT, "{sunday: 40}", "{§sundy: 40}", 'no set menu "sundy"', '"sunday"'),
    Mistake(COUNT, "{sunday: 40}", "{sunday: §0}", "no guests of sunday", "take the line out"),
    Mistake(COUNT, "{sunday: 40}", "{sunday: §a few}", '"a few"'),
]


@pytest.mark.parametrize("mistake", MISTAKES, ids=name)
def test_a_mistake_is_one_error_at_its_place(mistake: Mistake, tmp_path: Path) -> None:
    check_one_error(mistake, COUNTED, tmp_path)
