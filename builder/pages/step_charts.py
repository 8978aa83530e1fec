"""The picture of a service's steps, from the first start to the first plate."""

from __future__ import annotations

from collections.abc import Iterator

from builder.cooking.schedule import TimedStep
from builder.costing.service_steps import COOK
from builder.costing.services import ServicePlan, bookings
from builder.display.style import Style
from builder.language import Deferred, tr
from builder.pages.clash_marks import clash_rows
from builder.pages.components import Cell, Chart, Column, Row, Table, Value
from builder.pages.moments import stamp, when
from builder.pages.view import View

STAFF = Deferred("Staff")


def steps_chart(view: View, plan: ServicePlan) -> Chart | None:
    """The timed steps of a service, each cook in a lane of its own; None without any."""
    style = view.style
    rows: list[dict[str, Value]] = [
        {
            "role": "step",
            "lane": planned.cook.title if planned else tr(STAFF),
            "task": tr(step.step.name),
            "start": stamp(step.start),
            "end": stamp(step.end),
            "kind": _kind(step),
        }
        for step, planned in plan.starts()
    ]
    if not rows:
        return None
    rows += _clashing(view, plan)
    title = tr("The timed steps that lead to {service}", service=plan.service.title)
    summary = tr(
        "{rows} steps, all ending by {when}, each cook in a lane of its own.",
        rows=sum(row["role"] == "step" for row in rows),
        when=when(style, plan.at),
    )
    table = _steps_table(style, plan)
    return Chart("steps", "timeline", title, summary, tuple(rows), table)


def _clashing(view: View, plan: ServicePlan) -> Iterator[dict[str, Value]]:
    """The rows of what clashes of a service's own steps on the equipment."""
    booked = bookings(view.costed.content, view.costed.services)
    own = {w.planned.cook.id: w for w in booked if w.plan.service.id == plan.service.id}
    for step, planned in plan.starts():
        if planned and step.step.equipment and planned.cook.id in own:
            bar = step.start, step.end
            yield from clash_rows(view, own[planned.cook.id], planned.cook.title, bar)


def _kind(step: TimedStep) -> str:
    if step.step.name == COOK:
        return tr("on the equipment")
    return tr("by hand") if step.step.hands_on else tr("by itself")


def _steps_table(style: Style, plan: ServicePlan) -> Table:
    names = {"lane": tr("Cook"), "step": tr("Step"), "from": tr("From"), "to": tr("To")}
    columns = tuple(Column(key, label) for key, label in names.items())
    body = tuple(
        Row(
            (
                Cell(planned.cook.title if planned else tr(STAFF)),
                Cell(tr(step.step.name)),
                Cell(when(style, step.start)),
                Cell(when(style, step.end)),
            )
        )
        for step, planned in plan.starts()
    )
    return Table("steps-rows", tr("Steps from start to end"), columns, body)
