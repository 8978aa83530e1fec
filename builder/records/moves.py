"""A price against the same item's last one: a unit taken for another, or two digits turned."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from statistics import median

from builder.language import tr
from builder.problems import Problem
from builder.quantities import Dimension
from builder.records.amounts import in_mass
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cut, PantryItem
from builder.records.peers import all_prices_of
from builder.records.slips import slip
from builder.records.written import Doubted, Value, is_far, times, warning

# A price that is so many times the last one, or as small a part of it: seasons move prices by
# half, and a pound taken for a kilogram by 2.2. Common practice, no published source.
MOVED = 2.0
# What is meant lies within so many times of the last price.
NEAR = 1.35
_DIGITS = re.compile(r"\d[\d.]*")


def against_last(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of the newest price of an item where it is far from the one before, and of one between
    two from which it is far both times, where the middle of the others is as far. All are
    compared by one unit, by weight if need be.
    """
    priced: list[Cut | PantryItem] = [*content.cuts.values(), *content.pantry.values()]
    for record in priced:
        prices = _alike(record, all_prices_of(content, record))
        sound = [pair for pair in prices if pair[0].measure.place not in reported]
        afters: list[Priced | None] = [*sound[2:], None]
        for (last, before), (value, price), after in zip(sound, sound[1:], afters, strict=False):
            middle = median(other for each, other in sound if each is not value)
            others = [before, middle, *([after[1]] if after else [])]
            if not all(is_far(price, other, MOVED) for other in others):
                continue
            moved = price / before
            message = tr(
                "{measure} is {times} the last price, {measure2}",
                measure=value.measure.text,
                times=times(moved),
                measure2=last.measure.text,
            )
            yield from warning(value, message, _meant(value.measure, last.measure, 1 / moved))


Priced = tuple[Value, float]
"""A price and what it is by the unit that it is compared in."""


def _alike(record: Cut | PantryItem, prices: Sequence[Value]) -> list[Priced]:
    """Prices by one unit: their own where all have one, else by weight where it is known."""
    if len({value.measure.dimension for value in prices}) == 1:
        return [(value, value.measure.value) for value in prices]
    found = [(value, _per_kg(record, value.measure)) for value in prices]
    return [(value, price) for value, price in found if price]


def _per_kg(record: Cut | PantryItem, price: Measure) -> float | None:
    one = replace(price, value=1.0)
    if isinstance(record, PantryItem):
        mass = in_mass(record, one)
    elif price.dimension is Dimension.MASS:
        mass = 1.0
    else:
        mass = record.each.value if record.each and price.dimension is Dimension.COUNT else None
    return price.value / mass if mass else None


def _meant(measure: Measure, last: Measure, factor: float) -> str:
    """What a price may have been that should be `factor` times as large: by the unit of the last
    one, with two digits turned, or with another slip of the pen.
    """
    number, _, unit = measure.text.partition("/")
    was, _, last_unit = last.text.partition("/")
    if {unit, last_unit} != {unit} and not is_far(_first(number), _first(was), NEAR):
        return tr("did you mean {number}/{last_unit}?", number=number, last_unit=last_unit)
    return turned(measure.text, factor) or slip(measure, factor)


def turned(text: str, factor: float) -> str:
    """The text with two neighbouring digits turned, where that makes it `factor` times as large.

    >>> turned("14.20/kg", 39.5 / 14.2), turned("14.20/kg", 0.1)
    ('did you mean 41.20/kg?', '')
    """
    number = _DIGITS.match(text)
    digits = number[0] if number else ""
    for at, (one, other) in enumerate(pairwise(digits)):
        swapped = f"{digits[:at]}{other}{one}{digits[at + 2 :]}"
        if (one + other).isdigit() and not is_far(_first(swapped), _first(digits) * factor, NEAR):
            return tr("did you mean {swapped}{text}?", swapped=swapped, text=text[len(digits) :])
    return ""


def _first(text: str) -> float:
    number = _DIGITS.search(text)
    return float(number[0].rstrip(".")) if number else 0.0
