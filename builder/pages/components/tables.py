"""Tables: what a column, a cell and a row are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from builder.frozen import frozen
from builder.language import Deferred
from builder.pages.components.words import Text, Tone

RowKind = Literal["", "subtotal", "total", "group"]


_EMPTY = Deferred("Nothing recorded yet.")


@frozen
class Column:
    """A column of a table; `key` is its name in the address of a sorted view."""

    key: str
    label: Text
    numeric: bool = False
    unit: Text = ""
    about: Text = ""


@frozen
class Cell:
    """One cell; `sort` is what sorting compares, the text where it is None.

    What is `fixed` follows no what-if, but for figures in it that lead to where they come from.
    `tries` names an input that the cell's own figure can be tried as, "table.figure.row",
    after a space 1- where the figure is a loss and the input what is left.

    A figure in a sortable column needs its `sort`: a number as people write it,
    with marks and signs, is taken for a word and would come last.
    """

    text: Text
    sort: float | str | None = None
    href: str = ""
    tone: Tone = ""
    note: Text = ""
    fixed: bool = False
    tries: str = ""


@frozen
class Row:
    """Cells in the order of the columns; the first one heads the row."""

    cells: tuple[Cell, ...]
    kind: RowKind = ""
    anchor: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """A table; sortable and filterable tables keep their state in the address.

    Of one to `pick` from, two to five rows can be seen side by side. Of a `fixed` one no cell
    follows a what-if, so that the page marks it as written while something is tried.
    """

    id: str
    caption: Text
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    foot: tuple[Row, ...] = ()
    sortable: bool = False
    filterable: bool = False
    pick: bool = False
    fixed: bool = False
    about: Text = ""
    empty: Text = _EMPTY
