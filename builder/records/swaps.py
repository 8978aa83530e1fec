"""The record of a swap."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from pydantic import Field

from builder.records.base import Record
from builder.records.fields import Id, Whole, Words


class Swap(Record):
    """swaps/ID.yaml: challengers against a benchmark in the same role."""

    folder: ClassVar[str] = "swaps"
    examples: ClassVar[Mapping[str, str]] = {
        "benchmark": "ribeye-steak", "challengers": "[chuck-steak]",
        "tasting": "chuck-durations", "forecast": "60", "buys": "[bath-40]",
    }  # fmt: skip

    name: Words | None = Field(None, description="what the swap is called")
    benchmark: Id = Field(description="id of the plate that stands there now")
    challengers: list[Id] = Field(description="ids of the plates that might replace it")
    tasting: Id | None = Field(None, description="id of the tasting that compared them")
    forecast: Whole | None = Field(None, description="plates a week in this role")
    buys: list[Id] = Field([], description="equipment bought for the swap, by id")
    note: Words | None = Field(None, description="free text, Markdown")
