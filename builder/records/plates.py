"""The record of a plate, with its portions."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar, Self

from pydantic import BeforeValidator, Field, model_validator

from builder.language import Deferred, tr
from builder.quantities import Dimension
from builder.reading.tree import Row, Text
from builder.records.allergens import AllergensStated
from builder.records.base import Record, Written
from builder.records.covers import Garnish, PlateCover
from builder.records.fields import (
    Amount,
    Hours,
    Id,
    Mass,
    Measure,
    Money,
    MonthKey,
    Share,
    Whole,
    Words,
    refuse,
)
from builder.records.kind import FREE, Kind
from builder.records.sizes import Counted, PortionSize, is_sliced
from builder.records.steps import Steps
from builder.records.tolerances import PlateTolerance


def pieces_of(portion: Measure | None) -> Measure | None:
    """A portion where it is written by servable pieces."""
    of_pieces = portion and portion.dimension is Dimension.COUNT and not is_sliced(portion)
    return portion if of_pieces else None


def counted_text(portion: Measure | None) -> str:
    """A portion as it is written, where that is a number of pieces or slices."""
    if isinstance(portion, Counted):
        return portion.counted
    pieces = pieces_of(portion)
    return str(pieces.text) if pieces else ""


def _some(node: object) -> object:
    if isinstance(node, Row) and not node:
        hint = tr("write one, such as {cook: chuck-roll-36h, portion: 180 g}, or take the key out")
        raise refuse(tr("no portion is in this list"), hint, node.place)
    return node


def _one_source(cook: Id | None, cut: Id | None) -> None:
    if cook is not None and cut is not None:
        hint = tr("keep cook: where it is cooked, cut: where it is not")
        raise refuse(tr("a portion is of a cook or of a cut"), hint, cut.place)


class Portion(Written):
    """One portion of a plate: `[chuck-roll-36h, 180 g]`, or with its keys.

    It is of a cook, or of a cut that is served without one.
    """

    short_for: ClassVar[tuple[str, ...]] = ("cook", "portion")
    examples: ClassVar[Mapping[str, str]] = {"cook": "chuck-roll-36h", "portion": "180 g"}
    granted: ClassVar[Mapping[str, str]] = {"cook": FREE, "cut": FREE, "portion": "weights"}

    cook: Id | None = Field(None, description="id of its cook")
    cut: Id | None = Field(None, description="id of a cut without a cook: oysters, a ham, tartare")
    portion: PortionSize = Field(description="servable weight, pieces or slices")

    @model_validator(mode="after")
    def _of_one(self) -> Self:
        if self.cook is None and self.cut is None:
            raise refuse(
                tr("a portion is of a cook or of a cut"), tr("write cook: or cut: and its id")
            )
        _one_source(self.cook, self.cut)
        return self

    @property
    def weight(self) -> Measure | None:
        """The portion where it is written by weight."""
        return None if self.pieces else self.portion

    @property
    def pieces(self) -> Measure | None:
        """The portion where it is written by servable pieces."""
        return pieces_of(self.portion)

    @property
    def counted(self) -> str:
        """The portion as it is written, where that is a number of pieces or slices."""
        return counted_text(self.portion)


class Plate(Record):
    """plates/ID.yaml: a plate as it is sold."""

    folder: ClassVar[str] = "plates"
    kind: ClassVar[Kind] = Kind(
        noun=Deferred("plate"), counted=("{count} plate", "{count} plates"),
        meant=("dishes", "dish"), editions=("kitchen", "front-of-house"),
        names=("cuts", "cooks", "pantry"),
        tables=("plate", "accompaniment", "portion", "order", "further_order", "cover_item",
            "section", "taking"),
        worked={"plate": Deferred("Beef cheek plate")},
        stand_ins={"menu": Text("-"), "price": Text("1")},
    )  # fmt: skip
    examples: ClassVar[Mapping[str, str]] = {
        "cook": "chuck-roll-36h", "portion": "180 g", "with": "{bone-sauce: 60 ml}",
        "portions": "[{cook: chuck-roll-36h, portion: 180 g}, {cook: prawns-grill, portion: 90 g}]",
        "hands on": "4 min", "weighed portions": "[182 g, 176 g, 185 g]",
        "sold": "{2026-08: 380}", "forecast": "60",
        "evidence": "chuck-durations", "give or take": "{portion: 5 g}",
        "steps": "[‹Slice›, {what: ‹Sauce›, amounts: {bone-sauce: 60 ml}}]",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("name", "menu", "cook", "cut", "with_", "portions"), FREE),
        "portion": "weights", "price": "menu prices", "hands_on": "work", "sold": "sales",
        "forecast": "sales", "weighed_portions": "weights",
        "allergens": "allergens", "may_contain": "allergens",
        "seasoning": "weights", "garnish": "prices", "cover_cost": "prices", "steps": "steps",
        "evidence": "tastings",
    }  # fmt: skip

    name: Words | None = Field(None, description="what it is called on the menu")
    menu: Words = Field(description="section of the menu")
    cook: Id | None = Field(None, description="id of the cook on the plate")
    cut: Id | None = Field(None, description="id of a cut without a cook, instead of one")
    portion: PortionSize | None = Field(None, description="servable weight, pieces or slices")
    portions: Annotated[list[Portion], BeforeValidator(_some)] = Field(
        [], description="instead of cook and portion: several, the main one first"
    )
    with_: dict[Id, Amount] = Field({}, description="pantry items by id, with their amounts")
    price: Money = Field(description="price on the menu")
    hands_on: Hours | None = Field(None, description="active work to finish and plate one")
    seasoning: Share | None = Field(
        None, description="its own allowance as a share of the other food, over the kitchen's"
    )
    garnish: Garnish | None = Field(
        None, description="its own trimmings that are not listed, over the kitchen's"
    )
    cover_cost: PlateCover | None = Field(
        None, description="none where its guest gets no cover, or an amount instead of it"
    )
    sold: dict[MonthKey, Whole] = Field({}, description="plates sold, by month")
    forecast: Whole | None = Field(None, description="plates a week that are expected")
    weighed_portions: list[Mass] = Field(
        [], description="main portions as they were weighed on the pass, one by one"
    )
    give_or_take: PlateTolerance | None = Field(
        None, description="how far what is written may lie from the true value, 9 times in 10"
    )
    evidence: Id | None = Field(None, description="id of the tasting that its cook rests on")
    allergens: AllergensStated | None = Field(
        None, description="what it contains beyond its cut and its pantry items"
    )
    may_contain: AllergensStated | None = Field(
        None, description="allergens of which there may be traces, beyond its parts'"
    )
    steps: Steps = Field([], description="how one is put together on the pass, step by step")
    note: Words | None = Field(None, description="free text, Markdown")

    @model_validator(mode="after")
    def _one_form(self) -> Self:
        _one_source(self.cook, self.cut)
        found = (each.place for each in (self.cook, self.cut, self.portion) if each)
        written = next(found, None)
        if self.portions and written:
            hint = tr("keep portions:, or cook: and portion:")
            raise refuse(tr("portions says what is on the plate"), hint, written)
        self.settle()
        return self

    @model_validator(mode="after")
    def _portion_of_a_cook(self) -> Self:
        named = "cook" if self.cook else "cut" if self.cut else ""
        if named and self.portion is None:
            hint = tr("write portion:, such as portion: 180 g")
            raise refuse(tr("a plate with a {named} needs its portion", named=named), hint)
        if not named and self.portion is not None:
            hint = tr("write cook: and its id, or cut: where nothing is cooked")
            raise refuse(tr("a portion needs its cook"), hint, self.portion.place)
        empty = next((each for each in self.weighed_portions if not each.value > 0), None)
        if empty is not None:
            raise refuse(tr("a portion weighs something"), tr("take it out"), empty.place)
        given = self.give_or_take.portion if self.give_or_take else None
        weighed = next(iter((*self.weighed_portions, *([given] if given else ()))), None)
        if self.portion_pieces and weighed:
            hint = tr("write a weight, such as portion: 180 g, or take this out")
            raise refuse(tr("a portion of pieces weighs what they weigh"), hint, weighed.place)
        return self

    def settle(self) -> None:
        """The first of the portions is the main one, wherever it is written."""
        if self.portions and not (self.cook or self.cut):
            first = self.portions[0]
            self.__dict__.update(cook=first.cook, cut=first.cut, portion=first.portion)
        if any(key == "portions" or key.startswith("portions.") for key in self.unread):
            self.__dict__["unread"] = self.unread | {"cook", "cut", "portion"}

    @property
    def served(self) -> tuple[Portion, ...]:
        """Every portion on the plate, the main one first."""
        if self.portions or not (self.cook or self.cut) or self.portion is None:
            return tuple(self.portions)
        main = Portion.model_construct(None, cook=self.cook, cut=self.cut, portion=self.portion)
        return (main,)

    @property
    def further(self) -> tuple[Portion, ...]:
        """The portions beyond the main one."""
        return self.served[1:]

    @property
    def cooks(self) -> tuple[Id, ...]:
        """The ids of all its cooks, each once."""
        named = (self.cook, *(portion.cook for portion in self.portions))
        return tuple(dict.fromkeys(filter(None, named)))

    @property
    def raw_cuts(self) -> tuple[Id, ...]:
        """The ids of the cuts that are on it without a cook, each once."""
        named = (self.cut, *(portion.cut for portion in self.portions))
        return tuple(dict.fromkeys(filter(None, named)))

    @property
    def portion_weight(self) -> Measure | None:
        """The main portion where it is written by weight."""
        return None if self.portion_pieces else self.portion

    @property
    def portion_pieces(self) -> Measure | None:
        """The main portion where it is written by servable pieces."""
        return pieces_of(self.portion)
