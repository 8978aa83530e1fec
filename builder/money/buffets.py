"""Counters and buffets: what a kilogram sold or a guest costs, with what is left over."""

from __future__ import annotations

from typing import Final

from builder.engine.arith import Column, either, or_else
from builder.engine.tables import Table, formula
from builder.money import actions as _actions  # noqa: F401 - declares the monthly counts
from builder.money import equal_margin as _equal_margin  # noqa: F401 - before its intervals
from builder.money.intervals import with_intervals
from builder.money.kitchen import KITCHEN, PROCESS
from builder.money.pantry import PANTRY
from builder.money.plates import PRICING
from builder.money.set_menus import SET_MENU
from builder.yields.chain import BATCH

PUT_OUT: Final = (
    "Costing buffets guidelines, Restaurant Business: what is put out is a cost, eaten or not, "
    "over the guests or the weight sold [read]"
)

BUFFET = Table("buffet", "A counter that sells by weight, or a buffet at a price a guest")
DISH = Table("dish", "A cook or a pantry item that is put out")
BUFFET.link("kitchen", KITCHEN)
DISH.link("buffet", BUFFET)
DISH.link("batch", BATCH)
DISH.link("item", PANTRY)

DISH.given("stated_weight", "kg", "Weight of a cook put out: a guest, or in the mix that is sold")
DISH.given("quantity", "unit", "The same of a pantry item, in the unit that it is priced by")
DISH.given("kg_per_unit", "factor", "Weight of such a unit of the item [kg]")
DISH.lookups("batch", BATCH, "cost_per_servable_kg", "servable_weight", "batch_labour")
DISH.lookups("batch", BATCH, "batch_process")
DISH.lookups("item", PANTRY, "food_per_unit", "hours_per_unit", "known_process_per_unit")
BUFFET.lookups(
    "kitchen", KITCHEN, "loaded_wage", "tax_rate", "tax_included", "food_cost_target",
    "coins_in_unit", "seasoning_share",
)  # fmt: skip
DISH.lookup("loaded_wage", "buffet", BUFFET)


@formula(DISH, unit="kg", source="conservation of mass")
def weight(stated_weight: Column, quantity: Column, kg_per_unit: Column) -> Column:
    """Weight put out: as written, of a pantry item that of its amount."""
    return or_else(stated_weight, quantity * kg_per_unit)


@formula(DISH, unit="money", source=PUT_OUT)
def dish_food(
    weight: Column, cost_per_servable_kg: Column, quantity: Column, food_per_unit: Column
) -> Column:
    """Food of the dish as it is put out."""
    return or_else(weight * cost_per_servable_kg, quantity * food_per_unit)


@formula(DISH, unit="money", source=PROCESS)
def dish_labour(
    weight: Column,
    servable_weight: Column,
    batch_labour: Column,
    quantity: Column,
    hours_per_unit: Column,
    loaded_wage: Column,
) -> Column:
    """Labour in the dish, its share of the batch's; what is not known is left out."""
    cooked = batch_labour / servable_weight * weight
    return or_else(or_else(cooked, quantity * hours_per_unit * loaded_wage), 0.0)


@formula(DISH, unit="money", source=PROCESS)
def dish_process(
    weight: Column,
    servable_weight: Column,
    batch_process: Column,
    quantity: Column,
    known_process_per_unit: Column,
) -> Column:
    """Energy and supplies of the dish, as far as they are known."""
    cooked = batch_process / servable_weight * weight
    return or_else(or_else(cooked, quantity * known_process_per_unit), 0.0)


BUFFET.given("price_per_kg", "money/kg", "Price of a kilogram, where it is sold by weight")
BUFFET.given("guest_price", "money", "What a guest pays, where a guest does")
BUFFET.given("left_share", "share", "Share of what is put out that is left", 0.0, "not stated")
BUFFET.given("left_worth", "money/kg", "Worth of a kilogram that is left", 0.0, "nothing")
BUFFET.given("sold_a_week", "kg", "Weight a week that is expected to be sold")
BUFFET.given("guests", "count/week", "Guests a week that the kitchen expects")
BUFFET.total("put_out", DISH, "weight", "buffet", "Weight that is put out")
BUFFET.total("dishes_food", DISH, "dish_food", "buffet", "Food that is put out")
BUFFET.total("dishes_labour", DISH, "dish_labour", "buffet", "Labour in what is put out")
BUFFET.total(
    "dishes_process", DISH, "dish_process", "buffet", "Energy and supplies of what is put out"
)


