"""Why lines, as they are printed, need not add up to the sum that is printed below them."""

from __future__ import annotations

import math
from collections.abc import Iterable

from builder.language import Deferred, tr
from builder.pages.cost_lines import COST_LINES
from builder.pages.view import View
from builder.records.kinds import Plate

COARSE_SUMS = Deferred(
    "What has an interval is written no finer than it is known, so lines may "
    "not add up as they are printed; sums and differences are of unrounded amounts."
)
TO_THE_COIN = Deferred("Every amount is rounded by itself, so lines may be a coin off their sum.")


def sums_words(view: View, plates: Iterable[Plate]) -> str:
    """Why printed lines don't add up to their printed sums, where they need not."""
    asked = list(plates)
    widths = [view.width("plate", "full_cost", view.plate(plate).row) for plate in asked]
    if any(map(math.isfinite, widths)):
        return tr(COARSE_SUMS)
    return tr(TO_THE_COIN) if any(_is_off(view, plate) for plate in asked) else ""


def _is_off(view: View, plate: Plate) -> bool:
    """Whether a sum of the plate's cost, as it is printed, is another than that of its lines."""
    row, added = view.plate(plate), 0.0
    for figure, _, kind in COST_LINES:
        if row.hides(figure) or not row.known(figure):
            continue
        printed = row.as_read(figure)
        if kind and abs(printed - added) > 10.0**-view.style.places / 2:
            return True
        added = printed if kind else added + printed
    return False
