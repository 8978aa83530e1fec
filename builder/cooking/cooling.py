"""Cooling and what follows a cook: two-stage limits, reheating."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace

from builder.cooking.foods import Food
from builder.cooking.pieces import WATER_BATH, CoreEstimate, Medium, Piece, solve
from builder.cooking.ranges import Range
from builder.cooking.rules import CoolingStage, HoldTable, Reheating, RuleSet
from builder.cooking.verdict import DECIDES, Outcome, Verdict, worded, worded_briefly
from builder.cooking.wording import METRIC, Wording
from builder.engine.methods import method
from builder.language import Deferred, labelled, tr

THINNEST_MM, THICKEST_MM = 1.0, 400.0


@dataclass(frozen=True, slots=True)
class StageCheck:
    """One stage of cooling and the minutes that it takes; None when it is never reached.

    The core falls `from_c`: the stage's first temperature, or its own where it starts colder.
    """

    stage: CoolingStage
    taken_min: Range | None
    from_c: float

    @property
    def kept(self) -> bool:
        """Whether the slow end is within the stage's time."""
        return self.taken_min is not None and self.taken_min.high <= self.stage.within_min


@dataclass(frozen=True, slots=True)
class AfterCookVerdict:
    """What a rule set says of cooling, holding or reheating."""

    outcome: Outcome
    rule_set: RuleSet
    clause: str
    reasons: tuple[str, ...]
    stages: tuple[StageCheck, ...] = ()

    @property
    def waits(self) -> bool:
        """Whether a clause is known to be the one, and not yet what it rests on."""
        return bool(self.clause) and self.outcome is Outcome.NOT_COVERED

    @property
    def sentence(self) -> str:
        """The verdict in words, deferring to whoever decides."""
        if self.waits:
            return tr("can't be compared with {rule} yet; {local}", rule=self._rule, local=DECIDES)
        return worded(self.outcome, self._rule)

    @property
    def brief(self) -> str:
        """The verdict in words, for a page that says once who decides."""
        if self.waits:
            return tr("can't be compared with {rule} yet", rule=self._rule)
        return worded_briefly(self.outcome, self._rule)

    @property
    def _rule(self) -> str:
        return self.rule_set.name + (f" ({self.clause})" if self.clause else "")


def outcome_of(kept: bool) -> Outcome:
    """Whether a limit that is kept is met."""
    return Outcome.MEETS if kept else Outcome.DOES_NOT_MEET


def no_clause(rule_set: RuleSet, what: str) -> AfterCookVerdict:
    """What is said where a rule set names no limit."""
    reason = tr(
        "{rule_set} has no clause here for {what}; local code decides",
        rule_set=rule_set.name,
        what=what,
    )
    return AfterCookVerdict(Outcome.NOT_COVERED, rule_set, "", (reason,))


def _stage_check(heat: CoreEstimate, stage: CoolingStage) -> StageCheck:
    from_c = min(stage.from_c, heat.piece.start_c)
    if not heat.reaches(stage.to_c):
        return StageCheck(stage, None, from_c)
    into, out = heat.reach_min(stage.from_c), heat.reach_min(stage.to_c)
    spent = (out.low - into.low, out.typical - into.typical, out.high - into.high)
    # An end that is fast to the first temperature may linger after it: order them anew.
    return StageCheck(stage, Range(*sorted(spent)), from_c)


def _stage_reason(check: StageCheck, say: Wording) -> str:
    stage, first = check.stage, say.temperature(check.from_c)
    span = tr("from {first} to {to_c}", first=first, to_c=say.temperature(stage.to_c))
    if check.taken_min is None:
        return tr("the core never cools {span} here", span=span)
    return tr(
        "the core takes {estimate} {span} at the slow end, of {minutes} allowed",
        estimate=say.estimate(check.taken_min.high, limit=stage.within_min),
        span=span,
        minutes=say.minutes(stage.within_min),
    )


