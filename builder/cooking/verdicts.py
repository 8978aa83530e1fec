"""A cook against one rule set: meets, does not meet, or is not covered.

Rows are never interpolated and never extrapolated. Every row at or below the cook's
temperature that the core can reach stands on its own; the verdict names the one that
leaves most time. Reaching it is timed at the estimate's slow end.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from builder.cooking.foods import Food
from builder.cooking.pieces import CoreEstimate
from builder.cooking.ranges import require_within
from builder.cooking.rules import (
    HUMID,
    ComeUp,
    HoldRow,
    HoldTable,
    RuleSet,
    SurfaceRule,
)
from builder.cooking.verdict import Asked, ComeUpCheck, HoldCheck, Outcome, Verdict
from builder.cooking.wording import METRIC, Wording
from builder.engine.methods import method
from builder.language import Deferred, labelled, tr
from builder.quantities.prints import ROUNDING_C

NOT_HELD = Deferred("the plan can't be compared with a rule")
MEASURE = Deferred(
    "measure it instead: a calibrated probe in the thickest place of the "
    "thickest piece, and the time from when the core reaches the temperature "
    "that the code asks for until it leaves it"
)


@dataclass(frozen=True, slots=True)
class CookPlan:
    """A food held at `medium_c` [°C] for `time_min` [min], counted from the cold start.

    `moist` says that the piece is in a sealed bag or at 90 % humidity or more;
    `unmodelled` why, where no estimate of its core comes with it; `core_c` [°C] is the core
    that the kitchen aims at, where it is stated.
    """

    food: Food
    medium_c: float
    time_min: float
    moist: bool = True
    unmodelled: str = "the core is not modelled for this way of cooking"
    core_c: float | None = None

    def allows(self, row: HoldRow) -> bool:
        """Whether the core may come to a row: by its surroundings, and as aimed at."""
        hottest = self.medium_c if self.core_c is None else min(self.medium_c, self.core_c)
        return hottest >= row.least_c - ROUNDING_C

    def __post_init__(self) -> None:
        require_within("cooking temperature", self.medium_c, 30, 110, "°C")
        require_within("cooking time", self.time_min, 1, 60 * 24 * 7, "min")


@method(
    unit="1",
    title="a plan beside the rule set",
    source="the clauses of the rule set in use, each with its status there; arithmetic on its rows",
)
def judge(
    plan: CookPlan, heat: CoreEstimate | None, rule_set: RuleSet, say: Wording = METRIC
) -> Verdict:
    """Judge a plan by one rule set, by the modelled core where there is one.

    Formula: of the rows that the core can reach, the one that leaves most time; reaching it
    counts at the slow end. A limit that forbids goes before everything; a surface clause can
    help a plan whose core meets no row.
    Parameters: the plan, the modelled core and the rule set; rows of the rule set stay as they are
    printed.
    Returns: the verdict, with the row, its temperature [°C], its hold and the margin [min].
    Errors: ValueError when the estimate is for another temperature.
    """
    if heat and heat.medium_c != plan.medium_c:
        raise ValueError(f"the plan is at {plan.medium_c:g} °C, the estimate {heat.medium_c:g} °C")
    verdict = _by_core(plan, heat, rule_set, say)
    if verdict.outcome is not Outcome.MEETS:
        verdict = _by_surface(plan, verdict, say)
    return _by_limit(plan, heat, verdict, say)


def _not_covered(rule_set: RuleSet, reason: str) -> Verdict:
    return Verdict(
        Outcome.NOT_COVERED,
        rule_set,
        (tr("no rule of this set covers the plan: {reason}", reason=reason),),
    )


def waiting(rule_set: RuleSet, why: str) -> Verdict:
    """The verdict on a plan of which the files leave something out, said in words."""
    return Verdict(Outcome.NOT_COVERED, rule_set, (labelled(tr(NOT_HELD), why),), waits_for=why)


def _by_core(plan: CookPlan, heat: CoreEstimate | None, rule_set: RuleSet, say: Wording) -> Verdict:
    tables = rule_set.tables_for(plan.food)
    if not tables:
        return _not_covered(
            rule_set,
            tr("{rule_set} has no hold table for {food}", rule_set=rule_set.name, food=plan.food),
        )
    asked = _least_asked(tables)
    if asked and not any(plan.allows(row) for table in tables for row in table.rows):
        reason = _too_cold(plan, asked, say)
        return Verdict(Outcome.DOES_NOT_MEET, rule_set, (reason,), asked=asked)
    fitting = [table for table in tables if plan.moist or not table.moist]
    if not fitting:
        humid = tr("a sealed bag or {humid} humidity", humid=say.percent(HUMID))
        return _not_covered(rule_set, tr("the table asks for {humid}", humid=humid))
    if heat is None:
        return replace(waiting(rule_set, plan.unmodelled), asked=_aimed_at(plan, asked))
    checks = _row_checks(plan, heat, fitting)
    if not checks:
        return _not_covered(rule_set, _below_first_row(plan, fitting, say))
    best = max(checks, key=lambda check: check.margin_min)
    return _held(best, _come_up(heat, rule_set.come_up), rule_set, say)


def _least_asked(tables: Sequence[HoldTable]) -> Asked | None:
    """The coldest first row, where every clause for the food names what lower cooks need."""
    if not all(table.lower_needs for table in tables):
        return None
    table = min(tables, key=lambda table: table.rows[0].at_c)
    return Asked(table, table.rows[0])


def _aimed_at(plan: CookPlan, asked: Asked | None) -> Asked | None:
    """The row of what is asked that the kitchen's own core comes to, with the hold that goes there.

    Nothing is computed of such a cook, so the log has to show what the kitchen aims at. Without
    a core of its own it is the coldest row whose hold the cook is long enough for.
    """
    if asked is None:
        return None
    rows = asked.table.rows
    if plan.core_c is None:
        held = [row for row in rows if plan.allows(row) and row.hold_min < plan.time_min]
        return Asked(asked.table, held[0]) if held else asked
    reached = [row for row in rows if plan.core_c >= row.least_c - ROUNDING_C]
    return Asked(asked.table, reached[-1]) if reached else asked


def _too_cold(plan: CookPlan, asked: Asked, say: Wording) -> str:
    """Why the core never comes to the first row, and what a lower cook would need."""
    printed, lower = (
        asked.row.printed_core,
        tr("lower needs {lower_needs}", lower_needs=asked.table.lower_needs),
    )
    if plan.core_c is not None and plan.core_c < min(plan.medium_c, asked.row.least_c):
        aimed = say.temperature(plan.core_c)
        return tr(
            "it aims at a core of {aimed}, which is below {printed}; {lower}",
            aimed=aimed,
            printed=printed,
            lower=lower,
        )
    around = say.temperature(plan.medium_c)
    return tr(
        "at {around} this cook never brings the core to {printed}; {lower}",
        around=around,
        printed=printed,
        lower=lower,
    )


def _row_checks(plan: CookPlan, heat: CoreEstimate, tables: Sequence[HoldTable]) -> list[HoldCheck]:
    return [
        HoldCheck(table, row, heat.reach_min(row.at_c), plan.time_min)
        for table in tables
        for row in table.rows
        if heat.reaches(row.least_c) and plan.allows(row)
    ]


def _below_first_row(plan: CookPlan, tables: Sequence[HoldTable], say: Wording) -> str:
    first = min((table.rows[0] for table in tables), key=lambda row: row.at_c)
    around, printed = say.temperature(plan.medium_c), first.printed_core
    if plan.core_c is not None and plan.core_c < plan.medium_c:
        return tr(
            "a core of {core_c} is below the first row, {printed}",
            core_c=say.temperature(plan.core_c),
            printed=printed,
        )
    return tr(
        "a core in {around} never reaches the first row, {printed}", around=around, printed=printed
    )


def _come_up(heat: CoreEstimate, clause: ComeUp | None) -> ComeUpCheck | None:
    if clause is None or not heat.reaches(clause.to_c):
        return None
    # The slow piece is followed through both temperatures: one piece, one clock.
    taken = heat.reach_min(clause.to_c).high - heat.reach_min(clause.from_c).high
    return ComeUpCheck(clause, taken)


def _held(hold: HoldCheck, come_up: ComeUpCheck | None, rule_set: RuleSet, say: Wording) -> Verdict:
    late = come_up is not None and not come_up.kept
    broken = late and come_up is not None and come_up.clause.binding
    met = hold.margin_min >= 0 and not broken
    outcome = Outcome.MEETS if met else Outcome.DOES_NOT_MEET
    late_reasons = (_late_reason(come_up, say),) if come_up and late else ()
    reasons = (_hold_reason(hold, say), *late_reasons)
    if broken and hold.margin_min >= 0:
        # The condition that fails leads, before the one that is kept.
        reasons = reasons[::-1]
    return Verdict(outcome, rule_set, reasons, hold, come_up)


def _hold_reason(hold: HoldCheck, say: Wording) -> str:
    reached = tr(
        "the core reaches {printed} after {estimate} at the slow end",
        printed=hold.row.printed_core,
        estimate=say.estimate(hold.reach_min.high, limit=hold.time_min),
    )
    if hold.reach_min.high > hold.time_min:
        return tr(
            "{reached}, later than the plan's {minutes}",
            reached=reached,
            minutes=say.minutes(hold.time_min),
        )
    asked = (
        tr("{printed_hold} are", printed_hold=hold.row.printed_hold)
        if hold.row.hold_s
        else tr("no hold is")
    )
    left = say.estimate(hold.available_min, "down", hold.row.hold_min)
    return tr(
        "{reached}, which leaves {left} where {asked} asked for",
        reached=reached,
        left=left,
        asked=asked,
    )


def _late_reason(check: ComeUpCheck, say: Wording) -> str:
    clause = check.clause
    span = tr(
        "{from_c} to {to_c}",
        from_c=say.temperature(clause.from_c),
        to_c=say.temperature(clause.to_c),
    )
    taken = say.estimate(check.taken_min, limit=clause.within_min)
    return tr(
        "the core takes {taken} from {span} at the slow end, longer than {minutes} ({clause})",
        taken=taken,
        span=span,
        minutes=say.minutes(clause.within_min),
        clause=clause.clause,
    )


def _by_surface(plan: CookPlan, verdict: Verdict, say: Wording) -> Verdict:
    """Let a surface clause cover a short cook of an intact, seared piece."""
    for clause in verdict.rule_set.surfaces_for(plan.food):
        if plan.time_min <= clause.cook_max_min:
            reason = tr(
                "the surface is seared, as the file states; {surface_asked}",
                surface_asked=_surface_asked(clause, say),
            )
            met = replace(verdict, outcome=Outcome.MEETS, surface=clause, reasons=(reason,))
            return replace(met, waits_for="")
        reason = tr(
            "{clause} is for a seared surface after a cook of at most {minutes}",
            clause=clause.clause,
            minutes=say.minutes(clause.cook_max_min),
        )
        return replace(verdict, reasons=(*verdict.reasons, reason))
    return verdict


def _surface_asked(clause: SurfaceRule, say: Wording) -> str:
    if clause.surface_c is None:
        return tr("the clause names no temperature for it")
    return tr(
        "the clause asks {surface_c} or above of it", surface_c=say.temperature(clause.surface_c)
    )


def minutes_within(plan: CookPlan, heat: CoreEstimate | None, low_c: float, high_c: float) -> float:
    """Return the minutes that a plan spends in a band of temperature [°C], inclusive.

    A bath inside the band counts from its first minute; through a hotter one the core
    passes, at the slow end.
    """
    if low_c - ROUNDING_C <= plan.medium_c <= high_c + ROUNDING_C:
        return plan.time_min
    if heat is None or plan.medium_c < low_c:
        return 0.0
    into, out = (heat.reach_min(edge).high for edge in (low_c, high_c))
    return min(out, plan.time_min) - min(into, plan.time_min)


def _by_limit(plan: CookPlan, heat: CoreEstimate | None, verdict: Verdict, say: Wording) -> Verdict:
    for clause in verdict.rule_set.forbids:
        spent = minutes_within(plan, heat, clause.low_c, clause.high_c)
        if spent > clause.total_max_min:
            whole = spent == plan.time_min
            words = say.minutes(spent) if whole else say.estimate(spent, limit=clause.total_max_min)
            reason = tr(
                "{words} between {low_c} and {high_c}, of {minutes} allowed in all",
                words=words,
                low_c=say.temperature(clause.low_c),
                high_c=say.temperature(clause.high_c),
                minutes=say.minutes(clause.total_max_min),
            )
            # That no rule covers a plan is no news beside the one that forbids it.
            rest = () if verdict.outcome is Outcome.NOT_COVERED else verdict.reasons
            return replace(
                verdict,
                outcome=Outcome.DOES_NOT_MEET,
                forbidden_by=clause,
                reasons=(reason, *rest),
                waits_for="",
            )
    return verdict
