"""The week's services counted back: what each cook needs, when each step starts, what clashes.

No clock is read: the week is that of the day for which the site is computed, and
every service comes round in it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, time, timedelta
from itertools import count

from builder.cooking.schedule import (
    Booking,
    ScheduleStep,
    TimedStep,
    back_schedule,
    hours_kept,
)
from builder.costing.filled_rows import Rows
from builder.costing.service_steps import (
    Cooked,
    by_cook,
    staff_job,
    staff_steps,
    steps_of,
    undated_steps,
)
from builder.display.style import Style
from builder.engine.figures import Figures
from builder.language import tr
from builder.records.content import Content
from builder.records.kinds import Cook, Equipment, Plate
from builder.records.services import Service, Serving

WEEK = timedelta(days=7)
# By how much a moment of the week is shifted to be met in the one before, this one and the next.
ROUND_THE_WEEK = (-WEEK, timedelta(), WEEK)
# Equipment on which each pan has a heat of its own.
BURNERS = frozenset(("burner", "burners", "hob", "range", "stove"))
CLOCK_STEP_MIN = 5


@dataclass(frozen=True, slots=True)
class PlannedCook:
    """One cook for one service: its plates, what goes in, and each step's moment.

    `pieces` is 0 where no piece's weight is known: then nothing is rounded to whole ones. `loads`
    as large as the cook's own are made where nobody says what its equipment holds, or where its
    pieces lie side by side; else 0. Then `by_load` are the pieces of a whole load; else 0.
    """

    cooked: Cooked
    pieces: int
    raw_kg: float
    steps: tuple[TimedStep, ...]
    loads: int = 0
    by_load: int = 0

    @property
    def cook(self) -> Cook:
        """What is cooked."""
        return self.cooked.cook

    @property
    def servings(self) -> Sequence[tuple[Plate, Serving]]:
        """Its plates with their covers."""
        return self.cooked.servings

    @property
    def covers(self) -> int:
        """Portions of all its plates."""
        return sum(int(serving.covers.value) for _, serving in self.servings)

    @property
    def at_once(self) -> int:
        """Pieces in the largest of its loads."""
        return min(self.pieces, self.by_load or self.pieces)

    @property
    def at_once_kg(self) -> float:
        """Raw weight of these; of all where no piece's weight is known."""
        return self.raw_kg * self.at_once / self.pieces if self.pieces else self.raw_kg

    @property
    def is_timed(self) -> bool:
        """Whether its start can be counted back: the file says how long it cooks."""
        return self.cook.for_ is not None

    @property
    def undated(self) -> tuple[str, ...]:
        """Its steps for which no start is given, beside the cook itself."""
        return tuple(undated_steps(self.cook, self.cooked.ahead_h))


@dataclass(frozen=True, slots=True)
class ServicePlan:
    """A service with everything that leads up to it."""

    service: Service
    at: datetime
    cooks: tuple[PlannedCook, ...]
    staff: tuple[TimedStep, ...]

    def starts(self) -> Iterator[tuple[TimedStep, PlannedCook | None]]:
        """Every step with its cook (None for the staff's own), by the hour at which it starts."""
        found: list[tuple[TimedStep, PlannedCook | None]] = [(step, None) for step in self.staff]
        found += [(step, planned) for planned in self.cooks for step in planned.steps]
        yield from sorted(found, key=lambda pair: elapsed(pair[0].start))

    @property
    def untimed(self) -> tuple[PlannedCook, ...]:
        """The cooks for which no start is given."""
        return tuple(planned for planned in self.cooks if not planned.is_timed)

    def jobs(self) -> Iterator[tuple[str, TimedStep, PlannedCook | None]]:
        """The same, each with what it is called among the service's steps."""
        staff = count(1)
        for step, planned in self.starts():
            key = planned.cooked.job(step.step) if planned else staff_job(next(staff))
            yield key, step, planned

    def by_the_clock(self, moment: datetime) -> datetime:
        """A moment in elapsed time as the kitchen's clock shows it."""
        return moment.astimezone(self.at.tzinfo) if self.at.tzinfo else moment


def elapsed(moment: datetime) -> datetime:
    """A moment of the clock in a time without changes, where the kitchen names its zone.

    Two moments of one zone are otherwise compared and subtracted by what the clock shows.
    """
    return moment.astimezone(UTC) if moment.tzinfo else moment


def service_plans(content: Content, figures: Figures, rows: Rows) -> Mapping[str, ServicePlan]:
    """Count every service of the week back to its first step."""
    monday = content.as_of - timedelta(days=content.as_of.weekday())
    plans = {}
    for service in content.services.values():
        day = monday + timedelta(days=service.weekday)
        at = as_the_clock_shows(datetime.combine(day, service.clock, content.kitchen.time_zone))
        cooks = tuple(
            _planned(figures, rows.services.loadings[service.id, cooked.key], at, cooked)
            for cooked in by_cook(content, service)
        )
        plans[service.id] = ServicePlan(service, at, cooks, on_the_clock(at, staff_steps(service)))
    return plans


