"""A stage of the chain of weights: its tests, or a figure stated or published for it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, Self

from pydantic import Field, model_validator

from builder.language import tr
from builder.quantities import is_free
from builder.reading.tree import Branch, Row, Text
from builder.records.base import Written, branch_of
from builder.records.fields import (
    AnyShare,
    Date,
    Hours,
    Mass,
    Measure,
    PricePerMass,
    Share,
    Words,
    refuse,
)
from builder.records.kind import FREE
from builder.records.sizes import WeighedIn
from builder.records.tolerances import StageTolerance


class WeighedPart(Written):
    """A by-product weighed in a test: `[0.74 kg, 7.90/kg]`, or its weight alone."""

    short_for: ClassVar[tuple[str, ...]] = ("weight", "worth")
    examples: ClassVar[Mapping[str, str]] = {
        "weight": "0.74 kg",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {"weight": FREE, "worth": "prices"}

    weight: Mass = Field(description="weight of the by-product in this test")
    worth: PricePerMass | None = Field(None, description="what a unit of it is worth")


class StatedPart(Written):
    """A by-product stated without a weighing: `[9 %, 7.90/kg]`, its share or its worth alone."""

    short_for: ClassVar[tuple[str, ...]] = ("share", "worth")
    examples: ClassVar[Mapping[str, str]] = {
        "share": "6 %",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {"share": FREE, "worth": "prices"}

    share: Share | None = Field(None, description="share of the weight that goes into the stage")
    worth: PricePerMass | None = Field(
        None, description="what a unit is worth today; it wins over the worth in the tests"
    )

    @classmethod
    def _unfold_short(cls, node: Text | Row) -> Branch:
        if isinstance(node, Text) and ("/" in node or is_free(node)):
            return branch_of(node.place, {"worth": node})
        return super()._unfold_short(node)


class WeighingTest(Written):
    """One weighing of a stage: in = out + parts + loss."""

    examples: ClassVar[Mapping[str, str]] = {
        "in": "8.42 kg", "out": "7.10 kg", "loss": "0.12 kg",
        "parts": "{grind: [0.74 kg, 8.00/kg]}",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        "date": FREE, "in_": FREE, "out": FREE, "parts": FREE, "loss": FREE,
    }  # fmt: skip

    date: Date = Field(description="the day of the weighing")
    in_: WeighedIn = Field(
        description="weight that went into the stage, or a number of whole pieces"
    )
    out: Mass = Field(description="weight that went on from it")
    parts: dict[Text, WeighedPart] = Field({}, description="by-products that were kept, by name")
    loss: Mass | None = Field(
        None,
        description="weight lost, where it was weighed too; the test must then balance to half "
        "the last place of each weight, 1 % of in at the most",
    )
    note: Words | None = Field(None, description="a remark")


class PublishedYield(Written):
    """A published figure that stands in for a test, with its source."""

    short_for: ClassVar[tuple[str, ...]] = ("table",)
    granted: ClassVar[Mapping[str, str]] = {"table": FREE, "yield_": FREE, "source": FREE}

    table: Words | None = Field(
        None, description="an entry of the yields that come with the tool, such as usda 13806"
    )
    yield_: Share | None = Field(None, description="the published yield")
    source: Words | None = Field(None, description="who published it, and where")

    @model_validator(mode="after")
    def _complete(self) -> Self:
        if self.table is None and (self.yield_ is None or self.source is None):
            stated = self.yield_.text if self.yield_ else tr("and the figure")
            raise refuse(
                tr("a published yield needs its source"),
                tr(
                    "write {{yield: {stated}, source: who published it}}, or name an entry, "
                    "such as usda 13806",
                    stated=stated,
                ),
            )
        return self


class Stage(Written):
    """A stage with its tests; a lone share stands for its loss."""

    short_for: ClassVar[tuple[str, ...]] = ("loss",)
    examples: ClassVar[Mapping[str, str]] = {
        "for": "20 min", "gain": "8 %", "yield": "81 %", "give or take": "3 %",
        "parts": "{fat: [6 %, 0.40/kg]}",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        "how": FREE, "leave": FREE, "for_": "cooking", "tests": "weights", "loss": "weights",
        "gain": "weights", "yield_": "weights", "published": "weights", "parts": "weights",
        "give_or_take": "weights",
    }  # fmt: skip

    how: Words | None = Field(None, description="how it is done, in a few words")
    leave: Words | None = Field(None, description="what is left on, in a few words")
    for_: Hours | None = Field(None, description="how long it takes")
    tests: list[WeighingTest] = Field([], description="weighings of the stage")
    loss: Share | None = Field(None, description="share of the weight in that leaves the piece")
    gain: AnyShare | None = Field(None, description="share of the weight in that is taken up")
    yield_: AnyShare | None = Field(None, description="share of the weight in that goes on")
    published: PublishedYield | None = Field(None, description="a published yield to stand in")
    give_or_take: StageTolerance | None = Field(
        None, description="how far what is stated may lie from the true value, 9 times in 10"
    )
    parts: dict[Text, StatedPart] = Field(
        {}, description="by-products: their share without a test, or their worth today"
    )
    note: Words | None = Field(None, description="a remark")

    @model_validator(mode="after")
    def _one_figure(self) -> Self:
        stated = [value for value in (self.loss, self.gain, self.yield_) if value is not None]
        if len(stated) > 1:
            raise refuse(
                tr("loss, gain and yield say the same thing"),
                tr("keep one of them"),
                stated[1].place,
            )
        return self

    @property
    def stated(self) -> Measure | None:
        """The figure that the kitchen states, as it is written."""
        return self.loss or self.gain or self.yield_

    @property
    def has_figure(self) -> bool:
        """Whether the stage was weighed, or its figure stated or published."""
        return bool(self.tests or self.stated or self.published)

    @property
    def stated_yield(self) -> float | None:
        """The yield that the stated figure means."""
        if self.loss is not None:
            return 1.0 - self.loss.value
        if self.gain is not None:
            return 1.0 + self.gain.value
        return None if self.yield_ is None else self.yield_.value
