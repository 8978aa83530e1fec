"""A swap that was decided on: what was promised on that day beside what was sold since."""

from __future__ import annotations

from builder.engine.arith import Column
from builder.engine.tables import formula
from builder.money.swaps import DIFFERENCE, SWAP

SWAP.given("decided_margin_change", "money", "Margin change a plate when it was decided")
SWAP.given("decided_food_saving", "money", "Food cost saved a plate when it was decided")
SWAP.given("decided_forecast", "count/week", "Plates a week expected when it was decided")
SWAP.given("sold_since", "count", "Plates sold since, in whole months or counted periods")
SWAP.given("weeks_since", "week", "Weeks of the months or periods in which these were sold")

COMPARED = "planned against actual: common practice, no published source"


@formula(SWAP, unit="count/week", source=COMPARED)
def sold_a_week_since(sold_since: Column, weeks_since: Column) -> Column:
    """Plates sold a week since it was decided."""
    return sold_since / weeks_since


@formula(SWAP, unit="money", source=COMPARED)
def promised_since(
    decided_margin_change: Column, decided_forecast: Column, weeks_since: Column
) -> Column:
    """Margin change that the decision promised for the weeks that were counted since."""
    return decided_margin_change * decided_forecast * weeks_since


@formula(SWAP, unit="money", source=DIFFERENCE, as_sure_as="margin_change")
def earned_since(margin_change: Column, sold_since: Column) -> Column:
    """Margin change of the plates sold since, each at today's costs and menu prices."""
    return margin_change * sold_since
