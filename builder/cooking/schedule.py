"""The back-schedule from a service, and two cooks that want one bath at once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from enum import Enum
from itertools import combinations, islice, pairwise
from math import ceil, floor, inf

from builder.cooking.ranges import require_within
from builder.language import tr
from builder.problems import Place

# Two settings closer than this are one temperature to a thermostat [K].
SAME_TEMPERATURE_K = 0.25
# 12.0 kg / 2.4 kg comes out a hair under 5 in binary.
HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class ScheduleStep:
    """One step of a plan, its duration [min], and the equipment that it keeps, if any.

    `place` is where its duration was written.
    """

    name: str
    duration_min: float
    equipment: str = ""
    hands_on: bool = False
    place: Place | None = None

    def __post_init__(self) -> None:
        require_within(
            tr("duration of {self}", self=self.name), self.duration_min, 0, 60 * 24 * 28, "min"
        )


@dataclass(frozen=True, slots=True)
class TimedStep:
    """A step with the moments at which it starts and ends."""

    step: ScheduleStep
    start: datetime
    end: datetime


def earlier(moment: datetime, minutes: float) -> datetime:
    """Go back by elapsed time, so that a night in which the clocks change keeps its hours."""
    if moment.tzinfo is None:
        return moment - timedelta(minutes=minutes)
    return (moment.astimezone(UTC) - timedelta(minutes=minutes)).astimezone(moment.tzinfo)


def back_schedule(service: datetime, steps: Sequence[ScheduleStep]) -> tuple[TimedStep, ...]:
    """Time each step so that the last one ends at the service, in the order given.

    Across midnight, weekdays and, for a service with a time zone, changes of the clock.

    >>> friday = datetime(2026, 10, 2, 18, 0)
    >>> plan = back_schedule(friday, [ScheduleStep("bath", 30 * 60), ScheduleStep("sear", 30)])
    >>> plan[0].start.strftime("%A %H:%M")
    'Thursday 11:30'
    """
    timed: list[TimedStep] = []
    end = service
    for step in reversed(steps):
        start = earlier(end, step.duration_min)
        timed.append(TimedStep(step, start, end))
        end = start
    return tuple(reversed(timed))


@dataclass(frozen=True, slots=True)
class Booking:
    """One cook's use of one piece of equipment, from `start` up to `end`.

    `pieces` is 0 where no piece's weight is known: the load then parts at any weight.
    `temperature_c` is None where it is not known, or each load has a heat of its own.
    """

    cook: str
    equipment: str
    temperature_c: float | None
    start: datetime
    end: datetime
    load_kg: float = 0.0
    pieces: int = 1

    def __post_init__(self) -> None:
        if (self.start.tzinfo is None) != (self.end.tzinfo is None) or self.end <= self.start:
            raise ValueError(f"{self.cook} ends on {self.equipment} no later than it starts")
        require_within(tr("load of {cook}", cook=self.cook), self.load_kg, 0, inf, "kg")
        require_within(tr("pieces of {cook}", cook=self.cook), self.pieces, 0, inf, "pieces")
        if self.temperature_c is not None:
            require_within(
                tr("temperature of {cook}", cook=self.cook), self.temperature_c, -273.15, inf, "°C"
            )

    def overlaps(self, other: Booking) -> bool:
        """Tell whether both keep the same equipment at one moment; ends may touch."""
        same = self.equipment == other.equipment
        return same and self.start < other.end and other.start < self.end

    def same_temperature(self, other: Booking) -> bool:
        """Tell whether one setting serves both, as far as is known."""
        if self.temperature_c is None or other.temperature_c is None:
            return True
        return abs(self.temperature_c - other.temperature_c) <= SAME_TEMPERATURE_K


class ClashKind(Enum):
    """Why bookings cannot share: their temperatures, more than it holds, more than there are."""

    TEMPERATURE = "different temperatures"
    CAPACITY = "more than it holds"
    NUMBER = "more than there are"


@dataclass(frozen=True, slots=True)
class Clash:
    """Bookings that want one piece of equipment from `start` to `end` and cannot share it."""

    kind: ClashKind
    equipment: str
    cooks: tuple[str, ...]
    start: datetime
    end: datetime
    load_kg: float
    needed: int = 1


def _clash(kind: ClashKind, bookings: Sequence[Booking], needed: int = 1) -> Clash:
    return Clash(
        kind,
        bookings[0].equipment,
        tuple(booking.cook for booking in bookings),
        max(booking.start for booking in bookings),
        min(booking.end for booking in bookings),
        sum(booking.load_kg for booking in bookings),
        needed,
    )


def find_clashes(
    bookings: Iterable[Booking],
    holds_kg: Mapping[str, float] | None = None,
    how_many: Mapping[str, int] | None = None,
) -> tuple[Clash, ...]:
    """Find every clash, by the hour at which it begins.

    Cooks of one temperature share a bath as long as all their loads fit in; `holds_kg`
    [kg] by equipment, and what is not named there is not checked for room. Of equipment
    that there are several of, `how_many`, each moment's cooks are counted: a load may lie
    in several, piece by piece. A load that joins late cools the water, which no figure
    here counts.
    """
    ordered = sorted(bookings, key=lambda b: (b.start, b.equipment, b.cook))
    holds, counts = holds_kg or {}, how_many or {}
    single = [b for b in ordered if counts.get(b.equipment, 1) == 1]
    apart = [
        _clash(ClashKind.TEMPERATURE, pair)
        for pair in combinations(single, 2)
        if pair[0].overlaps(pair[1]) and not pair[0].same_temperature(pair[1])
    ]
    several = [b for b in ordered if counts.get(b.equipment, 1) > 1]
    found = [*apart, *_crowded(single, holds), *_too_few(several, holds, counts)]
    return tuple(sorted(found, key=lambda c: (c.start, c.equipment, c.kind.value)))


def _crowded(ordered: Sequence[Booking], holds_kg: Mapping[str, float]) -> Iterator[Clash]:
    """Find what fills a piece of equipment past what it holds, whatever has come or left."""
    reported: set[tuple[str, ...]] = set()
    for booking, inside in _filled(ordered):
        room = holds_kg.get(booking.equipment)
        alike = [other for other in inside if other.same_temperature(booking)]
        names = tuple(b.cook for b in alike)
        too_much = room is not None and sum(b.load_kg for b in alike) > room * (1 + HAIR)
        if too_much and names not in reported:
            reported.add(names)
            yield _clash(ClashKind.CAPACITY, alike)


def _too_few(
    ordered: Sequence[Booking], holds_kg: Mapping[str, float], how_many: Mapping[str, int]
) -> Iterator[Clash]:
    """Find cooks that take more of the equipment than there are, whatever has come or left."""
    reported: set[tuple[str, ...]] = set()
    for booking, inside in _filled(ordered):
        names = tuple(b.cook for b in inside)
        needed = taken_at_once(inside, holds_kg.get(booking.equipment))
        if needed > how_many[booking.equipment] and names not in reported:
            reported.add(names)
            yield _clash(ClashKind.NUMBER, inside, needed)


def _filled(ordered: Sequence[Booking]) -> Iterator[tuple[Booking, list[Booking]]]:
    """Each start and end with all that is then on its equipment: one of each temperature."""
    moments = {(moment, b.equipment) for b in ordered for moment in (b.start, b.end)}
    for moment, equipment in sorted(moments):
        inside = [b for b in ordered if b.equipment == equipment and b.start <= moment < b.end]
        for number, booking in enumerate(inside, 1):
            if not any(other.same_temperature(booking) for other in islice(inside, number, None)):
                yield booking, inside


def taken_at_once(bookings: Sequence[Booking], holds_kg: float | None) -> int:
    """Return how many of the equipment the bookings of one moment take.

    One for each temperature, and more where the pieces of that temperature do not fit in
    (the largest first, each where there is room). Without `holds_kg` [kg] all fit in.
    Those without a temperature go in where they take the fewest more.

    >>> monday = datetime(2026, 9, 28)
    >>> day = (monday, monday + timedelta(days=1))
    >>> loads = [Booking("a", "bath", 57, *day, 20, 10), Booking("b", "bath", 65, *day, 4, 2)]
    >>> taken_at_once(loads, 12), taken_at_once(loads, None)
    (3, 2)
    """
    groups: list[list[Booking]] = []
    unknown = [booking for booking in bookings if booking.temperature_c is None]
    for booking in bookings:
        if booking.temperature_c is None:
            continue
        alike = next((g for g in groups if g[0].same_temperature(booking)), None)
        if alike is None:
            groups.append([booking])
        else:
            alike.append(booking)
    alone = [_filled_by(group, holds_kg) for group in groups]
    if not unknown:
        return sum(alone)
    joined = [_filled_by([*g, *unknown], holds_kg) - n for g, n in zip(groups, alone, strict=True)]
    return sum(alone) + min([*joined, _filled_by(unknown, holds_kg)])


def _filled_by(bookings: Sequence[Booking], holds_kg: float | None) -> int:
    """How many the pieces of one temperature fill; a piece that fits in nowhere takes its own."""
    if holds_kg is None:
        return 1
    rooms: list[Rooms] = []
    loose = sum(b.load_kg for b in bookings if not b.pieces)
    for booking in sorted((b for b in bookings if b.pieces), key=lambda b: -b.load_kg / b.pieces):
        piece = booking.load_kg / booking.pieces
        if piece <= 0:
            continue
        left = booking.pieces
        topped_up: list[Rooms] = []
        for alike in rooms:
            put, found = _put(alike, piece, left)
            topped_up += found
            left -= put
        each = max(floor(holds_kg / piece + HAIR), 1)
        _, new = _put((ceil(left / each), holds_kg), piece, left, each)
        rooms = [*topped_up, *new]
    loose -= sum(number * max(room, 0.0) for number, room in rooms)
    filled = sum(number for number, _ in rooms)
    return max(filled + max(ceil(loose / holds_kg - HAIR), 0), 1)


Rooms = tuple[int, float]
"""How many are alike, and the room left in each [kg].

