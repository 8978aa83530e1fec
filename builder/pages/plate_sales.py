"""How a plate sold: its section, its class, its months."""

from __future__ import annotations

from collections.abc import Sequence

from builder.language import tr
from builder.pages.components import (
    Cell,
    Chart,
    Column,
    Figures,
    Part,
    Row,
    Section,
    Table,
    Text,
)
from builder.pages.held import held_counts
from builder.pages.menu_classes import class_words
from builder.pages.menu_guests import week_of_plate
from builder.pages.parts import month_words, part, written_cell
from builder.pages.sales import plate_sales
from builder.pages.unknown import (
    doubted,
    plate_doubt,
)
from builder.pages.view import View
from builder.pages.withheld import seen
from builder.records.fields import Whole
from builder.records.kinds import Plate


def _menu_figures(view: View, plate: Plate) -> Figures | None:
    """What the plate was to the menu in the month that the menu page looks at."""
    row, found = view.plate(plate), class_words(view, plate)
    if not row.known("menu_mix"):
        return None
    doubt = plate_doubt(view, plate)
    return Figures(
        (
            row.tile("sold", label=tr("Sold in {month_words}", month_words=month_words(view))),
            row.tile("menu_mix", label=tr("Menu mix of {menu}", menu=plate.menu)),
            *doubted([row.tile("month_margin", label=tr("Contribution"), note=found)], doubt).tiles,
        ),
        tr("On the menu in {month_words}", month_words=month_words(view)),
    )


def _trend_words(counts: Sequence[Whole], months: Sequence[Text]) -> str:
    """What was sold in the last month, and whether that is more than in the first."""
    first, last = counts[0], counts[-1]
    names = {"last": last.text, "month": months[-1], "first": first.text, "then": months[0]}
    if last.value > first.value:
        return tr("Sold {last} in {month}, up from {first} in {then}.", **names)
    if last.value < first.value:
        return tr("Sold {last} in {month}, down from {first} in {then}.", **names)
    return tr("Sold {last} in {month}, as many as in {then}.", **names)


def sales_part(view: View, plate: Plate) -> Part | None:
    """How a plate sold, month by month; None where no month is counted."""
    week = seen(week_of_plate, view, plate)
    if not plate.sold:
        return part("sales", tr("What is sold"), week) if week else None
    months = sorted(plate.sold.items(), key=lambda pair: pair[0].first)
    columns = (Column("month", tr("Month")), Column("sold", tr("Sold"), numeric=True))
    rows = tuple(
        Row(
            (
                Cell(view.style.month((m.first.year, m.first.month))),
                written_cell(view, count, count.text),
            )
        )
        for m, count in months
    )
    table = Table("sold", tr("Plates sold"), columns, rows)
    section: Section = table
    if len(months) > 1:
        section = Chart(
            "sold-chart",
            "line-months",
            tr("Plates sold, month by month"),
            _trend_words([count for _, count in months], [row.cells[0].text for row in rows]),
            tuple({"month": str(m), "series": "sold", "value": count.value} for m, count in months),
            table,
            units={"value": tr("plates a month")},
        )
    about, figures = held_counts(view, [plate]), _menu_figures(view, plate)
    shown = figures, section, week, plate_sales(view, plate)
    return part("sales", tr("What is sold"), *shown, about=about)
