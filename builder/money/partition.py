"""A plate's full cost, parted by what the yield of its main cook moves."""

from __future__ import annotations

from builder.engine.arith import Column, or_else
from builder.engine.tables import formula
from builder.money import factors as _factors  # noqa: F401 - declares what multiplies food
from builder.money.plates import PLATE
from builder.yields.chain import BATCH

PARTITION = "the full plate cost, parted by what the cook's yield moves [our derivation]"

PLATE.lookups(
    "batch", BATCH, "ap_cost", "credits_to_cook", "cook_yield", "batch_labour", "batch_process"
)


@formula(PLATE, unit="money", source=PARTITION)
def cook_batch_cost(
    ap_cost: Column,
    credits_to_cook: Column,
    food_factor: Column,
    batch_labour: Column,
    batch_process: Column,
) -> Column:
    """Cost of a batch that has to be paid however much the cook leaves."""
    work = or_else(batch_labour, 0.0) + batch_process
    return food_factor * (ap_cost - credits_to_cook) + work


@formula(PLATE, unit="money", source=PARTITION)
def cook_dependent_cost(cook_batch_cost: Column, portions_by_weight: Column) -> Column:
    """Part of a portion's cost by weight that grows as one over the cook's yield."""
    return cook_batch_cost / portions_by_weight


@formula(PLATE, unit="money", source=PARTITION)
def later_credit(
    credits: Column, credits_to_cook: Column, food_factor: Column, portions_by_weight: Column
) -> Column:
    """Credit a portion for by-products after the cook; it does not move with the cook's yield."""
    return food_factor * (credits - credits_to_cook) / portions_by_weight


@formula(PLATE, unit="money", source=PARTITION)
def cost_beside_cook(
    accompaniments_food: Column,
    food_factor: Column,
    plating: Column,
    accompaniments_hours: Column,
    loaded_wage: Column,
    accompaniments_known_process: Column,
    further_food: Column,
    further_hours: Column,
    further_process: Column,
    seasoning_share: Column,
    garnish_stated: Column,
    cover_cost: Column,
    cover_hours: Column,
    cover_process: Column,
) -> Column:
    """Everything on the plate that the main cook has no part in."""
    hours = or_else(plating, 0.0) + accompaniments_hours + further_hours + cover_hours
    work = hours * or_else(loaded_wage, 0.0)
    unlisted = (1 + seasoning_share) * garnish_stated + cover_cost
    food = food_factor * (accompaniments_food + further_food) + unlisted
    return food + work + accompaniments_known_process + further_process + cover_process


@formula(PLATE, unit="money", source=PARTITION)
def full_cost_by_weight(
    cook_dependent_cost: Column, later_credit: Column, cost_beside_cook: Column
) -> Column:
    """Full plate cost by weight, as if portions needed not be whole."""
    return or_else(cook_dependent_cost - later_credit, 0.0) + cost_beside_cook


@formula(PLATE, unit="money", source=PARTITION)
def spare_portion_worth(remainder_worth: Column, portion: Column, food_factor: Column) -> Column:
    """What a portion's weight takes off the cost of a batch where it is left over."""
    return food_factor * remainder_worth * portion
