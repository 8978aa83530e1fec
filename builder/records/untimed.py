"""Work that nobody states: what is on a plate of which no file says how long hands are on it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.display.words import listed
from builder.language import tr
from builder.records.contained import reached
from builder.records.content import Content
from builder.records.covered import cover_items
from builder.records.kinds import Cook, PantryItem, Plate


def untimed_of_plate(content: Content, plate: Plate, *, cover: bool = True) -> str:
    """That work on a plate is stated nowhere, and on what; empty where all of it is.

    cover: whether what comes with the kitchen's cover counts as the plate's.
    """
    covers = cover_items(content, plate) if cover else {}
    cooks = (content.cooks[name] for name in plate.cooks)
    return untimed([*cooks, plate, *made(content, [*plate.with_, *covers])])


def untimed(records: Iterable[Cook | Plate | PantryItem]) -> str:
    """That work on some records is stated nowhere; empty where it is on all of them."""
    silent = dict.fromkeys(each.title for each in records if each.hands_on is None)
    if not silent:
        return ""
    return tr("no hands-on time is stated for {silent}", silent=listed(list(silent)))


def made(content: Content, names: Iterable[str]) -> Iterator[PantryItem]:
    """What is made among items, and among what they are made of, each once."""
    for item in reached(content, (content.pantry[name] for name in names)):
        if isinstance(item, PantryItem) and item.of:
            yield item
