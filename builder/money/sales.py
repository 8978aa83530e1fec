"""What the till took: the price that guests paid beside the price on the menu."""

from __future__ import annotations

from builder.engine.arith import Column
from builder.engine.tables import Table, formula
from builder.money.plates import PLATE

TILL = "our definition: money taken over plates sold, as on any cash report"

TAKING = Table("taking", "What the till took for a plate in a month")
TAKING.link("plate", PLATE)
TAKING.given("till_count", "count", "Plates that the till counted in the month")
TAKING.given("till_priced", "count", "Plates that the till counted and wrote a price for")
TAKING.given("till_taken", "money", "Money that the till took for the plates with a price")
TAKING.lookups("plate", PLATE, "menu_price")


@formula(TAKING, unit="money", source=TILL)
def price_taken(till_taken: Column, till_priced: Column) -> Column:
    """Mean price taken for a plate; not known where no row has a price."""
    return till_taken / till_priced


@formula(TAKING, unit="money", source=TILL)
def price_gap(price_taken: Column, menu_price: Column) -> Column:
    """Mean price taken less the price on the menu today."""
    return price_taken - menu_price


@formula(TAKING, unit="money", source=TILL)
def taken_gap(price_gap: Column, till_priced: Column) -> Column:
    """What the till took less what the plates would have brought at today's menu price."""
    return price_gap * till_priced
