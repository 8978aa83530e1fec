"""What is said of a trial: tenderness, piece, durations, evidence, and what nobody knows yet."""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.costing.trials import USUAL_WAY, Likeness, Published, Trial
from builder.data.muscles import Muscle, ShearForce
from builder.display.words import listed
from builder.language import clauses, ntr, tr
from builder.pages.components import Cell, Column, Row, Table
from builder.pages.muscles_page import force_cell, force_words, muscle_href
from builder.pages.values import measured
from builder.pages.view import View
from builder.pages.ways import species_words, way_words

_NONE = "–"


def tenderness_cell(view: View, trial: Trial) -> Cell:
    """The grade of the muscle with its published shear force, sorted by the middle of that."""
    if trial.muscle is None:
        return Cell(_NONE)
    force = trial.muscle.shear_forces[0]
    ends = [end for end in (force.low, force.high) if not math.isnan(end)]
    words = tr("{grade}, {force}", grade=trial.muscle.grade, force=force_words(view.style, force))
    return Cell(words, sum(ends) / len(ends), muscle_href(trial.muscle))


def piece_words(view: View, trial: Trial) -> str:
    """Shape and thickness as far as they are written."""
    candidate = trial.cut.candidate
    thickness = candidate.thickness if candidate else None
    words = [way_words(candidate.shape)] if candidate and candidate.shape else []
    if thickness is not None:
        words.append(measured(view.style, thickness))
    return ", ".join(words) or _NONE


def durations_words(view: View, trial: Trial) -> str:
    """The first durations to cook and taste, and where they come from."""
    hours = listed([view.style.duration(each) for each in trial.hours])
    how = way_words(str(trial.like.how) if trial.like else USUAL_WAY)
    if trial.tasting and trial.likeness is Likeness.MUSCLE:
        why = tr("as in {tasting}, which tasted the same muscle", tasting=trial.tasting.title)
    elif trial.tasting:
        why = tr(
            "as in {tasting}, which tasted a muscle of the same grade", tasting=trial.tasting.title
        )
    else:
        why = tr("common practice, no published source: the kitchen has tasted no muscle like it")
    return tr(
        "Cook and taste first: {hours}, {how}, {at} ({why}).",
        hours=hours,
        how=how,
        at=trial.at,
        why=why,
    )


def evidence_table(view: View, trial: Trial) -> Table:
    """Each figure that the trial rests on, with its source and how far that was read."""
    columns = (
        Column("what", tr("What")),
        Column("value", tr("Figure"), numeric=True),
        Column("source", tr("Where it comes from")),
        Column("status", tr("How far read")),
    )
    return Table(
        f"{trial.cut.id}-evidence",
        tr("What is known of {cut}", cut=trial.cut.title),
        columns,
        tuple(_evidence(view, trial)),
        empty=tr("Nothing about it is published or weighed."),
    )


def _evidence(view: View, trial: Trial) -> Iterator[Row]:
    yield from _yields(view, trial)
    if (muscle := trial.muscle) is not None:
        yield from (_force(view, muscle, force) for force in muscle.shear_forces)
    row = view.candidate(trial.cut)
    if row.known("time_to_core"):
        model = tr("heat model, {piece_words}", piece_words=piece_words(view, trial))
        yield _line(
            tr("Until the core is near the bath"), row.cell("time_to_core"), model, "estimate"
        )


def _yields(view: View, trial: Trial) -> Iterator[Row]:
    """What trimming and cooking leave, and the kitchen's own cook beside it."""
    row = view.candidate(trial.cut)
    if trial.trim is not None:
        others = ntr(
            "{count} other {species} cut",
            "{count} other {species} cuts",
            trial.trim.count,
            species=species_words(str(trial.cut.species)),
        )
        source, status = (
            tr("mean of {others} of this kitchen", others=others),
            tr("as weighed here, or stated"),
        )
        yield _line(tr("Left after trim"), row.cell("trim_left"), source, status)
    elif trial.has_file:
        yield _line(tr("Left after trim"), row.cell("trim_left"), tr("its own file"), _NONE)
    if trial.published is not None:
        yield _published(view, trial, trial.published)
    if trial.like is not None:
        title = tr("Left after {like}, for comparison", like=trial.like.title)
        status = tr("weighed here") if trial.like.tests else tr("as its file says")
        own = view.batch(trial.like).cell("cook_yield")
        yield _line(title, own, tr("this kitchen; {likeness}", likeness=trial.likeness), status)


