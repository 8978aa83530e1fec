"""Sheets to print: the log of a cook's core, and what has to be done before a service."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from builder.cooking.schedule import TimedStep
from builder.cooking.verdict import DEFERENCE
from builder.cooking.verdicts import MEASURE
from builder.costing.service_steps import COOK
from builder.costing.services import PlannedCook, ServicePlan
from builder.language import clauses, labelled, tr
from builder.pages.clash_notices import clash_problems
from builder.pages.components import (
    Cell,
    Column,
    Form,
    FormBlock,
    FormField,
    FormFields,
    FormGrid,
    FormLines,
    FormNote,
    FormTicks,
    Link,
    Page,
    Row,
)
from builder.pages.cook_heat import NO_AUTHORITY, verdict_of
from builder.pages.form_pieces import chunks, sheet_title, value
from builder.pages.labels import label_path
from builder.pages.moments import when
from builder.pages.parts import form_path, gear_name, page_of
from builder.pages.portions import all_words, counted_words, size_words
from builder.pages.schedule import days_before
from builder.pages.untimed import load_words, undated_items, undated_rows, unheld_words
from builder.pages.values import capital
from builder.pages.view import View
from builder.pages.warned import cook_warnings, uncooked_words
from builder.pages.ways import way_words
from builder.records.kinds import Cook, Plate, Service

_LOG_ROWS = 16
# With cooling on the same sheet.
_ROWS_ABOVE, _COOLING_ROWS = 10, 7
_STARTS_A_SHEET, _SMALL_STARTS = 24, 40
# However much is said over them.
_FEWEST_STARTS = 6
# Lines over the starts that a sheet has room for beside so many of these.
_HEAD_LINES = 3


def log_page(view: View, cook: Cook) -> Page:
    """The log sheet of a cook."""
    forms = [_core_log(view, cook)]
    if cook.cool is not None:
        # One sheet of paper goes along with the batch.
        forms = [replace(forms[0], half="above"), _cooling_log(view, cook)]
    return Page(
        path=form_path(cook.id, "log"),
        title=tr("Log sheet, {cook}", cook=cook.title),
        lead=tr("Time, core and initials, from the cold start to the end of the hold."),
        kind=tr("Form"),
        crumbs=(Link(tr("Cooks"), "~/cooks.html"), Link(cook.title, f"~/{page_of(cook)}")),
        nav="~/cooks.html",
        sections=tuple(forms),
        sheet=True,
    )


def _core_log(view: View, cook: Cook) -> Form:
    row = view.costed.rows.cooks[cook.id]
    fields = FormFields(
        (
            FormField(tr("Date"), width="quarter"),
            FormField(tr("Batch"), width="quarter"),
            FormField(tr("Equipment"), gear_name(view, cook.equipment or ""), width="quarter"),
            FormField(
                tr("Set to"), value(view, ("batch", "cook_temperature", row)), width="quarter"
            ),
            FormField(tr("Probe no., calibrated on")),
            FormField(tr("Planned time"), value(view, ("batch", "cook_hours", row))),
        )
    )
    reported = [FormNote(text, strong=True) for text in cook_warnings(view, cook)]
    # What is reported over the lines takes the room of two of them.
    lines = _LOG_ROWS if cook.cool is None else max(4, _ROWS_ABOVE - 2 * len(reported))
    grid = FormGrid(tr("Core of the thickest piece"), _log_columns(), (), lines)
    blocks: list[FormBlock] = [fields, *reported, FormNote(_threshold(view, cook)), grid]
    blocks += [FormFields((FormField(tr("Checked by")), FormField(tr("Date"))))]
    return Form(
        "core-log",
        tr("Log of the core"),
        tuple(blocks),
        cook.title,
        _reference(view),
    )


def _log_columns() -> tuple[Column, ...]:
    return (
        Column("time", tr("Time of day")),
        Column("core", tr("Core"), numeric=True),
        Column("around", tr("Bath or oven"), numeric=True),
        Column("initials", tr("Initials")),
        Column("remark", tr("Remark")),
    )


def _reference(view: View) -> str:
    rules = view.costed.heat.rule_set
    return rules.name if rules else tr("no authority named")


def _no_cooling(view: View) -> str:
    rules = view.costed.heat.rule_set
    return tr("{rules} has no clause here", rules=rules.name) if rules else tr("no authority named")


def _threshold(view: View, cook: Cook) -> str:
    """The rule's threshold that the log has to show, and what the words of it are worth."""
    verdict = verdict_of(view, cook)
    if verdict is None:
        return tr("There is {no_authority}.", no_authority=NO_AUTHORITY)
    tail = f"{capital(tr(DEFERENCE))}."
    if verdict.target is None or verdict.surface or verdict.forbidden_by:
        if not verdict.modelled:
            return tr(
                "The plan {sentence}. {measure}{measure2}.",
                sentence=verdict.sentence,
                measure=tr(MEASURE)[0].upper(),
                measure2=tr(MEASURE)[1:],
            )
        if verdict.waits_for:
            return tr("The plan {sentence}.", sentence=verdict.sentence)
        if verdict.surface and verdict.asks:
            return tr(
                "To show: {asks} ({rule_set}, {clause}). {tail}",
                asks=clauses(map(tr, verdict.asks)),
                rule_set=verdict.rule_set.name,
                clause=verdict.clause,
                tail=tail,
            )
        return tr(
            "The plan {outcome} {rule_set}. {tail}",
            outcome=tr(verdict.outcome.value),
            rule_set=verdict.rule_set.name,
            tail=tail,
        )
    row = verdict.target.row
    held = (
        tr("and stays there for {printed_hold}", printed_hold=row.printed_hold)
        if row.hold_s
        else tr("at least once")
    )
    return tr(
        "To show: the core is at {printed} or above {held} ({rule_set}, {clause}). {tail}",
        printed=row.printed_core,
        held=held,
        rule_set=verdict.rule_set.name,
        clause=verdict.target.table.clause,
        tail=tail,
    )


