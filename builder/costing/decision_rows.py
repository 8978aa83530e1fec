"""What a decision on a swap was taken on, and what was sold of the challenger since."""

from __future__ import annotations

import calendar
from collections.abc import Iterator
from datetime import date

from builder.costing.entries import entry, noted
from builder.engine.book import Entry
from builder.language import tr
from builder.problems import Place
from builder.records.content import Content
from builder.records.guests import own_covers
from builder.records.kinds import Plate, Swap

Sold = tuple[float, int, Place, str]
"""Plates, days, where they are written, and when they were sold."""


def decision_values(content: Content, swap: Swap, plate: Plate) -> dict[str, Entry | None]:
    """The figures of a decision on a challenger; none where there is none by the day."""
    decided = swap.decision(plate.id, content.as_of)
    if decided is None:
        return {}
    values = {
        "decided_margin_change": entry(decided.margin_change),
        "decided_food_saving": entry(decided.food_saved),
        "decided_forecast": entry(decided.forecast),
    }
    found = sold_since(content, plate, decided.date.day)
    if found and decided.taken:
        plates, days = sum(each[0] for each in found), sum(each[1] for each in found)
        place, reason = (
            found[0][2],
            tr("sold in {found}", found=", ".join(each[3] for each in found)),
        )
        values["sold_since"] = noted(plates, place, reason)
        values["weeks_since"] = noted(days / 7, place, reason)
    return values


def sold_since(content: Content, plate: Plate, since: date) -> list[Sold]:
    """What was sold of a plate from a day on: whole months, else what was counted."""
    return list(_months(content, plate, since)) or list(_counts(content, plate, since))


def _months(content: Content, plate: Plate, since: date) -> Iterator[Sold]:
    """The whole months from the decision on: what part of a month came after it is not known."""
    for month, sold in sorted(plate.sold.items(), key=lambda each: each[0].first):
        days = calendar.monthrange(month.first.year, month.first.month)[1]
        if since <= month.first and month.first.replace(day=days) <= content.as_of:
            yield sold.value, days, sold.place, str(month)


def _counts(content: Content, plate: Plate, since: date) -> Iterator[Sold]:
    """The counted periods from the decision on, of those that overlap the first."""
    last = date.min
    spans = ((each.start, each.end, each) for each in content.counts.values())
    known = [(first.day, end.day, each) for first, end, each in spans if first and end]
    for first, end, count in sorted(known, key=lambda each: each[:2]):
        sold = count.plates.get(plate.id)  # type: ignore[call-overload]
        if (
            sold
            and own_covers(sold.sold)
            and since <= first
            and end <= content.as_of
            and first > last
        ):
            yield sold.sold.value, (end - first).days + 1, sold.sold.place, count.title
            last = end
