"""What a plate has that it does not list: garnish, seasoning, and what comes with the cover."""

from __future__ import annotations

from builder.engine.arith import Column, either, or_else
from builder.engine.tables import formula
from builder.money.covers import ALLOWANCES, COVER_COST
from builder.money.kitchen import KITCHEN, PROCESS
from builder.money.plates import PLATE
from builder.money.portions import PORTION

OWN = "our rule: what a plate says wins over what the kitchen says"

PLATE.given("plate_seasoning", "share", "Seasoning allowance of the plate's own")
PLATE.given("plate_garnish_share", "share", "Garnish of the plate's own, as a share")
PLATE.given("plate_garnish", "money", "Garnish of the plate's own, as money")
PLATE.given("plate_cover", "money", "Cover cost of the plate's own; 0 where it bears none")
PLATE.given("bears_cover", "flag", "1 where it bears the kitchen's cover cost", 0.0, "it does not")
PLATE.lookup("kitchen_seasoning_share", "kitchen", KITCHEN, "seasoning_share")
PLATE.lookups("kitchen", KITCHEN, "kitchen_garnish_share", "kitchen_garnish")
for _name in ("cover_cost", "cover_hours", "cover_process"):
    PLATE.lookup(f"kitchen_{_name}", "kitchen", KITCHEN, _name)


@formula(PLATE, unit="share", source=OWN)
def seasoning_share(plate_seasoning: Column, kitchen_seasoning_share: Column) -> Column:
    """Seasoning allowance as a share of the other food: the plate's own, else the kitchen's."""
    return or_else(plate_seasoning, kitchen_seasoning_share)


@formula(PLATE, unit="share", source=OWN)
def garnish_share(plate_garnish_share: Column, kitchen_garnish_share: Column) -> Column:
    """Garnish as a share of the listed food: the plate's own, else the kitchen's."""
    return or_else(plate_garnish_share, kitchen_garnish_share)


@formula(PLATE, unit="money", source=OWN)
def garnish_stated(plate_garnish: Column, kitchen_garnish: Column) -> Column:
    """Garnish written as money: the plate's own, else the kitchen's."""
    return or_else(plate_garnish, kitchen_garnish)


@formula(PLATE, unit="factor", source=ALLOWANCES)
def food_factor(garnish_share: Column, seasoning_share: Column) -> Column:
    """What one more of the listed food costs, its share of garnish and seasoning included."""
    return (1 + garnish_share) * (1 + seasoning_share)


PORTION.lookup("seasoning_share", "plate", PLATE)


@formula(PLATE, unit="money", source=ALLOWANCES)
def garnish_cost(
    garnish_share: Column,
    garnish_stated: Column,
    protein_cost: Column,
    accompaniments_food: Column,
    further_food: Column,
) -> Column:
    """Trimmings and sides that the plate does not list, as money or by their share."""
    food = protein_cost + further_food + accompaniments_food
    return garnish_stated + either(garnish_share > 0, garnish_share * food, 0.0)


@formula(PLATE, unit="money", source=COVER_COST)
def cover_cost(plate_cover: Column, bears_cover: Column, kitchen_cover_cost: Column) -> Column:
    """What comes with every cover: the plate's own, the kitchen's where it bears it, or nothing."""
    return or_else(plate_cover, either(bears_cover > 0, kitchen_cover_cost, 0.0))


@formula(PLATE, unit="money", source=COVER_COST)
def own_cover(plate_cover: Column) -> Column:
    """Cover cost that the plate writes for itself; nothing where it writes none."""
    return or_else(plate_cover, 0.0)


@formula(PLATE, unit="h", source=PROCESS)
def cover_hours(bears_cover: Column, kitchen_cover_hours: Column) -> Column:
    """Work in what comes with the cover."""
    return either(bears_cover > 0, kitchen_cover_hours, 0.0)


@formula(PLATE, unit="money", source=PROCESS)
def cover_process(bears_cover: Column, kitchen_cover_process: Column) -> Column:
    """Energy and supplies in the cover, as far as they are known."""
    return either(bears_cover > 0, kitchen_cover_process, 0.0)
