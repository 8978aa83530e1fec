"""Days on which somebody looked over a record or decided something: none is still to come."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from builder.language import tr
from builder.problems import Problem
from builder.records.base import Record
from builder.records.kinds import Equipment, Swap


def check_looked_over(owners: Iterable[Record | Equipment], last: date) -> Iterator[Problem]:
    """Refuse a day of checked:, log: or decided: after the last day that anything can be of."""
    for owner in owners:
        yield from _check_decided(owner, last)
        if owner.checked is not None and owner.checked.day > last:
            message = tr("checked: {day} is still to come", day=owner.checked.day)
            hint = tr("write the day on which somebody looked over it")
            yield Problem(owner.checked.place, message, hint)


def _check_decided(owner: Record | Equipment, last: date) -> Iterator[Problem]:
    """Refuse what is written as decided on a day that is still to come."""
    days = [each.date for each in owner.log] if isinstance(owner, Record) else []
    if isinstance(owner, Swap) and owner.decided:
        days.append(owner.decided.date)
    for each in days:
        if each.day > last:
            message = tr("{day} is still to come, so nothing was decided on it", day=each.day)
            yield Problem(each.place, message, tr("write the day on which it was decided"))
