"""Rows of what every cover gets, and what multiplies the food of a plate."""

from __future__ import annotations

from collections.abc import Mapping

from builder.costing.entries import entry, noted
from builder.engine.book import Book, Entry, Identity
from builder.language import tr
from builder.money.covers import COVER_ITEM
from builder.quantities import Dimension
from builder.records.amounts import in_base, in_mass
from builder.records.content import Content
from builder.records.covered import bears_cover
from builder.records.fields import Measure
from builder.records.kinds import Plate
from builder.records.kitchen import Kitchen


def amount_values(
    content: Content, name: str, amount: Measure, *, with_mass: bool = False
) -> dict[str, Entry | None]:
    """The amount of a pantry item in its unit, and its weight where that is asked for."""
    item = content.pantry[name]
    values = {"quantity": entry(amount, in_base(item, amount))}
    mass = in_mass(item, amount)
    if with_mass and mass is not None:
        values["quantity_mass"] = entry(amount, mass)
    return values


def cover_rows(book: Book, content: Content, pantry: Mapping[str, int]) -> dict[str, int]:
    """Add the items that every cover gets, by name; those without a price yet are no rows."""
    cover = content.kitchen.cover_cost
    return {
        str(name): book.add(
            COVER_ITEM,
            {"kitchen": 0, "item": pantry[name]},
            amount_values(content, name, amount),
            Identity(content.kitchen.path, f"cover.{name}", content.pantry[name].title),
        )
        for name, amount in (cover.of if cover else {}).items()
        if name in pantry
    }


def kitchen_factors(kitchen: Kitchen) -> dict[str, Entry | None]:
    """The kitchen's garnish and cover cost, as far as they are written so."""
    return {
        **_garnish(kitchen.garnish, "kitchen"),
        "stated_cover_cost": entry(kitchen.cover_cost.money) if kitchen.cover_cost else None,
    }


def _garnish(written: Measure | None, whose: str) -> dict[str, Entry | None]:
    """Garnish as it is written, by share or as money; it is nothing in the other way."""
    if written is None:
        return {}
    share = written.dimension is Dimension.RATIO
    none = noted(
        0.0,
        written.place,
        tr("garnish is written as {a_share}", a_share=tr("a share") if share else tr("money")),
    )
    by_share, as_money = (entry(written), none) if share else (none, entry(written))
    return {f"{whose}_garnish_share": by_share, f"{whose}_garnish": as_money}


def plate_factors(content: Content, plate: Plate) -> dict[str, Entry | None]:
    """A plate's own seasoning, garnish and cover, and whether it bears the kitchen's."""
    bears = bears_cover(content, plate)
    reason = tr("{menu} bears the cover cost", menu=plate.menu)
    return {
        "plate_seasoning": entry(plate.seasoning),
        **_garnish(plate.garnish, "plate"),
        "plate_cover": entry(plate.cover_cost),
        "bears_cover": noted(1.0, plate.menu.place, reason) if bears else None,
    }
