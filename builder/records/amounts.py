"""Amounts brought to the unit that an item is priced by."""

from __future__ import annotations

import re

from builder.display.words import listed
from builder.language import tr
from builder.quantities import Dimension, is_free
from builder.quantities.units import GALLON
from builder.records.fields import Measure
from builder.records.kinds import Cut, PantryItem

_LITRES_PER_QUART = float(GALLON / 4)


class UnitMismatchError(ValueError):
    """An amount can't be brought to the item's unit; the message says what would help."""


def base_dimension(item: PantryItem) -> Dimension:
    """What a unit of the item is: that of its price where it is bought, of its makes where made.

    Where its file says neither, that of the price lists.
    """
    if item.price is not None and item.price.dimension is not None:
        return item.price.dimension
    if item.makes is not None and item.makes.dimension is not None:
        return item.makes.dimension
    return Dimension.MASS if item.of else item.listed_by or Dimension.MASS


def kg_per_litre(item: PantryItem) -> float | None:
    """Weight of one litre [kg], as written or from that of a quart; None where unknown."""
    if item.litre is not None:
        return item.litre.value
    return None if item.quart is None else item.quart.value / _LITRES_PER_QUART


def in_mass(item: PantryItem, amount: Measure) -> float | None:
    """The amount's weight [kg], or None where the item does not say enough."""
    match amount.dimension:
        case Dimension.MASS:
            return amount.value
        case Dimension.COUNT if item.each is not None:
            return amount.value * item.each.value
        case Dimension.VOLUME if (litre := kg_per_litre(item)) is not None:
            return amount.value * litre
        case _:
            return None


_WEIGHT_OF_ONE = {"each": "each: 120 g", "litre": "litre: 1.02 kg"}
_IN_POUNDS = {"each": "each: 4 oz", "litre": "quart: 2.15 lb"}
_US = re.compile(r"\b(?:lb|oz|qt|pt|gal|cups?|tbsp|tsp)s?\b|#")
_UNITS = {Dimension.VOLUME: "L", Dimension.COUNT: "each"}


def in_base(item: PantryItem, amount: Measure) -> float:
    """The amount in the item's unit (kg, L or each); UnitMismatchError where it can't be had."""
    base = base_dimension(item)
    if amount.dimension is base:
        return amount.value
    mass = in_mass(item, amount)
    per_base = _mass_of_base(item, base)
    if mass is None or per_base is None:
        raise UnitMismatchError(_what_helps(item, amount, base))
    return mass / per_base


def _mass_of_base(item: PantryItem, base: Dimension) -> float | None:
    """What one unit weighs [kg], or None where the item does not say it."""
    match base:
        case Dimension.COUNT:
            return item.each.value if item.each else None
        case Dimension.VOLUME:
            return kg_per_litre(item)
        case _:
            return 1.0


def price_in_base(item: PantryItem, price: Measure) -> float:
    """A price [money per kg, L or each] for the item's unit; UnitMismatchError as `in_base`."""
    base = base_dimension(item)
    if price.dimension is base or is_free(price.text):
        return price.value
    paid_for = _mass_of_base(item, price.dimension) if price.dimension else None
    per_base = _mass_of_base(item, base)
    if paid_for is None or per_base is None:
        raise UnitMismatchError(_what_helps(item, price, base))
    return price.value / paid_for * per_base


def price_per_kg(cut: Cut, price: Measure) -> float:
    """A cut's price [money/kg], whether it is paid by weight or each."""
    if price.dimension is Dimension.COUNT and cut.each is not None:
        return price.value / cut.each.value
    return price.value


def _what_helps(item: PantryItem, amount: Measure, base: Dimension) -> str:
    if item.price and is_free(item.price.text) and "/" not in item.price.text:
        return tr(
            "write price: free/{get} in {file}",
            get=_UNITS.get(amount.dimension or base, "kg"),
            file=item.file,
        )
    return what_weighs(item, amount, base)


def what_weighs(item: PantryItem, amount: Measure, base: Dimension = Dimension.MASS) -> str:
    """What to write in the item's file, so that the amount can be had in another dimension."""
    between = {amount.dimension, base}
    keys = [
        key
        for key, dimension in (("each", Dimension.COUNT), ("litre", Dimension.VOLUME))
        if dimension in between
    ]
    words = f"{amount.text} {item.price.text if item.price else ''}"
    one = _IN_POUNDS if _US.search(words) else _WEIGHT_OF_ONE
    examples = listed([one[key] for key in keys])
    return tr(
        "write in {file} what one weighs, such as {examples}", file=item.file, examples=examples
    )
