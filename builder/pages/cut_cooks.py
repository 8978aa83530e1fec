"""The cooks of a cut, in a table."""

from __future__ import annotations

from builder.language import tr
from builder.pages.components import Cell, Column, Row, Table
from builder.pages.parts import (
    record_cell,
)
from builder.pages.unknown import IN_DOUBT, cook_note, loss_note
from builder.pages.view import View
from builder.pages.ways import way_words
from builder.records.kinds import Cook


def cooks_table(
    view: View, cooks: list[Cook], table_id: str, caption: str, *, with_cut: bool = True
) -> Table:
    """Cooks side by side: how, yield, and what a servable kilogram costs."""
    columns = (
        Column("cook", tr("Cook")),
        # Money is next to the name: what a phone can't show is further on.
        Column("cost", tr("Servable"), numeric=True, about=tr("cost of servable weight")),
        Column("factor", tr("Cost factor"), numeric=True),
        *([Column("cut", tr("Cut"))] if with_cut else []),
        Column("how", tr("How")),
        Column("at", tr("At"), numeric=True),
        Column("for", tr("For"), numeric=True),
        Column(
            "cook-yield", tr("Cook yield"), numeric=True, about=tr("what the cook itself leaves")
        ),
        Column("yield", tr("EP / AP"), numeric=True, about=tr("servable over as purchased")),
    )
    body = tuple(_cook_row(view, cook, with_cut) for cook in cooks)
    several = len(body) > 1
    return Table(
        table_id, caption, columns, body, sortable=several, filterable=len(body) > 8, pick=several
    )


def _cook_row(view: View, cook: Cook, with_cut: bool) -> Row:
    row = view.batch(cook)
    return Row(
        (
            record_cell(cook),
            row.cell("cost_per_servable_kg", note=cook_note(view, cook)),
            row.cell("cost_factor_per_kg", note=cook_note(view, cook)),
            *([record_cell(view.costed.content.cuts[cook.cut])] if with_cut else []),
            Cell(way_words(cook.how), sort=way_words(cook.how)),
            *row.cells("cook_temperature", "cook_hours"),
            row.cell("cook_yield", note=_cook_yield_note(view, cook)),
            row.cell("overall_yield", note=loss_note(view, cook)),
        )
    )


def _cook_yield_note(view: View, cook: Cook) -> str:
    """The note of what the cook itself leaves; empty where its loss is known."""
    links = (link for link, _ in view.steps(cook) if link.name == "cook")
    return tr(IN_DOUBT) if any(view.costed.doubts.not_known(link) for link in links) else ""
