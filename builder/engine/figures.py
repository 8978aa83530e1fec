"""Computing every figure of a book, and asking where one came from.

One call of a formula's body computes a whole column. Columns have the shape
(rows, draws): one draw for the plain answer, many for a Monte Carlo run or for
a range of what-ifs, with the same bodies.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Protocol

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from builder.engine.arith import Column
from builder.engine.book import Book, Identity, Links, Origin
from builder.engine.model import Model, Node, Stage
from builder.engine.tables import (
    Applied,
    Entered,
    FigureDef,
    Fold,
    Formula,
    Given,
    Lookup,
    Running,
    Total,
)

_UFUNC: Mapping[Fold, tuple[np.ufunc, float]] = {
    Fold.SUM: (np.add, 0.0),
    Fold.COUNT: (np.add, 0.0),
    Fold.PRODUCT: (np.multiply, 1.0),
    Fold.LEAST: (np.fmin, np.inf),
    Fold.MOST: (np.fmax, -np.inf),
}
# Rows of so many columns are folded one by one.
_LONG_ROW = 500


@dataclass(frozen=True, slots=True)
class TraceStep:
    """One value unfolded by one level: its definition, its origin, what it was made from."""

    node: Node
    row: int
    value: float
    definition: FigureDef
    origin: Origin | None
    made_from: tuple[tuple[Node, int], ...]


class Inputs(Protocol):
    """What a computation starts from: a book, or the part of one that some rows rest on."""

    @property
    def model(self) -> Model:
        """The model that orders the figures."""

    def size(self, table: str) -> int:
        """Number of rows in a table."""

    def given(self, node: Node) -> Column:
        """The column of a figure that is entered with its rows."""


class Figures:
    """All columns of a book; immutable once computed."""

    def __init__(
        self, book: Book, columns: Mapping[Node, Column], links: Mapping[Node, Links]
    ) -> None:
        self._book = book
        self._columns = columns
        self._links = links
        # Pages ask for single values by the million: a view answers several times faster
        # than its array, and takes no memory of its own in any of the processes that ask.
        self._values: dict[Node, memoryview] = {}
        self._parents: dict[Node, memoryview] = {}
        self._groups: dict[Node, _Groups] = {}

    @property
    def model(self) -> Model:
        """The model that these figures were computed by."""
        return self._book.model

    def column(self, table: str, figure: str) -> Column:
        """All values of a figure, shape (rows, draws)."""
        return self._columns[table, figure]

    def value(self, table: str, figure: str, row: int) -> float:
        """One value of the plain computation (the first draw)."""
        try:
            return self._values[table, figure][row]
        except KeyError:
            return self.reader((table, figure))(row)

    def reader(self, node: Node) -> Callable[[int], float]:
        """What gives the values of one figure, row by row: for who asks for many."""
        if node not in self._values:
            self._values[node] = self._columns[node][:, 0].data
        return self._values[node].__getitem__

    def size(self, table: str) -> int:
        """Number of rows in a table."""
        return self._book.size(table)

    def identity(self, table: str, row: int) -> Identity:
        """Who a row is."""
        return self._book.identity(table, row)

    def linked(self, table: str, link: str, row: int) -> int:
        """The row that a link points to, -1 for none."""
        return self.parents(table, link)(row)

    def parents(self, table: str, link: str) -> Callable[[int], int]:
        """What gives the rows that a link points to, row by row, -1 for none."""
        node = (table, link)
        if node not in self._parents:
            self._parents[node] = self._links[node].data
        return self._parents[node].__getitem__

    def links(self, table: str, link: str) -> Links:
        """A link's row numbers, -1 for none, shape (rows,)."""
        return self._links[table, link]

    def children(self, table: str, link: str, row: int) -> list[int]:
        """The rows of a child table that point to a row, in their order."""
        return self._grouped(table, link).of(row) if row >= 0 else []

    def children_of(self, table: str, link: str, rows: Links) -> Links:
        """The rows of a child table that point to any of some rows, each once."""
        return self._grouped(table, link).of_all(rows)

    def _grouped(self, table: str, link: str) -> _Groups:
        if (table, link) not in self._groups:
            parents = self.size(self.model.tables[table].links[link])
            self._groups[table, link] = _Groups(self._links[table, link], parents)
        return self._groups[table, link]

    def frame(self, table: str, names: Iterable[str]) -> pd.DataFrame:
        """Named figures of a table as a data frame, full precision, one row a record."""
        return pd.DataFrame({name: self._columns[table, name][:, 0] for name in names})

    def moved(self, changes: Mapping[Node, Column]) -> Figures:
        """Replace given columns and recompute exactly what lies downstream of them.

        Each new column has the shape (rows, draws) or (rows, 1). ValueError for a
        figure that is computed, not given.
        """
        for node in changes:
            if not isinstance(self.model.definition(node).how, Given):
                raise ValueError(f"{'.'.join(node)} is computed: only an input can be moved")
        dirty = self.model.downstream(changes)
        columns = {**self._columns, **changes}
        stages = [stage for stage in self.model.stages if dirty.intersection(stage.nodes)]
        return Figures(self._book, run(self._book, self._links, columns, stages), self._links)

    def with_results(self, results: Mapping[Node, Column]) -> Figures:
        """Enter what methods gave that were applied to the computed figures.

        ValueError for a figure that no method gives, or that formulas go on from.
        """
        for node in results:
            applied = isinstance(self.model.definition(node).how, Applied)
            if not applied or self.model.downstream([node]):
                raise ValueError(f"{'.'.join(node)} can't be entered once all is computed")
        return Figures(self._book, {**self._columns, **results}, self._links)

    def explain(self, node: Node, row: int) -> TraceStep:
        """Unfold one value by one level."""
        definition = self.model.definition(node)
        origin = self._book.origin(node, row) if isinstance(definition.how, Entered) else None
        made_from = tuple(self.made_from(node, row))
        return TraceStep(node, row, self.value(*node, row), definition, origin, made_from)

    def origin(self, node: Node, row: int) -> Origin:
        """Where an entered value comes from; KeyError for one that is computed."""
        return self._book.origin(node, row)

    def source(self, node: Node, row: int) -> tuple[Node, int]:
        """Where lookups lead: a given or computed figure, or a lookup whose link is to no row."""
        way = self.model.ways[node]
        for lookup, link in way.hops:
            parent = self.linked(lookup[0], link, row)
            if parent < 0:
                return lookup, row
            row = parent
        return way.end, row

    def made_from(self, node: Node, row: int) -> list[tuple[Node, int]]:
        """The values that one value was made from, one level down."""
        table = node[0]
        match self.model.definition(node).how:
            case Given():
                return []
            case Formula(needs=needs) | Applied(needs=needs):
                return [((table, need), row) for need in needs]
            case Lookup(link=link, table=target, figure=figure):
                parent = self.linked(table, link, row)
                return [((target, figure), parent)] if parent >= 0 else []
            case Total(table=child, link=link, figure=figure):
                return [((child, figure), r) for r in self.children(child, link, row)]
            case Running(link=link, figure=figure):
                siblings = self.children(table, link, self.linked(table, link, row))
                return [((table, figure), r) for r in siblings if r < row]


