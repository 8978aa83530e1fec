"""What acting on a plate or a swap is worth a month, where as many are sold as now."""

from __future__ import annotations

import numpy as np

from builder.display.chances import rounded_up
from builder.engine.arith import Column
from builder.engine.methods import method
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


@method(unit="money/month", source=PRICING, title="what raising a menu price brings")
def raise_a_month(
    asked: Column,
    menu_price: Column,
    price_factor: Column,
    monthly_count: Column,
    width: Column,
    coins_in_unit: Column,
) -> Column:
    """What the price that the target asks for brings more a month, if as many are sold.

    The price is the one that pages print: no finer than its 90 % interval is wide, and never
    below what is asked for.

    Formula: (price as printed - menu price) / price factor x plates a month.

    Parameters: columns of money, factors and counts; the width of the interval of the price,
    not known without one; coins in a unit of money, a power of ten. Not known where the menu
    price reaches the price that is asked for.
    """
    coins = np.round(np.log10(coins_in_unit)).astype(int)
    printed = [
        [rounded_up(price, wide, places)]
        for price, wide, places in zip(asked[:, 0], width[:, 0], coins[:, 0], strict=True)
    ]
    rise = np.reshape(printed, asked.shape) - menu_price
    return np.where(asked > menu_price, rise / price_factor * monthly_count, np.nan)


PLATE.applied(
    "reprice_a_month",
    "money/month",
    "What the price that the target asks for, as it is printed, brings more a month",
    raise_a_month,
    "price_for_food_cost",
    "menu_price",
    "price_factor",
    "monthly_count",
)


@formula(PLATE, unit="money/month", source=PRICING, as_sure_as="contribution_margin")
def margin_a_month(contribution_margin: Column, monthly_count: Column) -> Column:
    """Contribution margin of the plates of a month."""
    return contribution_margin * monthly_count


@formula(SWAP, unit="money/month", source=DIFFERENCE, as_sure_as="margin_change_a_year")
def margin_change_a_month(margin_change_a_year: Column) -> Column:
    """Change of the margin after full cost a month: a twelfth of the year's."""
    return margin_change_a_year / 12