@method(
    unit="min",
    title="cooling beside the rule set",
    source="Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, Oxford [from memory]; "
    "limits by the rule set in use",
)
def judge_cooling(heat: CoreEstimate, rule_set: RuleSet, say: Wording = METRIC) -> AfterCookVerdict:
    """Judge the cooling of a piece that starts at its cooking temperature.

    Formula: the time between the two temperatures of each stage, by the time to core. A piece
    that begins below a stage's first temperature is on that stage's clock at once.
    Parameters: the same conduction model with colder surroundings; the rule set.
    Returns: the verdict, with the minutes that each stage takes, at both ends.
    Errors: ValueError when the surroundings are not colder than the piece.
    """
    if heat.medium_c >= heat.piece.start_c:
        raise ValueError(f"{heat.medium_c:g} °C does not cool a piece of {heat.piece.start_c:g} °C")
    if rule_set.cooling is None:
        return no_clause(rule_set, tr("cooling"))
    checks = tuple(_stage_check(heat, stage) for stage in rule_set.cooling.stages)
    return AfterCookVerdict(
        outcome_of(all(check.kept for check in checks)),
        rule_set,
        rule_set.cooling.clause,
        tuple(_stage_reason(check, say) for check in checks),
        checks,
    )


@method(
    unit="mm",
    source="Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, Oxford [from memory]; "
    "limits by the rule set in use",
)
def largest_cooling_thickness(
    piece: Piece, medium: Medium, medium_c: float, rule_set: RuleSet
) -> float | None:
    """The thickest piece of this shape and start that cools within a rule set's limits.

    Formula: the largest thickness at which the cooling still meets every stage, by
    halving to 0.1 mm, rounded down.
    Parameters: the piece, whose thickness [mm] is ignored; the medium and its temperature [°C]; the
    rule set.
    Returns: thickness [mm], 0 to 400; none when the rule set names no cooling limits.
    Valid range: the medium colder than the piece.
    Errors: ValueError outside the range, naming it and the unit.
    """
    if rule_set.cooling is None:
        return None

    stages = rule_set.cooling.temperatures_c

    def kept(thickness_mm: float) -> bool:
        cold = CoreEstimate(replace(piece, thickness_mm=thickness_mm), medium, medium_c)
        (estimate,) = solve([cold], [stages])
        return judge_cooling(estimate, rule_set).outcome is Outcome.MEETS

    spread = 1 + piece.thickness_share
    low, high = THINNEST_MM * spread / (1 - piece.thickness_share), THICKEST_MM / spread
    if not kept(low):
        return 0.0
    while high - low > 0.1:
        middle = (low + high) / 2
        low, high = (middle, high) if kept(middle) else (low, middle)
    return int(low * 10) / 10


def judge_reheating(
    heat: CoreEstimate,
    time_min: float,
    rule_set: RuleSet,
    say: Wording = METRIC,
    *,
    cooked: Verdict | None = None,
    held_hot: bool = True,
    foods: Collection[Food] = (),
) -> AfterCookVerdict:
    """Judge a reheating that lasts `time_min` [min], for hot holding or else to order.

    `cooked` is the verdict on the cook: what met its clause may have a milder one here, and
    what may have met it, as one of `foods`, is not covered where that one decides.
    """
    clause = rule_set.reheating
    if clause is None:
        return no_clause(rule_set, tr("reheating"))
    found = _reheated_for_holding(heat, time_min, rule_set, clause, say)
    if found.outcome is Outcome.MEETS or cooked is None or cooked.outcome is Outcome.DOES_NOT_MEET:
        return found
    again, table = clause.as_cooked, _table_again(clause, cooked, foods)
    tried = _as_cooked(heat, time_min, table, say) if table else None
    milder = (again.clause, labelled(tried.words, again.title)) if again and tried else None
    if (tried is None or not tried.kept) and not held_hot:
        tried, milder = None, _to_order(clause)
    if milder is None:
        return found
    if tried and not (tried.kept or tried.open):
        reasons = (
            tr(
                "{reasons}; by {milder}, {milder2}",
                reasons=found.reasons[0],
                milder=milder[0],
                milder2=milder[1],
            ),
        )
        return replace(found, reasons=reasons)
    not_known = [tr(COOK_NOT_KNOWN)] if cooked.outcome is not Outcome.MEETS else []
    not_known += [tr(_TIME_NOT_KNOWN, medium=heat.medium.name)] if tried and not tried.kept else []
    outcome = Outcome.NOT_COVERED if not_known else Outcome.MEETS
    return AfterCookVerdict(outcome, rule_set, milder[0], (milder[1], *not_known))


