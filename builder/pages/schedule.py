"""The week's services: when each step starts, on what equipment, and where two cooks clash."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from builder.cooking.schedule import TimedStep
from builder.costing.service_steps import COOK
from builder.costing.services import (
    PlannedCook,
    ServicePlan,
    Wanted,
    bookings,
    elapsed,
    kept_hours,
)
from builder.costing.staffing import unattended
from builder.display.style import Style, day_name
from builder.language import Deferred, clauses, ntr, tr
from builder.pages.booking_charts import bookings_chart
from builder.pages.clash_notices import clash_notices, clashes_counted
from builder.pages.components import Cell, Column, Link, Page, Row, Table
from builder.pages.equipment import NOT_BOOKED
from builder.pages.listings import listing
from builder.pages.moments import when
from builder.pages.parts import (
    gear_name,
    links,
    page_of,
    part,
    present,
    record_cell,
)
from builder.pages.remarks import remarks
from builder.pages.served import (
    covers_of,
    forms_links,
    guests_table,
    served_table,
)
from builder.pages.service_orders import order_part
from builder.pages.step_charts import STAFF, steps_chart
from builder.pages.untimed import load_words, undated_row, unheld_words, untimed_row, untimed_words
from builder.pages.values import capital
from builder.pages.view import View
from builder.pages.warned import notices_of
from builder.pages.weekdays import day_links
from builder.pages.withheld import seen
from builder.records.kinds import Plate

PATH = "schedule.html"
NAV = f"~/{PATH}"
_OF_WHAT_IS_TIMED = Deferred("of what has its hours written ")
_CLOCK = Deferred(
    "The days are those of the week that the site is computed for; every service "
    "comes round each week."
)
_NO_ZONE = Deferred(
    " The file names no time zone, so every day counts 24 hours: in a night "
    "in which the clocks change, what starts before it is an hour off."
)


def schedule_pages(view: View) -> Iterator[Page]:
    """The week, then a page for each service."""
    yield _week_page(view)
    for plan in view.costed.services.values():
        yield _service_page(view, plan)


def days_before(moment: datetime, served: datetime) -> str:
    """How many days before a service, where its weekday alone would name the wrong one.

    >>> friday = datetime(2026, 10, 2)
    >>> days_before(datetime(2026, 9, 24), friday), days_before(datetime(2026, 9, 27), friday)
    (', 8 days before', '')
    """
    days = (served.date() - moment.date()).days
    return tr(", {days} days before", days=days) if days > 6 else ""


# The week


def _week_page(view: View) -> Page:
    plans = list(view.costed.services.values())
    wanted = bookings(view.costed.content, view.costed.services)
    return Page(
        path=PATH,
        title=tr("Schedule"),
        lead=_week_lead(view),
        also=_unmanned_words(view),
        kind=tr("Capacity"),
        nav=NAV,
        sections=present(
            clash_notices(view),
            *(view.notices(plan.service.path) for plan in plans),
            notices_of(view, (p.cook for plan in plans for p in plan.cooks)),
            part(
                "services",
                tr("Services"),
                _services_table(view.style, plans),
                about=_clock_words(view),
            ),
            part(
                "equipment",
                tr("Who has the equipment"),
                bookings_chart(view, wanted),
                _kept_table(view, wanted),
            ),
            part("forms", tr("To print"), day_links(view)) if plans else None,
            part(
                "more",
                tr("Further"),
                links(tr("Further"), [Link(tr("Equipment"), "~/equipment.html")]),
            ),
        ),
    )


def _clock_words(view: View) -> str:
    zone = view.costed.content.kitchen.time_zone
    if zone is None:
        return tr(_CLOCK) + tr(_NO_ZONE)
    return tr(
        "{clock} Times are those of {key}, and hours are counted as they pass.",
        clock=_CLOCK,
        key=zone.key,
    )


def _week_lead(view: View) -> str:
    plans = view.costed.services.values()
    if not plans:
        return tr("No service is written; a file under services/ counts every start back from it.")
    starts = [(step.start, plan.at) for plan in plans for step, _ in plan.starts()]
    first = tr("nothing has to start before")
    if starts:
        timed = tr(_OF_WHAT_IS_TIMED) if any(plan.untimed for plan in plans) else ""
        first = tr(
            "{timed}the first start is {first_of}",
            timed=timed,
            first_of=_first_of(view.style, starts),
        )
    reported = clashes_counted(view)
    count = ntr("{count} service a week", "{count} services a week", len(plans))
    return f"{clauses([count, first, reported])}."


def _unmanned_words(view: View) -> tuple[str, ...]:
    """How many steps of the week need hands while nobody is there, if any do."""
    unmanned = _outside_hours(view)
    said = ntr(
        "{count} step needs hands outside the staffed hours.",
        "{count} steps need hands outside the staffed hours.",
        unmanned,
    )
    return (said,) if unmanned else ()


def _outside_hours(view: View) -> int:
    """How many steps of the week need hands while nobody is there; 0 where no hours are written."""
    staffed = view.costed.content.kitchen.staffed
    plans = view.costed.services.values()
    if staffed is None:
        return 0
    return sum(len(unattended(staffed, (step for step, _ in plan.starts()))) for plan in plans)


def _first_of(style: Style, starts: list[tuple[datetime, datetime]]) -> str:
    """The first of several starts, each with the service that it is for."""
    start, served = min(starts, key=lambda pair: elapsed(pair[0]))
    return when(style, start) + days_before(start, served)


def _services_table(style: Style, plans: list[ServicePlan]) -> Table:
    columns = (
        Column("service", tr("Service")),
        Column("at", tr("Served")),
        Column("covers", tr("Covers"), numeric=True),
        Column("first", tr("First start")),
    )
    body = tuple(
        Row(
            (
                Cell(plan.service.title, href=f"~/{page_of(plan.service)}"),
                Cell(when(style, plan.at), sort=plan.at.isoformat()),
                Cell(str(covers_of(plan.service)), sort=covers_of(plan.service)),
                Cell(_first(style, plan)),
            )
        )
        for plan in sorted(plans, key=lambda plan: plan.at)
    )
    return Table("services-table", tr("Services of the week"), columns, body)


def _first(style: Style, plan: ServicePlan) -> str:
    step = next(plan.starts(), None)
    rest = untimed_words(plan)
    if step is None:
        return capital(rest) or "–"
    start = step[0].start
    first = f"{when(style, start)}{days_before(start, plan.at)}, {tr(step[0].step.name)}"
    return clauses([first, rest])


def _kept_table(view: View, wanted: list[Wanted]) -> Table | None:
    """Hours of each piece of equipment, each load for itself and with what is shared."""
    if not wanted:
        return None
    columns = (
        Column("gear", tr("Equipment")),
        Column("alone", tr("Each on its own"), numeric=True),
        Column("shared", tr("Shared hours once"), numeric=True),
    )
    style = view.style
    body = tuple(
        Row(
            (
                Cell(gear_name(view, kept.equipment)),
                Cell(style.duration(kept.each_for_itself), kept.each_for_itself),
                Cell(style.duration(kept.shared_once), kept.shared_once),
            )
        )
        for kept in kept_hours(view.costed.content, wanted)
    )
    return Table(
        "kept",
        tr("Hours of the week that the services book"),
        columns,
        body,
        about=tr(
            "Cooks of one temperature share while their pieces fit in; turn-round "
            "included. A load that fills two counts twice. {value}",
            value=tr(NOT_BOOKED),
        ),
    )


# One service


def _service_page(view: View, plan: ServicePlan) -> Page:
    service = plan.service
    lead, *also = _lead(view.style, plan)
    return Page(
        path=page_of(service),
        title=service.title,
        lead=lead,
        also=tuple(also),
        kind=tr("Service"),
        crumbs=(Link(tr("Schedule"), NAV),),
        nav=NAV,
        sections=present(
            clash_notices(view, service),
            view.notices(service.path),
            notices_of(view, (p.cook for p in plan.cooks), _served(view, plan)),
            part(
                "timeline",
                tr("From the first start to the first plate"),
                steps_chart(view, plan),
            ),
            part("starts", tr("What starts when"), starts_table(view, plan)),
            part(
                "plates",
                tr("What is served"),
                served_table(view, plan.service),
                seen(guests_table, view, plan.service),
            ),
            seen(order_part, view, plan),
            part("forms", tr("To print"), forms_links(plan)),
            *remarks(view, service),
            listing(view, service),
        ),
    )


def _lead(style: Style, plan: ServicePlan) -> tuple[str, ...]:
    """How many are served, when and when the first step starts; then which step that is."""
    first = next(plan.starts(), None)
    at, rest = (
        tr("{day} at {clock}", day=day_name(plan.at), clock=style.clock(plan.at.time())),
        untimed_words(plan),
    )
    covers = tr("{covers_of} covers on {at}", covers_of=covers_of(plan.service), at=at)
    if first is None:
        return (f"{clauses([covers, rest or tr('nothing has to start before')])}.",)
    step, planned = first
    name = tr(step.step.name)
    what = f"{planned.cook.title} ({name})" if planned else name
    first_at = tr(
        "{day} at {clock}{days_before}",
        day=day_name(step.start),
        clock=style.clock(step.start.time()),
        days_before=days_before(step.start, plan.at),
    )
    timed, what = (tr(_OF_WHAT_IS_TIMED), clauses([what, rest])) if rest else ("", what)
    start = tr(
        "{covers}; {timed}the first start is {first_at}.",
        covers=covers,
        timed=timed,
        # A clock time of twelve hours brings its own point.
        first_at=first_at.removesuffix("."),
    )
    return start, tr("It starts with {what}.", what=what)


def starts_table(view: View, plan: ServicePlan) -> Table:
    """Every start in order, with how long it takes and what goes in."""
    columns = (
        Column("when", tr("Start")),
        Column("what", tr("Step")),
        Column("cook", tr("Of")),
        Column("long", tr("For"), numeric=True),
        Column("on", tr("On")),
        Column("load", tr("Load"), numeric=True),
    )
    jobs = view.costed.rows.services.jobs
    body = tuple(
        _start_row(view, step, planned, plan.at, jobs[plan.service.id, key])
        for key, step, planned in plan.jobs()
    )
    body += tuple(untimed_row(view, planned) for planned in plan.untimed)
    body += tuple(undated_row(planned) for planned in plan.cooks if planned.undated)
    return Table(
        "starts-table", tr("Starts in their order"), columns, body, about=unheld_words(view, plan)
    )


def _start_row(
    view: View, step: TimedStep, planned: PlannedCook | None, served: datetime, job: int
) -> Row:
    loaded = planned is not None and step.step.name == COOK
    start = when(view.style, step.start) + days_before(step.start, served)
    return Row(
        (
            Cell(start, sort=step.start.isoformat()),
            Cell(capital(tr(step.step.name))),
            record_cell(planned.cook) if planned else Cell(tr(STAFF)),
            Cell(
                view.style.duration(step.step.duration_min / 60),
                href=view.href("job", "hours", job),
            ),
            Cell(gear_name(view, step.step.equipment or "–")),
            Cell(load_words(view, planned), href=view.href("job", "raw_weight", job))
            if loaded and planned
            else Cell("–"),
        )
    )


def _served(view: View, plan: ServicePlan) -> Iterator[Plate]:
    return (view.costed.content.plates[name] for name in plan.service.plates)
