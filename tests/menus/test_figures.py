"""Garnish, seasoning, covers and set menus against arithmetic by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.costing.costed import Costed
from tests.kitchens import costed_from, write
from tests.menus.kitchens import BASE
from tests.moving import with_row

# What a cover costs: food 0.40 + 0.20, work 3 min at 20.00, half a kilowatt-hour.
COVER, COVER_WORK, COVER_PROCESS = 0.60, 1.00, 0.10
# Food of a plate by hand: (listed + garnish) x (1 + seasoning), without the cover.
FOOD = {
    "soup": 2.00 * 1.1,
    "salad": 3.00 * 1.1,
    "stew": 5.00 * 1.1,
    "pie": 6.00 * 1.2,
    "roast": (10.00 + 2.00) * 1.1,
}


@pytest.fixture(scope="module")
def costed(tmp_path_factory: pytest.TempPathFactory) -> Costed:
    return costed_from(write(tmp_path_factory.mktemp("kitchen"), BASE))


def plate(costed: Costed, name: str, figure: str) -> float:
    return costed.figures.value("plate", figure, costed.rows.plates[name])


def menu(costed: Costed, name: str, figure: str) -> float:
    return costed.figures.value("set_menu", figure, costed.rows.menus[name].row)


@pytest.mark.parametrize("name", FOOD)
def test_a_plate_has_its_own_garnish_and_seasoning_and_mains_bear_the_cover(
    costed: Costed, name: str
) -> None:
    cover = COVER if name in {"stew", "pie"} else 0.0
    assert plate(costed, name, "food_without_cover") == pytest.approx(FOOD[name])
    assert plate(costed, name, "food_cost") == pytest.approx(FOOD[name] + cover)
    assert plate(costed, name, "cover_cost") == pytest.approx(cover)


def test_work_and_energy_of_what_comes_with_the_cover_are_kept_apart_from_its_food(
    costed: Costed,
) -> None:
    assert plate(costed, "stew", "labour_cost") == pytest.approx(2.00 + COVER_WORK)
    assert plate(costed, "stew", "process_per_plate") == pytest.approx(COVER_PROCESS)
    assert plate(costed, "roast", "process_per_plate") == 0
    full = FOOD["stew"] + COVER + 2.00 + COVER_WORK + COVER_PROCESS
    for figure in ("full_cost", "full_cost_by_weight"):
        assert plate(costed, "stew", figure) == pytest.approx(full)


def test_a_set_menu_is_its_courses_by_who_takes_what_and_one_cover(costed: Costed) -> None:
    """Starter 60 and 20 %, nobody else; main 50 %, the other two a quarter each; supplement 5.50.

    Paid: 33.00 + 20 % of 5.50 = 34.10, 31.00 without tax.
    """
    food = 0.6 * FOOD["soup"] + 0.2 * FOOD["salad"]
    food += 0.5 * FOOD["stew"] + 0.25 * FOOD["pie"] + 0.25 * FOOD["roast"] + COVER
    labour = 0.6 * 1.00 + 0.5 * 2.00 + COVER_WORK
    expected = {
        "food_cost": food,
        "labour_cost": labour,
        "prime_cost": food + labour,
        "full_cost": food + labour + COVER_PROCESS,
        "supplements": 1.10,
        "menu_price": 34.10,
        "price_ex_tax": 31.00,
        "contribution_margin": 31.00 - food,
        "margin_after_full": 31.00 - food - labour - COVER_PROCESS,
        "food_cost_share": food / 31.00,
        "week_margin": 50 * (31.00 - food),
        "prices_apart": 0.6 * 11 + 0.2 * 13.2 + 0.5 * 22 + 0.25 * 24.2 + 0.25 * 33,
    }
    for figure, value in expected.items():
        assert menu(costed, "sunday", figure) == pytest.approx(value), figure


def test_the_price_that_is_asked_for_meets_the_target_and_a_coin_less_does_not(
    costed: Costed,
) -> None:
    row = costed.rows.menus["sunday"].row
    for asked, figure, target in (
        ("price_for_food_cost", "food_cost_share", 0.30),
        ("price_for_margin", "contribution_margin", 15.00),
    ):
        price = menu(costed, "sunday", asked)
        found = [
            with_row(costed.figures, ("set_menu", "guest_price"), row, [each]).value(
                "set_menu", figure, row
            )
            for each in (price, price - 0.01)
        ]
        meets = [value <= target if figure == "food_cost_share" else value >= target
                 for value in found]  # fmt: skip
        assert meets == [True, False], figure


def test_choices_say_what_each_costs_and_how_many_a_week(costed: Costed) -> None:
    rows = costed.rows.menus["sunday"].choices
    value = costed.figures.value
    # 20 % of 50 guests; 3.30 of food less 5.50 without tax.
    salad = rows["starter", "salad"]
    assert value("choice", "plates_a_week", salad) == pytest.approx(10)
    assert value("choice", "food_after_supplement", salad) == pytest.approx(3.30 - 5.00)
    assert value("choice", "share", rows["main", "pie"]) == pytest.approx(0.25)
    starter, main = (costed.rows.menus["sunday"].courses[name] for name in ("starter", "main"))
    assert value("course", "taken", starter) == pytest.approx(0.8)
    assert value("course", "taken", main) == pytest.approx(1.0)
    assert value("course", "dearest_food", main) == pytest.approx(FOOD["roast"])
    assert value("course", "cheapest_food", main) == pytest.approx(FOOD["stew"])


def test_a_share_that_is_tried_moves_the_equal_parts_of_the_rest(costed: Costed) -> None:
    rows = costed.rows.menus["sunday"]
    stew, pie = rows.choices["main", "stew"], rows.choices["main", "pie"]
    moved = with_row(costed.figures, ("choice", "stated_share"), stew, [0.8])
    assert moved.value("choice", "share", pie) == pytest.approx(0.1)
    more = with_row(costed.figures, ("choice", "stated_share"), stew, [1.2])
    assert more.value("choice", "share", pie) == 0


def test_a_combo_is_all_its_plates_with_a_cover_only_where_a_plate_bears_one(
    costed: Costed,
) -> None:
    assert menu(costed, "lunch", "food_cost") == pytest.approx(FOOD["soup"] + FOOD["salad"])
    assert menu(costed, "lunch", "off_prices_apart") == pytest.approx(1 - 22 / 24.2)


@pytest.mark.parametrize(
    ("line", "cover"), [("", COVER), ("cover cost: none\n", 0), ("cover cost: 2.50\n", 2.50)]
)
def test_a_combo_may_refuse_the_cover_or_state_its_own(
    tmp_path: Path, line: str, cover: float
) -> None:
    files = {**BASE, "menus/lunch.yaml": f"price: 30.00\nplates: [stew, pie]\n{line}"}
    found = costed_from(write(tmp_path, files))
    assert menu(found, "lunch", "cover_cost") == pytest.approx(cover)
    assert menu(found, "lunch", "food_cost") == pytest.approx(FOOD["stew"] + FOOD["pie"] + cover)


def test_a_plate_may_refuse_the_kitchens_garnish(tmp_path: Path) -> None:
    """Of the kitchen's 20 % of garnish the stew has none, the soup all."""
    files = {
        "kitchen.yaml": BASE["kitchen.yaml"] + "garnish: 20 %\n",
        "plates/stew.yaml": BASE["plates/stew.yaml"] + "garnish: none\n",
    }
    found = costed_from(write(tmp_path, {**BASE, **files}))
    assert plate(found, "stew", "garnish_cost") == 0
    assert plate(found, "soup", "garnish_cost") == pytest.approx(0.20 * 2.00)


