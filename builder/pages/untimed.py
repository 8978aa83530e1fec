"""What goes into a service's cooks, and those of them whose hours nobody wrote."""

from __future__ import annotations

from builder.costing.service_steps import COOK
from builder.costing.services import PlannedCook, ServicePlan
from builder.display.words import listed
from builder.language import Deferred, ntr, tr
from builder.pages.components import Cell, Row
from builder.pages.parts import gear_name, record_cell
from builder.pages.values import capital
from builder.pages.view import View

_UNHELD = Deferred(
    "What {} holds is not written (holds: in kitchen.yaml). Loads of {} are "
    "no larger than in its own file, and the times are of one load."
)
_SEVERAL_UNHELD = Deferred(
    "What {} holds is not written (holds: in kitchen.yaml). Loads of {} are "
    "no larger than in their own files, and the times are of one load each."
)


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
    words = tr(_UNHELD if len(several) == 1 else _SEVERAL_UNHELD)
    return words.format(held or tr("the equipment"), names)
