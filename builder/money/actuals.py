"""Actual against theoretical food cost of a period that was counted, and what parts them.

The split, in this order: portion at standard yield and price, yield at the period's portions,
what was thrown away at the period's portions and yields, what can't be explained at standard
price, and last the price, at the weight that was used. Each step starts where the one before
ended, so the parts add up to the difference.
"""

from __future__ import annotations

from builder.engine.arith import Column, either, or_else
from builder.engine.tables import formula
from builder.money import further_sales as _further_sales  # noqa: F401 - declares what all portions took
from builder.money.counted import COUNT, MIXED, OUTPUT, SALE, STOCK, USAGE, VARIANCE, WASTE
from builder.money.guest_sales import MENU_SALE

USAGE.given("stated_used", "kg", "Weight as purchased that was used, as written")
USAGE.given("opening", "kg", "Weight in stock when the period began")
USAGE.given("bought", "kg", "Weight delivered in the period", 0.0, "none is written")
USAGE.given("closing", "kg", "Weight in stock when the period ended")
USAGE.given("paid", "money", "What the delivery cost in all")
USAGE.given("listed_price", "money/kg", "Price that held when the period ended")
USAGE.total("cooked_thrown_cost", OUTPUT, "thrown_cost", "usage", "Cost of cooked food thrown")
USAGE.total("ap_thrown", OUTPUT, "ap_thrown", "usage", "Weight as purchased thrown away cooked")
USAGE.total("credit_thrown", OUTPUT, "credit_thrown", "usage", "By-products of what was thrown")
USAGE.total("ap_kept", OUTPUT, "ap_kept", "usage", "Weight as purchased kept cooked")
USAGE.total("raw_thrown", WASTE, "thrown_weight", "usage", "Weight thrown away raw")


@formula(USAGE, unit="kg", source=STOCK)
def counted_use(stated_used: Column, opening: Column, bought: Column, closing: Column) -> Column:
    """Weight used as counted: as written, else opening and bought less closing."""
    return or_else(stated_used, opening + bought - closing)


@formula(USAGE, unit="kg", source=VARIANCE)
def explained_use(
    ap_taken: Column, ap_thrown: Column, ap_kept: Column, raw_thrown: Column
) -> Column:
    """Weight that the plates sold, what was thrown and what is kept account for."""
    return ap_taken + ap_thrown + ap_kept + raw_thrown


@formula(USAGE, unit="kg", source=STOCK)
def used(counted_use: Column, explained_use: Column) -> Column:
    """Weight as purchased that was used; without a count, what is accounted for."""
    return or_else(counted_use, explained_use)


@formula(USAGE, unit="money/kg", source=VARIANCE)
def counted_price(paid: Column, bought: Column, listed_price: Column, ap_price: Column) -> Column:
    """Price of the period: paid over bought, else as listed by its end, else as costed."""
    return or_else(paid / bought, or_else(listed_price, ap_price))


@formula(USAGE, unit="money", source=VARIANCE)
def price_effect(used: Column, counted_price: Column, ap_price: Column) -> Column:
    """Weight used times what a kilogram cost more than is costed: the price variance."""
    return used * (counted_price - ap_price)


@formula(USAGE, unit="money", source=VARIANCE)
def thrown_effect(cooked_thrown_cost: Column, raw_thrown: Column, ap_price: Column) -> Column:
    """What was thrown away costs, cooked and raw, at the price that is costed."""
    return cooked_thrown_cost + raw_thrown * ap_price


@formula(USAGE, unit="money/kg", source=MIXED)
def credit_per_kg_taken(credit_taken: Column, ap_taken: Column) -> Column:
    """Worth of the by-products of a kilogram as purchased, of what was sold."""
    return either(ap_taken > 0, credit_taken / ap_taken, 0.0)


@formula(USAGE, unit="kg", source=VARIANCE)
def unexplained_use(used: Column, explained_use: Column) -> Column:
    """Weight used that nothing written accounts for; below nothing, less was used than sold."""
    return used - explained_use


@formula(USAGE, unit="money", source=VARIANCE)
def unexplained(unexplained_use: Column, ap_price: Column, credit_per_kg_taken: Column) -> Column:
    """What the weight that can't be explained costs at the price that is costed."""
    return unexplained_use * (ap_price - credit_per_kg_taken)


@formula(USAGE, unit="money", source=MIXED)
def counted_credits(
    credit_taken: Column,
    credit_thrown: Column,
    unexplained_use: Column,
    credit_per_kg_taken: Column,
) -> Column:
    """Worth of the by-products of all that was used; none of what was thrown away raw."""
    return credit_taken + credit_thrown + unexplained_use * credit_per_kg_taken


@formula(USAGE, unit="money", source=STOCK)
def actual_protein(
    used: Column,
    counted_price: Column,
    ap_kept: Column,
    ap_price: Column,
    counted_credits: Column,
) -> Column:
    """Actual cost: what was used at its price, less cooked stock gained, less by-products."""
    return used * counted_price - ap_kept * ap_price - counted_credits


@formula(USAGE, unit="money", source=VARIANCE)
def difference(actual_protein: Column, theoretical_protein: Column) -> Column:
    """Actual cost less theoretical cost."""
    return actual_protein - theoretical_protein


COUNT.total("plates_sold", SALE, "plates_sold", "count", "Plates sold in the period")
COUNT.total("plate_sales", SALE, "sales", "count", "Sales of plates on their own, without tax")
COUNT.total("plates_food", SALE, "theoretical_food", "count", "Food of the plates as costed")
COUNT.total("menu_sales", MENU_SALE, "guest_sales", "count", "What guests of set menus paid")
COUNT.total("menu_covers", MENU_SALE, "guest_covers", "count", "Food of these guests' covers")
for _part, _words in {
    "portion_effect": "What the portions' weights cost",
    "yield_effect": "What the period's yields cost",
    "thrown_effect": "What was thrown away costs",
    "unexplained": "What nothing written explains",
    "price_effect": "What the period's prices cost",
    "difference": "Actual less theoretical food cost",
}.items():
    COUNT.total(_part, USAGE, _part, "count", _words)


@formula(COUNT, unit="money", source=STOCK)
def sales(plate_sales: Column, menu_sales: Column) -> Column:
    """Sales without tax: plates on their own, and guests of set menus."""
    return plate_sales + menu_sales


@formula(COUNT, unit="money", source=VARIANCE)
def theoretical_food(plates_food: Column, menu_covers: Column) -> Column:
    """Food cost as costed: of all plates, and of the covers of set menus' guests."""
    return plates_food + menu_covers


@formula(COUNT, unit="money", source=STOCK)
def actual_food(theoretical_food: Column, difference: Column) -> Column:
    """Actual food cost: sides, seasoning and what was not counted as costed."""
    return theoretical_food + difference


@formula(COUNT, unit="share", source=STOCK)
def theoretical_share(theoretical_food: Column, sales: Column) -> Column:
    """Theoretical food cost as a share of sales without tax."""
    return theoretical_food / sales


@formula(COUNT, unit="share", source=STOCK)
def actual_share(actual_food: Column, sales: Column) -> Column:
    """Actual food cost as a share of sales without tax."""
    return actual_food / sales
