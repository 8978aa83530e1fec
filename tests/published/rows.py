"""Finding a record's row, and the units in which the sources print."""

from __future__ import annotations

from builder.costing.costed import Costed

LB = 0.453_592_37
OZ = LB / 16

PER_BASE = {
    "1": 1.0,
    "%": 100.0,
    "kg": 1.0,
    "lb": 1 / LB,
    "oz": 1 / OZ,
    "money": 1.0,
    "money/kg": 1.0,
    "money/lb": LB,
    "money/oz": OZ,
    "per kg": 1.0,
    "per lb": 1 / LB,
}
"""What turns a figure of the model into the printed unit; the pound is exact (NIST Handbook 44)."""


def row_of(costed: Costed, table: str, record: str) -> int:
    """The row of a record: its id, then the stage, the number and the part, as far as it goes."""
    rows = costed.rows
    owner, _, rest = record.partition(" ")
    match table:
        case "batch":
            return rows.cooks[record]
        case "set_menu":
            return rows.menus[record].row
        case "plate":
            return rows.plates[record]
        case "section":
            return rows.sections[record]
        case "stage":
            return rows.stages[owner, rest]
        case "step":
            return next(row for link, row in rows.steps[owner] if link.name == rest)
        case "order":
            return rows.orders[owner][int(rest)]
        case "swap":
            return rows.swaps[owner, rest]
        case "part":
            stage, number, part = rest.split(" ", 2)
            test = rows.tests[rows.stages[owner, stage]][int(number)]
            return rows.parts[test][part]
    raise ValueError(f"no way to find a row of {table}")


def printed_value(costed: Costed, table: str, record: str, figure: str, unit: str) -> float:
    """A figure of the chain, unrounded, in the unit of the source."""
    row = row_of(costed, table, record)
    return costed.figures.value(table, figure, row) * PER_BASE[unit]
