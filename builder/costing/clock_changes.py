"""Weeks in which the clocks change between a service's first start and its first plate."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta

from builder.costing.services import DAY_AND_TIME, ServicePlan, elapsed
from builder.problems import Problem, Severity

_HOUR, _MINUTE = timedelta(hours=1), timedelta(minutes=1)
_HINT = "the starts are counted in hours as they pass; look at every clock time of that night"


def check_clock_changes(plans: Mapping[str, ServicePlan]) -> Iterator[Problem]:
    """Warn of each service whose run-up goes through a change of the clocks."""
    for plan in plans.values():
        first = next((step.start for step, _ in plan.starts()), plan.at)
        for at, by in clock_changes(first, plan.at):
            yield Problem(plan.service.at.place, _words(at, by), _HINT, Severity.WARNING,
                          plan.service.path)  # fmt: skip


def _words(at: datetime, by: timedelta) -> str:
    way = "back" if by < timedelta() else "forward"
    minutes = abs(by) // _MINUTE
    return (
        f"the clocks go {way} by {minutes} minutes on {at:{DAY_AND_TIME}} ({at:%Y-%m-%d}), "
        "between the first start and the service"
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
