"""Which pantry item a row is priced by."""

from __future__ import annotations

from builder.engine.figures import Figures

_BY_ITEM = frozenset(("ingredient", "accompaniment", "cover_item", "preparation"))
_ITEM_OR_CUT = frozenset(("dish", "order_line"))


def item_row(figures: Figures, table: str, row: int) -> int:
    """The row of the item in whose unit a row counts; -1 where it counts in kg."""
    if table == "pantry":
        return row
    if table == "order_need":
        line = figures.linked(table, "line", row)
        made = figures.linked(table, "preparation", row)
        return item_row(figures, *(("preparation", made) if line < 0 else ("order_line", line)))
    return figures.linked(table, "item", row) if table in _BY_ITEM | _ITEM_OR_CUT else -1
