"""Rows of the services: their plates, what goes into each cook, and every step."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from builder.cooking.schedule import ScheduleStep
from builder.costing.entries import entry
from builder.costing.menu_rows import MenuRows
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
from builder.language import tr
from builder.money.service import JOB, LOADING, MENU_SERVING, SERVING
from builder.problems import Place
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.guests import own_covers
from builder.records.kinds import Plate
from builder.records.services import Service, Serving

Taken = Mapping[str, Sequence[tuple[int, Measure]]]
"""By plate the row of each choice of a set menu, with its menu's guests in the service."""


@dataclass(slots=True)
class ServiceRows:
    """Rows by service: what goes in by its key, steps by what they are called there.

    Of a plate the row of its first cooked portion is in `servings`, with what guests take of it
    by the choice of a set menu in `guests`; `taken` are the choices by which they do.
    """

    taken: Mapping[str, Taken] = field(default_factory=dict)
    guests: dict[tuple[str, int], int] = field(default_factory=dict)

    loadings: dict[tuple[str, str], int] = field(default_factory=dict)
    servings: dict[tuple[str, str], int] = field(default_factory=dict)
    jobs: dict[tuple[str, str], int] = field(default_factory=dict)


def service_rows(
    book: Book,
    content: Content,
    cooks: Mapping[str, int],
    plates: Mapping[str, int],
    further: Mapping[str, Sequence[Further]],
    menus: Mapping[str, MenuRows],
) -> ServiceRows:
    """Add the rows of every service."""
    rows = ServiceRows(
        taken={name: _choices(each, menus) for name, each in content.services.items()}
    )
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
    who = Identity(
        service.path, f"loading.{cooked.key}", tr("loading for {first}", first=first.title)
    )
    row = book.add(LOADING, {"batch": batch}, who=who)
    for (plate, serving), number in zip(cooked.servings, cooked.numbers, strict=True):
        links = {"portion": further[plate.id][number - 1].row if number else -1}
        links["plate"] = -1 if number else plates[plate.id]
        key = f"plates.{plate.id}.{number + 1}" if number else f"plates.{plate.id}"
        links["loading"] = row
        serving_row(book, rows, service, plate, serving, links, key)
    return row


def serving_row(
    book: Book,
    rows: ServiceRows,
    service: Service,
    plate: Plate,
    serving: Serving,
    links: Mapping[str, int],
    key: str,
) -> int:
    """Add a portion of a plate with its covers, and what guests of set menus take of it."""
    values = {"own_covers": entry(own_covers(serving.covers))}
    row = book.add(SERVING, links, values, Identity(service.path, key, plate.title))
    rows.servings.setdefault((service.id, plate.id), row)
    taken = rows.taken[service.id].get(plate.id, ())
    for number, (choice, guests) in enumerate(taken, start=1):
        who = Identity(
            service.path, f"{key}.menu.{number}", tr("{plate}, set menu", plate=plate.title)
        )
        both = {"serving": row, "choice": choice}
        found = book.add(MENU_SERVING, both, {"menu_guests": entry(guests)}, who)
        rows.guests.setdefault((service.id, choice), found)
    return row


def _choices(service: Service, menus: Mapping[str, MenuRows]) -> Taken:
    found: dict[str, list[tuple[int, Measure]]] = {}
    for menu, guests in service.menus.items():
        for (_, plate), row in menus[menu].choices.items():
            found.setdefault(plate, []).append((row, guests))
    return found


def _cook_jobs(
    book: Book, service: Service, cooked: Cooked, loading: int, rows: ServiceRows
) -> None:
    """The steps of a cook; what goes in belongs to the cook itself alone."""
    ahead = cooked.servings[0][1].ahead
    for step in steps_of(cooked.cook, cooked.ahead_h):
        key, words = cooked.job(step), f"{tr(step.name)}, {cooked.cook.title}"
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
