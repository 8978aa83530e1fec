"""Prices and yields that have a range and move a figure by nothing all the same."""

from __future__ import annotations

from collections.abc import Sequence

from builder.costing.spreads import AP_PRICE, PANTRY_PRICE, YIELD
from builder.costing.uncertainty import ENERGY
from builder.engine.sensitivity import Reach, Sensitivity
from builder.language import tr
from builder.pages.view import F, FigureRow, SwapRow, View

_PRICES_AND_YIELDS = frozenset({YIELD, AP_PRICE, PANTRY_PRICE})


def are_ranged_in_vain(
    sensitivity: Sensitivity, row: FigureRow[F], reaches: Sequence[Reach]
) -> bool:
    """Whether prices or yields behind a row have a range, and none of its reaches is of one."""
    moved = {reach.node for reach in reaches} - ENERGY
    return not moved and not _PRICES_AND_YIELDS.isdisjoint(sensitivity.moved(row.row))


def are_moved_alike(row: FigureRow[F]) -> bool:
    """Whether a row is of two plates of one cook, so that what moves one moves the other."""
    return row.table == "swap" and row.view.number("swap", "same_cook", row.row) > 0


def held_words() -> str:
    """What is true of all prices and yields where some have a range that moves nothing."""
    return tr(
        "prices and yields that have a range do not move it, and all others are held at what is "
        "written"
    )


def no_chance_words(view: View, row: SwapRow) -> str:
    """Why nothing says how often a challenger earns more, where nothing but energy moves it."""
    known = view.costed.uncertainty
    reaches = known.swaps.of(("swap", "margin_change"), row.row) if known else []
    if known is None or not are_ranged_in_vain(known.swaps, row, reaches):
        return tr(
            "Little is known of how sure this is: prices and yields are held at what is written."
        )
    if are_moved_alike(row):
        return tr("What has a range moves both plates alike.")
    return tr("Little is known of how sure this is: {held}.", held=held_words())
