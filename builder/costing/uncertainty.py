"""How sure a kitchen's figures are: inputs drawn, intervals and chances entered as figures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import chain

import numpy as np
from numpy.typing import NDArray

from builder.costing.candidates import Candidates, candidate_spreads
from builder.costing.filled_rows import Rows
from builder.costing.spreads import AP_PRICE, PANTRY_PRICE, SOLD, Jumps, Sure, spreads_of
from builder.display.chances import interval_width
from builder.engine.arith import Column
from builder.engine.draws import Spreads, nearest_draws
from builder.engine.figures import Figures
from builder.engine.model import Node
from builder.engine.sampling import drawn_columns, drawn_targets
from builder.engine.sensitivity import Sensitivity
from builder.engine.slices import Drawn, RowNumbers, Slice
from builder.money.actions import lost_sales_of_raise, price_to_write, raise_a_month
from builder.money.batch_intervals import COST_INTERVALS
from builder.money.buffets import BUFFET_INTERVALS
from builder.money.candidates import CANDIDATE_INTERVALS
from builder.money.count_intervals import COUNT_INTERVALS
from builder.money.intervals import (
    DRAWS,
    PLATE_INTERVALS,
    SWAP_INTERVALS,
    chance_above_nothing,
    chance_of_class,
    interval_90,
)
from builder.money.set_menus import SET_MENU_INTERVALS
from builder.money.swap_portions import CUT_LIMITS
from builder.records.content import Content
from builder.records.pricing import CurrentPrice

MARGIN: Node = ("plate", "contribution_margin")
CLASS: tuple[Node, Node] = (("plate", "is_popular"), ("plate", "earns_above"))
BEYOND: tuple[Node, Node] = (("plate", "popular_by"), ("plate", "earns_by"))
"""How far a plate lies beyond the two lines that divide the classes."""

POINTS = (0.01, 0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95, 0.99)
"""Shares of the draws below what a page knows of a distribution; twin of `intervals.js: BELOW`."""

ClassPoints = Mapping[int, Column]
"""By plate both distances at those shares of their draws, shape (2, points)."""
# Chances that a figure is above nothing.
CHANCES = {
    "chance_over_target": "food_cost_over",
    "chance_earns_more": "margin_change",
    "chance_food_cheaper": "food_saving",
    "chance_saves": "portion_saving",
}
ENERGY: frozenset[Node] = frozenset(
    {
        ("batch", "modelled_energy"), ("batch", "measured_energy"),
        ("kitchen", "electricity_price"), ("kitchen", "gas_price"),
    }
)  # fmt: skip
"""Inputs that say little of how sure a plate's money is where nothing else has a spread."""

# Prices move over the time ahead, so a period that is over has nothing of that.
_AHEAD = {AP_PRICE, PANTRY_PRICE}
# Draws of a whole section at once.
_AT_ONCE = 500


@dataclass(frozen=True, slots=True)
class Uncertainty:
    """What is not known for sure, what something says is, and what inputs do to plates, swaps,
    candidates."""

    spreads: Spreads
    sure: Sure
    jumps: Jumps
    plates: Sensitivity
    swaps: Sensitivity
    candidates: Sensitivity
    menus: Sensitivity
    buffets: Sensitivity
    class_points: ClassPoints


def how_sure(
    content: Content,
    figures: Figures,
    rows: Rows,
    prices: Mapping[str, CurrentPrice],
    candidates: Candidates,
) -> tuple[Figures, Uncertainty]:
    """The figures with their intervals and chances, and what these rest on."""
    spreads, sure, jumps = spreads_of(content, figures, rows, prices)
    spreads |= candidate_spreads(content, figures, candidates, prices)
    plates = Sensitivity(figures, spreads, [("plate", name) for name in PLATE_INTERVALS])
    swaps = Sensitivity(figures, spreads, [("swap", name) for name in SWAP_INTERVALS])
    tried = Sensitivity(figures, spreads, [("candidate", name) for name in CANDIDATE_INTERVALS])
    menus = Sensitivity(figures, spreads, [("set_menu", name) for name in SET_MENU_INTERVALS])
    buffets = Sensitivity(figures, spreads, [("buffet", name) for name in BUFFET_INTERVALS])
    results, points = _results(figures, spreads)
    cuts = Sensitivity(figures, spreads, [("moved_cut", name) for name in CUT_LIMITS])
    for sensitivity in (plates, swaps, tried, menus, buffets, cuts):
        _without_ends(results, sensitivity.moved_only_by(ENERGY))
    results |= _raises(figures, results, [each.value for each in content.kitchen.price_endings])
    return figures.with_results(results), Uncertainty(
        spreads, sure, jumps, plates, swaps, tried, menus, buffets, points
    )


