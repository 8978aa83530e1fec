"""Small pieces that several kinds of page share."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from markupsafe import Markup, escape

from builder.language import Deferred, tr
from builder.pages.components import (
    Cell,
    Column,
    Link,
    LinkList,
    Part,
    Prose,
    Row,
    Section,
)
from builder.pages.unknown import NOT_KNOWN
from builder.pages.values import measured
from builder.pages.view import AccompanimentRow, CoverItemRow, IngredientRow, View
from builder.pages.withheld import WITHHELD
from builder.reading.folder import ContentFile
from builder.reading.tree import Text
from builder.records.base import Record
from builder.records.equipment import gear_title
from builder.records.fields import Measure
from builder.records.kinds import Cook, Cut, PantryItem, Plate

PICTURES_IN_SITE = "assets/pictures"

HOT = Deferred(
    "Hot water, steam, fat and metal burn: lids away from you, dry cloths, bags lifted with tongs."
)
ALLERGENS = Deferred(
    "From the kitchen's own files. Check every label and today's deliveries; "
    "the person in charge of allergens answers guests."
)


def page_of(record: Record) -> str:
    """The page of a record."""
    return f"{record.path}.html"


def form_path(name: str, what: str) -> str:
    """The page of something to print, by a record's id or path and what is printed.

    >>> form_path("chuck-roll-30h", "log"), form_path("pantry/bone-sauce", "labels")
    ('forms/chuck-roll-30h-log.html', 'forms/pantry/bone-sauce-labels.html')
    """
    return f"forms/{name}-{what}.html"


def gear_name(view: View, key: str) -> str:
    """What a piece of equipment is called on pages and sheets."""
    return gear_title(view.costed.content.kitchen.equipment, key)


def part(
    part_id: str, title: str, *sections: Section | None, about: str = "", pair: bool = False
) -> Part:
    """A part with the sections that are there."""
    return Part(part_id, title, tuple(s for s in sections if s is not None), about, pair=pair)


def present(*sections: Section | None) -> tuple[Section, ...]:
    """The sections that are there: empty parts are left out."""
    return tuple(
        s for s in sections if s is not None and not (isinstance(s, Part) and not s.sections)
    )


def as_written(words: str) -> Markup:
    """Words that follow no what-if, so that the page marks them while something is tried."""
    return Markup(f'<span class="written">{escape(words)}</span>') if words else Markup()


def record_cell(record: Cut | Cook | PantryItem | Plate, note: str = "") -> Cell:
    """A cell that names a record and leads to its page."""
    return Cell(record.title, sort=record.title.lower(), href=f"~/{page_of(record)}", note=note)


def record_link(record: Record, about: str = "", figure: str = "") -> Link:
    """A link to a record's page."""
    return Link(record.title, f"~/{page_of(record)}", about, figure)


def links(
    label: str, found: Iterable[Link], empty: str = Deferred("Nothing here yet.")
) -> LinkList:
    """A list of links."""
    return LinkList(tuple(found), label, empty)


def picture_path(file: ContentFile) -> str:
    """Where a picture of the content folder is published."""
    return f"{PICTURES_IN_SITE}/{file.path.rpartition('/')[2]}"


def amounts(
    view: View,
    what: str,
    written: Mapping[Text, Measure],
    rows: Mapping[str, IngredientRow] | Mapping[str, AccompanimentRow] | Mapping[str, CoverItemRow],
) -> tuple[tuple[Column, ...], tuple[Row, ...]]:
    """Pantry items with their amounts: columns and rows, for a sub-recipe as for a plate."""
    columns = (
        Column("item", what),
        Column("amount", tr("Quantity"), numeric=True),
        Column("unit", tr("A unit costs"), numeric=True),
        Column("food", tr("Food"), numeric=True),
        Column("work", tr("Work"), numeric=True),
    )
    body = tuple(
        Row(
            (
                record_cell(view.costed.content.pantry[name]),
                _amount(view, amount, rows[name]),
                *rows[name].cells("food_per_unit", "food"),
                _work(rows[name]),
            )
        )
        for name, amount in written.items()
        if name in rows
    )
    return columns, body


def _amount(
    view: View, amount: Measure, row: IngredientRow | AccompanimentRow | CoverItemRow
) -> Cell:
    if row.hides("quantity"):
        return Cell(WITHHELD)
    return Cell(measured(view.style, amount), href=row.href("quantity"))


def _work(row: IngredientRow | AccompanimentRow | CoverItemRow) -> Cell:
    if row.hides("hours"):
        return Cell(WITHHELD)
    return row.cell("hours") if row.known("hours_per_unit") else Cell(tr(NOT_KNOWN))


def paragraph(text: str) -> Prose:
    """A paragraph of plain text."""
    return Prose(Markup("<p>{}</p>").format(text))


def written_cell(view: View, measure: Measure | None, text: str) -> Cell:
    """A value as its file states it, with the way to the line."""
    if measure is None:
        return Cell("–")
    place = measure.place
    return Cell(text, measure.value, view.where.line_href(place.file, place.line))


def month_words(view: View) -> str:
    """The month that the menu's counts are of."""
    month = view.costed.menu_month
    return view.style.month((month.year, month.month))
