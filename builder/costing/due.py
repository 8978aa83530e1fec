"""Which services ask for something today: their first step begins before tomorrow is over."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from builder.costing.costed import Costed
from builder.costing.services import WEEK, ServicePlan

# Ordered today, delivered tomorrow morning; common practice, no published source.
AHEAD = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Due:
    """A service with the moments, by the kitchen's clock, at which it starts and is served."""

    plan: ServicePlan
    start: datetime
    served: datetime


def due_services(costed: Costed) -> Iterator[Due]:
    """The services whose first step is today or tomorrow, the first to start before the rest."""
    found = (_next(plan, costed.content.as_of) for plan in costed.services.values())
    yield from sorted(filter(None, found), key=lambda each: each.start)


def _next(plan: ServicePlan, as_of: date) -> Due | None:
    """The next service of the plan that has not begun by the day, where it is due."""
    starts = [plan.by_the_clock(step.start) for step, _ in plan.starts()]
    if not starts:
        return None
    # The plan is of this week: a start before the day is that of a service that is under way.
    later = WEEK * math.ceil((as_of - min(starts).date()) / WEEK)
    first = min(starts) + later
    return Due(plan, first, plan.at + later) if first.date() <= as_of + AHEAD else None