def _without_ends(results: dict[Node, Column], rows: Mapping[Node, list[int]]) -> None:
    """Take back ends and chances that hold every price and yield and let only energy move."""
    for (table, figure), at in rows.items():
        chances = [name for name, of in CHANCES.items() if of == figure]
        for name in (f"{figure}_low", f"{figure}_high", *chances):
            if (table, name) in results:
                results[table, name][at] = np.nan


def _results(figures: Figures, spreads: Spreads) -> tuple[dict[Node, Column], ClassPoints]:
    plates, points = drawn_plates(figures, spreads, figures)
    costs = (drawn_ends(figures, spreads, *each) for each in COST_INTERVALS.items())
    period = {node: each for node, each in spreads.items() if node not in _AHEAD}
    counts = (drawn_ends(figures, period, *each) for each in COUNT_INTERVALS.items())
    results = {
        **{node: column for found in chain(costs, counts) for node, column in found.items()},
        **drawn_ends(figures, spreads, "swap", SWAP_INTERVALS),
        **drawn_ends(figures, spreads, "moved_cut", CUT_LIMITS),
        **drawn_ends(figures, spreads, "candidate", CANDIDATE_INTERVALS),
        **drawn_ends(figures, spreads, "set_menu", SET_MENU_INTERVALS),
        **drawn_ends(figures, spreads, "buffet", BUFFET_INTERVALS),
        **plates,
    }
    return results, points


def drawn_plates(
    figures: Figures, spreads: Spreads, shown: Figures
) -> tuple[dict[Node, Column], ClassPoints]:
    """Ends and chances of plates, and how often each falls into the class that is shown.

    With the points of their distances from the dividing lines. A section at a time, for no
    class needs another section's draws.
    """
    ends = Ends(figures, "plate", PLATE_INTERVALS)
    chances = np.full((figures.size("plate"), 1), np.nan)
    points: dict[int, Column] = {}
    sections = figures.links("plate", "section")
    for section in (-1, *range(figures.size("section"))):
        rows = np.flatnonzero(sections == section)
        margins = Margins(figures, rows)
        ends.draw(figures, spreads, rows, margins)
        if section >= 0 and margins.moved:
            plain = shown.column(*CLASS[0])[rows], shown.column(*CLASS[1])[rows]
            chances[rows, 0], distances = _of_section(figures, spreads, margins, plain)
            points.update(zip(rows.tolist(), distances, strict=True))
    return {**ends.columns, ("plate", "class_chance"): chances}, points


def _raises(
    figures: Figures, ends: Mapping[Node, Column], endings: Sequence[float]
) -> dict[Node, Column]:
    """New prices to write, what each brings, and how many guests each may lose."""
    asked, price, factor, count, coins, margin = (
        figures.column("plate", name)
        for name in (
            "price_for_food_cost", "menu_price", "price_factor", "monthly_count", "coins_in_unit",
            "margin_a_month",
        )
    )  # fmt: skip
    low, high = (ends["plate", f"price_for_food_cost_{end}"] for end in ("low", "high"))
    width = np.vectorize(interval_width, otypes=[float])(asked, low, high)
    write = price_to_write(asked, price, width, coins, endings)
    brings = raise_a_month(write, price, factor, count)
    return {
        ("plate", "price_to_write"): write,
        ("plate", "reprice_a_month"): brings,
        ("plate", "reprice_lost_sales"): lost_sales_of_raise(brings, margin),
    }


def drawn_ends(
    figures: Figures, spreads: Spreads, table: str, names: tuple[str, ...]
) -> dict[Node, Column]:
    """The ends of a table's figures, and the chances, each of shape (rows, 1)."""
    ends = Ends(figures, table, names)
    ends.draw(figures, spreads, np.arange(figures.size(table)))
    return ends.columns


