"""What would end a swap's saving, input by input, and in words where nothing would."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from builder.pages.components import Cell, Column, Row, Table
from builder.pages.view import View
from builder.records.chains import Phase
from builder.records.kinds import Plate

_ABOUT = (
    "Each line moves one input while all others stand still. Cook loss is all that does not go on "
    "from the cook, juices included; what they are worth stays as it is."
)


@dataclass(frozen=True, slots=True)
class Limit:
    """One input of a swap, and where it ends the saving: figures of the swap, and words.

    `slope` has the sign of what a larger input takes from the saving, `tries` names an input
    that can be moved to the limit.
    """

    input: str
    now: str
    limit: str
    slope: float
    words: str
    tries: str = ""
    basis: str = ""


def limits_of(view: View, plate: Plate, row: int) -> Iterator[Limit]:
    """The inputs of a swap that are moved, one at a time."""
    yield _price_limit(view, plate, row)
    yield from _loss_limits(view, plate, row)
    yield _wage_limit(view, row)


def limits(view: View, plate: Plate, row: int, rests_on: str) -> Table:
    """One input moved, all others as they are: where the saving is zero, and what that lacks."""
    saves = view.as_read("swap", "saving", row) > 0
    columns = (
        Column("what", f"What would {'end the' if saves else 'bring a'} saving"),
        Column("now", "Now", numeric=True),
        Column("limit", "Saving is zero at", numeric=True),
    )
    body = tuple(_limit_row(view, row, limit) for limit in limits_of(view, plate, row))
    return Table(
        f"limits-{plate.id}", f"Break-even of {plate.title}", columns, body, about=_ABOUT + rests_on
    )


def _limit_row(view: View, row: int, limit: Limit) -> Row:
    """A limit, with the input that can be moved to it where there is one."""
    known = math.isfinite(view.number("swap", limit.limit, row))
    label = ", ".join(filter(None, (limit.input, limit.basis)))
    return Row(
        (
            Cell(label, note=limit.words),
            view.cell("swap", limit.now, row),
            replace(view.cell("swap", limit.limit, row), tries=limit.tries if known else ""),
        )
    )


def _yield_of_cook(view: View, plate: Plate) -> str:
    """What to move for the loss of a plate's cook: the share that its cook leaves."""
    if plate.cook is None:
        return ""
    steps = view.costed.rows.steps[plate.cook]
    stages = [row for link, row in steps if link.phase is Phase.COOK]
    stage = view.costed.figures.linked("step", "stage", stages[0])
    return f"stage.assumed_yield.{stage} 1-"


def _price_limit(view: View, plate: Plate, row: int) -> Limit:
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
    cut = view.costed.content.cooks[plate.cook].cut if plate.cook else ""
    tries = f"cut.ap_price.{view.costed.rows.cuts[cut]}" if cut else ""
    return Limit("AP price of its cut", "ap_price", "break_even_ap_price", slope, words, tries)


def _loss_limits(view: View, plate: Plate, row: int) -> Iterator[Limit]:
    """By whole portions where the plate is costed so, and by weight."""
    yield_now = view.number("swap", "cook_yield", row)
    if not math.isfinite(yield_now):
        return
    tries = _yield_of_cook(view, plate)
    if view.number("swap", "counts_pieces", row) > 0:
        figure = "break_even_cook_loss_whole"
        tries = ""  # by whole portions the saving jumps past nothing, so nothing shows it
        words = _whole_words(view, row, figure)
        yield Limit("Cook loss", "cook_loss", figure, 1.0, words, basis="by whole portions")
    figure = "break_even_cook_loss"
    words = _points(view, row, figure) or _no_loss(view.number("swap", "saving_by_weight", row))
    slope = view.number("swap", "cook_dependent_gap", row)
    yield Limit("Cook loss", "cook_loss", figure, slope, words, tries, "by weight")


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


def _wage_limit(view: View, row: int) -> Limit:
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
    tries = "kitchen.loaded_wage.0"
    return Limit("Loaded wage", "loaded_wage", "break_even_wage", extra, words, tries)
