"""The trace of a page: every figure whose home it is, unfolded by one level.

Lookups are followed to where a figure is made, so that a reader steps from
formula to formula and at the end stands on a line of a file.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from builder.engine.figures import Figures
from builder.engine.model import Model, Node
from builder.engine.tables import Given, Lookup
from builder.engine.wording import how_it_is_made
from builder.pages.components import Part, SourceListing, Trace, TraceGroup, TraceInput, TraceRow
from builder.pages.values import capital, in_mass_unit
from builder.pages.view import View
from builder.pages.whereabouts import RowKey, method_path
from builder.records.base import Record

MOST_OPEN = 12
# What a reader looks for together stands together; `{}` is the row's own label.
GROUPS = {
    "accompaniment": "Accompaniments",
    "batch": "This batch",
    "byproduct": "Stage: {}",
    "consumable": "Consumables",
    "cut": "This cut",
    "equipment": "Equipment: {}",
    "ingredient": "Ingredients",
    "kitchen": "This kitchen",
    "order": "Buying",
    "pantry": "This item",
    "part": "Test: {}",
    "plate": "This plate",
    "section": "Section: {}",
    "stage": "Stage: {}",
    "step": "In the batch: {}",
    "swap": "Challenger: {}",
    "test": "Test: {}",
}

# Rows that share a group are told apart by their label.
LABELLED = {"accompaniment", "byproduct", "consumable", "ingredient", "order", "part"}

RowOf = tuple[Node, int]
"""A figure in a row."""


def trace(view: View, here: str, rows: Iterable[RowKey]) -> Part:
    """The last part of a page: where its figures come from, row by row."""
    groups: dict[str, list[TraceRow]] = {}
    for key in rows:
        groups.setdefault(_group(view, key), []).extend(_rows(view, here, key))
    found = tuple(TraceGroup(name, tuple(inside)) for name, inside in groups.items() if inside)
    few = sum(len(group.rows) for group in found) <= MOST_OPEN
    return Part(
        "trace",
        "Where the figures come from",
        (Trace(found, open=few),),
        about="Each figure with its formula and what went into it; a formula's link leads to "
        "its page, a file's link to the line.",
    )


def _group(view: View, key: RowKey) -> str:
    """The words over a row's figures; a part stands with its test or its stage."""
    figures, (table, row) = view.costed.figures, key
    upper = {"part": "test", "byproduct": "stage"}.get(table)
    owner = key if upper is None else (upper, figures.linked(table, upper, row))
    return GROUPS.get(table, f"{table.capitalize()}: {{}}").format(view.where.home(*owner).label)


def listing(view: View, record: Record) -> Part:
    """The record's file as it was written, each line an anchor."""
    file = view.costed.content.files[record.file]
    lines = tuple(file.data.decode("utf-8-sig").splitlines())
    return Part("file", "As written", (SourceListing(record.file, lines),))


def _rows(view: View, here: str, key: RowKey) -> Iterator[TraceRow]:
    table, row = key
    figures, home = view.costed.figures, view.where.home(table, row)
    # A row's own figures go into one another again and again: each is worded once.
    own: dict[Node, TraceInput] = {}
    for spoken in _spoken(figures.model, table):
        if not math.isfinite(figures.value(table, spoken.name, row)):
            continue
        label = f"{home.label}: {spoken.label}" if table in LABELLED else spoken.label
        yield TraceRow(
            anchor=home.anchor(spoken.name),
            label=capital(in_mass_unit(view.style, label)),
            value=view.text(table, spoken.name, row),
            how=in_mass_unit(view.style, spoken.how),
            method_href=spoken.method_href,
            inputs=tuple(
                _written(view, here, spoken.node, row)
                if spoken.given
                else _inputs(view, here, key, spoken, own)
            ),
        )


@dataclass(frozen=True, slots=True)
class _Spoken:
    """What is the same for a figure in every row of its table."""

    node: Node
    label: str
    how: str
    method_href: str
    given: bool

    @property
    def name(self) -> str:
        """The figure's name in its table."""
        return self.node[1]


@lru_cache(maxsize=64)
def _spoken(model: Model, table: str) -> tuple[_Spoken, ...]:
    return tuple(
        _Spoken(
            (table, definition.name),
            definition.label,
            "" if isinstance(definition.how, Given) else how_it_is_made(definition),
            f"~/{method_path((table, definition.name))}",
            isinstance(definition.how, Given),
        )
        for definition in model.tables[table].figures.values()
        if not isinstance(definition.how, Lookup)
    )


def _children(figures: Figures, node: Node, row: int) -> Iterator[RowOf]:
    """What one value was made from, lookups followed; a link to nothing leaves it out."""
    for made in figures.made_from(node, row):
        source = figures.source(*made)
        if not isinstance(figures.model.definition(source[0]).how, Lookup):
            yield source


def _written(view: View, here: str, node: Node, row: int) -> Iterator[TraceInput]:
    words, href = view.origin(node, row, here)
    text = view.costed.figures.origin(node, row).text
    yield TraceInput("as written" if text else "taken as", text, origin=words, origin_href=href)


def _inputs(
    view: View, here: str, key: RowKey, spoken: _Spoken, own: dict[Node, TraceInput]
) -> Iterator[TraceInput]:
    figures = view.costed.figures
    for node, row in _children(figures, spoken.node, key[1]):
        if not math.isfinite(figures.value(*node, row)):
            continue
        if (node[0], row) == key:
            if node not in own:
                own[node] = _one_input(view, node, row, here)
            yield own[node]
        elif view.where.home(node[0], row).page == here:
            yield _one_input(view, node, row, here)
        else:
            # Seen from another page an input always looks the same, so it is kept.
            yield _foreign(view, node, row)


@lru_cache(maxsize=1 << 13)
def _foreign(view: View, node: Node, row: int) -> TraceInput:
    return _one_input(view, node, row, "")


def _one_input(view: View, node: Node, row: int, here: str) -> TraceInput:
    """One value that a figure was made from, as the page `here` shows it."""
    home = view.where.home(node[0], row)
    label = view.label(*node)
    # The record is named where the figure stands on another page than its own.
    whose = ", ".join(
        filter(None, ("" if home.page == here else view.where.title(home.page), home.label))
    )
    words, href = view.origin(node, row, here)
    return TraceInput(
        label=f"{whose}: {label}" if whose else label,
        value=view.text(*node, row),
        href=view.where.figure_href(node, row, here),
        origin=words,
        origin_href=href,
    )
