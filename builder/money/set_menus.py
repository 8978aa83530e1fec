"""Set menus and combos: what a guest costs, pays and leaves, by the share that takes each plate."""

from __future__ import annotations

from typing import Final

from builder.engine.arith import Column, either, known, most, or_else, whole_up
from builder.engine.tables import Fold, Table, formula
from builder.money import actions as _actions  # noqa: F401 - declares the monthly counts
from builder.money import equal_margin as _equal_margin  # noqa: F401 - before its intervals
from builder.money.covers import COVER_COST
from builder.money.intervals import with_chance_over_target, with_intervals
from builder.money.kitchen import FOR_PRICES, KITCHEN, PROCESS
from builder.money.plates import PLATE, PRICING
from builder.money.portions import PORTION

FIXED_PRICE: Final = (
    "a textbook on menu planning, fig. 7.4, costs of plates over one price [read]; "
    "that each counts by the share of guests that takes it is our derivation"
)
BESIDE: Final = (
    "our rule: a plate's own count is of plates sold at its own price; those that guests of set "
    "menus take come on top"
)
EQUAL: Final = "our rule: guests of whom nothing is written choose in equal parts"

SET_MENU = Table("set_menu", "A set menu or a combo, one price a guest for several plates")
COURSE = Table("course", "A course of a set menu")
CHOICE = Table("choice", "A plate of a course of a set menu")
SET_MENU.link("kitchen", KITCHEN)
COURSE.link("menu", SET_MENU)
CHOICE.link("course", COURSE)
CHOICE.link("plate", PLATE)


@formula(PLATE, unit="money", source=FIXED_PRICE, as_sure_as="food_cost")
def food_without_cover(food_cost: Column, cover_cost: Column) -> Column:
    """Food on the plate without what comes with the cover, which a guest gets once."""
    return food_cost - cover_cost


@formula(PLATE, unit="money", source=FIXED_PRICE)
def labour_without_cover(labour_cost: Column, cover_hours: Column, loaded_wage: Column) -> Column:
    """Labour in the plate without that in the cover; what is not known is left out."""
    return or_else(labour_cost, 0.0) - cover_hours * or_else(loaded_wage, 0.0)


@formula(PLATE, unit="money", source=FIXED_PRICE)
def process_without_cover(process_per_plate: Column, cover_process: Column) -> Column:
    """Energy and supplies of the plate without those of the cover."""
    return process_per_plate - cover_process


CHOICE.given("stated_share", "share", "Share of the guests that takes it, where it is written")
CHOICE.given("supplement", "money", "What it costs its guest on top of the price", 0.0, "none")
CHOICE.lookup("plate_food", "plate", PLATE, "food_without_cover")
CHOICE.lookup("plate_labour", "plate", PLATE, "labour_without_cover")
CHOICE.lookup("plate_process", "plate", PLATE, "process_without_cover")
CHOICE.lookup("own_cover", "plate", PLATE)
CHOICE.lookup("price_factor", "plate", PLATE)
CHOICE.lookup("plate_price", "plate", PLATE, "menu_price")


@formula(CHOICE, unit="share", source=EQUAL)
def known_share(stated_share: Column) -> Column:
    """Share of the guests that is written; nothing where none is."""
    return or_else(stated_share, 0.0)


@formula(CHOICE, unit="count", source=EQUAL)
def has_equal_part(stated_share: Column) -> Column:
    """1 where an equal part of the guests that are left takes it."""
    return either(known(stated_share), 0.0, 1.0)


COURSE.total("known_shares", CHOICE, "known_share", "course", "Shares of the guests as written")
COURSE.total("equal_parts", CHOICE, "has_equal_part", "course", "Plates with equal parts")


@formula(COURSE, unit="share", source=EQUAL)
def equal_share(known_shares: Column, equal_parts: Column) -> Column:
    """Share of the guests for each plate of which none is written: the rest, in equal parts."""
    return either(equal_parts > 0, most(1 - known_shares, 0.0) / equal_parts, 0.0)


CHOICE.lookup("equal_share", "course", COURSE)


@formula(CHOICE, unit="share", source=EQUAL)
def share(stated_share: Column, equal_share: Column) -> Column:
    """Share of the guests that takes it: as written, else an equal part of the rest."""
    return or_else(stated_share, equal_share)


