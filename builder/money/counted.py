"""What was counted in a period: its plates, at the portions and yields that were weighed."""

from __future__ import annotations

from builder.engine.arith import Column, either, known, least, most, or_else, whole
from builder.engine.tables import Table, formula
from builder.money.plates import PLATE
from builder.yields.chain import BATCH, CUT

VARIANCE = (
    "Horngren, Datar & Rajan, Cost Accounting: A Managerial Emphasis, ch. 7, price and "
    "efficiency (quantity) variances [from memory]"
)
STOCK = (
    "Dittmer & Keefe, Principles of Food, Beverage, and Labor Cost Controls, cost of food "
    "consumed: opening stock, purchases, closing stock [from memory]"
)
CUT_WHOLE = (
    "our rule: a piece gives as many portions as are costed until they are over 2 % too heavy "
    "for it, as a mean of a few weighings is good to no more"
)
MIXED = "our rule: what is not sold costs and weighs as what is sold of the same cook"

COUNT = Table("count", "A period or a service that was counted")
USAGE = Table("usage", "One cut in a count")
OUTPUT = Table("output", "One cook in a count")
SALE = Table("sale", "One plate in a count")
WASTE = Table("waste", "One weight thrown away in a count")

USAGE.link("count", COUNT)
USAGE.link("cut", CUT)
USAGE.lookups("cut", CUT, "ap_price")
OUTPUT.link("usage", USAGE)
OUTPUT.link("batch", BATCH)
SALE.link("count", COUNT)
SALE.link("plate", PLATE)
SALE.link("output", OUTPUT)
SALE.link("usage", USAGE)
WASTE.link("usage", USAGE)
WASTE.link("output", OUTPUT)

OUTPUT.given("raw_used", "kg", "Raw weight that went into the cook in the period")
OUTPUT.given("made", "kg", "Weight to serve that came of it")
OUTPUT.given("cooked_opening", "kg", "Weight to serve at the start", 0.0, "none is written")
OUTPUT.given("left", "kg", "Weight to serve that is kept for another day", 0.0, "none is written")
OUTPUT.lookups("batch", BATCH, "load", "ap_weight", "ap_price", "servable_weight", "net_cost")


@formula(OUTPUT, unit="share", source=VARIANCE)
def standard_yield(servable_weight: Column, load: Column) -> Column:
    """Weight to serve over raw weight into the cook, as the plates are costed."""
    return servable_weight / load


@formula(OUTPUT, unit="share", source=VARIANCE)
def counted_yield(made: Column, raw_used: Column) -> Column:
    """Weight to serve over raw weight into the cook, as weighed in the period."""
    return made / raw_used


@formula(OUTPUT, unit="factor", source=VARIANCE)
def yield_ratio(counted_yield: Column, standard_yield: Column) -> Column:
    """Yield of the period over the yield that is costed; one where it was not weighed."""
    return or_else(counted_yield / standard_yield, 1.0)


SALE.given("sold_alone", "count", "Plates sold in the period on their own", 0.0, "none")
SALE.given("weighed_portion", "kg", "Mean of the portions weighed in the period")
SALE.lookups(
    "plate",
    PLATE,
    "portion",
    "portion_pieces",
    "food_cost",
    "protein_cost",
    "price_ex_tax",
    "counts_pieces",
    "pieces",
    "portions_per_piece",
    "whole_portions",
    "servable_weight",
    "ap_weight",
    "ap_price",
    "net_cost",
    "remainder_worth",
)
SALE.lookup("yield_ratio", "output", OUTPUT, missing=1.0)


@formula(SALE, unit="money", source=VARIANCE)
def theoretical_protein(plates_sold: Column, protein_cost: Column) -> Column:
    """What the portions sold cost as the menu costs them, sides and seasoning apart."""
    return plates_sold * protein_cost


@formula(SALE, unit="money", source=STOCK)
def sales(sold_alone: Column, price_ex_tax: Column) -> Column:
    """Sales of the plate on its own without tax; guests of set menus pay for their menu."""
    return sold_alone * price_ex_tax


