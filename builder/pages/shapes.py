"""What a key may hold, read off the record types that the files are checked by."""

from __future__ import annotations

import inspect
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Union, cast, get_args, get_origin

from pydantic import PlainValidator, WithJsonSchema
from pydantic.fields import FieldInfo

from builder.language import Deferred, current_words, spelled, tr
from builder.records.base import Written
from builder.records.hint_examples import example_in_words

WORDS = Deferred("text")
ID = Deferred("the id of a record")
_IN_PLACE: dict[str, str] = {WORDS: Deferred("a few words"), ID: "some-id"}
_NAMES: dict[str, str] = {
    WORDS: Deferred("names"),
    ID: Deferred("ids"),
    "a month": Deferred("months"),
    "a taster's code": Deferred("taster's codes"),
}
_SUCH_AS = re.compile(r"such as ([\w-]+(?: \d+)?)")
_LISTED = re.compile(r"([\w -]+?), .*\.\.\.$")


@dataclass(frozen=True, slots=True)
class Shape:
    """What may stand at a key: in words, as an example, and the keys that it has itself."""

    words: str
    example: str
    model: type[Written] | None = None


@dataclass(frozen=True, slots=True)
class Key:
    """One key of a record type."""

    name: str
    about: str
    shape: Shape
    needed: bool
    default: object


def keys_of(kind: type[Written]) -> tuple[Key, ...]:
    """The keys of a record type: those that are needed, its own, those that it inherits."""
    return _keys_in(current_words(), kind)


@cache
def _keys_in(_words: str, kind: type[Written]) -> tuple[Key, ...]:
    own = inspect.get_annotations(kind)
    names = sorted(kind.model_fields, key=lambda name: name not in own)
    keys = [_key(kind, name, kind.model_fields[name]) for name in names]
    return tuple(sorted(keys, key=lambda key: not key.needed))


def shape_of(annotation: object, metadata: tuple[object, ...] = ()) -> Shape:
    """What a type annotation of a record lets a person write.

    >>> shape_of(bool, (WithJsonSchema({"description": "yes or no", "examples": ["yes"]}),))
    Shape(words='yes or no', example='yes', model=None)
    """
    origin, arguments = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        return shape_of(arguments[0], tuple(arguments[1:]))
    if origin in {Union, UnionType}:
        (inner,) = (argument for argument in arguments if argument is not NoneType)
        return shape_of(inner, metadata)
    if origin is list:
        return _listed(shape_of(arguments[0]))
    if origin is dict:
        return _named(shape_of(arguments[0]), shape_of(arguments[1]))
    if inspect.isclass(annotation) and issubclass(annotation, Written):
        return Shape(tr("keys of its own"), _flow(annotation), annotation)
    return _scalar(metadata)


def shortest(kind: type[Written]) -> dict[str, str]:
    """The fewest keys that a file of the kind can have, with an example for each."""
    keys = keys_of(kind)
    needed = [key for key in keys if key.needed]
    short = [key for key in keys if key.name in kind.short_for[:1]]
    first = [key for key in keys if key.shape.words != WORDS][:1] or keys[:1]
    found = [key for key in keys if key in needed or key in short] or first
    return {key.name: key.shape.example for key in found}


def models_within(kind: type[Written]) -> list[type[Written]]:
    """The record types that stand within one, each once, in the order in which they appear."""
    found: dict[type[Written], None] = {}

    def visit(model: type[Written]) -> None:
        for key in keys_of(model):
            inner = key.shape.model
            if inner is not None and inner not in found:
                found[inner] = None
                visit(inner)

    visit(kind)
    return list(found)


def _key(kind: type[Written], name: str, field: FieldInfo) -> Key:
    key, about = field.alias or name, field.description or ""
    shape = shape_of(field.annotation, tuple(field.metadata))
    if shape.words == WORDS:
        shape = Shape(tr(WORDS), _example_within(about))
    if own := _own_example(kind, key):
        shape = replace(shape, example=own)
    default = None if field.is_required() else field.default
    return Key(key, about, shape, field.is_required(), default)


def _own_example(kind: type[Written], key: str) -> str:
    """The example that a record type, or one that it builds on, has for a key."""
    types = (base for base in kind.__mro__ if issubclass(base, Written))
    found = (base.examples[key] for base in types if key in base.examples)
    return example_in_words(next(found, ""))


def _example_within(about: str) -> str:
    """The example that a description gives in passing."""
    found = _SUCH_AS.search(about) or _LISTED.match(about)
    return found[1] if found else tr("a few words")


def _listed(inner: Shape) -> Shape:
    words = tr("list, each with keys") if inner.model else tr("list: {inner}", inner=inner.words)
    return Shape(words, f"[{inner.example}]", inner.model)


def _named(key: Shape, inner: Shape) -> Shape:
    name = "name" if key.words == WORDS else key.example
    names = tr(_NAMES[key.words])
    words = tr(
        "{names}, each with {keys}", names=names, keys=tr("keys") if inner.model else inner.words
    )
    return Shape(words, f"{{{name}: {inner.example}}}", inner.model)


def _flow(kind: type[Written]) -> str:
    """The shortest way to write a mapping of the kind on one line."""
    if kind.short_for:
        examples = {key.name: key.shape.example for key in keys_of(kind)}
        short = [examples[name] for name in kind.short_for]
        return short[0] if len(kind.short_for) == 1 else f"[{', '.join(short)}]"
    inside = ", ".join(f"{key}: {example}" for key, example in shortest(kind).items())
    return f"{{{inside}}}"


def _scalar(metadata: tuple[object, ...]) -> Shape:
    for item in metadata:
        if isinstance(item, WithJsonSchema) and item.json_schema:
            words = str(item.json_schema["description"])
            return Shape(
                Deferred(words), _IN_PLACE.get(words, str(item.json_schema["examples"][0]))
            )
    choices = [word for item in metadata for word in choices_of(item)]
    if choices:
        return Shape(tr("one of: {choices}", choices=spelled(", ".join(choices))), choices[0])
    return Shape(WORDS, _IN_PLACE[WORDS])


def choices_of(item: object) -> Iterator[str]:
    """The words that a reader made by `one_of` knows."""
    if isinstance(item, PlainValidator) and inspect.isfunction(item.func):
        yield from cast("tuple[str, ...]", inspect.getclosurevars(item.func).nonlocals["known"])
