"""The key of a blind tasting: what each code stands for, and what to cook for it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.costing.tasting_results import TastingResult
from builder.display.words import listed
from builder.language import Deferred, clauses, tr
from builder.pages.components import Cell, Column, Form, FormGrid, FormNote, Row
from builder.pages.tasting_plan import cooking_rows, timetable_rows
from builder.pages.view import View
from builder.records.tastings import Tasting
from builder.tasting.plans import KeyLine, Tray

# Rows that one sheet of A4 or Letter holds, and cups up to which two tasters share a row.
_ROWS, _FEW_CUPS = 22, 3
_TITLE = Deferred("Key, not for tasters or servers")


def key_forms(result: TastingResult) -> Iterator[Form]:
    """The key on a sheet of its own, on several only where one can't hold so many tasters."""
    grids = _by_taster(result) if result.tasting.codes_by_taster else [_by_sample(result)]
    notes = tuple(
        FormNote(note) for note in (result.plan.sentence, _measured(result.tasting)) if note
    )
    for number, grid in enumerate(grids, start=1):
        anchor = "key" if number == 1 else f"key-{number}"
        yield Form(anchor, tr(_TITLE), (grid, *notes), reference=result.tasting.file)


def _by_sample(result: TastingResult) -> FormGrid:
    rows = tuple(
        Row((Cell(line.code), Cell(result.words_of(line.sample), note=_note(line))))
        for line in result.plan.key
    )
    columns = (Column("code", tr("Code")), Column("sample", tr("Sample")))
    return FormGrid(tr("What each code stands for"), columns, rows)


def _by_taster(result: TastingResult) -> list[FormGrid]:
    """Each taster's cups from left to right, each with its sample."""
    trays = result.plan.trays
    cups = max(len(tray.codes) for tray in trays)
    across = 2 if cups <= _FEW_CUPS and len(trays) > _ROWS else 1
    columns = tuple(
        Column(f"{name}-{block}", title)
        for block in range(across)
        for name, title in [
            ("taster", tr("Taster")),
            *((f"cup-{n}", tr("Cup {n}", n=n)) for n in _from_1(cups)),
        ]
    )
    lines = [tuple(_cells(result, tray, cups)) for tray in trays]
    each = -(-len(lines) // across) if len(lines) <= _ROWS * across else _ROWS
    grids = []
    for start in range(0, len(lines), each * across):
        blocks = [lines[start + each * b : start + each * (b + 1)] for b in range(across)]
        empty = (Cell(""),) * (cups + 1)
        rows = tuple(
            Row(tuple(cell for block in blocks for cell in (block[n] if n < len(block) else empty)))
            for n in range(len(blocks[0]))
        )
        grids.append(FormGrid(tr("What each code stands for, left to right"), columns, rows))
    return grids


def _from_1(count: int) -> range:
    return range(1, count + 1)


def _cells(result: TastingResult, tray: Tray, cups: int) -> Iterator[Cell]:
    yield Cell(tray.taster)
    for code in tray.codes:
        line = result.plan.meaning(tray.taster, code)
        yield Cell(f"{code} {result.words_of(line.sample)}", note=_note(line))
    yield from [Cell("")] * (cups - len(tray.codes))


def _note(line: KeyLine) -> str:
    return tr("warm-up") if line.warm_up else ""


def _unlinked(row: Row) -> Row:
    """A row for paper, which leads nowhere."""
    return Row(tuple(replace(cell, href="") for cell in row.cells))


def _measured(tasting: Tasting) -> str:
    """How long the printed lines are, for whoever reads the marks off."""
    scales = [(name, attribute.scale) for name, attribute in tasting.scored.items()]
    scales += [(str(taster), scale) for taster, scale in tasting.scales.items()]
    lengths = [
        tr(
            "{name} {line_mm:g} mm for {low:g} to {high:g}",
            name=name,
            line_mm=scale.line_mm,
            low=scale.low,
            high=scale.high,
        )
        for name, scale in scales
        if scale and scale.is_line
    ]
    return tr(
        "Measure marks from the left end of the line: {lengths}.", lengths=clauses(lengths)
    ) * bool(lengths)


def cooking_form(view: View, result: TastingResult) -> Form:
    """What to cook for the tasting and when."""
    columns = (
        Column("sample", tr("Sample")),
        Column("servings", tr("Servings"), True),
        Column("servable", tr("Servable"), True),
        Column("raw", tr("Into the cook"), True),
        Column("start", tr("Starts")),
        Column("out", tr("Out")),
    )
    steps = (Column("when", tr("When")), Column("what", tr("What")), Column("sample", tr("Sample")))
    return Form(
        "cooking",
        tr("What to cook and when"),
        (
            FormGrid(
                tr("Weights and times"), columns, tuple(map(_unlinked, cooking_rows(view, result)))
            ),
            FormGrid(
                tr("From the first step to the tasting"),
                steps,
                tuple(map(_unlinked, timetable_rows(view, result))),
            ),
        ),
        subtitle=listed([sample.words for sample in result.samples]),
        reference=result.tasting.file,
    )
