"""Set menus, counters and buffets whose food costs nearly what a guest pays, or whose price is
far from what is in it.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator

from builder.costing.buffet_rows import BuffetRows
from builder.costing.dear import DEAR, USUAL_SHARE
from builder.costing.doubts import Doubts
from builder.costing.filled_rows import Rows
from builder.costing.wording import style_of
from builder.engine.figures import Figures
from builder.language import Deferred, clauses, tr
from builder.problems import Place, Problem
from builder.records.content import Content
from builder.records.menus import SetMenu
from builder.records.slips import slip
from builder.records.written import Value, times, warning

# A menu is sold for less than its plates; so many times as much nobody pays. Common practice, no
# published source.
ABOVE_PLATES = 2
_LOOK = Deferred("look at the price and at what is put out")


def check_dear_menus(
    content: Content, figures: Figures, rows: Rows, doubts: Doubts, reported: Collection[Place]
) -> Iterator[Problem]:
    """Warn of a food cost near or above what a guest pays, and of a price far above the plates'.

    Nothing is said where a plate is in doubt, or the price is reported already.
    """
    for menu in content.menus.values():
        share = figures.value("set_menu", "food_cost_share", rows.menus[menu.id].row)
        doubtful = any(doubts.plates[name] for name in menu.plate_ids)
        if doubtful or menu.price.place in reported:
            continue
        yield from _above_plates(content, menu)
        if not DEAR < share < math.inf:
            continue
        part = style_of(content.kitchen).percent(share)
        message = tr("the food of a guest costs {part} of what guests pay without tax", part=part)
        value = Value("menus.price", menu.price, menu, menu.path)
        hint = tr("look at the price and at who takes what")
        yield from warning(value, message, hint, "suppliers")


def check_dear_buffets(
    content: Content, figures: Figures, rows: Rows, doubts: Doubts, reported: Collection[Place]
) -> Iterator[Problem]:
    """Warn of a counter or a buffet whose food costs nearly what guests pay, or more."""
    for buffet in content.buffets.values():
        row = rows.of(BuffetRows)[buffet.id].row
        share = figures.value("buffet", "food_cost_share", row)
        places = {buffet.price.place, *(amount.place for amount in buffet.cooks.values())}
        places |= {amount.place for amount in buffet.items.values()}
        doubtful = any(doubts.cooks[str(name)] for name in buffet.cooks)
        if doubtful or places.intersection(reported) or not DEAR < share < math.inf:
            continue
        part = style_of(content.kitchen).percent(share)
        message = tr("its food costs {part} of what guests pay without tax", part=part)
        value = Value("buffets.price", buffet.price, buffet, buffet.path)
        hint = clauses((slip(buffet.price, share / USUAL_SHARE), tr(_LOOK)))
        yield from warning(value, message, hint, "suppliers")


def _above_plates(content: Content, menu: SetMenu) -> Iterator[Problem]:
    """A price for several plates that is far above what a guest pays for the dearest singly."""
    dearest: dict[str, float] = {}
    for course, name, _ in menu.served:
        # What every guest gets adds up; of a course a guest takes one plate.
        key = str(name) if name in menu.plates else f"{course}:"
        price = content.plates[name].price.value
        dearest[key] = max(dearest.get(key, 0.0), price)
    singly = math.fsum(dearest.values())
    if 0 < ABOVE_PLATES * singly < menu.price.value:
        message = tr(
            "{price} is {times} what the dearest of its plates cost singly",
            price=menu.price.text,
            times=times(menu.price.value / singly),
        )
        value = Value("menus.price", menu.price, menu, menu.path)
        yield from warning(value, message, slip(menu.price, singly / menu.price.value))
