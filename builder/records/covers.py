"""What a plate has that nobody lists, and what every cover gets: garnish, and a cover cost."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar, Self

from pydantic import Field, PlainValidator, ValidationInfo, model_validator

from builder.language import Deferred, tr
from builder.quantities import Dimension
from builder.reading.tree import Text
from builder.records.base import Written
from builder.records.fields import (
    Amount,
    Id,
    Measure,
    Money,
    Words,
    quantity,
    read_money,
    refuse,
    schema,
)
from builder.records.kind import FREE

_SHARE = quantity(
    "a share, for example 8 %",
    Dimension.RATIO,
    most=1.0,
    limit=Deferred("at most 100 % of the listed food"),
)


_NOTHING = frozenset(("none", "no"))


def _garnish(node: object, info: ValidationInfo) -> Measure:
    """A share of the listed food, or money a plate; none is nothing."""
    if isinstance(node, Text) and node.strip().lower() in _NOTHING:
        return Measure(0.0, node.place, str(node))
    if isinstance(node, Text) and "%" in node:
        return _SHARE(node)
    return read_money(node, info)


def _cover_of_plate(node: object, info: ValidationInfo) -> Measure:
    """Money of its own, or none: nothing."""
    if isinstance(node, Text) and node.strip().lower() in _NOTHING:
        return Measure(0.0, node.place, str(node))
    return read_money(node, info)


Garnish = Annotated[
    Measure, PlainValidator(_garnish), schema("1.40", "money, a share of the listed food, or none")
]
PlateCover = Annotated[
    Measure, PlainValidator(_cover_of_plate), schema("none", "none, or money of its own")
]


class Cover(Written):
    """What every guest gets beside the plate: its cost as money, or items that are costed."""

    short_for: ClassVar[tuple[str, ...]] = ("money",)
    examples: ClassVar[Mapping[str, str]] = {
        "money": "1.10", "of": "{sourdough: 60 g, butter: 15 g}", "on": "[mains, grill]",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {"money": "prices", "of": FREE, "on": FREE}

    money: Money | None = Field(None, description="what it costs a cover, instead of items")
    of: dict[Id, Amount] = Field({}, description="pantry items by id, with amounts a cover")
    on: list[Words] = Field(
        [], description="menu sections whose plates bear it; must be there where there are several"
    )

    @model_validator(mode="after")
    def _one_cost(self) -> Self:
        if self.money is not None and self.of:
            hint = tr("keep money, or keep of")
            raise refuse(tr("a cover costs its items or an amount"), hint, self.money.place)
        if self.money is None and not self.of:
            hint = tr("write of: with pantry items, or money:, such as money: 1.10")
            raise refuse(tr("what a cover costs is not said"), hint)
        return self
