"""Prices of a case, a keg ... brought to what is in it, which the list or the file says."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, Protocol, Self, TypeVar

from builder.language import tr
from builder.problems import Problem
from builder.reading.tree import Text
from builder.records.fields import Measure
from builder.records.kinds import Cut, PantryItem
from builder.records.sold_as import SoldAs, by_size


class Listed(Protocol):
    """A row of a price list, as far as its price goes."""

    @property
    def item(self) -> Text:
        """Id of the cut or pantry item."""

    @property
    def price(self) -> Measure:
        """As written."""

    @property
    def sold(self) -> SoldAs | None:
        """How the row says that the item is sold."""

    def model_copy(self, *, update: Mapping[str, Any] | None = None) -> Self:
        """The row with other values."""


R = TypeVar("R", bound=Listed)


def sized_prices(
    records: Mapping[str, Cut | PantryItem], rows: Iterable[R]
) -> tuple[list[R], list[Problem]]:
    """Settle every price by the pack: a record's in its place, the rows' in rows of their own.

    A record whose price says no size has none then, and such a row is left out.
    """
    problems = [each for record in records.values() for each in _settle(record)]
    kept = []
    for row in rows:
        record = records.get(row.item)
        said = (row.sold, record.sold_as if record else None)
        pack = next((each.pack for each in said if each and each.pack), None)
        found = by_size(row.price, pack, record.file if record else tr("its file"))
        if isinstance(found, Problem):
            problems.append(found)
        else:
            kept.append(row if found is row.price else row.model_copy(update={"price": found}))
    return kept, problems


def _settle(record: Cut | PantryItem) -> list[Problem]:
    if record.price is None:
        return []
    pack = record.sold_as.pack if record.sold_as else None
    found = by_size(record.price, pack, record.file)
    if isinstance(found, Problem):
        unread = "sold_as" in record.unread
        record.__dict__.update(price=None, unread=record.unread | {"price"})
        return [] if unread else [found]
    record.__dict__.update(price=found)
    return []
