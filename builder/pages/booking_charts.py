"""The picture of what the services keep the equipment for."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from builder.costing.services import (
    Wanted,
    heat_words,
)
from builder.display.words import listed
from builder.language import clauses, labelled, ntr, tr
from builder.pages.clash_marks import clash_rows, marks_of
from builder.pages.components import Cell, Chart, Column, Row, Table, Value
from builder.pages.moments import stamp, when
from builder.pages.parts import (
    gear_name,
    record_cell,
)
from builder.pages.view import View


def bookings_chart(view: View, wanted: list[Wanted]) -> Chart | None:
    """What the services keep each piece of equipment for; None where they keep none."""
    if not wanted:
        return None
    crowded = _at_once(wanted)
    in_lanes = {
        w.booking.cook: (w, _lane(view, w, apart=_taken(w) in crowded))
        for w in sorted(wanted, key=lambda w: (w.booking.equipment, w.booking.start))
    }
    rows: list[dict[str, Value]] = [
        {
            "role": "step",
            "lane": lane,
            "task": w.plan.service.title,
            "start": stamp(w.plan.by_the_clock(w.booking.start)),
            "end": stamp(w.plan.by_the_clock(w.booking.end)),
            "kind": heat_words(view.style, w.planned.cook),
        }
        for w, lane in in_lanes.values()
    ]
    rows += [row for w, lane in in_lanes.values() for row in clash_rows(view, w, lane)]
    clashing = any(row["role"] == "clash" for row in rows)
    gear = [gear_name(view, key) for key in dict.fromkeys(w.booking.equipment for w in wanted)]
    table = Table(
        "bookings",
        tr("Hours booked for the services, turn-round included"),
        (
            Column("gear", tr("Equipment")),
            Column("cook", tr("Cook")),
            Column("at", tr("At"), numeric=True),
            Column("from", tr("From")),
            Column("to", tr("To")),
            Column("load", tr("Load"), numeric=True),
            *([Column("clash", tr("Clashes"))] if clashing else []),
        ),
        tuple(_booking_row(view, w, clashing=clashing) for w in wanted),
    )
    return Chart(
        "week",
        "timeline",
        tr("Which cook has which equipment, by the hour"),
        tr(
            "{bookings}, on {gear}; the table below has every start and end.",
            bookings=ntr("{count} booking", "{count} bookings", len(wanted)),
            gear=listed(gear),
        ),
        tuple(rows),
        table,
    )


def _taken(wanted: Wanted) -> tuple[str, str]:
    return wanted.booking.equipment, wanted.planned.cook.id


def _at_once(wanted: Sequence[Wanted]) -> set[tuple[str, str]]:
    """The cooks, each with its equipment, of which one load is not done when another begins."""
    by_start = sorted(wanted, key=lambda w: (*_taken(w), w.booking.start))
    pairs = pairwise(by_start)
    return {
        _taken(w)
        for w, later in pairs
        if _taken(w) == _taken(later) and later.booking.start < w.booking.end
    }


def _lane(view: View, wanted: Wanted, *, apart: bool) -> str:
    """What a lane is called: the equipment and the cook, and with loads at once the service."""
    cook = wanted.planned.cook.title
    whose = ", ".join((cook, wanted.plan.service.title)) if apart else cook
    return labelled(gear_name(view, wanted.booking.equipment), whose)


def _booking_row(view: View, wanted: Wanted, *, clashing: bool) -> Row:
    booking = wanted.booking
    return Row(
        (
            Cell(gear_name(view, booking.equipment)),
            record_cell(wanted.planned.cook, note=wanted.plan.service.title),
            Cell(heat_words(view.style, wanted.planned.cook)),
            Cell(when(view.style, wanted.plan.by_the_clock(booking.start))),
            Cell(when(view.style, wanted.plan.by_the_clock(booking.end))),
            Cell(view.style.weight(booking.load_kg)),
            *([_clash_cell(view, wanted)] if clashing else []),
        )
    )


def _clash_cell(view: View, wanted: Wanted) -> Cell:
    """With which cooks a booking clashes and when, clash by clash."""
    return Cell(clauses([mark.words(view, wanted) for mark in marks_of(view, wanted)]) or "–")
