"""Which cut to try next: candidates ranked as challengers of a benchmark, and how to try each."""

from __future__ import annotations

import math

from markupsafe import Markup

from builder.costing.actions import worth_of_action
from builder.costing.trial_files import trial_files
from builder.costing.trials import Trial
from builder.language import Deferred, ntr, tr
from builder.pages.components import Cell, Column, Copyable, Page, Part, Prose, Row, Section, Table
from builder.pages.figure_names import CandidateFigure
from builder.pages.how_sure import how_sure_part
from builder.pages.interval_words import between
from builder.pages.parts import (
    links,
    part,
    present,
    record_cell,
    record_link,
)
from builder.pages.trial_words import (
    durations_words,
    evidence_table,
    not_known,
    piece_words,
    tenderness_cell,
)
from builder.pages.tries import candidate_tries, tries
from builder.pages.unknown import IN_DOUBT, plate_doubt
from builder.pages.view import CandidateRow, View
from builder.records.listed import TRY_NEXT

PATH = f"{TRY_NEXT}.html"
TITLE = Deferred("Which cut to try next")
_NAV = "~/cuts.html"
_HOW_TO = Deferred(
    "Name a plate in a cut's file, such as candidate: ribeye-steak, or in "
    "the column candidate of a price list, with its muscle, and the cut is "
    "ranked here."
)


def try_next_page(view: View) -> Page:
    """The candidates, the one worth most first."""
    found = ranked(view)
    lead, *also = _answer(view, found)
    return Page(
        path=PATH,
        title=tr(TITLE),
        lead=lead,
        also=tuple(also),
        nav=_NAV,
        sections=present(
            view.notices(TRY_NEXT),
            _table(view, found) if found else None,
            tries(candidate_tries(view, [trial.cut for trial in found])),
            *(_trial_part(view, trial) for trial in found),
        ),
    )


def ranked(view: View) -> list[Trial]:
    """Trials by what they may save a month times the chance of it, in doubt or not known last."""
    return sorted(view.costed.candidates.trials, key=lambda trial: _order(view, trial))


def _order(view: View, trial: Trial) -> tuple[bool, float, float]:
    saving, month, chance = view.candidate(trial.cut).numbers(
        "portion_saving", "candidate_saving_a_month", "chance_saves"
    )
    last = math.isnan(saving) or bool(plate_doubt(view, trial.benchmark))
    worth = 0.0 if math.isnan(month) else _worth(month, chance)
    return last, -worth, 0.0 if math.isnan(saving) else -saving


def _worth(money: float, chance: float) -> float:
    """A saving counts as often as it comes; what costs more counts in full."""
    return worth_of_action(money, chance) if money > 0 else money


def _answer(view: View, found: list[Trial]) -> list[str]:
    if not found:
        return [tr("No cut is named as a candidate yet. {how_to}", how_to=_HOW_TO)]
    first = found[0]
    row, name = view.candidate(first.cut), first.cut.title
    if not row.known("portion_saving"):
        return [
            tr(
                "What {name} would cost is not known yet; its part below says what is missing.",
                name=name,
            )
        ]
    if doubt := plate_doubt(view, first.benchmark):
        return [tr("What {name} would save is in doubt: {doubt}.", name=name, doubt=doubt)]
    if row.as_read("portion_saving") <= 0:
        return [
            tr("By published yields no candidate costs less a portion than what it would replace.")
        ]
    saves, cost = row.text("portion_saving"), row.text("portion_cost")
    return [
        tr(
            "Try {name} next, in the place of {benchmark}.",
            name=name,
            benchmark=first.benchmark.title,
        ),
        tr(
            "A portion should cost {cost} and save {saves}, by published yields. {tender}",
            cost=cost,
            saves=saves,
            tender=_tender(first),
        ),
    ]


def _tender(trial: Trial) -> str:
    if trial.muscle is None:
        return tr("How tender it is: not known.")
    return tr("Its muscle is published as {grade}.", grade=trial.muscle.grade)


