"""What each input does to a target over its own interval, all others at their plain values.

Inputs that no target row shares can be moved in the same column. So every input gets a colour,
such that no row rests on two inputs of one colour, and a kitchen of any size is computed once
with twice as many columns as there are colours.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache, partial

import numpy as np
from scipy.sparse import csc_array, csr_array, eye_array

from builder.engine.arith import Column
from builder.engine.draws import Spread, Spreads
from builder.engine.figures import Figures
from builder.engine.model import Model, Node
from builder.engine.slices import Drawn, Edge, RowNumbers, Slice, edges

# Up to a parent or down to children, along a link.
Way = tuple[bool, Edge]


@dataclass(frozen=True, slots=True)
class Reach:
    """One input over its 90 % interval: its ends, and the target's values there.

    `low` and `high` are the target's values at the input's own low and high end.
    """

    node: Node
    row: int
    spread: Spread
    low: float
    high: float

    @property
    def width(self) -> float:
        """How far the target moves between the input's ends."""
        return abs(self.high - self.low)

    @property
    def ends_are_known(self) -> bool:
        """Whether the target has a value at both ends; it has none where no portion is left."""
        return math.isfinite(self.low) and math.isfinite(self.high)

    @property
    def moves(self) -> bool:
        """Whether the target moves by more than its rounding, or loses its value at an end."""
        if not self.ends_are_known:
            return repr(self.low) != repr(self.high)
        return self.width > 1e-12 * max(1.0, abs(self.low))

    @property
    def slope(self) -> float:
        """What the target gains for each unit of the input, between its ends."""
        low, high = self.spread.ends
        return (self.high - self.low) / (high - low)


class Sensitivity:
    """The reaches of every input for some targets of one table."""

    def __init__(self, figures: Figures, spreads: Spreads, targets: Sequence[Node]) -> None:
        (table,) = {node[0] for node in targets}
        self._spreads = spreads
        self._rests = _rests_on(figures, table, targets)
        self._rests_without = cache(partial(_rests_on, figures, table, targets))
        # By column: what one target row rests on is read for every page.
        self._behind = cache(self._by_target)
        # A page asks for many inputs of one table, again and again, and then no more.
        self._reached = lru_cache(maxsize=256)(self._rows_behind)
        self._colours, self._inputs = self._coloured(figures.size(table))
        colours = max(self._colours.values(), default=-1) + 1
        self._targets = tuple(targets)
        self._values: Mapping[Node, Column] = {}
        if colours:
            # A slice lets its columns go one by one: all at once are the most that a build holds.
            part = Slice(figures, {table: np.arange(figures.size(table))}, targets)
            self._values = part.computed(dict(self._columns(figures, colours)))

    def of(self, target: Node, row: int) -> list[Reach]:
        """What moves a row's target, the widest first; inputs that do not move it are left out."""
        found = (self._reach(target, row, *each) for each in self._inputs.get(row, ()))
        moving = (reach for reach in found if reach.moves)
        return sorted(moving, key=lambda reach: -reach.width if reach.ends_are_known else -math.inf)

    def _reach(self, target: Node, row: int, node: Node, at: int) -> Reach:
        values = self._values[target]
        low, high = _pair(values[row if len(values) > 1 else 0], self._colours[node, at])
        return Reach(node, at, self._spreads[node][at], low, high)

    def moved_only_by(self, nodes: Collection[Node]) -> dict[Node, list[int]]:
        """By target the rows that some of these inputs move, and no other input does."""
        having = [row for row, found in self._inputs.items() if any(n in nodes for n, _ in found)]
        found: dict[Node, list[int]] = {}
        for target in self._targets:
            for row in having:
                others = (each for each in self._inputs[row] if each[0] not in nodes)
                if any(self._reach(target, row, *each).moves for each in others):
                    continue
                if any(self._reach(target, row, *each).moves for each in self._inputs[row]):
                    found.setdefault(target, []).append(row)
        return found

    def fixed(self, nodes: Iterable[Node], row: int, without: str = "") -> list[tuple[Node, int]]:
        """Of some inputs those without a spread that a target row rests on.

        `without`: a table that the row takes nothing of, so that no way leads through it.
        """
        return [
            (node, at)
            for node in nodes
            for at in self._reached(node[0], row, without)
            if at not in self._spreads.get(node, {})
        ]

    def moved(self, row: int) -> set[Node]:
        """Inputs with a spread on any row that a target row rests on."""
        return {node for node, _ in self._inputs.get(row, ())}

    def _rows_behind(self, table: str, row: int, without: str) -> list[int]:
        """The rows of a table that a target row rests on."""
        if (rests := self._behind(without).get(table)) is None:
            return []
        rows: list[int] = rests.indices[rests.indptr[row] : rests.indptr[row + 1]].tolist()
        return rows

    def _by_target(self, without: str) -> dict[str, csc_array]:
        found = self._rests_without(without) if without else self._rests
        columns = {table: rests.tocsc() for table, rests in found.items()}
        for rests in columns.values():
            rests.sort_indices()
        return columns

    def _coloured(
        self, size: int
    ) -> tuple[dict[tuple[Node, int], int], dict[int, list[tuple[Node, int]]]]:
        """The colour of every input that a row rests on, and the inputs of each row."""
        used = [0] * size
        colours: dict[tuple[Node, int], int] = {}
        inputs: dict[int, list[tuple[Node, int]]] = {}
        for node, row, users in sorted(self._users(), key=lambda each: -len(each[2])):
            taken = 0
            for user in users:
                taken |= used[user]
            colour = (~taken & (taken + 1)).bit_length() - 1
            colours[node, row] = colour
            for user in users:
                used[user] |= 1 << colour
                inputs.setdefault(user, []).append((node, row))
        return colours, inputs

    def _users(self) -> Iterator[tuple[Node, int, list[int]]]:
        """Every input with the target rows that rest on it."""
        for node, spreads in self._spreads.items():
            if (rests := self._rests.get(node[0])) is None:
                continue
            for row in spreads:
                users = rests.indices[rests.indptr[row] : rests.indptr[row + 1]].tolist()
                if users:
                    yield node, row, users

    def _columns(self, figures: Figures, colours: int) -> Iterator[tuple[Node, Drawn]]:
        """How to move each input."""
        for node in self._spreads:
            yield node, partial(self._moved, figures, node, colours)

    def _moved(self, figures: Figures, node: Node, colours: int, rows: RowNumbers) -> Column | None:
        """An input's column, its low and high end in the two columns of its colour."""
        column = np.repeat(figures.column(*node)[rows], 2 * colours, axis=1)
        spreads = self._spreads[node]
        for at, row in enumerate(rows.tolist()):
            if (colour := self._colours.get((node, row))) is not None:
                column[at, 2 * colour : 2 * colour + 2] = spreads[row].ends
        return column


