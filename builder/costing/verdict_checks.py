"""Warnings of plans that do not meet the rule set which the kitchen itself names."""

from __future__ import annotations

from collections.abc import Iterator

from builder.cooking.cooling import AfterCookVerdict
from builder.cooking.verdicts import Outcome, Verdict
from builder.costing.heat import Heat
from builder.problems import Place, Problem, Severity
from builder.records.content import Content
from builder.records.kinds import Cook, Cut

HINT = "the page says how it was reckoned; the licensed authority decides"


def check_verdicts(content: Content, heat: Heat) -> Iterator[Problem]:
    """Warn of each cook, cooling, storing, reheating and holding that does not meet its rule."""
    for cook in content.cooks.values():
        cut = content.cuts[cook.cut]
        verdict = heat.verdict(cook, cut)
        if verdict is not None:
            yield from _told(cook, _stated(cook, verdict), "", verdict)
        for where, what, after in _after(cook, cut, heat):
            yield from _told(cook, where, what, after)


def _stated(cook: Cook, verdict: Verdict) -> Place:
    """The line that a verdict rests on: a temperature that is too low, else the time."""
    low = cook.core or cook.at if verdict.asked else None
    found = low or cook.for_ or cook.at
    return found.place if found else Place(cook.file)


def _after(cook: Cook, cut: Cut, heat: Heat) -> Iterator[tuple[Place, str, AfterCookVerdict]]:
    """What follows a cook: the line that states it, what it is, and its verdict."""
    if cook.cool is not None:
        wanted = str(cook.cool.in_ or "ice bath")
        for chilling in heat.chillings(cook):
            if chilling.where == wanted:
                yield cook.cool.within.place, f"cooling in the {wanted} ", chilling.verdict
    if cook.store is not None and (stored := heat.storing(cook)):
        yield cook.store.for_.place, "storing ", stored
    if cook.reheat is not None and (reheated := heat.reheating(cook)):
        yield cook.reheat.for_.place, "the reheating ", reheated[1]
    if cook.hold_at is not None and (held := heat.hot_holding(cook, cut)):
        yield cook.hold_at.place, "the hot holding ", held


def _told(
    cook: Cook, place: Place, what: str, verdict: Verdict | AfterCookVerdict
) -> Iterator[Problem]:
    if verdict.outcome is not Outcome.DOES_NOT_MEET:
        return
    rule = f"{verdict.rule_set.name} ({verdict.clause})"
    message = f"{what}does not meet {rule}: {_reason(verdict)}"
    yield Problem(place, message, HINT, Severity.WARNING, cook.path)


def _reason(verdict: Verdict | AfterCookVerdict) -> str:
    """The first reason; of a cooling's stages, that of the first one not kept."""
    if isinstance(verdict, AfterCookVerdict):
        for check, reason in zip(verdict.stages, verdict.reasons, strict=False):
            if not check.kept:
                return reason
    return verdict.reasons[0]