def _cooling_log(view: View, cook: Cook) -> Form:
    rules, style = view.costed.heat.rule_set, view.style
    limits = [
        tr(
            "{from_c} to {to_c} within {within_min}",
            from_c=style.temperature(stage.from_c),
            to_c=style.temperature(stage.to_c),
            within_min=style.duration(stage.within_min / 60),
        )
        for stage in (rules.cooling.stages if rules and rules.cooling else ())
    ]
    words = (
        tr(
            "Limits of {rules} ({clause}): {limits}.",
            rules=rules.name,
            clause=rules.cooling.clause,
            limits=clauses(map(tr, limits)),
        )
        if rules and rules.cooling
        else tr(
            "Limits of cooling: {no_cooling}; local code decides.", no_cooling=_no_cooling(view)
        )
    )
    where = way_words(cook.cool.in_ or "") if cook.cool else ""
    return Form(
        "cooling-log",
        tr("Log of cooling"),
        (
            FormFields((FormField(tr("Date")), FormField(tr("Cooled in"), where))),
            FormNote(words),
            FormGrid(tr("Core of the thickest piece"), _log_columns(), (), _COOLING_ROWS),
            FormFields((FormField(tr("Labelled, use by")), FormField(tr("Initials")))),
        ),
        cook.title,
        _reference(view),
        half="below",
    )


def prep_page(view: View, plan: ServicePlan) -> Page:
    """The prep sheet of a service."""
    service = plan.service
    return Page(
        path=form_path(service.id, "prep"),
        title=tr("Prep sheet, {service}", service=service.title),
        lead=tr("Every start in its order, then what has none given, to tick off."),
        kind=tr("Form"),
        crumbs=(
            Link(tr("Schedule"), "~/schedule.html"),
            Link(service.title, f"~/{page_of(service)}"),
            Link(tr("Labels"), f"~/{label_path(service)}"),
        ),
        nav="~/schedule.html",
        sections=tuple(_prep_forms(view, plan)),
        sheet=True,
    )


def _prep_forms(view: View, plan: ServicePlan) -> Iterator[Form]:
    columns = (
        Column("when", tr("Start")),
        Column("what", tr("What")),
        Column("load", tr("Load")),
        Column("initials", tr("Initials")),
    )
    rows = tuple(
        Row(
            (
                Cell(when(view.style, step.start) + days_before(step.start, plan.at)),
                Cell(start_words(view, step, planned)),
                Cell(start_load(view, step, planned)),
                Cell(""),
            )
        )
        for step, planned in plan.starts()
    )
    rows += undated_rows(view, plan)
    head = _prep_head(view, plan)
    rest = undated_ticks(undated_items(view, plan))
    taken = max(_lines_of(head) - _HEAD_LINES, 0) + room_of(rest)
    small, sheets = starts_by_sheet(rows, (_STARTS_A_SHEET, _SMALL_STARTS), taken)
    for number, sheet in enumerate(sheets, start=1):
        last = rest if number == len(sheets) else ()
        yield Form(
            f"prep-{number}",
            sheet_title(tr("Prep sheet"), number, len(sheets)),
            (*head, *starts_blocks(columns, sheet, last, small=small)),
            plan.service.title,
            close=small,
        )


