"""From as purchased to servable: stages in order, credits, cost of what is left.

A batch is one load of one cook. The weight that is known is the load, the raw
weight that goes into the cook; earlier stages reach back from it to the weight
to buy, later ones forward to what can be served.
"""

from __future__ import annotations

from builder.engine.arith import Column, either, most, whole, whole_up
from builder.engine.tables import Fold, Table, formula
from builder.yields.weighings import BALANCE, STAGE, YIELD_TEST

CUT = Table("cut", "A cut as it is bought")
BATCH = Table("batch", "One load of one cook, from as purchased to servable")
STEP = Table("step", "One stage of one batch")

BATCH.link("cut", CUT)
STEP.link("batch", BATCH)
STEP.link("stage", STAGE)

CUT.given("ap_price", "money/kg", "Price of a kilogram as purchased (AP)")
BATCH.given("load", "kg", "Raw weight that goes into the cook at once")
BATCH.given("piece_weight", "kg", "Raw weight of one piece as it goes into the cook")
BATCH.given(
    "remainder_worth",
    "money/kg",
    "Worth of what is left of a piece after its whole portions",
    0.0,
    "no worth is stated",
)
BATCH.lookups("cut", CUT, "ap_price")
STEP.given("before_cook", "flag", "1 for a stage before the cook, else 0")
STEP.given("after_cook", "flag", "1 for a stage after the cook, else 0")
STEP.lookups("stage", STAGE, "stage_yield", "byproduct_share", "credit_per_kg_in")
STEP.running(
    "share_before",
    "stage_yield",
    "batch",
    "Share of the AP weight that reaches the stage: product of the yields before it",
    fold=Fold.PRODUCT,
)


@formula(STEP, unit="share", source=BALANCE)
def yield_before_cook(before_cook: Column, stage_yield: Column) -> Column:
    """The stage's yield where it lies before the cook, else one."""
    return either(before_cook > 0, stage_yield, 1.0)


BATCH.total(
    "yield_to_load",
    STEP,
    "yield_before_cook",
    "batch",
    "Share of the AP weight that goes into the cook",
    fold=Fold.PRODUCT,
)
BATCH.total(
    "overall_yield",
    STEP,
    "stage_yield",
    "batch",
    "Edible portion over as purchased (EP / AP): product of all stage yields",
    fold=Fold.PRODUCT,
)


@formula(BATCH, unit="kg", source=YIELD_TEST)
def ap_weight(load: Column, yield_to_load: Column) -> Column:
    """Weight to buy for one batch: the load divided by the yield of the stages before it."""
    return load / yield_to_load


@formula(BATCH, unit="kg", source=YIELD_TEST)
def servable_weight(ap_weight: Column, overall_yield: Column) -> Column:
    """Edible portion (EP) weight of one batch: what can be served."""
    return ap_weight * overall_yield


@formula(BATCH, unit="money", source=YIELD_TEST, as_sure_as="net_cost")
def ap_cost(ap_weight: Column, ap_price: Column) -> Column:
    """What the batch costs as purchased."""
    return ap_weight * ap_price


@formula(BATCH, unit="count", source="our rule: a load that is about whole pieces holds them")
def pieces(load: Column, piece_weight: Column) -> Column:
    """Pieces in a load: load over piece weight, whole where that is off by a tenth or less.

    Of any other load a part of a piece counts by its weight: what it gives and costs is in
    proportion. Not known without a piece weight.
    """
    held = load / piece_weight
    nearest_whole = most(whole(held + 0.5), 1.0)
    off = most(held - nearest_whole, nearest_whole - held)
    return either(whole_up(10 * off) <= 1, nearest_whole, held)


STEP.lookups("batch", BATCH, "ap_weight", "ap_cost")


@formula(STEP, unit="kg", source=BALANCE)
def step_weight_in(ap_weight: Column, share_before: Column) -> Column:
    """Weight that goes into the stage."""
    return ap_weight * share_before


