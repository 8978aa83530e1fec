"""What the two classic forms print beside the chain itself.

The butcher's yield test values one stage of a cut: its cost as it comes, the worth of
its parts, and what is left to be carried by the usable weight. The cooking loss test
sets the weights of a batch beside the weight that was bought.
"""

from __future__ import annotations

from builder.engine.arith import Column
from builder.engine.tables import Fold, formula
from builder.yields.chain import BATCH, CUT, STEP
from builder.yields.weighings import BALANCE, BYPRODUCT, PART, STAGE, TEST, YIELD_TEST

# Only the stages in the cut's own file: those of a cook start from a batch.
STAGE.link("cut", CUT)
STAGE.lookups("cut", CUT, "ap_price")
STAGE.running(
    "share_of_ap",
    "stage_yield",
    "cut",
    "Share of the AP weight that reaches a stage in the cut's own file",
    fold=Fold.PRODUCT,
)


@formula(STAGE, unit="money/kg", source=YIELD_TEST)
def credit_per_ap_kg(share_of_ap: Column, credit_per_kg_in: Column) -> Column:
    """Credit for the by-products of the stage, for each kilogram as purchased."""
    return share_of_ap * credit_per_kg_in


STAGE.running(
    "credits_so_far",
    "credit_per_ap_kg",
    "cut",
    "Credits of the stages before, for each kilogram as purchased",
)


@formula(STAGE, unit="money/kg", source=YIELD_TEST)
def price_into_stage(ap_price: Column, credits_so_far: Column, share_of_ap: Column) -> Column:
    """What a kilogram costs as it comes to the stage: the AP price where it is the first."""
    return (ap_price - credits_so_far) / share_of_ap


@formula(STAGE, unit="money/kg", source=YIELD_TEST)
def cost_per_usable_kg(
    price_into_stage: Column, credit_per_kg_in: Column, stage_yield: Column
) -> Column:
    """What a kilogram of the usable weight costs once the parts are credited."""
    return (price_into_stage - credit_per_kg_in) / stage_yield


@formula(STAGE, unit="factor", source=YIELD_TEST)
def cost_factor_per_usable_kg(cost_per_usable_kg: Column, ap_price: Column) -> Column:
    """Cost of a usable kilogram over its AP price; times a new price, the new cost."""
    return cost_per_usable_kg / ap_price


@formula(STAGE, unit="money", source=YIELD_TEST, as_sure_as="price_into_stage")
def tested_cost(tested_in: Column, price_into_stage: Column) -> Column:
    """Total cost of what went into all tests of the stage."""
    return tested_in * price_into_stage


@formula(BYPRODUCT, unit="money", source=YIELD_TEST)
def tested_credit(tested_weight: Column, byproduct_worth: Column) -> Column:
    """Worth of this by-product in all tests, at what a kilogram of it is worth today."""
    return tested_weight * byproduct_worth


STAGE.total("tested_parts", BYPRODUCT, "tested_weight", "stage", "By-products, all tests together")
STAGE.total("tested_credits", BYPRODUCT, "tested_credit", "stage", "Worth of all by-products")


@formula(STAGE, unit="kg", source=BALANCE)
def tested_loss(tested_in: Column, tested_out: Column, tested_parts: Column) -> Column:
    """Weight lost in all tests: what neither goes on nor is kept."""
    return tested_in - tested_out - tested_parts


@formula(STAGE, unit="money", source=YIELD_TEST, as_sure_as="price_into_stage")
def tested_usable_value(tested_cost: Column, tested_credits: Column) -> Column:
    """Value of the usable weight of all tests: total cost less the worth of the other parts."""
    return tested_cost - tested_credits


TEST.lookups("stage", STAGE, "ap_price", "price_into_stage", "cost_factor_per_usable_kg")
TEST.total("parts_value", PART, "part_value", "test", "Worth of all by-products of this test")


@formula(TEST, unit="share", source=YIELD_TEST)
def loss_ratio(loss_weight: Column, weight_in: Column) -> Column:
    """Weight lost over weight in, in one test."""
    return loss_weight / weight_in


@formula(TEST, unit="money", source=YIELD_TEST, as_sure_as="price_into_stage")
def test_cost(weight_in: Column, price_into_stage: Column) -> Column:
    """Total cost of what went into the test, at today's price."""
    return weight_in * price_into_stage


@formula(TEST, unit="money", source=YIELD_TEST, as_sure_as="price_into_stage")
def usable_value(test_cost: Column, parts_value: Column) -> Column:
    """Value of the usable weight of one test: total cost less the worth of the other parts."""
    return test_cost - parts_value


@formula(TEST, unit="money/kg", source=YIELD_TEST, as_sure_as="price_into_stage")
def test_cost_per_usable_kg(usable_value: Column, weight_out: Column) -> Column:
    """What a usable kilogram costs by one test."""
    return usable_value / weight_out


@formula(TEST, unit="factor", source=YIELD_TEST, as_sure_as="cost_factor_per_usable_kg")
def test_cost_factor(test_cost_per_usable_kg: Column, ap_price: Column) -> Column:
    """Cost of a usable kilogram by one test over its AP price."""
    return test_cost_per_usable_kg / ap_price


@formula(STEP, unit="share", source=BALANCE)
def share_through(share_before: Column, stage_yield: Column) -> Column:
    """Share of the AP weight that goes on from the stage."""
    return share_before * stage_yield


BATCH.total("byproducts_weight", STEP, "step_byproducts", "batch", "By-products of all stages")
BATCH.total("losses_weight", STEP, "step_loss", "batch", "Weight lost in all stages")


@formula(BATCH, unit="share", source=YIELD_TEST)
def byproducts_ratio(byproducts_weight: Column, ap_weight: Column) -> Column:
    """By-products of all stages over the weight as purchased."""
    return byproducts_weight / ap_weight


@formula(BATCH, unit="share", source=YIELD_TEST)
def losses_ratio(losses_weight: Column, ap_weight: Column) -> Column:
    """Weight lost in all stages over the weight as purchased."""
    return losses_weight / ap_weight