COOK_NOT_KNOWN = Deferred(
    "that is for food which was cooked as the rules ask, and the files do not show that this is"
)
_TIME_NOT_KNOWN = Deferred(
    "how fast a {medium} reheats is known too roughly here to say whether the "
    "plan's time is enough: log the core"
)


@dataclass(frozen=True, slots=True)
class _Tried:
    """The row of a hold table that a reheating comes nearest to, at the slow end.

    `open`: too short at the slow end, and long enough at the fast end of what is no bath.
    """

    words: str
    kept: bool
    open: bool


def _table_again(clause: Reheating, cooked: Verdict, foods: Collection[Food]) -> HoldTable | None:
    """The table by which the food may be reheated: that which it met, or may have met."""
    again, hold = clause.as_cooked, cooked.ruling_hold
    if again is None:
        return None
    if cooked.outcome is Outcome.MEETS:
        tables = [hold.table] if hold else []
    else:
        tables = [table for food in foods for table in cooked.rule_set.tables_for(food)]
    return next((table for table in tables if table.clause == again.table), None)


def _as_cooked(
    heat: CoreEstimate, time_min: float, table: HoldTable, say: Wording
) -> _Tried | None:
    """What a reheating shows of the table that the food was cooked by; None below every row."""
    reached = [row for row in table.rows if heat.reaches(row.least_c)]
    spans = {row: heat.reach_min(row.at_c) for row in reached}
    if not reached:
        return None
    in_time = (row for row in reached if spans[row].high + row.hold_min <= time_min)
    nearest = min(reached, key=lambda row: spans[row].high + row.hold_min)
    row = next(in_time, nearest)
    slow = spans[row].high
    taken = say.estimate(slow, limit=time_min - row.hold_min)
    core = tr("the core reaches {printed} after {taken}", printed=row.printed_core, taken=taken)
    held = (
        tr("and {printed_hold} are asked for", printed_hold=row.printed_hold)
        if row.hold_s
        else tr("and no hold is asked")
    )
    words = tr(
        "{core} at the slow end; the plan gives {minutes}, {held}",
        core=core,
        minutes=say.minutes(time_min),
        held=held,
    )
    fast = min(spans[each].low + each.hold_min for each in reached) <= time_min
    return _Tried(words, slow + row.hold_min <= time_min, fast and heat.medium is not WATER_BATH)


def _to_order(clause: Reheating) -> tuple[str, str] | None:
    """The clause for what is served at once, and what it and hot holding ask."""
    if clause.to_order is None:
        return None
    title = clause.to_order.title
    return clause.to_order.clause, tr(
        "{title}; held hot instead, {clause} counts", title=title, clause=clause.clause
    )


def _reheated_for_holding(
    heat: CoreEstimate, time_min: float, rule_set: RuleSet, clause: Reheating, say: Wording
) -> AfterCookVerdict:
    wanted = say.temperature(clause.at_c)
    if not heat.reaches(clause.at_c):
        reason = tr(
            "a core in {medium_c} never reaches {wanted}",
            medium_c=say.temperature(heat.medium_c),
            wanted=wanted,
        )
        return AfterCookVerdict(Outcome.DOES_NOT_MEET, rule_set, clause.clause, (reason,))
    slow = heat.reach_min(clause.at_c).high
    kept = outcome_of(_reheats(clause, slow, time_min))
    reached = tr(
        "the core reaches {wanted} after {estimate} at the slow end",
        wanted=wanted,
        estimate=say.estimate(slow, limit=time_min),
    )
    asked = tr("asked for are {held_words}", held_words=_held_words(clause, say))
    reason = tr(
        "{reached}, and the plan takes {minutes}; {asked}",
        reached=reached,
        minutes=say.minutes(time_min),
        asked=asked,
    )
    return AfterCookVerdict(kept, rule_set, clause.clause, (reason,))


def _held_words(clause: Reheating, say: Wording) -> str:
    """What the clause asks of a reheating: its hold, and the time that it may take."""
    held = tr("{hold_s:g} s there", hold_s=clause.hold_s)
    if clause.within_min is None:
        return held
    return tr("{held}, all within {minutes}", held=held, minutes=say.minutes(clause.within_min))


def _reheats(clause: Reheating, slow_min: float, time_min: float) -> bool:
    limit = time_min if clause.within_min is None else min(time_min, clause.within_min)
    return slow_min + clause.hold_s / 60 <= limit
