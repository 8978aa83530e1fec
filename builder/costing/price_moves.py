"""How far prices may move over the kitchen's planning horizon, by their own lists.

A price is taken to go its way by steps that add up: the logarithm of a price after a time ahead
is that of today's, give or take the root of that time times the mean squared change of its
list so far a day. Prices of one supplier move together as they did: each of its lists is a
factor that moves every price as that list did. A price of few changes moves as all listed prices
did, without the changes of other items by a half up or a third down: one of those, a slip or a
rare event, says nothing of this item and would widen every such price.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

from builder.engine.draws import Basis, Spread
from builder.engine.methods import method
from builder.records.amounts import UnitMismatchError, price_in_base, price_per_kg
from builder.records.content import Content
from builder.records.kinds import Cut
from builder.records.listed import listed_candidates
from builder.records.pricing import CurrentPrice, is_no_price

MONTH_DAYS = 365.25 / 12
# With fewer changes than these a list of its own says too little.
FEWEST_CHANGES = 3
# A price that rises by half, or falls by a third, within one list is told of: either may be a
# slip. Common practice, no published source.
_JUMP = math.log(1.5)
# What a price is drawn up to and down to: a tenth of today's, and ten times.
_BOUND = 10.0


@dataclass(frozen=True, slots=True)
class Change:
    """From one of a supplier's lists to its next: the change of a price's logarithm, in days."""

    listed: date
    step: float
    days: float


@method(
    unit="1",
    source="mean squared log return of a price without a trend; RiskMetrics Technical Document, "
    "1996, part II [from memory]",
    title="spread of a price over a time ahead",
)
def price_spread(changes: Sequence[Change], days: float) -> float:
    """Standard deviation of a price's logarithm after a time ahead.

    Formula: the root of (sum of squared changes of the logarithm / days that they took) x days
    ahead. A trend is not carried on: over months what a list says of a trend is noise.

    Held to five monthly series of meat prices of the US Bureau of Labor Statistics, 2013 to 2023:
    of the 90 % intervals of 1, 3, 6 and 12 months ahead 85 to 92 in 100 held the price. Of those
    missed most lay above, for prices rose in these years; a jump of a whole market, as in 2020,
    is missed for some months ahead.

    Parameters: changes with their days, both in order; days ahead. Not known without a change.

    >>> day = date(2026, 1, 1)
    >>> round(price_spread([Change(day, 0.1, 30.0), Change(day, -0.1, 30.0)], 120.0), 4)
    0.2
    """
    took = math.fsum(change.days for change in changes)
    if not took:
        return math.nan
    return math.sqrt(math.fsum(change.step**2 for change in changes) / took * days)


class PriceMoves:
    """The spreads of a kitchen's prices over its planning horizon."""

    def __init__(self, content: Content, prices: Mapping[str, CurrentPrice]) -> None:
        horizon = content.kitchen.planning_horizon
        self.days = horizon.days if horizon else MONTH_DAYS
        self._changes = _changes(content, prices)
        self._prices = prices
        listed = (change for changes in self._changes.values() for change in changes)
        self._usual = [change for change in listed if not _is_jump(change)]

    def spread(self, item: str, price: float) -> Spread | None:
        """The spread of an item's price; None where no list of the kitchen says anything of it.

        With fewer than three changes of its own an item moves like the kitchen's other prices,
        without the large changes of those.
        A list that never moved has a spread of nothing.
        """
        changes = self._changes.get(item, [])
        if not price > 0 or not changes:
            return None
        few = len(changes) < FEWEST_CHANGES
        behind = [*self._usual, *filter(_is_jump, changes)] if few else changes
        scale = price_spread(behind, self.days)
        if len(behind) < FEWEST_CHANGES:
            return None
        low, high = price / _BOUND, price * _BOUND
        basis, count = (Basis.LIKE_PRICES if few else Basis.LIST), len(behind)
        shared = () if few else tuple(self._factors(item, changes))
        return Spread(
            price, scale, basis, float(count), relative=True, low=low, high=high, shared=shared,
            group=self._supplier(item), count=count,
        )  # fmt: skip

    def changes(self, item: str) -> Sequence[Change]:
        """An item's changes so far, in their order."""
        return self._changes.get(item, [])

    def jump(self, item: str) -> Change | None:
        """An item's largest change from list to list, where it may be a slip."""
        found = max(self.changes(item), key=lambda change: abs(change.step), default=None)
        return found if found and _is_jump(found) else None

    def _factors(self, item: str, changes: Sequence[Change]) -> Iterator[tuple[str, float]]:
        took = math.fsum(change.days for change in changes)
        for change in changes:
            # It names a draw, so it is the same in every language.
            name = f"list {self._supplier(item)} {change.listed.isoformat()}"
            yield name, change.step * math.sqrt(self.days / took)

    def _supplier(self, item: str) -> str:
        return self._prices[item].supplier or item


def _is_jump(change: Change) -> bool:
    return abs(change.step) >= _JUMP


def _changes(content: Content, prices: Mapping[str, CurrentPrice]) -> dict[str, list[Change]]:
    """By item how its price went from list to list of the supplier that it is bought from."""
    by_item: dict[str, dict[date, float]] = defaultdict(dict)
    listed = listed_candidates(content)
    for row in content.prices:
        item, current = str(row.item), prices.get(row.item)
        other = current and row.supplier and str(row.supplier) != current.supplier
        if current is None or other or row.date.day > content.as_of or is_no_price(row.price):
            continue
        record = content.cuts.get(item) or listed.get(item) or content.pantry[item]
        try:
            if isinstance(record, Cut):
                price = price_per_kg(record, row.price)
            else:
                price = price_in_base(record, row.price)
        except UnitMismatchError:
            continue  # an old list in a unit that can't be brought to today's
        if price > 0:
            by_item[item].setdefault(row.date.day, price)
    return {
        item: [
            Change(day, math.log(by_day[day] / by_day[before]), float((day - before).days))
            for before, day in pairwise(sorted(by_day))
        ]
        for item, by_day in by_item.items()
    }
