"""A record of which some values can't be read: what is left of it can still be checked.

It is the target of links, its own links are followed, its numbers are held to their ranges. It
never goes on to be computed, because what could not be read is an error.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any, TypeVar, cast

from pydantic import ConfigDict, TypeAdapter, ValidationError

from builder.reading.tree import Branch, Node, Row
from builder.records.base import Record, meant_key
from builder.records.tree_paths import tidy_key

R = TypeVar("R", bound=Record)


def partial_record(
    kind: type[R], node: Node | None, context: Mapping[str, str], *, cut_short: bool
) -> R:
    """Make a record of what can be read of a file's tree; it knows what could not be.

    `cut_short`: some of the file's lines were passed over, so that a key which is not there
    may have been among them. A key that a misspelt one stands for can't be read either. Nothing
    is checked that takes several keys of one mapping.
    """
    keys = {tidy_key(key): node[key] for key in node} if isinstance(node, Branch) else {}
    known = kind.known_keys()
    misspelt = {meant_key(key, known) for key in keys if key not in known}
    values: dict[str, Any] = {}
    unread: set[str] = set()
    for name, field in kind.model_fields.items():
        written = keys.get(field.alias or name)
        if written is not None:
            lost = _read(kind, name, written, context, values)
            unread |= {name, *(f"{name}.{each}" for each in lost)} if lost else set()
        elif cut_short or field.is_required() or (field.alias or name) in misspelt:
            unread |= {name, f"{name}.*"}
        if name not in values and field.is_required():
            values[name] = _adapter(kind, name).validate_python(kind.kind.stand_ins[name])
    record = cast("R", kind.model_construct(None, **values))
    record.__dict__["unread"] = frozenset(unread)
    record.settle()
    return record


@cache
def _adapter(kind: type[Record], name: str) -> TypeAdapter[Any]:
    allowed = ConfigDict(arbitrary_types_allowed=True)
    # A union takes the setting whatever its members are; None itself is never passed.
    return TypeAdapter(kind.model_fields[name].rebuild_annotation() | None, config=allowed)


def _read(
    kind: type[Record],
    name: str,
    written: Node,
    context: Mapping[str, str],
    values: dict[str, object],
) -> set[str]:
    """Read one key into `values`, without the entries that can't be; return those, * for all."""
    adapter = _adapter(kind, name)
    try:
        values[name] = adapter.validate_python(written, context=dict(context))
    except ValidationError as error:
        bad = {each["loc"][0] for each in error.errors(include_url=False) if each["loc"]}
        try:
            left = _without(written, bad)
            values[name] = adapter.validate_python(left, context=dict(context))
        except (ValidationError, LookupError):
            return {"*"}
        return {str(each) for each in bad}
    return set()


def _without(node: Node, bad: set[int | str]) -> Node:
    """A mapping or a list without some of its entries; LookupError where nothing would be left."""
    left: Branch | Row
    match node:
        case Branch():
            left = Branch(node.place)
            left.update((k, v) for k, v in node.items() if not {k, tidy_key(k)} & bad)
        case Row():
            left = Row(node.place)
            left.extend(each for n, each in enumerate(node) if n not in bad)
        case _:
            raise LookupError
    if not left or len(left) == len(node):
        raise LookupError
    return left
