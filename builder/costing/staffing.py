"""Work that a service asks for while nobody is there, and the start that would mend it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import timedelta
from functools import partial

from builder.cooking.schedule import ScheduleStep, TimedStep
from builder.cooking.verdict import Outcome
from builder.costing.busy import Busy
from builder.costing.cautions import findings
from builder.costing.heat import Heat
from builder.costing.plans import modelled
from builder.costing.service_steps import COOK, PREPARE, steps_of
from builder.costing.services import SERVED, PlannedCook, ServicePlan, on_the_clock
from builder.costing.wording import style_of
from builder.display.rounded_sizes import lasting
from builder.display.style import NBSP, Style
from builder.display.words import listed
from builder.language import Deferred, clauses, tr
from builder.problems import Problem, Severity
from builder.records.clock import Staffed
from builder.records.content import Content
from builder.records.guests import own_covers
from builder.records.kinds import Cook, Cut
from builder.records.services import Serving

# A start is looked for by quarters of an hour: a cook a night longer, a week in the cold at most.
_QUARTER_MIN, _LONGER_MIN, _COLD_MIN = 15, 12 * 60, 7 * 24 * 60
_DAY_MIN = 24 * 60
_HOLD = "hold"
_TOO_LONG = Deferred("for so long it does not pass the rules and cautions; put those right first")
_AS_WRITTEN = Deferred(
    "another warning of this cook, which does not depend on how long it "
    "cooks, has to be put right first"
)
_UNMODELLED = Deferred("for this way of cooking is not modelled here")
_NOT_COVERED = Deferred("for no rule here answers for this cook as its file is written")


def check_staffed(
    content: Content, plans: Mapping[str, ServicePlan], heat: Heat
) -> Iterator[Problem]:
    """Warn of work outside the hours that the kitchen states, each cook of a service once."""
    staffed = content.kitchen.staffed
    if staffed is None:
        return
    style = style_of(content.kitchen)
    for plan in plans.values():
        if late := unattended(staffed, plan.staff):
            yield _warning(
                style, plan, plan.service.title, late, tr("move the service, or shorten its steps")
            )
        for planned in plan.cooks:
            if late := unattended(staffed, planned.steps):
                cut = content.cuts[planned.cook.cut]
                held_back = partial(_held_back, planned.cook, cut, heat)
                busy = Busy.of(content, plans, planned)
                hint = _proposal(style, staffed, plan, planned, held_back, busy) or tr(
                    "nothing that the plan allows moves it into them: {ahead}",
                    ahead=_ahead(planned.cook),
                )
                yield _warning(style, plan, planned.cook.title, late, hint, planned)


def _warning(
    style: Style, plan: ServicePlan, title: str, late: list[TimedStep], hint: str,
    planned: PlannedCook | None = None,
) -> Problem:  # fmt: skip
    """The problem at the plate's line of the service, or at its hour for the staff's own steps."""
    at = planned.servings[0][1].covers if planned else plan.service.at
    reported = ", ".join(f"{tr(each.step.name)} {style.day_and_time(each.start)}" for each in late)
    message = tr(
        "hands are needed outside the staffed hours for {title}: {reported}",
        title=title,
        reported=reported,
    )
    days = frozenset(each.start.weekday() for each in late)
    return Problem(
        at.place, message, hint, Severity.WARNING, plan.service.path, needs=SERVED, days=days
    )


def unattended(staffed: Staffed, steps: Iterable[TimedStep]) -> list[TimedStep]:
    """The steps that nobody can start, or nobody can finish where they are work by hand.

    What goes on by itself needs hands at its start; its end is the start of the next step.
    """
    return [
        each
        for each in steps
        if not staffed.covers(each.start, each.end if each.step.hands_on else each.start)
    ]


# What would mend it


def _ahead(cook: Cook) -> str:
    """What else brings the work into the staffed hours: the keys that the cook's file lacks."""
    written = {"cool:": cook.cool, "store:": cook.store, "reheat:": cook.reheat}
    lacking = [key for key, value in written.items() if value is None]
    if not lacking:
        return tr("serve at another time")
    keys = listed(lacking)
    return tr(
        "serve at another time, or let it be cooked ahead ({keys} in the cook's file)", keys=keys
    )


