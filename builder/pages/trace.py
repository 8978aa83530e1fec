"""The trace of a page: every figure whose home it is, unfolded by one level.

Lookups are followed to where a figure is made, so that a reader steps from
formula to formula and at the end stands on a line of a file.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from builder.engine.model import Model, Node
from builder.engine.tables import Given, Lookup
from builder.engine.wording import how_it_is_made
from builder.pages.components import Part, SourceListing, Trace, TraceInput, TraceRow
from builder.pages.view import View
from builder.pages.whereabouts import RowKey, method_path
from builder.records.base import Record


def trace(view: View, here: str, rows: Iterable[RowKey]) -> Part:
    """The last part of a page: where its figures come from."""
    found = tuple(row for key in rows for row in _rows(view, here, key))
    return Part(
        "trace",
        "Where the figures come from",
        (Trace(found),),
        about="Each figure with its formula and what went into it; a formula's link leads to "
        "its page, a file's link to the line.",
    )


def listing(view: View, record: Record) -> Part:
    """The record's file as it was written, each line an anchor."""
    file = view.costed.content.files[record.file]
    lines = tuple(file.data.decode("utf-8-sig").splitlines())
    return Part("file", "As written", (SourceListing(record.file, lines),))


def _rows(view: View, here: str, key: RowKey) -> Iterator[TraceRow]:
    table, row = key
    figures, home = view.costed.figures, view.where.home(table, row)
    for spoken in _spoken(view.costed.figures.model, table):
        if not math.isfinite(figures.value(table, spoken.name, row)):
            continue
        node = (table, spoken.name)
        label = f"{home.label}: {spoken.label}" if home.label else spoken.label
        yield TraceRow(
            anchor=home.anchor(spoken.name),
            label=label[:1].upper() + label[1:],
            value=view.text(table, spoken.name, row),
            how=spoken.how,
            method_href=spoken.method_href,
            inputs=tuple(
                _written(view, here, node, row) if spoken.given else _inputs(view, here, node, row)
            ),
        )


@dataclass(frozen=True, slots=True)
class _Spoken:
    """What is the same for a figure in every row of its table."""

    name: str
    label: str
    how: str
    method_href: str
    given: bool


@lru_cache(maxsize=64)
def _spoken(model: Model, table: str) -> tuple[_Spoken, ...]:
    return tuple(
        _Spoken(
            definition.name,
            definition.label,
            "" if isinstance(definition.how, Given) else how_it_is_made(definition),
            f"~/{method_path((table, definition.name))}",
            isinstance(definition.how, Given),
        )
        for definition in model.tables[table].figures.values()
        if not isinstance(definition.how, Lookup)
    )


def _written(view: View, here: str, node: Node, row: int) -> Iterator[TraceInput]:
    words, href = view.origin(node, row, here)
    text = view.costed.figures.origin(node, row).text
    yield TraceInput("as written" if text else "taken as", text, origin=words, origin_href=href)


def _inputs(view: View, here: str, node: Node, row: int) -> Iterator[TraceInput]:
    figures = view.costed.figures
    for child, child_row in figures.made_from(node, row):
        source, home_row = view.source(child, child_row)
        if not math.isfinite(figures.value(*source, home_row)):
            continue
        words, href = view.origin(source, home_row, here)
        yield TraceInput(
            label=_label(view, here, source, home_row),
            value=view.text(*source, home_row),
            href=view.home_href(source, home_row, here),
            origin=words,
            origin_href=href,
        )


def _label(view: View, here: str, node: Node, row: int) -> str:
    """The figure's name, with its record's where that is another page's."""
    home = view.where.home(node[0], row)
    label = view.costed.figures.model.definition(node).label
    whose = ", ".join(
        filter(None, ("" if home.page == here else view.where.title(home.page), home.label))
    )
    return f"{whose}: {label}" if whose else label
