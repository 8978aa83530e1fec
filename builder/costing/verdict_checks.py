"""Warnings of plans that do not meet the kitchen's rule set, and of cautions under any."""

from __future__ import annotations

from collections.abc import Iterator

from builder.cooking.verdict import Outcome
from builder.costing.cautions import RECKONED, failure, reported_findings
from builder.costing.heat import Heat
from builder.costing.services import SERVED
from builder.language import Deferred, tr
from builder.problems import Place, Problem, Severity
from builder.records.content import Content
from builder.records.kinds import Cook, Cut, PantryItem, Service

# What such a warning rests on.
_COOKED, _MADE = ("cooks", "cooking"), ("pantry", "cooking")
_FOUND = ("cooks", *SERVED)


def check_verdicts(content: Content, heat: Heat) -> Iterator[Problem]:
    """Warn of each cook, cooling, storing, reheating and holding that does not meet its rule."""
    for cook in content.cooks.values():
        for found in reported_findings(cook, content, heat):
            yield _warn(found.place, found.after_name, found.hint, cook.path, _FOUND)
        yield from _unjudged(cook, content.cuts[cook.cut], heat)
    for item in content.pantry.values():
        yield from _kept_made(item, heat)
    for service in content.services.values():
        yield from _kept_ahead(content, heat, service)


def _unjudged(cook: Cook, cut: Cut, heat: Heat) -> Iterator[Problem]:
    """One warning for all the keys that keep a cook from being held against the rules."""
    keys, rules = heat.missing_keys(cook, cut), heat.rule_set
    if keys and rules:
        message = tr("this cook can't be compared with {rules}: keys are missing", rules=rules.name)
        hint = tr("add {keys}", keys=", ".join(keys))
        yield _warn(Place(cook.file), message, hint, cook.path, _COOKED)
    stored = heat.storing(cook, cut)
    if rules and stored and stored.waits and cook.store and cook.cool is None:
        message = tr(
            "storing can't be compared with {rules} ({clause}): {uncooled}",
            rules=rules.name,
            clause=stored.clause,
            uncooled=_UNCOOLED,
        )
        yield _warn(cook.store.for_.place, message, tr(_COOL), cook.path, _COOKED)


def _kept_made(item: PantryItem, heat: Heat) -> Iterator[Problem]:
    """A sub-recipe kept longer than the clause allows, where nobody else says that it may be."""
    stored = heat.storing_made(item)
    if item.store is None or item.store.source or stored is None:
        return
    if stored.outcome is Outcome.DOES_NOT_MEET:
        message = tr(
            "storing {failure}, where it is food that has to be kept cold", failure=failure(stored)
        )
        hint = tr("keep it less long, or write source: with who says so")
        yield _warn(item.store.for_.place, message, hint, item.path, _MADE)


def _warn(place: Place, message: str, hint: str, record: str, needs: tuple[str, ...]) -> Problem:
    return Problem(place, message, hint, Severity.WARNING, record, needs=needs)


_UNCOOLED = Deferred("the file does not say how the cook is cooled")
_COOL = Deferred("add cool: (to what temperature, within what time, and in what)")


def _kept_ahead(content: Content, heat: Heat, service: Service) -> Iterator[Problem]:
    """Plates that lie in the cold before a service for longer than a clause allows."""
    for name, serving in service.plates.items():
        plate = content.plates[name]
        if serving.ahead is None or not serving.ahead.value > 0:
            continue
        chilled = (content.cooks[name] for name in plate.cooks if content.cooks[name].cool)
        for cook in chilled:
            kept = heat.kept_cold(cook, content.cuts[cook.cut], serving.ahead.value)
            if kept is not None and kept.outcome is Outcome.DOES_NOT_MEET:
                what = tr(
                    "{plate}, kept ahead, {failure}", plate=plate.title, failure=failure(kept)
                )
                yield _warn(serving.ahead.place, what, tr(RECKONED), service.path, SERVED)