@formula(CHOICE, unit="money", source=FIXED_PRICE, as_sure_as="plate_food")
def food_after_supplement(plate_food: Column, supplement: Column, price_factor: Column) -> Column:
    """Food of one plate less what its guest adds, without tax: what it costs the kitchen."""
    return plate_food - supplement / price_factor


@formula(CHOICE, unit="money", source=FIXED_PRICE, as_sure_as="plate_food")
def choice_food(share: Column, plate_food: Column) -> Column:
    """Food of the plate a guest of the menu: its cost times the share that takes it."""
    return share * plate_food


@formula(CHOICE, unit="money", source=FIXED_PRICE)
def choice_labour(share: Column, plate_labour: Column) -> Column:
    """Labour of the plate a guest of the menu."""
    return share * plate_labour


@formula(CHOICE, unit="money", source=FIXED_PRICE)
def choice_process(share: Column, plate_process: Column) -> Column:
    """Energy and supplies of the plate a guest of the menu."""
    return share * plate_process


@formula(CHOICE, unit="money", source=FIXED_PRICE)
def choice_supplement(share: Column, supplement: Column) -> Column:
    """Supplement of the plate a guest of the menu."""
    return share * supplement


@formula(CHOICE, unit="money", source=FIXED_PRICE)
def choice_price(share: Column, plate_price: Column) -> Column:
    """What the plate costs on the menu on its own, a guest of the set menu."""
    return share * plate_price


COURSE.total("taken", CHOICE, "share", "course", "Share of the guests that takes the course")
COURSE.total("course_food", CHOICE, "choice_food", "course", "Food of the course a guest")
COURSE.total("course_labour", CHOICE, "choice_labour", "course", "Labour of the course a guest")
COURSE.total(
    "course_process",
    CHOICE,
    "choice_process",
    "course",
    "Energy and supplies of the course a guest",
)
COURSE.total(
    "course_supplements", CHOICE, "choice_supplement", "course", "Supplements of the course a guest"
)
COURSE.total("course_prices", CHOICE, "choice_price", "course", "Its plates on their own, a guest")
COURSE.total(
    "dearest_food", CHOICE, "plate_food", "course", "Food of its dearest plate", fold=Fold.MOST
)
COURSE.total(
    "cheapest_food", CHOICE, "plate_food", "course", "Food of its cheapest plate", fold=Fold.LEAST
)
COURSE.total(
    "own_cover", CHOICE, "own_cover", "course", "Dearest own cover of its plates", fold=Fold.MOST
)

SET_MENU.given("guest_price", "money", "What a guest pays, without supplements")
SET_MENU.given("guests", "count/week", "Guests a week that the kitchen expects")
SET_MENU.given("plate_cover", "money", "Cover cost of its own; 0 where it bears none")
SET_MENU.given(
    "bears_cover", "flag", "1 where it bears the kitchen's cover cost", 0.0, "it does not"
)
SET_MENU.lookups("kitchen", KITCHEN, *FOR_PRICES)
for _name in ("cover_cost", "cover_hours", "cover_process"):
    SET_MENU.lookup(f"kitchen_{_name}", "kitchen", KITCHEN, _name)
SET_MENU.total("courses_food", COURSE, "course_food", "menu", "Food of all courses a guest")
SET_MENU.total("courses_labour", COURSE, "course_labour", "menu", "Labour of all courses a guest")
SET_MENU.total(
    "courses_process",
    COURSE,
    "course_process",
    "menu",
    "Energy and supplies of all courses a guest",
)
SET_MENU.total("supplements", COURSE, "course_supplements", "menu", "Supplements a guest")
SET_MENU.total(
    "prices_apart", COURSE, "course_prices", "menu", "What the same plates cost on their own"
)
SET_MENU.total(
    "own_cover", COURSE, "own_cover", "menu", "Dearest own cover of its plates", fold=Fold.MOST
)
SET_MENU.borrow(PLATE, "cover_hours", "cover_process")


@formula(SET_MENU, unit="money", source=COVER_COST)
def cover_cost(
    plate_cover: Column, bears_cover: Column, kitchen_cover_cost: Column, own_cover: Column
) -> Column:
    """What comes with a guest's cover: the menu's own, else the kitchen's where a plate bears it,
    else the dearest that a plate of it writes for itself.
    """
    return or_else(plate_cover, either(bears_cover > 0, kitchen_cover_cost, own_cover))


