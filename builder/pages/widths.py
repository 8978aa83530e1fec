"""How wide the interval is that says how fine a figure is written; twin of `intervals.js: wide`."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import cache, partial
from typing import TypeAlias

from builder.display.chances import interval_width
from builder.engine.figures import Figures
from builder.engine.model import Model, Node
from builder.engine.tables import Applied, FigureDef, Fold, Lookup, Total

Hop: TypeAlias = tuple[Callable[[int], int], Node]
"""What gives the row that a lookup leads to, and the lookup."""


def is_end(definition: FigureDef) -> bool:
    """Whether a figure is an end of the interval of another."""
    return isinstance(definition.how, Applied) and definition.how.follows == "end"


class Widths:
    """How wide the intervals are of one kitchen's figures, or of what they look up; NaN without.

    A figure without an interval of its own has that of the figure that it is as sure as, in
    proportion; a sum at the most those of its parts together. What is the same for all rows of a
    figure is found once.
    """

    def __init__(self, figures: Figures) -> None:
        self._figures = figures
        self._readers: dict[Node, Callable[[int], float]] = {}

    def __call__(self, node: Node, row: int) -> float:
        """How wide the interval is of a figure in one row."""
        if node not in self._readers:
            self._readers[node] = self._reader(node)
        return self._readers[node](row)

    def _reader(self, node: Node) -> Callable[[int], float]:
        figures = self._figures
        if not _can_have_width(figures.model, node):
            return _no_width
        way = figures.model.ways[node]
        hops = [(figures.parents(lookup[0], link), lookup) for lookup, link in way.hops]
        return partial(self._looked_up, hops, self._own(way.end)) if hops else self._own(way.end)

    def _looked_up(
        self, hops: Sequence[Hop], at_the_end: Callable[[int], float], row: int
    ) -> float:
        for parent_of, lookup in hops:
            parent = parent_of(row)
            if parent < 0:
                return self._own(lookup)(row)
            row = parent
        return at_the_end(row)

    def _own(self, node: Node) -> Callable[[int], float]:
        """The width of a figure's own interval, or one that is derived from others'."""
        table, figure = node
        low_end = self._figures.model.tables[table].figures.get(f"{figure}_low")
        if low_end is None or not is_end(low_end):
            return partial(self._derived, node)
        names = (figure, f"{figure}_low", f"{figure}_high")
        value, low, high = (self._figures.reader((table, name)) for name in names)
        return lambda row: interval_width(value(row), low(row), high(row))

    def _derived(self, node: Node, row: int) -> float:
        figures = self._figures
        definition = figures.model.definition(node)
        if definition.as_sure_as:
            behind = node[0], definition.as_sure_as
            other = figures.value(*behind, row)
            share = abs(figures.value(*node, row) / other) if other else math.nan
            return self(behind, row) * share
        if not (isinstance(definition.how, Total) and definition.how.fold is Fold.SUM):
            return math.nan
        widths = [self(*part) for part in figures.made_from(node, row)]
        return math.fsum(filter(math.isfinite, widths)) or math.nan


def _no_width(_row: int) -> float:
    return math.nan


@cache
def _can_have_width(model: Model, node: Node) -> bool:
    """Whether any row of a figure can have a width: most have none, and are asked for often."""
    visited, behind = set[Node](), [node]
    while behind:
        table, figure = node = behind.pop()
        low_end = model.tables[table].figures.get(f"{figure}_low")
        if low_end is not None and is_end(low_end):
            return True
        visited.add(node)
        behind += [each for each in _width_from(model, node) if each not in visited]
    return False


def _width_from(model: Model, node: Node) -> list[Node]:
    definition = model.definition(node)
    found = [(node[0], definition.as_sure_as)] if definition.as_sure_as else []
    if isinstance(definition.how, Lookup | Total):
        found.append((definition.how.table, definition.how.figure))
    return found
