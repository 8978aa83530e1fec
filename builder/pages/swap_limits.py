"""What would end a swap's saving, input by input, and in words where nothing would."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from builder.display.chances import interval_places
from builder.display.style import per_unit
from builder.language import Deferred, clauses, tr
from builder.pages.components import Cell, Column, Row, Table
from builder.pages.figure_names import SwapFigure
from builder.pages.in_clauses import in_clauses
from builder.pages.interval_words import between
from builder.pages.parts import as_written
from builder.pages.values import as_read
from builder.pages.view import SwapRow, View
from builder.quantities import Dimension
from builder.records.chains import Phase
from builder.records.kinds import Plate
from builder.records.portions import cut_of
from builder.records.untimed import untimed_of_plate
from builder.rounding import half_up

_ABOUT = Deferred(
    "Each line moves one input while all others stay as they are. Cook loss "
    "is everything that leaves the piece in the cook, juices included; what "
    "they are worth stays as it is."
)


# The saving alone: what ends a gain in margin may well be known beside it.
_ENDS_NOTHING = {
    "price": Deferred("no price can end the saving"),
    "loss": Deferred("no loss can end the saving"),
    "wage": Deferred("no wage can end the saving"),
}
_SAVES_NOTHING = {
    "price": Deferred("no price is low enough to save"),
    "loss": Deferred("no loss is small enough to save"),
    "wage": Deferred("no wage is low enough to save"),
}
_WHATEVER = {
    "price": Deferred("never, whatever the price"),
    "loss": Deferred("never, whatever the loss"),
    "wage": Deferred("never, whatever the wage"),
}
# A wage of more times today's, or of less than that part of it, is one that nobody pays.
_TIMES_A_WAGE = 20
_WAGES: frozenset[SwapFigure] = frozenset({"break_even_wage", "equal_margin_wage"})
_WHOLE: SwapFigure = "break_even_cook_loss_whole"
_STEPS = Deferred(
    " By whole portions it is the most that may be lost: beyond it "
    "a piece gives a portion fewer, and the cost jumps. By weight both "
    "plates cost what their portions weigh, so that limit may lie on the "
    "other side of today's loss."
)
_MOVES_BOTH = Deferred("both plates use this cook, so its loss moves both")
MARGINS = Deferred(" Margins are after full plate cost, each plate at its own menu price.")


@dataclass(frozen=True, slots=True)
class Limit:
    """One input of a swap, and where it ends the saving: figures of the swap, and words.

    `words` say how far the limit lies from today, or why there is none. `margin` is where the
    input makes both margins equal, where that is known in closed form, `margin_words` how far
    that lies from today, `unequal` why it is not known; `slope` has the sign of what a larger
    input takes from the saving, `tries` names an input that can be moved to the limit.
    """

    input: str
    now: SwapFigure
    limit: SwapFigure
    slope: float
    words: str
    tries: str = ""
    basis: str = ""
    margin: SwapFigure | None = None
    margin_words: str = ""
    unequal: str = ""
    of_both: bool = False

    @property
    def label(self) -> str:
        """The input and the basis of its limit; of which plates, where the menu has another."""
        of = tr(" on both plates") if self.of_both else ""
        return ", ".join(filter(None, (self.input, self.basis + of)))


def limits_of(view: View, plate: Plate, row: SwapRow) -> Iterator[Limit]:
    """The inputs of a swap that are moved, one at a time."""
    yield _price_limit(view, plate, row)
    yield from _loss_limits(view, plate, row)
    yield _of_stated_work(view, plate, row, _wage_limit(view, row))


def limits(view: View, plate: Plate, row: SwapRow, rests_on: str) -> Table:
    """One input moved, all others as they are: where the saving is zero, and what that lacks."""
    priced = row.known("margin_change")
    columns = (
        Column("what", tr("One input moved")),
        Column("now", tr("Now"), numeric=True),
        *([Column("margin", tr("Margins are equal at"), numeric=True)] if priced else []),
        Column("limit", tr("Saving is zero at"), numeric=True),
    )
    found = list(limits_of(view, plate, row))
    body = tuple(_limit_row(row, limit, priced) for limit in found)
    steps = any(limit.limit == _WHOLE and row.known(_WHOLE) for limit in found)
    about = tr(_ABOUT) + (tr(_STEPS) if steps else "") + (tr(MARGINS) if priced else "") + rests_on
    name, caption = f"limits-{plate.id}", tr("Break-even of {plate}", plate=plate.title)
    return Table(name, caption, columns, body, about=about)


def _limit_row(row: SwapRow, limit: Limit, priced: bool) -> Row:
    """A limit, with the input that can be moved to it where there is one."""
    # Beside two limits each says for itself how far off it is, or why there is none.
    known = limit.margin and row.known(limit.margin)
    apart = priced and (known or limit.unequal != limit.words)
    beside = "" if apart else limit.words
    margin = [margin_cell(row, limit, beside, limit.margin_words)] if priced else []
    saving = limit_cell(row, limit, limit.limit, limit.words if apart else "")
    named = Cell(limit.label, note=as_written(beside))
    return Row((named, row.cell(limit.now), *margin, saving))


def margin_cell(row: SwapRow, limit: Limit, beside: str, far: str = "") -> Cell:
    """Where an input makes both margins equal, `far` from today, or why it does not unless that
    is said beside it."""
    if limit.margin and row.known(limit.margin):
        return limit_cell(row, limit, limit.margin, far)
    return limit_cell(row, limit, None, "" if limit.unequal == beside else limit.unequal)


def limit_cell(row: SwapRow, limit: Limit, figure: SwapFigure | None, words: str = "") -> Cell:
    """Where an input would bring something to nothing, with its interval and a way to try it.

    `words`: how far off it is, or why nothing would.
    """
    said = as_written(words)
    if figure is None or not row.known(figure):
        return Cell("–", note=said)
    if figure in _WAGES and (never := _unpaid_wage(row, figure)):
        return Cell("–", note=as_written(clauses((words, never))))
    note = in_clauses((said, between(row, figure)))
    return replace(row.cell(figure, note=note), tries=limit.tries)


def _unpaid_wage(row: SwapRow, figure: SwapFigure) -> str:
    """Why a wage is no limit: it is too far from today's; empty where it may be paid."""
    today, limit = row.numbers("loaded_wage", figure)
    if limit > _TIMES_A_WAGE * today:
        return tr("only above {times} times today's wage", times=_TIMES_A_WAGE)
    if limit < today / _TIMES_A_WAGE:
        return tr("only below 1/{times} of today's wage", times=_TIMES_A_WAGE)
    return ""


