"""Set menus, their courses and plates, and what every cover gets, as open data."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.buffet_rows import BuffetRows
from builder.costing.left_out import labour_left_out, process_left_out
from builder.display.words import listed
from builder.language import Deferred, clauses, tr
from builder.pages.doubt_data import doubt_of_plate, not_in_full
from builder.pages.resource import Field, Record, Resource, Texts
from builder.pages.unknown import missing_words, plates_doubt
from builder.pages.view import View
from builder.reading.names import slug
from builder.records.kinds import Cook, PantryItem

_Rows = Iterator[tuple[int, Texts]]


def _menus(view: View) -> _Rows:
    for menu in view.costed.content.menus.values():
        yield view.costed.rows.menus[menu.id].row, (menu.id, menu.title)


def _courses(view: View) -> _Rows:
    for menu, rows in view.costed.rows.menus.items():
        for course, row in rows.courses.items():
            yield row, (f"{menu}/{slug(course)}", menu, course)


def _choices(view: View) -> _Rows:
    for menu, rows in view.costed.rows.menus.items():
        for (course, plate), row in rows.choices.items():
            name = f"{menu}/{slug(course)}"
            yield row, (f"{name}/{plate}", name, plate)


def _cover(view: View) -> _Rows:
    for item, row in view.costed.rows.cover.items():
        yield row, (item, item, view.per("cover_item", row))


def _buffets(view: View) -> _Rows:
    for buffet in view.costed.content.buffets.values():
        by = "weight" if buffet.by_weight else "guest"
        yield view.costed.rows.of(BuffetRows)[buffet.id].row, (buffet.id, buffet.title, by)


def _dishes(view: View) -> _Rows:
    for buffet, rows in view.costed.rows.of(BuffetRows).items():
        for name, row in rows.cooks.items():
            yield row, (f"{buffet}/cooks/{name}", buffet, name, None, None)
        for name, row in rows.items.items():
            yield row, (f"{buffet}/items/{name}", buffet, None, name, view.per("dish", row))


_COSTS = (
    (Deferred("labour"), labour_left_out),
    (Deferred("energy and supplies"), process_left_out),
)


def _buffet_doubt(view: View, row: Record) -> str:
    content, buffet = view.costed.content, view.costed.content.buffets[str(row["id"])]
    doubt = next(filter(None, (view.costed.doubts.cooks[name] for name in buffet.cooks)), "")
    put_out: list[Cook | PantryItem] = [content.cooks[name] for name in buffet.cooks]
    put_out += [content.pantry[name] for name in buffet.items]
    missing = [
        tr(what) for what, why in _COSTS if any(why(view.costed, record) for record in put_out)
    ]
    return clauses((doubt, not_in_full(listed(missing))))


def _menu_doubt(view: View, row: Record) -> str:
    content = view.costed.content
    plates = [content.plates[name] for name in content.menus[str(row["id"])].plate_ids]
    missing = not_in_full(missing_words(view, plates))
    return clauses((plates_doubt(view, plates), missing))


COVER_RESOURCES = (
    Resource(
        "cover_items",
        Deferred("Pantry items that every cover gets"),
        "cover_item",
        (
            Field("id", "Name of the item's file"),
            Field("item", "Pantry item", refers="pantry"),
            Field("priced_by", "Unit that the item is priced by: kg, L or each"),
        ),
        _cover,
    ),
)
MENU_RESOURCES = (
    Resource(
        "set_menus",
        Deferred("Set menus and combos, a guest"),
        "set_menu",
        (Field("id", "Name of the menu's file"), Field("name", "What it is called")),
        _menus,
        doubt=_menu_doubt,
    ),
    Resource(
        "set_menu_courses",
        Deferred("Courses of set menus, a guest"),
        "course",
        (
            Field("id", "Set menu and course"),
            Field("menu", "Set menu", refers="set_menus"),
            Field("course", "What the course is called"),
        ),
        _courses,
    ),
    Resource(
        "set_menu_plates",
        Deferred("Plates of set menus, with the share of guests that takes each"),
        "choice",
        (
            Field("id", "Set menu, course and plate"),
            Field("course", "Course of the set menu", refers="set_menu_courses"),
            Field("plate", "Plate", refers="plates"),
        ),
        _choices,
        doubt=doubt_of_plate("plate"),
    ),
)
BUFFET_RESOURCES = (
    Resource(
        "buffets",
        Deferred("Counters that sell by weight, and buffets"),
        "buffet",
        (
            Field("id", "Name of the file"),
            Field("name", "What it is called"),
            Field("sold_by", "What the price is for: weight or guest"),
        ),
        _buffets,
        doubt=_buffet_doubt,
    ),
    Resource(
        "buffet_dishes",
        Deferred("What counters and buffets put out"),
        "dish",
        (
            Field("id", "Counter or buffet, and dish"),
            Field("buffet", "Counter or buffet", refers="buffets"),
            Field("cook", "Cook that is put out", refers="cooks"),
            Field("item", "Pantry item that is put out", refers="pantry"),
            Field("priced_by", "Unit that the item is priced by: kg, L or each"),
        ),
        _dishes,
    ),
)
