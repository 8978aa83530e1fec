"""Rows of the services: their plates, what goes into each cook, and every step."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from builder.cooking.schedule import ScheduleStep
from builder.costing.entries import entry
from builder.costing.portion_rows import Further
from builder.costing.service_steps import (
    COOK,
    Cooked,
    by_cook,
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
    """Rows by service: what goes in by its key, steps by what they are called there.

    Of a plate the row of its first cooked portion is in `servings`.
    """

    loadings: dict[tuple[str, str], int] = field(default_factory=dict)
    servings: dict[tuple[str, str], int] = field(default_factory=dict)
    jobs: dict[tuple[str, str], int] = field(default_factory=dict)


def service_rows(
    book: Book,
    content: Content,
    cooks: Mapping[str, int],
    plates: Mapping[str, int],
    further: Mapping[str, Sequence[Further]],
) -> ServiceRows:
    """Add the rows of every service."""
    rows = ServiceRows()
    for service in content.services.values():
        for cooked in by_cook(content, service):
            loading = _loading(book, service, cooked, cooks[cooked.cook.id], plates, further, rows)
            rows.loadings[service.id, cooked.key] = loading
            _cook_jobs(book, service, cooked, loading, rows)
        for number, step in enumerate(staff_steps(service), start=1):
            key = staff_job(number)
            rows.jobs[service.id, key] = _job(book, service, key, step.name, step)
    return rows


def _loading(
    book: Book,
    service: Service,
    cooked: Cooked,
    batch: int,
    plates: Mapping[str, int],
    further: Mapping[str, Sequence[Further]],
    rows: ServiceRows,
) -> int:
    first = cooked.servings[0][0]
    who = Identity(service.path, f"loading.{cooked.key}", f"loading for {first.title}")
    row = book.add(LOADING, {"batch": batch}, who=who)
    for (plate, serving), number in zip(cooked.servings, cooked.numbers, strict=True):
        links = {"portion": further[plate.id][number - 1].row if number else -1}
        links["plate"] = -1 if number else plates[plate.id]
        key, values = f"plates.{plate.id}", {"covers": entry(serving.covers)}
        who = Identity(service.path, f"{key}.{number + 1}" if number else key, plate.title)
        added = book.add(SERVING, {"loading": row, **links}, values, who)
        rows.servings.setdefault((service.id, plate.id), added)
    return row


def _cook_jobs(
    book: Book, service: Service, cooked: Cooked, loading: int, rows: ServiceRows
) -> None:
    """The steps of a cook; what goes in belongs to the cook itself alone."""
    ahead = cooked.servings[0][1].ahead
    for step in steps_of(cooked.cook, ahead.value if ahead else 0.0):
        key, words = cooked.job(step), f"{step.name}, {cooked.cook.title}"
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
