"""The steps of a cook, a sub-recipe or a plate on one sheet, for the wall."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import TypeAlias

from markupsafe import Markup

from builder.language import Deferred, tr
from builder.pages.allergens import are_granted
from builder.pages.components import (
    Cell,
    Column,
    Form,
    FormField,
    FormFields,
    FormGrid,
    FormNote,
    Link,
    Page,
    Row,
)
from builder.pages.form_pieces import sheet_key, sheet_title, value
from builder.pages.labels import allergen_lines
from builder.pages.parts import HOT, gear_name, page_of
from builder.pages.steps import (
    amounts_of,
    facts_of,
    made_amount,
    made_words,
    picture_html,
    spec_path,
)
from builder.pages.view import View
from builder.pages.warned import cook_warnings
from builder.pages.ways import way_words
from builder.records.kinds import Cook, Plate
from builder.records.step_checks import Stepped

# Letters of a line of the column of what is done, and lines that a sheet has room for.
_LETTERS, _ROOM = 46, 32
_SMALL_LETTERS, _SMALL_ROOM = 58, 58
# Lines that a picture of 32 mm takes, of either height.
_PICTURE, _SMALL_PICTURE = 5, 8
_COLUMNS = (
    Column("what", Deferred("What")),
    Column("time", Deferred("Time"), numeric=True),
    Column("at", Deferred("At"), numeric=True),
    Column("amounts", Deferred("Amounts")),
)


def spec_pages(view: View, record: Stepped) -> Iterator[Page]:
    """The spec sheet of a record that has steps."""
    if not record.steps:
        return
    listed = f"~/{('menu' if isinstance(record, Plate) else record.folder)}.html"
    yield Page(
        path=spec_path(record),
        title=tr("Spec sheet: {record}", record=record.title),
        lead=tr("Its steps in their order; a sheet prints on one page of A4 or Letter."),
        kind=tr("Form"),
        crumbs=(Link(record.title, f"~/{page_of(record)}"),),
        nav=listed,
        sections=tuple(_forms(view, record)),
        sheet=True,
        follows=True,
    )


def _forms(view: View, record: Stepped) -> Iterator[Form]:
    rows = [(row, text) for row, text in _rows(view, record)]
    head, foot = _head(view, record), _foot(view, record)
    room = sum(len(note.text) // 100 + 1 for note in foot)
    small = sum(_lines(text, _LETTERS, _PICTURE) for _, text in rows) + room > _ROOM
    letters, most, picture = (
        (_SMALL_LETTERS, _SMALL_ROOM, _SMALL_PICTURE) if small else (_LETTERS, _ROOM, _PICTURE)
    )
    sheets: list[list[Row]] = [[]]
    left = most - room
    for row, text in rows:
        lines = _lines(text, letters, picture)
        if lines > left and sheets[-1]:
            sheets.append([])
            left = most - room
        sheets[-1].append(row)
        left -= lines
    for number, sheet in enumerate(sheets, start=1):
        grid = _filled(
            FormGrid(tr("Steps"), _COLUMNS, tuple(sheet), small="print" if small else "")
        )
        yield Form(
            sheet_key("steps", number),
            sheet_title(tr("Spec sheet: {record}", record=record.title), number, len(sheets)),
            (head, grid, *foot),
            reference=record.file,
            close=small,
        )


def _filled(grid: FormGrid) -> FormGrid:
    """A grid without the columns in which no row says anything."""
    kept = [at for at in range(len(grid.columns)) if any(row.cells[at].text for row in grid.rows)]
    rows = (replace(row, cells=tuple(row.cells[at] for at in kept)) for row in grid.rows)
    return replace(grid, columns=tuple(grid.columns[at] for at in kept), rows=tuple(rows))


_Written: TypeAlias = tuple[str, str, int, bool]
"""What is done, its caution, how many amounts, and whether there is a picture."""


def _lines(written: _Written, letters: int, picture: int) -> int:
    """Lines that a step takes: what is done, picture and caution, or its amounts one by one."""
    what, caution, amounts, pictured = written
    words = math.ceil(len(what) / letters) + math.ceil(len(caution) / letters)
    return max(words + picture * pictured, amounts) + 1


def _rows(view: View, record: Stepped) -> Iterator[tuple[Row, _Written]]:
    for number, step in enumerate(record.steps, start=1):
        facts = iter(facts_of(view, step))
        time = next(facts) if step.for_ else ""
        at = next(facts) if step.at else ""
        amounts = list(amounts_of(view, record, number))
        words = Markup("<br>").join(Markup("{} {}").format(*each) for each in amounts)
        caution = Markup("<strong>{}</strong>").format(step.caution) if step.caution else ""
        picture = picture_html(view, step.picture) if step.picture else Markup()
        what = Cell(Markup("{}. {}{}").format(number, step.what, picture), note=caution)
        yield (
            Row((what, Cell(time), Cell(at), Cell(words))),
            (str(step.what), str(step.caution or ""), len(amounts), bool(picture)),
        )


def _head(view: View, record: Stepped) -> FormFields:
    if isinstance(record, Plate):
        fields = [FormField(tr("Portions"), made_amount(view, record), width="half")]
    else:
        fields = [FormField(tr("Amounts for"), made_words(view, record), width="half")]
    if isinstance(record, Cook):
        row = view.costed.rows.cooks[record.id]
        set_to = value(view, ("batch", "cook_temperature", row))
        lasts = value(view, ("batch", "cook_hours", row))
        fields = [
            FormField(view.costed.content.cuts[record.cut].title, made_words(view, record)),
            FormField(tr("How"), way_words(record.how), width="quarter"),
            FormField(tr("Equipment"), gear_name(view, record.equipment or ""), width="quarter"),
            FormField(tr("Set to"), set_to, width="quarter"),
            FormField(tr("For"), lasts, width="quarter"),
        ]
    return FormFields((*fields, FormField(tr("Date"), width="quarter")))


def _foot(view: View, record: Stepped) -> tuple[FormNote, ...]:
    """What does not meet a rule and the allergens, in bold, then the usual cautions."""
    warned = cook_warnings(view, record) if isinstance(record, Cook) else ()
    allergens = " ".join(allergen_lines(view, record)) if are_granted(view) else ""
    strong = (*warned, *filter(None, [allergens]))
    return (*(FormNote(text, strong=True) for text in strong), FormNote(f"{tr(HOT)} {tr(_DEFERS)}"))


_DEFERS = Deferred("Log the core with a probe where meat is cooked; local code decides.")
