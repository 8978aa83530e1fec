"""What is wrong with a set menu among the other records."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.language import tr
from builder.problems import Problem
from builder.records.content import Content
from builder.records.fields import Id, Measure
from builder.records.menus import SetMenu


def check_menus(content: Content) -> Iterator[Problem]:
    """Plates that stand twice, a price of nothing, guests of no menu."""
    invited = [service.menus for service in content.services.values()]
    for guests in (*invited, *(count.menus for count in content.counts.values())):
        yield from _check_guests(guests)
    for menu in content.menus.values():
        yield from _check_plates(menu)
        if not menu.plates and not menu.courses and not menu.unread & {"plates", "courses"}:
            hint = tr("write plates: for a combo, or courses:")
            yield Problem(menu.price.place, tr("no plate is on this menu"), hint)
        if menu.price.value <= 0:
            yield Problem(menu.price.place, tr("a set menu is sold for more than nothing"))


def _check_plates(menu: SetMenu) -> Iterator[Problem]:
    seen: set[tuple[str, str]] = set()
    for course, plate, _ in menu.served:
        if (course, str(plate)) in seen:
            yield Problem(
                plate.place, tr('"{plate}" is there twice', plate=plate), tr("take one of them out")
            )
        seen.add((course, str(plate)))


def _check_guests(guests: Mapping[Id, Measure]) -> Iterator[Problem]:
    """Guests of a service or a count: some of each menu."""
    for name, number in guests.items():
        if number.value <= 0:
            yield Problem(
                number.place, tr("no guests of {name}", name=name), tr("take the line out")
            )
