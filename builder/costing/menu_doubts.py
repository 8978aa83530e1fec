"""Set menus whose food costs nearly what a guest pays: likelier a slip."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator

from builder.costing.dear import DEAR
from builder.costing.doubts import Doubts
from builder.costing.filled_rows import Rows
from builder.costing.wording import style_of
from builder.engine.figures import Figures
from builder.language import tr
from builder.problems import Place, Problem
from builder.records.content import Content
from builder.records.written import Value, warning


def check_dear_menus(
    content: Content, figures: Figures, rows: Rows, doubts: Doubts, reported: Collection[Place]
) -> Iterator[Problem]:
    """Warn of a food cost near or above what a guest pays, where no plate is in doubt."""
    for menu in content.menus.values():
        share = figures.value("set_menu", "food_cost_share", rows.menus[menu.id].row)
        doubtful = any(doubts.plates[name] for name in menu.plate_ids)
        if doubtful or menu.price.place in reported or not DEAR < share < math.inf:
            continue
        part = style_of(content.kitchen).percent(share)
        message = tr("the food of a guest costs {part} of what guests pay without tax", part=part)
        value = Value("menus.price", menu.price, menu, menu.path)
        hint = tr("look at the price and at who takes what")
        yield from warning(value, message, hint, "suppliers")
