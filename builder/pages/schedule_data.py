"""Each step of each service's plan as open data: when, how long, on what, and what goes in."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count

from builder.cooking.schedule import TimedStep
from builder.costing.services import COOK, PlannedCook, ServicePlan
from builder.pages.tables import Field, Resource, Texts
from builder.pages.view import View
from builder.reading.names import slug

_STAFF = "staff"


def _steps(view: View) -> Iterator[tuple[int, Texts]]:
    found = (texts for plan in view.costed.services.values() for texts in _steps_of_service(plan))
    yield from enumerate(found)


def _steps_of_service(plan: ServicePlan) -> Iterator[Texts]:
    """The steps as the service's page lists them, by their starts."""
    numbers = count(1)
    for timed, planned in plan.starts():
        own = (
            f"{planned.servings[0][0].id}/{slug(timed.step.name)}"
            if planned
            else f"{_STAFF}/{next(numbers)}"
        )
        yield (
            f"{plan.service.id}/{own}",
            plan.service.id,
            plan.service.title,
            plan.at.isoformat(),
            planned.cook.id if planned else None,
            ", ".join(plate.id for plate, _ in planned.servings) if planned else None,
            timed.step.name,
            timed.start.isoformat(),
            timed.end.isoformat(),
            repr(timed.step.duration_min / 60),
            "yes" if timed.step.hands_on else "no",
            timed.step.equipment or None,
            *_load(timed, planned),
        )


def _load(timed: TimedStep, planned: PlannedCook | None) -> Texts:
    """Pieces and raw weight where a step puts them in; nothing where another one does."""
    if planned is None or timed.step.name != COOK:
        return None, None
    return str(planned.pieces) if planned.pieces else None, repr(planned.raw_kg)


SCHEDULE_RESOURCES: tuple[Resource, ...] = (
    Resource(
        "schedule_steps",
        "Steps of the services, each with its start and end in the week of the day as_of",
        "",
        (
            Field("id", "Service, its first plate from the cook, and step; staff's by number"),
            Field("service", "Name of the service's file"),
            Field("name", "What the service is called"),
            Field(
                "served",
                "When the first plate goes out, by the kitchen's clock, with its offset from "
                "UTC where the kitchen names its time zone",
                "datetime",
            ),
            Field("cook", "Cook that the step belongs to; none for the staff's", refers="cooks"),
            Field("plates", "Plates that the cook is for, with commas between"),
            Field("step", "What is done"),
            Field("start", "When it starts, on the clock's five minutes", "datetime"),
            Field(
                "end", "When it ends: the next step of its cook starts, or the service", "datetime"
            ),
            Field("hours", "How long it takes, as written [h]", "number"),
            Field("hands_on", "yes where somebody works at it throughout, or no"),
            Field("equipment", "Equipment that it keeps", refers="equipment"),
            Field("pieces", "Whole pieces that go in for all portions", "number"),
            Field("raw_weight", "Raw weight that goes in [kg]", "number"),
        ),
        _steps,
    ),
)
