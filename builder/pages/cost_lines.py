"""The lines of a plate's cost, as its page and a swap's show them.

Those that no plate of a table has are left out.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeAlias

from builder.language import Deferred
from builder.pages.components import RowKind
from builder.pages.figure_names import PlateFigure
from builder.pages.view import View
from builder.records.covered import bears_cover, cover_items
from builder.records.kinds import Plate

CostLine: TypeAlias = tuple[PlateFigure, str, RowKind]
COST_LINES: tuple[CostLine, ...] = (
    ("protein_cost", Deferred("Protein"), ""),
    ("further_food", Deferred("Further portions"), ""),
    ("accompaniments_food", Deferred("Sides"), ""),
    ("garnish_cost", Deferred("Garnish that is not listed"), ""),
    ("seasoning_cost", Deferred("Seasoning allowance"), ""),
    ("cover_cost", Deferred("Cover: bread, condiments"), ""),
    ("food_cost", Deferred("Food cost"), "subtotal"),
    ("labour_cost", Deferred("Direct labour"), ""),
    ("prime_cost", Deferred("Prime cost"), "subtotal"),
    ("energy_per_plate", Deferred("Energy"), ""),
    ("consumables_per_plate", Deferred("Consumables"), ""),
    ("equipment_per_plate", Deferred("Equipment charge"), ""),
    ("accompaniments_known_process", Deferred("Energy and supplies in the sides"), ""),
    ("further_process", Deferred("Energy and supplies in the further portions"), ""),
    ("cover_process", Deferred("Energy and supplies in the cover"), ""),
    ("full_cost", Deferred("Full plate cost"), "total"),
)
"""What a plate costs, line by line: the figure, what the line says, and whether it is a sum."""


def not_there(view: View, plates: Iterable[Plate]) -> frozenset[PlateFigure]:
    """Figures of portions, garnish and cover that none of the plates has."""
    content = view.costed.content
    several = list(plates)
    found: set[PlateFigure] = set()
    if not any(plate.further for plate in several):
        found |= {"further_food", "further_process"}
    if not (content.kitchen.garnish or any(plate.garnish for plate in several)):
        found.add("garnish_cost")
    if not any(plate.cover_cost or bears_cover(content, plate) for plate in several):
        found.add("cover_cost")
    if not any(cover_items(content, plate) for plate in several):
        found.add("cover_process")
    return frozenset(found)
