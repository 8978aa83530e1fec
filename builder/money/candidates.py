"""Candidates: cuts on no plate yet, costed with published yields in the place of a benchmark.

A portion as large as the benchmark's is costed up to where the cook ends on the plate: the cut,
trimmed and cooked, with the work and process of the kitchen's own cook that is most like it. Sides
and plating stay as they are. All is by weight, for nobody has cut a piece yet.
"""

from __future__ import annotations

from builder.cooking.pieces import core_times
from builder.engine.arith import Column, either, or_else
from builder.engine.tables import Table, formula
from builder.money import actions as _actions  # noqa: F401 - declares the monthly counts
from builder.money.intervals import chance_above_nothing, with_intervals
from builder.money.kitchen import PROCESS
from builder.money.partition import PARTITION
from builder.money.plates import PLATE
from builder.money.swaps import DIFFERENCE, LINEAR
from builder.yields import forms as _forms  # noqa: F401 - declares the cost after each stage
from builder.yields.chain import BATCH, CUT
from builder.yields.weighings import BALANCE, STAGE, YIELD_TEST

LIKE = "our rule: as the kitchen's own cook that is most like it"

CANDIDATE = Table("candidate", "A cut on no plate yet in the place of a benchmark")
CANDIDATE.link("cut", CUT)
CANDIDATE.link("trimmed", STAGE)
CANDIDATE.link("like", BATCH)
CANDIDATE.link("finish", STAGE)
CANDIDATE.link("benchmark", PLATE)

CANDIDATE.given("listed_price", "money/kg", "Price of a kilogram of a cut that has no file yet")
CANDIDATE.given(
    "stand_in_trim",
    "share",
    "Share that trimming leaves, as other cuts of the kitchen do, where nobody trimmed this one",
    1.0,
    "its own trim is known, or no cut of the kitchen is like it",
)
CANDIDATE.given("published_cook_yield", "share", "Published cooking yield used instead")
CANDIDATE.given("trial_hours", "h", "Time of the cook that is costed: the middle one to be tried")
CANDIDATE.given("thickness", "mm", "Smallest dimension of a piece")
CANDIDATE.lookup("cut_price", "cut", CUT, "ap_price")
CANDIDATE.lookup("trimmed_cost", "trimmed", STAGE, "cost_per_usable_kg")
CANDIDATE.lookup("trimmed_share_before", "trimmed", STAGE, "share_of_ap")
CANDIDATE.lookup("trimmed_yield", "trimmed", STAGE, "stage_yield")
# The sear of the kitchen's own cook; what carving takes rests on bones and shape.
CANDIDATE.lookup("left_after_finish", "finish", STAGE, "stage_yield", missing=1.0)
CANDIDATE.lookups("benchmark", PLATE, "portion", "seasoning_share", "food_factor", "monthly_count")
CANDIDATE.lookup("benchmark_full_cost", "benchmark", PLATE, "full_cost")
CANDIDATE.lookup("benchmark_cost_beside_cook", "benchmark", PLATE, "cost_beside_cook")
for _name in (
    "load", "batch_labour", "consumables", "batch_energy_cost", "equipment_charge", "cook_hours",
):  # fmt: skip
    CANDIDATE.lookup(f"like_{_name}", "like", BATCH, _name)


@formula(CANDIDATE, unit="money/kg", source="our rule: the cut's own price, else that of its list")
def ap_price(cut_price: Column, listed_price: Column) -> Column:
    """Price of a kilogram of the candidate as purchased."""
    return or_else(cut_price, listed_price)


@formula(CANDIDATE, unit="share", source=BALANCE)
def trim_left(trimmed_share_before: Column, trimmed_yield: Column, stand_in_trim: Column) -> Column:
    """Share of the AP weight that goes into the cook; all of it where nothing is known."""
    return or_else(trimmed_share_before * trimmed_yield, 1.0) * stand_in_trim


@formula(CANDIDATE, unit="money/kg", source=YIELD_TEST)
def cost_per_trimmed_kg(trimmed_cost: Column, ap_price: Column, stand_in_trim: Column) -> Column:
    """What a kilogram costs as it goes into the cook, parts of its own trim credited."""
    return or_else(trimmed_cost, ap_price) / stand_in_trim


@formula(CANDIDATE, unit="money/kg", source=YIELD_TEST)
def cost_per_servable_kg(
    cost_per_trimmed_kg: Column, published_cook_yield: Column, left_after_finish: Column
) -> Column:
    """What a servable kilogram of the candidate costs."""
    return cost_per_trimmed_kg / (published_cook_yield * left_after_finish)


