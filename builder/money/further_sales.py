"""Further portions of plates sold in a count: they use cuts and cooks as main ones do."""

from __future__ import annotations

from builder.engine.arith import Column
from builder.engine.tables import Table, formula
from builder.money import guest_sales as _guest_sales  # noqa: F401 - declares the plates sold
from builder.money.counted import OUTPUT, SALE, USAGE, VARIANCE
from builder.money.portions import PORTION

FURTHER_SALE = Table("further_sale", "A further portion of a plate in a count")
FURTHER_SALE.link("sale", SALE)
FURTHER_SALE.link("portion", PORTION)
FURTHER_SALE.link("output", OUTPUT)
FURTHER_SALE.link("usage", USAGE)
FURTHER_SALE.borrow(SALE, "weighed_portion")
FURTHER_SALE.lookup("plates_sold", "sale", SALE)
FURTHER_SALE.lookup("yield_ratio", "output", OUTPUT, missing=1.0)
FURTHER_SALE.lookups(
    "portion",
    PORTION,
    "portion",
    "portion_pieces",
    "protein_cost",
    "counts_pieces",
    "pieces",
    "portions_per_piece",
    "servable_weight",
    "ap_weight",
    "ap_price",
    "net_cost",
    "remainder_worth",
)
FURTHER_SALE.borrow(
    SALE,
    "theoretical_protein",
    "counted_portion",
    "portions_as_weighed",
    "cost_as_weighed",
    "servable_as_made",
    "portions_as_made",
    "cost_as_made",
    "portion_effect",
    "yield_effect",
    "ap_taken",
    "cost_taken",
    "credit_taken",
    "weight_served",
)
_OUTPUT = {
    "weight_served": "Cooked weight that was sold",
    "ap_taken": "Weight as purchased of what was sold",
    "cost_taken": "Cost of what was sold, as made",
}
_USAGE = {
    "theoretical_protein": "Portions as costed",
    "portion_effect": "What the portions' weights cost",
    "yield_effect": "What the period's yields cost",
    "ap_taken": "Weight as purchased of what was sold",
    "credit_taken": "By-products of what was sold",
}
for _table, _link, _names in ((OUTPUT, "output", _OUTPUT), (USAGE, "usage", _USAGE)):
    for _name, _about in _names.items():
        _table.total(f"main_{_name}", SALE, _name, _link, f"{_about}, main portions")
        _table.total(f"further_{_name}", FURTHER_SALE, _name, _link, f"{_about}, further portions")


@formula(OUTPUT, unit="kg", source=VARIANCE)
def weight_served(main_weight_served: Column, further_weight_served: Column) -> Column:
    """Cooked weight that was sold."""
    return main_weight_served + further_weight_served


@formula(OUTPUT, USAGE, unit="kg", source=VARIANCE)
def ap_taken(main_ap_taken: Column, further_ap_taken: Column) -> Column:
    """Weight as purchased of what was sold."""
    return main_ap_taken + further_ap_taken


@formula(OUTPUT, unit="money", source=VARIANCE)
def cost_taken(main_cost_taken: Column, further_cost_taken: Column) -> Column:
    """Cost of what was sold, as made."""
    return main_cost_taken + further_cost_taken


@formula(USAGE, unit="money", source=VARIANCE)
def theoretical_protein(
    main_theoretical_protein: Column, further_theoretical_protein: Column
) -> Column:
    """Portions sold, as costed."""
    return main_theoretical_protein + further_theoretical_protein


@formula(USAGE, unit="money", source=VARIANCE)
def portion_effect(main_portion_effect: Column, further_portion_effect: Column) -> Column:
    """What the portions' weights cost."""
    return main_portion_effect + further_portion_effect


@formula(USAGE, unit="money", source=VARIANCE)
def yield_effect(main_yield_effect: Column, further_yield_effect: Column) -> Column:
    """What the period's yields cost."""
    return main_yield_effect + further_yield_effect


@formula(USAGE, unit="money", source=VARIANCE)
def credit_taken(main_credit_taken: Column, further_credit_taken: Column) -> Column:
    """By-products of what was sold."""
    return main_credit_taken + further_credit_taken
