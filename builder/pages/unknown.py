"""Costs that are not known: said so in their cell, and by name beside the sum without them."""

from __future__ import annotations

import math
from collections.abc import Iterable

from builder.costing.left_out import left_out
from builder.pages.components import Cell
from builder.pages.view import View
from builder.records.kinds import Plate

NOT_KNOWN = "not known"
_NAMES = {
    "labour_cost": "labour",
    "energy_per_plate": "energy",
    "equipment_per_plate": "equipment",
}


def cost_cell(view: View, table: str, figure: str, row: int) -> Cell:
    """A cost with the link to its trace, or that it is not known."""
    known = math.isfinite(view.number(table, figure, row))
    return view.cell(table, figure, row) if known else Cell(NOT_KNOWN)


def missing_words(view: View, plates: Iterable[Plate]) -> str:
    """What the full costs of plates leave out, by name; nothing where all of it is known."""
    found = {figure for plate in plates for figure in left_out(view.costed, plate)}
    names = [name for figure, name in _NAMES.items() if figure in found]
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
