"""Hot holding beside a rule set, also of a piece that the files leave open."""

from __future__ import annotations

from collections.abc import Sequence

from builder.cooking.cooling import COOK_NOT_KNOWN, AfterCookVerdict, no_clause, outcome_of
from builder.cooking.foods import Food
from builder.cooking.rules import HotHolding, RuleSet
from builder.cooking.verdict import Outcome
from builder.cooking.wording import METRIC, Wording
from builder.language import Deferred, tr
from builder.quantities.prints import ROUNDING_C

_FOOD_NOT_KNOWN = Deferred(
    "which temperature is asked for rests on what the piece is (form, counts as), which the "
    "file does not say"
)


def hot_holding_clause(food: Food, rule_set: RuleSet, *, cooked: bool = True) -> HotHolding | None:
    """Return the hot holding clause that covers a food.

    The one with the lowest temperature where it is `cooked` as the rule set asks, else the
    highest: a lower one is for what was.
    """
    covering = [clause for clause in rule_set.hot_holding if clause.scope.covers(food)]
    chosen = min if cooked else max
    return chosen(covering, key=lambda clause: clause.at_c, default=None)


def judge_hot_holding(
    hold_c: float,
    food: Food,
    rule_set: RuleSet,
    say: Wording = METRIC,
    *,
    cooked: bool | None = True,
) -> AfterCookVerdict:
    """Judge a temperature [°C] at which hot food is held.

    `cooked`: whether it met the rule set's cook; None where that is not known, so that between
    what is asked of either nothing can be said.
    """
    clause = hot_holding_clause(food, rule_set, cooked=bool(cooked))
    if clause is None:
        return no_clause(rule_set, tr("hot holding of {food}", food=food))
    # Met by a print alone, the kitchen's own unit would show it short of the limit.
    by_print = clause.least_c - ROUNDING_C <= hold_c < clause.at_c - ROUNDING_C
    asked = clause.printed if by_print else say.temperature(clause.at_c)
    reason = tr(
        "held at {hold_c}, of at least {asked} asked for",
        hold_c=say.temperature(hold_c),
        asked=asked,
    )
    if by_print:
        reason += tr("; it is met as printed in the other unit")
    kept = hold_c >= clause.least_c - ROUNDING_C
    milder = hot_holding_clause(food, rule_set)
    if not kept and cooked is None and milder and hold_c >= milder.least_c - ROUNDING_C:
        reasons = (
            tr(
                "{reason}, but for {milder}: {printed}",
                reason=reason,
                milder=milder.title,
                printed=milder.printed,
            ),
            tr(COOK_NOT_KNOWN),
        )
        return AfterCookVerdict(Outcome.NOT_COVERED, rule_set, milder.clause, reasons)
    return AfterCookVerdict(outcome_of(kept), rule_set, clause.clause, (reason,))


def judge_hot_holding_of_any(
    hold_c: float,
    foods: Sequence[Food],
    rule_set: RuleSet,
    say: Wording = METRIC,
    *,
    cooked: bool | None = True,
) -> AfterCookVerdict:
    """Judge the holding of what may be any of several foods: as of one, where all agree."""

    def asked(food: Food) -> float:
        clause = hot_holding_clause(food, rule_set, cooked=bool(cooked))
        return clause.at_c if clause else 0.0

    by_asked = sorted(foods, key=asked)
    found = [judge_hot_holding(hold_c, food, rule_set, say, cooked=cooked) for food in by_asked]
    if not found:
        return no_clause(rule_set, tr("hot holding"))
    if len({each.outcome for each in found}) == 1:
        return found[-1] if found[-1].outcome is Outcome.MEETS else found[0]
    reasons = (found[-1].reasons[0], tr(_FOOD_NOT_KNOWN))
    return AfterCookVerdict(Outcome.NOT_COVERED, rule_set, found[-1].clause, reasons)