class Margins:
    """The draws of some plates' margins, at half the memory of other columns.

    `rows`: the plates, ascending. `moved`: whether a draw moves any of them.
    """

    def __init__(self, figures: Figures, rows: RowNumbers) -> None:
        self.rows = rows
        self.moved = False
        plain = figures.column(*MARGIN)[rows].astype(np.float32)
        self._draws: NDArray[np.float32] = np.repeat(plain, DRAWS, axis=1)

    def keep(self, rows: RowNumbers, column: Column) -> None:
        """Enter the draws of some of the plates, (rows, draws) or (rows, 1)."""
        self.moved = self.moved or column.shape[1] > 1
        self._draws[np.searchsorted(self.rows, rows)] = column

    def some(self, draws: slice, rows: RowNumbers) -> Column:
        """Some of the draws of some of the plates."""
        return self._draws[np.searchsorted(self.rows, rows), draws].astype(np.float64)


class Ends:
    """The ends of a table's figures and its chances, entered as their rows are drawn."""

    def __init__(self, figures: Figures, table: str, names: tuple[str, ...]) -> None:
        known = figures.model.tables[table].figures
        self._table, self._names = table, names
        self._chances = {name: figure for name, figure in CHANCES.items() if name in known}
        ends = [f"{name}_{end}" for name in names for end in ("low", "high")]
        self.columns: dict[Node, Column] = {
            (table, name): np.full((figures.size(table), 1), np.nan)
            for name in (*ends, *self._chances)
        }

    def draw(
        self, figures: Figures, spreads: Spreads, rows: RowNumbers, margins: Margins | None = None
    ) -> None:
        """Draw some rows and enter what comes of them; `margins` keeps their margins."""

        def summary(some: RowNumbers, drawn: Mapping[Node, Column]) -> None:
            self._enter(some, drawn)
            if margins is not None:
                margins.keep(some, drawn[MARGIN])

        names = dict.fromkeys((*self._names, *self._chances.values()))
        targets = [(self._table, name) for name in names]
        for _ in drawn_targets(figures, spreads, targets, rows, DRAWS, summary):
            pass

    def _enter(self, rows: RowNumbers, drawn: Mapping[Node, Column]) -> None:
        table = self._table
        for name in self._names:
            ends = interval_90(drawn[table, name])
            for end, column in zip(("low", "high"), ends, strict=True):
                self.columns[table, f"{name}_{end}"][rows, 0] = column
        for name, figure in self._chances.items():
            self.columns[table, name][rows, 0] = chance_above_nothing(drawn[table, figure])


def _of_section(
    figures: Figures, spreads: Spreads, margins: Margins, plain: tuple[Column, Column]
) -> tuple[Column, Column]:
    """How often plates fall into the classes shown, (rows,), and distances, (rows, 2, points).

    Means over the parts of all draws. The dividing lines of a section rest on all its plates.
    """
    rows = margins.rows
    part = Slice(figures, {"plate": rows}, (*CLASS, *BEYOND))
    at = np.searchsorted(part.rows["plate"], rows)
    sold = drawn_columns(figures, SOLD, spreads.get(SOLD, {}), DRAWS)(part.rows["plate"])
    total, points = np.zeros(len(rows)), np.zeros((len(rows), 2, len(POINTS)))
    for first in range(0, DRAWS, _AT_ONCE):
        some = slice(first, first + _AT_ONCE)
        drawn: dict[Node, Drawn] = {MARGIN: partial(margins.some, some)}
        if sold is not None:
            drawn[SOLD] = partial(_some_of, sold, some)
        columns = part.computed(drawn)
        total += chance_of_class(columns[CLASS[0]][at], columns[CLASS[1]][at], plain)
        # Open one way in one part of the draws and the other way in another, it is not known.
        with np.errstate(invalid="ignore"):
            for side, node in enumerate(BEYOND):
                points[:, side] += _points(columns[node][at])
    return total / (DRAWS // _AT_ONCE), points / (DRAWS // _AT_ONCE)


def _points(draws: Column) -> Column:
    """Some rows' draws at the shares of `POINTS`, (rows, points); without draws that have none."""
    lost = np.isnan(draws).any(axis=1)
    if not lost.any():
        return nearest_draws(draws, POINTS).T
    found = np.quantile(draws, POINTS, axis=1, method="nearest")
    known = np.where(np.isnan(draws[lost]).all(axis=1, keepdims=True), np.inf, draws[lost])
    found[:, lost] = np.nanquantile(known, POINTS, axis=1, method="nearest")
    return found.T


def _some_of(column: Column, some: slice, _: RowNumbers) -> Column:
    return column[:, some]
