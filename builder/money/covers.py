"""What every cover gets beside its plate: the kitchen's cost of a cover, as money or by items."""

from __future__ import annotations

from typing import Final

from builder.engine.arith import Column, or_else
from builder.engine.tables import Table, formula
from builder.money.kitchen import KITCHEN
from builder.money.pantry import INGREDIENT, PANTRY

COVER_COST: Final = (
    "Calculating hidden food costs, Restaurant Business: the Q factor, or cover cost, is added to "
    "the food cost of every main [read]"
)
ALLOWANCES: Final = (
    "a college's worksheet on the butcher test of a forequarter: (portion + garnish) x (1 + "
    "seasoning) is the true cost [read]"
)

COVER_ITEM = Table("cover_item", "A pantry item that every cover gets")
COVER_ITEM.link("kitchen", KITCHEN)
COVER_ITEM.link("item", PANTRY)
COVER_ITEM.given("quantity", "unit", "Amount a cover, in the unit that the item is priced by")
for _name in ("food_per_unit", "hours_per_unit", "process_per_unit", "known_process_per_unit"):
    COVER_ITEM.lookup(_name, "item", PANTRY)
COVER_ITEM.borrow(INGREDIENT, "food", "hours", "process", "known_process")

KITCHEN.given(
    "kitchen_garnish_share",
    "share",
    "Trimmings that no plate lists, as a share of the listed food",
    0.0,
    "not stated",
)
KITCHEN.given(
    "kitchen_garnish", "money", "Trimmings of a plate that it does not list", 0.0, "not stated"
)
KITCHEN.given("stated_cover_cost", "money", "What a cover costs, where it is written as money")
KITCHEN.total("cover_food", COVER_ITEM, "food", "kitchen", "Food that every cover gets")
KITCHEN.total("cover_hours", COVER_ITEM, "hours", "kitchen", "Work in what every cover gets")
KITCHEN.total(
    "cover_process",
    COVER_ITEM,
    "known_process",
    "kitchen",
    "Energy and supplies of what every cover gets, as far as they are known",
)


@formula(KITCHEN, unit="money", source=COVER_COST)
def cover_cost(stated_cover_cost: Column, cover_food: Column) -> Column:
    """Food cost of a cover beside its plate: as stated, else of its items."""
    return or_else(stated_cover_cost, cover_food)
