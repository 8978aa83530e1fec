"""Plates whose food costs nearly what guests pay, or next to nothing of it: likelier a slip."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace

from builder.costing.doubts import Doubts
from builder.costing.wording import style_of
from builder.language import Deferred, clauses, tr
from builder.problems import Place, Problem
from builder.records.contained import reached
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import PantryItem, Plate
from builder.records.moves import turned
from builder.records.peers import all_prices_of
from builder.records.portions import cut_of
from builder.records.slips import slip
from builder.records.uses import MENU, swaps_of
from builder.records.written import Value, is_far, middle_of, times, warning, without

# What food usually costs of a price, where the kitchen aims at no share of its own, and what it
# costs of hardly any. Common practice, no published source.
USUAL_SHARE, DEAR = 0.3, 0.65
# Meat that is hardly any part of the price of its plate. Common practice, no published source.
CHEAP = 0.06
# A wanted share of food is far from the menu where every plate is above it, and the middle plate
# has so many times as much. Common practice, no published source.
AIMED, FEW = 1.6, 2
# A price is in doubt above so many times the middle of the others in its section, where its food
# is also less than this part of every other plate's share. Common practice, no published source.
ABOVE_OTHERS, LEAST = 2.5, 0.6
_LOOK = Deferred("look at the price, the portion and the prices of what is on the plate")


def check_dear(content: Content, doubts: Doubts, reported: Collection[Place]) -> Iterator[Problem]:
    """Warn of a food cost near or above what guests pay, and of a price far above its food and
    its section, where nothing that the plate rests on is reported already.

    A side that is reported explains no more than what it costs.
    """
    shares = {plate.id: doubts.share(plate) for plate in content.plates.values()}
    others = _Others.of(content, shares)
    places = set(reported)
    yield from _aim(content, others.shares, places)
    for plate in content.plates.values():
        share = shares[plate.id]
        if places.intersection(_rests_on(content, plate)):
            continue
        doubted = [
            name for name in plate.with_ if places.intersection(_of_item(content, str(name)))
        ]
        if DEAR < share - doubts.share_of_sides(plate, doubted) < math.inf:
            yield from _dear(content, plate, share, others)
        elif share > 0 and not doubted and not share > DEAR:
            above = list(_far_above(content, plate, share, others))
            yield from above or _cheap(content, plate, share)


def _aim(content: Content, shares: list[float], reported: set[Place]) -> Iterator[Problem]:
    """A food cost that the kitchen aims at, and that no plate comes near."""
    kitchen = content.kitchen
    aim = kitchen.targets.food_cost if kitchen.targets else None
    if aim is None or len(shares) < FEW or reported or not 0 < aim.value < shares[0]:
        return
    middle = middle_of(shares)
    if middle > AIMED * aim.value:
        value = Value("kitchen.targets.food cost", aim, kitchen, kitchen.path)
        message = tr(
            "food cost: {aim} is less than any plate has, and the middle plate has {middle}",
            aim=aim.text,
            middle=style_of(kitchen).percent(middle),
        )
        yield from warning(value, message, slip(aim, middle / aim.value), "food cost")


def _rests_on(content: Content, plate: Plate) -> Iterator[Place]:
    """The places of what a plate's price, its amounts and the prices of its cuts say."""
    measures = [plate.price, *(each.portion for each in plate.served), *plate.with_.values()]
    yield from (measure.place for measure in measures)
    for portion in plate.served:
        cut = cut_of(content, portion)
        yield from (value.measure.place for value in all_prices_of(content, cut))


def _of_item(content: Content, name: str) -> Iterator[Place]:
    """The places of the prices and figures of an item and of all that goes into it."""
    for item in reached(content, filter(None, (content.pantry.get(name),))):
        assert isinstance(item, PantryItem)
        yield from (value.measure.place for value in all_prices_of(content, item))
        figures: list[Measure | None] = [item.makes, item.each, item.litre, item.quart, item.yield_]
        yield from (figure.place for figure in (*figures, *item.of.values()) if figure)


@dataclass(frozen=True, slots=True)
class _Others:
    """What all plates have, in ascending order: prices by section, shares of food above nothing."""

    prices: Mapping[str, list[float]]
    shares: list[float]

    @classmethod
    def of(cls, content: Content, shares: Mapping[str, float]) -> _Others:
        prices: dict[str, list[float]] = defaultdict(list)
        for plate in sorted(content.plates.values(), key=lambda plate: plate.price.value):
            if "price" not in plate.unread:
                prices[str(plate.menu)].append(plate.price.value)
        return cls(prices, sorted(share for share in shares.values() if share > 0))


def _far_above(content: Content, plate: Plate, own: float, all_: _Others) -> Iterator[Problem]:
    """A price far above the others of its section, whose food is a far smaller part of it."""
    price = plate.price
    section = without(all_.prices[str(plate.menu)], price.value)
    rest = without(all_.shares, own)
    middle = middle_of(section) if section else 0.0
    if not rest or price.value < middle or not is_far(price.value, middle, ABOVE_OTHERS):
        return
    if own < LEAST * rest[0]:
        style, ratio = style_of(content.kitchen), price.value / middle
        message = tr(
            "{price} is {times} the middle of the other prices in its section",
            price=price.text,
            times=times(ratio, 2),
        )
        message += tr(", and its food costs {own} of it without tax", own=style.percent(own))
        factor = own / middle_of(rest)
        hint = turned(price.text, factor) or slip(price, factor)
        yield from _of_price(content, plate, message, hint)


def _dear(content: Content, plate: Plate, share: float, all_: _Others) -> Iterator[Problem]:
    """Its own price is not the slip where the others of its section are like it."""
    aim = content.kitchen.targets.food_cost if content.kitchen.targets else None
    section = without(all_.prices[str(plate.menu)], plate.price.value)
    alike = bool(section) and not is_far(plate.price.value, middle_of(section), ABOVE_OTHERS)
    meant = slip(plate.price, share / (aim.value if aim else USUAL_SHARE))
    hint = meant if share > 1 and not alike else ""
    part = style_of(content.kitchen).percent(share)
    message = tr("its food costs {part} of what guests pay without tax", part=part)
    yield from _of_price(content, plate, message, clauses((hint, tr(_LOOK))))


def _cheap(content: Content, plate: Plate, share: float) -> Iterator[Problem]:
    """Meat next to nothing of the price: one of the prices, or the portion, is likelier a slip."""
    if share < CHEAP and plate.served:
        message = tr(
            "its food costs only {share} of what guests pay without tax",
            share=style_of(content.kitchen).percent(share),
        )
        yield from _of_price(content, plate, message, tr(_LOOK))


def _of_price(content: Content, plate: Plate, message: str, hint: str) -> Iterator[Problem]:
    """The warning at a plate's price, on every page that rests on it."""
    value = Value("plates.price", plate.price, plate, plate.path)
    also = (MENU, *swaps_of(content, [plate]))
    # A price that two suppliers have on one day is reported, and then no plate of it is.
    for problem in warning(value, message, hint, "suppliers"):
        yield replace(problem, also=also)
