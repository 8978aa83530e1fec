"""What goes into a service's cooks, and what a service needs for which no start is given."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.service_steps import COOK
from builder.costing.services import PlannedCook, ServicePlan
from builder.display.words import listed
from builder.language import labelled, ntr, tr
from builder.pages.components import Cell, Row
from builder.pages.figure_names import PreparationFigure
from builder.pages.parts import gear_name, record_cell
from builder.pages.portions import uncooked_orders
from builder.pages.values import capital
from builder.pages.view import FigureRow, View
from builder.pages.withheld import seen


def untimed_words(plan: ServicePlan) -> str:
    """Which cooks have no start, and why; empty where each has one."""
    names = listed([planned.cook.title for planned in plan.untimed])
    hours = tr("its hours are") if len(plan.untimed) == 1 else tr("their hours are")
    return (
        tr("no start is given for {names}: {hours} not written", names=names, hours=hours)
        if names
        else ""
    )


def untimed_row(view: View, planned: PlannedCook) -> Row:
    """A cook that is known to be there, and not when."""
    return Row(
        (
            Cell(tr("Not known")),
            Cell(capital(tr(COOK))),
            record_cell(planned.cook),
            Cell(tr("Not written")),
            Cell(gear_name(view, planned.cook.equipment or "–")),
            Cell(load_words(view, planned)),
        )
    )


def undated_row(planned: PlannedCook) -> Row:
    """The steps of a cook that have no start."""
    words = (capital(_names(planned)), record_cell(planned.cook), "–", "–", "–")
    cells = (each if isinstance(each, Cell) else Cell(each) for each in words)
    return Row((Cell(tr("Not known")), *cells))


def _names(planned: PlannedCook) -> str:
    return listed([tr(name) for name in planned.undated])


def undated_rows(view: View, plan: ServicePlan) -> tuple[Row, ...]:
    """What a service needs and no start can be given for: without hours, or without a cook."""
    untimed = (
        (
            tr("Not known"),
            tr("{cook}: its hours are not written", cook=planned.cook.title),
            load_words(view, planned),
        )
        for planned in plan.untimed
    )
    uncooked = (
        ("–", tr("{cut}: served without a cook", cut=cut.title), load)
        for cut, load in uncooked_orders(view, plan.service)
    )
    return tuple(Row((*map(Cell, cells), Cell(""))) for cells in (*untimed, *uncooked))


def undated_items(view: View, plan: ServicePlan) -> Iterator[str]:
    """What else a service needs, to tick off: sub-recipes, and steps of cooks without a time."""
    yield from seen(lambda: list(_to_make(view, plan))) or ()
    for planned in plan.cooks:
        if planned.undated:
            yield labelled(planned.cook.title, _names(planned))


def _to_make(view: View, plan: ServicePlan) -> Iterator[str]:
    """The sub-recipes that a service takes, but for what is at hand of them."""
    for name, number in view.costed.orders[plan.service.id].made.items():
        row: FigureRow[PreparationFigure] = FigureRow(view, "preparation", number)
        if row.number("amount_made") > 0:
            yield f"{view.costed.content.pantry[name].title}, {row.text('amount_made')}"


def load_words(view: View, planned: PlannedCook) -> str:
    """How many pieces go in, and what they weigh raw; the weight alone without a piece weight.

    Where nobody says what the equipment holds, in as many loads as the cook's own weight makes.
    """
    found = view.style.weight(planned.raw_kg)
    if planned.pieces:
        found = f"{ntr('{count} piece', '{count} pieces', planned.pieces)}, {found}"
    if planned.loads < 2:
        return found
    return tr(
        "{found}, in {loads} loads of up to {load}",
        found=found,
        loads=planned.loads,
        load=_load(view, planned),
    )


def _load(view: View, planned: PlannedCook) -> str:
    """What goes in at once: pieces where their number limits it, else a weight."""
    if planned.by_load:
        return ntr("{count} piece", "{count} pieces", planned.by_load)
    return view.style.weight(view.batch(planned.cook).number("load"))


def unheld_words(view: View, plan: ServicePlan) -> str:
    """Why cooks go in in several loads: nobody says what is held.

    Of pieces that lie side by side a warning of the plan says so, with the hours that it costs.
    """
    several = [planned for planned in plan.cooks if planned.loads > 1 and not planned.by_load]
    return _unheld(view, several) if several else ""


def _unheld(view: View, several: list[PlannedCook]) -> str:
    names = listed([planned.cook.title for planned in several])
    gear = (planned.cook.equipment for planned in several)
    held = listed(list(dict.fromkeys(gear_name(view, each) for each in gear if each)))
    if not held:
        return ntr(
            "What the equipment holds is not written (holds: in kitchen.yaml). Loads of {names} "
            "are no larger than in its own file, and the times are of one load.",
            "What the equipment holds is not written (holds: in kitchen.yaml). Loads of {names} "
            "are no larger than in their own files, and the times are of one load each.",
            len(several),
            names=names,
        )
    return ntr(
        "What {gear} holds is not written (holds: in kitchen.yaml). Loads of {names} are "
        "no larger than in its own file, and the times are of one load.",
        "What {gear} holds is not written (holds: in kitchen.yaml). Loads of {names} are "
        "no larger than in their own files, and the times are of one load each.",
        len(several),
        gear=held,
        names=names,
    )