@formula(CANDIDATE, unit="kg", source=YIELD_TEST)
def raw_weight_per_portion(
    portion: Column, published_cook_yield: Column, left_after_finish: Column
) -> Column:
    """Weight that goes into the cook for a portion as large as the benchmark's."""
    return portion / (published_cook_yield * left_after_finish)


@formula(CANDIDATE, unit="money", source=YIELD_TEST)
def meat_cost(cost_per_servable_kg: Column, portion: Column, food_factor: Column) -> Column:
    """The portion's meat with its share of garnish and seasoning."""
    return food_factor * cost_per_servable_kg * portion


@formula(CANDIDATE, unit="money", source=LIKE)
def work_cost(
    raw_weight_per_portion: Column, like_batch_labour: Column, like_load: Column
) -> Column:
    """The portion's share of the work on a batch; left out without a cook like it."""
    return or_else(raw_weight_per_portion / like_load * like_batch_labour, 0.0)


@formula(CANDIDATE, unit="money", source=LIKE)
def process_cost(
    raw_weight_per_portion: Column,
    like_load: Column,
    like_consumables: Column,
    like_batch_energy_cost: Column,
    like_equipment_charge: Column,
    trial_hours: Column,
    like_cook_hours: Column,
) -> Column:
    """The portion's share of bags, energy and equipment; both of these in step with the hours.

    What is not known of them is left out.
    """
    by_time = or_else(like_batch_energy_cost, 0.0) + or_else(like_equipment_charge, 0.0)
    batch = like_consumables + or_else(by_time * trial_hours / like_cook_hours, 0.0)
    return or_else(raw_weight_per_portion / like_load * batch, 0.0)


@formula(CANDIDATE, unit="money", source=PARTITION)
def portion_cost(meat_cost: Column, work_cost: Column, process_cost: Column) -> Column:
    """Expected cost of a servable portion of the candidate, its cook with it."""
    return meat_cost + work_cost + process_cost


@formula(CANDIDATE, unit="money", source=PARTITION, as_sure_as="benchmark_full_cost")
def benchmark_portion_cost(
    benchmark_full_cost: Column, benchmark_cost_beside_cook: Column
) -> Column:
    """What the benchmark's portion costs, its cook with it, without sides and plating."""
    return benchmark_full_cost - benchmark_cost_beside_cook


@formula(CANDIDATE, unit="money", source=DIFFERENCE)
def portion_saving(benchmark_portion_cost: Column, portion_cost: Column) -> Column:
    """What a portion of the candidate saves against one of the benchmark."""
    return benchmark_portion_cost - portion_cost


@formula(CANDIDATE, unit="money/month", source=DIFFERENCE, as_sure_as="portion_saving")
def candidate_saving_a_month(portion_saving: Column, monthly_count: Column) -> Column:
    """What it would save a month in the benchmark's place, if as many are sold at its price."""
    return portion_saving * monthly_count


@formula(CANDIDATE, unit="h", source=PROCESS)
def bath_hours_per_portion(
    raw_weight_per_portion: Column, like_load: Column, trial_hours: Column
) -> Column:
    """Hours of the bath that one portion takes, in a full load."""
    return raw_weight_per_portion / like_load * trial_hours


@formula(CANDIDATE, unit="money/kg", source=LINEAR)
def ap_price_that_saves_nothing(
    ap_price: Column,
    portion_saving: Column,
    raw_weight_per_portion: Column,
    trim_left: Column,
    food_factor: Column,
) -> Column:
    """AP price of the candidate at which it saves nothing.

    Not known where no price from zero up brings the saving to zero.
    """
    limit = ap_price + portion_saving * trim_left / raw_weight_per_portion / food_factor
    return either(limit >= 0, limit, float("nan"))


CANDIDATE_INTERVALS = ("portion_cost", "portion_saving", "ap_price_that_saves_nothing")
with_intervals(CANDIDATE, CANDIDATE_INTERVALS)
CANDIDATE.applied(
    "chance_saves",
    "times in 10",
    "Chance that a portion of the candidate costs less than one of the benchmark",
    chance_above_nothing,
    "portion_saving",
    follows="chance",
)
CANDIDATE.applied(
    "time_to_core",
    "h up",
    "Time until the core of a piece is near the bath, at the slow end",
    core_times,
    "thickness",
)
