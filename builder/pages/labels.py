"""Labels to print and cut out: name, made, use by, allergens, initials; several a sheet."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import timedelta

from builder.cooking.verdict import Outcome
from builder.costing.service_steps import COOK
from builder.costing.services import PlannedCook, ServicePlan
from builder.display.rounded_sizes import lasting
from builder.language import Deferred, tr
from builder.pages.allergens import ALL_STATED
from builder.pages.components import Form, FormLabels, FormNote, Link, Page, PaperLabel
from builder.pages.form_pieces import MOST_LABELS, chunks, sheet_key, sheet_title
from builder.pages.found_once import contained_in
from builder.pages.keeping import KITCHEN_STATES
from builder.pages.moments import when
from builder.pages.parts import form_path, page_of
from builder.pages.view import View
from builder.records.contained import in_words
from builder.records.kinds import Cook, PantryItem, Plate
from builder.records.services import Service

A_SHEET, A_SHEET_LONG = MOST_LABELS, 6
# Lines of small print that the lowest label has room for, and letters of one that always fit.
_LINES, _LETTERS = 5, 50
_UNKNOWN = Deferred("Not every part states its allergens: ask before it is served.")
_NOTE = Deferred(
    "Write what is blank by hand, and check the allergens against today's "
    "deliveries. Local code decides what a label says and how long food is "
    "kept."
)
Labelled = Cook | PantryItem


def label_path(record: Labelled | Service) -> str:
    """The page of a record's labels."""
    return form_path(record.path, "labels")


def label_pages(view: View, record: Labelled) -> Iterator[Page]:
    """A sheet of labels for a cook or a sub-recipe; none for what is bought."""
    if isinstance(record, PantryItem) and not record.of:
        return
    one = _label(view, record)
    listed = "~/cooks.html" if isinstance(record, Cook) else "~/pantry.html"
    yield _page(
        record, tr("Labels: {record}", record=record.title), [one] * _a_sheet([one]), listed
    )


def service_label_page(view: View, plan: ServicePlan) -> Page:
    """Labels for a service: each cook a label a piece, each sub-recipe of its plates one."""
    content = view.costed.content
    found = [label for planned in plan.cooks for label in _of_cook(view, plan, planned)]
    plates = (content.plates[name] for name in plan.service.plates)
    items = dict.fromkeys(str(name) for plate in plates for name in plate.with_)
    found += [_label(view, content.pantry[name]) for name in items if content.pantry[name].of]
    title = tr("Labels: {service}", service=plan.service.title)
    return _page(plan.service, title, found, "~/schedule.html")


def _page(record: Labelled | Service, title: str, labels: list[PaperLabel], listed: str) -> Page:
    sheets = list(chunks(labels, _a_sheet(labels)))
    forms = tuple(
        Form(
            sheet_key("labels", number),
            sheet_title(title, number, len(sheets)),
            (FormLabels(sheet), FormNote(tr(_NOTE))),
            reference=record.file,
            close=True,
        )
        for number, sheet in enumerate(sheets, start=1)
    )
    return Page(
        path=label_path(record),
        title=title,
        lead=tr("To cut out along the dashes; a sheet prints on one page of A4 or Letter."),
        kind=tr("Form"),
        crumbs=(Link(record.title, f"~/{page_of(record)}"),),
        nav=listed,
        sections=forms,
        sheet=True,
    )


def _a_sheet(labels: list[PaperLabel]) -> int:
    """How many labels a sheet has: fewer of those with much print."""
    most = max((_lines(each) for each in labels), default=0)
    return A_SHEET if most <= _LINES else A_SHEET_LONG


def _lines(label: PaperLabel) -> int:
    """How many lines its small print takes at the most."""
    return sum(math.ceil(len(note) / _LETTERS) for note in label.notes)


def _of_cook(view: View, plan: ServicePlan, planned: PlannedCook) -> Iterator[PaperLabel]:
    """A label for each piece, a sheet of them at the most, dated where the hours are known."""
    cook = planned.cook
    done = [step.end for step in planned.steps if step.step.name == COOK and planned.is_timed]
    made, use_by = "", ""
    if done:
        end = plan.by_the_clock(done[0])
        made = when(view.style, end)
        if cook.store is not None and not _fails_storing(view, cook):
            last = end + timedelta(hours=cook.store.for_.value)
            days = (last.date() - end.date()).days
            use_by = when(view.style, last) + (
                tr(", {days} days on", days=days) if days > 1 else ""
            )
    for _ in range(min(max(planned.pieces, 1), MOST_LABELS)):
        yield _label(view, cook, made, use_by)


def _label(view: View, record: Labelled, made: str = "", use_by: str = "") -> PaperLabel:
    fields = ((tr("Made"), made), (tr("Use by"), use_by), (tr("Initials"), ""))
    return PaperLabel(record.title, fields, tuple(_small_print(view, record)))


def _fails_storing(view: View, record: Labelled) -> str:
    """The clause that the keeping of a cook does not meet; empty where there is none."""
    if not isinstance(record, Cook):
        return ""
    verdict = view.costed.heat.storing(record, view.costed.content.cuts[record.cut])
    fails = verdict is not None and verdict.outcome is Outcome.DOES_NOT_MEET
    return verdict.clause if verdict and fails else ""


def _small_print(view: View, record: Labelled) -> Iterator[str]:
    """How it is kept, where that is stated, then its allergens."""
    style = view.style
    if record.store is not None:
        at = style.temperature(record.store.at.value)
        lasts = lasting(style, record.store.for_.value)
        yield tr(
            "Keep at {at}, at most {lasts}: {source}.",
            at=at,
            lasts=lasts,
            source=record.store.source or tr(KITCHEN_STATES),
        )
        if clause := _fails_storing(view, record):
            yield tr("Kept so it does not meet {clause}.", clause=clause)
    yield from allergen_lines(view, record)


def allergen_lines(view: View, record: Labelled | Plate) -> Iterator[str]:
    """What is known of a record's allergens, a sentence each; of a cook, of its cut."""
    content = view.costed.content
    found = contained_in(view, content.cuts[record.cut] if isinstance(record, Cook) else record)
    if found.contains:
        yield tr("Contains {in_words}.", in_words=in_words(found.contains, found.rows))
    if found.may:
        yield tr("May contain {in_words}.", in_words=in_words(found.may, found.rows))
    if found.unstated:
        yield tr(_UNKNOWN)
    elif not found.contains:
        yield tr(ALL_STATED)