@pytest.mark.parametrize(
    ("soup", "roast", "cover"),
    [("0.30", "0.90", 0.90), ("none", "0.40", 0.40), ("2.00", "none", 2)],
)
def test_a_guest_gets_the_dearest_own_cover_where_no_plate_bears_the_kitchens(
    tmp_path: Path, soup: str, roast: str, cover: float
) -> None:
    files = {
        "plates/soup.yaml": BASE["plates/soup.yaml"] + f"cover cost: {soup}\n",
        "plates/roast.yaml": BASE["plates/roast.yaml"].replace("none", roast),
        "menus/lunch.yaml": "price: 22.00\nplates: [soup, roast]\n",
        "menus/dinner.yaml": "price: 44.00\nplates: [soup, stew]\n",
    }
    found = costed_from(write(tmp_path, {**BASE, **files}))
    assert menu(found, "lunch", "cover_cost") == pytest.approx(cover)
    food = FOOD["soup"] + FOOD["roast"] + cover
    assert menu(found, "lunch", "food_cost") == pytest.approx(food)
    assert menu(found, "dinner", "cover_cost") == pytest.approx(COVER)


def test_a_cover_as_money_is_what_it_says(tmp_path: Path) -> None:
    kitchen = BASE["kitchen.yaml"].replace("of: {bread: 100 g, butter: 20 g}", "money: 1.25")
    found = costed_from(write(tmp_path, {**BASE, "kitchen.yaml": kitchen}))
    assert plate(found, "stew", "cover_cost") == 1.25
    assert plate(found, "stew", "labour_cost") == pytest.approx(2.00)


def test_a_menu_of_one_plate_is_as_sure_as_the_plate(tmp_path: Path) -> None:
    """Its draws are the plate's; half of its guests halve the width."""
    kitchen = BASE["kitchen.yaml"] + "give or take: {loaded wage: 5 %}\n"
    files = {
        **BASE,
        "kitchen.yaml": kitchen,
        "pantry/leek.yaml": BASE["pantry/leek.yaml"] + "give or take: {price: 20 %}\n",
        "menus/lunch.yaml": "price: 11.00\nplates: [soup]\n",
        "menus/half.yaml": "price: 11.00\ncourses: {starter: {soup: 50 %}}\n",
    }
    found = costed_from(write(tmp_path, files))
    low, high = (plate(found, "soup", f"full_cost_{end}") for end in ("low", "high"))
    assert high > low
    assert [menu(found, "lunch", f"full_cost_{end}") for end in ("low", "high")] == [low, high]
    half = menu(found, "half", "full_cost_high") - menu(found, "half", "full_cost_low")
    assert half == pytest.approx((high - low) / 2)
