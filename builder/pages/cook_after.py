"""What follows a cook on its page: chilling, storing, reheating, holding hot."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from builder.cooking.cooling import AfterCookVerdict, StageCheck
from builder.cooking.verdict import Outcome
from builder.costing.heat import Chilling
from builder.display.words import listed
from builder.language import Deferred, clauses, tr
from builder.pages.components import Cell, Column, Notice, Notices, Row, Section, Table, Tone
from builder.pages.heat_words import span
from builder.pages.parts import paragraph
from builder.pages.values import capital
from builder.pages.view import BatchRow, CoolingRow, View
from builder.records.kinds import Cook, Cut


def after_sections(view: View, cook: Cook, cut: Cut) -> Iterator[Section]:
    """Each step after the cook beside the clause that is for it."""
    heat = view.costed.heat
    chillings = heat.chillings(cook)
    if chillings:
        if chillings[0].verdict.clause:
            yield _cooling_table(view, cook, chillings)
        yield from _cooling_words(view, cook, chillings)
    elif cook.cool is not None and heat.rule_set is not None:
        yield paragraph(
            tr(
                "The cooling is not estimated: the file does not say how thick a piece "
                "is (piece: thickness:)."
            )
        )
    if stored := heat.storing(cook, cut):
        packaging = stored.rule_set.packaging
        bagged = packaging is not None and stored.clause == packaging.clause
        where = tr("In its bag in the cold") if bagged else tr("In the cold")
        yield from _sentences(tr("{where}, the plan", where=where), stored)
        if packaging and bagged:
            yield paragraph(
                tr(
                    "{clause} also needs: {needs}.",
                    clause=packaging.clause,
                    needs=clauses(map(tr, packaging.needs)),
                )
            )
    if reheated := heat.reheating(cook, cut):
        yield from _sentences(tr("The reheating"), reheated[1])
    elif cook.reheat is not None and heat.rule_set is not None:
        yield paragraph(
            tr(
                "The reheating is not estimated: the file does not say how thick a piece "
                "is (piece: thickness:)."
            )
        )
    if held := heat.hot_holding(cook, cut):
        yield from _sentences(tr("The hot holding"), held)
    yield from _without_a_clause(
        (tr("cooling"), chillings[0].verdict if chillings else None),
        (tr("keeping it cold"), stored),
        (tr("reheating"), reheated and reheated[1]),
        (tr("hot holding"), held),
    )


def _is_silent(verdict: AfterCookVerdict | None) -> bool:
    return verdict is not None and not verdict.clause and verdict.outcome is Outcome.NOT_COVERED


def _without_a_clause(*steps: tuple[str, AfterCookVerdict | None]) -> Iterator[Notices]:
    """One sentence for all that the rule set is silent on."""
    silent = [(what, verdict) for what, verdict in steps if verdict and _is_silent(verdict)]
    if silent:
        words = tr(
            "{rule_set} has no clause here for {steps}; local code decides.",
            rule_set=silent[0][1].rule_set.name,
            steps=listed([what for what, _ in silent]),
        )
        yield Notices((Notice(words, "caution"),))


def _sentences(subject: str, verdict: AfterCookVerdict) -> Iterator[Section]:
    if _is_silent(verdict):
        return
    reasons = " ".join(f"{capital(tr(reason))}." for reason in verdict.reasons)
    meets, words = verdict.outcome is Outcome.MEETS, f"{subject} {verdict.brief}."
    first = Notice(words, "note") if meets else Notice(words, "caution")
    yield Notices((first, Notice(reasons, "note")))


def _cooling_table(view: View, cook: Cook, chillings: tuple[Chilling, ...]) -> Table:
    columns = (
        Column("in", tr("Cooled in")),
        Column("stage", tr("Core falls")),
        Column("slow", tr("Slow end"), numeric=True),
        Column("typical", tr("Typical"), numeric=True),
        Column("allowed", tr("Allowed"), numeric=True),
        Column("word", tr("The stage")),
        Column("thickest", tr("Thickest piece that meets it"), numeric=True),
    )
    checks = [(each, check) for each in chillings for check in each.verdict.stages]
    body = tuple(
        _cooling_row(view, chilling, check, row)
        for (chilling, check), row in zip(checks, view.coolings(cook), strict=True)
    )
    clause = chillings[0].verdict
    return Table(
        "cooling",
        tr("Cooling the core, as estimated"),
        columns,
        body,
        about=tr(
            "Limits of {rule_set} ({clause}); stirred water or moving air all round each bag.",
            rule_set=clause.rule_set.name,
            clause=clause.clause,
        ),
    )


def _cooling_row(view: View, chilling: Chilling, check: StageCheck, row: CoolingRow) -> Row:
    stage, taken = check.stage, check.taken_min
    tone: Tone = "" if check.kept else "loss"
    slow = row.cell("cooling_slow", tone=tone) if taken else Cell(tr("never"), tone=tone)
    typical = row.cell("cooling_typical") if taken else Cell(tr("never"))
    return Row(
        (
            Cell(f"{capital(tr(chilling.where))}, {view.style.temperature(chilling.around_c)}"),
            Cell(
                tr(
                    "{from_c} to {to_c}",
                    from_c=view.style.temperature(check.from_c),
                    to_c=view.style.temperature(stage.to_c),
                )
            ),
            slow,
            typical,
            row.cell("stage_allowed"),
            Cell(tr("meets") if check.kept else tr("does not meet"), tone=tone),
            row.cell("thickest"),
        )
    )


def _cooling_words(view: View, cook: Cook, chillings: tuple[Chilling, ...]) -> Iterator[Section]:
    wanted = next((c for c in chillings if cook.cool and c.where == cook.cool.in_), chillings[0])
    yield from _sentences(tr("Cooling in {medium}", medium=_a(wanted.where)), wanted.verdict)
    if cook.cool is None:
        return
    row = view.batch(cook)
    yield paragraph(
        Markup(tr("The file asks for {} within {}; {}.")).format(
            row.traced("chill_to"),
            row.traced("chill_within"),
            _chilled_words(view, wanted, cook.cool.within.value * 60, row),
        )
    )


def _chilled_words(view: View, wanted: Chilling, within_min: float, row: BatchRow) -> str:
    """The estimate beside the time that the file gives."""
    took = wanted.to_target_min
    if took is None:
        return tr("{medium} never brings it there", medium=_a(wanted.where))
    longer = tr(", longer than that") if took.low > within_min else ""
    if took.low <= within_min < took.high:
        longer = tr(", so it may take longer")
    return Markup(tr("the estimate for {} is {}{}")).format(
        _a(wanted.where),
        row.traced("chilled_slow", span(view, took, within_min)),
        longer,
    )


def _a(where: str) -> str:
    """What a cook is chilled in, with its article."""
    return tr(_WITH_ARTICLE[where])


_WITH_ARTICLE = {
    "ice bath": Deferred("an ice bath"),
    "blast chiller": Deferred("a blast chiller"),
    "cold room": Deferred("a cold room"),
}
