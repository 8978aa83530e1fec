"""Which pantry item a row is priced by."""

from __future__ import annotations

from builder.engine.figures import Figures
from builder.money.scaling import SCALED
from builder.tasting.findings import FINDING

_HAS_ITEM = frozenset(
    ("ingredient", "accompaniment", "cover_item", "preparation", "dish", "order_line")
)
_OWN_UNITS = frozenset((*_HAS_ITEM, "pantry", "order_need", SCALED.name, FINDING.name))


def counts_by_item(table: str) -> bool:
    """Whether rows of a table may count in something else than kg, each in its own."""
    return table in _OWN_UNITS


def item_row(figures: Figures, table: str, row: int) -> int:
    """The row of the item in whose unit a row counts; -1 where it counts in kg."""
    if table == "pantry":
        return row
    if table == "order_need":
        line = figures.linked(table, "line", row)
        made = figures.linked(table, "preparation", row)
        return item_row(figures, *(("preparation", made) if line < 0 else ("order_line", line)))
    return figures.linked(table, "item", row) if table in _HAS_ITEM else -1
