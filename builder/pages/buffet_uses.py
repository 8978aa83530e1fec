"""The counters and buffets that put out a cook or a pantry item, on its own page."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import tr
from builder.pages.components import Link
from builder.pages.parts import record_link
from builder.pages.values import measured
from builder.pages.view import View
from builder.records.buffets import Buffet
from builder.records.kinds import Cook, PantryItem


def buffet_links(view: View, record: Cook | PantryItem) -> Iterator[Link]:
    """Each counter or buffet that puts a record out, with how much of it."""
    uses = view.uses
    found = uses.buffets_of_cook if isinstance(record, Cook) else uses.buffets_with_item
    for buffet in found.get(record.id, ()):
        yield record_link(buffet, kind_words(buffet), _amount(view, buffet, record))


def kind_words(buffet: Buffet) -> str:
    """Whether it sells by weight or is put out for guests."""
    return tr("sold by weight") if buffet.by_weight else tr("buffet")


def _amount(view: View, buffet: Buffet, record: Cook | PantryItem) -> str:
    if not view.grants("weights"):
        return ""
    put_out = buffet.cooks if isinstance(record, Cook) else buffet.items
    amount = next(measured(view.style, each) for name, each in put_out.items() if name == record.id)
    if buffet.by_weight:
        return tr("{amount} in the mix", amount=amount)
    return tr("{amount} a guest", amount=amount)
