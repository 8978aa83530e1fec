"""What would end a swap's saving, input by input, and in words where nothing would."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from builder.pages.components import Cell, Column, Row, Table
from builder.pages.figure_names import SwapFigure
from builder.pages.view import SwapRow, View
from builder.records.chains import Phase
from builder.records.kinds import Plate

_ABOUT = (
    "Each line moves one input while all others stand still. Cook loss is all that does not go on "
    "from the cook, juices included; what they are worth stays as it is."
)


def limits(view: View, plate: Plate, row: SwapRow, rests_on: str) -> Table:
    """One input moved, all others as they are: where the saving is zero, and what that lacks."""
    saves = row.as_read("saving") > 0
    columns = (
        Column("what", f"What would {'end the' if saves else 'bring a'} saving"),
        Column("now", "Now", numeric=True),
        Column("limit", "Saving is zero at", numeric=True),
    )
    body = (
        _price_limit(view, plate, row),
        *_loss_limits(view, plate, row),
        _wage_limit(view, row),
    )
    return Table(
        f"limits-{plate.id}", f"Break-even of {plate.title}", columns, body, about=_ABOUT + rests_on
    )


def _limit_row(label: str, now: Cell, limit: Cell, words: str) -> Row:
    return Row((Cell(label, note=words), now, limit))


def _limit(row: SwapRow, figure: SwapFigure, tries: str) -> Cell:
    """A limit, with the input that can be moved to it where there is one."""
    known = row.known(figure)
    return replace(row.cell(figure), tries=tries if known else "")


def _yield_of_cook(view: View, plate: Plate) -> str:
    """What to move for the loss of a plate's cook: the share that its cook leaves."""
    if plate.cook is None:
        return ""
    steps = view.steps(view.costed.content.cooks[plate.cook])
    stages = [step.row for link, step in steps if link.phase is Phase.COOK]
    stage = view.costed.figures.linked("step", "stage", stages[0])
    return f"stage.assumed_yield.{stage} 1-"


def _price_limit(view: View, plate: Plate, row: SwapRow) -> Row:
    price, limit, slope, saving = row.numbers(
        "ap_price", "break_even_ap_price", "price_slope", "saving"
    )
    if math.isnan(price):
        words = "no cut is on this plate"
    elif math.isfinite(limit) and price > 0:
        words = f"{view.style.signed_percent(limit / price - 1)} from today's price"
    elif math.isfinite(limit):
        words = "it costs nothing today"
    elif abs(slope) <= 1e-12:
        words = "the price of its cut does not move the saving"
    else:
        words = "no price can end it" if saving > 0 else "no price is low enough"
    now = row.cell("ap_price")
    content = view.costed.content
    cut = content.cuts[content.cooks[plate.cook].cut] if plate.cook else None
    tries = view.cut(cut).name("ap_price") if cut else ""
    cell = _limit(row, "break_even_ap_price", tries)
    return _limit_row("AP price of its cut", now, cell, words)


def _loss_limits(view: View, plate: Plate, row: SwapRow) -> Iterator[Row]:
    """By whole portions where the plate is costed so, and by weight."""
    yield_now = row.number("cook_yield")
    if not math.isfinite(yield_now):
        return
    tries = _yield_of_cook(view, plate)
    now = row.cell("cook_loss")
    if row.number("counts_pieces") > 0:
        figure: SwapFigure = "break_even_cook_loss_whole"
        cell = _limit(row, figure, "")
        tries = ""  # by whole portions the saving jumps past nothing, so nothing shows it
        yield _limit_row("Cook loss, by whole portions", now, cell, _whole_words(view, row, figure))
    figure = "break_even_cook_loss"
    words = _points(view, row, figure) or _no_loss(row.number("saving_by_weight"))
    yield _limit_row("Cook loss, by weight", now, _limit(row, figure, tries), words)


def _points(view: View, row: SwapRow, figure: SwapFigure) -> str:
    """How far a loss lies from today's; nothing where there is none."""
    limit = row.number(figure)
    if not math.isfinite(limit):
        return ""
    points = (limit - 1 + row.number("cook_yield")) * 100
    side = "more" if points >= 0 else "less"
    return f"{view.style.number(abs(points), 1)} points {side} than today's loss"


def _no_loss(saving: float) -> str:
    return "no loss can end it" if saving > 0 else "no loss is small enough"


def _whole_words(view: View, row: SwapRow, figure: SwapFigure) -> str:
    if row.number("same_cook") > 0:
        return "both plates use this cook, so its loss moves both"
    points = _points(view, row, figure)
    if not points:
        return _no_loss(row.number("saving"))
    portions = row.number("portions_at_break_even")
    if row.number("portions_to_break_even") <= 1:
        return f"{points}; a piece must still give its one portion"
    counted = view.style.count(portions)
    return f"{points}; a piece then gives {counted} portion{'' if portions == 1 else 's'}"


def _wage_limit(view: View, row: SwapRow) -> Row:
    limit, extra, saving = row.numbers("break_even_wage", "extra_hours", "saving")
    if math.isfinite(limit):
        work = view.style.duration(abs(extra))
        words = f"a plate takes {work} {'more' if extra > 0 else 'less'} work"
    elif abs(extra) <= 1e-12:
        words = "both plates take the same work"
    else:
        words = "no wage can end it" if saving > 0 else "no wage is low enough"
    now = row.cell("loaded_wage")
    cell = _limit(row, "break_even_wage", view.kitchen.name("loaded_wage"))
    return _limit_row("Loaded wage", now, cell, words)
