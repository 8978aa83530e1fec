"""The record of a swap."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import ClassVar, Self

from pydantic import Field, model_validator

from builder.language import Deferred, tr
from builder.problems import did_you_mean
from builder.reading.tree import Text
from builder.records.base import Record
from builder.records.decisions import Decision
from builder.records.fields import Id, Whole, Words, refuse
from builder.records.kind import FREE, Kind


class Swap(Record):
    """swaps/ID.yaml: challengers against a benchmark in the same role."""

    folder: ClassVar[str] = "swaps"
    kind: ClassVar[Kind] = Kind(
        noun=Deferred("swap"), counted=("{count} swap", "{count} swaps"), names=("plates",),
        tables=("swap", "moved", "moved_cut"), worked={"swap": Deferred("Cheek for pie")},
        stand_ins={"benchmark": Text("-"), "challengers": [Text("+")]},
    )  # fmt: skip
    examples: ClassVar[Mapping[str, str]] = {
        "benchmark": "ribeye-steak", "challengers": "[chuck-steak]",
        "tasting": "chuck-durations", "forecast": "60", "buys": "[bath-40]",
        "decided": "{date: 2026-09-03, who: JB, why: ‹it earns more›, margin change: 1.20}",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("name", "benchmark", "challengers"), FREE), "tasting": "tastings",
        "forecast": "sales", "buys": "margins",
    }  # fmt: skip

    name: Words | None = Field(None, description="what the swap is called")
    benchmark: Id = Field(description="id of the plate that stands there now")
    challengers: list[Id] = Field(description="ids of the plates that might replace it")
    tasting: Id | None = Field(None, description="id of the tasting that compared them")
    forecast: Whole | None = Field(None, description="plates a week in this role")
    buys: list[Id] = Field(
        [], description="equipment bought for the swap, by id; all of it where there are several"
    )
    decided: Decision | None = Field(None, description="what was decided, when and on what figures")
    note: Words | None = Field(None, description="free text, Markdown")

    @property
    def links(self) -> Iterator[tuple[str, Text]]:
        """Its plates."""
        yield from (("plates", name) for name in (self.benchmark, *self.challengers))

    @model_validator(mode="after")
    def _decided_on_one(self) -> Self:
        if self.decided is None or not self.challengers:
            return self
        plate, known = self.decided.plate, ", ".join(self.challengers)
        if plate is None and len(self.challengers) > 1:
            message = tr("which challenger was decided on is not known")
            raise refuse(
                message, tr("write plate: and one of {known}", known=known), self.decided.date.place
            )
        if plate is not None and plate not in self.challengers:
            hint = did_you_mean(plate, self.challengers) or tr("challengers: {known}", known=known)
            raise refuse(
                tr('"{plate}" is no challenger of this swap', plate=plate), hint, plate.place
            )
        return self

    def decision(self, challenger: str, as_of: date) -> Decision | None:
        """What had been decided on a challenger by a day, where anything had."""
        found = self.decided
        if found is None or found.date.day > as_of:
            return None
        return found if (found.plate or self.challengers[0]) == challenger else None
