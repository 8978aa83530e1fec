"""Plates by allergens: the page, and the sheets to print for the front of house."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from builder.language import Deferred, ntr, tr
from builder.pages.allergens import LIST_PAGE
from builder.pages.components import (
    Cell,
    Column,
    Definitions,
    Form,
    FormField,
    FormFields,
    FormGrid,
    FormNote,
    Link,
    LinkList,
    Notice,
    Notices,
    Page,
    Part,
    Row,
    Table,
    Term,
)
from builder.pages.found_once import contained_in
from builder.pages.parts import ALLERGENS, links, page_of, part, record_cell
from builder.pages.values import capital
from builder.pages.view import View
from builder.records.contained import (
    Contained,
    KitchenList,
    State,
    beyond,
    in_words,
    list_of,
    state_of,
)
from builder.records.kinds import Plate

SHEET = "forms/allergens.html"
PLATE_SHEET = "forms/allergens-by-plate.html"
MARKS: dict[State, str] = {
    "contains": Deferred("Yes"),
    "may contain": Deferred("May"),
    "not stated": "?",
    "": "–",
}
LEGEND = Deferred(
    "Yes: contains it. May: may contain it. ?: somebody has not stated what "
    "a part contains, so it is not known. –: every part is stated and none "
    "names it; that is no promise."
)
# What one sheet holds on Letter, the shorter paper, in lines of the small print of the grids.
_LINES = 41
_LIST_LINES = 46
_WIDTH_MM, _COLUMN_MM, _LETTER_MM = 180.0, 7.5, 1.3
_LIST_LETTERS = (34, 44, 26, 34)


def allergen_pages(view: View) -> Iterator[Page]:
    """The page of all plates and its two sheets."""
    matrix = Matrix(view)
    yield _page(matrix)
    yield _sheet_page(SHEET, tr("Plates by allergen"), tuple(_matrix_forms(view, matrix)))
    yield _sheet_page(PLATE_SHEET, tr("Allergens, plate by plate"), tuple(_lists(view, matrix)))


class Matrix:
    """Every plate of the menu with what is known of it, and the columns that the list gives."""

    def __init__(self, view: View) -> None:
        content = view.costed.content
        sections = [str(section) for section in content.kitchen.sections]
        self.plates = sorted(
            content.plates.values(),
            key=lambda plate: (
                sections.index(plate.menu) if plate.menu in sections else len(sections),
                str(plate.menu),
                plate.title.lower(),
            ),
        )
        self.found = [contained_in(view, plate) for plate in self.plates]
        self.list = list_of(content.kitchen)
        self.others = [Deferred(name) for name in beyond(self.list.rows, self.found)]
        self.names = [*self.list.rows, *self.others]

    def columns(self) -> tuple[Column, ...]:
        """The plate, then an allergen a column, then how many parts state nothing."""
        names = (Column(f"a{n}", capital(name), numeric=True) for n, name in enumerate(self.names))
        unknown = Column("unknown", tr("Parts not stated"), numeric=True)
        return (Column("plate", tr("Plate")), *names, unknown)

    def rows(self) -> Iterator[tuple[Plate, Contained, Row]]:
        """A row a plate."""
        for plate, found in zip(self.plates, self.found, strict=True):
            marks = (_mark(state_of(name, found)) for name in self.names)
            count = len(found.unstated)
            href = f"~/{page_of(plate)}#allergens" if count else ""
            unknown = Cell(str(count or "–"), count, href)
            yield plate, found, Row((record_cell(plate), *marks, unknown))


def _mark(state: State) -> Cell:
    return Cell(tr(MARKS[state]), list(MARKS).index(state))


def _page(matrix: Matrix) -> Page:
    return Page(
        path=LIST_PAGE,
        title=tr("Allergens"),
        lead=_lead(matrix),
        also=(tr("The pages list {list_words}.", list_words=_list_words(matrix.list)),),
        crumbs=(Link(tr("Menu"), "~/menu.html"),),
        nav="~/menu.html",
        sections=(
            Notices((Notice(tr(ALLERGENS), "caution"),)),
            part("matrix", tr("Plates by allergen"), _table(matrix), _print_links()),
            part("by-plate", tr("Plate by plate"), _by_plate(matrix)),
            _list_part(matrix),
        ),
    )


def _lead(matrix: Matrix) -> str:
    open_ = sum(bool(found.unstated) for found in matrix.found)
    return (
        tr(
            "On {open} of {plates} a part does not state its allergens.",
            open=open_,
            plates=ntr("{count} plate", "{count} plates", len(matrix.plates)),
        )
        if open_
        else tr("Every part of every plate states its allergens.")
    )


def _list_words(chosen: KitchenList) -> str:
    if chosen.law is None:
        return tr("the kitchen's own allergens")
    own = len(chosen.rows) > len(chosen.law.rows)
    own_too = tr(" and the kitchen’s own") if own else ""
    return tr(chosen.law.title) + own_too


def _table(matrix: Matrix) -> Table:
    rows = tuple(row for _, _, row in matrix.rows())
    return Table(
        "allergen-matrix",
        tr("Plates by allergen"),
        matrix.columns(),
        rows,
        sortable=len(rows) > 1,
        filterable=len(rows) > 8,
        about=tr(LEGEND),
    )


def _print_links() -> LinkList:
    return links(
        tr("To print"),
        (
            Link(tr("Plates by allergen"), f"~/{SHEET}", tr("the matrix, for the front of house")),
            Link(tr("Plate by plate"), f"~/{PLATE_SHEET}", tr("a list for each plate")),
        ),
    )


_LIST_COLUMNS = (
    Column("plate", Deferred("Plate")),
    Column("contains", Deferred("Contains")),
    Column("may", Deferred("May contain")),
    Column("unknown", Deferred("Not stated")),
)


def _by_plate(matrix: Matrix) -> Table:
    return Table(
        "plate-allergens", tr("Allergens of each plate"), _LIST_COLUMNS, _list_rows(matrix)
    )


def _list_rows(matrix: Matrix) -> tuple[Row, ...]:
    return tuple(
        Row(
            (
                record_cell(plate),
                Cell(
                    in_words(found.contains, found.rows)
                    or ("–" if found.unstated else tr("none named"))
                ),
                Cell(in_words(found.may, found.rows) or "–"),
                Cell(", ".join(record.title for record in found.unstated) or "–"),
            )
        )
        for plate, found in zip(matrix.plates, matrix.found, strict=True)
    )


def _list_part(matrix: Matrix) -> Part:
    law, chosen = matrix.list.law, matrix.list
    if law is None:
        return part("list", tr("Which allergens are listed"), Definitions(_own_terms(matrix)))
    why = tr(
        "kitchen.yaml names no list, so this is {law}, {why}; allergens: names one",
        law=law.title,
        why=chosen.why,
    )
    terms = [
        Term(tr("Law"), law.source, note=tr("status: {status}", status=law.status)),
        *([Term(tr("By default"), why)] if chosen.why else []),
        *(Term(capital(row.name), row.law, note=row.clause) for row in law.rows),
        *_own_terms(matrix),
    ]
    return part("list", tr("Which allergens are listed"), Definitions(tuple(terms)))


def _own_terms(matrix: Matrix) -> tuple[Term, ...]:
    law = [row.name for row in matrix.list.law.rows] if matrix.list.law else []
    own = [name for name in matrix.list.rows if name not in law]
    return (
        *(Term(capital(name), tr("the kitchen's own list, in kitchen.yaml")) for name in own),
        *(
            Term(capital(name), tr("stated in a file, though the list does not name it"))
            for name in matrix.others
        ),
    )


# On paper


def _sheet_page(path: str, title: str, forms: tuple[Form, ...]) -> Page:
    return Page(
        path=path,
        title=title,
        lead=ntr(
            "{count} sheet for the front of house, on one page of A4 or Letter.",
            "{count} sheets for the front of house, each on one page of A4 or Letter.",
            len(forms),
        ),
        kind=tr("Form"),
        crumbs=(Link(tr("Allergens"), f"~/{LIST_PAGE}"),),
        nav="~/menu.html",
        sections=forms,
        sheet=True,
    )


def _matrix_forms(view: View, matrix: Matrix) -> Iterator[Form]:
    letters = max(1.0, (_WIDTH_MM - _COLUMN_MM * (len(matrix.names) + 1)) / _LETTER_MM)
    rows = [(row, ceil(len(plate.title) / letters)) for plate, _, row in matrix.rows()]
    grids = [
        FormGrid(tr("Plates by allergen"), matrix.columns(), sheet, small="upright")
        for sheet in _sheets(rows, _LINES)
    ]
    yield from _forms(view, matrix, "allergens", tr("Plates by allergen"), grids, tr(LEGEND))


def _lists(view: View, matrix: Matrix) -> Iterator[Form]:
    rows = [
        (
            row,
            max(
                ceil(len(str(cell.text)) / most)
                for cell, most in zip(row.cells, _LIST_LETTERS, strict=True)
            ),
        )
        for row in _list_rows(matrix)
    ]
    grids = [
        FormGrid(tr("Allergens of each plate"), _LIST_COLUMNS, sheet, small="print")
        for sheet in _sheets(rows, _LIST_LINES)
    ]
    note = tr("Not stated: what these parts contain is not known. An empty list is no promise.")
    yield from _forms(view, matrix, "plate", tr("Allergens, plate by plate"), grids, note)


def _sheets(rows: Sequence[tuple[Row, int]], most: int) -> list[tuple[Row, ...]]:
    """Share rows out among sheets by the lines that each takes; one empty sheet without rows."""
    sheets: list[list[Row]] = [[]]
    room = most
    for row, lines in rows:
        if lines > room and sheets[-1]:
            sheets.append([])
            room = most
        sheets[-1].append(row)
        room -= lines
    return [tuple(sheet) for sheet in sheets]


def _forms(
    view: View, matrix: Matrix, name: str, title: str, grids: list[FormGrid], legend: str
) -> Iterator[Form]:
    day = view.style.date(view.costed.content.as_of)
    for number, grid in enumerate(grids, start=1):
        of = tr(", {number} of {grids}", number=number, grids=len(grids)) if len(grids) > 1 else ""
        yield Form(
            f"{name}-{number}",
            f"{title}{of}",
            (
                FormNote(tr(ALLERGENS), strong=True),
                grid,
                FormNote(legend),
                FormFields((FormField(tr("Checked by")), FormField(tr("Date")))),
            ),
            tr("{kitchen}, as of {day}", kitchen=view.costed.content.kitchen.name, day=day),
            capital(_list_words(matrix.list)),
        )
