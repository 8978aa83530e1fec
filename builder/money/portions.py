"""Portions beyond a plate's main one: their share of a batch goes into the plate's cost."""

from __future__ import annotations

from typing import Final

from builder.engine.arith import Column, or_else
from builder.engine.tables import Table, formula
from builder.money.kitchen import KITCHEN, PROCESS
from builder.yields.chain import BATCH

PORTION = Table("portion", "A further portion of a plate, beyond its main one")

FROM_BATCH: Final = (
    "ap_price",
    "ap_weight",
    "overall_yield",
    "servable_weight",
    "pieces",
    "credits",
    "net_cost",
    "cost_per_servable_kg",
    "cost_factor_per_kg",
    "remainder_worth",
    "hands_on",
    "batch_energy",
    "batch_energy_cost",
    "energy_cost_low",
    "energy_cost_high",
    "consumables",
    "equipment_charge",
)
"""What a portion takes its share of, or is cut from."""

PORTION.link("batch", BATCH)
PORTION.link("kitchen", KITCHEN)
PORTION.given("stated_portion", "kg", "Weight of the cooked portion, where it is written")
PORTION.given("portion_pieces", "factor", "Servable pieces in a portion, where it is written so")
PORTION.lookups("kitchen", KITCHEN, "count_whole")
PORTION.lookups("batch", BATCH, *FROM_BATCH)


@formula(PORTION, unit="h", source=PROCESS)
def portion_hours(hands_on: Column, portions_charged: Column) -> Column:
    """The portion's share of the active work on its batch; nothing where none is stated."""
    return or_else(hands_on / portions_charged, 0.0)


@formula(PORTION, unit="money", source=PROCESS)
def portion_process(
    energy_per_plate: Column, consumables_per_plate: Column, equipment_per_plate: Column
) -> Column:
    """The portion's share of energy, consumables and equipment, as far as they are known."""
    return (
        or_else(energy_per_plate, 0.0) + consumables_per_plate + or_else(equipment_per_plate, 0.0)
    )
