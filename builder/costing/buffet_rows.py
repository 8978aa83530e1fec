"""Rows of counters and buffets, and of what each puts out."""

from __future__ import annotations

from dataclasses import dataclass, field

from builder.costing.entries import entry, noted
from builder.costing.filled_rows import Rows
from builder.costing.wording import style_of
from builder.engine.book import Book, Entry, Identity
from builder.language import tr
from builder.money.buffets import BUFFET, DISH
from builder.records.amounts import in_base, in_mass
from builder.records.buffets import Buffet
from builder.records.content import Content


@dataclass(slots=True)
class BuffetRows:
    """Rows of one buffet: its own, those of its cooks and of its pantry items by their ids."""

    row: int
    cooks: dict[str, int] = field(default_factory=dict)
    items: dict[str, int] = field(default_factory=dict)


def buffet_rows(book: Book, content: Content, kitchen: Rows) -> dict[str, BuffetRows]:
    """Add every counter and buffet with its dishes, by its id."""
    found: dict[str, BuffetRows] = {}
    for buffet in content.buffets.values():
        row = book.add(BUFFET, {"kitchen": 0}, _values(buffet), Identity(buffet.path))
        rows = found[buffet.id] = BuffetRows(row)
        for name, weight in buffet.cooks.items():
            who = Identity(buffet.path, f"cooks.{name}", content.cooks[name].title)
            links = {"buffet": row, "batch": kitchen.cooks[name], "item": -1}
            rows.cooks[str(name)] = book.add(DISH, links, {"stated_weight": entry(weight)}, who)
        for name, amount in buffet.items.items():
            item = content.pantry[name]
            who = Identity(buffet.path, f"items.{name}", item.title)
            links = {"buffet": row, "batch": -1, "item": kitchen.pantry[name]}
            mass, base = in_mass(item, amount) or 0.0, in_base(item, amount)
            in_words = style_of(content.kitchen).weight(mass)
            reason = tr("{amount} weighs {weight}", amount=amount.text, weight=in_words)
            values = {
                "quantity": entry(amount, base),
                "kg_per_unit": noted(mass / base, amount.place, reason),
            }
            rows.items[str(name)] = book.add(DISH, links, values, who)
    return found


def _values(buffet: Buffet) -> dict[str, Entry | None]:
    return {
        "price_per_kg" if buffet.by_weight else "guest_price": entry(buffet.price),
        "left_share": entry(buffet.left),
        "left_worth": entry(buffet.left_worth),
        "sold_a_week": entry(buffet.sells),
        "guests": entry(buffet.guests),
    }