@formula(BUFFET, unit="kg", source="conservation of mass")
def taken_weight(put_out: Column, left_share: Column) -> Column:
    """Weight that is sold or eaten of what is put out."""
    return put_out * (1 - left_share)


@formula(BUFFET, unit="money", source=PUT_OUT)
def left_credit(put_out: Column, left_share: Column, left_worth: Column) -> Column:
    """What is left over is worth."""
    return put_out * left_share * left_worth


@formula(BUFFET, unit="money", source=PUT_OUT)
def food_cost(dishes_food: Column, seasoning_share: Column, left_credit: Column) -> Column:
    """Food that is put out, with seasoning, less the worth of what is left; of a buffet a guest."""
    return dishes_food * (1 + seasoning_share) - left_credit


@formula(BUFFET, unit="money", source=PUT_OUT, as_sure_as="food_cost")
def left_cost(food_cost: Column, left_credit: Column, left_share: Column) -> Column:
    """Food that nobody takes, less what it is worth."""
    return (food_cost + left_credit) * left_share - left_credit


@formula(BUFFET, unit="money/kg", source=PUT_OUT)
def cost_per_kg_sold(food_cost: Column, taken_weight: Column) -> Column:
    """Food cost of a kilogram that is sold or eaten, what is left over included."""
    return food_cost / taken_weight


@formula(BUFFET, unit="money/kg", source=PUT_OUT, as_sure_as="cost_per_kg_sold")
def full_cost_per_kg_sold(
    food_cost: Column, dishes_labour: Column, dishes_process: Column, taken_weight: Column
) -> Column:
    """Food, labour, energy and supplies of a kilogram that is sold, as far as they are known."""
    return (food_cost + dishes_labour + dishes_process) / taken_weight


BUFFET.borrow(SET_MENU, "price_factor")


@formula(BUFFET, unit="money/kg", source=PRICING)
def price_per_kg_ex_tax(price_per_kg: Column, tax_rate: Column, tax_included: Column) -> Column:
    """Price of a kilogram without sales tax."""
    return either(tax_included > 0, price_per_kg / (1 + tax_rate), price_per_kg)


@formula(BUFFET, unit="money", source=PRICING)
def price_ex_tax(
    guest_price: Column, tax_rate: Column, tax_included: Column,
    price_per_kg_ex_tax: Column, taken_weight: Column,
) -> Column:  # fmt: skip
    """What is paid without tax: by a guest, or for the weight sold of what is put out."""
    guest = either(tax_included > 0, guest_price / (1 + tax_rate), guest_price)
    return or_else(guest, price_per_kg_ex_tax * taken_weight)


@formula(BUFFET, unit="money/kg", source=PRICING)
def margin_per_kg(price_per_kg_ex_tax: Column, cost_per_kg_sold: Column) -> Column:
    """Contribution margin of a kilogram sold: its price without tax less its food cost."""
    return price_per_kg_ex_tax - cost_per_kg_sold


BUFFET.borrow(SET_MENU, "contribution_margin", "food_cost_share")


@formula(BUFFET, unit="money", source=PRICING)
def full_cost(food_cost: Column, dishes_labour: Column, dishes_process: Column) -> Column:
    """Food, labour, energy and supplies of what is put out, as far as they are known."""
    return food_cost + dishes_labour + dishes_process


@formula(BUFFET, unit="money/kg", source=PRICING)
def price_per_kg_for_food_cost(
    cost_per_kg_sold: Column, food_cost_target: Column, price_factor: Column
) -> Column:
    """Price of a kilogram at which food cost is the share aimed at."""
    return cost_per_kg_sold / food_cost_target * price_factor


@formula(BUFFET, unit="money", source=PRICING)
def price_for_food_cost(
    food_cost: Column, food_cost_target: Column, price_factor: Column
) -> Column:
    """What a guest pays where food cost is the share aimed at."""
    return food_cost / food_cost_target * price_factor


@formula(BUFFET, unit="money/week", source=PRICING, as_sure_as="contribution_margin")
def week_margin(
    guests: Column, contribution_margin: Column, sold_a_week: Column, margin_per_kg: Column
) -> Column:
    """Contribution margin of a week: of its guests, or of the weight sold."""
    return or_else(guests * contribution_margin, sold_a_week * margin_per_kg)


BUFFET_INTERVALS: Final = (
    "food_cost", "cost_per_kg_sold", "contribution_margin", "food_cost_share", "margin_per_kg",
    "price_for_food_cost", "price_per_kg_for_food_cost", "price_ex_tax",
)  # fmt: skip
with_intervals(BUFFET, BUFFET_INTERVALS)
