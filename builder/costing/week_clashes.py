"""Clashes of the week over equipment: those that follow each other on one piece are joined."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from itertools import chain

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
    joined = [GearClash(tuple(parts)) for parts in _joined(_parts(content, wanted))]
    joined.sort(key=lambda each: each.start)
    first = {each.equipment: each.start for each in reversed(joined)}
    return sorted(joined, key=lambda each: (first[each.equipment], each.equipment))


def _parts(content: Content, wanted: Sequence[Wanted]) -> Iterator[Part]:
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


def _joined(parts: Iterator[Part]) -> list[list[Part]]:
    """Clashes of one kind over one piece of equipment that meet in the week, which comes round."""
    groups: list[list[Part]] = []
    for part in parts:
        weeks = [_weeks_to(group, part.clash) for group in groups]
        met = [[each.later(n) for each in group]
               for group, n in zip(groups, weeks, strict=True) if n is not None]  # fmt: skip
        apart = [group for group, n in zip(groups, weeks, strict=True) if n is None]
        groups = [*apart, [*chain(*met), part]]
    return groups


def _weeks_to(group: Sequence[Part], clash: Clash) -> int | None:
    """How many weeks later a group meets a clash; None where it never does."""
    alike = group[0].clash.kind is clash.kind and group[0].clash.equipment == clash.equipment
    for weeks in (0, 1, -1) if alike else ():
        if any(_meet(part.clash, clash, weeks * WEEK) for part in group):
            return weeks
    return None


def _meet(first: Clash, second: Clash, later: timedelta) -> bool:
    return first.start + later <= second.end and second.start <= first.end + later
