"""Cooked food kept cold: in its sealed bag, or without one."""

from __future__ import annotations

from builder.cooking.cooling import AfterCookVerdict, no_clause
from builder.cooking.rules import Keeping, RuleSet
from builder.cooking.verdict import Outcome
from builder.cooking.wording import METRIC, Wording
from builder.language import ntr, tr


def judge_storing(
    store_c: float,
    days: float,
    rule_set: RuleSet,
    say: Wording = METRIC,
    *,
    cooked: Outcome = Outcome.MEETS,
    cooled: Outcome = Outcome.MEETS,
    cooling: tuple[float, float] | None = None,
) -> AfterCookVerdict:
    """Judge chilled storage [°C, d] in a sealed bag by the reduced-oxygen packaging clause.

    `cooked` and `cooled` are the verdicts on what came before, where the clause asks for them,
    `cooling` is the temperature [°C] it is cooled to and the time [min] given for it, if stated.
    """
    clause = rule_set.packaging
    if clause is None:
        return no_clause(rule_set, tr("storing in reduced-oxygen packaging"))
    found = _kept(store_c, days, rule_set, clause, say)
    if found.outcome is not Outcome.MEETS:
        return found
    asked = (
        (tr("a cook that meets {cooked_by}", cooked_by=clause.cooked_by), clause.cooked_by, cooked),
        (
            tr("cooling that meets {cooled_by}", cooled_by=clause.cooled_by),
            clause.cooled_by,
            cooled,
        ),
    )
    before = {
        **{what: outcome for what, by, outcome in asked if by},
        **_cooled_first(store_c, days, clause, cooling, say),
    }
    worst = min(before.values(), key=_severity, default=Outcome.MEETS)
    if worst is Outcome.MEETS:
        return found
    reasons = tuple(
        _before_reason(what, outcome)
        for what, outcome in sorted(before.items(), key=lambda pair: _severity(pair[1]))
        if outcome is not Outcome.MEETS
    )
    return AfterCookVerdict(worst, rule_set, clause.clause, (*reasons, *found.reasons))


def _cooled_first(
    store_c: float, days: float, clause: Keeping, cooling: tuple[float, float] | None, say: Wording
) -> dict[str, Outcome]:
    """What a longer storage asks of the cooling, and whether the file's [°C, min] does it.

    A file that cools less far does not say when the bag is as cold as the limit asks: not shown.
    """
    allowed = [limit for limit in clause.limits if limit.allows(store_c, days)]
    if cooling is None or any(limit.is_cooled(*cooling) for limit in allowed):
        return {}
    found = {}
    for limit in allowed:
        to = say.temperature(limit.at_c if limit.cooled_c is None else limit.cooled_c)
        within = say.minutes(limit.cooled_min or 0.0)
        late = limit.is_cold(cooling[0])
        outcome = Outcome.DOES_NOT_MEET if late else Outcome.NOT_COVERED
        asked = tr(
            "cooling to {to} within {within} for {days}",
            to=to,
            within=within,
            days=_days(limit.days, say),
        )
        found[asked] = outcome
    return found


def _severity(outcome: Outcome) -> int:
    """Failed first, then not known, then met."""
    return (Outcome.DOES_NOT_MEET, Outcome.NOT_COVERED, Outcome.MEETS).index(outcome)


def _before_reason(what: str, outcome: Outcome) -> str:
    if outcome is Outcome.DOES_NOT_MEET:
        return tr("the clause asks for {what}, and this one does not", what=what)
    return tr("the clause asks for {what}, and the files do not show that this one does", what=what)


def judge_unsealed_storing(
    store_c: float, days: float, rule_set: RuleSet, say: Wording = METRIC
) -> AfterCookVerdict:
    """Judge chilled storage [°C, d] without a sealed bag."""
    if rule_set.keeping is None:
        return no_clause(rule_set, tr("keeping cooked food cold"))
    return _kept(store_c, days, rule_set, rule_set.keeping, say)


def _days(days: float, say: Wording) -> str:
    """Whole days as such; any other time in hours, as the kitchen writes them."""
    if days != int(days):
        return say.minutes(days * 24 * 60)
    return ntr("{count} day", "{count} days", int(days))


def _kept(
    store_c: float, days: float, rule_set: RuleSet, clause: Keeping, say: Wording
) -> AfterCookVerdict:
    longest, kept_at = clause.longest_days(store_c), say.temperature(store_c)
    if longest is None:
        warmest = max((limit.at_c for limit in clause.limits), default=store_c)
        reason = tr(
            "kept at {kept_at}, warmer than the {warmest} of every limit",
            kept_at=kept_at,
            warmest=say.temperature(warmest),
        )
        return AfterCookVerdict(Outcome.DOES_NOT_MEET, rule_set, clause.clause, (reason,))
    kept = tr("kept for {days} at {kept_at}", days=_days(days, say), kept_at=kept_at)
    if clause.first_day_counts:
        # The day of preparation is day 1: one whole day later is day 2.
        last = int(days) + 1
        reason = tr(
            "{kept} ends on day {last}; day {longest:g} is the last allowed, the day "
            "of preparation being day 1",
            kept=kept,
            last=last,
            longest=longest,
        )
        within = last <= longest
    else:
        reason, within = (
            tr("{kept}, of {longest:g} days allowed", kept=kept, longest=longest),
            days <= longest,
        )
    outcome = Outcome.MEETS if within else Outcome.DOES_NOT_MEET
    return AfterCookVerdict(outcome, rule_set, clause.clause, (reason,))
