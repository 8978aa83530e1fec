"""What is wrong with a service's plan: no start, clashes over equipment, loads in turn."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from itertools import groupby

from builder.cooking.schedule import ClashKind, taken_at_once
from builder.costing.services import (
    ROUND_THE_WEEK,
    SERVED,
    WEEK,
    ServicePlan,
    Wanted,
    bookings,
    heat_words,
)
from builder.costing.week_clashes import GearClash, Part, week_clashes
from builder.costing.wording import style_of
from builder.display.style import Style
from builder.display.words import listed
from builder.language import clauses, ntr, tr
from builder.problems import Problem, Severity
from builder.records.content import Content
from builder.records.equipment import gear_title
from builder.records.kinds import Equipment
from builder.records.loads import goes_in_by_number

# Of more clashes over one piece of equipment the rest is counted where all of the week are said.
_MOST = 4
PAGE = "equipment"


def check_services(content: Content, plans: Mapping[str, ServicePlan]) -> Iterator[Problem]:
    """Warn of a cook without a start, and of cooks that want one bath at once.

    All clashes over a piece of equipment are one warning; the page of a service has those that
    its own cooks are in.
    """
    for plan in plans.values():
        yield from _check_timed(plan)
        yield from _check_loads(content, plan)
    found = week_clashes(content, bookings(content, plans))
    for _, clashes in groupby(found, key=lambda clash: clash.equipment):
        yield clash_problem(content, list(clashes), PAGE, _MOST)


def clash_problem(
    content: Content, clashes: Sequence[GearClash], record: str, most: int | None = None
) -> Problem:
    """What is wrong with one piece of equipment, in sentences, as a warning of a page.

    The first `most` clashes are said, the rest counted; at the first service that is concerned.
    """
    wanted = clashes[0].whose[0]
    _, serving = wanted.planned.servings[0]
    return Problem(
        serving.covers.place,
        _gear_words(content, clashes, most),
        clauses(dict.fromkeys(_hints(content, clashes))),
        Severity.WARNING,
        record,
        needs=SERVED,
        days=frozenset(_start_days(clashes)),
    )


def _start_days(clashes: Sequence[GearClash]) -> Iterator[int]:
    """On which days of the week cooks start that are in a clash, Monday 0."""
    for wanted in (wanted for clash in clashes for wanted in clash.whose):
        yield wanted.plan.by_the_clock(wanted.booking.start).weekday()


def _gear_words(content: Content, clashes: Sequence[GearClash], most: int | None) -> str:
    """Each clash in a sentence; of several it is said first how many there are."""
    said = [clash_words(content, clash) for clash in clashes[:most]]
    if len(clashes) == 1:
        return said[0]
    title = gear_title(content.kitchen.equipment, clashes[0].equipment)
    head = ntr(
        "{title} has {count} clash in the week",
        "{title} has {count} clashes in the week",
        len(clashes),
        title=title,
    )
    if rest := len(clashes) - len(said):
        said.append(
            ntr("{count} more is on the schedule", "{count} more are on the schedule", rest)
        )
    # A clock time of twelve hours brings its own point.
    return " ".join([*(f"{each.removesuffix('.')}." for each in [head, *said[:-1]]), said[-1]])


def _check_timed(plan: ServicePlan) -> Iterator[Problem]:
    for planned in plan.untimed:
        yield Problem(
            planned.servings[0][1].covers.place,
            tr("no start is given for {cook}: its hours are not written", cook=planned.cook.title),
            tr("write how long it cooks in {file}, for example for: 30 h", file=planned.cook.file),
            Severity.WARNING,
            plan.service.path,
            needs=SERVED,
        )


def _check_loads(content: Content, plan: ServicePlan) -> Iterator[Problem]:
    """Warn where more pieces are asked for than lie side by side in one load."""
    style = style_of(content.kitchen)
    for planned in plan.cooks:
        hours = planned.cook.for_
        if planned.loads < 2 or hours is None or not goes_in_by_number(planned.cook):
            continue
        message = tr(
            "{cook}: {asked} are asked for, of which {load} go in at once, so it takes {loads} "
            "loads; the plan has the time of one",
            cook=planned.cook.title,
            asked=ntr("{count} piece", "{count} pieces", planned.pieces),
            load=style.count(planned.by_load),
            loads=style.count(planned.loads),
        )
        hint = tr(
            "start the first one earlier: {loads} loads of {hours} take {all}; where more go in "
            "at once, write so in {file} (load:)",
            loads=style.count(planned.loads),
            hours=style.duration(hours.value),
            all=style.duration(hours.value * planned.loads),
            file=planned.cook.file,
        )
        place = planned.servings[0][1].covers.place
        days = frozenset(step.start.weekday() for step in planned.steps)
        yield Problem(
            place, message, hint, Severity.WARNING, plan.service.path, needs=SERVED, days=days
        )


def clash_words(content: Content, clash: GearClash) -> str:
    """What clashes, when, and by how much, in one sentence."""
    style, gear = style_of(content.kitchen), _gear(content, clash)
    title = gear_title(content.kitchen.equipment, clash.equipment)
    cooks, span = listed([_who(style, w) for w in clash.whose]), _span(style, clash)
    if clash.kind is ClashKind.TEMPERATURE:
        return tr(
            "{title} is wanted at {count} temperatures at once, {span}: {cooks}",
            title=title,
            count=_temperatures(style, clash),
            cooks=cooks,
            span=span,
        )
    if clash.kind is ClashKind.NUMBER:
        there = gear.how_many.text if gear and gear.how_many else "1"
        needed = ntr(
            "{title}: {cooks} needs {needed} at once, {span}",
            "{title}: {cooks} need {needed} at once, {span}",
            len(clash.whose),
            title=title,
            cooks=cooks,
            needed=clash.most.clash.needed,
            span=span,
        )
        one, more = tr("there is {there}", there=there), tr("there are {there}", there=there)
        return clauses([needed, one if there == "1" else more])
    holds = gear.holds if gear else None
    return _load_words(style, clash, title, cooks, style.weight(holds.value) if holds else "")


def _load_words(style: Style, clash: GearClash, title: str, cooks: str, holds: str) -> str:
    """Who puts more into it than it holds; of several in turn the most that is in it at once."""
    room = tr(", which holds {holds}", holds=holds) if holds else ""
    load = style.weight(clash.most.clash.load_kg)
    if len(clash.parts) > 1:
        load = tr("up to {load}", load=load)
    return ntr(
        "{cooks} puts {load} into {title}{room}, {span}",
        "{cooks} put {load} into {title}{room}, {span}",
        len(clash.whose),
        cooks=cooks,
        load=load,
        title=title,
        room=room,
        span=_span(style, clash),
    )


def _gear(content: Content, clash: GearClash) -> Equipment | None:
    name = clash.whose[0].planned.cook.equipment
    return content.kitchen.equipment[name] if name else None


def _who(style: Style, wanted: Wanted) -> str:
    return tr(
        "{cook} ({heat_words}, for {service})",
        cook=wanted.planned.cook.title,
        heat_words=heat_words(style, wanted.planned.cook),
        service=wanted.plan.service.title,
    )


def _span(style: Style, clash: GearClash) -> str:
    """From when to when; where several in turn leave gaps, not all of that time is a clash."""
    if clash.end - clash.start >= WEEK:
        return tr("all week")
    shown: list[datetime] = [clash.whose[0].plan.by_the_clock(m) for m in (clash.start, clash.end)]
    start, end = map(style.day_and_time, shown)
    if not clash.unbroken:
        return tr("at times from {start} to {end}", start=start, end=end)
    return tr(
        "from {day_and_time} to {day_and_time2}",
        day_and_time=start,
        day_and_time2=end,
    )


def _temperatures(style: Style, clash: GearClash) -> str:
    """How many temperatures are asked of one piece of equipment, of several the most."""
    wanted = [w.booking for w in clash.whose]
    starts = {part.clash.start for part in clash.parts}
    at_once = [
        [b for b in wanted for by in ROUND_THE_WEEK if b.start + by <= start < b.end + by]
        for start in starts
    ]
    counts = [taken_at_once(inside, None) for inside in at_once]
    most = style.count(max(counts))
    return most if min(counts) == max(counts) else tr("up to {count}", count=most)


def _hints(content: Content, clashes: Sequence[GearClash]) -> Iterator[str]:
    """What would mend them, each way once, in the order in which they are named."""
    for kind in dict.fromkeys(clash.kind for clash in clashes):
        if kind is ClashKind.TEMPERATURE:
            yield tr("start one earlier and chill it, or move it to other equipment")
        elif kind is ClashKind.NUMBER:
            yield tr("start one earlier and chill it, bring two to one temperature, or move one")
        else:
            yield _crowded_hint(content, [clash for clash in clashes if clash.kind is kind])


def _crowded_hint(content: Content, clashes: Sequence[GearClash]) -> str:
    gear = _gear(content, clashes[0])
    if not gear or not gear.holds:
        return tr("move a part to other equipment")
    crowded = [part for clash in clashes for part in clash.parts]
    return _room_hint(style_of(content.kitchen), crowded, gear.holds.value)


def _room_hint(style: Style, crowded: Sequence[Part], holds: float) -> str:
    loads = max(taken_at_once([w.booking for w in part.whose], holds) for part in crowded)
    over = max(part.clash.load_kg - _fits(part, holds) for part in crowded)
    times, more = style.count(max(loads, 2)), style.weight(over)
    if len(crowded) > 1:
        return tr(
            "cook in up to {max} loads, or move up to {more} to other equipment",
            max=times,
            more=more,
        )
    return tr("cook in {max} loads, or move {more} to other equipment", max=times, more=more)


def _fits(part: Part, holds: float) -> float:
    """What of a clash's load stays [kg]: whole pieces, where all of it is of one size."""
    booked = [wanted.booking for wanted in part.whose]
    sizes = {round(each.load_kg / each.pieces, 6) for each in booked if each.pieces}
    if len(sizes) != 1 or not all(each.pieces for each in booked):
        return min(holds, part.clash.load_kg)
    piece = sizes.pop()
    return math.floor(holds / piece + 1e-9) * piece
