"""A swap that was decided on: what was promised on that day beside what was sold since."""

from __future__ import annotations

from builder.engine.arith import Column, or_else
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


@formula(SWAP, unit="money/month", source=DIFFERENCE, as_sure_as="margin_change_a_year")
def stop_a_month(
    margin_change: Column,
    sold_a_week_since: Column,
    weeks_open: Column,
    margin_change_a_month: Column,
) -> Column:
    """What going back to the benchmark brings a month, where the challenger earns less.

    At what the challenger sold since it was decided; where that is not counted, at the count that
    the swap concerns.
    """
    since = margin_change * sold_a_week_since * weeks_open / 12
    return 0 - or_else(since, margin_change_a_month)
