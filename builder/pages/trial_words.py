"""What is said of a trial: tenderness, piece, durations, evidence, and what nobody knows yet."""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.costing.trials import USUAL_AT, USUAL_WAY, Likeness, Trial
from builder.data.muscles import ShearForce
from builder.display.words import listed
from builder.pages.components import Cell, Column, Row, Table
from builder.pages.marks import in_style
from builder.pages.parts import number_of
from builder.pages.values import measured
from builder.pages.view import View

_NONE = "–"


def tenderness_words(view: View, trial: Trial) -> tuple[str, float | None]:
    """The grade of the muscle with its published shear force, and what it is sorted by."""
    if trial.muscle is None:
        return _NONE, None
    force = trial.muscle.shear_forces[0]
    ends = [end for end in (force.low, force.high) if not math.isnan(end)]
    return f"{trial.muscle.grade}, {_kilograms(view, force)}", sum(ends) / len(ends)


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
    row, style = view.candidate(trial.cut), view.style
    if trial.trim is not None:
        count = number_of(trial.trim.count, f"other {trial.cut.species} cut")
        yield Row(
            (
                Cell("Left after trim"),
                row.cell("trim_left"),
                Cell(f"mean of {count} of this kitchen"),
                Cell("as weighed here, or stated"),
            )
        )
    elif trial.has_file:
        yield Row((Cell("Left after trim"), row.cell("trim_left"), Cell("its own file"), Cell("")))
    if (found := trial.published) is not None:
        spread = "" if math.isnan(found.deviation) else f"SD {style.percent(found.deviation)}, "
        samples = number_of(found.samples, "sample") if found.samples else ""
        note = f"{spread}{samples}".rstrip(", ")
        source = found.source if found.words == found.source else f"{found.words}; {found.source}"
        cell = row.cell("published_cook_yield", note=note)
        yield Row((Cell("Left after cook"), cell, Cell(source), Cell(found.status)))
    if trial.like is not None:
        yield Row(
            (
                Cell(f"Left after {trial.like.title}, for comparison"),
                view.batch(trial.like).cell("cook_yield"),
                Cell(f"this kitchen; {trial.likeness}"),
                Cell("weighed here" if trial.like.tests else "as its file states"),
            )
        )
    for force in trial.muscle.shear_forces if trial.muscle else ():
        yield Row(
            (
                Cell(f"Shear force of {trial.muscle.name}" if trial.muscle else ""),
                Cell(in_style(force.published, style)),
                Cell(force.source),
                Cell(force.status),
            )
        )
    if row.known("time_to_core"):
        yield Row(
            (
                Cell("Until the core is near the bath"),
                row.cell("time_to_core"),
                Cell(f"heat model, {piece_words(view, trial)}"),
                Cell("estimate, slow end"),
            )
        )


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