def _yield_of_cook(view: View, plate: Plate) -> str:
    """What to move for the loss of a plate's cook: the share that its cook leaves."""
    if plate.cook is None:
        return ""
    steps = view.steps(view.costed.content.cooks[plate.cook])
    stages = [step.row for link, step in steps if link.phase is Phase.COOK]
    stage = view.costed.figures.linked("step", "stage", stages[0])
    return f"stage.assumed_yield.{stage} 1-"


def _price_limit(view: View, plate: Plate, row: SwapRow) -> Limit:
    price, limit, slope, saving = row.numbers(
        "ap_price", "break_even_ap_price", "price_slope", "saving"
    )
    unequal = tr(_WHATEVER["price"])
    if math.isnan(price):
        words = unequal = tr("no cut is on this plate")
    elif math.isfinite(limit):
        words = _price_words(view, row, "break_even_ap_price")
    elif abs(slope) <= 1e-12:
        words = unequal = tr("the price of its cut does not move the saving")
    else:
        words = _never("price", saving)
    content = view.costed.content
    cut = cut_of(content, plate.served[0]) if plate.served else None
    tries = view.cut(cut).name("ap_price") if cut else ""
    of = cut.title if cut and plate.further else tr("its cut")
    return Limit(
        tr("AP price of {of}", of=of),
        "ap_price",
        "break_even_ap_price",
        slope,
        words,
        tries,
        margin="equal_margin_ap_price",
        margin_words=_price_words(view, row, "equal_margin_ap_price"),
        unequal=unequal,
    )


def _price_words(view: View, row: SwapRow, figure: SwapFigure) -> str:
    """How far a price lies from today's; nothing where there is none."""
    price, limit = row.numbers("ap_price", figure)
    if not math.isfinite(limit):
        return ""
    if not price > 0:
        return tr("it costs nothing today")
    places = max(interval_places(100 * view.width("swap", figure, row.row) / price, 1), 0)
    today, then = (_as_printed(view, row, each) for each in ("ap_price", figure))
    change = then / today - 1 if today else limit / price - 1
    if not half_up(abs(100 * change), places):
        return tr("today's price, as far as is shown")
    return tr(
        "{signed_percent} from today's price",
        signed_percent=view.style.signed_percent(change, places),
    )


def _as_printed(view: View, row: SwapRow, figure: SwapFigure) -> float:
    """A price per unit of weight as its cell writes it, so that a change is one of what is read."""
    per = per_unit(view.style.unit(Dimension.MASS))
    width = view.width("swap", figure, row.row) * per
    return as_read(view.style, "money", row.number(figure) * per, width)


def _loss_limits(view: View, plate: Plate, row: SwapRow) -> Iterator[Limit]:
    """By whole portions where the plate is costed so, and by weight."""
    yield_now = row.number("cook_yield")
    if not math.isfinite(yield_now) or plate.cook is None:
        return
    of = tr(" of {main_cook}", main_cook=_main_cook(view, plate)) if plate.further else ""
    label = tr("Cook loss{of}", of=of)
    if words := _loss_moves_nothing(row):
        yield Limit(label, "cook_loss", "break_even_cook_loss", 0.0, words, unequal=words)
        return
    figure: SwapFigure = "break_even_cook_loss"
    equal: SwapFigure = "equal_margin_cook_loss"
    whole, gap = row.number("counts_pieces") > 0, row.number("cook_dependent_gap")
    if whole:
        yield _whole_loss_limit(view, row, label)
    words = _points(view, row, figure) or _never("loss", row.number("saving_beside_loss"))
    unequal = tr(_WHATEVER["loss"])
    if row.number("same_cook") > 0 and abs(gap) <= 1e-12:
        words = unequal = tr(_MOVES_BOTH)
    yield Limit(
        label,
        "cook_loss",
        figure,
        gap,
        words,
        # What a try shows counts whole portions: it would not meet a limit by weight.
        "" if whole else _yield_of_cook(view, plate),
        tr("by weight"),
        equal,
        _points(view, row, equal),
        unequal,
        whole,
    )


