"""Further portions that a swap's limits move: those of the cut of the challenger's main cook."""

from __future__ import annotations

from builder.engine.arith import Column
from builder.engine.tables import Table, formula
from builder.money.portions import PORTION
from builder.money.swaps import LINEAR, SWAP

MOVED = Table("moved", "A further portion, on either plate of a swap, of the cut that is moved")
MOVED.link("swap", SWAP)
MOVED.link("portion", PORTION)
MOVED.given("on_challenger", "flag", "1 where it is on the challenger, 0 on the benchmark")
MOVED.given("moved_cook", "flag", "1 where it is of the challenger's main cook, too")
MOVED.lookups("portion", PORTION, "ap_weight_per_portion")


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
