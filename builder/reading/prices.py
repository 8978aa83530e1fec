"""Price lists: `prices/*.csv`, one price of one item on one date a row."""

from __future__ import annotations

import re

from builder.language import tr
from builder.problems import Problem
from builder.reading.csv_text import parse_csv
from builder.reading.limits import LIMITS, Limits
from builder.reading.tree import Branch

_WHOLE, _DECIMALS = re.compile(r"\S?[0-9]+"), re.compile(r"[0-9]{1,3} ?/ ?[^0-9/]+")
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
    parted = [(record, found) for record in records if (found := _parted(record))]
    for record, (message, hint) in parted[: limits.problems]:
        problems.append(Problem(record["price"].place, message, hint))
    unread = {id(record) for record, _ in (*empty, *parted)}
    return [record for record in records if id(record) not in unread], problems


def _parted(record: Branch) -> tuple[str, str] | None:
    """What is wrong with a price whose decimals are in the next cell, for a comma parts cells.

    >>> from builder.problems import Place
    >>> from builder.reading.tree import Text
    >>> row = Branch(Place("prices/a.csv", 2, 1))
    >>> row.update({"item": Text("wine"), "price": Text("5"), "supplier": Text("60/L")})
    >>> _parted(row)
    ('the comma of the price parts it into two cells', 'write 5.60/L')
    """
    cells = [(str(name), str(cell)) for name, cell in record.items()]
    names = [name for name, _ in cells]
    _, decimals = [*cells, ("", "")][names.index("price") + 1]
    if not (_WHOLE.fullmatch(str(record["price"])) and _DECIMALS.fullmatch(decimals)):
        return None
    message = tr("the comma of the price parts it into two cells")
    return message, tr("write {price}", price=f"{record['price']}.{decimals}")
