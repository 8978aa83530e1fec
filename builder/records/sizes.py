"""Weights that may be written as a number: of pieces that go in, of pieces or slices served."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import PlainValidator, ValidationInfo

from builder.language import Deferred, tr
from builder.quantities import Dimension, Quantity, QuantityError, parse_quantity, written_like
from builder.quantities.units import USUAL
from builder.records.fields import Measure, read_with, schema
from builder.records.own_words import (
    SLICE,
    counted,
    is_named,
    names_in,
    with_number,
    word_of,
)

_MASS, _COUNT = Dimension.MASS, Dimension.COUNT
_A_PORTION = Deferred("a weight or a number of pieces, for example 180 g, 1 piece or 3 slices")
_A_WEIGHT = Deferred("a weight, for example 7.5 kg")
_A_SLICE = Deferred("what one weighs or how many a piece gives, for example 28 g or 12")


@dataclass(frozen=True, slots=True)
class Counted(Measure):
    """What was written as a number of something, such as `3 slices` or `6 pieces`.

    `counted` is the text of the file; `value` and `text` are the number until what one comes to
    is known (`unsettled`), then the weight, or the share of a piece.
    """

    counted: str = ""
    unsettled: bool = True

    @property
    def word(self) -> str:
        """What is counted, as it was written."""
        return word_of(self.counted)

    def weighing(self, one: Measure) -> Counted:
        """So many times the weight of one, as precise as that was written."""
        total = self.value * one.value
        text = written_like(one.text, total)
        resolution = self.value * one.resolution
        return Counted(total, self.place, text, one.dimension, resolution, self.counted, False)

    def out_of(self, number: float) -> Counted:
        """The share of a piece that gives so many."""
        return replace(self, value=self.value / number, unsettled=False)


def is_sliced(size: Measure | None) -> bool:
    """Whether a portion is written in slices, and how large they are is not known yet."""
    return isinstance(size, Counted) and size.unsettled and is_named(size.word, SLICE)


def _in_portions(node: object, info: ValidationInfo) -> Measure:
    """A portion's size; what counts in a portion are pieces and slices, never dozens or cases."""
    names = (SLICE, *names_in(info.context))
    found, text = read_with(
        node, tr(_A_PORTION), lambda line: counted(line, names) or _portion(line)
    )
    if counted(text, names):
        return Counted(found.value, text.place, str(text), _COUNT, found.resolution, str(text))
    return Measure(found.value, text.place, str(text), found.dimension, found.resolution)


def _portion(line: str) -> Quantity:
    try:
        return parse_quantity(line, _MASS, _COUNT)
    except QuantityError as error:
        hint = error.hint.replace(USUAL[_COUNT], "piece, slice")
        if word_of(line) and error.own_word:
            hint = tr("{hint}; its cook may call a piece so, as name under piece", hint=hint)
        raise QuantityError(error.message, hint) from error


def _weighed(node: object, info: ValidationInfo) -> Measure:
    """A weight, or a number of pieces that their record says the weight of."""
    names = names_in(info.context)
    found, text = read_with(node, tr(_A_WEIGHT), lambda line: _pieces(line, names) or _mass(line))
    if found.dimension is _COUNT:
        return Counted(found.value, text.place, str(text), _COUNT, found.resolution, str(text))
    return Measure(found.value, text.place, str(text), _MASS, found.resolution)


def _pieces(line: str, names: Iterable[str]) -> Quantity | None:
    """A number of pieces, in one of their names too; None of what is none."""
    try:
        return counted(line, names) or parse_quantity(line, _COUNT)
    except QuantityError:
        return None


_IN_PIECES = Deferred("write {number} pieces, or call a piece so, as name under piece; {hint}")


def _mass(line: str) -> Quantity:
    try:
        return parse_quantity(line, _MASS)
    except QuantityError as error:
        raise with_number(error, line, _IN_PIECES) from error


def _slices(node: object) -> Measure:
    """What one slice weighs, or how many a piece gives."""
    found, text = read_with(node, tr(_A_SLICE), _slice)
    return Measure(found.value, text.place, str(text), found.dimension, found.resolution)


def _slice(line: str) -> Quantity:
    whole = line.strip().isdecimal()
    return parse_quantity(f"{line} each", _COUNT) if whole else parse_quantity(line, _MASS)


PortionSize = Annotated[
    Measure,
    PlainValidator(_in_portions),
    schema("180 g", "weight, or number of servable pieces or slices"),
]
WeighedIn = Annotated[
    Measure, PlainValidator(_weighed), schema("7.5 kg", "weight, or number of whole pieces")
]
SliceSize = Annotated[
    Measure, PlainValidator(_slices), schema("28 g", "weight of one, or how many a piece gives")
]
