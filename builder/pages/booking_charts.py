"""The picture of what the services keep the equipment for."""

from __future__ import annotations

from datetime import datetime

from builder.costing.services import (
    Wanted,
    heat_words,
)
from builder.display.style import Style
from builder.display.words import listed
from builder.language import labelled, ntr, tr
from builder.pages.components import Cell, Chart, Column, Row, Table, Value
from builder.pages.parts import (
    gear_name,
    record_cell,
)
from builder.pages.view import View


def when(style: Style, moment: datetime) -> str:
    """A moment as the week's day and time, and which one where the clock shows it twice."""
    return f"{style.day_and_time(moment)}{(tr(' (the second time)') if moment.fold else '')}"


def bookings_chart(view: View, wanted: list[Wanted]) -> Chart | None:
    """What the services keep each piece of equipment for; None where they keep none."""
    if not wanted:
        return None
    rows: list[dict[str, Value]] = [
        {
            "lane": labelled(gear_name(view, w.booking.equipment), w.planned.cook.title),
            "task": w.plan.service.title,
            "start": stamp(w.plan.by_the_clock(w.booking.start)),
            "end": stamp(w.plan.by_the_clock(w.booking.end)),
            "kind": heat_words(view.style, w.planned.cook),
        }
        for w in sorted(wanted, key=lambda w: (w.booking.equipment, w.booking.start))
    ]
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
        ),
        tuple(_booking_row(view, w) for w in wanted),
    )
    return Chart(
        "week",
        "timeline",
        tr("Which cook has which equipment, by the hour"),
        tr(
            "{bookings} of {gear}; the table below has every start and end.",
            bookings=ntr("{count} booking", "{count} bookings", len(wanted)),
            gear=listed(gear),
        ),
        tuple(rows),
        table,
    )


def _booking_row(view: View, wanted: Wanted) -> Row:
    booking = wanted.booking
    return Row(
        (
            Cell(gear_name(view, booking.equipment)),
            record_cell(wanted.planned.cook, note=wanted.plan.service.title),
            Cell(heat_words(view.style, wanted.planned.cook)),
            Cell(when(view.style, wanted.plan.by_the_clock(booking.start))),
            Cell(when(view.style, wanted.plan.by_the_clock(booking.end))),
            Cell(view.style.weight(booking.load_kg)),
        )
    )


def stamp(moment: datetime) -> str:
    """A moment as the picture takes it, without its zone."""
    return f"{moment:%Y-%m-%dT%H:%M}"
