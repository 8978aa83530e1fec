"""The kitchen's own figures, and what a batch costs to cook beside its meat."""

from __future__ import annotations

from builder.engine.arith import Column, either, or_else
from builder.engine.tables import Table, formula
from builder.yields.chain import BATCH

PROCESS = "common practice, no published source"

KITCHEN = Table("kitchen", "The kitchen's wage, tariffs, tax and targets")
EQUIPMENT = Table("equipment", "A bath, an oven or another piece of equipment")
CONSUMABLE = Table("consumable", "Bags, gas or another thing that a batch uses up")

KITCHEN.given("loaded_wage", "money/h", "What an hour of work costs with all dues")
KITCHEN.given("electricity_price", "money/kWh", "What a kilowatt-hour of electricity costs")
KITCHEN.given("gas_price", "money/kWh", "What a kilowatt-hour of gas costs")
KITCHEN.given("tax_rate", "share stated", "Sales tax that menu prices carry", 0.0, "not stated")
KITCHEN.given("tax_included", "flag", "1 where menu prices include the tax", 1.0, "the usual way")
KITCHEN.given("food_cost_target", "share", "Food cost as a share of the price that is aimed at")
KITCHEN.given("margin_target", "money", "Contribution margin a plate that is aimed at")
KITCHEN.given("coins_in_unit", "count", "Smallest coins in one of the currency", 100.0, "100 cents")
KITCHEN.given("weeks_open", "count", "Weeks a year that the kitchen serves", 52.0, "every week")
KITCHEN.given(
    "seasoning_share",
    "share",
    "Allowance for salt, oil and the like as a share of the other food",
    0.0,
    "not stated",
)
KITCHEN.given(
    "count_whole", "flag", "1 where plates are costed by whole portions", 1.0, "portions come whole"
)

FOR_PRICES = (
    "loaded_wage", "tax_rate", "tax_included", "food_cost_target", "margin_target",
    "coins_in_unit",
)  # fmt: skip
"""What a plate or a set menu asks of its kitchen to be priced."""

EQUIPMENT.given("purchase_price", "money", "What the equipment cost to buy")
EQUIPMENT.given("service_life", "h", "Hours of use that it is expected to last")
EQUIPMENT.given("stated_charge", "money/h", "Charge for an hour of use, as the kitchen states it")
EQUIPMENT.given("standby_power", "kW", "Mean draw while it holds its temperature")


@formula(EQUIPMENT, unit="money/h", source=PROCESS)
def charge_per_hour(stated_charge: Column, purchase_price: Column, service_life: Column) -> Column:
    """What an hour of the equipment costs: as stated, else its price over its hours of life."""
    return or_else(stated_charge, purchase_price / service_life)


BATCH.link("kitchen", KITCHEN)
BATCH.link("equipment", EQUIPMENT)
CONSUMABLE.link("batch", BATCH)
CONSUMABLE.given("consumable_price", "money", "What this consumable costs for one batch")

BATCH.given("cook_hours", "h", "Hours that the cook takes")
BATCH.given("hands_on", "h", "Active work for the whole batch")
BATCH.given("measured_energy", "kWh", "Energy for the whole batch, read from a meter or stated")
BATCH.given("modelled_energy", "kWh", "Energy for the whole batch, estimated from the physics")
BATCH.given("modelled_energy_low", "kWh", "Low end of the estimate of a batch's energy")
BATCH.given("modelled_energy_high", "kWh", "High end of the estimate of a batch's energy")
BATCH.given("burns_gas", "flag", "1 where gas heats it, not electricity", 0.0, "electricity")
BATCH.lookups("kitchen", KITCHEN, "loaded_wage", "electricity_price", "gas_price")
BATCH.lookups("equipment", EQUIPMENT, "charge_per_hour", "standby_power")
BATCH.total("consumables", CONSUMABLE, "consumable_price", "batch", "Consumables of the batch")


@formula(BATCH, unit="money/kWh", source=PROCESS)
def energy_price(burns_gas: Column, gas_price: Column, electricity_price: Column) -> Column:
    """The kitchen's tariff of what heats the cook."""
    return either(burns_gas > 0, gas_price, electricity_price)


@formula(BATCH, unit="money", source=PROCESS)
def batch_labour(hands_on: Column, loaded_wage: Column) -> Column:
    """Active work on the batch at the loaded wage; not known without hours or a wage."""
    # No hours cost nothing, with a wage or without; hours that nobody states stay unknown.
    return either(hands_on > 0, hands_on * loaded_wage, hands_on)


@formula(BATCH, unit="kWh", source=PROCESS)
def batch_energy(
    measured_energy: Column, modelled_energy: Column, standby_power: Column, cook_hours: Column
) -> Column:
    """Energy of the batch: measured, else modelled, else standby draw times hours.

    Not known without any of them.
    """
    return or_else(measured_energy, or_else(modelled_energy, standby_power * cook_hours))


@formula(BATCH, unit="kWh", source=PROCESS)
def batch_energy_low(
    measured_energy: Column, modelled_energy_low: Column, batch_energy: Column
) -> Column:
    """Low end of the batch's energy: a measured one has no spread here."""
    return or_else(measured_energy, or_else(modelled_energy_low, batch_energy))


@formula(BATCH, unit="kWh", source=PROCESS)
def batch_energy_high(
    measured_energy: Column, modelled_energy_high: Column, batch_energy: Column
) -> Column:
    """High end of the batch's energy: a measured one has no spread here."""
    return or_else(measured_energy, or_else(modelled_energy_high, batch_energy))


@formula(BATCH, unit="money", source=PROCESS)
def energy_cost_low(batch_energy_low: Column, energy_price: Column) -> Column:
    """Low end of the cost of the batch's energy."""
    return batch_energy_low * energy_price


@formula(BATCH, unit="money", source=PROCESS)
def energy_cost_high(batch_energy_high: Column, energy_price: Column) -> Column:
    """High end of the cost of the batch's energy."""
    return batch_energy_high * energy_price


@formula(BATCH, unit="money", source=PROCESS)
def batch_energy_cost(batch_energy: Column, energy_price: Column) -> Column:
    """Energy of the batch at its tariff."""
    return batch_energy * energy_price


@formula(BATCH, unit="money", source=PROCESS)
def equipment_charge(charge_per_hour: Column, cook_hours: Column) -> Column:
    """What the batch owes for its hours on the equipment; not known without hours and charge."""
    return charge_per_hour * cook_hours


@formula(BATCH, unit="money", source=PROCESS)
def batch_process(
    batch_energy_cost: Column, consumables: Column, equipment_charge: Column
) -> Column:
    """Energy, supplies and equipment of the batch, without its labour.

    What is not known of them is left out.
    """
    return or_else(batch_energy_cost, 0.0) + consumables + or_else(equipment_charge, 0.0)
