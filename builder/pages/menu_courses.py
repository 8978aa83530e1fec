"""A set menu with its rows, its courses choice by choice, and what its guests may come across."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from markupsafe import Markup

from builder.costing.left_out import cover_left_out, left_out
from builder.display.words import listed
from builder.language import Deferred, tr
from builder.pages import withheld
from builder.pages.allergens import LIST_PAGE, beside_contained, sentences, short_words
from builder.pages.components import Cell, Column, Link, Notice, Part, Row, Table, Text
from builder.pages.figure_names import ChoiceFigure, CourseFigure, SetMenuFigure
from builder.pages.found_once import contained_in
from builder.pages.parts import (
    ALLERGENS,
    links,
    page_of,
    paragraph,
    part,
    record_cell,
    record_link,
)
from builder.pages.targets import is_over
from builder.pages.unknown import missing_words, plates_doubt
from builder.pages.values import capital
from builder.pages.view import FigureRow, View
from builder.records.contained import Contained, Kind, contained, in_words, list_of
from builder.records.kinds import Plate, SetMenu
from builder.records.menus import EVERY_GUEST

_EQUAL = Deferred("In equal parts, as the file does not say who takes which: {}.")
_EQUAL_PART = Deferred("not written: its part of the rest")
_REST = Deferred("The other guests take {}.")


class Seen:
    """A set menu with its rows and its plates."""

    def __init__(self, view: View, menu: SetMenu) -> None:
        self.view, self.menu = view, menu
        rows = view.costed.rows.menus[menu.id]
        self.row: FigureRow[SetMenuFigure] = FigureRow(view, "set_menu", rows.row)
        self.courses: dict[str, FigureRow[CourseFigure]] = {
            name: FigureRow(view, "course", row) for name, row in rows.courses.items()
        }
        self.choices: dict[tuple[str, str], FigureRow[ChoiceFigure]] = {
            key: FigureRow(view, "choice", row) for key, row in rows.choices.items()
        }
        plates = view.costed.content.plates
        self.plates = [plates[name] for name in menu.plate_ids]
        self.doubt = withheld.seen(plates_doubt, view, self.plates) or ""
        self.missing = withheld.seen(missing_words, view, self.plates) or ""

    def not_in_full(self, *courses: str) -> set[str] | None:
        """Figures of some courses' plates that are not known in full, what the cover adds apart.

        None where the reader may not know.
        """
        plates = [plate for name in courses for plate, _ in self.of_course(name)]
        return withheld.seen(_left_out, self.view, plates)

    @property
    def guest_not_in_full(self) -> set[str] | None:
        """The same of all that a guest gets, the cover among it."""
        plates = self.not_in_full(*self.courses)
        cover = withheld.seen(cover_left_out, self.view.costed, self.menu)
        return None if plates is None or cover is None else plates | cover.keys()

    @property
    def is_combo(self) -> bool:
        """Whether every guest gets every plate."""
        return not self.menu.courses

    def of_course(self, course: str) -> list[tuple[Plate, FigureRow[ChoiceFigure]]]:
        """The plates of a course with their rows."""
        plates = self.view.costed.content.plates
        return [(plates[name], row) for (of, name), row in self.choices.items() if of == course]

    @property
    def over_target(self) -> bool:
        """Whether food is a larger share of what a guest pays than is aimed at."""
        return is_over(self.row)


def _left_out(view: View, plates: Iterable[Plate]) -> set[str]:
    return {figure for p in plates for figure in left_out(view.costed, p, cover=False)}


def anchor(seen: Seen, course: str) -> str:
    """The anchor of a course's part on its page."""
    return f"course-{list(seen.courses).index(course) + 1}"


def dearest(seen: Seen, course: str) -> Text:
    """The plate of a course that costs its guest's kitchen most after what the guest adds."""
    found = seen.of_course(course)
    if len(found) < 2:
        return "–"
    plate, row = max(found, key=lambda pair: pair[1].number("food_after_supplement"))
    words = Markup('<a href="~/{}">{}</a> ({})')
    return words.format(page_of(plate), plate.title, row.traced("food_after_supplement"))


