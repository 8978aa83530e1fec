"""What a cook, a sub-recipe or a plate takes step by step, and all of it made to another size."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from builder.costing.scale_rows import ScaledRow
from builder.language import Deferred, tr
from builder.pages.anchors import anchor
from builder.pages.components import (
    Cell,
    Column,
    Link,
    Part,
    Row,
    StepLine,
    StepList,
    Table,
    Tries,
    TryLine,
)
from builder.pages.parts import form_path, links, part, picture_path
from builder.pages.view import FigureRow, ScaledAmountRow, View
from builder.reading.pictures import picture_of
from builder.records.fields import Measure
from builder.records.kinds import Cook, Plate
from builder.records.notes import picture_file
from builder.records.step_checks import Stepped, parts_of_recipe
from builder.records.steps import Picture, Step

ANOTHER = Deferred("Make another amount: by portions, by weight, or by what is there")
_HOW = Deferred(
    "Write one amount, and every other follows. Write several, and what runs "
    "out first decides. Times and temperatures stay: a thicker piece is "
    "another cook, and a larger batch goes in loads."
)


def steps_part(view: View, record: Stepped) -> Part | Tries | None:
    """The steps of a record, with the strip that makes any amount; that alone without steps."""
    strip = another_amount(view, record)
    if not record.steps:
        return strip
    title = tr("Plating") if isinstance(record, Plate) else tr("Step by step")
    sheet = Link(tr("Spec sheet"), f"~/{spec_path(record)}", tr("one page to print"))
    sections = (strip, step_list(view, record), links(tr("Printed forms"), [sheet]))
    return part("steps", title, *sections, about=_for(view, record))


def spec_path(record: Stepped) -> str:
    """The page of a record's spec sheet."""
    return form_path(record.path, "spec")


def step_list(view: View, record: Stepped) -> StepList:
    """The steps as lines."""
    lines = tuple(
        StepLine(
            str(step.what),
            facts_of(view, step),
            tuple(amounts_of(view, record, number)),
            str(step.caution or ""),
            picture_html(view, step.picture) if step.picture else None,
            str(step.picture.shows) if step.picture else "",
        )
        for number, step in enumerate(record.steps, start=1)
    )
    return StepList(lines, tr("Steps of {record}", record=record.title))


def _for(view: View, record: Stepped) -> str:
    """What the amounts of the steps are for, as a figure that follows what is made."""
    if not any(step.amounts for step in record.steps):
        return ""
    return Markup(tr("Amounts for {}.")).format(made_words(view, record))


def made_words(view: View, record: Stepped) -> Markup:
    """What all amounts of a record are for: into the cook, portions, or what a recipe makes."""
    words = {Plate: tr("portions: {}"), Cook: tr("{} into the cook")}.get(type(record), "{}")
    return Markup(words).format(made_amount(view, record))


def made_amount(view: View, record: Stepped) -> str:
    """How much of a record its amounts are for."""
    rows = view.costed.rows.scaling.amounts[record.path]
    # A cook's first amount is what is bought for it.
    return scaled(view, rows[1 if isinstance(record, Cook) else 0].row).traced("scaled_amount")


def facts_of(view: View, step: Step) -> tuple[str, ...]:
    """Time and temperature of a step, with the way to their lines; none where not granted."""
    if not view.grants("cooking"):
        return ()
    style = view.style
    found = (
        (step.for_, style.duration(step.for_.value) if step.for_ else ""),
        (step.at, style.temperature(step.at.value) if step.at else ""),
    )
    return tuple(_at_line(view, measure, text) for measure, text in found if measure)


def _at_line(view: View, measure: Measure, text: str) -> str:
    href = view.where.line_href(measure.place.file, measure.place.line)
    return anchor(href, text) if href else text


def amounts_of(view: View, record: Stepped, number: int) -> Iterator[tuple[str, str]]:
    """What goes in at a step, by name, each with its amount."""
    parts = parts_of_recipe(view.costed.content, record)
    for name in record.steps[number - 1].amounts:
        row = view.costed.rows.scaling.in_steps[record.path, number, str(name)]
        yield parts[str(name)][0].title, scaled(view, row).traced("scaled_amount")


def scaled(view: View, row: int) -> ScaledAmountRow:
    """The figures of an amount."""
    return FigureRow(view, "scaled", row)


def picture_html(view: View, picture: Picture) -> Markup:
    """A step's picture, its room kept while it loads."""
    file = picture_file(view.costed.content, picture.file)
    if file is None:
        return Markup()
    found = picture_of(file)
    html = '<img src="~/{}" alt="{}" width="{}" height="{}" loading="lazy">'
    return Markup(html).format(picture_path(file), picture.shows, found.width, found.height)


# Another size


def another_amount(view: View, record: Stepped) -> Tries | None:
    """Every amount of a record, each to be asked for, and what all become."""
    rows = view.costed.rows.scaling.amounts.get(record.path, [])
    shown = [each for each in rows if scaled(view, each.row).known("own_amount")]
    if not shown:
        return None
    lines = tuple(_line(view, each) for each in shown)
    return Tries(lines, tr(ANOTHER), _table(view, record, shown))


def _line(view: View, each: ScaledRow) -> TryLine:
    row = scaled(view, each.row)
    return TryLine(each.label, row.name("wanted_amount"), row.name("scaled_amount"))


def _table(view: View, record: Stepped, rows: list[ScaledRow]) -> Table:
    columns = (
        Column("what", tr("What")),
        Column("made", tr("To make"), numeric=True),
    )
    body = tuple(
        Row(
            (
                Cell(each.label, href=f"~/{each.record}.html" if each.record else ""),
                scaled(view, each.row).cell("scaled_amount"),
            )
        )
        for each in rows
    )
    scale = view.costed.rows.scaling.scales[record.path]
    times = view.cell("scale", "batch_factor", scale)
    total = Row((Cell(tr("Times the amount written")), times), "total")
    caption = tr("{record}, made to size", record=record.title)
    return Table("made-to-size", caption, columns, body, (total,), about=tr(_HOW))
