"""Pantry items and sub-recipes: what a unit of each costs, however deep they are nested.

An item is bought (a price and a usable yield) or made (lines of other items and
what they make). Food, hours of work and process cost run through the nesting
side by side and are never added up before a plate shows them apart.
"""

from __future__ import annotations

from builder.engine.arith import Column, either, known, or_else
from builder.engine.tables import Table, formula
from builder.money.kitchen import KITCHEN, PROCESS

RECIPE_COSTING = (
    "BC Cook Articulation Committee, Basic Kitchen and Food Service Management, ch. 12 [read]"
)

PANTRY = Table("pantry", "A pantry item, bought or made")
INGREDIENT = Table("ingredient", "One ingredient of a sub-recipe")

PANTRY.link("kitchen", KITCHEN)
INGREDIENT.link("recipe", PANTRY)
INGREDIENT.link("item", PANTRY)

PANTRY.given("purchase_price", "money/unit", "Price of a unit as purchased")
PANTRY.given(
    "usable_yield", "share", "Share that is used after peeling and the like", 1.0, "all used"
)
PANTRY.given("stated_makes", "unit", "Amount that the sub-recipe makes, as measured")
PANTRY.given("recipe_yield", "share", "Weight made over weight of the ingredients")
PANTRY.given("recipe_hands_on", "h", "Active work for the whole sub-recipe")
PANTRY.given("recipe_energy", "kWh", "Energy for the whole sub-recipe")
PANTRY.given("burns_gas", "flag", "1 where gas heats it, not electricity", 0.0, "electricity")
PANTRY.lookups("kitchen", KITCHEN, "electricity_price", "gas_price")
INGREDIENT.given(
    "quantity", "unit", "Amount of the ingredient, in the unit that the item is priced by"
)
INGREDIENT.given("quantity_mass", "kg", "Weight of the ingredient, where it is known")

INGREDIENT.recursive(
    "food_per_unit", "item", PANTRY, "food_per_unit", "money/unit", "Food cost of a unit used"
)
INGREDIENT.recursive(
    "hours_per_unit", "item", PANTRY, "hours_per_unit", "h/unit", "Hours of work in a unit used"
)
INGREDIENT.recursive(
    "process_per_unit",
    "item",
    PANTRY,
    "process_per_unit",
    "money/unit",
    "Energy and supplies of a unit used",
)
INGREDIENT.recursive(
    "known_process_per_unit",
    "item",
    PANTRY,
    "known_process_per_unit",
    "money/unit",
    "Energy and supplies of a unit used, as far as they are known",
)


@formula(INGREDIENT, unit="money", source=RECIPE_COSTING, as_sure_as="food_per_unit")
def food(quantity: Column, food_per_unit: Column) -> Column:
    """Food cost of one line: amount times what a unit costs."""
    return quantity * food_per_unit


@formula(INGREDIENT, unit="h", source=PROCESS)
def hours(quantity: Column, hours_per_unit: Column) -> Column:
    """Hours of earlier work that come with one line, as far as they are stated."""
    return quantity * or_else(hours_per_unit, 0.0)


@formula(INGREDIENT, unit="money", source=PROCESS, as_sure_as="process_per_unit")
def process(quantity: Column, process_per_unit: Column) -> Column:
    """Energy and supplies that come with one line."""
    return quantity * process_per_unit


@formula(INGREDIENT, unit="money", source=PROCESS, as_sure_as="process_per_unit")
def known_process(quantity: Column, known_process_per_unit: Column) -> Column:
    """Energy and supplies that come with one line, as far as they are known."""
    return quantity * known_process_per_unit


PANTRY.total("ingredients_mass", INGREDIENT, "quantity_mass", "recipe", "Weight of all ingredients")
PANTRY.total("ingredients_food", INGREDIENT, "food", "recipe", "Food cost of all ingredients")
PANTRY.total(
    "ingredients_hours", INGREDIENT, "hours", "recipe", "Hours that come with the ingredients"
)
PANTRY.total(
    "ingredients_process", INGREDIENT, "process", "recipe", "Energy and supplies of the ingredients"
)
PANTRY.total(
    "ingredients_known_process",
    INGREDIENT,
    "known_process",
    "recipe",
    "Energy and supplies of the ingredients, as far as they are known",
)


@formula(PANTRY, unit="unit", source=RECIPE_COSTING)
def makes(stated_makes: Column, ingredients_mass: Column, recipe_yield: Column) -> Column:
    """Amount that a sub-recipe makes: as measured, else the ingredients' weight times its yield."""
    return or_else(stated_makes, ingredients_mass * recipe_yield)


@formula(PANTRY, unit="money/unit", source=RECIPE_COSTING)
def food_per_unit(
    purchase_price: Column, usable_yield: Column, ingredients_food: Column, makes: Column
) -> Column:
    """Food cost of a usable unit.

    Bought: price over usable yield. Made: the ingredients over what they make.
    """
    return or_else(purchase_price / usable_yield, ingredients_food / makes)


@formula(PANTRY, unit="h/unit", source=PROCESS)
def hours_per_unit(recipe_hands_on: Column, ingredients_hours: Column, makes: Column) -> Column:
    """Hours of work in a unit made, the ingredients' hours included; none in what is bought.

    What nobody states of them is left out; not known where nobody states any.
    """
    stated = known(recipe_hands_on) | (ingredients_hours > 0)
    work = (or_else(recipe_hands_on, 0.0) + ingredients_hours) / makes
    return either(known(makes), either(stated, work, float("nan")), 0.0)


@formula(PANTRY, unit="money/kWh", source=PROCESS)
def recipe_energy_price(burns_gas: Column, gas_price: Column, electricity_price: Column) -> Column:
    """The kitchen's tariff of what heats the sub-recipe."""
    return either(burns_gas > 0, gas_price, electricity_price)


@formula(PANTRY, unit="money/unit", source=PROCESS)
def process_per_unit(
    recipe_energy: Column, recipe_energy_price: Column, ingredients_process: Column, makes: Column
) -> Column:
    """Energy and supplies of a unit made, its ingredients' included; none in what is bought.

    Not known where any of that energy is not known.
    """
    made = (recipe_energy * recipe_energy_price + ingredients_process) / makes
    return either(known(makes), made, 0.0)


@formula(PANTRY, unit="money/unit", source=PROCESS)
def known_process_per_unit(
    recipe_energy: Column,
    recipe_energy_price: Column,
    ingredients_known_process: Column,
    makes: Column,
) -> Column:
    """Energy and supplies of a unit made, without energy not known; none in what is bought."""
    energy = or_else(recipe_energy * recipe_energy_price, 0.0)
    return or_else((energy + ingredients_known_process) / makes, 0.0)
