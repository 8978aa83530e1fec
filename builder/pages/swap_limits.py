"""What would end a swap's saving, input by input, and in words where nothing would."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from builder.pages.components import Cell, Column, Row, Table
from builder.pages.view import View
from builder.records.chains import Phase
from builder.records.kinds import Plate

_ABOUT = (
    "Each line moves one input while all others stand still. Cook loss is all that does not go on "
    "from the cook, juices included; what they are worth stays as it is."
)


def limits(view: View, plate: Plate, row: int, rests_on: str) -> Table:
    """One input moved, all others as they are: where the saving is zero, and what that lacks."""
    saves = view.as_read("swap", "saving", row) > 0
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


def _limit(view: View, figure: str, row: int, tries: str) -> Cell:
    """A limit, with the input that can be moved to it where there is one."""
    known = math.isfinite(view.number("swap", figure, row))
    return replace(view.cell("swap", figure, row), tries=tries if known else "")


def _yield_of_cook(view: View, plate: Plate) -> str:
    """What to move for the loss of a plate's cook: the share that its cook leaves."""
    if plate.cook is None:
        return ""
    steps = view.costed.rows.steps[plate.cook]
    stages = [row for link, row in steps if link.phase is Phase.COOK]
    stage = view.costed.figures.linked("step", "stage", stages[0])
    return f"stage.assumed_yield.{stage} 1-"


def _price_limit(view: View, plate: Plate, row: int) -> Row:
    price, limit, slope, saving = (
        view.number("swap", figure, row)
        for figure in ("ap_price", "break_even_ap_price", "price_slope", "saving")
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
    now = view.cell("swap", "ap_price", row)
    cut = view.costed.content.cooks[plate.cook].cut if plate.cook else ""
    tries = f"cut.ap_price.{view.costed.rows.cuts[cut]}" if cut else ""
    cell = _limit(view, "break_even_ap_price", row, tries)
    return _limit_row("AP price of its cut", now, cell, words)


def _loss_limits(view: View, plate: Plate, row: int) -> Iterator[Row]:
    """By whole portions where the plate is costed so, and by weight."""
    yield_now = view.number("swap", "cook_yield", row)
    if not math.isfinite(yield_now):
        return
    tries = _yield_of_cook(view, plate)
    now = view.cell("swap", "cook_loss", row)
    if view.number("swap", "counts_pieces", row) > 0:
        figure = "break_even_cook_loss_whole"
        cell = _limit(view, figure, row, "")
        tries = ""  # by whole portions the saving jumps past nothing, so nothing shows it
        yield _limit_row("Cook loss, by whole portions", now, cell, _whole_words(view, row, figure))
    figure = "break_even_cook_loss"
    words = _points(view, row, figure) or _no_loss(view.number("swap", "saving_by_weight", row))
    yield _limit_row("Cook loss, by weight", now, _limit(view, figure, row, tries), words)


def _points(view: View, row: int, figure: str) -> str:
    """How far a loss lies from today's; nothing where there is none."""
    limit = view.number("swap", figure, row)
    if not math.isfinite(limit):
        return ""
    points = (limit - 1 + view.number("swap", "cook_yield", row)) * 100
    side = "more" if points >= 0 else "less"
    return f"{view.style.number(abs(points), 1)} points {side} than today's loss"


def _no_loss(saving: float) -> str:
    return "no loss can end it" if saving > 0 else "no loss is small enough"


def _whole_words(view: View, row: int, figure: str) -> str:
    if view.number("swap", "same_cook", row) > 0:
        return "both plates use this cook, so its loss moves both"
    points = _points(view, row, figure)
    if not points:
        return _no_loss(view.number("swap", "saving", row))
    portions = view.number("swap", "portions_at_break_even", row)
    if view.number("swap", "portions_to_break_even", row) <= 1:
        return f"{points}; a piece must still give its one portion"
    counted = view.style.count(portions)
    return f"{points}; a piece then gives {counted} portion{'' if portions == 1 else 's'}"


def _wage_limit(view: View, row: int) -> Row:
    limit, extra, saving = (
        view.number("swap", figure, row) for figure in ("break_even_wage", "extra_hours", "saving")
    )
    if math.isfinite(limit):
        work = view.style.duration(abs(extra))
        words = f"a plate takes {work} {'more' if extra > 0 else 'less'} work"
    elif abs(extra) <= 1e-12:
        words = "both plates take the same work"
    else:
        words = "no wage can end it" if saving > 0 else "no wage is low enough"
    now = view.cell("swap", "loaded_wage", row)
    cell = _limit(view, "break_even_wage", row, "kitchen.loaded_wage.0")
    return _limit_row("Loaded wage", now, cell, words)
