"""What is said of a trial: tenderness, piece, durations, evidence, and what nobody knows yet."""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.costing.trials import USUAL_AT, USUAL_WAY, Likeness, Published, Trial
from builder.data.muscles import Muscle, ShearForce
from builder.display.words import listed
from builder.pages.components import Cell, Column, Row, Table
from builder.pages.marks import in_style
from builder.pages.muscles_page import muscle_href
from builder.pages.parts import number_of
from builder.pages.values import measured
from builder.pages.view import View

_NONE = "–"


def tenderness_cell(view: View, trial: Trial) -> Cell:
    """The grade of the muscle with its published shear force, sorted by the middle of that."""
    if trial.muscle is None:
        return Cell(_NONE)
    force = trial.muscle.shear_forces[0]
    ends = [end for end in (force.low, force.high) if not math.isnan(end)]
    words = f"{trial.muscle.grade}, {_kilograms(view, force)}"
    return Cell(words, sum(ends) / len(ends), muscle_href(trial.muscle))


def _kilograms(view: View, force: ShearForce) -> str:
    """A shear force in kilograms, as its source gives it, in the kitchen's numerals."""
    low, high = (view.style.number(end, 1) for end in (force.low, force.high))
    if math.isnan(force.low):
        return f"below {high} kg"
    return f"above {low} kg" if math.isnan(force.high) else f"{low} to {high} kg"


def piece_words(view: View, trial: Trial) -> str:
    """Shape and thickness as far as they are written."""
    candidate = trial.cut.candidate
    thickness = candidate.thickness if candidate else None
    words = [str(candidate.shape)] if candidate and candidate.shape else []
    if thickness is not None:
        words.append(measured(view.style, thickness))
    return ", ".join(words) or _NONE


def durations_words(view: View, trial: Trial) -> str:
    """The first durations to cook and taste, and where they come from."""
    hours = listed([view.style.duration(each) for each in trial.hours])
    at = trial.like.at.text if trial.like and trial.like.at else USUAL_AT
    how = str(trial.like.how) if trial.like else USUAL_WAY
    if trial.tasting and trial.likeness is Likeness.MUSCLE:
        why = f"as in {trial.tasting.title}, which tasted the same muscle"
    elif trial.tasting:
        why = f"as in {trial.tasting.title}, which tasted a muscle of the same grade"
    else:
        why = "common practice, no published source: the kitchen has tasted no muscle like it"
    return f"Cook and taste first: {hours}, {how}, {at} ({why})."


def evidence_table(view: View, trial: Trial) -> Table:
    """Each figure that the trial rests on, with its source and how far that was read."""
    columns = (
        Column("what", "What"),
        Column("value", "Figure", numeric=True),
        Column("source", "Where it comes from"),
        Column("status", "How far read"),
    )
    return Table(
        f"{trial.cut.id}-evidence",
        f"What is known of {trial.cut.title}",
        columns,
        tuple(_evidence(view, trial)),
        empty="Nothing is published or weighed of it.",
    )


def _evidence(view: View, trial: Trial) -> Iterator[Row]:
    yield from _yields(view, trial)
    if (muscle := trial.muscle) is not None:
        yield from (_force(view, muscle, force) for force in muscle.shear_forces)
    row = view.candidate(trial.cut)
    if row.known("time_to_core"):
        model = f"heat model, {piece_words(view, trial)}"
        yield _line("Until the core is near the bath", row.cell("time_to_core"), model, "estimate")


def _yields(view: View, trial: Trial) -> Iterator[Row]:
    """What trimming and cooking leave, and the kitchen's own cook beside it."""
    row = view.candidate(trial.cut)
    if trial.trim is not None:
        others = number_of(trial.trim.count, f"other {trial.cut.species} cut")
        source, status = f"mean of {others} of this kitchen", "as weighed here, or stated"
        yield _line("Left after trim", row.cell("trim_left"), source, status)
    elif trial.has_file:
        yield _line("Left after trim", row.cell("trim_left"), "its own file", _NONE)
    if trial.published is not None:
        yield _published(view, trial, trial.published)
    if trial.like is not None:
        title = f"Left after {trial.like.title}, for comparison"
        status = "weighed here" if trial.like.tests else "as its file says"
        own = view.batch(trial.like).cell("cook_yield")
        yield _line(title, own, f"this kitchen; {trial.likeness}", status)


def _published(view: View, trial: Trial, found: Published) -> Row:
    words = [f"SD {view.style.percent(found.deviation)}"] if found.deviation >= 0 else []
    words += [number_of(found.samples, "sample")] if found.samples else []
    cell = view.candidate(trial.cut).cell("published_cook_yield", note=", ".join(words))
    source = found.source if found.words == found.source else f"{found.words}; {found.source}"
    return _line("Left after cook", cell, source, found.status)


def _force(view: View, muscle: Muscle, force: ShearForce) -> Row:
    cell = Cell(in_style(force.published, view.style), href=muscle_href(muscle))
    return _line(f"Shear force of {muscle.name}", cell, force.source, force.status)


def _line(what: str, value: Cell, source: str, status: str) -> Row:
    return Row((Cell(what), value, Cell(source), Cell(status)))


def not_known(view: View, trial: Trial) -> list[str]:
    """What the figures leave open, the most important first."""
    return [*_money_gaps(view, trial), *_yield_gaps(view, trial), *_other_gaps(trial)]


def _money_gaps(view: View, trial: Trial) -> Iterator[str]:
    row = view.candidate(trial.cut)
    if not row.known("ap_price"):
        yield "Its price on this day."
    if not row.known("portion_cost_low"):
        yield "How far its cost may lie off: nothing says so of its price or its yields."
    if trial.like is None:
        yield "Work, energy and equipment of its cook: the kitchen has no water-bath cook like it."
    if not row.known("monthly_count"):
        yield f"How many {trial.benchmark.title} sell, so no saving a month."


def _yield_gaps(view: View, trial: Trial) -> Iterator[str]:
    if trial.trim is not None:
        yield "What trimming leaves of it: other cuts stand in. Trim one piece and weigh it."
    elif not (trial.cut.trim and trial.cut.trim.has_figure):
        yield "What trimming leaves of it: it is counted as no loss. Trim one piece and weigh it."
    found = trial.published
    if found is None:
        yield "What a cook leaves of it. Name a published yield, or its muscle."
        return
    middle = view.style.duration(trial.middle)
    yield (
        f"What {middle} leave of it: the published yield is of another way of cooking "
        f"({found.words})."
    )
    if found.by_muscle:
        yield (
            f"Whether that yield is of this piece: matched by its muscle ({found.matched})."
            if found.matched
            else "Its own yield: that of all boneless beef, braised, stands in."
        )
    if math.isnan(found.deviation):
        yield "How far pieces differ in yield: no spread is published, so none is in the range."


def _other_gaps(trial: Trial) -> Iterator[str]:
    if trial.muscle is None:
        yield "How tender it is: no muscle is named, or none of its species is published."
    else:
        yield "How tender a long cook makes it: shear force was not published of one."
    candidate = trial.cut.candidate
    if candidate is None or candidate.thickness is None:
        yield "How thick a piece is, and so the time to the core. Measure one."
    yield "What carving takes, and bones where it has any: only the sear is counted."
    yield "How many whole portions a piece gives: all costs here are by weight."
    yield "Whether its cook meets the kitchen's rules: each cook's page says so once it is written."
    yield "Whether guests like it: only the tasting says."