@formula(SALE, unit="kg", source="mean of the weighed portions: arithmetic")
def counted_portion(
    weighed_portion: Column, portion: Column, portion_pieces: Column, yield_ratio: Column
) -> Column:
    """Portion of the period: the mean of those weighed, else as the plate states it.

    A portion of pieces weighs what they weighed at the period's yield.
    """
    as_made = portion * either(known(portion_pieces), yield_ratio, 1.0)
    return or_else(weighed_portion, as_made)


@formula(SALE, unit="count", source=CUT_WHOLE)
def portions_as_weighed(
    counts_pieces: Column,
    pieces: Column,
    portions_per_piece: Column,
    portion_pieces: Column,
    servable_weight: Column,
    counted_portion: Column,
) -> Column:
    """Portions that a batch gives at the period's portion and the yield that is costed.

    Portions of pieces are as many whatever these weigh.
    """
    fitting = servable_weight / pieces / counted_portion
    as_costed = least(portions_per_piece, whole(fitting * 1.02))
    by_piece = pieces * most(whole(fitting), as_costed)
    weighed = either(counts_pieces > 0, by_piece, servable_weight / counted_portion)
    return or_else(pieces / portion_pieces, weighed)


@formula(SALE, unit="money", source=VARIANCE)
def cost_as_weighed(
    net_cost: Column,
    counts_pieces: Column,
    portion_pieces: Column,
    remainder_worth: Column,
    servable_weight: Column,
    portions_as_weighed: Column,
    counted_portion: Column,
) -> Column:
    """Cost of a portion of the period's weight at the yield and the price that are costed.

    By whole portions what is left of a piece is credited at its worth, as on the menu; of
    portions of pieces nothing is left.
    """
    remainder = most(servable_weight - portions_as_weighed * counted_portion, 0.0)
    left = either(known(portion_pieces), 0.0, remainder)
    credit = either(counts_pieces > 0, left * remainder_worth, 0.0)
    return (net_cost - credit) / portions_as_weighed


@formula(SALE, unit="kg", source=VARIANCE)
def servable_as_made(servable_weight: Column, yield_ratio: Column) -> Column:
    """What a batch would give to serve at the yield of the period."""
    return servable_weight * yield_ratio


@formula(SALE, unit="count", source=CUT_WHOLE)
def portions_as_made(
    counts_pieces: Column,
    pieces: Column,
    portions_per_piece: Column,
    portion_pieces: Column,
    servable_as_made: Column,
    counted_portion: Column,
) -> Column:
    """Portions that a batch gives at the period's portion and yield."""
    fitting = servable_as_made / pieces / counted_portion
    as_costed = least(portions_per_piece, whole(fitting * 1.02))
    by_piece = pieces * most(whole(fitting), as_costed)
    weighed = either(counts_pieces > 0, by_piece, servable_as_made / counted_portion)
    return or_else(pieces / portion_pieces, weighed)


@formula(SALE, unit="money", source=VARIANCE)
def cost_as_made(
    net_cost: Column,
    counts_pieces: Column,
    portion_pieces: Column,
    remainder_worth: Column,
    servable_as_made: Column,
    portions_as_made: Column,
    counted_portion: Column,
) -> Column:
    """Cost of a portion at the period's weight and yield, at the price that is costed."""
    remainder = most(servable_as_made - portions_as_made * counted_portion, 0.0)
    left = either(known(portion_pieces), 0.0, remainder)
    credit = either(counts_pieces > 0, left * remainder_worth, 0.0)
    return (net_cost - credit) / portions_as_made


@formula(SALE, unit="money", source=VARIANCE)
def portion_effect(plates_sold: Column, cost_as_weighed: Column, protein_cost: Column) -> Column:
    """What portions heavier or lighter than stated cost; nothing on a plate without a cook."""
    return or_else(plates_sold * (cost_as_weighed - protein_cost), 0.0)


@formula(SALE, unit="money", source=VARIANCE)
def yield_effect(plates_sold: Column, cost_as_made: Column, cost_as_weighed: Column) -> Column:
    """What a yield below or above the one that is costed costs, at the period's portions."""
    return or_else(plates_sold * (cost_as_made - cost_as_weighed), 0.0)


