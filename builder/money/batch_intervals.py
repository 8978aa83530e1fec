"""How sure the money behind plates is: 90 % intervals of batches, stages and pantry items."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from builder.money.intervals import with_intervals
from builder.money.pantry import PANTRY
from builder.yields import forms as _forms  # noqa: F401 - declares the cost after each stage
from builder.yields.chain import BATCH, STEP
from builder.yields.weighings import STAGE

COST_INTERVALS: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        BATCH.name: ("cost_per_servable_kg", "cost_factor_per_kg", "net_cost", "batch_labour"),
        STEP.name: ("cost_per_kg_out", "rise_per_kg"),
        STAGE.name: ("price_into_stage", "cost_per_usable_kg", "cost_factor_per_usable_kg"),
        PANTRY.name: ("food_per_unit", "process_per_unit"),
    }
)
"""By table what has an interval of its own; what is a multiple of one is as sure as that."""

for _table in (BATCH, STEP, STAGE, PANTRY):
    with_intervals(_table, COST_INTERVALS[_table.name])
