"""Rows of set menus: their courses, and the plates of each with who takes them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from builder.costing.entries import entry, noted
from builder.engine.book import Book, Entry, Identity
from builder.language import tr
from builder.money.set_menus import CHOICE, COURSE, SET_MENU
from builder.reading.names import slug
from builder.reading.tree import Text
from builder.records.content import Content
from builder.records.covered import menu_bears_cover
from builder.records.menus import Choice, SetMenu


@dataclass(slots=True)
class MenuRows:
    """Rows of one set menu: its own, its courses by name, their plates by course and id."""

    row: int
    courses: dict[str, int] = field(default_factory=dict)
    choices: dict[tuple[str, str], int] = field(default_factory=dict)


def menu_rows(book: Book, content: Content, plates: Mapping[str, int]) -> dict[str, MenuRows]:
    """Add every set menu with its courses and their plates, by its id."""
    found: dict[str, MenuRows] = {}
    for menu in content.menus.values():
        rows = MenuRows(book.add(SET_MENU, {"kitchen": 0}, _values(content, menu), _of(menu)))
        for course, plate, choice in menu.served:
            if course not in rows.courses:
                who = _of(menu, slug(course), course)
                rows.courses[course] = book.add(COURSE, {"menu": rows.row}, who=who)
            links = {"course": rows.courses[course], "plate": plates[plate]}
            who = _of(menu, f"{slug(course)}.{plate}", content.plates[plate].title)
            rows.choices[course, str(plate)] = book.add(CHOICE, links, _taken(plate, choice), who)
        found[menu.id] = rows
    return found


def _of(menu: SetMenu, key: str = "", label: str = "") -> Identity:
    return Identity(menu.path, key, label) if key else Identity(menu.path)


def _values(content: Content, menu: SetMenu) -> dict[str, Entry | None]:
    bears = menu_bears_cover(content, menu)
    return {
        "guest_price": entry(menu.price),
        "guests": entry(menu.guests),
        "plate_cover": entry(menu.cover_cost),
        "bears_cover": noted(1.0, menu.price.place, tr("a plate of it bears one"))
        if bears
        else None,
    }


def _taken(plate: Text, choice: Choice | None) -> dict[str, Entry | None]:
    if choice is None:
        return {"stated_share": noted(1.0, plate.place, tr("every guest gets it"))}
    return {"stated_share": entry(choice.share), "supplement": entry(choice.supplement)}
