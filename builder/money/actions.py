"""What acting on a plate or a swap is worth a month, where as many are sold as now."""

from __future__ import annotations

from builder.engine.arith import Column, either
from builder.engine.tables import formula
from builder.money import menu as _menu  # noqa: F401 - declares the weekly counts
from builder.money.kitchen import KITCHEN
from builder.money.plates import PLATE, PRICING
from builder.money.swaps import DIFFERENCE, SWAP

MONTHS = "a twelfth of the weeks that the kitchen is open a year [our rule]"

PLATE.lookup("weeks_open", "kitchen", KITCHEN)


@formula(PLATE, unit="count", source=MONTHS)
def monthly_count(weekly_count: Column, weeks_open: Column) -> Column:
    """Plates a month at the weekly count."""
    return weekly_count * weeks_open / 12


@formula(PLATE, unit="money/month", source=PRICING)
def reprice_a_month(
    price_for_food_cost: Column, menu_price: Column, price_factor: Column, monthly_count: Column
) -> Column:
    """What the price that the target asks for brings more a month, if as many are sold.

    Not known where the menu price reaches it.
    """
    rise = price_for_food_cost - menu_price
    return either(rise > 0, rise / price_factor * monthly_count, float("nan"))


@formula(PLATE, unit="money/month", source=PRICING)
def margin_a_month(contribution_margin: Column, monthly_count: Column) -> Column:
    """Contribution margin of the plates of a month."""
    return contribution_margin * monthly_count


@formula(SWAP, unit="money/month", source=DIFFERENCE)
def margin_change_a_month(margin_change_a_year: Column) -> Column:
    """Change of the margin after full cost a month: a twelfth of the year's."""
    return margin_change_a_year / 12