def _published(view: View, trial: Trial, found: Published) -> Row:
    words = (
        [tr("SD {deviation}", deviation=view.style.percent(found.deviation))]
        if found.deviation >= 0
        else []
    )
    words += [ntr("{count} sample", "{count} samples", found.samples)] if found.samples else []
    cell = view.candidate(trial.cut).cell("published_cook_yield", note=", ".join(words))
    source = clauses(dict.fromkeys([found.words, found.source]))
    return _line(tr("Left after cook"), cell, source, found.status)


def _force(view: View, muscle: Muscle, force: ShearForce) -> Row:
    cell = force_cell(view.style, force, muscle_href(muscle))
    return _line(
        tr("Shear force of {muscle}", muscle=muscle.name), cell, force.source, force.status
    )


def _line(what: str, value: Cell, source: str, status: str) -> Row:
    return Row((Cell(what), value, Cell(tr(source)), Cell(tr(status))))


def not_known(view: View, trial: Trial) -> list[str]:
    """What the figures leave open, the most important first."""
    return [*_money_gaps(view, trial), *_yield_gaps(view, trial), *_other_gaps(trial)]


def _money_gaps(view: View, trial: Trial) -> Iterator[str]:
    row = view.candidate(trial.cut)
    if not row.known("ap_price"):
        yield tr("Its price on this day.")
    if not row.known("portion_cost_low"):
        yield tr("How far off its cost may be: nothing says so of its price or its yields.")
    if trial.like is None:
        yield tr(
            "Work, energy and equipment of its cook: the kitchen has no water-bath cook like it."
        )
    if not row.known("monthly_count"):
        yield tr(
            "How many {benchmark} sell, so no saving a month.", benchmark=trial.benchmark.title
        )


def _yield_gaps(view: View, trial: Trial) -> Iterator[str]:
    if trial.trim is not None:
        yield tr(
            "What trimming leaves: the mean of other cuts is used. Trim one piece and weigh it."
        )
    elif not (trial.cut.trim and trial.cut.trim.has_figure):
        yield tr("What trimming leaves: no loss is counted. Trim one piece and weigh it.")
    found = trial.published
    if found is None:
        yield tr("What a cook leaves. Name a published yield, or its muscle.")
        return
    middle = view.style.duration(trial.middle)
    yield (
        tr(
            "What is left after {middle}: the published yield is of another way "
            "of cooking ({found}).",
            middle=middle,
            found=found.words,
        )
    )
    if found.by_muscle:
        yield (
            tr(
                "Whether that yield is of this piece: matched by its muscle ({matched}).",
                matched=found.matched,
            )
            if found.matched
            else tr("Its own yield: that of all boneless beef, braised, is used.")
        )
    if math.isnan(found.deviation):
        yield tr("How far pieces differ in yield: no spread is published, so none is in the range.")


def _other_gaps(trial: Trial) -> Iterator[str]:
    if trial.muscle is None:
        yield tr("How tender it is: no muscle is named, or none of its species is published.")
    else:
        yield tr("How tender a long cook makes it: no shear force is published after one.")
    candidate = trial.cut.candidate
    if candidate is None or candidate.thickness is None:
        yield tr("How thick a piece is, and so the time to the core. Measure one.")
    yield tr("What carving takes, and bones where it has any: only the sear is counted.")
    yield tr("How many whole portions a piece gives: all costs here are by weight.")
    yield tr(
        "Whether its cook meets the kitchen's rules: each cook's page says so once it is written."
    )
    yield tr("Whether guests like it: only the tasting says.")
