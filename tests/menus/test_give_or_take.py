"""What is given or taken of garnish, cover and left-overs, against closed forms by hand.

Nothing else of these plates has a spread, so the ends of their intervals are those of the one
input, or of two independent ones added in squares. Draws are 4000, so ends are good to some 3 %.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.costing.buffet_rows import BuffetRows
from builder.costing.costed import Costed
from builder.pages.buffets import buffet_pages
from builder.pages.plates import plate_page
from builder.pages.view import View
from tests.kitchens import costed_from, read, write
from tests.menus.kitchens import BASE
from tests.pages_data.kitchens import html_of, text_of
from tests.records.mistakes import Mistake
from tests.records.test_mistakes import check_one_error, name

KITCHEN, ROAST, BUFFET = "kitchen.yaml", "plates/roast.yaml", "buffets/table.yaml"
FILES = {
    **BASE,
    KITCHEN: BASE[KITCHEN] + "give or take: {garnish: 20 %, cover cost: 10 %}\n",
    BUFFET: ("price: 40.00/kg\nitems: {bread: 1 kg}\nleft: 20 %\ngive or take: {left: 5 %}\n"),
}


@pytest.fixture(scope="module")
def costed(tmp_path_factory: pytest.TempPathFactory) -> Costed:
    return costed_from(write(tmp_path_factory.mktemp("kitchen"), FILES))


def ends(costed: Costed, table: str, figure: str, row: int) -> tuple[float, float]:
    low, high = (costed.figures.value(table, f"{figure}_{end}", row) for end in ("low", "high"))
    return low, high


def food(costed: Costed, plate: str) -> tuple[float, float]:
    return ends(costed, "plate", "food_cost", costed.rows.plates[plate])


def test_a_plates_own_garnish_is_given_or_taken_as_the_kitchen_does(costed: Costed) -> None:
    """2.00 give or take 0.40, with 10 % of seasoning on it: 13.20 give or take 0.44."""
    low, high = food(costed, "roast")
    assert high - low == pytest.approx(0.88, rel=0.05)
    assert (high + low) / 2 == pytest.approx(13.20, abs=0.03)


def test_a_plates_own_give_or_take_wins(tmp_path: Path) -> None:
    own = FILES[ROAST] + "give or take: {garnish: 5 %}\n"
    low, high = food(costed_from(write(tmp_path, {**FILES, ROAST: own})), "roast")
    assert high - low == pytest.approx(0.22, rel=0.05)


def test_the_amounts_of_a_cover_lie_off_each_for_itself(costed: Costed) -> None:
    """Bread 0.40 and butter 0.20, each give or take a tenth: the root of the squares."""
    low, high = food(costed, "stew")
    assert high - low == pytest.approx(2 * 0.1 * (0.40**2 + 0.20**2) ** 0.5, rel=0.06)


def test_a_cover_of_money_lies_off_by_its_share(tmp_path: Path) -> None:
    money = FILES[KITCHEN].replace("{of: {bread: 100 g, butter: 20 g}, on", "{money: 1.50, on")
    low, high = food(costed_from(write(tmp_path, {**FILES, KITCHEN: money})), "stew")
    assert high - low == pytest.approx(0.30, rel=0.05)


def test_what_a_buffet_leaves_lies_off_in_points(costed: Costed) -> None:
    """20 % left give or take 5 points: a kilogram of bread at 4.00 and 10 % of seasoning, sold as
    0.85 to 0.75 kg."""
    low, high = ends(costed, "buffet", "cost_per_kg_sold", costed.rows.of(BuffetRows)["table"].row)
    assert low == pytest.approx(4.40 / 0.85, rel=0.01)
    assert high == pytest.approx(4.40 / 0.75, rel=0.01)


def test_without_it_they_are_held(tmp_path: Path) -> None:
    costed = costed_from(write(tmp_path, BASE))
    known = costed.uncertainty.spreads if costed.uncertainty else {}
    assert not any(node[1].endswith(("garnish", "cover", "quantity")) for node in known)


def test_pages_name_what_lies_off(costed: Costed) -> None:
    view = View.of(costed, [])
    roast = text_of(html_of(plate_page(view, costed.content.plates["roast"])))
    assert "Roast: garnish" in roast
    stew = text_of(html_of(plate_page(view, costed.content.plates["stew"])))
    assert "bread of a cover" in stew.lower()
    [buffet] = [page for page in buffet_pages(view) if page.title == "Table"]
    assert "Table: what is left" in text_of(html_of(buffet))


MISTAKES = [
    Mistake(KITCHEN, "garnish: 20 %,", "garnish: §0.40,", '"0.40" has no unit', "%"),
    Mistake(KITCHEN, "cover cost: 10 %}", "§cover: 10 %}", "unknown key", '"cover cost"'),
    Mistake(BUFFET, "{left: 5 %}", "{left: §5 g}", "5 g"),
    Mistake(BUFFET, "{left: 5 %}", "{§lost: 5 %}", "unknown key", "left"),
]


@pytest.mark.parametrize("mistake", MISTAKES, ids=name)
def test_a_mistake_is_one_error_at_its_place(mistake: Mistake, tmp_path: Path) -> None:
    check_one_error(mistake, FILES, tmp_path)


def test_more_than_is_likely_is_doubted(tmp_path: Path) -> None:
    files = {**FILES, BUFFET: FILES[BUFFET].replace("{left: 5 %}", "{left: 60 %}")}
    _, problems = read(write(tmp_path, files))
    assert any("far outside" in each.message for each in problems)


def test_what_is_left_is_not_held_where_it_is_drawn(tmp_path: Path) -> None:
    """Its worth is held, for nothing is known of it; the share is drawn give or take 5 points."""
    files = {**FILES, BUFFET: FILES[BUFFET] + "left worth: 2.00/kg\n"}
    view = View.of(costed_from(write(tmp_path, files)), [])
    [buffet] = [page for page in buffet_pages(view) if page.title == "Table"]
    words = text_of(html_of(buffet))
    _, held = words.split("Held at what is written")
    assert "the worth of what is left over" in held
    assert held.count("what is left over") == 1
