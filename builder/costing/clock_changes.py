"""Weeks in which the clocks change between a service's first start and its first plate."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from builder.costing.services import SERVED, WEEK, ServicePlan, elapsed
from builder.costing.wording import style_of
from builder.display.style import Style
from builder.language import Deferred, tr
from builder.problems import Place, Problem, Severity
from builder.records.content import Content
from builder.records.zones import zones_of

_HOUR, _MINUTE = timedelta(hours=1), timedelta(minutes=1)
CLOCK_HINT = Deferred(
    "the starts are counted in hours as they pass; look at every clock time of that night"
)


def check_clock_changes(content: Content, plans: Mapping[str, ServicePlan]) -> Iterator[Problem]:
    """Warn of each service whose run-up goes through a change of the clocks."""
    style = style_of(content.kitchen)
    for plan in plans.values():
        for at, by in clock_changes(_first(plan), plan.at):
            message, days = change_words(style, at, by), frozenset([at.weekday()])
            yield Problem(plan.service.at.place, message, tr(CLOCK_HINT), Severity.WARNING,
                          plan.service.path, needs=SERVED, days=days)  # fmt: skip


def check_time_zone(content: Content, plans: Mapping[str, ServicePlan]) -> Iterator[Problem]:
    """Ask once for the zone of a kitchen with a cook overnight in a week of a clock change.

    Which change: of the locale's country, or of some that have one where no country is named.
    """
    kitchen, style = content.kitchen, style_of(content.kitchen)
    nights = [plan for plan in plans.values() if _first(plan).date() < plan.at.date()]
    if kitchen.time_zone is not None or not nights:
        return
    monday = datetime.combine(content.as_of - timedelta(days=content.as_of.weekday()), time())
    first = min(monday, *map(_first, nights))
    for name in zones_of(str(kitchen.locale or ""), str(kitchen.currency)):
        zone = ZoneInfo(name)
        ends = first.replace(tzinfo=zone), (monday + WEEK).replace(tzinfo=zone)
        for at, _ in clock_changes(*ends):
            service, *others = (plan.service for plan in nights)
            message = tr(
                "no time zone is written, and the clocks change on {day_and_time} "
                "({date}) in {name}: a start of the night may be an hour off",
                day_and_time=style.day_and_time(at),
                date=style.date(at.date()),
                name=name,
            )
            hint = tr("add time zone: {name}, or the place that keeps your clock", name=name)
            yield Problem(Place(kitchen.file), message, hint, Severity.WARNING, service.path,
                          tuple(other.path for other in others), SERVED)  # fmt: skip
            return


def _first(plan: ServicePlan) -> datetime:
    return next((step.start for step, _ in plan.starts()), plan.at)


def change_words(style: Style, at: datetime, by: timedelta) -> str:
    """What a change of the clocks is called in a warning; `by` is how far they go."""
    minutes = abs(by) // _MINUTE
    moment = f"{style.day_and_time(at)} ({style.date(at.date())})"
    if by < timedelta():
        return tr(
            "the clocks go back by {minutes} minutes on {moment}, between the first "
            "start and serving",
            minutes=minutes,
            moment=moment,
        )
    return tr(
        "the clocks go forward by {minutes} minutes on {moment}, between the first "
        "start and serving",
        minutes=minutes,
        moment=moment,
    )


def clock_changes(start: datetime, end: datetime) -> Iterator[tuple[datetime, timedelta]]:
    """Each change of the clock between two moments of one zone: when, and how far it goes.

    When is what the clock shows as it changes, without a zone.
    """
    zone = start.tzinfo
    if zone is None:
        return

    def offset(moment: datetime) -> timedelta:
        return moment.astimezone(zone).utcoffset() or timedelta()

    moment, last = elapsed(start), elapsed(end)
    while moment < last:
        after = min(moment + _HOUR, last)
        before = offset(moment)
        if by := offset(after) - before:
            while offset(moment) == before:
                moment += _MINUTE
            yield (moment + before).replace(tzinfo=None), by
        moment = after