def _held_back(cook: Cook, cut: Cut, heat: Heat, hours: float) -> str:
    """Why a cook is not proposed for so long; empty where nothing speaks against it.

    Under an authority a longer cook that it does not cover is not proposed either.
    """
    if cook.for_ is None:
        return _not_proposed(_NOT_COVERED)
    longer = cook.model_copy(update={"for_": replace(cook.for_, value=hours)})
    judged = Heat.of(heat.authority, [longer], heat.say)
    verdict = judged.verdict(longer, cut)
    if wrong := {found.message for found in findings(longer, cut, judged)}:
        now = {found.message for found in findings(cook, cut, heat)}
        why = tr(_AS_WRITTEN) if wrong <= now else tr(_TOO_LONG)
        return tr("a longer cook would move it into them, and is not proposed: {why}", why=why)
    if verdict is None or verdict.outcome is Outcome.MEETS:
        return ""
    return _not_proposed(_NOT_COVERED if modelled(longer) else _UNMODELLED)


def _not_proposed(why: Deferred) -> str:
    return tr("a longer cook would move it into them, and is not proposed, {why}", why=why)


def _proposal(
    style: Style,
    staffed: Staffed,
    plan: ServicePlan,
    planned: PlannedCook,
    held_back: Callable[[float], str],
    busy: Busy,
) -> str | None:
    """The nearest way that the plan allows: more or less cold, a shorter hold, a longer cook.

    None where none of them brings every step into the staffed hours. Where only the preparing is
    outside them, nothing else moves. A longer cook that its rules and cautions don't let pass is
    held back, and it is said why. A way that takes the equipment from another cook comes last.
    """
    if words := _prepared_before(style, staffed, planned):
        return words
    clashing = ""
    for ways in (_colder(style, planned), _shorter_hold(style, planned), _overnight(planned)):
        for steps, words in ways:
            timed = on_the_clock(plan.at, steps)
            if unattended(staffed, timed):
                continue
            if not words and (why := held_back(_cook_hours(steps))):
                # A still longer one passes no better.
                return clashing or tr("{why}; or {ahead}", why=why, ahead=_ahead(planned.cook))
            way = _way_words(style, planned, timed, words)
            if not busy.clashes_more(timed):
                return way
            wanted = tr("{equipment} is then wanted by another cook, too", equipment=busy.title)
            clashing = clashing or clauses((way, wanted))
    return clashing or None


def _way_words(style: Style, planned: PlannedCook, timed: Sequence[TimedStep], words: str) -> str:
    """One way in words, with its first start."""
    if not words:
        return _overnight_words(style, planned, timed)
    start = style.day_and_time(timed[0].start)
    return tr("start it on {day_and_time} and ", day_and_time=start) + words


def _prepared_before(style: Style, staffed: Staffed, planned: PlannedCook) -> str:
    """When the piece may be prepared where nothing but that is outside the staffed hours."""
    late = unattended(staffed, planned.steps)
    if len(late) != 1 or late[0].step.name != PREPARE:
        return ""
    before = (timedelta(minutes=by) for by in range(_QUARTER_MIN, _DAY_MIN + 1, _QUARTER_MIN))
    moved = (replace(late[0], start=late[0].start - by, end=late[0].end - by) for by in before)
    found = next((each for each in moved if not unattended(staffed, [each])), None)
    if found is None:
        return ""
    return tr(
        "prepare it by {day_and_time} and keep it cold until it goes in as planned",
        day_and_time=style.day_and_time(found.end),
    )


Ways = Iterator[tuple[list[ScheduleStep], str]]


