"""A count beside the till: both say what was sold on the same days, so they should agree."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from itertools import pairwise

from builder.language import tr
from builder.problems import Problem, Severity
from builder.records.content import Content
from builder.records.counted import CLOSED_DAYS
from builder.records.counts import Count, CountedPlate
from builder.records.guests import own_covers
from builder.records.sales import Sale

_DAY = timedelta(days=1)


def check_against_till(content: Content) -> Iterator[Problem]:
    """Warn of counted plates of which the till sold another number on the same days."""
    days = sorted({sale.day for sale in content.sales})
    of_plate: dict[str, list[Sale]] = defaultdict(list)
    for sale in content.sales:
        of_plate[sale.plate].append(sale)
    for count in content.counts.values():
        if count.start and count.end and covers(days, count.start.day, count.end.day):
            written = ((n, p) for n, p in count.plates.items() if own_covers(p.sold) is not None)
            for name, plate in written:
                yield from _check_plate(count, name, plate, of_plate.get(name, ()))


def covers(days: Sequence[date], first: date, last: date) -> bool:
    """Whether a till's rows, on `days` in order, say what was sold from a first day to a last.

    Where no two days follow each other a row sums up all days since the row before.

    >>> weekly = [date(2026, 9, day) for day in (6, 13, 20, 27)]
    >>> covers(weekly, date(2026, 9, 21), date(2026, 9, 27))
    True
    >>> covers(weekly, date(2026, 9, 22), date(2026, 9, 27))
    False
    >>> daily = [date(2026, 9, day) for day in (18, 19, 22, 23)]
    >>> covers(daily, date(2026, 9, 19), date(2026, 9, 23)), covers(daily, first=date(2026, 9, 1),
    ...     last=date(2026, 9, 19))
    (True, False)
    """
    apart = [later - day for day, later in pairwise(days)]
    if _DAY not in apart:
        return first - _DAY in days and last in days
    within = [
        gap
        for (day, later), gap in zip(pairwise(days), apart, strict=True)
        if day < last and later > first
    ]
    there = bool(days) and days[0] <= first and last <= days[-1]
    return there and max(within, default=_DAY).days <= CLOSED_DAYS


def _check_plate(
    count: Count, name: str, plate: CountedPlate, sales: Sequence[Sale]
) -> Iterator[Problem]:
    """A plate that the till never had may be sold there under a name that is left out."""
    assert count.start is not None
    assert count.end is not None
    within = [sale for sale in sales if count.start.day <= sale.day <= count.end.day]
    till = sum(sale.count for sale in within)
    if sales and till != plate.sold.value:
        at = (within or sales)[0].place
        yield Problem(
            plate.sold.place,
            tr(
                "{name}: {sold} are counted, but the till sold {till:.0f} on these days; "
                "this count takes what was counted",
                name=name,
                sold=plate.sold.text,
                till=till,
            ),
            tr("correct it here, or look at {file} from line {line}", file=at.file, line=at.line),
            Severity.WARNING,
            count.path,
            needs=("counts", "plates", "sales"),
        )