class _Groups:
    """Child rows sorted by parent, in their order, with where each parent's begin."""

    def __init__(self, links: Links, parents: int) -> None:
        self._rows = np.argsort(links, kind="stable")
        self._starts = np.searchsorted(links[self._rows], np.arange(parents + 1)).data

    def of(self, parent: int) -> list[int]:
        """The rows of one parent."""
        rows: list[int] = self._rows[self._starts[parent] : self._starts[parent + 1]].tolist()
        return rows

    def of_all(self, parents: Links) -> Links:
        """The rows of several parents, parent by parent."""
        starts = np.asarray(self._starts)
        firsts, counts = starts[parents], starts[parents + 1] - starts[parents]
        within = np.arange(counts.sum()) - np.repeat(np.cumsum(counts) - counts, counts)
        found: Links = self._rows[np.repeat(firsts, counts) + within]
        return found


def compute(book: Book) -> Figures:
    """Compute every figure of the book, in order, one column at a time."""
    model = book.model
    links = {
        (table.name, link): book.links(table.name, link)
        for table in model.tables.values()
        for link in table.links
    }
    return Figures(book, run(book, links, {}, model.stages), links)


def run(
    book: Inputs, links: Mapping[Node, Links], known: Mapping[Node, Column], stages: Iterable[Stage]
) -> dict[Node, Column]:
    """Compute stages in their order; `known` holds what they need beside each other."""
    columns = dict(known)
    with np.errstate(divide="ignore", invalid="ignore"):
        for stage in stages:
            if stage.repeats:
                _settle(book, links, columns, stage)
            else:
                columns[stage.nodes[0]] = _column(book, links, columns, stage.nodes[0])
    return columns


