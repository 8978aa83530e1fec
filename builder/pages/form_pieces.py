"""Pieces that the printed forms share: a figure on a line, a row of figures, portions."""

from __future__ import annotations

import math
from collections.abc import Container, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import TypeVar

from builder.language import tr
from builder.pages.anchors import anchor
from builder.pages.components import Cell, Column, FormField, FormGrid, Row
from builder.pages.figure_names import PlateFigure
from builder.pages.portions import share
from builder.pages.unknown import doubt_note
from builder.pages.view import View
from builder.pages.withheld import WITHHELD
from builder.quantities import Dimension
from builder.records.kinds import Cook, Cut, Plate

# Labels of one cook in a service, a sheet of them.
MOST_LABELS = 8

R = TypeVar("R")
Key = tuple[str, str, int]
"""A figure on a form: its table, its name, its row."""

_MOST_PLATES = 16
"""Rows of plates that one sheet of their own holds."""


def chunks(rows: Iterable[R], most: int) -> Iterator[tuple[R, ...]]:
    """Rows as they fill one sheet after another; one empty sheet where there is none.

    >>> list(chunks("abc", 2)), list(chunks("", 2))
    ([('a', 'b'), ('c',)], [()])
    """
    left = tuple(rows)
    yield left[:most]
    if left[most:]:
        yield from chunks(left[most:], most)


def sheet_key(key: str, number: int) -> str:
    """The id of a sheet; further sheets of one matter are numbered.

    >>> sheet_key("portions", 1), sheet_key("portions", 2)
    ('portions', 'portions-sheet-2')
    """
    return key if number == 1 else f"{key}-sheet-{number}"


def sheet_title(title: str, number: int, of: int) -> str:
    """The title of a sheet, numbered where there are several.

    >>> sheet_title("Labels", 1, 1), sheet_title("Labels", 2, 3)
    ('Labels', 'Labels, 2 of 3')
    """
    return title if of == 1 else tr("{title}, {number} of {of}", title=title, number=number, of=of)


def mass_unit(view: View) -> str:
    """The kitchen's unit of weight."""
    return view.style.unit(Dimension.MASS)


def price_unit(view: View) -> str:
    """The kitchen's currency by its unit of weight."""
    return f"{view.style.currency}/{mass_unit(view)}"


def value(view: View, key: Key) -> str:
    """A figure that leads to its trace; nothing where it is not known, so that one can write."""
    if key[:2] in view.hidden:
        return WITHHELD
    if not math.isfinite(view.number(*key)):
        return ""
    link: str = anchor(view.href(*key), view.text(*key))
    return link


def fields(
    view: View, *found: tuple[str, Key], doubt: str = "", but: Container[str] = ()
) -> tuple[FormField, ...]:
    """Figures side by side, a quarter of the line each; a doubt is said of all but some labels."""
    return tuple(
        FormField(label, value(view, key), "" if label in but else doubt, "quarter")
        for label, key in found
    )


def line(view: View, label: str, *keys: Key | str, total: bool = False, href: str = "") -> Row:
    """A row of figures and texts; a figure that is not known stays open."""
    cells = (Cell(key) if isinstance(key, str) else _cell(view, key) for key in keys)
    return Row((Cell(label, href=href), *cells), "total" if total else "")


def _cell(view: View, key: Key) -> Cell:
    shown = key[:2] in view.hidden or math.isfinite(view.number(*key))
    return view.cell(*key) if shown else Cell("")


def noted_row(row: Row, *notes: str) -> Row:
    """A row with a note beside each figure after its name; one alone is beside them all."""
    name, *cells = row.cells
    each = zip(cells, notes if len(notes) > 1 else notes * len(cells), strict=True)
    return replace(row, cells=(name, *(replace(cell, note=note) for cell, note in each)))


def of(table: str, row: int, *names: str) -> Iterator[Key]:
    """Several figures of one row."""
    return ((table, name, row) for name in names)


def portions(view: View, sources: Iterable[Cook | Cut]) -> Iterator[FormGrid]:
    """Portion size, cost and cost factor of the plates that serve these cooks, a grid a sheet.

    Those of a cut are the plates that serve it without a cook.
    """
    found = [(plate, each) for each in sources for plate in _plates_of(view, each)]
    columns = (
        Column("plate", tr("Plate")),
        Column("portion", tr("Portion size"), True),
        Column("by-weight", tr("Portion cost"), True),
        Column("factor", tr("Cost factor per portion"), True),
        Column("whole", tr("By whole portions"), True),
    )
    for plates in chunks(found, _MOST_PLATES):
        if plates:
            rows = tuple(_portion(view, plate, each) for plate, each in plates)
            yield FormGrid(tr("Portions as served"), columns, rows)


def _plates_of(view: View, source: Cook | Cut) -> Sequence[Plate]:
    uses = view.uses
    found = uses.plates_of_cook if isinstance(source, Cook) else uses.plates_of_cut
    return found.get(source.id, ())


def _portion(view: View, plate: Plate, source: Cook | Cut) -> Row:
    names: tuple[PlateFigure, ...] = (
        "portion", "portion_cost_by_weight", "cost_factor_per_portion", "portion_cost_whole"
    )  # fmt: skip
    own = share(view, plate, source)
    row = line(view, plate.title, *of(own.table, own.row, *names))
    return noted_row(row, *(doubt_note(view, plate, name) for name in names))
