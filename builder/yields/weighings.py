"""Weighings of one stage, pooled: yield, by-products, loss, and how sure they are.

A test weighs what goes into a stage (in), what goes on from it (out) and the
parts that are kept. What remains is loss:

    in = out + parts + loss

Several tests of a stage are pooled as a ratio of sums, so that a large batch
counts for more than a small one.
"""

from __future__ import annotations

from builder.engine.arith import Column, either, least, most, or_else
from builder.engine.tables import Fold, Table, formula
from builder.yields.intervals import t_975

YIELD_TEST = (
    "Dittmer & Keefe, Principles of Food, Beverage, and Labor Cost Controls, "
    "figs 6.3 and 6.4 [problem text read]"
)
RATIO_ESTIMATOR = "Cochran, Sampling Techniques, 3rd ed. 1977, ch. 6 [from memory]"
BALANCE = "conservation of mass"

STAGE = Table("stage", "One stage of a chain of weights, with its tests pooled")
BYPRODUCT = Table("byproduct", "A kind of by-product of a stage")
TEST = Table("test", "One weighing of a stage")
PART = Table("part", "A by-product weighed in one test")

BYPRODUCT.link("stage", STAGE)
TEST.link("stage", STAGE)
PART.link("test", TEST)
PART.link("byproduct", BYPRODUCT)

TEST.given("weight_in", "kg", "Weight that went into the stage in this test")
TEST.given("weight_out", "kg", "Weight that went on from the stage in this test")
PART.given("weight", "kg", "Weight of this by-product in this test")
PART.given(
    "worth", "money/kg", "What a kilogram of this by-product is worth", 0.0, "no worth is stated"
)
PART.lookup("test_weight_in", "test", TEST, "weight_in")
STAGE.given("assumed_yield", "share", "A yield tried out in place of the kitchen's own")
STAGE.given("stated_yield", "share", "Yield as the kitchen states it, without a test")
STAGE.given("published_yield", "share", "A published yield that stands in where nothing is weighed")
BYPRODUCT.given(
    "stated_share", "share", "Share of the weight in, as the kitchen states it", 0.0, "not stated"
)
BYPRODUCT.given("stated_worth", "money/kg", "Worth of a kilogram, as the kitchen states it today")


@formula(TEST, unit="share", source=YIELD_TEST)
def test_yield(weight_out: Column, weight_in: Column) -> Column:
    """Share of the weight in that goes on, in one test."""
    return weight_out / weight_in


@formula(PART, unit="share", source=YIELD_TEST)
def part_share(weight: Column, test_weight_in: Column) -> Column:
    """Ratio of a part to the whole in one test."""
    return weight / test_weight_in


@formula(PART, unit="money", source=YIELD_TEST)
def part_value(weight: Column, worth: Column) -> Column:
    """What a weighed by-product is worth."""
    return weight * worth


TEST.total("parts_weight", PART, "weight", "test", "Weight of all by-products of this test")


@formula(TEST, unit="kg", source=BALANCE)
def loss_weight(weight_in: Column, weight_out: Column, parts_weight: Column) -> Column:
    """Weight that is gone but paid for: what neither goes on nor is kept."""
    return weight_in - weight_out - parts_weight


STAGE.total(
    "tests_count", TEST, "weight_in", "stage", "Number of tests of this stage", fold=Fold.COUNT
)
STAGE.total("tested_in", TEST, "weight_in", "stage", "Weight in, all tests of this stage together")
STAGE.total("tested_out", TEST, "weight_out", "stage", "Weight out, all tests together")
STAGE.total(
    "lowest_yield", TEST, "test_yield", "stage", "Smallest yield of any one test", fold=Fold.LEAST
)
STAGE.total(
    "highest_yield", TEST, "test_yield", "stage", "Largest yield of any one test", fold=Fold.MOST
)


@formula(STAGE, unit="share", source=RATIO_ESTIMATOR)
def measured_yield(tested_out: Column, tested_in: Column) -> Column:
    """Yield of all tests of a stage pooled as a ratio of sums.

    Not known without a test.
    """
    return tested_out / tested_in


