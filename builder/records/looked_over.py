"""Days on which somebody looked over a record or decided something: none is still to come."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from builder.language import tr
from builder.problems import Problem, Severity
from builder.records.base import Record
from builder.records.kinds import Equipment, Swap
from builder.records.kitchen import Kitchen

# Nobody prices a menu further ahead [days]: the longest planning horizon is a year. Common
# practice, no published source.
FURTHEST = 366


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


def check_day_of_build(kitchen: Kitchen, today: date) -> Iterator[Problem]:
    """Warn of a site that is computed for a day further ahead than anybody plans."""
    named = kitchen.as_of
    ahead = (named.day - today).days if named else 0
    if named is None or ahead <= FURTHEST or kitchen.checked is not None:
        return
    message = tr("the site is computed for a day {days} days ahead", days=ahead)
    hint = tr(
        "prices, tests and counts are all old by then; leave as of: out for today, "
        "or, if it is right, write checked: and the day in this file"
    )
    yield Problem(named.place, message, hint, Severity.WARNING, kitchen.path)
