"""What every kitchen buys by the sack, against what it pays for meat."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from statistics import median

from builder.language import tr
from builder.problems import Problem
from builder.records.amounts import price_per_kg
from builder.records.batches import sizes_of, weight_of
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cut, PantryItem
from builder.records.peers import all_prices_of
from builder.records.slips import slip
from builder.records.written import Doubted, Value, rounded, warning

# By the words of ids. None of it is dearer by weight than the dearest cut of a kitchen that buys
# several, unless an hour of work buys a kilogram of both. Common practice, no published source.
EVERYDAY = frozenset((
    "bones", "butter", "carrot", "carrots", "cream", "flour", "margarine", "milk", "onion",
    "onions", "potato", "potatoes", "sugar",
))  # fmt: skip
SEVERAL, HOURS, USUAL = 2, 1.0, 0.4


def check_larder(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of butter, flour and the like that cost more than the dearest meat."""
    wage = content.kitchen.loaded_wage
    meat = [cost for cut in content.cuts.values() if (cost := _per_kg(content, cut, reported))]
    if len(meat) < SEVERAL or wage is None or wage.place in reported:
        return
    for item in content.pantry.values():
        price, paid = item.price, _per_kg(content, item, reported)
        if price is None or EVERYDAY.isdisjoint(str(item.id).split("-")[-1:]):
            continue
        if paid > max(meat) and paid > HOURS * wage.value:
            value = Value("pantry.price", price, item, item.path)
            message = tr(
                "{price} is more by weight than the dearest cut costs, {dearest}",
                price=price.text,
                dearest=rounded(max(meat)),
            )
            yield from warning(value, message, slip(price, USUAL * median(meat) / paid))


def _per_kg(content: Content, item: Cut | PantryItem, reported: Doubted) -> float:
    """The middle of what a kilogram costs [money]; 0 where that is not known, or in doubt."""
    if isinstance(item, PantryItem) and sizes_of(item) & reported:
        return 0.0
    measures = [value.measure for value in all_prices_of(content, item)]
    sound = [price for price in measures if price.place not in reported]
    found = [_kilogram(item, price) for price in sound]
    return median(each for each in found if each) if any(found) else 0.0


def _kilogram(item: Cut | PantryItem, price: Measure) -> float:
    """What a kilogram costs by one price [money]; 0 where a weight is not known."""
    if isinstance(item, Cut):
        if item.each is not None and item.each.value <= 0:
            return 0.0
        return price_per_kg(item, price)
    one = weight_of(item, replace(price, value=1.0))
    return price.value / one if one > 0 else 0.0
