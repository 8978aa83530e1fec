"""How an item is sold: by the case, the piece or in steps, from how much on, with what deposit."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Annotated, ClassVar, Self

from pydantic import BeforeValidator, Field, PlainValidator, ValidationInfo, model_validator

from builder.language import Deferred, tr
from builder.problems import Problem
from builder.quantities import (
    PACK_WORDS,
    Dimension,
    QuantityError,
    pack_word,
    parse_pack_price,
    parse_quantity,
)
from builder.reading.tree import Branch, Row, Text
from builder.records.base import Written, branch_of
from builder.records.fields import (
    Amount,
    Measure,
    Money,
    price_per_unit,
    quantity,
    refuse,
    scalar,
    schema,
)
from builder.records.tree_paths import tidy_key

D = Dimension
_WORD = re.compile(rf"(?:{PACK_WORDS})(?:s|es)?", re.IGNORECASE)
# A word and a size in another order, or without the "of" between them.
_LOOSE = re.compile(
    rf"(?P<word>{PACK_WORDS})(?:s|es)?\s+(?P<size>[0-9].*)"
    rf"|(?P<size2>[0-9].*?)\s+(?P<word2>{PACK_WORDS})(?:s|es)?",
    re.IGNORECASE,
)
_SEVERAL = re.compile(
    rf"(?P<count>[0-9]+)\s+(?P<word>{PACK_WORDS})(?P<more>s|es)?(?:\s+of\s+(?P<size>.+))?",
    re.IGNORECASE,
)
_ABOUT = re.compile(r"(?:about|around|approx\.?|ca\.?|~|≈)\s*", re.IGNORECASE)
# The ways of selling that one line names, each with the key that it is short for.
_IN_SHORT = (
    ("steps", re.compile(r"steps?\s+of\s+(.+)", re.IGNORECASE)),
    ("minimum", re.compile(r"minimum\s+(?:of\s+)?(.+)", re.IGNORECASE)),
    ("piece", re.compile(r"(?:by\s+the\s+)?pieces?\b[\s,]*(?:of\s+)?(.*)", re.IGNORECASE)),
)
_SIZE_WANTED = Deferred("a pack with its size, for example case of 10 kg")


@dataclass(frozen=True, slots=True)
class PackSize(Measure):
    """What is in one pack, and what the pack is called; a bare size is a pack."""

    word: str = "pack"


@dataclass(frozen=True, slots=True)
class PackPrice(Measure):
    """A price of a pack of this name, before anybody has said how much is in it."""

    word: str = ""


def _pack(node: object) -> PackSize:
    text = scalar(node, tr(_SIZE_WANTED))
    line = " ".join(text.split())
    if _WORD.fullmatch(line):
        hint = tr("write what is in it, such as {line} of 10 kg", line=line)
        raise refuse(tr('"{text}" does not say what is in it', text=text), hint, text.place)
    several = _SEVERAL.fullmatch(line)
    if several and several["size"]:
        hint = tr(
            "write {several} of {several2}, and minimum: {several3} ",
            several=several["word"],
            several2=several["size"],
            several3=several["count"],
        )
        hint += several["word"] + (several["more"] or "")
        raise refuse(tr('"{text}" is several packs', text=text), hint, text.place)
    if loose := _LOOSE.fullmatch(line):
        word, size = loose["word"] or loose["word2"], loose["size"] or loose["size2"]
        raise refuse(
            tr('"{text}" is no pack with its size', text=text),
            tr("write {word} of {size}", word=word, size=size),
            text.place,
        )
    word = pack_word(line)
    found = _quantity(line if word else f"pack of {line}", text)
    return PackSize(
        found.value, text.place, str(text), found.dimension, found.resolution, word or "pack"
    )


def _quantity(line: str, text: Text) -> Measure:
    """What is in a pack; of nothing the reader of quantities says so."""
    try:
        found = parse_quantity(line, D.MASS, D.VOLUME, D.COUNT)
    except QuantityError as error:
        hint = error.hint or tr("write how much is in it")
        raise refuse(error.message, hint, text.place) from None
    return Measure(found.value, text.place, str(text), found.dimension, found.resolution)


_WEIGHT = quantity("a weight, for example 1.8 kg", D.MASS)


def _piece(node: object) -> Measure:
    """The usual weight of a piece; what its scale says is what it costs."""
    text = scalar(node, tr("the usual weight of a piece, for example about 1.8 kg"))
    plain = _ABOUT.sub("", text, count=1) if _ABOUT.match(text) else str(text)
    found = _WEIGHT(Text(plain, text.file, text.line, text.column))
    return _some(replace(found, text=str(text)))


def _some(found: Measure) -> Measure:
    if found.value <= 0:
        raise refuse(
            tr("{found} is nothing", found=found.text),
            tr("write more, or take it out"),
            found.place,
        )
    return found


_AMOUNT = quantity("an amount, for example 5 kg or 2 cases", D.MASS, D.VOLUME, D.COUNT)


def _least(node: object) -> Measure:
    """The smallest order: an amount, or a number of packs, which has no dimension."""
    text = scalar(node, tr("an amount, for example 5 kg or 2 cases"))
    packs = _SEVERAL.fullmatch(" ".join(text.split()))
    if packs and not packs["size"]:
        return _some(Measure(float(packs["count"]), text.place, str(text)))
    return _some(_AMOUNT(text))


def _tidy(node: object) -> object:
    """Say how a pack is written where its word is a key: `{case: 10 kg}`."""
    for key in node if isinstance(node, Branch) else ():
        if _WORD.fullmatch(word := tidy_key(key)) and word != "pack":
            value = node[key] if isinstance(node, Branch) else ""
            size = value if isinstance(value, Text) and value else tr("what is in it")
            raise refuse(
                tr('"{key}" is a pack', key=key),
                tr("write pack: {word} of {size}", word=word, size=size),
                key.place,
            )
    return node


Pack = Annotated[
    Measure, PlainValidator(_pack), schema("case of 6 x 2.5 kg", "a pack with its size")
]
Piece = Annotated[Measure, PlainValidator(_piece), schema("about 1.8 kg", "weight")]
Least = Annotated[
    Measure, PlainValidator(_least), schema("5 kg", "weight, volume, count or number of packs")
]


class SoldAs(Written):
    """How an item is sold: `case of 10 kg`, `piece of about 1.8 kg`, `steps of 500 g`, or its keys.

    An order is rounded up to whole ones; a portion costs what it uses.
    """

    short_for: ClassVar[tuple[str, ...]] = ("pack",)
    examples: ClassVar[Mapping[str, str]] = {
        "pack": "case of 6 x 2.5 kg", "piece": "about 1.8 kg", "steps": "500 g",
        "minimum": "5 kg", "deposit": "3.00",
    }  # fmt: skip

    pack: Pack | None = Field(None, description="a case, a crate, a keg ..., with what is in it")
    piece: Piece | None = Field(
        None, description="usual weight of a piece that is priced by what it weighs"
    )
    steps: Amount | None = Field(None, description="smallest step of an order that comes loose")
    minimum: Least | None = Field(None, description="smallest order, such as 5 kg or 2 cases")
    deposit: Money | None = Field(
        None, description="paid for each pack and given back with the empty; no cost of a plate"
    )

    @classmethod
    def _unfold_short(cls, node: Text | Row) -> Branch:
        """One line, told apart by its first word."""
        if isinstance(node, Text):
            for key, form in _IN_SHORT:
                if found := form.fullmatch(" ".join(node.split())):
                    return branch_of(node.place, {key: _sized(node, found[1])})
        return super()._unfold_short(node)

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        ways = [each for each in (self.pack, self.piece, self.steps) if each]
        if len(ways) > 1:
            hint = tr("keep pack, piece or steps")
            raise refuse(tr("an item is sold in one way"), hint, ways[1].place)
        if self.steps:
            _some(self.steps)
        return self

    @property
    def singly(self) -> bool:
        """Whether it is sold in whole pieces of which each has a price of its own."""
        counted = self.steps is not None and self.steps.dimension is D.COUNT
        return counted and self.steps is not None and self.steps.value == 1

    @property
    def step(self) -> Measure | None:
        """What an order is a whole number of; None where any amount is sold."""
        return self.pack or self.piece or self.steps


def _sized(node: Text, size: str) -> Text:
    if not size:
        hint = tr("write its usual weight, such as {split} of about 1.8 kg", split=node.split()[-1])
        raise refuse(tr('"{node}" does not say what one weighs', node=node), hint, node.place)
    return Text(size, node.file, node.line, node.column)


Sold = Annotated[SoldAs, BeforeValidator(_tidy)]


def read_price(node: object, info: ValidationInfo) -> Measure:
    """A price by a unit or a sized pack; of a bare pack a `PackPrice`, which `by_size` settles."""
    text, context = scalar(node, tr("a price, for example 14.80/kg")), info.context or {}
    try:
        found = parse_pack_price(text, context.get("currency"))
    except QuantityError as error:
        raise refuse(error.message, error.hint, text.place) from None
    if found is None:
        return price_per_unit(node, info)
    return PackPrice(found[0], text.place, str(text), word=found[1])


PurchasePrice = Annotated[
    Measure,
    PlainValidator(read_price),
    schema("14.80/kg", "price by weight, volume, count or pack"),
]


def by_size(price: Measure, pack: Measure | None, file: str) -> Measure | Problem:
    """A price of a pack as one of what is in it; a problem where no pack of its name has a size."""
    if not isinstance(price, PackPrice):
        return price
    word = price.word
    if pack is None:
        sized = tr("write what is in one, such as {price} of 10 kg", price=price.text)
        hint = tr("{sized}, or say it under sold as: in {file}", sized=sized, file=file)
        return Problem(price.place, tr("how much a {word} holds is not said", word=word), hint)
    called = pack.word if isinstance(pack, PackSize) else "pack"
    if called not in {word, "pack"}:
        amount = re.split(r"\s*/|\s+per\s", price.text, maxsplit=1)[0]
        message = tr(
            "the price is for a {word}, and it is sold by the {called}", word=word, called=called
        )
        return Problem(
            price.place, message, tr("write {amount}/{called}", amount=amount, called=called)
        )
    return replace(price, value=price.value / pack.value, dimension=pack.dimension)


def pack_in_price(price: Measure | None) -> PackSize | None:
    """The pack that a price names with its size, such as 46.80/case of 6 x 2.5 kg."""
    per = re.split(r"\s*/\s*|\s+per\s+", price.text, maxsplit=1)[1:] if price else []
    if not price or not per or not (word := pack_word(per[0])):
        return None
    found = parse_quantity(per[0])
    return PackSize(found.value, price.place, per[0], found.dimension, found.resolution, word)


def _each(price: Measure | None) -> Measure | None:
    """One whole piece, where the price is of one: nobody sells half of it."""
    if price is None or price.dimension is not D.COUNT or pack_in_price(price):
        return None
    return Measure(1.0, price.place, "each", D.COUNT)


def settled(price: Measure | None, row: SoldAs | None, own: SoldAs | None) -> SoldAs | None:
    """How an item is sold as its price's row says, else its file, else the price itself; by keys.

    What is priced each is sold each. None where nobody says.
    """
    if row and own and row.step and not row.pack:
        own = _without_packs(own)
    parts = [each for each in (row, own) if each]
    way = next((each for each in parts if each.step), None)
    found = {
        "pack": way.pack if way else pack_in_price(price),
        "piece": way.piece if way else None,
        "steps": way.steps if way else _each(price),
        "minimum": next((each.minimum for each in parts if each.minimum), None),
        "deposit": next((each.deposit for each in parts if each.deposit), None),
    }
    return SoldAs.model_construct(None, **found) if any(found.values()) else None


def _without_packs(sold: SoldAs) -> SoldAs:
    """What is said of packs means nothing where a list sells in another way."""
    least = sold.minimum
    by_amount = least if least and least.dimension else None
    return sold.model_copy(update={"deposit": None, "minimum": by_amount})
