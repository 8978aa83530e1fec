"""Who tasted: do they agree, how do they use the scale, and what they answered."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from builder.costing.tasting_results import AttributeResult, TastingResult
from builder.language import Deferred, tr, written
from builder.pages.components import Cell, Column, Row, Section, Table
from builder.pages.parts import paragraph, part
from builder.pages.tasting_pieces import UNKNOWN, finding_cell, sample_cell
from builder.pages.view import View
from builder.reading.names import slug
from builder.records.tasting_values import RANKS
from builder.tasting.agreement import TasterAgreement
from builder.tasting.panel_sentences import concordance_sentence, standing_sentence
from builder.tasting.scales import ScaleUse
from builder.tasting.wording import counted_once


def panel_part(view: View, result: TastingResult) -> Section:
    """Do tasters agree, who can't be told from chance, how is the scale used."""
    sentences = [
        sentence
        for found in result.attributes
        for sentence in (
            concordance_sentence(found.agreement, found.name),
            standing_sentence(found.panel, result.tasters),
        )
    ]
    tables = [_panel_table(view, result, found) for found in result.attributes]
    return part(
        "panel",
        tr("The panel"),
        paragraph(counted_once(sentences)),
        *tables,
        about=tr("Nobody is left out for answering oddly; all answers count as they are."),
    )


_USE = (
    Column("level", Deferred("Mean given"), numeric=True),
    Column("lowest", Deferred("Lowest"), numeric=True),
    Column("highest", Deferred("Highest"), numeric=True),
    Column("spread", Deferred("Spread"), numeric=True),
)
_OWN = Deferred(
    "chance that samples differ so among this taster's own repeated judgements if none differ"
)


def _panel_table(view: View, result: TastingResult, found: AttributeResult) -> Table:
    columns = (
        Column("taster", tr("Taster")),
        Column("agrees", tr("Agreement with the rest"), numeric=True, about=tr("−1 to 1")),
        Column("chance", tr("Chance"), about=tr("of agreeing as well at random")),
        Column("standing", tr("Standing")),
        *(_USE if found.use else ()),
        *([Column("repeats", tr("Beyond own scatter"), about=tr(_OWN))] if found.repeats else []),
    )
    uses = found.use or (None,) * len(result.tasters)
    rows = tuple(
        _panel_row(view, result, found, line, use)
        for line, use in zip(found.panel, uses, strict=True)
    )
    caption = tr("{found}: each taster, and how the scale is used", found=found.name.capitalize())
    return Table(f"panel-{slug(found.name)}", caption, columns, rows, sortable=True)


def _panel_row(
    view: View,
    result: TastingResult,
    found: AttributeResult,
    line: TasterAgreement,
    use: ScaleUse | None,
) -> Row:
    taster = result.tasters[line.taster]
    cell = partial(finding_cell, view, result, attribute=found.name, about=taster)
    return Row(
        (
            Cell(taster),
            *(cell(name, "agreement with the rest") for name in ("estimate", "p_value")),
            Cell(written(line.standing), note=_use_words(use)),
            *(cell(name, "scale") for name in ("estimate", "lowest", "highest", "spread") if use),
            *([cell("p_value", "own scatter")] if found.repeats else []),
        )
    )


def _use_words(use: ScaleUse | None) -> str:
    """What is odd about how a taster uses the scale."""
    return tr("only the ends of the scale") if use is not None and use.only_ends else ""


# The answers


def answers_part(view: View, result: TastingResult) -> Section:
    """Every answer as it was written, each with the way to its line."""
    rows = _choice_rows(view, result) if result.choice else _mark_rows(view, result)
    names = [] if result.choice else list(dict.fromkeys(m.attribute for m in result.ballots.marks))
    about_marks = tr("place given: 1 is the first") if result.tasting.test == RANKS else ""
    columns = (
        Column("taster", tr("Taster")),
        *([] if result.choice else [Column("sample", tr("Sample"))]),
        *(Column(slug(name), name.capitalize(), about=about_marks) for name in names),
        *(
            [Column("answer", tr("Answer")), Column("counts", tr("Counts as"))]
            if result.choice
            else []
        ),
    )
    body = tuple(rows)
    empty = tr("Only the number of correct answers was written down.")
    table = Table(
        "answers-table",
        tr("Answers"),
        columns,
        body,
        sortable=bool(body),
        filterable=len(body) > 12,
        empty=empty,
    )
    about = tr("By private code; each answer leads to its line.") if body else ""
    return part("answers", tr("The answers"), table, about=about)


def _mark_rows(view: View, result: TastingResult) -> Iterator[Row]:
    names = list(dict.fromkeys(mark.attribute for mark in result.ballots.marks))
    marks = {(m.taster, m.sample, m.attribute): m for m in result.ballots.marks}
    for number, taster in enumerate(result.tasters):
        for column, sample in enumerate(result.samples):
            found = [marks.get((taster, sample.name, name)) for name in names]
            if not any(found):
                continue
            cells = (
                Cell(
                    mark.text,
                    mark.value,
                    view.where.line_href(mark.place.file, mark.place.line),
                )
                if mark
                else Cell(UNKNOWN)
                for mark in found
            )
            yield Row((Cell(taster, number), sample_cell(result, column), *cells))


def _choice_rows(view: View, result: TastingResult) -> Iterator[Row]:
    choice = result.choice
    assert choice is not None
    first, second = result.words_of(choice.first), result.words_of(choice.second)
    two_sided = choice.protocol.two_sided
    words = (first, second) if two_sided else (tr("correct answer"), tr("wrong answer"))
    order = {str(taster): number for number, taster in enumerate(result.tasting.tasters)}
    for answer in result.ballots.choices:
        href = view.where.line_href(answer.place.file, answer.place.line)
        yield Row(
            (
                Cell(answer.taster, order[answer.taster]),
                Cell(answer.text, href=href),
                Cell(words[0] if answer.hit else words[1]),
            )
        )
