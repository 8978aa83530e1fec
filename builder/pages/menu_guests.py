"""What the guests of set menus take in a week, beside what is sold on its own."""

from __future__ import annotations

from collections.abc import Iterable

from builder.language import Deferred, tr
from builder.pages import withheld
from builder.pages.components import Cell, Column, Part, Row, Table
from builder.pages.menu_courses import Seen
from builder.pages.parts import page_of, part, record_cell
from builder.pages.view import View
from builder.records.kinds import Plate

RULE = Deferred(
    "Forecasts and counts are of plates sold on their own; what guests of "
    "set menus take comes on top."
)


def adds_guests(view: View, plates: Iterable[Plate]) -> bool:
    """Whether guests of a set menu are expected to take any of the plates."""
    return any(view.plate(plate).number("menu_plates_a_week") > 0 for plate in plates)


def rule_words(view: View) -> str:
    """How a week is counted, where set menus have guests; empty for whoever may not see them."""
    plates = view.costed.content.plates.values()
    return tr(RULE) if withheld.seen(adds_guests, view, plates) else ""


def week_of_plate(view: View, plate: Plate) -> Table | None:
    """What is sold of a plate on its own in a week, and what each set menu's guests take of it."""
    if not adds_guests(view, [plate]):
        return None
    row, content = view.plate(plate), view.costed.content
    body = [Row((Cell(tr("Sold on its own")), row.cell("weekly_count")))]
    for menu in content.menus.values():
        seen = Seen(view, menu)
        for (course, name), choice in seen.choices.items():
            if name == plate.id and choice.known("plates_a_week"):
                where = Cell(menu.title, href=f"~/{page_of(menu)}", note=course)
                body.append(Row((where, choice.cell("plates_a_week"))))
    columns = (Column("what", tr("Where")), Column("week", tr("Plates a week"), numeric=True))
    total = Row((Cell(tr("To make")), row.cell("plates_to_make")), "total")
    title = tr("Plates a week, with those of set menus")
    return Table("week", title, columns, tuple(body), (total,), about=tr(RULE))


def week_of_menu(seen: Seen) -> Part | None:
    """What a week of a menu's guests takes of each plate, beside what else is made of it."""
    if not seen.row.known("guests"):
        return None
    view = seen.view
    columns = (
        Column("plate", tr("Plate")),
        Column("guests", tr("This menu's guests"), numeric=True),
        Column("menus", tr("All set menus"), numeric=True),
        Column("own", tr("Sold on its own"), numeric=True),
        Column("make", tr("To make"), numeric=True),
    )
    body = tuple(
        Row(
            (
                record_cell(view.costed.content.plates[name], note=course),
                choice.cell("plates_a_week"),
                *view.plate(view.costed.content.plates[name]).cells(
                    "menu_plates_a_week", "weekly_count", "plates_to_make"
                ),
            )
        )
        for (course, name), choice in seen.choices.items()
    )
    table = Table("week-plates", tr("Plates a week"), columns, body)
    return part("week", tr("A week of its guests"), table, about=tr(RULE))
