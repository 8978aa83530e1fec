"""Prep sheets a day each: what starts on it, whichever service it is for."""

from __future__ import annotations

from collections.abc import Iterator

from builder.cooking.schedule import TimedStep
from builder.costing.services import PlannedCook, ServicePlan
from builder.language import clauses, labelled, tr
from builder.pages.components import (
    Cell,
    Column,
    Form,
    FormField,
    FormFields,
    FormNote,
    Link,
    Page,
    Row,
)
from builder.pages.form_pieces import sheet_title
from builder.pages.log_sheets import (
    plan_warnings,
    room_of,
    start_load,
    start_words,
    starts_blocks,
    starts_by_sheet,
    undated_ticks,
)
from builder.pages.schedule import days_before
from builder.pages.untimed import undated_items, undated_rows
from builder.pages.values import capital
from builder.pages.view import View
from builder.pages.warned import cook_warnings, uncooked_words
from builder.pages.weekdays import day_path, weekday_name, weekdays

_STARTS_A_SHEET, _SMALL_STARTS = 20, 30
Started = tuple[ServicePlan, TimedStep, PlannedCook | None]


def day_pages(view: View) -> Iterator[Page]:
    """A prep sheet for each day on which something starts or is served."""
    return (_page(view, weekday) for weekday in weekdays(view))


def _starts(view: View, weekday: int) -> list[Started]:
    """What starts on a day of the week, by the clock."""
    found = (
        (plan, step, planned)
        for plan in view.costed.services.values()
        for step, planned in plan.starts()
        if step.start.weekday() == weekday
    )
    return sorted(found, key=lambda started: (started[1].start.time(), started[1].start.fold))


def _served(view: View, weekday: int) -> list[ServicePlan]:
    plans = (plan for plan in view.costed.services.values() if plan.at.weekday() == weekday)
    return sorted(plans, key=lambda plan: plan.at.time())


def _page(view: View, weekday: int) -> Page:
    return Page(
        path=day_path(weekday),
        title=tr("Prep sheet, {day}", day=weekday_name(weekday)),
        lead=tr(
            "The day's starts in their order, for every service, then what the services need "
            "without one."
        ),
        kind=tr("Form"),
        crumbs=(Link(tr("Schedule"), "~/schedule.html"),),
        nav="~/schedule.html",
        sections=tuple(_forms(view, weekday)),
        sheet=True,
    )


def _forms(view: View, weekday: int) -> Iterator[Form]:
    starts, served = _starts(view, weekday), _served(view, weekday)
    rows = [_row(view, started) for started in starts]
    rows += [
        Row((*row.cells[:2], Cell(plan.service.title), *row.cells[2:]))
        for plan in served
        for row in undated_rows(view, plan)
    ]
    warned = list(dict.fromkeys(_warnings(view, weekday, starts, served)))
    rest = undated_ticks(_undated(view, served))
    # A warning takes the room of about two starts.
    taken = 2 * len(warned) + room_of(rest)
    small, sheets = starts_by_sheet(rows, (_STARTS_A_SHEET, _SMALL_STARTS), taken)
    for number, sheet in enumerate(sheets, start=1):
        notes = [FormNote(text, strong=True) for text in warned] if number == 1 else []
        last = rest if number == len(sheets) else ()
        yield Form(
            f"day-{number}",
            sheet_title(tr("Prep sheet"), number, len(sheets)),
            (_head(view, served), *notes, *starts_blocks(_columns(), sheet, last, small=small)),
            capital(weekday_name(weekday)),
            close=small,
        )


def _undated(view: View, served: list[ServicePlan]) -> Iterator[str]:
    """What the services of a day need without a start; with the service where there are several."""
    for plan in served:
        of = f" ({plan.service.title})" if len(served) > 1 else ""
        yield from (f"{item}{of}" for item in undated_items(view, plan))


def _columns() -> tuple[Column, ...]:
    return (
        Column("when", tr("Start")),
        Column("what", tr("What")),
        Column("service", tr("Service")),
        Column("load", tr("Load")),
        Column("initials", tr("Initials")),
    )


def _head(view: View, served: list[ServicePlan]) -> FormFields:
    said = [labelled(plan.service.title, view.style.clock(plan.at.time())) for plan in served]
    return FormFields((FormField(tr("Date")), FormField(tr("Served"), clauses(said) or "–")))


def _row(view: View, started: Started) -> Row:
    plan, step, planned = started
    clock = view.style.clock(step.start.time())
    again = tr(" (the second time)") if step.start.fold else ""
    service = plan.service.title + days_before(step.start, plan.at)
    cells = (f"{clock}{again}", start_words(view, step, planned), service)
    return Row((*map(Cell, cells), Cell(start_load(view, step, planned)), Cell("")))


def _warnings(
    view: View, weekday: int, starts: list[Started], served: list[ServicePlan]
) -> Iterator[str]:
    """What is wrong with what starts on the day, in its plans and in its cooks."""
    services = {plan.service.id: plan.service for plan, _, _ in starts}
    if services:
        yield from plan_warnings(view, *services.values(), day=weekday)
    cooks = {planned.cook.id: (planned.cook, plan) for plan, _, planned in starts if planned}
    for cook, plan in cooks.values():
        yield from cook_warnings(view, cook, plan.service)
    content = view.costed.content
    plates = {name: content.plates[name] for plan in served for name in plan.service.plates}
    yield from uncooked_words(view, plates.values())
