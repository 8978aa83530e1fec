"""What acting on a plate or a swap is worth a month, where as many are sold as now."""

from __future__ import annotations

import math
from collections.abc import Sequence

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


@formula(PLATE, unit="plates", source=MONTHS)
def monthly_count(weekly_count: Column, weeks_open: Column) -> Column:
    """Plates a month at the weekly count."""
    return weekly_count * weeks_open / 12


@method(
    unit="money",
    source="prices that end alike; common practice, no published source",
    title="the price to write on the menu",
)
def price_to_write(
    asked: Column,
    menu_price: Column,
    width: Column,
    coins_in_unit: Column,
    endings: Sequence[float] = (),
) -> Column:
    """The next price up with one of the kitchen's endings, or the one asked for as it is printed.

    A price that is asked for is printed no finer than its 90 % interval is wide, and never below
    what is asked for. Endings repeat with every unit of money, with every ten where one of them
    is a unit or more, with every hundred where one is ten or more, and so on: 0.50 and 0.95 give
    13.50, 13.95, 14.50; 4 and 9 give 34, 39, 44.

    Formula: the least of ending + n x period, n whole, that is no less than what is asked for.

    Parameters: columns of money; the width of the interval of the price asked for, not known
    without one; coins in a unit of money, a power of ten; endings of at least 0. Not known where
    the menu price reaches the price that is asked for, nor where no price would do, as for a plate
    of whose pieces none gives a whole portion.

    >>> import numpy as np
    >>> asked, now, wide, coins = (np.array([[x]]) for x in (13.62, 12.0, np.nan, 100.0))
    >>> float(price_to_write(asked, now, wide, coins)[0, 0])
    13.62
    >>> float(price_to_write(asked, now, wide, coins, (0.50, 0.95))[0, 0])
    13.95
    """
    places = np.round(np.log10(coins_in_unit)).astype(int)
    found = [
        [_to_write(price, wide, most, endings) if math.isfinite(price) else math.nan]
        for price, wide, most in zip(asked[:, 0], width[:, 0], places[:, 0], strict=True)
    ]
    return np.where(asked > menu_price, np.reshape(found, asked.shape), np.nan)


def _to_write(asked: float, width: float, places: int, endings: Sequence[float]) -> float:
    return _with_ending(asked, endings) if endings else rounded_up(asked, width, places)


def _with_ending(asked: float, endings: Sequence[float]) -> float:
    """The least price with an ending that is no less than what is asked for."""
    period = 1.0
    while period <= max(endings):
        period *= 10
    # A price that has an ending already is not moved on by a hair of rounding.
    whole = (math.ceil((asked - ending) / period - 1e-9) for ending in endings)
    return min(ending + n * period for ending, n in zip(endings, whole, strict=True))


@method(unit="money/month", source=PRICING, title="what raising a menu price brings")
def raise_a_month(
    to_write: Column, menu_price: Column, price_factor: Column, monthly_count: Column
) -> Column:
    """What the price to write on the menu brings more a month, if as many are sold.

    Formula: (price to write - menu price) / price factor x plates a month.

    Parameters: columns of money, factors and counts. Not known where there is no price to write.
    """
    return (to_write - menu_price) / price_factor * monthly_count


PLATE.applied(
    "price_to_write",
    "money",
    "Price to write on the menu: the one that the target asks for, as it is printed, or the next "
    "up with one of the kitchen's price endings",
    price_to_write,
    "price_for_food_cost",
    "menu_price",
)
PLATE.applied(
    "reprice_a_month",
    "money/month",
    "What the price to write on the menu brings more a month",
    raise_a_month,
    "price_to_write",
    "menu_price",
    "price_factor",
    "monthly_count",
)


@formula(PLATE, unit="money/month", source=PRICING, as_sure_as="contribution_margin")
def margin_a_month(contribution_margin: Column, monthly_count: Column) -> Column:
    """Contribution margin of the plates of a month."""
    return contribution_margin * monthly_count


@method(
    unit="share",
    source="break-even sales change; Nagle & Müller, The Strategy and Tactics of Pricing "
    "[from memory]",
    title="how many guests a new price may lose",
)
def lost_sales_of_raise(raise_a_month: Column, margin_a_month: Column) -> Column:
    """Share of today's sales that may be lost before a higher price earns less than today's.

    Sold n times, a plate earns n x (margin + rise) at the new price and earned N x margin at
    today's: both are alike where (N - n) / N = rise / (margin + rise).

    Formula: what the raise brings a month / (margin a month + what the raise brings a month).

    Parameters: columns of money a month at today's count. Not known without a raise, nor where
    today's margin is not above nothing: any sale that such a plate loses is a gain.

    >>> import numpy as np
    >>> lost_sales_of_raise(np.array([[0.50]]), np.array([[4.50]]))
    array([[0.1]])
    """
    earning = np.where(margin_a_month > 0, margin_a_month, np.nan)
    return raise_a_month / (earning + raise_a_month)


PLATE.applied(
    "reprice_lost_sales",
    "share",
    "Share of today's sales that may be lost before the price to write earns less than today's",
    lost_sales_of_raise,
    "reprice_a_month",
    "margin_a_month",
)


@formula(SWAP, unit="money/month", source=DIFFERENCE, as_sure_as="margin_change_a_year")
def margin_change_a_month(margin_change_a_year: Column) -> Column:
    """Change of the margin after full cost a month: a twelfth of the year's."""
    return margin_change_a_year / 12
