"""Months counted from the till: they take the place of a plate's own `sold` of that month."""

from __future__ import annotations

from calendar import monthrange
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date

from builder.language import tr
from builder.problems import Problem, Severity, did_you_mean
from builder.quantities import Dimension
from builder.records.content import Content
from builder.records.fields import Measure, Month
from builder.records.kinds import Plate
from builder.records.sales import MonthSold, Sale, by_month
from builder.records.uses import MENU

# A month whose first or last days have no row is whole where no more than these are missing:
# a kitchen has closing days.
CLOSED_DAYS = 7


def with_till_counts(content: Content) -> tuple[Content, list[Problem]]:
    """The content with the till's months in its plates' `sold`, and what is doubtful in them.

    A month that the exports cover in part is left out where any plate has a whole one.
    """
    problems = [*_check_names(content), *_check_days(content), *_check_overlaps(content)]
    past = [sale for sale in content.sales if sale.day <= content.as_of]
    covered = _covered_days(past, content.as_of)
    months = [
        month
        for month in by_month((s for s in past if s.plate in content.plates), covered.__getitem__)
        if month.count > 0
    ]
    problems += _check_part_months(content, past, covered)
    whole = any(_is_whole(m.month, m.days) for m in months) or any(
        plate.sold for plate in content.plates.values()
    )
    kept = [m for m in months if not whole or _is_whole(m.month, m.days)]
    of_plate: dict[str, list[MonthSold]] = defaultdict(list)
    for month in kept:
        of_plate[month.plate].append(month)
    problems += [p for m in kept for p in _check_differs(content.plates[m.plate], m)]
    plates = {
        name: _with_months(plate, of_plate[name]) if name in of_plate else plate
        for name, plate in content.plates.items()
    }
    till = {(month.plate, month.month): month for month in months}
    return replace(content.with_records(plates=plates), till=till), problems


def _is_whole(month: date, days: int) -> bool:
    return days == monthrange(month.year, month.month)[1]


def _covered_days(sales: Iterable[Sale], as_of: date) -> Mapping[date, int]:
    """How many days of each month the exports cover, from their first row to their last."""
    days: dict[date, list[int]] = defaultdict(list)
    for sale in sales:
        days[sale.day.replace(day=1)].append(sale.day.day)
    return {month: _covered(month, min(all_), max(all_), as_of) for month, all_ in days.items()}


def _covered(month: date, first: int, last: int, as_of: date) -> int:
    """The days from a first to a last row, a few closed days at the ends counted with them.

    >>> _covered(date(2026, 9, 1), 2, 29, date(2026, 10, 3))
    30
    >>> _covered(date(2026, 9, 1), 2, 15, date(2026, 10, 3)), _covered(date(2026, 9, 1), 2, 15,
    ...     date(2026, 9, 16))
    (15, 16)
    """
    length = monthrange(month.year, month.month)[1]
    end = as_of.day if (as_of.year, as_of.month) == (month.year, month.month) else length
    begin = 1 if first <= CLOSED_DAYS else first
    return (end if last > end - CLOSED_DAYS else last) - begin + 1


def _with_months(plate: Plate, months: list[MonthSold]) -> Plate:
    counted = {month.month for month in months}
    own = {key: count for key, count in plate.sold.items() if key.first not in counted}
    till = {
        Month(month.month, month.place): Measure(
            month.count, month.place, f"{month.count:.0f}", Dimension.COUNT
        )
        for month in months
    }
    sold = dict(sorted({**own, **till}.items(), key=lambda each: each[0].first))
    return plate.model_copy(update={"sold": sold})


def _check_differs(plate: Plate, month: MonthSold) -> Iterator[Problem]:
    for key, count in plate.sold.items():
        if key.first == month.month and count.value != month.count:
            yield Problem(
                count.place,
                tr(
                    "{plate}: {count} are written for {key}, but the till counts "
                    "{count2:.0f}; the till counts",
                    plate=plate.title,
                    count=count.text,
                    key=key,
                    count2=month.count,
                ),
                tr(
                    "take {key} out here, or look at {file} from line {line}",
                    key=key,
                    file=month.place.file,
                    line=month.place.line,
                ),
                Severity.WARNING,
                plate.path,
                (MENU,),
                ("plates", "sales"),
            )


def _check_names(content: Content) -> Iterator[Problem]:
    """Names of the till that lead to no plate."""
    till = content.kitchen.till
    known = {*content.plates, *(path.rpartition("/")[2] for path in content.left_out)}
    for plate in till.plates.values() if till else ():
        if plate not in known and not content.has_file(Plate.folder, plate):
            hint = did_you_mean(plate, content.plates) or tr(
                "make the file plates/{plate}.yaml", plate=plate
            )
            yield Problem(plate.place, tr('there is no plate "{plate}"', plate=plate), hint)


def _check_days(content: Content) -> Iterator[Problem]:
    """Rows of days that have not come, each file's first."""
    said: set[str] = set()
    for sale in content.sales:
        if sale.day > content.as_of and sale.place.file not in said:
            said.add(sale.place.file)
            hint = tr("correct the day, or compute for a later one")
            yield Problem(
                sale.place,
                tr("{day} has not come by {as_of}", day=sale.day, as_of=content.as_of),
                hint,
            )


def _check_overlaps(content: Content) -> Iterator[Problem]:
    """Days that two files both have: an export that was taken twice would count twice."""
    first: dict[date, str] = {}
    said: set[tuple[str, str]] = set()
    for sale in content.sales:
        file = sale.place.file
        other = first.setdefault(sale.day, file)
        if other != file and (other, file) not in said:
            said.add((other, file))
            yield Problem(
                sale.place,
                tr("{other} has rows of {day}, too, and both count", other=other, day=sale.day),
                tr("where they are of one till, take the days out of one of them"),
                Severity.WARNING,
                also=(MENU,),
                needs=None,  # it names a file
            )


def _check_part_months(
    content: Content, sales: list[Sale], covered: Mapping[date, int]
) -> Iterator[Problem]:
    """Months past that the exports cover in part, at their first rows."""
    running = content.as_of.replace(day=1)
    for month, days in covered.items():
        length = monthrange(month.year, month.month)[1]
        if month == running or days == length:
            continue
        first = next(sale for sale in sales if sale.day.replace(day=1) == month)
        yield Problem(
            first.place,
            tr(
                "the sales of {month:%Y-%m} cover {days} of its {length} days, so the "
                "month is not counted where a whole one is",
                month=month,
                days=days,
                length=length,
            ),
            tr("export the rest of the month"),
            Severity.WARNING,
            also=(MENU,),
            needs=("plates", "sales"),
        )
