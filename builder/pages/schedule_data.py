"""Each step of each service's plan as open data: when, how long, on what, and what goes in."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.services import ServicePlan
from builder.language import Deferred
from builder.pages.resource import Field, Resource, Texts
from builder.pages.view import View


def _steps(view: View) -> Iterator[tuple[int, Texts]]:
    for plan in view.costed.services.values():
        for key, texts in _steps_of_service(plan):
            yield view.costed.rows.services.jobs[plan.service.id, key], texts


def _steps_of_service(plan: ServicePlan) -> Iterator[tuple[str, Texts]]:
    """The steps as the service's page lists them, by their starts."""
    for key, timed, planned in plan.jobs():
        yield (
            key,
            (
                f"{plan.service.id}/{key}",
                plan.service.id,
                plan.service.title,
                plan.at.isoformat(),
                planned.cook.id if planned else None,
                ", ".join(plate.id for plate, _ in planned.servings) if planned else None,
                timed.step.name,
                timed.start.isoformat(),
                timed.end.isoformat(),
                "yes" if timed.step.hands_on else "no",
                timed.step.equipment or None,
            ),
        )


SCHEDULE_RESOURCES: tuple[Resource, ...] = (
    Resource(
        "schedule_steps",
        Deferred("Steps of the services, each with its start and end in the week of the day as_of"),
        "job",
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
            Field("hands_on", "yes where somebody works at it throughout, or no"),
            Field("equipment", "Equipment that it keeps", refers="equipment"),
        ),
        _steps,
        groups=("work", "cooking"),
    ),
)
