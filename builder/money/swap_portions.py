"""Portions that a swap's limits move: of the challenger's main cut, and of each cut beside it."""

from __future__ import annotations

from typing import Final

from builder.engine.arith import Column, or_else
from builder.engine.tables import Table, formula
from builder.money import equal_margin as _equal_margin  # noqa: F401 - declares equal margins
from builder.money.intervals import with_intervals
from builder.money.plates import PLATE
from builder.money.portions import PORTION
from builder.money.swaps import LINEAR, SWAP
from builder.yields.chain import CUT

MOVED = Table("moved", "A portion, on either plate of a swap, of the cut that is moved")
MOVED_CUT = Table("moved_cut", "A cut of a swap's challenger beside its main one")
MOVED_CUT.link("swap", SWAP)
MOVED_CUT.link("cut", CUT)
MOVED.link("swap", SWAP)
MOVED.link("moved_cut", MOVED_CUT)
MOVED.link("portion", PORTION)
MOVED.link("plate", PLATE)
MOVED.given("on_challenger", "flag", "1 where it is on the challenger, 0 on the benchmark")
MOVED.given("moved_cook", "flag", "1 where it is of the challenger's main cook, too")
MOVED.lookup("further_weight", "portion", PORTION, "ap_weight_per_portion")
MOVED.lookup("main_weight", "plate", PLATE, "ap_weight_per_portion")


@formula(MOVED, unit="kg", source=LINEAR)
def ap_weight_per_portion(further_weight: Column, main_weight: Column) -> Column:
    """Weight as purchased that it takes: of a further portion, or of a plate's main one."""
    return or_else(further_weight, main_weight)


@formula(MOVED, unit="kg", source=LINEAR)
def weight_on_challenger(on_challenger: Column, ap_weight_per_portion: Column) -> Column:
    """Weight as purchased that it takes on the challenger."""
    return on_challenger * ap_weight_per_portion


@formula(MOVED, unit="kg", source=LINEAR)
def weight_on_benchmark(on_challenger: Column, ap_weight_per_portion: Column) -> Column:
    """Weight as purchased that it takes on the benchmark."""
    return (1 - on_challenger) * ap_weight_per_portion


SWAP.total(
    "challenger_further_weight",
    MOVED,
    "weight_on_challenger",
    "swap",
    "AP weight of the moved cut in the further portions of a challenger plate",
)
SWAP.total(
    "benchmark_further_weight",
    MOVED,
    "weight_on_benchmark",
    "swap",
    "AP weight of the moved cut in the further portions of a benchmark plate",
)
SWAP.total("moved_cooks", MOVED, "moved_cook", "swap", "Further portions of the moved cook")

MOVED_CUT.lookup("ap_price", "cut", CUT)
MOVED_CUT.lookups(
    "swap", SWAP, "saving", "margin_change", "challenger_food_factor", "benchmark_food_factor"
)
for _name, _side in (
    ("weight_on_challenger", "challenger"),
    ("weight_on_benchmark", "benchmark"),
):
    _about = f"AP weight of the cut in a {_side} plate"
    MOVED_CUT.total(_name, MOVED, _name, "moved_cut", _about)


@formula(MOVED_CUT, unit="kg", source=LINEAR)
def price_slope(
    challenger_food_factor: Column,
    weight_on_challenger: Column,
    benchmark_food_factor: Column,
    weight_on_benchmark: Column,
) -> Column:
    """Saving lost for each unit of money that a kilogram of this cut costs more."""
    benchmark = benchmark_food_factor * weight_on_benchmark
    return challenger_food_factor * weight_on_challenger - benchmark


MOVED_CUT.borrow(SWAP, "break_even_ap_price", "equal_margin_ap_price")
CUT_LIMITS: Final = ("break_even_ap_price", "equal_margin_ap_price")
with_intervals(MOVED_CUT, CUT_LIMITS)
