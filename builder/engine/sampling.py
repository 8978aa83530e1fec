"""Targets drawn many times, a block of rows at a time, with the inputs' own draws."""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from itertools import islice
from typing import TypeVar

import numpy as np

from builder.engine.arith import Column
from builder.engine.draws import Spread, Spreads, drawn, spread_name
from builder.engine.figures import Figures
from builder.engine.model import Node
from builder.engine.slices import Drawn, RowNumbers, Slice

T = TypeVar("T")

# Rows drawn together: few enough for a column of draws to stay in a processor's cache.
BLOCK_ROWS = 64


def drawn_targets(
    figures: Figures,
    spreads: Spreads,
    targets: Iterable[Node],
    rows: RowNumbers,
    draws: int,
    summary: Callable[[RowNumbers, Mapping[Node, Column]], T],
) -> Iterator[T]:
    """Draw targets of one table for some of its rows; a summary of each block of rows, in order.

    The summary is given the block's row numbers and each target's column, of shape
    (rows, draws), or (rows, 1) where no draw moves it.
    """
    wanted = tuple(targets)
    (table,) = {node[0] for node in wanted}
    inputs = {node: drawn_columns(figures, node, spreads[node], draws) for node in spreads}

    def block(numbers: tuple[int, ...]) -> T:
        chosen = np.array(numbers, dtype=np.intp)
        part = Slice(figures, {table: chosen}, wanted)
        at = np.searchsorted(part.rows[table], chosen)
        columns = part.computed(inputs)
        if not np.array_equal(at, np.arange(len(part.rows[table]))):
            columns = {node: column[at] for node, column in columns.items()}
        return summary(chosen, columns)

    yield from _in_turn(block, tuple(_blocks(rows.tolist())))


def drawn_columns(figures: Figures, node: Node, spreads: Mapping[int, Spread], draws: int) -> Drawn:
    """How to draw one input: plain where a row has no spread."""

    def column(rows: RowNumbers) -> Column | None:
        moved = [(at, row) for at, row in enumerate(rows.tolist()) if row in spreads]
        if not moved:
            return None
        values = np.repeat(figures.column(*node)[rows], draws, axis=1)
        for at, row in moved:
            name = spread_name(node, figures.identity(node[0], row))
            values[at] = drawn(spreads[row], name, draws)
        return values

    return column


def _in_turn(work: Callable[[tuple[int, ...]], T], parts: Sequence[tuple[int, ...]]) -> Iterator[T]:
    """Results in the order of the parts, worked on by a few threads: numpy lets others run."""
    if len(parts) < 2:
        yield from map(work, parts)
        return
    workers = min(4, os.cpu_count() or 1)
    waiting: deque[Future[T]] = deque()
    with ThreadPoolExecutor(workers) as pool:
        for part in parts:
            waiting.append(pool.submit(work, part))
            if len(waiting) > 2 * workers:
                yield waiting.popleft().result()
        while waiting:
            yield waiting.popleft().result()


def _blocks(rows: Iterable[int]) -> Iterator[tuple[int, ...]]:
    waiting = iter(rows)
    while block := tuple(islice(waiting, BLOCK_ROWS)):
        yield block
