"""What follows a cook on its page: chilling, storing, reheating, holding hot."""

from __future__ import annotations

from collections.abc import Iterator

from builder.cooking.cooling import AfterCookVerdict, StageCheck
from builder.costing.heat import Chilling
from builder.display.estimates import thickness_that_fits
from builder.pages.components import Cell, Column, Notice, Notices, Row, Section, Table, Tone
from builder.pages.heat_words import capital, estimated, minutes, span, spread
from builder.pages.parts import paragraph
from builder.pages.view import View
from builder.records.kinds import Cook, Cut


def after_sections(view: View, cook: Cook, cut: Cut) -> Iterator[Section]:
    """Each step after the cook beside the clause that is for it."""
    heat = view.costed.heat
    chillings = heat.chillings(cook)
    if chillings:
        yield _cooling_table(view, chillings)
        yield from _cooling_words(view, cook, chillings)
    elif cook.cool is not None and heat.rule_set is not None:
        yield paragraph(
            "The cooling is not estimated: the file does not say how thick a piece is "
            "(piece: thickness:). Log the core with a calibrated probe; local code decides."
        )
    if stored := heat.storing(cook, cut):
        packaging = stored.rule_set.packaging
        bagged = packaging is not None and stored.clause == packaging.clause
        where = "In its bag in the cold" if bagged else "In the cold"
        yield from _sentences(f"{where}, the plan", stored)
        if packaging and bagged:
            yield paragraph(f"{packaging.clause} also needs: {'; '.join(packaging.needs)}.")
    if reheated := heat.reheating(cook, cut):
        yield from _sentences("The reheating", reheated[1])
    if held := heat.hot_holding(cook, cut):
        yield from _sentences("The hot holding", held)


def _sentences(subject: str, verdict: AfterCookVerdict) -> Iterator[Section]:
    reasons = " ".join(f"{capital(reason)}." for reason in verdict.reasons)
    yield Notices(
        (Notice(f"{subject} {verdict.sentence}.", "caution"), Notice(reasons, "note")),
    )


def _cooling_table(view: View, chillings: tuple[Chilling, ...]) -> Table:
    columns = (
        Column("in", "Cooled in"),
        Column("stage", "Core falls"),
        Column("slow", "Slow end", numeric=True),
        Column("typical", "Typical", numeric=True),
        Column("allowed", "Allowed", numeric=True),
        Column("word", "The stage"),
        Column("thickest", "Thickest piece that keeps", numeric=True),
    )
    body = tuple(
        _cooling_row(view, chilling, check)
        for chilling in chillings
        for check in chilling.verdict.stages
    )
    clause = chillings[0].verdict
    return Table(
        "cooling",
        "Cooling the core, as estimated",
        columns,
        body,
        about=""
        if not clause.clause
        else f"Limits of {clause.rule_set.name}({clause.clause}); "
        "stirred water or moving air all round each bag.",
        empty=f"{clause.rule_set.name} has no clause here for cooling; local code decides.",
    )


def _cooling_row(view: View, chilling: Chilling, check: StageCheck) -> Row:
    stage, taken = check.stage, check.taken_min
    tone: Tone = "" if check.kept else "loss"
    slow = estimated(view, taken.high, limit=stage.within_min) if taken else "never"
    thickest = chilling.thickest_mm
    return Row(
        (
            Cell(f"{capital(chilling.where)}, {view.style.temperature(chilling.around_c)}"),
            Cell(f"{view.style.temperature(stage.from_c)} to {view.style.temperature(stage.to_c)}"),
            Cell(slow, tone=tone),
            Cell(estimated(view, taken.typical, "near") if taken else "never"),
            Cell(minutes(view, stage.within_min)),
            Cell("meets" if check.kept else "does not meet", tone=tone),
            Cell(thickness_that_fits(view.style, thickest) if thickest is not None else "–"),
        )
    )


def _cooling_words(view: View, cook: Cook, chillings: tuple[Chilling, ...]) -> Iterator[Section]:
    wanted = next((c for c in chillings if cook.cool and c.where == cook.cool.in_), chillings[0])
    yield from _sentences(f"Cooling in {_an(wanted.where)}", wanted.verdict)
    if cook.cool is None:
        return
    yield paragraph(
        f"The file asks for {view.style.temperature(cook.cool.to.value)} within "
        f"{view.style.duration(cook.cool.within.value)}; "
        f"{_chilled_words(view, wanted, cook.cool.within.value * 60)}."
    )


def _chilled_words(view: View, wanted: Chilling, within_min: float) -> str:
    """The estimate beside the time that the file gives."""
    took = wanted.to_target_min
    if took is None:
        return f"{_an(wanted.where)} never brings it there"
    longer = ", longer than that" if took.low > within_min else ""
    if took.low <= within_min < took.high:
        longer = ", so it may take longer"
    where = f"the estimate for {_an(wanted.where)}"
    return f"{where} is {span(view, took)} ({spread(took)}){longer}"


def _an(words: str) -> str:
    return f"{'an' if words[0] in 'aeiou' else 'a'} {words}"
