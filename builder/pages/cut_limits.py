"""What the price of each cut of a challenger beside its main one may be: where a swap ends."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.language import Deferred, tr
from builder.pages.components import Cell, Column, Row, Table
from builder.pages.doubt_data import limit_doubt
from builder.pages.figure_names import MovedCutFigure
from builder.pages.interval_words import between
from builder.pages.parts import as_written, record_cell
from builder.pages.resource import Field, Resource, Texts
from builder.pages.view import FigureRow, SwapRow, View
from builder.records.kinds import Cut, Plate

_NOTHING = Deferred("no price of it can")
_ABOUT = Deferred(
    "The price of one cut moves in every portion of it, on both plates, "
    "while all else stays as it is. The limits above move the main cut."
)


def cut_limits(view: View, plate: Plate, swap: SwapRow, rests_on: str) -> Table | None:
    """The limits of each further cut, by its name; None for a plate of one cut."""
    rows = list(_cuts(view, swap))
    columns = (
        Column("cut", tr("AP price of")),
        Column("now", tr("Now"), numeric=True),
        Column("margin", tr("Margins are equal at"), numeric=True),
        Column("limit", tr("Saving is zero at"), numeric=True),
    )
    body = tuple(
        Row(
            (
                record_cell(cut),
                row.cell("ap_price"),
                *(_limit(view, cut, row, figure) for figure in _LIMITS),
            )
        )
        for cut, row in rows
    )
    title = tr("Break-even of {plate}, its other cuts", plate=plate.title)
    return (
        Table(f"limits-{plate.id}-cuts", title, columns, body, about=tr(_ABOUT) + rests_on)
        if body
        else None
    )


_LIMITS: tuple[MovedCutFigure, ...] = ("equal_margin_ap_price", "break_even_ap_price")


def _cuts(view: View, swap: SwapRow) -> Iterator[tuple[Cut, FigureRow[MovedCutFigure]]]:
    """The further cuts of one challenger of a swap, each with its figures."""
    rows = view.costed.rows
    for (of, challenger, cut), row in rows.moved_cuts.items():
        if rows.swaps[of, challenger] == swap.row:
            yield view.costed.content.cuts[cut], FigureRow(view, "moved_cut", row)


def _limit(view: View, cut: Cut, row: FigureRow[MovedCutFigure], figure: MovedCutFigure) -> Cell:
    if not row.known(figure):
        return Cell("–", note=as_written(tr(_NOTHING)))
    return replace(
        row.cell(figure, note=between(row, figure)), tries=view.cut(cut).name("ap_price")
    )


def _rows(view: View) -> Iterator[tuple[int, Texts]]:
    for (swap, plate, cut), row in view.costed.rows.moved_cuts.items():
        yield row, (f"{swap}/{plate}/{cut}", f"{swap}/{plate}", cut)


CUT_LIMIT_RESOURCES = (
    Resource(
        "swap_cut_limits",
        Deferred(
            "What would end a swap's saving by the price of a cut beside the challenger's main one"
        ),
        "moved_cut",
        (
            Field("id", "Swap, challenger and cut"),
            Field("swap", "Swap and challenger", refers="swaps"),
            Field("cut", "Cut whose price is moved", refers="cuts"),
        ),
        _rows,
        doubt=limit_doubt,
    ),
)