@formula(STAGE, unit="share", source="order of trust: measured, stated, published [our rule]")
def stage_yield(
    assumed_yield: Column, measured_yield: Column, stated_yield: Column, published_yield: Column
) -> Column:
    """Share of the weight in that goes on from the stage.

    The pooled tests win; without a test the kitchen's stated figure stands,
    without one a published figure, and without any the stage keeps its weight.
    """
    return or_else(
        assumed_yield, or_else(measured_yield, or_else(stated_yield, or_else(published_yield, 1.0)))
    )


TEST.lookup("pooled_yield", "stage", STAGE, "measured_yield")


@formula(TEST, unit="kg2", source=RATIO_ESTIMATOR)
def squared_residual(weight_out: Column, pooled_yield: Column, weight_in: Column) -> Column:
    """Squared distance of a test's weight out from what the pooled yield predicts."""
    return (weight_out - pooled_yield * weight_in) ** 2


STAGE.total("residuals", TEST, "squared_residual", "stage", "Sum of squared residuals of the tests")


@formula(STAGE, unit="share", source=RATIO_ESTIMATOR)
def yield_standard_error(residuals: Column, tests_count: Column, tested_in: Column) -> Column:
    """Standard error of a pooled yield.

    Root of n / (n - 1) x the sum of squared residuals, divided by the total
    weight in. Not known with fewer than two tests. The finite-population
    correction is left out: the batches to come are not a list to sample from.
    """
    return either(
        tests_count > 1,
        (tests_count / (tests_count - 1) * residuals) ** 0.5 / tested_in,
        float("nan"),
    )


@formula(STAGE, unit="share", source=RATIO_ESTIMATOR)
def yield_half_width(yield_standard_error: Column, tests_count: Column) -> Column:
    """Half the width of the 95 % interval of a pooled yield.

    Student's t with n - 1 degrees of freedom times the standard error. One
    test has no interval.
    """
    return yield_standard_error * t_975(tests_count - 1)


@formula(STAGE, unit="share", source=RATIO_ESTIMATOR)
def yield_low(measured_yield: Column, yield_half_width: Column) -> Column:
    """Lower end of the 95 % interval of a pooled yield, cut at zero."""
    return most(measured_yield - yield_half_width, 0.0)


@formula(STAGE, unit="share", source=RATIO_ESTIMATOR)
def yield_high(measured_yield: Column, yield_half_width: Column, highest_yield: Column) -> Column:
    """Upper end of the 95 % interval of a pooled yield.

    Cut at one where no test gained weight: few tests make a wide interval, and
    nothing but a cure leaves more than went in.
    """
    end = measured_yield + yield_half_width
    return either(highest_yield > 1, end, least(end, 1.0))


BYPRODUCT.total("tested_weight", PART, "weight", "byproduct", "Weight in all tests together")
BYPRODUCT.total("tested_value", PART, "part_value", "byproduct", "Worth in all tests together")
BYPRODUCT.lookup("stage_tested_in", "stage", STAGE, "tested_in")


@formula(BYPRODUCT, unit="share", source=RATIO_ESTIMATOR)
def byproduct_share_of_in(
    tested_weight: Column, stage_tested_in: Column, stated_share: Column
) -> Column:
    """Share of the weight in that this by-product takes: pooled tests, else as stated."""
    return either(stage_tested_in > 0, tested_weight / stage_tested_in, stated_share)


@formula(BYPRODUCT, unit="money/kg", source=YIELD_TEST)
def byproduct_worth(stated_worth: Column, tested_value: Column, tested_weight: Column) -> Column:
    """Worth of a kilogram: as stated today, else the mean of the tests by weight."""
    return or_else(stated_worth, or_else(tested_value / tested_weight, 0.0))


@formula(BYPRODUCT, unit="money/kg", source=YIELD_TEST)
def credit_rate(byproduct_share_of_in: Column, byproduct_worth: Column) -> Column:
    """Credit that this by-product earns for each kilogram that goes into the stage."""
    return byproduct_share_of_in * byproduct_worth


STAGE.total(
    "byproduct_share", BYPRODUCT, "byproduct_share_of_in", "stage", "Share kept as by-products"
)
STAGE.total(
    "credit_per_kg_in", BYPRODUCT, "credit_rate", "stage", "Credit for each kg into the stage"
)


@formula(STAGE, unit="share", source=BALANCE)
def loss_share(stage_yield: Column, byproduct_share: Column) -> Column:
    """Share of the weight in that is gone but paid for; below zero where a cure takes up weight."""
    return 1 - stage_yield - byproduct_share
