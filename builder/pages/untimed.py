"""What goes into a service's cooks, and those of them whose hours nobody wrote."""

from __future__ import annotations

from builder.costing.service_steps import COOK
from builder.costing.services import PlannedCook, ServicePlan
from builder.display.words import listed
from builder.pages.components import Cell, Row
from builder.pages.parts import gear_name, record_cell
from builder.pages.view import View


def untimed_words(plan: ServicePlan) -> str:
    """Which cooks have no start, and why; empty where each has one."""
    names = listed([planned.cook.title for planned in plan.untimed])
    hours = "its hours are" if len(plan.untimed) == 1 else "their hours are"
    return f"no start is given for {names}: {hours} not written" if names else ""


def untimed_row(view: View, planned: PlannedCook) -> Row:
    """A cook that is known to be there, and not when."""
    return Row(
        (
            Cell("Not known"),
            Cell(COOK.capitalize()),
            record_cell(planned.cook),
            Cell("Not written"),
            Cell(gear_name(view, planned.cook.equipment or "–")),
            Cell(load_words(view, planned)),
        )
    )


def load_words(view: View, planned: PlannedCook) -> str:
    """How many pieces go in, and what they weigh raw; the weight alone without a piece weight."""
    if not planned.pieces:
        return view.style.weight(planned.raw_kg)
    pieces = "piece" if planned.pieces == 1 else "pieces"
    return f"{planned.pieces} {pieces}, {view.style.weight(planned.raw_kg)}"
