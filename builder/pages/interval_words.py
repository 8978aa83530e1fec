"""How the 90 % interval of a figure is written: both ends, one, or why there is none."""

from __future__ import annotations

import math
from dataclasses import replace

from markupsafe import Markup

from builder.language import Deferred, tr
from builder.pages.anchors import anchor
from builder.pages.components import FigureTile, Text
from builder.pages.view import F, FigureRow

_ENDLESS = Deferred("for a piece may give no whole portion")
_NO_VALUE = Deferred("no interval: in more than 1 case in 20 it has no value")
# They say at which value of an input something holds.
_LIMITS = ("break_even", "equal_margin", "price_for", "price_per_kg_for", "ap_price_that")
LOST = Deferred("no interval: in more than 1 case in 20 no value would do")


def between(row: FigureRow[F], figure: F) -> Text:
    """A figure's 90 % interval in words that lead to its ends; empty where it has none."""
    if f"{figure}_low" not in row.view.costed.figures.model.tables[row.table].figures:
        return ""
    low, high = (_end(row, f"{figure}_{end}") for end in ("low", "high"))
    if low and high:
        return sure_words(low, high, alike=low.striptags() == high.striptags())
    if low or high:
        least = tr("at least {}, 19 times in 20; no upper end, {}")
        words = least if low else tr("at most {}, 19 times in 20; no lower end, {}")
        return Markup(words).format(low or high, tr(_ENDLESS))
    if not math.isfinite(row.view.width(row.table, figure, row.row)):
        return ""
    return tr(LOST if figure.startswith(_LIMITS) else _NO_VALUE)


def sure_words(low: Text, high: Text, *, alike: bool) -> Text:
    """Both ends of a 90 % interval, or what it says where the digits don't tell them apart.

    The interval is of inputs with a range alone, so nothing is said of how sure the figure is.
    """
    if alike:
        return tr("what has a range moves it by less than is shown")
    return Markup(tr("{} to {}, 9 times in 10")).format(low, high)


def _end(row: FigureRow[F], figure: str) -> Markup:
    """An end of an interval with the way to it; empty where it is not known."""
    table, at = row.table, row.row
    if not math.isfinite(row.view.number(table, figure, at)):
        return Markup()
    return anchor(row.view.href(table, figure, at), row.view.text(table, figure, at))


def sure_tile(row: FigureRow[F], figure: F, tile: FigureTile) -> FigureTile:
    """A tile with its figure's interval."""
    found = between(row, figure)
    if not found:
        return tile
    both = Markup(tr("{before}; {part}")).format(before=found, part=tile.note)
    return replace(tile, note=both if tile.note else found)