def _table(view: View, found: list[Trial]) -> Table:
    columns = (
        Column("cut", tr("Cut")),
        Column(
            "month", tr("A month"), numeric=True, about=tr("if as many are sold at the same price")
        ),
        Column("for", tr("In the place of")),
        Column("price", tr("AP price"), numeric=True),
        Column(
            "cost",
            tr("A portion costs"),
            numeric=True,
            about=tr(
                "as large as the benchmark's, with the work, energy and equipment of its "
                "cook; sides and plating stay as they are"
            ),
        ),
        Column(
            "saves",
            tr("It saves"),
            numeric=True,
            about=tr("against the benchmark's portion and cook"),
        ),
        Column("chance", tr("How sure")),
        Column("limit", tr("Up to"), numeric=True, about=tr("AP price at which it saves nothing")),
        Column(
            "tender",
            tr("Tenderness"),
            about=tr("published shear force of the muscle; less is tender"),
        ),
        Column("piece", tr("Piece")),
        Column(
            "bath",
            tr("Bath a portion"),
            numeric=True,
            about=tr("hours of the bath, in a full load"),
        ),
    )
    body = tuple(_row(view, trial) for trial in found)
    return Table(
        "candidates",
        tr("Candidates, the most money a month times its chance first"),
        columns,
        body,
        sortable=len(body) > 1,
        about=tr(
            "Costs are by weight and of the middle duration. Nobody has weighed these cooks yet."
        ),
    )


def _row(view: View, trial: Trial) -> Row:
    row, doubt = view.candidate(trial.cut), plate_doubt(view, trial.benchmark)
    name = trial.cut.title
    return Row(
        (
            Cell(name, sort=name.lower(), href=f"#{trial.cut.id}"),
            row.cell("candidate_saving_a_month"),
            record_cell(trial.benchmark, note=tr(IN_DOUBT) if doubt else ""),
            row.cell("ap_price"),
            _near_cell(row, "portion_cost"),
            _near_cell(row, "portion_saving"),
            *row.cells("chance_saves", "ap_price_that_saves_nothing"),
            tenderness_cell(view, trial),
            Cell(piece_words(view, trial)),
            row.cell("bath_hours_per_portion"),
        )
    )


def _near_cell(row: CandidateRow, figure: CandidateFigure) -> Cell:
    """A figure no finer than its interval, which is below it."""
    return row.cell(figure, note=between(row, figure))


def _trial_part(view: View, trial: Trial) -> Part:
    row, label = view.candidate(trial.cut), tr("the saving with {cut}", cut=trial.cut.title)
    return part(
        trial.cut.id,
        trial.cut.title,
        _ways(trial),
        evidence_table(view, trial),
        _bullets(tr("What is not known"), not_known(view, trial)),
        how_sure_part(view, row, "portion_saving", label, trial.cut),
        _files(trial),
        about=durations_words(view, trial),
    )


def _ways(trial: Trial) -> Section:
    """The pages of what the trial leans on."""
    records = [record_link(trial.benchmark, tr("the benchmark"))]
    if trial.like:
        records.append(record_link(trial.like, tr("the kitchen's own cook that is most like it")))
    if trial.has_file:
        records.insert(0, record_link(trial.cut, tr("the cut")))
    return links(tr("Pages behind {cut}", cut=trial.cut.title), records)


def _bullets(title: str, lines: list[str]) -> Section:
    items = Markup("").join(Markup("<li>{}</li>").format(line) for line in lines)
    return Prose(Markup("<p>{}:</p><ul>{}</ul>").format(title, items))


def _files(trial: Trial) -> Copyable:
    files = tuple(trial_files(trial).items())
    label = tr(
        "The trial of {cut}: {files} to write",
        cut=trial.cut.title,
        files=ntr("{count} file", "{count} files", len(files)),
    )
    return Copyable(f"{trial.cut.id}-files", label, files)
