"""Dates and months in the one form that every reader takes alike: ISO 8601."""

from __future__ import annotations

import re
from datetime import date

from builder.quantities.errors import QuantityError, one_short_line, quoted

_DATE = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_MONTH = re.compile(r"([0-9]{4})-([0-9]{2})")


def parse_date(text: str) -> date:
    """Read a date written as year-month-day; raises QuantityError for any other form.

    >>> parse_date("2026-09-03")
    datetime.date(2026, 9, 3)
    """
    line = one_short_line(text)
    match = _DATE.fullmatch(line)
    if match is None:
        raise QuantityError(f"{quoted(line)} is not a date", "write it as 2026-09-03")
    try:
        return date(*map(int, match.groups()))
    except ValueError as error:
        raise QuantityError(f"{quoted(line)} is not in the calendar", str(error)) from None


def parse_month(text: str) -> tuple[int, int]:
    """Read a month written as year-month; raises QuantityError for any other form.

    >>> parse_month("2026-08")
    (2026, 8)
    """
    line = one_short_line(text)
    match = _MONTH.fullmatch(line)
    if match is None:
        raise QuantityError(f"{quoted(line)} is not a month", "write it as 2026-08")
    year, month = map(int, match.groups())
    if not (year >= 1 and 1 <= month <= 12):
        raise QuantityError(f"{quoted(line)} is not in the calendar", "months run from 01 to 12")
    return year, month
