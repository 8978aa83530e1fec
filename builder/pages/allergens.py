"""Allergens, gathered from the pantry items that a plate or a sub-recipe is made of."""

from __future__ import annotations

from builder.display.words import listed
from builder.pages.components import Notice, Part
from builder.pages.parts import ALLERGENS, paragraph, part
from builder.records.content import Content
from builder.records.kinds import ALLERGENS as ORDER
from builder.records.kinds import Plate


def allergens_of_item(content: Content, item_id: str) -> list[str]:
    """The allergens of a pantry item and of everything that goes into it."""
    found: set[str] = set()
    waiting, seen = [item_id], set[str]()
    while waiting:
        name = waiting.pop()
        if name not in seen:
            seen.add(name)
            item = content.pantry[name]
            found.update(map(str, item.allergens))
            waiting.extend(map(str, item.of))
    return [name for name in ORDER if name in found]


def allergens_of_plate(content: Content, plate: Plate) -> list[str]:
    """The allergens of a plate: its own and those of all that accompanies it."""
    found = set(map(str, plate.allergens))
    for name in plate.with_:
        found.update(allergens_of_item(content, name))
    return [name for name in ORDER if name in found]


def allergens_part(found: list[str]) -> Part:
    """What is known of allergens, with the caution that belongs to it."""
    words = (
        f"Contains {listed(found)}."
        if found
        else "The kitchen's files state no allergen here, which does not mean that there is none."
    )
    return part("allergens", "Allergens", paragraph(words), Notice(ALLERGENS, "caution"))