@formula(STEP, unit="kg", source=BALANCE)
def step_weight_out(step_weight_in: Column, stage_yield: Column) -> Column:
    """Weight that goes on from the stage."""
    return step_weight_in * stage_yield


@formula(STEP, unit="kg", source=BALANCE)
def step_byproducts(step_weight_in: Column, byproduct_share: Column) -> Column:
    """Weight of the by-products of the stage."""
    return step_weight_in * byproduct_share


@formula(STEP, unit="kg", source=BALANCE)
def step_loss(step_weight_in: Column, step_weight_out: Column, step_byproducts: Column) -> Column:
    """Weight lost in the stage: in, less what goes on, less what is kept."""
    return step_weight_in - step_weight_out - step_byproducts


@formula(STEP, unit="money", source=YIELD_TEST)
def step_credit(step_weight_in: Column, credit_per_kg_in: Column) -> Column:
    """Credit for the by-products of the stage."""
    return step_weight_in * credit_per_kg_in


@formula(STEP, unit="money", source=YIELD_TEST)
def credit_through_cook(after_cook: Column, step_credit: Column) -> Column:
    """The stage's credit where it does not lie after the cook, else nothing."""
    return either(after_cook > 0, 0.0, step_credit)


STEP.running("credits_before", "step_credit", "batch", "Credits of the stages before this one")


@formula(STEP, unit="money/kg", source=YIELD_TEST)
def cost_per_kg_out(
    ap_cost: Column, credits_before: Column, step_credit: Column, step_weight_out: Column
) -> Column:
    """What a kilogram costs once it has passed the stage, credits so far taken off."""
    return (ap_cost - credits_before - step_credit) / step_weight_out


@formula(STEP, unit="money/kg", source=YIELD_TEST, as_sure_as="cost_per_kg_out")
def cost_per_kg_in(ap_cost: Column, credits_before: Column, step_weight_in: Column) -> Column:
    """What a kilogram costs as it goes into the stage, credits so far taken off."""
    return (ap_cost - credits_before) / step_weight_in


@formula(STEP, unit="money/kg", source=BALANCE)
def rise_per_kg(cost_per_kg_in: Column, stage_yield: Column) -> Column:
    """What a kilogram that goes on costs more because weight is lost in the stage."""
    return cost_per_kg_in / stage_yield - cost_per_kg_in


@formula(STEP, unit="money/kg", source=YIELD_TEST, as_sure_as="cost_per_kg_out")
def credit_per_kg_out(step_credit: Column, step_weight_out: Column) -> Column:
    """What the stage's by-products take off each kilogram that goes on."""
    return step_credit / step_weight_out


@formula(STEP, unit="share", source=BALANCE)
def yield_in_cook(before_cook: Column, after_cook: Column, stage_yield: Column) -> Column:
    """The stage's yield where it is the cook itself, else one."""
    return either(before_cook + after_cook > 0, 1.0, stage_yield)


BATCH.total(
    "cook_yield",
    STEP,
    "yield_in_cook",
    "batch",
    "Yield of the cook itself, without trim and finish",
    fold=Fold.PRODUCT,
)
BATCH.total("credits", STEP, "step_credit", "batch", "Credits for all by-products of the batch")
BATCH.total(
    "credits_to_cook",
    STEP,
    "credit_through_cook",
    "batch",
    "Credits for the by-products up to and including the cook",
)


@formula(BATCH, unit="money", source=YIELD_TEST)
def net_cost(ap_cost: Column, credits: Column) -> Column:
    """Cost of the batch as purchased less the worth of its by-products."""
    return ap_cost - credits


@formula(BATCH, unit="money/kg", source=YIELD_TEST)
def cost_per_servable_kg(net_cost: Column, servable_weight: Column) -> Column:
    """Net cost of the batch divided by what can be served."""
    return net_cost / servable_weight


@formula(BATCH, unit="factor", source=YIELD_TEST)
def cost_factor_per_kg(cost_per_servable_kg: Column, ap_price: Column) -> Column:
    """How many times its AP price a servable kilogram costs; times a new price, the new cost."""
    return cost_per_servable_kg / ap_price
