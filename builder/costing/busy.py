"""Whether a cook's equipment is free at other times than planned."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from builder.cooking.schedule import Booking, TimedStep
from builder.costing.services import (
    ROUND_THE_WEEK,
    PlannedCook,
    ServicePlan,
    Wanted,
    bookings,
    elapsed,
)
from builder.costing.week_clashes import parts_of_the_week
from builder.records.content import Content
from builder.records.equipment import gear_title


@dataclass(frozen=True, slots=True)
class Busy:
    """What a cook wants of its equipment, and what others of the week want of it."""

    content: Content
    own: Wanted | None
    others: tuple[Wanted, ...]

    @classmethod
    def of(cls, content: Content, plans: Mapping[str, ServicePlan], planned: PlannedCook) -> Busy:
        """Of the same equipment alone: nothing else can be in its way."""
        name = planned.cook.equipment
        wanted = [w for w in bookings(content, plans) if name and w.planned.cook.equipment == name]
        own = next((each for each in wanted if each.planned is planned), None)
        return cls(content, own, tuple(each for each in wanted if each is not own))

    @property
    def title(self) -> str:
        """The equipment's name on pages."""
        name = str(self.own.planned.cook.equipment) if self.own else ""
        return gear_title(self.content.kitchen.equipment, name)

    def clashes_more(self, timed: Iterable[TimedStep]) -> bool:
        """Whether other times bring the cook into more clashes than it is in as planned."""
        if self.own is None:
            return False
        now, then = _on_equipment(self.own.planned.steps), _on_equipment(timed)
        if now is None or then is None:
            return False
        booking = self.own.booking
        end = elapsed(then.end) + (booking.end - elapsed(now.end))  # the turn-round with it
        moved = replace(self.own, booking=replace(booking, start=elapsed(then.start), end=end))
        return self._clashes_of(moved) > self._clashes_of(self.own)

    def _clashes_of(self, one: Wanted) -> int:
        """Only who is there at some time with it can be in a clash with it."""
        near = [other for other in self.others if _meet_in_the_week(one.booking, other.booking)]
        name = one.booking.cook
        found = parts_of_the_week(self.content, [one, *near])
        return sum(any(each.booking.cook == name for each in part.whose) for part in found)


def _meet_in_the_week(one: Booking, other: Booking) -> bool:
    """Whether both are there at one time, as the week comes round."""
    return any(one.start < other.end + by and other.start + by < one.end for by in ROUND_THE_WEEK)


def _on_equipment(steps: Iterable[TimedStep]) -> TimedStep | None:
    return next((each for each in steps if each.step.equipment), None)
