"""Plates whose food costs more than guests pay: likelier a slip than a gift."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace

from builder.costing.doubts import Doubts
from builder.costing.wording import style_of
from builder.problems import Place, Problem
from builder.records.content import Content
from builder.records.kinds import Plate
from builder.records.slips import slip
from builder.records.uses import MENU, swaps_of
from builder.records.written import Value, warning

# What food usually costs of a price, where the kitchen aims at no share of its own. Common
# practice, no published source.
USUAL_SHARE = 0.3


def check_dear(content: Content, doubts: Doubts, reported: Collection[Place]) -> Iterator[Problem]:
    """Warn of a food cost above 100 % where neither price nor portion is reported already."""
    for plate in content.plates.values():
        share = doubts.too_dear(plate)
        portion = plate.portion.place if plate.portion else None
        if share and not {plate.price.place, portion} & set(reported):
            yield from _dear(content, plate, share)


def _dear(content: Content, plate: Plate, share: float) -> Iterator[Problem]:
    aim = content.kitchen.targets.food_cost if content.kitchen.targets else None
    hint = slip(plate.price, share / (aim.value if aim else USUAL_SHARE))
    value = Value("plates.price", plate.price, plate, plate.path)
    part = style_of(content.kitchen).percent(share)
    message = f"its food costs {part} of what guests pay without tax"
    look = "look at the price, the portion and the prices of what is on the plate"
    also = (MENU, *swaps_of(content, [plate]))
    for problem in warning(value, message, "; ".join(filter(None, (hint, look)))):
        yield replace(problem, also=also)
