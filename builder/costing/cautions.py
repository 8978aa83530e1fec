"""What is wrong with a cook's times and temperatures, in words, with the line that states it.

The same sentences go to the build's output, the cook's page, its plates and its log sheet.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from builder.cooking.cautions import GROWS_FROM_C, GROWS_TO_C, PASSED_WITHIN_MIN, Caution, Slow
from builder.cooking.cooling import AfterCookVerdict
from builder.cooking.verdict import DECIDES, Outcome, Verdict
from builder.cooking.wording import Wording
from builder.costing.heat import Heat
from builder.language import Deferred, clauses, labelled, tr, written
from builder.problems import Place
from builder.records.content import Content
from builder.records.kinds import Cook, Cut, Service

REHEATS = Deferred("the reheating")
RECKONED = Deferred("the page shows the arithmetic; the licensed authority decides")


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing to put right, the line that states it, and what may be done.

    `unlabelled`: the message of a caution without the word.
    """

    place: Place
    message: str
    hint: str
    reheats: bool = False
    is_caution: bool = False
    unlabelled: str = ""

    @property
    def after_name(self) -> str:
        """What is written after a cook's name and a colon: one colon is enough."""
        return self.unlabelled or self.message

    def of(self, name: str) -> str:
        """The same with a cook's name before it, and one colon."""
        said = tr("{name}, a caution", name=name) if self.is_caution else name
        return labelled(said, self.after_name)


def reported_findings(
    cook: Cook, content: Content, heat: Heat, services: Iterable[Service] | None = None
) -> Iterator[Finding]:
    """The findings; of services named, without the reheating's where none of them chills the cook.

    A cook's own file says how it is brought back: what is wrong with it is, though no service of
    the kitchen does so today.
    """
    ahead = [
        bool(cook.cool and serving.ahead and serving.ahead.value > 0)
        for service in services or ()
        for plate, serving in service.plates.items()
        if cook.id in content.plates[plate].cooks
    ]
    never = bool(ahead) and not any(ahead)
    for found in findings(cook, content.cuts[cook.cut], heat):
        if not (never and found.reheats):
            yield found


def findings(cook: Cook, cut: Cut, heat: Heat) -> Iterator[Finding]:
    """What does not meet the kitchen's rule set, then what is a caution under any."""
    yield from sorted(_in_turn(cook, cut, heat), key=lambda found: found.is_caution)


def _in_turn(cook: Cook, cut: Cut, heat: Heat) -> Iterator[Finding]:
    """Failures and cautions from the cook to what follows it."""
    verdict = heat.verdict(cook, cut)
    if verdict is not None and verdict.outcome is Outcome.DOES_NOT_MEET:
        message = tr(
            "the plan does not meet {rule}: {reasons}",
            rule=_rule(verdict),
            reasons=verdict.reasons[0],
        )
        yield Finding(_stated(cook, verdict), message, tr(RECKONED))
    for caution in heat.cautions(cook):
        if not (caution.what is Slow.COMING_UP and verdict and verdict.comes_up_late):
            yield _finding(cook, caution, heat.say)
    for place, what, after in _after(cook, cut, heat):
        if after.outcome is Outcome.DOES_NOT_MEET:
            message = f"{written(what)} {failure(after)}"
            yield Finding(place, message, tr(RECKONED), reheats=what == REHEATS)
    yield from _chilled_late(cook, heat)


def _chilled_late(cook: Cook, heat: Heat) -> Iterator[Finding]:
    """A core that is not as cold as the file asks in the time that it gives, at the fast end."""
    chilling = heat.chilling(cook)
    if cook.cool is None or chilling is None:
        return
    given, took = cook.cool.within.value * 60, chilling.to_target_min
    if took is not None and took.low <= given:
        return
    to, within = heat.say.temperature(cook.cool.to.value), heat.say.minutes(given)
    late = tr("never brings the core to {to}", to=to)
    if took is not None:
        slow = heat.say.estimate(took.high)
        late = tr(
            "takes {slow} at the slow end, and even at the fast end longer than the "
            "{within} that the file gives it to {to}",
            slow=slow,
            within=within,
            to=to,
        )
    words = tr("cooling in the {where} {late}", where=chilling.where, late=late)
    yield _as_caution(cook.cool.within.place, words, tr(_HINTS[Slow.COOLING]))