@formula(SET_MENU, unit="money", source=FIXED_PRICE)
def food_cost(courses_food: Column, cover_cost: Column) -> Column:
    """Food of a guest: all courses by who takes what, and the cover once."""
    return courses_food + cover_cost


@formula(SET_MENU, unit="money", source=PROCESS)
def labour_cost(courses_labour: Column, cover_hours: Column, loaded_wage: Column) -> Column:
    """Direct labour for a guest, as far as it is known."""
    return courses_labour + cover_hours * or_else(loaded_wage, 0.0)


@formula(SET_MENU, unit="money", source=PROCESS)
def process_per_plate(courses_process: Column, cover_process: Column) -> Column:
    """Energy and supplies of a guest, as far as they are known."""
    return courses_process + cover_process


@formula(SET_MENU, unit="money", source=FIXED_PRICE)
def menu_price(guest_price: Column, supplements: Column) -> Column:
    """What a guest pays on average, supplements included."""
    return guest_price + supplements


SET_MENU.borrow(
    PLATE,
    "prime_cost",
    "full_cost",
    "price_ex_tax",
    "contribution_margin",
    "margin_after_prime",
    "margin_after_full",
    "food_cost_share",
    "food_cost_over",
    "price_factor",
)


@formula(SET_MENU, unit="money up", source=PRICING)
def price_for_food_cost(
    food_cost: Column,
    food_cost_target: Column,
    price_factor: Column,
    supplements: Column,
    coins_in_unit: Column,
) -> Column:
    """Lowest price a guest, to the coin, at which food cost is no more than the share aimed at.

    Supplements are paid on top of it. Not known where the food costs nothing, or less.
    """
    price = food_cost / food_cost_target * price_factor - supplements
    return either(food_cost > 0, whole_up(price * coins_in_unit) / coins_in_unit, float("nan"))


@formula(SET_MENU, unit="money up", source=PRICING)
def price_for_margin(
    food_cost: Column,
    margin_target: Column,
    price_factor: Column,
    supplements: Column,
    coins_in_unit: Column,
) -> Column:
    """Lowest price a guest, to the coin, at which the margin is no less than aimed at.

    Supplements are paid on top of it. Not known where the food costs less than nothing.
    """
    price = (food_cost + margin_target) * price_factor - supplements
    return either(food_cost >= 0, whole_up(price * coins_in_unit) / coins_in_unit, float("nan"))


@formula(SET_MENU, unit="share", source="part of a whole")
def off_prices_apart(menu_price: Column, prices_apart: Column) -> Column:
    """How much less a guest pays than for the same plates on their own."""
    return 1 - menu_price / prices_apart


@formula(SET_MENU, unit="money/week", source=PRICING, as_sure_as="contribution_margin")
def week_margin(guests: Column, contribution_margin: Column) -> Column:
    """Contribution margin of a week's guests."""
    return guests * contribution_margin


COURSE.lookup("guests", "menu", SET_MENU)
CHOICE.lookup("guests", "course", COURSE)


@formula(CHOICE, unit="count/week", source=FIXED_PRICE)
def plates_a_week(share: Column, guests: Column) -> Column:
    """Plates a week that the menu's guests take."""
    return share * guests


@formula(CHOICE, unit="count/week", source=BESIDE)
def plates_expected(plates_a_week: Column) -> Column:
    """Plates a week that the menu's guests take; none where no guests are written."""
    return or_else(plates_a_week, 0.0)


PLATE.total(
    "menu_plates_a_week",
    CHOICE,
    "plates_expected",
    "plate",
    "Plates a week that the guests of set menus take",
)


@formula(PLATE, unit="count/week", source=BESIDE)
def plates_to_make(weekly_count: Column, menu_plates_a_week: Column) -> Column:
    """Plates a week that the kitchen makes: sold on their own, and those of set menus' guests.

    Not known where neither is.
    """
    on_top = or_else(weekly_count, 0.0) + menu_plates_a_week
    return either(menu_plates_a_week > 0, on_top, weekly_count)


PORTION.lookup("plates_to_make", "plate", PLATE)


SET_MENU_INTERVALS: Final = (
    "food_cost", "prime_cost", "full_cost", "food_cost_share", "contribution_margin",
    "margin_after_prime", "margin_after_full", "price_for_food_cost", "price_for_margin",
)  # fmt: skip
with_intervals(SET_MENU, SET_MENU_INTERVALS)
with_chance_over_target(SET_MENU)
