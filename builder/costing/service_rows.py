"""Rows of the services: their plates, what goes into each cook, and every step."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from builder.cooking.schedule import ScheduleStep
from builder.costing.entries import entry
from builder.costing.service_steps import (
    COOK,
    Servings,
    by_cook,
    cook_job,
    staff_job,
    staff_steps,
    steps_of,
)
from builder.engine.book import Book, Entry, Identity, Origin
from builder.money.service import JOB, LOADING, SERVING
from builder.problems import Place
from builder.records.content import Content
from builder.records.services import Service


@dataclass(slots=True)
class ServiceRows:
    """Rows by service: what goes in by its first plate, steps by what they are called there."""

    loadings: dict[tuple[str, str], int] = field(default_factory=dict)
    jobs: dict[tuple[str, str], int] = field(default_factory=dict)


def service_rows(
    book: Book, content: Content, cooks: Mapping[str, int], plates: Mapping[str, int]
) -> ServiceRows:
    """Add the rows of every service."""
    rows = ServiceRows()
    for service in content.services.values():
        for servings in by_cook(content, service):
            loading = _loading(book, service, servings, cooks, plates)
            rows.loadings[service.id, servings[0][0].id] = loading
            _cook_jobs(book, content, service, servings, loading, rows)
        for number, step in enumerate(staff_steps(service), start=1):
            key = staff_job(number)
            rows.jobs[service.id, key] = _job(book, service, key, step.name, step)
    return rows


def _loading(
    book: Book,
    service: Service,
    servings: Servings,
    cooks: Mapping[str, int],
    plates: Mapping[str, int],
) -> int:
    first, _ = servings[0]
    who = Identity(service.path, f"loading.{first.id}", f"loading for {first.title}")
    row = book.add(LOADING, {"batch": cooks[str(first.cook)]}, who=who)
    for plate, serving in servings:
        book.add(
            SERVING,
            {"loading": row, "plate": plates[plate.id]},
            {"covers": entry(serving.covers)},
            Identity(service.path, f"plates.{plate.id}", plate.title),
        )
    return row


def _cook_jobs(
    book: Book,
    content: Content,
    service: Service,
    servings: Servings,
    loading: int,
    rows: ServiceRows,
) -> None:
    """The steps of a cook; what goes in belongs to the cook itself alone."""
    first, serving = servings[0]
    cook, ahead = content.cooks[str(first.cook)], serving.ahead
    for step in steps_of(cook, ahead.value if ahead else 0.0):
        key, words = cook_job(servings, step), f"{step.name}, {cook.title}"
        place = step.place or (ahead.place if ahead else None)
        loads = loading if step.name == COOK else -1
        rows.jobs[service.id, key] = _job(book, service, key, words, step, place, loads)


def _job(
    book: Book,
    service: Service,
    key: str,
    words: str,
    step: ScheduleStep,
    place: Place | None = None,
    loading: int = -1,
) -> int:
    hours = Entry(step.duration_min / 60, Origin(place or step.place))
    who = Identity(service.path, key.replace("/", "."), words)
    return book.add(JOB, {"loading": loading}, {"hours": hours}, who)