@formula(SALE, unit="kg", source=VARIANCE)
def ap_taken(plates_sold: Column, ap_weight: Column, portions_as_made: Column) -> Column:
    """Weight as purchased that the plates sold took, at the period's portions and yields."""
    return or_else(plates_sold * ap_weight / portions_as_made, 0.0)


@formula(SALE, unit="money", source=VARIANCE)
def cost_taken(plates_sold: Column, cost_as_made: Column) -> Column:
    """What that weight costs at the price that is costed, less by-products."""
    return or_else(plates_sold * cost_as_made, 0.0)


@formula(SALE, unit="money", source="conservation of mass")
def credit_taken(ap_taken: Column, ap_price: Column, cost_taken: Column) -> Column:
    """Worth of the by-products of what the plates sold took."""
    return or_else(ap_taken * ap_price, 0.0) - cost_taken


@formula(SALE, unit="kg", source="conservation of mass")
def weight_served(plates_sold: Column, counted_portion: Column) -> Column:
    """Cooked weight that was sold."""
    return or_else(plates_sold * counted_portion, 0.0)


WASTE.given("thrown_weight", "kg", "Weight thrown away for one reason")

OUTPUT.total("thrown_weight", WASTE, "thrown_weight", "output", "Cooked weight thrown away")


@formula(OUTPUT, unit="money/kg", source=MIXED)
def cost_per_kg_served(
    weight_served: Column,
    cost_taken: Column,
    net_cost: Column,
    servable_weight: Column,
    yield_ratio: Column,
) -> Column:
    """What a cooked kilogram costs as portioned in the period; by weight where none was sold."""
    unsold = net_cost / (servable_weight * yield_ratio)
    return either(weight_served > 0, cost_taken / weight_served, unsold)


@formula(OUTPUT, unit="factor", source=MIXED)
def ap_per_kg_served(
    weight_served: Column,
    ap_taken: Column,
    ap_weight: Column,
    servable_weight: Column,
    yield_ratio: Column,
) -> Column:
    """Weight as purchased in a cooked kilogram; by weight where none was sold."""
    unsold = ap_weight / (servable_weight * yield_ratio)
    return either(weight_served > 0, ap_taken / weight_served, unsold)


@formula(OUTPUT, unit="money", source=MIXED)
def thrown_cost(thrown_weight: Column, cost_per_kg_served: Column) -> Column:
    """What the cooked weight thrown away costs at the price that is costed."""
    return thrown_weight * cost_per_kg_served


@formula(OUTPUT, unit="kg", source=MIXED)
def ap_thrown(thrown_weight: Column, ap_per_kg_served: Column) -> Column:
    """Weight as purchased of what was thrown away cooked."""
    return thrown_weight * ap_per_kg_served


@formula(OUTPUT, unit="money", source=MIXED)
def credit_thrown(ap_thrown: Column, ap_price: Column, thrown_cost: Column) -> Column:
    """Worth of the by-products of what was thrown away cooked."""
    return ap_thrown * ap_price - thrown_cost


@formula(OUTPUT, unit="kg", source=STOCK)
def ap_kept(left: Column, cooked_opening: Column, ap_per_kg_served: Column) -> Column:
    """Weight as purchased by which the cooked stock grew in the period."""
    return (left - cooked_opening) * ap_per_kg_served


@formula(OUTPUT, unit="kg", source="conservation of mass")
def cooked_not_found(
    cooked_opening: Column, made: Column, weight_served: Column, left: Column, thrown_weight: Column
) -> Column:
    """Cooked weight that was neither sold, left nor thrown; trimmings of whole portions too."""
    return cooked_opening + made - weight_served - left - thrown_weight


WASTE.lookup("cost_per_kg_served", "output", OUTPUT)
WASTE.lookup("ap_price", "usage", USAGE)


@formula(WASTE, unit="money", source=MIXED)
def cost_of_thrown(thrown_weight: Column, cost_per_kg_served: Column, ap_price: Column) -> Column:
    """What this weight costs: cooked as portioned, raw as purchased, at the price costed."""
    return thrown_weight * or_else(cost_per_kg_served, ap_price)
