"""When the steps of a tasting's plan fall, and those that fall while nobody is there."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import datetime, timedelta

from builder.cooking.schedule import earlier
from builder.costing.blind import is_over
from builder.costing.clock_changes import CLOCK_HINT, change_words, clock_changes
from builder.costing.services import CLOCK_STEP_MIN, as_the_clock_shows
from builder.costing.tasting_results import TastingResult
from builder.costing.wording import style_of
from builder.display.style import Style
from builder.display.words import listed
from builder.language import tr
from builder.problems import Problem, Severity
from builder.records.clock import Staffed
from builder.records.content import Content
from builder.records.tastings import Tasting
from builder.tasting.plans import TimetableLine

# Serving times are tried by quarters of an hour.
_QUARTER_MIN = 15
_DAY_MIN = 24 * 60
_NEEDS = ("tastings", "cooking", "work")


def whole_steps(minutes: float) -> int:
    """Minutes before service [min] as the clock has them: its five minutes, and no later."""
    return math.ceil(minutes / CLOCK_STEP_MIN - 1e-9) * CLOCK_STEP_MIN


def served_at(content: Content, tasting: Tasting) -> datetime | None:
    """The moment at which everything is served, in the kitchen's zone, where it is written."""
    if tasting.date is None or tasting.serve_at is None:
        return None
    at = datetime.combine(tasting.date.day, tasting.serve_at.hour, content.kitchen.time_zone)
    return as_the_clock_shows(at)


def step_at(served: datetime, minutes: float) -> datetime:
    """When a step so many minutes before service begins, as the kitchen's clock shows it."""
    return earlier(served, whole_steps(minutes))


def check_tasting_hours(content: Content, result: TastingResult) -> Iterator[Problem]:
    """Warn of a tasting ahead that needs hands while nobody is there, or whose clocks change."""
    tasting, at = result.tasting, served_at(content, result.tasting)
    if tasting.serve_at is None or at is None or is_over(content, tasting, result.held):
        return
    for message, hint in (*_unattended_words(content, result, at), *_changes(content, result, at)):
        place = tasting.serve_at.place
        yield Problem(place, message, hint, Severity.WARNING, tasting.path, needs=_NEEDS)


def _unattended_words(
    content: Content, result: TastingResult, at: datetime
) -> Iterator[tuple[str, str]]:
    staffed, style = content.kitchen.staffed, style_of(content.kitchen)
    if staffed is None or not (late := _unattended(staffed, result, at)):
        return
    message = tr(
        "the plan needs hands outside the staffed hours: {reported}",
        reported=", ".join(_step_words(style, result, at, step) for step in late),
    )
    yield message, _mending(staffed, result, at, late)


def _changes(content: Content, result: TastingResult, at: datetime) -> Iterator[tuple[str, str]]:
    """What is said of each change of the clocks between the first step and serving."""
    first = step_at(at, max((step.before for step in result.plan.timetable), default=0.0))
    for moment, by in clock_changes(first, at):
        yield change_words(style_of(content.kitchen), moment, by), tr(CLOCK_HINT)


def _step_words(style: Style, result: TastingResult, at: datetime, step: TimetableLine) -> str:
    when = style.day_and_time(step_at(at, step.before))
    if not step.sample:
        return tr("{action} {when}", action=tr(step.action), when=when)
    sample = result.words_of(step.sample)
    return tr("{action} {when} ({sample})", action=tr(step.action), when=when, sample=sample)


def _unattended(staffed: Staffed, result: TastingResult, at: datetime) -> list[TimetableLine]:
    """The steps that nobody can begin; who serves stays until the last sample is tasted."""
    return [
        step
        for step in result.plan.timetable
        if not _is_attended(
            staffed, step_at(at, step.before), 0.0 if step.sample else result.plan.session
        )
    ]


def _is_attended(staffed: Staffed, start: datetime, minutes: float) -> bool:
    return staffed.covers(start, start + timedelta(minutes=minutes))


def _mending(
    staffed: Staffed, result: TastingResult, at: datetime, late: list[TimetableLine]
) -> str:
    """The nearest time of that day at which everything falls into the staffed hours."""
    midnight = datetime.combine(at.date(), datetime.min.time(), at.tzinfo)
    times = (midnight + timedelta(minutes=by) for by in range(0, _DAY_MIN, _QUARTER_MIN))
    fits = (each for each in times if not _unattended(staffed, result, each))
    nearest = min(fits, key=lambda each: abs(each - at), default=None)
    if nearest is not None:
        return tr("write serve at: {clock}", clock=f"{nearest:%H:%M}")
    samples = dict.fromkeys(result.words_of(step.sample) for step in late if step.sample)
    if not samples:
        return tr("no other time of that day has somebody there for every step: choose another day")
    return tr(
        "no other time of that day has somebody there for every step: choose another day, or "
        "taste {samples} another time",
        samples=listed(list(samples)),
    )
