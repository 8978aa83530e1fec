"""The back-schedule from a service, and two cooks that want one bath at once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from enum import Enum
from itertools import combinations

from builder.cooking.ranges import require_within

# Two settings closer than this are one temperature to a thermostat [K].
SAME_TEMPERATURE_K = 0.25


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a plan, its duration [min], and the equipment that it keeps, if any."""

    name: str
    duration_min: float
    equipment: str = ""
    hands_on: bool = False

    def __post_init__(self) -> None:
        require_within(f"duration of {self.name}", self.duration_min, 0, 60 * 24 * 28, "min")


@dataclass(frozen=True, slots=True)
class TimedStep:
    """A step with the moments at which it starts and ends."""

    step: Step
    start: datetime
    end: datetime


def _earlier(moment: datetime, minutes: float) -> datetime:
    """Go back by elapsed time, so that a night in which the clocks change keeps its hours."""
    if moment.tzinfo is None:
        return moment - timedelta(minutes=minutes)
    return (moment.astimezone(UTC) - timedelta(minutes=minutes)).astimezone(moment.tzinfo)


def back_schedule(service: datetime, steps: Sequence[Step]) -> tuple[TimedStep, ...]:
    """Time each step so that the last one ends at the service, in the order given.

    Across midnight, weekdays and, for a service with a time zone, changes of the clock.

    >>> friday = datetime(2026, 10, 2, 18, 0)
    >>> plan = back_schedule(friday, [Step("bath", 30 * 60), Step("sear", 30)])
    >>> plan[0].start.strftime("%A %H:%M")
    'Thursday 11:30'
    """
    timed: list[TimedStep] = []
    end = service
    for step in reversed(steps):
        start = _earlier(end, step.duration_min)
        timed.append(TimedStep(step, start, end))
        end = start
    return tuple(reversed(timed))


@dataclass(frozen=True, slots=True)
class Booking:
    """One cook's use of one piece of equipment, from `start` up to `end`."""

    cook: str
    equipment: str
    temperature_c: float
    start: datetime
    end: datetime
    load_kg: float = 0.0

    def __post_init__(self) -> None:
        if (self.start.tzinfo is None) != (self.end.tzinfo is None) or self.end <= self.start:
            raise ValueError(f"{self.cook} ends on {self.equipment} no later than it starts")
        require_within(f"load of {self.cook}", self.load_kg, 0, 2000, "kg")
        require_within(f"temperature of {self.cook}", self.temperature_c, -40, 300, "°C")

    def overlaps(self, other: Booking) -> bool:
        """Tell whether both keep the same equipment at one moment; ends may touch."""
        same = self.equipment == other.equipment
        return same and self.start < other.end and other.start < self.end

    def same_temperature(self, other: Booking) -> bool:
        """Tell whether one setting serves both."""
        return abs(self.temperature_c - other.temperature_c) <= SAME_TEMPERATURE_K


class ClashKind(Enum):
    """Why bookings cannot share: their temperatures, or more than the equipment holds."""

    TEMPERATURE = "different temperatures"
    CAPACITY = "more than it holds"


@dataclass(frozen=True, slots=True)
class Clash:
    """Bookings that want one piece of equipment from `start` to `end` and cannot share it."""

    kind: ClashKind
    equipment: str
    cooks: tuple[str, ...]
    start: datetime
    end: datetime
    load_kg: float


def _clash(kind: ClashKind, bookings: Sequence[Booking]) -> Clash:
    return Clash(
        kind,
        bookings[0].equipment,
        tuple(booking.cook for booking in bookings),
        max(booking.start for booking in bookings),
        min(booking.end for booking in bookings),
        sum(booking.load_kg for booking in bookings),
    )


def find_clashes(
    bookings: Iterable[Booking], holds_kg: Mapping[str, float] | None = None
) -> tuple[Clash, ...]:
    """Find every clash, by the hour at which it begins.

    Cooks of one temperature share a bath as long as all their loads fit in; `holds_kg`
    [kg] by equipment, and what is not named there is not checked for room. A load that
    joins late cools the water, which no figure here counts.
    """
    ordered = sorted(bookings, key=lambda b: (b.start, b.equipment, b.cook))
    apart = [
        _clash(ClashKind.TEMPERATURE, pair)
        for pair in combinations(ordered, 2)
        if pair[0].overlaps(pair[1]) and not pair[0].same_temperature(pair[1])
    ]
    crowded = _crowded(ordered, holds_kg or {})
    return tuple(sorted([*apart, *crowded], key=lambda c: (c.start, c.equipment, c.kind.value)))


def _crowded(ordered: Sequence[Booking], holds_kg: Mapping[str, float]) -> list[Clash]:
    """Find each start that fills a piece of equipment past what it holds."""
    found = []
    for booking in ordered:
        room = holds_kg.get(booking.equipment)
        inside = [
            other
            for other in ordered
            if other.equipment == booking.equipment
            and other.start <= booking.start < other.end
            and other.same_temperature(booking)
        ]
        # Of several that start together only the last one listed reports the clash.
        if room is None or inside[-1] is not booking:
            continue
        if sum(other.load_kg for other in inside) > room * (1 + 1e-9):
            found.append(_clash(ClashKind.CAPACITY, inside))
    return found
