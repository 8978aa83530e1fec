"""A figure as a view writes it, row after row: what all rows share is found once.

Pages ask for single figures by the million, and finding out anew each time what unit one has,
where its lookups lead and whether it has an interval took more time than writing it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING

from builder.engine.model import Node
from builder.pages.components import Cell, Text, Tone
from builder.pages.item_units import counts_by_item
from builder.pages.values import is_written_near
from builder.pages.whereabouts import reference_to
from builder.pages.widths import is_end
from builder.pages.withheld import WITHHELD

if TYPE_CHECKING:
    from builder.pages.view import View  # for types alone, as a view makes these (PLC0415)


class Asked:
    """One figure of a view."""

    __slots__ = (
        "_beside", "_hops", "_in_kg", "_limited", "_near", "_node", "_number", "_reference",
        "_unit", "_view", "hidden",
    )  # fmt: skip

    def __init__(self, view: View, node: Node) -> None:
        definition, figures = view.definition(*node), view.costed.figures
        way = figures.model.ways[node]
        self._view, self._node, self._unit = view, node, definition.unit
        self.hidden = node in view.hidden
        self._near = f"{definition.unit} near" if is_written_near(definition.unit) else ""
        self._in_kg = not counts_by_item(node[0])
        self._limited = bool(definition.limit) and (node[0], definition.limit) not in view.hidden
        self._beside = definition.limit, definition.name.rpartition("_")[0], is_end(definition)
        self._number: Callable[[int], float] = figures.reader(node)
        self._hops = tuple(figures.parents(lookup[0], link) for lookup, link in way.hops)
        self._reference = reference_to(way.end)

    def text(self, row: int) -> Text:
        """The figure as text in its unit, no finer than its interval is wide where it has one."""
        return WITHHELD if self.hidden else self._written(self._number(row), row)

    def _written(self, value: float, row: int) -> Text:
        view, (table, figure) = self._view, self._node
        per = "kg" if self._in_kg else view.per(table, row)
        if self._near:
            width = view.width(table, figure, row)
            if math.isfinite(width):
                return view.shown(self._near, value, per, value + width)
        return view.shown(self._unit, value, per, self._limit(value, row))

    def _limit(self, value: float, row: int) -> float | None:
        """What it is not written across; of the only end of an interval the plain value."""
        if not self._limited:
            return None
        limited_by, plain, end = self._beside
        limit = self._view.number(self._node[0], limited_by, row)
        if math.isfinite(limit) or not end:
            return limit
        return value + self._view.width(self._node[0], plain, row)

    def href(self, row: int) -> str:
        """The reference to the figure where lookups lead; empty where one has no row."""
        if self.hidden:
            return ""
        for parent_of in self._hops:
            row = parent_of(row)
            if row < 0:
                return ""
        return f"{self._reference}{row}"

    def cell(self, row: int, tone: Tone, note: Text) -> Cell:
        """A table cell: text, sort value, and the reference to the figure."""
        if self.hidden:
            return Cell(WITHHELD)
        number = self._number(row)
        text = self._written(number, row)
        if not math.isfinite(number):
            return Cell(text, tone=tone, note=note)
        return Cell(text, sort=number, href=self.href(row), tone=tone, note=note)
