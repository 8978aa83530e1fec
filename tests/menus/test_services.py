"""Services that serve set menus: covers, loads and orders by hand, and mistakes at their place."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.costing.costed import Costed
from builder.pages.schedule import schedule_pages
from builder.pages.view import View
from builder.records.guests import own_covers, with_guests
from tests.kitchens import costed_from, read, write
from tests.menus.test_guests import BRAISED
from tests.moving import with_row
from tests.pages_data.kitchens import html_of, text_of
from tests.records.mistakes import Mistake
from tests.records.test_mistakes import check_one_error, name

SERVICE = "services/sunday.yaml"
SERVED = {
    **BRAISED,
    "cooks/braise.yaml": BRAISED["cooks/braise.yaml"]
    + "cool: {to: 3 °C, within: 4 h, in: ice bath}\n",
    SERVICE: "day: sunday\nat: 12:30\nmenus: {sunday: 50}\nplates: {stew: 10, soup: 4}\n",
}
# 50 guests by the menu's shares, up to whole plates; 10 stews and 4 soups are on their own.
COVERS = {"soup": 30 + 4, "salad": 10, "stew": 25 + 10, "pie": 13, "roast": 13}


@pytest.fixture(scope="module")
def costed(tmp_path_factory: pytest.TempPathFactory) -> Costed:
    return costed_from(write(tmp_path_factory.mktemp("kitchen"), SERVED))


def covers(costed: Costed, plate: str) -> float:
    row = costed.rows.services.servings["sunday", plate]
    return costed.figures.value("serving", "covers", row)


@pytest.mark.parametrize("plate", COVERS)
def test_what_guests_take_is_added_to_the_plates_of_the_service(costed: Costed, plate: str) -> None:
    assert covers(costed, plate) == COVERS[plate]


def test_words_and_figures_count_the_same(tmp_path: Path) -> None:
    for guests in (1, 3, 7, 41, 83):
        files = {**SERVED, SERVICE: SERVED[SERVICE].replace("sunday: 50", f"sunday: {guests}")}
        costed = costed_from(write(tmp_path / str(guests), files))
        for plate, serving in costed.content.services["sunday"].plates.items():
            assert serving.covers.value == covers(costed, plate)
            assert serving.covers.text == f"{serving.covers.value:.0f}"


def test_one_load_is_cooked_for_both(costed: Costed) -> None:
    """35 stews of 200 g and 13 pies of 100 g, at a yield of two thirds: 12.45 kg raw."""
    [planned] = costed.services["sunday"].cooks
    assert planned.raw_kg == pytest.approx((35 * 0.2 + 13 * 0.1) * 1.5)
    assert planned.covers == 35 + 13


def test_the_order_is_for_both_and_a_guest_gets_one_cover(costed: Costed) -> None:
    """Bread and butter for 50 guests and the 10 stews on their own; a soup bears no cover."""
    rows = costed.orders["sunday"]
    used = {
        item: costed.figures.value("order_line", "amount_used", row)
        for item, row in rows.items.items()
    }
    expected = {
        "leek": 34, "egg": 3 * 10, "beef": 13 + 2 * 13, "butter": 60 * 0.020, "flour": 60 * 0.100,
    }  # fmt: skip
    assert used == pytest.approx(expected)
    shoulder = costed.figures.value("order_line", "amount_used", rows.cuts["shoulder"])
    assert shoulder == pytest.approx(12.45)


def test_covers_follow_who_takes_what(costed: Costed) -> None:
    """A share of 70 % instead of 50 %: 35 of the guests take the stew."""
    choice = costed.rows.menus["sunday"].choices["main", "stew"]
    moved = with_row(costed.figures, ("choice", "stated_share"), choice, [0.7])
    row = costed.rows.services.servings["sunday", "stew"]
    assert moved.value("serving", "covers", row) == 45


def test_a_plate_that_only_guests_take_may_lie_in_the_cold(tmp_path: Path) -> None:
    ahead = SERVED[SERVICE].replace("stew: 10", "stew: [0, 1 d]")
    costed = costed_from(write(tmp_path, {**SERVED, SERVICE: ahead}))
    assert covers(costed, "stew") == 25
    # The pies' share is for the service itself, the stews' chilled: two loads.
    assert [planned.covers for planned in costed.services["sunday"].cooks] == [25, 13]


def test_without_its_menu_a_service_serves_what_is_its_own(costed: Costed) -> None:
    service = costed.content.services["sunday"]
    bare = with_guests(service.model_copy(update={"menus": {}}), {})
    assert {plate: serving.covers.value for plate, serving in bare.items()} == {
        "stew": 10, "soup": 4,
    }  # fmt: skip
    again = with_guests(service, costed.content.menus)
    assert {plate: serving.covers.value for plate, serving in again.items()} == COVERS
    assert {plate for plate, each in again.items() if own_covers(each.covers) is None} == {
        "salad", "pie", "roast",
    }  # fmt: skip


def test_its_page_says_who_takes_what(costed: Costed) -> None:
    pages = schedule_pages(View.of(costed, []))
    page = next(page for page in pages if page.title == "Sunday")
    assert page.answer.startswith("64 covers on Sunday")
    text = " ".join(text_of(html_of(page)).split())
    assert "Stew 35 10 on their own" in text
    assert "Salad 10 guests of set menus" in text
    assert "50 guests Stew main 50.0% 25" in text


MISTAKES = [
    Mistake(SERVICE, "{sunday: 50}", "{§sundy: 50}", 'no set menu "sundy"', '"sunday"'),
    Mistake(SERVICE, "{sunday: 50}", "{sunday: §0}", "no guests of sunday", "take the line out"),
    Mistake(SERVICE, "{sunday: 50}", "{sunday: §50.5}", "not a whole number"),
    Mistake(SERVICE, "{sunday: 50}", "{sunday: §[50, 2 d]}", "a single value", "whole number"),
    Mistake(SERVICE, "soup: 4", "soup: §0 g", '"0 g"'),
    Mistake(SERVICE, "{stew: 10, soup: 4}", "{§stews: 10}", 'no plate "stews"', '"stew"'),
]


@pytest.mark.parametrize("mistake", MISTAKES, ids=name)
def test_a_mistake_is_one_error_at_its_place(mistake: Mistake, tmp_path: Path) -> None:
    check_one_error(mistake, SERVED, tmp_path)


def test_a_service_without_a_plate_and_a_menu_is_an_error(tmp_path: Path) -> None:
    costed, problems = read(write(tmp_path, {**SERVED, SERVICE: "day: sunday\nat: 12:30\n"}))
    assert costed is None
    assert [p.message for p in problems if p.is_error] == ["a service needs a plate"]
