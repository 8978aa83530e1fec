"""How wide the interval is that says how fine a figure is written; twin of `intervals.js: wide`."""

from __future__ import annotations

import math
from functools import cache

from builder.display.chances import interval_width
from builder.engine.figures import Figures
from builder.engine.model import Model, Node
from builder.engine.tables import Applied, FigureDef, Fold, Lookup, Total


def is_end(definition: FigureDef) -> bool:
    """Whether a figure is an end of the interval of another."""
    return isinstance(definition.how, Applied) and definition.how.follows == "end"


def width_of(figures: Figures, node: Node, row: int) -> float:
    """How wide the interval is of a figure, or of the one it looks up; NaN without one.

    One without an interval of its own has that of the figure that it is as sure as, in
    proportion; a sum at the most those of its parts together.
    """
    if not _can_have_width(figures.model, node):
        return math.nan
    (table, figure), row = figures.source(node, row)
    low_end = figures.model.tables[table].figures.get(f"{figure}_low")
    if low_end is None or not is_end(low_end):
        return _derived(figures, (table, figure), row)
    value, low, high = (
        figures.value(table, name, row) for name in (figure, f"{figure}_low", f"{figure}_high")
    )
    return interval_width(value, low, high)


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


def _derived(figures: Figures, node: Node, row: int) -> float:
    definition = figures.model.definition(node)
    if definition.as_sure_as:
        behind = node[0], definition.as_sure_as
        other = figures.value(*behind, row)
        share = abs(figures.value(*node, row) / other) if other else math.nan
        return width_of(figures, behind, row) * share
    if not (isinstance(definition.how, Total) and definition.how.fold is Fold.SUM):
        return math.nan
    widths = [width_of(figures, *part) for part in figures.made_from(node, row)]
    return math.fsum(filter(math.isfinite, widths)) or math.nan