def as_the_clock_shows(at: datetime) -> datetime:
    """A moment that the clock leaves out where it goes forward is the one that it shows then."""
    return elapsed(at).astimezone(at.tzinfo) if at.tzinfo else at


def on_the_clock(at: datetime, steps: Iterable[ScheduleStep]) -> tuple[TimedStep, ...]:
    """Count steps back on the clock's five minutes: each has its whole time, no step less.

    >>> seared = on_the_clock(datetime(2026, 10, 2, 18), [ScheduleStep("sear", 12)])
    >>> f"{seared[0].start:%H:%M}", seared[0].step.duration_min
    ('17:45', 12)
    """
    asked = list(steps)
    whole = [
        replace(step, duration_min=_whole_steps(step.duration_min) * CLOCK_STEP_MIN)
        for step in asked
    ]
    last = at - timedelta(minutes=at.minute % CLOCK_STEP_MIN)
    timed = back_schedule(last, whole)
    return tuple(replace(each, step=step) for each, step in zip(timed, asked, strict=True))


def _whole_steps(minutes: float) -> int:
    return math.ceil(minutes / CLOCK_STEP_MIN - 1e-9)


def _planned(figures: Figures, loading: int, at: datetime, cooked: Cooked) -> PlannedCook:
    pieces, raw_kg, loads, at_once = (
        figures.value("loading", name, loading)
        for name in ("pieces_to_cook", "raw_weight", "loads_as_written", "pieces_at_once")
    )
    steps = on_the_clock(at, steps_of(cooked.cook, cooked.ahead_h))
    counts = (0 if math.isnan(each) else int(each) for each in (pieces, loads, at_once))
    whole, several, by_load = counts
    return PlannedCook(cooked, whole, raw_kg, steps, several, by_load)


@dataclass(frozen=True, slots=True)
class Wanted:
    """One cook's hours on its equipment, turn-round included, and whose they are."""

    booking: Booking
    plan: ServicePlan
    planned: PlannedCook


def _one_heat_c(cook: Cook, gear: Equipment) -> float | None:
    """The heat of all that is in the equipment at once [°C].

    None where the file states none, or each burner of a range has its own.
    """
    shared = BURNERS.isdisjoint(str(gear.kind).lower().split())
    return cook.at.value if cook.at and shared else None


def bookings(content: Content, plans: Mapping[str, ServicePlan]) -> list[Wanted]:
    """What every service wants of the equipment in the week."""
    found = []
    for plan in plans.values():
        for number, planned in enumerate(plan.cooks):
            step = next((s for s in planned.steps if s.step.equipment), None)
            name = planned.cook.equipment
            gear = content.kitchen.equipment.get(name) if name else None
            if step is None or gear is None or elapsed(step.end) <= elapsed(step.start):
                continue
            turn_round = timedelta(hours=gear.turn_round.value if gear.turn_round else 0)
            booking = Booking(
                cook=f"{plan.service.id}/{number}",
                equipment=step.step.equipment,
                temperature_c=_one_heat_c(planned.cook, gear),
                start=elapsed(step.start),
                end=elapsed(step.end) + turn_round,
                load_kg=planned.at_once_kg,
                pieces=planned.at_once,
            )
            found.append(Wanted(booking, plan, planned))
    return found


@dataclass(frozen=True, slots=True)
class KeptHours:
    """Hours of the week [h] for which the services keep one kind of equipment.

    A load above what it holds counts once for each that it fills, shared or not.
    """

    equipment: str
    loads: int
    each_for_itself: float
    shared_once: float


def kept_hours(content: Content, wanted: list[Wanted]) -> list[KeptHours]:
    """The hours of every piece of equipment that a service wants, in one week as it repeats."""
    first = content.as_of - timedelta(days=content.as_of.weekday())
    monday = elapsed(datetime.combine(first, time(), content.kitchen.time_zone))
    found = []
    for name, gear in content.kitchen.equipment.items():
        booked = [w.booking for w in wanted if w.booking.equipment == name]
        holds = gear.holds.value if gear.holds else None
        alone = sum(hours_kept([b], holds) for b in booked)
        weeks = [
            part
            for b in booked
            for n in range((monday - b.end) // WEEK, (monday - b.start) // WEEK + 2)
            if (part := _in_week(b, monday, n * WEEK))
        ]
        if booked:
            found.append(KeptHours(str(name), len(booked), alone, hours_kept(weeks, holds)))
    return found


def _in_week(booking: Booking, monday: datetime, later: timedelta) -> Booking | None:
    """The part of a booking, so much later, that lies in the week of a Monday."""
    start, end = max(booking.start + later, monday), min(booking.end + later, monday + WEEK)
    return replace(booking, start=start, end=end) if start < end else None


SERVED = ("services", "weights", "cooking", "work")
"""What a warning of a service's plan rests on."""


def heat_words(style: Style, cook: Cook) -> str:
    """The temperature of a cook's equipment, as the kitchen writes it."""
    return style.temperature(cook.at.value) if cook.at else tr("no temperature stated")
