"""Days on which somebody looked over a record: one that is still to come proves nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from builder.problems import Problem
from builder.records.base import Record
from builder.records.kinds import Equipment


def check_looked_over(owners: Iterable[Record | Equipment], last: date) -> Iterator[Problem]:
    """Refuse a day of checked: that comes after the last day that anything can be of."""
    for owner in owners:
        if owner.checked is not None and owner.checked.day > last:
            message = f"checked: {owner.checked.day} is still to come"
            hint = "write the day on which somebody looked over it"
            yield Problem(owner.checked.place, message, hint)
