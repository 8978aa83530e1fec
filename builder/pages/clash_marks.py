"""Where in the bars of a picture two cooks want one piece of equipment: a mark for each stretch."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime

from builder.cooking.schedule import ClashKind
from builder.costing.services import ROUND_THE_WEEK, Wanted, elapsed
from builder.costing.week_clashes import GearClash
from builder.display.words import listed
from builder.frozen import frozen
from builder.language import tr
from builder.pages.clash_notices import shown_clashes
from builder.pages.components import Text, Value
from builder.pages.moments import stamp, when
from builder.pages.view import View


@frozen
class Mark:
    """A stretch of one booking that clashes: the clash's number in the week, and with which.

    Without others its own load is more than the equipment can take.
    """

    number: int
    kind: ClashKind
    start: datetime
    end: datetime
    others: tuple[Wanted, ...]

    @property
    def name(self) -> Text:
        """What the picture writes at it."""
        return tr("clash {number}", number=self.number)

    def words(self, view: View, wanted: Wanted) -> Text:
        """With which cooks it clashes, or that it is too much alone, from when to when."""
        clock = wanted.plan.by_the_clock
        return tr(
            "{clash}: {why}, from {start} to {end}",
            clash=self.name,
            why=self._why(wanted),
            start=when(view.style, clock(self.start)),
            end=when(view.style, clock(self.end)),
        )

    def _why(self, wanted: Wanted) -> Text:
        if self.others:
            return tr("with {others}", others=listed([_named(it, wanted) for it in self.others]))
        if self.kind is ClashKind.NUMBER:
            return tr("takes more than there are")
        return tr("more than it holds")


def clash_rows(
    view: View, wanted: Wanted, lane: str, within: tuple[datetime, datetime] | None = None
) -> Iterator[dict[str, Value]]:
    """The rows of a picture's bar that clash, `within` the bar where it is not the booking."""
    first, last = within or (wanted.booking.start, wanted.booking.end)
    for mark in marks_of(view, wanted):
        start, end = max(mark.start, elapsed(first)), min(mark.end, elapsed(last))
        if start < end:
            yield {
                "role": "clash",
                "lane": lane,
                "task": mark.words(view, wanted),
                "start": stamp(wanted.plan.by_the_clock(start)),
                "end": stamp(wanted.plan.by_the_clock(end)),
                "kind": tr("clash: can't be done at once"),
                "text": mark.name,
            }


def marks_of(view: View, wanted: Wanted) -> list[Mark]:
    """The stretches of a booking that clash, in the order of the week's clashes."""
    numbered = enumerate(shown_clashes(view), 1)
    return [mark for number, clash in numbered for mark in _marks(number, clash, wanted)]


def _marks(number: int, clash: GearClash, wanted: Wanted) -> Iterator[Mark]:
    """The stretches of one clash, each as long as it goes on without a break."""
    key = wanted.booking.cook
    others = tuple(other for other in clash.whose if other.booking.cook != key)
    if len(others) == len(clash.whose):
        return
    for start, end in _joined(sorted(set(_stretches(clash, wanted)))):
        yield Mark(number, clash.kind, start, end, others)


def _stretches(clash: GearClash, wanted: Wanted) -> Iterator[tuple[datetime, datetime]]:
    """The parts of a clash within a booking; the week comes round."""
    booking = wanted.booking
    for part in clash.parts:
        if all(one.booking.cook != booking.cook for one in part.whose):
            continue
        for later in ROUND_THE_WEEK:
            start = max(part.clash.start + later, booking.start)
            end = min(part.clash.end + later, booking.end)
            if start < end:
                yield start, end


def _joined(found: Sequence[tuple[datetime, datetime]]) -> list[tuple[datetime, datetime]]:
    """Stretches in the order of their starts, those that meet made one."""
    joined: list[tuple[datetime, datetime]] = []
    for start, end in found:
        if joined and start <= joined[-1][1]:
            joined[-1] = joined[-1][0], max(end, joined[-1][1])
        else:
            joined.append((start, end))
    return joined


def _named(other: Wanted, wanted: Wanted) -> Text:
    """A cook by its name, with its service where that is another one."""
    title, service = other.planned.cook.title, other.plan.service
    if service.id == wanted.plan.service.id:
        return title
    return tr("{cook} ({service})", cook=title, service=service.title)
