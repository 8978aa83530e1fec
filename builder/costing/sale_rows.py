"""Rows of what the till took, a plate and a month each."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from builder.costing.entries import noted
from builder.engine.book import Book, Entry, Identity
from builder.language import ntr, tr
from builder.money.sales import TAKING
from builder.records.content import Content
from builder.records.sales import MonthSold


def sold_by_till(month: MonthSold) -> Entry:
    """The count of a month, at the first of its rows."""
    return noted(month.count, month.place, _rows(month))


def sale_rows(
    book: Book, content: Content, plates: Mapping[str, int]
) -> dict[tuple[str, date], int]:
    """Add a row for each plate and month that the till counted."""
    return {key: _row(book, content, month, plates) for key, month in content.till.items()}


def _row(book: Book, content: Content, month: MonthSold, plates: Mapping[str, int]) -> int:
    plate = content.plates[month.plate]
    values = {
        "till_count": sold_by_till(month),
        "till_priced": noted(
            month.priced, month.place, tr("{rows} with a price", rows=_rows(month))
        ),
        "till_taken": noted(month.taken, month.place, _rows(month)),
    }
    name = f"{month.month:%Y-%m}"
    who = Identity(plate.path, f"till.{name}", f"{plate.title}, {name}")
    return book.add(TAKING, {"plate": plates[plate.id]}, values, who)


def _rows(month: MonthSold) -> str:
    return ntr(
        "sum of {count} row of the till, the first of them here",
        "sum of {count} rows of the till, the first of them here",
        month.rows,
    )