def _loss_moves_nothing(row: SwapRow) -> str:
    """Why the cook's loss changes nothing between the plates; empty where it does."""
    if row.number("moved_cooks") > 0:
        return tr("a further portion is of this cook, too, so its loss moves both")
    if row.known("portion_pieces"):
        return tr("a portion of pieces costs the same whatever they lose")
    return ""


def _whole_loss_limit(view: View, row: SwapRow, label: str) -> Limit:
    figure: SwapFigure = "break_even_cook_loss_whole"
    words = _whole_words(view, row, figure)
    unequal = words if row.number("same_cook") > 0 else tr(_WHATEVER["loss"])
    basis = tr("by whole portions")
    # By whole portions the saving jumps past nothing, so no try shows it.
    tries = ""
    equal: SwapFigure = "equal_margin_cook_loss_whole"
    far = _points(view, row, equal)
    return Limit(label, "cook_loss", figure, 1.0, words, tries, basis, equal, far, unequal)


def _main_cook(view: View, plate: Plate) -> str:
    return view.costed.content.cooks[plate.cook].title if plate.cook else ""


def _points(view: View, row: SwapRow, figure: SwapFigure) -> str:
    """How far a loss lies from today's; nothing where there is none."""
    limit = row.number(figure)
    if not math.isfinite(limit):
        return ""
    points = (row.as_read(figure) - row.as_read("cook_loss")) * 100
    places = max(interval_places(100 * view.width("swap", figure, row.row), 1), 0)
    if not half_up(abs(points), places):
        return tr("today's loss, as far as is shown")
    off = view.style.number(abs(points), places)
    if off == view.style.number(1, 0):
        return (
            tr("1 point more than today's loss")
            if points > 0
            else tr("1 point less than today's loss")
        )
    if points >= 0:
        return tr("{points} points more than today's loss", points=off)
    return tr("{points} points less than today's loss", points=off)


def _never(what: str, saving: float) -> str:
    """That no price, loss or wage is where the saving begins or ends."""
    return tr((_ENDS_NOTHING if saving > 0 else _SAVES_NOTHING)[what])


def _whole_words(view: View, row: SwapRow, figure: SwapFigure) -> str:
    if row.number("same_cook") > 0:
        return tr(_MOVES_BOTH)
    points = _points(view, row, figure)
    if not points:
        return _never("loss", row.number("saving"))
    portions = row.number("portions_at_break_even")
    if row.number("portions_to_break_even") <= 1:
        return tr("{points}; a piece must still give its one portion", points=points)
    counted = view.style.count(portions)
    if row.number(figure) > row.number("cook_loss"):
        return tr(
            "{points}; a piece then still gives {counted} portions", points=points, counted=counted
        )
    return tr("{points}; a piece then gives {counted} portions", points=points, counted=counted)


def _of_stated_work(view: View, plate: Plate, row: SwapRow, limit: Limit) -> Limit:
    """A limit by work that says so where some of the work on either plate is stated nowhere."""
    if math.isnan(limit.slope) or not _is_untimed(view, plate, row):
        return limit
    words, unequal = (
        tr("{words}, as far as the work is stated", words=each)
        for each in (limit.words, limit.unequal)
    )
    return replace(limit, words=words, unequal=unequal)


def _is_untimed(view: View, plate: Plate, row: SwapRow) -> bool:
    """Whether some of the work on either plate of a swap is stated nowhere."""
    plates = list(view.costed.content.plates.values())
    benchmark = plates[view.costed.figures.linked("swap", "benchmark", row.row)]
    return any(untimed_of_plate(view.costed.content, each) for each in (plate, benchmark))


def _wage_limit(view: View, row: SwapRow) -> Limit:
    limit, extra, saving = row.numbers("break_even_wage", "extra_hours", "saving")
    unequal = tr(_WHATEVER["wage"])
    if math.isnan(extra):
        words = unequal = tr("not known: some work on the plates is stated nowhere")
    elif math.isfinite(limit):
        work = view.style.duration(abs(extra))
        words = (
            tr("a plate takes {work} more work", work=work)
            if extra > 0
            else tr("a plate takes {work} less work", work=work)
        )
    elif abs(extra) <= 1e-12:
        words = unequal = tr("both plates take the same work")
    else:
        words = _never("wage", saving)
    tries = "kitchen.loaded_wage.0"
    equal: SwapFigure = "equal_margin_wage"
    return Limit(
        tr("Loaded wage"),
        "loaded_wage",
        "break_even_wage",
        extra,
        words,
        tries,
        margin=equal,
        unequal=unequal,
    )
