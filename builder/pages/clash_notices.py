"""Clashes over equipment as the schedule, a service's page and its paper say them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from builder.costing.clashes import clash_problem
from builder.costing.services import SERVED, bookings
from builder.costing.week_clashes import GearClash, week_clashes
from builder.language import ntr, tr
from builder.pages.components import Notices
from builder.pages.per_view import once_per_view
from builder.pages.reader import reads_warning
from builder.pages.view import View
from builder.problems import Place, Problem
from builder.records.services import Service

_ANY = Problem(Place(""), "", needs=SERVED)


@once_per_view
def clashes_of(view: View) -> Sequence[GearClash]:
    """All clashes of the week."""
    return week_clashes(view.costed.content, bookings(view.costed.content, view.costed.services))


def clashes_counted(view: View) -> str:
    """How many clashes the week has, and over how many pieces of equipment."""
    found = clashes_of(view)
    gear = len({clash.equipment for clash in found})
    if len(found) < 2:
        return tr("one clash to fix") if found else tr("nothing clashes")
    clashes = ntr("{count} clash to fix", "{count} clashes to fix", len(found))
    if gear == 1:
        return clashes
    return ntr(
        "{clashes} on {count} piece of equipment",
        "{clashes} on {count} pieces of equipment",
        gear,
        clashes=clashes,
    )


def shown_clashes(view: View) -> Sequence[GearClash]:
    """All clashes of the week for a reader who may see them, else none."""
    return clashes_of(view) if reads_warning(view.reader, _ANY) else ()


def clash_problems(view: View, *services: Service) -> list[Problem]:
    """What is wrong with each piece of equipment, in the whole week or for some services."""
    found = [
        each
        for each in shown_clashes(view)
        if not services or any(each.concerns(service.id) for service in services)
    ]
    record = services[0].path if services else ""
    return [
        clash_problem(view.costed.content, list(clashes), record)
        for _, clashes in groupby(found, key=lambda each: each.equipment)
    ]


def clash_notices(view: View, service: Service | None = None) -> Notices | None:
    """The same as notices, each with the way to its line; None where nothing clashes."""
    found = tuple(map(view.notice, clash_problems(view, *[service] if service else ())))
    return Notices(found) if found else None
