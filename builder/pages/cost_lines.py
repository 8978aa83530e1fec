"""Which lines of a plate's cost pages show: those that no plate of a table has are left out."""

from __future__ import annotations

from collections.abc import Iterable

from builder.pages.figure_names import PlateFigure
from builder.pages.view import View
from builder.records.covered import bears_cover, cover_items
from builder.records.kinds import Plate


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
