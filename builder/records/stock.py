"""What a service has at hand and orders besides: of items that are there, in their own units."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import tr
from builder.problems import Problem, did_you_mean
from builder.reading.tree import Text
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cut, PantryItem
from builder.records.sold_in import check_unit


def item_of(content: Content, name: str) -> Cut | PantryItem | None:
    """The cut or pantry item of an id; None where there is none."""
    return content.cuts.get(name) or content.pantry.get(name)


def check_stock(content: Content) -> Iterator[Problem]:
    """Ids that lead nowhere, and amounts that do not fit how their item is priced."""
    for service in content.services.values():
        for amounts in (service.on_hand, service.besides):
            for name, amount in amounts.items():
                yield from _check(content, name, amount)


def _check(content: Content, name: Text, amount: Measure) -> Iterator[Problem]:
    item = item_of(content, name)
    if item is None and not any(content.has_file(kind, name) for kind in ("cuts", "pantry")):
        hint = did_you_mean(name, [*content.pantry, *content.cuts])
        hint = hint or tr("make the file pantry/{name}.yaml", name=name)
        yield Problem(
            name.place, tr('there is no cut and no pantry item "{name}"', name=name), hint
        )
    if item is not None and not item.unread:
        yield from check_unit(item, amount)
