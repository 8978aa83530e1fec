"""What is wrong with a service's plan: no start, clashes over equipment, loads in turn."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from builder.cooking.schedule import Clash, ClashKind, taken_at_once
from builder.costing.services import (
    SERVED,
    ServicePlan,
    Wanted,
    bookings,
    heat_words,
    week_clashes,
)
from builder.costing.wording import style_of
from builder.display.words import listed
from builder.language import clauses, ntr, tr
from builder.problems import Problem, Severity
from builder.records.content import Content
from builder.records.equipment import gear_title
from builder.records.loads import goes_in_by_number


def check_services(content: Content, plans: Mapping[str, ServicePlan]) -> Iterator[Problem]:
    """Warn of a cook without a start, and of two cooks that want one bath at once.

    A clash is on the page of each service concerned.
    """
    for plan in plans.values():
        yield from _check_timed(plan)
        yield from _check_loads(content, plan)
    for clash, whose in week_clashes(content, bookings(content, plans)):
        reported: set[str] = set()
        starts = (each.plan.by_the_clock(each.booking.start) for each in whose)
        days = frozenset(start.weekday() for start in starts)
        for wanted in whose:
            service = wanted.plan.service
            if service.id in reported:
                continue
            reported.add(service.id)
            _, serving = wanted.planned.servings[0]
            yield Problem(
                serving.covers.place,
                clash_words(content, clash, whose),
                _hint(content, clash, whose),
                Severity.WARNING,
                service.path,
                needs=SERVED,
                days=days,
            )


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


def clash_words(content: Content, clash: Clash, whose: list[Wanted]) -> str:
    """A clash in one sentence."""
    style = style_of(content.kitchen)
    start, end = (whose[0].plan.by_the_clock(moment) for moment in (clash.start, clash.end))
    span = tr(
        "from {day_and_time} to {day_and_time2}",
        day_and_time=style.day_and_time(start),
        day_and_time2=style.day_and_time(end),
    )
    cooks = listed(
        [
            tr(
                "{cook} ({heat_words}, for {service})",
                cook=w.planned.cook.title,
                heat_words=heat_words(style, w.planned.cook),
                service=w.plan.service.title,
            )
            for w in whose
        ]
    )
    title = gear_title(content.kitchen.equipment, clash.equipment)
    if clash.kind is ClashKind.TEMPERATURE:
        return tr(
            "{title} is wanted by {cooks} at once, {span}", title=title, cooks=cooks, span=span
        )
    name = whose[0].planned.cook.equipment
    gear = content.kitchen.equipment[name] if name else None
    if clash.kind is ClashKind.NUMBER:
        there = gear.how_many.text if gear and gear.how_many else "1"
        needed = ntr(
            "{title}: {cooks} needs {needed} at once, {span}",
            "{title}: {cooks} need {needed} at once, {span}",
            len(whose),
            title=title,
            cooks=cooks,
            needed=clash.needed,
            span=span,
        )
        one, more = tr("there is {there}", there=there), tr("there are {there}", there=there)
        return clauses([needed, one if there == "1" else more])
    holds = gear.holds if gear else None
    room = tr(", which holds {holds}", holds=style.weight(holds.value)) if holds else ""
    load = style.weight(clash.load_kg)
    return ntr(
        "{cooks} puts {load} into {title}{room}, {span}",
        "{cooks} put {load} into {title}{room}, {span}",
        len(whose),
        cooks=cooks,
        load=load,
        title=title,
        room=room,
        span=span,
    )


def _hint(content: Content, clash: Clash, whose: list[Wanted]) -> str:
    name, style = whose[0].planned.cook.equipment, style_of(content.kitchen)
    gear = content.kitchen.equipment[name] if name else None
    holds = gear.holds.value if gear and gear.holds else 0.0
    if clash.kind is ClashKind.TEMPERATURE:
        return tr("start one earlier and chill it, or move it to other equipment")
    if clash.kind is ClashKind.NUMBER:
        return tr("start one earlier and chill it, bring two to one temperature, or move one")
    if not holds:
        return tr("move a part to other equipment")
    loads = taken_at_once([wanted.booking for wanted in whose], holds)
    more = style.weight(clash.load_kg - _fits(clash, whose, holds))
    return tr(
        "cook in {max} loads, or move {more} to other equipment",
        max=style.count(max(loads, 2)),
        more=more,
    )


def _fits(clash: Clash, whose: list[Wanted], holds: float) -> float:
    """What of a clash's load stays [kg]: whole pieces, where all of it is of one size."""
    sizes = {round(w.booking.load_kg / w.booking.pieces, 6) for w in whose if w.booking.pieces}
    if len(sizes) != 1 or not all(wanted.booking.pieces for wanted in whose):
        return min(holds, clash.load_kg)
    piece = sizes.pop()
    return math.floor(holds / piece + 1e-9) * piece
