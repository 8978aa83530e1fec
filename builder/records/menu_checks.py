"""What is wrong with a set menu among the other records."""

from __future__ import annotations

from collections.abc import Iterator

from builder.problems import Problem, did_you_mean
from builder.records.content import Content
from builder.records.menus import SetMenu


def check_menus(content: Content) -> Iterator[Problem]:
    """Plates that are not there, a plate that stands twice, a price of nothing."""
    for menu in content.menus.values():
        yield from _check_plates(content, menu)
        if not menu.plates and not menu.courses and not menu.unread & {"plates", "courses"}:
            hint = "write plates: for a combo, or courses:"
            yield Problem(menu.price.place, "no plate is on this menu", hint)
        if menu.price.value <= 0:
            yield Problem(menu.price.place, "a set menu is sold for more than nothing")


def _check_plates(content: Content, menu: SetMenu) -> Iterator[Problem]:
    seen: set[tuple[str, str]] = set()
    for course, plate, _ in menu.served:
        if plate not in content.plates and not content.has_file("plates", plate):
            hint = did_you_mean(plate, content.plates) or f"make the file plates/{plate}.yaml"
            yield Problem(plate.place, f'there is no plate "{plate}"', hint)
        if (course, str(plate)) in seen:
            yield Problem(plate.place, f'"{plate}" stands twice', "take one of them out")
        seen.add((course, str(plate)))
