"""The trace of a page: every figure whose home it is, unfolded by one level.

Lookups are followed to where a figure is made, so that a reader steps from
formula to formula and at the end stands on a line of a file.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from builder.engine.figures import Step
from builder.engine.model import Node
from builder.engine.tables import FigureDef, Given, Lookup
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
    figures = view.costed.figures
    for definition in figures.model.tables[table].figures.values():
        known = math.isfinite(figures.value(table, definition.name, row))
        if known and not isinstance(definition.how, Lookup):
            yield _row(view, here, definition, row)


def _row(view: View, here: str, definition: FigureDef, row: int) -> TraceRow:
    node = (definition.table, definition.name)
    home = view.where.home(definition.table, row)
    step = view.costed.figures.explain(node, row)
    given = isinstance(definition.how, Given)
    words, href = view.origin(node, row, here) if given else ("", "")
    label = f"{home.label}: {definition.label}" if home.label else definition.label
    return TraceRow(
        anchor=home.anchor(definition.name),
        label=label[:1].upper() + label[1:],
        value=view.text(*node, row),
        how="" if given else how_it_is_made(definition),
        method_href=f"~/{method_path(node)}",
        inputs=(_written(step, words, href),) if given else tuple(_inputs(view, here, step)),
    )


def _written(step: Step, words: str, href: str) -> TraceInput:
    text = step.origin.text if step.origin and step.origin.text else ""
    label = "as written" if text else "taken as"
    return TraceInput(label, text, origin=words, origin_href=href)


def _inputs(view: View, here: str, step: Step) -> Iterator[TraceInput]:
    for child, row in step.made_from:
        node, home = view.source(child, row)
        if not math.isfinite(view.costed.figures.value(*node, home)):
            continue
        yield TraceInput(
            label=_label(view, node, home),
            value=view.text(*node, home),
            href=view.where.figure_href(node, home, here),
            **_origin_of(view, here, node, home),
        )


def _label(view: View, node: Node, row: int) -> str:
    home = view.where.home(node[0], row)
    label = view.costed.figures.model.definition(node).label
    return f"{home.label}: {label}" if home.label else label


def _origin_of(view: View, here: str, node: Node, row: int) -> dict[str, str]:
    if not isinstance(view.costed.figures.model.definition(node).how, Given):
        return {}
    words, href = view.origin(node, row, here)
    return {"origin": words, "origin_href": href}
