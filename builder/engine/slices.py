"""The part of a computed book that some rows rest on, computed again with many draws.

Ten thousand plates times thousands of draws are too many for one column, and most figures
move with no draw at all. A slice takes some rows with all that their targets are computed
from, numbers them afresh, and computes only what lies between the drawn inputs and the
targets; everything else it takes from the computed book.
"""

from __future__ import annotations

from collections import Counter, defaultdict, deque
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from builder.engine.arith import Column
from builder.engine.book import Links
from builder.engine.figures import Figures, run
from builder.engine.model import Model, Node
from builder.engine.tables import Lookup, Running, Total

RowNumbers = NDArray[np.intp]
Drawn = Callable[[RowNumbers], Column | None]
"""Gives the drawn column of a figure for some rows of the book; None where none is drawn."""


class Slice:
    """Rows of a computed book, with every row that figures of theirs are computed from."""

    def __init__(self, figures: Figures, start: Mapping[str, RowNumbers], targets: Iterable[Node]):
        self.model: Model = figures.model
        self._figures = figures
        self._targets = tuple(targets)
        self._needed = self.model.upstream(self._targets) | set(self._targets)
        self.rows = _closure(figures, start, self._needed)
        self._links = dict(_relinked(figures, self.rows))

    def size(self, table: str) -> int:
        """Number of rows of a table in the slice."""
        return len(self.rows[table])

    def given(self, node: Node) -> Column:
        """The plain values of a figure in the slice's rows, shape (rows, 1)."""
        return self._figures.column(*node)[self.rows[node[0]]]

    def computed(self, drawn: Mapping[Node, Drawn]) -> dict[Node, Column]:
        """Compute the targets with drawn inputs, each of shape (rows, draws) or (rows, 1).

        `drawn` gives the columns of inputs, or of figures that are known already.
        """
        moved = {
            node: column
            for node, draw in drawn.items()
            if node in self._needed and (column := draw(self.rows[node[0]])) is not None
        }
        dirty = (self.model.downstream(moved) & self._needed) - set(moved)
        stages = [stage for stage in self.model.stages if dirty.intersection(stage.nodes)]
        uses = Counter(need for node in dirty for need in self.model.needs[node])
        uses.update(self._targets)
        columns: dict[Node, Column] = dict(moved)
        for stage in stages:
            for need in _outside(self.model, stage.nodes):
                if need not in columns:
                    columns[need] = self.given(need)
            columns = run(self, self._links, columns, [stage])
            # A column is let go once nothing needs it: a block of draws is to fit the cache.
            for need in (need for node in stage.nodes for need in self.model.needs[node]):
                uses[need] -= 1
                if not uses[need]:
                    columns.pop(need, None)
        return {node: columns.get(node, self.given(node)) for node in self._targets}


def _outside(model: Model, nodes: Sequence[Node]) -> set[Node]:
    return {need for node in nodes for need in model.needs[node]} - set(nodes)


_NONE = np.empty(0, dtype=np.intp)
Edge = tuple[str, str, str]


def edges(model: Model, needed: Iterable[Node]) -> Iterator[tuple[bool, Edge]]:
    """The links that the needed figures look along, up to a parent or down to children."""
    for node in needed:
        match model.definition(node).how:
            case Lookup(link=link, table=target):
                yield True, (node[0], link, target)
            case Total(table=child, link=link):
                yield False, (child, link, node[0])
            case Running(link=link):
                edge = node[0], link, model.tables[node[0]].links[link]
                yield from ((True, edge), (False, edge))


def _closure(
    figures: Figures, start: Mapping[str, RowNumbers], needed: Iterable[Node]
) -> dict[str, RowNumbers]:
    """By table the rows that the needed figures of the first rows rest on, in their order."""
    ways: dict[str, list[tuple[bool, Edge]]] = defaultdict(list)
    for up, edge in sorted(set(edges(figures.model, needed))):
        ways[edge[0] if up else edge[2]].append((up, edge))
    chosen: dict[str, RowNumbers] = {}
    waiting = deque(start.items())
    while waiting:
        table, rows = waiting.popleft()
        known = chosen.get(table, _NONE)
        new = np.setdiff1d(rows, known)
        if not len(new):
            continue
        chosen[table] = np.union1d(known, new)
        for up, (child, link, parent) in ways[table]:
            if up:
                linked = figures.links(child, link)[new]
                waiting.append((parent, linked[linked >= 0]))
            else:
                waiting.append((child, figures.children_of(child, link, new)))
    return {name: chosen.get(name, _NONE) for name in figures.model.tables}


def _relinked(figures: Figures, rows: Mapping[str, RowNumbers]) -> Iterator[tuple[Node, Links]]:
    """Every link between rows of the slice, in its own numbers; -1 for one that leads out."""
    own = {}
    for name, kept in rows.items():
        own[name] = np.full(figures.size(name) + 1, -1, dtype=np.intp)
        own[name][kept] = np.arange(len(kept))
    for table in figures.model.tables.values():
        for link, parent in table.links.items():
            yield (table.name, link), own[parent][figures.links(table.name, link)[rows[table.name]]]
