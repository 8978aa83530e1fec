"""Clashes of the week over equipment: those that follow each other on one piece are joined."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from builder.cooking.schedule import Clash, ClashKind, find_clashes
from builder.costing.services import WEEK, Wanted
from builder.records.content import Content


@dataclass(frozen=True, slots=True)
class Part:
    """A clash with who is in it."""

    clash: Clash
    whose: tuple[Wanted, ...]

    def later(self, weeks: int) -> Part:
        """The same so many weeks later."""
        by = weeks * WEEK
        moved = replace(self.clash, start=self.clash.start + by, end=self.clash.end + by)
        return replace(self, clash=moved)


@dataclass(frozen=True, slots=True)
class GearClash:
    """What is wrong with one piece of equipment, in one way and in one stretch of the week.

    As one cook comes and another goes, each two or more that can't share are a clash; `parts`
    holds them.
    """

    parts: tuple[Part, ...]

    @property
    def kind(self) -> ClashKind:
        """In what way."""
        return self.parts[0].clash.kind

    @property
    def equipment(self) -> str:
        """The equipment, by the key of its line."""
        return self.parts[0].clash.equipment

    @property
    def whose(self) -> tuple[Wanted, ...]:
        """Who is in it, each once."""
        found = {wanted.booking.cook: wanted for part in self.parts for wanted in part.whose}
        return tuple(found.values())

    @property
    def start(self) -> datetime:
        """When the first of it begins."""
        return min(part.clash.start for part in self.parts)

    @property
    def end(self) -> datetime:
        """When the last of it ends."""
        return max(part.clash.end for part in self.parts)

    @property
    def unbroken(self) -> bool:
        """Whether all the time from start to end is a clash."""
        end = self.start
        for part in sorted(self.parts, key=lambda part: part.clash.start):
            if part.clash.start > end:
                return False
            end = max(end, part.clash.end)
        return True

    @property
    def most(self) -> Part:
        """The part in which most is asked of the equipment."""
        return max(self.parts, key=lambda part: (part.clash.needed, part.clash.load_kg))

    def concerns(self, service: str) -> bool:
        """Whether a service's cook is in it, by the service's id."""
        return any(wanted.plan.service.id == service for wanted in self.whose)


def week_clashes(content: Content, wanted: Sequence[Wanted]) -> list[GearClash]:
    """Every clash of the week once, joined, by equipment in the order in which each first starts.

    The week repeats, so each booking comes again a week later: what starts on
    Sunday for Tuesday meets the Saturday before it.
    """
    joined = [
        GearClash(tuple(parts))
        for parts in joined_round_the_week(parts_of_the_week(content, wanted))
    ]
    joined.sort(key=lambda each: (each.start, each.kind.value))
    first = {each.equipment: each.start for each in reversed(joined)}
    return sorted(joined, key=lambda each: (first[each.equipment], each.equipment))


def parts_of_the_week(content: Content, wanted: Sequence[Wanted]) -> Iterator[Part]:
    """Every clash of the week once, not joined: a booking comes again a week later."""
    gear = content.kitchen.equipment
    holds = {str(n): g.holds.value for n, g in gear.items() if g.holds}
    counts = {str(n): int(g.how_many.value) for n, g in gear.items() if g.how_many}
    by_name = {w.booking.cook: w for w in wanted}
    again = [
        replace(w.booking, cook=f"{w.booking.cook}+", start=w.booking.start + WEEK,
                end=w.booking.end + WEEK)
        for w in wanted
    ]  # fmt: skip
    seen: set[tuple[ClashKind, tuple[str, ...]]] = set()
    for clash in find_clashes([*(w.booking for w in wanted), *again], holds, counts):
        names = [name.rstrip("+") for name in clash.cooks]
        key = clash.kind, tuple(sorted(names))
        if key not in seen:
            seen.add(key)
            yield Part(clash, tuple(by_name[name] for name in dict.fromkeys(names)))


@dataclass(frozen=True, slots=True)
class _Stretch:
    """Clashes of one kind over one piece of equipment that leave no time between them free."""

    parts: list[Part]
    start: datetime
    end: datetime

    def meets(self, start: datetime, end: datetime) -> bool:
        """Whether a stretch touches it; one may begin as the other ends."""
        return self.start <= end and start <= self.end

    def with_later(self, other: _Stretch, weeks: int) -> _Stretch:
        """The other one, so many weeks later, and this."""
        by = weeks * WEEK
        ends = min(self.start, other.start + by), max(self.end, other.end + by)
        return _Stretch([*(part.later(weeks) for part in other.parts), *self.parts], *ends)


def joined_round_the_week(parts: Iterable[Part]) -> Iterator[list[Part]]:
    """Clashes of one kind over one piece of equipment that meet in the week, which comes round."""
    alike: dict[tuple[ClashKind, str], list[Part]] = {}
    for part in parts:
        alike.setdefault((part.clash.kind, part.clash.equipment), []).append(part)
    for group in alike.values():
        yield from (stretch.parts for stretch in _round_the_week(_stretches(group)))


def _stretches(parts: Iterable[Part]) -> list[_Stretch]:
    """Clashes in the order of their starts, those that meet together."""
    found: list[_Stretch] = []
    for part in sorted(parts, key=lambda each: each.clash.start):
        start, end = part.clash.start, part.clash.end
        if found and found[-1].meets(start, end):
            last = found[-1]
            last.parts.append(part)
            found[-1] = replace(last, end=max(last.end, end))
        else:
            found.append(_Stretch([part], start, end))
    return found


def _round_the_week(stretches: Iterable[_Stretch]) -> list[_Stretch]:
    """Stretches that meet a week later or earlier made one."""
    found: list[_Stretch] = []
    for stretch in stretches:
        whole, apart = stretch, list[_Stretch]()
        for other in found:
            weeks = _weeks_to(other, stretch)
            if weeks is None:
                apart.append(other)
            else:
                whole = whole.with_later(other, weeks)
        found = [*apart, whole]
    return found


def _weeks_to(first: _Stretch, second: _Stretch) -> int | None:
    """How many weeks later the first meets the second; None where it never does."""
    weeks = (0, 1, -1)
    return next(
        (n for n in weeks if second.meets(first.start + n * WEEK, first.end + n * WEEK)), None
    )
