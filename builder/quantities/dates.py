"""Dates and months in the one form that every reader takes alike: ISO 8601."""

from __future__ import annotations

import re
from calendar import month_abbr, monthrange
from datetime import date
from functools import lru_cache

from builder.language import either, tr
from builder.quantities.errors import QuantityError, one_short_line, quoted

_DATE = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_TWO = r"[0-9]{1,2}"
_THREE = re.compile(
    rf"[0-9]{{4}}(?P<a>[-/. ]){_TWO}(?P=a){_TWO}|{_TWO}(?P<b>[-/. ]){_TWO}(?P=b)[0-9]{{4}}"
)
_TOGETHER = re.compile(r"([0-9]{4})([0-9]{2})([0-9]{2})")
_MONTHS = {name.lower(): number for number, name in enumerate(month_abbr) if name}
_MONTH = re.compile(r"([0-9]{4})-([0-9]{2})")
# Years of a kitchen's files: weeks before and after each of them still lie in the calendar.
FIRST_YEAR, LAST_YEAR = 1900, 2199


def years_wanted() -> str:
    """Which years may be written, in words."""
    return tr("years from {first} to {last}", first=FIRST_YEAR, last=LAST_YEAR)


def is_plausible(day: date) -> bool:
    """Whether a day may stand in a kitchen's files.

    >>> is_plausible(date(2026, 9, 3)), is_plausible(date.max)
    (True, False)
    """
    return FIRST_YEAR <= day.year <= LAST_YEAR


@lru_cache(maxsize=1 << 12)
def parse_date(text: str) -> date:
    """Read a date written as year-month-day; raises QuantityError for any other form.

    >>> parse_date("2026-09-03")
    datetime.date(2026, 9, 3)
    """
    line = one_short_line(text)
    match = _DATE.fullmatch(line)
    if match is None:
        raise QuantityError(tr("{line} is not a date", line=quoted(line)), _meant(line))
    year, month, day = map(int, match.groups())
    try:
        return date(year, month, day)
    except ValueError:
        raise QuantityError(
            tr("{line} is not in the calendar", line=quoted(line)), _why(year, month)
        ) from None


def _why(year: int, month: int) -> str:
    if not (1 <= month <= 12 and year):
        return tr("months run from 01 to 12")
    return tr("that month has {monthrange} days", monthrange=monthrange(year, month)[1])


def _meant(line: str) -> str:
    """The dates that another order of year, month and day may have meant, else an example."""
    named = _with_month_number(line)
    if named:
        orders: tuple[tuple[int, int, int], ...] = ((0, 1, 2),)
        numbers = named
    elif _THREE.fullmatch(line):
        numbers = [int(number) for number in re.findall(r"[0-9]+", line)]
        orders = ((0, 1, 2),) if numbers[0] > 31 else ((2, 1, 0), (2, 0, 1))
    elif found := _TOGETHER.fullmatch(line):
        numbers, orders = [*map(int, found.groups())], ((0, 1, 2),)
    else:
        return tr("a date, for example 2026-09-03")
    possible = [_possible(*(numbers[place] for place in order)) for order in orders]
    dates = either(dict.fromkeys(filter(None, possible)))
    return tr("write it as {dates}", dates=dates) if dates else tr("a date, for example 2026-09-03")


def _with_month_number(line: str) -> list[int]:
    """Year, month and day of a date with its month in English letters; empty for any other.

    >>> _with_month_number("3 Sept 2026"), _with_month_number("September 3rd, 2026")
    ([2026, 9, 3], [2026, 9, 3])
    """
    word = re.search(r"[A-Za-z]{3,}", line)
    month = _MONTHS.get(word[0][:3].lower()) if word else None
    numbers = [int(number) for number in re.findall(r"[0-9]+", line)]
    if month is None or len(numbers) != 2:
        return []
    day, year = sorted(numbers)
    return [year, month, day]


def _possible(year: int, month: int, day: int) -> str:
    try:
        return date(year, month, day).isoformat()
    except ValueError:
        return ""


def parse_month(text: str) -> tuple[int, int]:
    """Read a month written as year-month; raises QuantityError for any other form.

    >>> parse_month("2026-08")
    (2026, 8)
    """
    line = one_short_line(text)
    match = _MONTH.fullmatch(line)
    if match is None:
        raise QuantityError(tr("{line} is not a month", line=quoted(line)), _meant_month(line))
    year, month = map(int, match.groups())
    if not (year >= 1 and 1 <= month <= 12):
        raise QuantityError(
            tr("{line} is not in the calendar", line=quoted(line)), tr("months run from 01 to 12")
        )
    return year, month


def _meant_month(line: str) -> str:
    """The month that another way of writing one means, else an example."""
    word = re.search(r"[A-Za-z]{3,}", line)
    numbers = [int(number) for number in re.findall(r"[0-9]+", line)]
    if word and len(numbers) == 1 and (named := _MONTHS.get(word[0][:3].lower())):
        numbers.append(named)
    years = [number for number in numbers[:2] if number >= 1000]
    months = [number for number in numbers[:2] if 1 <= number <= 12]
    if len(years) == 1 and len(months) == 1:
        return tr("write it as {years:04}-{months:02}", years=years[0], months=months[0])
    return tr("a month, for example 2026-08")