def _colder(style: Style, planned: PlannedCook) -> Ways:
    """Other times in the cold, the nearest to the plan's first, up to what its store allows."""
    cook, serving = planned.cook, planned.servings[0][1]
    if cook.cool is None or cook.reheat is None:
        return
    now = round(serving.ahead.value * 60) if serving.ahead else 0
    most = min(round(cook.store.for_.value * 60) if cook.store else now, now + _COLD_MIN)
    times = range(now % _QUARTER_MIN or _QUARTER_MIN, most + 1, _QUARTER_MIN)
    limit = (
        tr(", of the {for_words} that it may be stored", for_words=cook.store.for_.text)
        if cook.store
        else ""
    )
    for minutes in sorted(times, key=lambda minutes: abs(minutes - now)):
        long = style.duration(minutes / 60)
        written = clauses(
            f"{plate.id}: [{_own_text(serving)}, {long.replace(NBSP, ' ')}]"
            for plate, serving in planned.servings
        )
        yield (
            list(steps_of(cook, minutes / 60)),
            tr(
                "keep it {long} in the cold{limit}; write {written}",
                long=lasting(style, minutes / 60),
                limit=limit,
                written=written,
            ),
        )


def _own_text(serving: Serving) -> str:
    """The covers that a plate's own line has; none of its own where guests of a menu take it."""
    own = own_covers(serving.covers)
    return own.text if own else "0"


def _shorter_hold(style: Style, planned: PlannedCook) -> Ways:
    """Later starts, with a shorter hold before service."""
    steps = _steps(planned)
    hold = next((step for step in steps if step.name == _HOLD), None)
    if hold is None:
        return
    for minutes in range(int(hold.duration_min) - _QUARTER_MIN, -1, -_QUARTER_MIN):
        words = tr(
            "hold it {minutes} instead of ", minutes=style.duration(minutes / 60)
        ) + style.duration(hold.duration_min / 60)
        yield _with(steps, hold, minutes), words


def _overnight(planned: PlannedCook) -> Ways:
    """Longer cooks, which start before the staff leave and end as planned."""
    steps = _steps(planned)
    cook = next((step for step in steps if step.name == COOK), None)
    if cook is None:
        return
    for more in range(_QUARTER_MIN, _LONGER_MIN + 1, _QUARTER_MIN):
        yield _with(steps, cook, cook.duration_min + more), ""


def _cook_hours(steps: Iterable[ScheduleStep]) -> float:
    return sum(step.duration_min for step in steps if step.name == COOK) / 60


def _steps(planned: PlannedCook) -> list[ScheduleStep]:
    return [each.step for each in planned.steps]


def _with(steps: list[ScheduleStep], one: ScheduleStep, minutes: float) -> list[ScheduleStep]:
    return [replace(step, duration_min=minutes) if step is one else step for step in steps]


def _overnight_words(style: Style, planned: PlannedCook, timed: Iterable[TimedStep]) -> str:
    cook = next(each for each in timed if each.step.name == COOK)
    now = planned.cook.for_
    hours = style.duration(cook.step.duration_min / 60)
    if cook.start.date() == cook.end.date():
        return tr(
            "cook it longer: in on {day_and_time}, before the staff leave, out on "
            "{day_and_time2}, {hours} instead of {now}; taste whether it is "
            "as good after the longer cook",
            day_and_time=style.day_and_time(cook.start),
            day_and_time2=style.day_and_time(cook.end),
            hours=hours,
            now=now.text if now else tr("none"),
        )
    return tr(
        "cook it overnight: in on {day_and_time}, before the staff leave, out on "
        "{day_and_time2}, {hours} instead of {now}; taste whether it is "
        "as good after the longer cook",
        day_and_time=style.day_and_time(cook.start),
        day_and_time2=style.day_and_time(cook.end),
        hours=hours,
        now=now.text if now else tr("none"),
    )