def _pair(values: Column, colour: int) -> tuple[float, float]:
    if len(values) == 1:
        return float(values[0]), float(values[0])
    return float(values[2 * colour]), float(values[2 * colour + 1])


def _rests_on(
    figures: Figures, table: str, targets: Iterable[Node], without: str = ""
) -> dict[str, csr_array]:
    """By table which target rows (columns) rest on which of its rows (rows)."""
    model: Model = figures.model
    needed = model.upstream(targets) | set(targets)
    found = {table: csr_array(eye_array(figures.size(table), dtype=bool))}
    ways = sorted(way for way in set(edges(model, needed)) if without not in way[1])
    # A way is gone again only when more is reached where it starts than was the last time.
    gone: dict[Way, int] = {}
    steps = cache(partial(_incidence, figures))
    while new := [way for way in ways if gone.get(way, 0) < _reached(found, _start(way))]:
        for way in new:
            up, (child, _, parent) = way
            gone[way] = _reached(found, _start(way))
            if not (step := steps(way[1])).nnz:
                continue
            reached = csr_array((step.T if up else step) @ found[_start(way)])
            if reached.nnz:
                end = parent if up else child
                found[end] = csr_array(found[end] + reached) if end in found else reached
    return found


def _start(way: Way) -> str:
    up, (child, _, parent) = way
    return child if up else parent


def _reached(found: Mapping[str, csr_array], table: str) -> int:
    return found[table].nnz if table in found else 0


def _incidence(figures: Figures, link: Edge) -> csr_array:
    """Which rows of a table (columns) those of another (rows) are linked to."""
    child, name, parent = link
    links = figures.links(child, name)
    rows: RowNumbers = np.flatnonzero(links >= 0)
    shape = (len(links), figures.size(parent))
    return csr_array((np.ones(len(rows), dtype=bool), (rows, links[rows])), shape=shape)
