"""What is wrong with a buffet or a counter among the other records."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import tr
from builder.problems import Problem
from builder.records.amounts import UnitMismatchError, in_base, in_mass, what_weighs
from builder.records.buffets import Buffet
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import PantryItem


def check_buffets(content: Content) -> Iterator[Problem]:
    """Dishes that have no weight, and a price of nothing."""
    for buffet in content.buffets.values():
        if not (buffet.cooks or buffet.items) and not buffet.unread & {"cooks", "items"}:
            hint = tr("write cooks: or items: with the weights put out")
            yield Problem(buffet.price.place, tr("nothing is put out"), hint)
        if buffet.price.value <= 0:
            yield Problem(buffet.price.place, tr("what is put out is sold for more than nothing"))
        yield from _check_items(content, buffet)


def _check_items(content: Content, buffet: Buffet) -> Iterator[Problem]:
    for name, amount in buffet.items.items():
        item = content.pantry.get(name)
        if item is not None and not item.unread:
            yield from _check_amount(name, item, amount)


def _check_amount(name: str, item: PantryItem, amount: Measure) -> Iterator[Problem]:
    try:
        in_base(item, amount)
    except UnitMismatchError as error:
        yield Problem(
            amount.place,
            tr("{amount} does not fit how {name} is priced", amount=amount.text, name=name),
            str(error),
        )
        return
    if in_mass(item, amount) is None:
        message = tr("{amount} of {name} has no weight", amount=amount.text, name=name)
        yield Problem(amount.place, message, what_weighs(item, amount))
