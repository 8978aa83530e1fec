"""What a service orders, on paper: a sheet to tick off when it is in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from builder.costing.services import ServicePlan
from builder.language import ntr, tr
from builder.pages.components import Cell, Column, Form, FormGrid, FormNote, Link, Page, Row
from builder.pages.figure_names import ServiceOrderFigure
from builder.pages.form_pieces import sheet_title
from builder.pages.parts import page_of
from builder.pages.service_orders import (
    DEPOSITS,
    Item,
    Line,
    has_deposits,
    has_stock,
    one_words,
    order_lines,
    order_path,
    sold_of,
    supplier_of,
)
from builder.pages.view import FigureRow, View
from builder.records.services import Service

_ROWS_A_SHEET = 38
"""Rows that Letter holds, the names of suppliers among them."""
_LETTERS = 30
"""Letters that the narrower of two columns of words has room for on a line."""


def order_page(view: View, plan: ServicePlan) -> Page:
    """The sheet of a service's order, supplier by supplier."""
    service = plan.service
    return Page(
        path=order_path(service),
        title=tr("Order, {service}", service=service.title),
        lead=tr("What to order, to tick off when it is in."),
        kind=tr("Form"),
        crumbs=(
            Link(tr("Schedule"), "~/schedule.html"),
            Link(service.title, f"~/{page_of(service)}"),
        ),
        nav="~/schedule.html",
        sections=tuple(_forms(view, service)),
        sheet=True,
    )


def _forms(view: View, service: Service) -> Iterator[Form]:
    lines = list(order_lines(view, service))
    stock = has_stock(lines)
    columns = (
        Column("item", tr("Item")),
        *([Column("stock", tr("From stock"), numeric=True)] if stock else []),
        Column("order", tr("Packs")),
        Column("amount", tr("To order"), numeric=True),
        Column("goods", tr("Goods"), numeric=True),
        Column("in", tr("In, initials")),
    )
    sheets = list(_sheets(_by_supplier(view, lines, stock=stock)))
    for number, rows in enumerate(sheets, start=1):
        yield Form(
            f"order-{number}",
            sheet_title(tr("Order"), number, len(sheets)),
            (
                FormGrid(tr("To order"), columns, rows, small="ledger"),
                FormNote(_paid_words(view, service)),
            ),
            service.title,
        )


def _by_supplier(
    view: View, lines: list[tuple[Item, Line]], *, stock: bool
) -> Iterator[tuple[Row | None, list[Row]]]:
    """The rows of each supplier below a row of its name; none where suppliers are not shown."""
    for supplier, own in groupby(lines, key=lambda line: supplier_of(view, line[0])):
        name = supplier or tr("No supplier named")
        group = Row((Cell(name),), "group") if view.grants("suppliers") else None
        yield group, [_row(view, item, line, stock=stock) for item, line in own]


def _row(view: View, item: Item, line: Line, *, stock: bool) -> Row:
    return Row(
        (
            Cell(item.title),
            *([Cell(_stock_words(line))] if stock else []),
            Cell(_order_words(view, item, line)),
            *(Cell(line.text(name)) for name in ("amount_ordered", "line_billed")),
            Cell(""),
        )
    )


def _sheets(groups: Iterator[tuple[Row | None, list[Row]]]) -> Iterator[tuple[Row, ...]]:
    """Rows as they fill one sheet after another; a supplier that goes on is named again."""
    sheet: list[Row] = []
    for group, rows in groups:
        heading = [group] if group else []
        for number, row in enumerate(rows):
            wanted = [row] if number else [*heading, row]
            if _height([*sheet, *wanted]) > _ROWS_A_SHEET:
                yield tuple(sheet)
                sheet, wanted = [], [*heading, row]
            sheet += wanted
    yield tuple(sheet)


def _height(rows: Sequence[Row]) -> int:
    """Lines that rows take; a long name takes two."""
    return sum(-(-max(len(cell.text) for cell in row.cells) // _LETTERS) or 1 for row in rows)


def _stock_words(line: Line) -> str:
    return line.text("from_stock") if line.number("from_stock") > 0 else "–"


def _order_words(view: View, item: Item, line: Line) -> str:
    sold = sold_of(view, item)
    if sold is None or sold.step is None:
        return ""
    if not line.number("packs_ordered") > 0:
        return tr("none")
    if sold.singly:
        count, number = round(line.number("packs_ordered")), line.text("packs_ordered")
        return ntr("{number} piece", "{number} pieces", count, number=number)
    return f"{line.text('packs_ordered')} × {one_words(view, sold)}"


def _paid_words(view: View, service: Service) -> str:
    row: FigureRow[ServiceOrderFigure] = FigureRow(
        view, "service_order", view.costed.orders[service.id].row
    )
    goods, deposits, paid = row.texts("goods_billed", "deposits_paid", "billed_today")
    if row.hides("goods_billed"):
        return ""
    if not has_deposits(row):
        return tr("The goods cost {goods}.", goods=goods)
    return tr(
        "The goods cost {goods}, deposits {deposits}: {paid} to pay today. {deposits2}",
        goods=goods,
        deposits=deposits,
        paid=paid,
        deposits2=DEPOSITS,
    )