def start_words(view: View, step: TimedStep, planned: PlannedCook | None) -> str:
    """What is started, with the equipment that it takes."""
    if planned is None:
        return capital(tr(step.step.name))
    words = labelled(planned.cook.title, tr(step.step.name))
    gear = step.step.equipment
    return f"{words}, {gear_name(view, gear)}" if gear else words


def start_load(view: View, step: TimedStep, planned: PlannedCook | None) -> str:
    """What is cooked in this step; empty where it cooks nothing."""
    return load_words(view, planned) if planned and step.step.name == COOK else ""


def _lines_of(head: tuple[FormBlock, ...]) -> int:
    """Lines of a sheet that what is served and what is warned of take."""
    ticks = sum(len(block.items) for block in head if isinstance(block, FormTicks))
    notes = [len(block.text) for block in head if isinstance(block, FormNote)]
    return math.ceil(ticks / 2 + sum(length // 105 + 1.5 for length in notes))


def _with_portions(view: View, plate: Plate) -> str:
    """A plate with what the cooks' rows don't say: several portions, pieces, what is uncooked."""
    if plate.further:
        return labelled(plate.title, all_words(view, plate))
    main = size_words(view, plate.served[0]) if plate.cut or counted_words(plate.portion) else ""
    return ", ".join(filter(None, (plate.title, main)))


def plan_warnings(view: View, *services: Service, day: int | None = None) -> Iterator[str]:
    """What is wrong with the plans themselves: who follows their starts has no page beside them.

    A clash of several services is said once. day: of the week, Monday 0; only what is about its
    starts.
    """
    own = (
        problem
        for service in services
        for problem in view.by_record.get(service.path, ())
        if problem.record == service.path
    )
    for problem in (*clash_problems(view, *services), *own):
        if day is None or problem.days is None or day in problem.days:
            # A clock time of twelve hours brings its own point.
            yield f"{view.own(problem).text.removesuffix('.')}."


def _prep_head(view: View, plan: ServicePlan) -> tuple[FormBlock, ...]:
    content = view.costed.content
    served = tuple(
        f"{serving.covers.text} × {_with_portions(view, content.plates[name])}"
        for name, serving in plan.service.plates.items()
    )
    cooks = {planned.cook.id: planned.cook for planned in plan.cooks}
    reported = [text for cook in cooks.values() for text in cook_warnings(view, cook, plan.service)]
    reported += uncooked_words(view, (content.plates[name] for name in plan.service.plates))
    reported = [*plan_warnings(view, plan.service), *reported]
    return (
        FormFields((FormField(tr("Date")), FormField(tr("Served"), when(view.style, plan.at)))),
        FormTicks(tr("On the menu"), served),
        *(FormNote(text, strong=True) for text in reported),
        *(FormNote(text) for text in (unheld_words(view, plan),) if text),
    )


def starts_by_sheet(
    rows: Sequence[Row], room: tuple[int, int], taken: int
) -> tuple[bool, list[tuple[Row, ...]]]:
    """Whether starts take the small print, and the starts of each sheet.

    `room` is how many a sheet has room for, as usual and small; `taken` the rows that words above
    them take, which leave a few however many they are.
    """
    usual, smallest = room
    small = len(rows) > usual - taken
    most = max((smallest if small else usual) - taken, _FEWEST_STARTS)
    return small, list(chunks(rows, most))


def undated_ticks(items: Iterable[str]) -> tuple[FormTicks, ...]:
    """What is to be done at no given start, to tick off; nothing where there is nothing."""
    found = tuple(items)
    return (FormTicks(tr("To do, no start given"), found),) if found else ()


def room_of(ticks: tuple[FormTicks, ...]) -> int:
    """Rows of starts that boxes to tick take the room of, three of them in a line."""
    return sum(1 + math.ceil(len(each.items) / 3) for each in ticks)


def starts_blocks(
    columns: tuple[Column, ...], rows: tuple[Row, ...], rest: tuple[FormTicks, ...], *, small: bool
) -> tuple[FormBlock, ...]:
    """The starts with room for initials, the rest to do, then room for remarks."""
    grid = FormGrid(tr("Starts in their order"), columns, rows, small="print" if small else "")
    return (grid, *rest, FormLines(tr("Remarks"), 2))
