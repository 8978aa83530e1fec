"""Food that is sold by weight at a counter, or put out as a buffet at a price a guest."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar, Self

from pydantic import Field, PlainValidator, TypeAdapter, ValidationInfo, model_validator

from builder.language import Deferred, tr
from builder.quantities import Dimension
from builder.reading.tree import Text
from builder.records.base import Record
from builder.records.fields import (
    Amount,
    Id,
    Mass,
    Measure,
    PricePerMass,
    Share,
    Whole,
    Words,
    read_money,
    refuse,
    schema,
)
from builder.records.kind import FREE, Kind
from builder.records.tolerances import BuffetTolerance

_BY_WEIGHT: TypeAdapter[Measure] = TypeAdapter(PricePerMass)


def _price(node: object, info: ValidationInfo) -> Measure:
    """A price by weight, 24.00/kg, or money a guest."""
    if isinstance(node, Text) and "/" in node:
        return _BY_WEIGHT.validate_python(node, context=info.context)
    return read_money(node, info)


BuffetPrice = Annotated[
    Measure, PlainValidator(_price), schema("24.00/kg", "price by weight, or money a guest")
]


class Buffet(Record):
    """buffets/ID.yaml: food sold by weight at a counter, or a buffet at a price a guest."""

    folder: ClassVar[str] = "buffets"
    kind: ClassVar[Kind] = Kind(
        noun=Deferred("buffet"), counted=("{count} buffet", "{count} buffets"), meant=("counters",),
        editions=("kitchen", "front-of-house"), names=("cuts", "cooks", "pantry"),
        tables=("buffet", "dish"),
        worked={"counter": Deferred("Cheek by weight"), "buffet": Deferred("Sunday buffet")},
        about_worked=Deferred("A counter that sells by weight, and a buffet at a price a guest."),
        stand_ins={"price": Text("1")},
    )  # fmt: skip
    examples: ClassVar[Mapping[str, str]] = {
        "cooks": "{brisket-36h: 1 kg}", "items": "{slaw: 300 g}", "left": "8 %",
        "left worth": "6.00/kg", "sells": "25 kg", "guests": "80",
        "give or take": "{left: 3 %}",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("name", "cooks", "items"), FREE), "price": "menu prices",
        "left": "weights", "left_worth": "prices", "sells": "sales", "guests": "sales",
        "give_or_take": "weights",
    }  # fmt: skip

    name: Words | None = Field(None, description="what it is called")
    price: BuffetPrice = Field(description="by weight, such as 24.00/kg, or what a guest pays")
    cooks: dict[Id, Mass] = Field(
        {}, description="cooks by id with the weight put out: a guest, or in any one mix by weight"
    )
    items: dict[Id, Amount] = Field({}, description="pantry items by id, likewise")
    left: Share | None = Field(None, description="share of what is put out that nobody takes")
    left_worth: PricePerMass | None = Field(None, description="what a weight of that is worth")
    sells: Mass | None = Field(None, description="weight a week that is expected to be sold")
    guests: Whole | None = Field(None, description="guests a week that are expected")
    give_or_take: BuffetTolerance | None = Field(
        None, description="how far what is written may lie off, 9 times in 10"
    )
    note: Words | None = Field(None, description="free text, Markdown")

    @property
    def by_weight(self) -> bool:
        """Whether it is sold by weight."""
        return self.price.dimension is Dimension.MASS

    @property
    def links(self) -> Iterator[tuple[str, Text]]:
        """All that it puts out."""
        yield from (("cooks", name) for name in self.cooks)
        yield from (("pantry", name) for name in self.items)

    @model_validator(mode="after")
    def _dishes(self) -> Self:
        amounts = [*self.cooks.values(), *self.items.values()]
        empty = next((each for each in amounts if not each.value > 0), None)
        if empty is not None:
            raise refuse(tr("what is put out weighs something"), tr("take it out"), empty.place)
        return self

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        if self.left is not None and self.left.value >= 1:
            raise refuse(tr("all of it is left, so nothing is sold"), "", self.left.place)
        if self.by_weight and self.guests is not None:
            hint = tr("write sells:, the weight a week")
            raise refuse(tr("what is sold by weight counts no guests"), hint, self.guests.place)
        if not self.by_weight and self.sells is not None:
            hint = tr("write guests:, or a price by weight such as 24.00/kg")
            raise refuse(tr("a price a guest counts guests, not weight"), hint, self.sells.place)
        return self
