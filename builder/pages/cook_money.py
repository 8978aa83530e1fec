"""Where the money of a cook goes: from as purchased to servable, and what a batch costs."""

from __future__ import annotations

import math
from dataclasses import replace

from builder.language import tr
from builder.pages.components import Cell, Chart, Column, Part, Row, RowKind, Table
from builder.pages.figure_names import BatchFigure, StepFigure
from builder.pages.parts import part
from builder.pages.printed_sums import COARSE_SUMS
from builder.pages.unknown import cook_note, cost_cell, credit_note, doubted_chart
from builder.pages.values import in_mass_unit
from builder.pages.view import F, FigureRow, View
from builder.pages.waterfalls import Bar, waterfall
from builder.quantities import Dimension, convert
from builder.records.kinds import Cook


def money_part(view: View, cook: Cook) -> Part:
    """The chain of prices as a picture, and the money of a batch."""
    return part(
        "money",
        in_mass_unit(view.style, tr("Where the money of a kilogram goes")),
        _waterfall(view, cook),
        _batch_table(view, cook),
    )


def _waterfall(view: View, cook: Cook) -> Chart:
    batch = view.batch(cook)
    # Steps in the kitchen's own unit, as every price on the page is.
    unit = view.style.unit(Dimension.MASS)
    ends: tuple[tuple[str, BatchFigure], ...] = (
        (tr("as purchased"), "ap_price"),
        (tr("servable"), "cost_per_servable_kg"),
    )
    changes: tuple[tuple[StepFigure, int], ...] = (("rise_per_kg", 1), ("credit_per_kg_out", -1))
    price, servable = (_bar(label, batch, figure, total=True) for label, figure in ends)
    added = (
        _bar(
            tr("less {stage} credit", stage=link.name)
            if sign < 0
            else tr("{stage} loss", stage=link.name),
            row,
            figure,
            sign,
        )
        for link, row in view.steps(cook)
        for figure, sign in changes
    )
    bars = [price, *(bar for bar in added if abs(bar.amount) > 5e-4), servable]
    found = waterfall(
        "waterfall",
        tr("From weight as purchased to servable weight"),
        tr(
            "Meat bought at {price} costs {servable} once it can be served; each "
            "step is what one stage adds, or what its by-products give back.",
            price=price.text,
            servable=servable.text,
        ),
        tr("{currency} a {unit}", currency=view.costed.content.kitchen.currency, unit=unit),
        bars,
        listed=True,
    )
    return doubted_chart(found, view.costed.doubts.cooks[cook.id])


def _bar(label: str, row: FigureRow[F], figure: F, sign: int = 1, *, total: bool = False) -> Bar:
    """A bar of money per kilogram, in the kitchen's own unit of mass."""
    style = row.view.style
    factor = sign / convert(1.0, style.unit(Dimension.MASS))
    amount, own = factor * row.number(figure), row.name(figure)
    terms = ((factor, own),)
    return Bar(label, amount, row.text(figure), terms, own, total, row.cell(figure))


def _batch_table(view: View, cook: Cook) -> Table:
    row = view.batch(cook)
    lines: tuple[tuple[BatchFigure, str, RowKind], ...] = (
        ("ap_cost", tr("Meat as purchased"), ""),
        ("credits", tr("Less credits for by-products"), ""),
        ("net_cost", tr("Net cost of the meat"), "subtotal"),
        ("batch_labour", tr("Active work"), ""),
        ("batch_energy_cost", tr("Energy"), ""),
        ("consumables", tr("Consumables"), ""),
        ("equipment_charge", tr("Equipment charge"), ""),
    )
    notes = {"credits": credit_note(view, cook), "net_cost": cook_note(view, cook)}
    body = tuple(
        Row((Cell(label), replace(cost_cell(row, figure), note=notes.get(figure, ""))), kind)
        for figure, label, kind in lines
    )
    columns = (Column("what", tr("One batch")), Column("money", tr("Cost"), numeric=True))
    about = tr("Work, energy, consumables and equipment are shown separately from food.")
    if math.isfinite(view.width("batch", "net_cost", row.row)):
        about = f"{about} {tr(COARSE_SUMS)}"
    return Table("batch", tr("What a batch costs"), columns, body, about=about)