def _settle(
    book: Inputs, links: Mapping[Node, Links], columns: dict[Node, Column], stage: Stage
) -> None:
    """Run a circle of names until its values stand still: as often as records are nested."""
    recursive = [node for node in stage.nodes if _is_recursive(book.model.definition(node))]
    for node in recursive:
        columns[node] = np.zeros((book.size(node[0]), 1))
    for _ in range(max(book.size(node[0]) for node in recursive) + 2):
        for node in stage.nodes:
            if node not in recursive:
                columns[node] = _column(book, links, columns, node)
        before = [columns[node] for node in recursive]
        for node in recursive:
            columns[node] = _column(book, links, columns, node)
        if all(_same(old, columns[node]) for old, node in zip(before, recursive, strict=True)):
            return
    raise ValueError("records are made of each other in a circle")


def _same(old: Column, new: Column) -> bool:
    return old.shape == new.shape and bool(np.array_equal(old, new, equal_nan=True))


def _is_recursive(definition: FigureDef) -> bool:
    return isinstance(definition.how, Lookup) and definition.how.recursive


def _column(
    book: Inputs, links: Mapping[Node, Links], columns: Mapping[Node, Column], node: Node
) -> Column:
    table = node[0]
    match book.model.definition(node).how:
        case Given() | Applied():
            return columns[node] if node in columns else book.given(node)
        case Formula(body=body, needs=needs):
            value = np.asarray(body(*(columns[table, need] for need in needs)), dtype=np.float64)
            return np.broadcast_to(value, (book.size(table), value.shape[-1] if value.ndim else 1))
        case Lookup(link=link, table=target, figure=figure, missing=missing):
            return _gather(columns[target, figure], links[table, link], missing)
        case Total(fold=fold, table=child, link=link, figure=figure):
            return _fold(columns[child, figure], links[child, link], book.size(table), fold)
        case Running(fold=fold, link=link, figure=figure):
            return _running(columns[table, figure], links[table, link], fold)


def _gather(column: Column, rows: Links, missing: float) -> Column:
    if len(column) == 0:
        return np.full((len(rows), 1), missing)
    found: NDArray[np.bool_] = rows >= 0
    return column[rows] if found.all() else np.where(found[:, None], column[rows], missing)


def _fold(column: Column, parents: Links, size: int, fold: Fold) -> Column:
    ufunc, start = _UFUNC[fold]
    out = np.full((size, column.shape[1]), start)
    linked: NDArray[np.bool_] = parents >= 0
    values = column if linked.all() else column[linked]
    values = ~np.isnan(values) if fold is Fold.COUNT else values
    to = parents[linked]
    if column.shape[1] == 1 or not linked.any():
        ufunc.at(out, to, values)
    elif column.shape[1] >= _LONG_ROW:
        # A row of draws stays in the processor's cache where all rows together do not.
        for parent, value in zip(to.tolist(), values, strict=True):
            ufunc(out[parent], value, out=out[parent])
    else:
        # With many columns the n-th child of every parent at once: `at` takes 20 times as long.
        for children in _nth_children(to):
            here = to[children]
            out[here] = ufunc(out[here], values[children])
    return np.where(np.isinf(out), np.nan, out)


def _nth_children(parents: Links) -> Iterator[Links]:
    """First the first child of every parent, then the second ones, and so on."""
    order = np.argsort(parents, kind="stable")
    _, starts, counts = np.unique(parents[order], return_index=True, return_counts=True)
    for n in range(counts.max(initial=0)):
        yield order[starts[counts > n] + n]


def _running(column: Column, parents: Links, fold: Fold) -> Column:
    """Fold the earlier rows of each group, in their order; not known for a row in no group."""
    ufunc, start = _UFUNC[fold]
    out = np.full_like(column, start)
    out[parents < 0] = np.nan
    so_far: dict[int, Column] = {}
    for row, parent in enumerate(parents.tolist()):
        if parent in so_far:
            out[row] = so_far[parent]
        so_far[parent] = ufunc(out[row], column[row])
    return out
