"""Plates whose work costs most of what guests pay, and takes long: likelier a slip."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace

from builder.costing.filled_rows import Rows
from builder.costing.wording import style_of
from builder.engine.figures import Figures
from builder.language import tr
from builder.problems import Place, Problem
from builder.records.contained import reached
from builder.records.content import Content
from builder.records.kinds import PantryItem, Plate
from builder.records.slips import slip
from builder.records.uses import MENU, swaps_of
from builder.records.written import Value, warning

# Work of one plate, with what was cooked ahead for it: the part of a price that it costs, and so
# many hours, only together in doubt. What it usually costs. Common practice, no published source.
DEAR, LONG, USUAL = 0.5, 8 / 60, 0.1


def check_long_work(
    content: Content, figures: Figures, rows: Rows, reported: Collection[Place]
) -> Iterator[Problem]:
    """Warn of plates on which the work costs half of what guests pay without tax, or more.

    The warning is at the key that brings most of the work.
    """
    for plate in content.plates.values():
        row = rows.plates[plate.id]
        hours, sides, cost, price = (
            figures.value("plate", name, row)
            for name in ("labour_hours", "accompaniments_hours", "labour_cost", "price_ex_tax")
        )
        value = _most(content, plate, hours, sides)
        known = any(place in reported for place in _stated(content, plate))
        if not known and hours > LONG and DEAR < cost / price < math.inf:
            part = style_of(content.kitchen).percent(cost / price)
            message = tr(
                "the work for {plate} costs {part} of what guests pay without tax",
                plate=plate.title,
                part=part,
            )
            also = (MENU, *swaps_of(content, [plate]))
            hint = slip(value.measure, USUAL * price / cost)
            found = warning(value, message, tr("{hint} look at hands-on", hint=hint).strip())
            yield from (replace(problem, also=also) for problem in found)


def _stated(content: Content, plate: Plate) -> Iterator[Place]:
    """The lines that state work on a plate, its cooks and its sub-recipes, or else its price."""
    cooks = (content.cooks[name].hands_on for name in plate.cooks)
    sides = (item.hands_on for item in _made(content, plate.with_))
    for work in (plate.hands_on, *cooks, *sides):
        if work is not None:
            yield work.place
    yield plate.price.place


def _made(content: Content, names: Iterable[str]) -> list[PantryItem]:
    """Items by their ids, and those that go into them, each once."""
    found = reached(content, (content.pantry[name] for name in names))
    return [item for item in found if isinstance(item, PantryItem)]


def _most(content: Content, plate: Plate, hours: float, sides: float) -> Value:
    """The work of the plate or its sides where it is most of all `hours`, else the cook's.

    Without any of these it is the price.
    """
    if plate.hands_on is not None and plate.hands_on.value > hours / 2:
        return Value("plates.hands on", plate.hands_on, plate, plate.path)
    worked = [item for item in _made(content, plate.with_) if item.hands_on is not None]
    if worked and sides > hours / 2:
        item = max(worked, key=lambda item: item.hands_on.value if item.hands_on else 0.0)
        assert item.hands_on is not None
        return Value("pantry.hands on", item.hands_on, item, item.path)
    cook = content.cooks.get(plate.cook) if plate.cook else None
    if cook is not None and cook.hands_on is not None:
        return Value("cooks.hands on", cook.hands_on, cook, cook.path)
    return Value("plates.price", plate.price, plate, plate.path)