def course_part(seen: Seen, course: str) -> Part:
    """A course, plate by plate: who takes it, what it costs, what its guest adds."""
    found = seen.of_course(course)
    name = anchor(seen, course)
    if all(found[0][1].hides(figure) for figure in _SHOWN):
        served = links(capital(course), [record_link(plate) for plate, _ in found])
        return part(name, capital(course), served)
    columns = (
        Column("plate", tr("Plate")),
        # Money is next to the name: what a phone can't show is further on.
        Column("food", tr("Food of one"), numeric=True),
        Column("supplement", tr("Supplement"), numeric=True),
        Column("after", tr("Food after supplement"), True, about=tr("less the supplement ex tax")),
        Column("guest", tr("Food a guest"), numeric=True),
        Column("apart", tr("On its own"), numeric=True, about=tr("its price on the menu")),
        Column("share", tr("Guests who take it"), numeric=True),
        Column("week", tr("Plates a week"), numeric=True),
    )
    body = tuple(
        Row(
            (
                record_cell(plate),
                row.cell("plate_food"),
                row.cell("supplement"),
                row.cell("food_after_supplement"),
                row.cell("choice_food"),
                row.cell("plate_price"),
                row.cell("share", note=_share_note(row)),
                row.cell("plates_a_week"),
            )
        )
        for plate, row in found
    )
    table = Table(f"{name}-plates", tr("{course}, by plate", course=capital(course)), columns, body)
    about = withheld.seen(_share_words, seen, course)
    return part(name, capital(course), table, about=about or "")


# Where none of these is shown, nothing is left to say of a plate but its name.
_SHOWN: tuple[ChoiceFigure, ...] = ("share", "plate_food", "supplement", "plate_price")


def _share_note(row: FigureRow[ChoiceFigure]) -> str:
    return "" if row.hides("stated_share") or row.known("stated_share") else tr(_EQUAL_PART)


def _share_words(seen: Seen, course: str) -> str:
    """Which plates are taken in equal parts, and how many guests take none."""
    found = seen.of_course(course)
    equal = [plate.title for plate, row in found if not row.known("stated_share")]
    rest = 1 - seen.courses[course].number("taken")
    words = [(tr(_EQUAL) if len(equal) > 1 else tr(_REST)).format(listed(equal))] if equal else []
    if course != EVERY_GUEST and rest > 1e-9:
        words.append(
            tr("{rest} of the guests take none of it.", rest=seen.view.style.percent(rest))
        )
    return " ".join(words)


def allergens_part(seen: Seen) -> Part:
    """What its guest may come across, what no choice avoids, and what each plate contains."""
    view = seen.view
    found = contained(view.costed.content, *seen.plates)
    if seen.is_combo:
        words = list(sentences(found))
    else:
        words = list(_come_with(seen, found))
        words += list(beside_contained(found))
    columns = (
        Column("course", tr("Course")),
        Column("plate", tr("Plate")),
        Column("allergens", tr("Allergens")),
    )
    body = tuple(
        Row((Cell(capital(course)), record_cell(plate), Cell(short_words(view, plate))))
        for course in seen.courses
        for plate, _ in seen.of_course(course)
    )
    return part(
        "allergens",
        tr("Allergens"),
        *(paragraph(text) for text in words),
        Table("menu-allergens", tr("Allergens by course"), columns, body),
        Notice(tr(ALLERGENS), "caution"),
        links(tr("See also"), [Link(tr("All plates by allergen"), f"~/{LIST_PAGE}")]),
    )


def _come_with(seen: Seen, found: Contained) -> Iterator[str]:
    """What every plate of a course contains, then what else a guest may come across."""
    yield from _unavoidable(seen)
    shared = [kind for course in seen.courses for kind in _shared(seen, course)]
    rest = [kind for kind in found.contains if kind not in shared]
    if rest:
        yield tr(
            "May {also}come with {in_words}.",
            also=tr("also ") if shared else "",
            in_words=in_words(rest, found.rows),
        )


def _shared(seen: Seen, course: str) -> list[Kind]:
    """What every plate of a course contains."""
    each = [contained_in(seen.view, p).contains for p, _ in seen.of_course(course)]
    return [kind for kind in each[0] if all(kind in other for other in each)]


def _unavoidable(seen: Seen) -> Iterator[str]:
    """Courses of which every plate contains an allergen."""
    rows = list_of(seen.view.costed.content.kitchen).rows
    for course in seen.courses:
        if shared := _shared(seen, course):
            yield tr(
                "Every plate of the course {course} contains {in_words}.",
                course=course,
                in_words=in_words(shared, rows),
            )