def failure(after: AfterCookVerdict) -> str:
    """What is not met of what follows a cook, and why."""
    return tr(
        "does not meet {rule}: {failed_reason}",
        rule=_rule(after),
        failed_reason=_failed_reason(after),
    )


def _rule(verdict: Verdict | AfterCookVerdict) -> str:
    return f"{verdict.rule_set.name} ({verdict.clause})"


def _stated(cook: Cook, verdict: Verdict) -> Place:
    """The line that a verdict rests on: a temperature that is too low, else the time."""
    low = cook.core or cook.at if verdict.asked else None
    found = low or cook.for_ or cook.at
    return found.place if found else Place(cook.file)


def _after(cook: Cook, cut: Cut, heat: Heat) -> Iterator[tuple[Place, str, AfterCookVerdict]]:
    """What follows a cook: the line that states it, what it is, and its verdict."""
    if cook.cool is not None and (chilling := heat.chilling(cook)):
        yield (
            cook.cool.within.place,
            tr("cooling in the {where}", where=chilling.where),
            chilling.verdict,
        )
    if cook.store is not None and (stored := heat.storing(cook, cut)):
        yield cook.store.for_.place, tr("storing"), stored
    if cook.reheat is not None and (reheated := heat.reheating(cook, cut)):
        yield cook.reheat.for_.place, REHEATS, reheated[1]
    if cook.hold_at is not None and (held := heat.hot_holding(cook, cut)):
        yield cook.hold_at.place, tr("the hot holding"), held


def _failed_reason(verdict: AfterCookVerdict) -> str:
    """The first reason; of a cooling's stages, that of the first one not kept."""
    for check, reason in zip(verdict.stages, verdict.reasons, strict=False):
        if not check.kept:
            return reason
    return verdict.reasons[0]


def _finding(cook: Cook, caution: Caution, say: Wording) -> Finding:
    place, hint = _line(cook, caution.what), tr(_HINTS[caution.what])
    again = caution.what is Slow.REHEATING
    return _as_caution(place, caution_words(caution, say), hint, reheats=again)


def _as_caution(place: Place, words: str, hint: str, *, reheats: bool = False) -> Finding:
    bare = clauses((words, tr(DECIDES)))
    message = tr("caution: {caution_words}", caution_words=bare)
    return Finding(place, message, hint, reheats, is_caution=True, unlabelled=bare)


_HINTS = {
    Slow.COOK: Deferred("cook it hotter, or ask the licensed authority before you serve it"),
    Slow.COMING_UP: Deferred("use thinner pieces or a hotter bath, and log the core with a probe"),
    Slow.COOLING: Deferred(
        "use thinner pieces or colder, moving water, and log the core with a probe"
    ),
    Slow.REHEATING: Deferred("use thinner pieces or a hotter bath, and log the core with a probe"),
}


def _line(cook: Cook, what: Slow) -> Place:
    """Where the file states what takes long."""
    thick = cook.piece.thickness if cook.piece else None
    at = {
        Slow.COOK: cook.core or cook.at,
        Slow.COMING_UP: thick or cook.at,
        Slow.COOLING: cook.cool.within if cook.cool else None,
        Slow.REHEATING: cook.reheat.at if cook.reheat else None,
    }[what]
    return at.place if at else Place(cook.file)


def caution_words(caution: Caution, say: Wording) -> str:
    """What a caution says, without its hint."""
    low, high = say.temperature(GROWS_FROM_C), say.temperature(GROWS_TO_C)
    limit = say.minutes(PASSED_WITHIN_MIN)
    if caution.what is Slow.COOK:
        # The cook's own time, which its file states.
        whole = say.minutes(caution.taken_min)
        return tr(
            "{whole} below {high}, where bacteria can grow; no published table goes so low",
            whole=whole,
            high=high,
        )
    taken = say.estimate(caution.taken_min, limit=PASSED_WITHIN_MIN)
    if not caution.gets_through:
        return tr(
            "{what}, the core stays below {high} for {taken} at the slow end",
            what=tr(caution.what.value),
            high=high,
            taken=taken,
        )
    first, last = (high, low) if caution.what is Slow.COOLING else (low, high)
    span = tr("from {first} to {last} at the slow end", first=first, last=last)
    return tr(
        "{what}, the core takes {taken} {span}, longer than {limit}",
        what=tr(caution.what.value),
        taken=taken,
        span=span,
        limit=limit,
    )
