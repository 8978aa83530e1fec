"""A food cost beside the one that is aimed at: of a plate, a set menu, a buffet."""

from __future__ import annotations

from typing import TypeAlias

from builder.language import ntr, tr
from builder.pages.components import Text
from builder.pages.figure_names import BuffetFigure, PlateFigure, SetMenuFigure
from builder.pages.view import FigureRow, View
from builder.records.kinds import Plate

Aiming: TypeAlias = FigureRow[PlateFigure] | FigureRow[SetMenuFigure] | FigureRow[BuffetFigure]
"""A row with a food cost as a share of its price, and perhaps a target for it."""


def is_over(row: Aiming) -> bool:
    """Whether food is a larger share of the price than is aimed at, both as they are printed."""
    return row.as_read("food_cost_share") > row.as_read("food_cost_target")


def against_target(row: Aiming) -> str:
    """The end of a sentence that says the share; empty where nothing is aimed at."""
    if not row.known("food_cost_target"):
        return ""
    target = row.text("food_cost_target")
    if is_over(row):
        return tr(", above the {target} aimed at", target=target)
    return tr(", within the {target} aimed at", target=target)


def over_words(over: int, things: str, aimed: str) -> str:
    """How many plates or set menus are above the food cost that is aimed at."""
    return ntr(
        "{of} is above the {aimed} food cost aimed at.",
        "{of} are above the {aimed} food cost aimed at.",
        over,
        of=tr("{over} of {plates}", over=over, plates=things),
        aimed=aimed,
    )


def asked_price(view: View, plate: Plate) -> Text:
    """The menu price that the target of a plate asks for, with one of the kitchen's endings."""
    row = view.plate(plate)
    ends = view.costed.content.kitchen.price_endings and row.known("price_to_write")
    return row.text("price_to_write" if ends else "price_for_food_cost")
