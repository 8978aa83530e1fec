"""Price lists: `prices/*.csv`, one price of one item on one date a row."""

from __future__ import annotations

from builder.language import tr
from builder.problems import Problem
from builder.reading.csv_text import parse_csv
from builder.reading.limits import LIMITS, Limits
from builder.reading.tree import Branch

REQUIRED = ("date", "item", "price")
OPTIONAL = (
    "supplier", "sold as", "minimum", "deposit", "candidate", "muscle", "note",
)  # fmt: skip


def parse_prices(
    file: str, data: bytes, limits: Limits = LIMITS
) -> tuple[list[Branch], list[Problem]]:
    """Read a price list as records of text with the columns date, item, price and any of OPTIONAL.

    Errors: as `parse_csv`, and an empty date, item or price at its cell.

    >>> data = b"date;item;price\\n2026-09-01;;9/kg\\n"
    >>> records, problems = parse_prices("prices/west.csv", data)
    >>> [(str(p.place), p.message) for p in problems]
    [('prices/west.csv:2:12', 'this row has no item')]
    """
    records, problems = parse_csv(file, data, REQUIRED, OPTIONAL, limits)
    empty = [(r, name) for r in records for name in REQUIRED if not r[name]]
    for record, name in empty[: limits.problems]:
        cell = record[name]
        problems.append(Problem(cell.place, tr("this row has no {name}", name=name)))
    incomplete = {id(record) for record, _ in empty}
    return [record for record in records if id(record) not in incomplete], problems