They are counted, not filled one by one: a slip may ask for millions of them.
"""


def _put(alike: Rooms, piece_kg: float, left: int, each: int = 0) -> tuple[int, list[Rooms]]:
    """Put pieces in, first come first filled: how many go in, and the room left after."""
    number, room = alike
    each = each or max(floor(room / piece_kg + HAIR), 0)
    put = min(left, number * each)
    full, rest = divmod(put, each) if each else (0, 0)
    after = [
        (full, room - each * piece_kg),
        (1 if rest else 0, room - rest * piece_kg),
        (number - full - (1 if rest else 0), room),
    ]
    return put, [rooms for rooms in after if rooms[0]]


def hours_kept(bookings: Sequence[Booking], holds_kg: float | None) -> float:
    """Return the hours [h] for which bookings of one equipment keep it, shared hours once.

    Where they take several at once, the hours of each count.

    >>> at = datetime(2026, 9, 28)
    >>> first = Booking("a", "bath", 57, at, at + timedelta(hours=30), 4)
    >>> joins = Booking("b", "bath", 57, at, at + timedelta(hours=24), 4)
    >>> hours_kept([first, joins], 12), hours_kept([first, joins], 6)
    (30.0, 54.0)
    """
    moments = sorted({moment for b in bookings for moment in (b.start, b.end)})
    kept = timedelta()
    for start, end in pairwise(moments):
        inside = [b for b in bookings if b.start <= start < b.end]
        kept += (end - start) * (taken_at_once(inside, holds_kg) if inside else 0)
    return kept / timedelta(hours=1)
