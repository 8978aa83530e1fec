"""Which swaps count as earning more, and which are left out."""

from __future__ import annotations

import math

from builder.language import ntr, tr
from builder.pages.swap_words import doubt_of, gains
from builder.pages.view import SwapRow, View
from builder.pages.warned import pair_fault_words
from builder.records.kinds import Plate, Swap


def pairs(view: View, swap: Swap) -> list[tuple[Plate, SwapRow]]:
    """Each challenger of a swap with its row."""
    plates = view.costed.content.plates
    return [(plates[name], view.swap(swap, name)) for name in swap.challengers]


def earns_more(view: View, swap: Swap, plate: Plate, row: SwapRow) -> bool:
    """Whether a challenger earns more, to the coin, on costs and by a cook that can be trusted."""
    return gains(view, plate, view.costed.content.plates[swap.benchmark], row) and not fault_of(
        view, swap, plate
    )


def expected_gain(row: SwapRow) -> float:
    """Change of margin a year times the chance that it is a gain; unknown counts last."""
    year, chance = row.numbers("margin_change_a_year", "chance_earns_more")
    if not math.isfinite(year):
        return -math.inf
    return year * (chance if year > 0 and math.isfinite(chance) else 1.0)


def fault_of(view: View, swap: Swap, plate: Plate) -> str:
    """What fails in a cook of the challenger or the benchmark; empty where nothing does."""
    return pair_fault_words(view, plate, view.costed.content.plates[swap.benchmark])


def left_out(view: View) -> str:
    """Which swaps do not count: a cook of theirs is to be put right first, or one is in doubt."""
    return " ".join(filter(None, (_faulty(view), _doubtful(view))))


def _doubtful(view: View) -> str:
    plates = view.costed.content.plates
    count = sum(
        bool(doubt_of(view, plate, plates[swap.benchmark]))
        for swap in view.costed.content.swaps.values()
        for plate, _ in pairs(view, swap)
    )
    return (
        ntr(
            "What {count} challenger earns is in doubt.",
            "What {count} challengers earn is in doubt.",
            count,
        )
        if count
        else ""
    )


def gain_pairs(view: View) -> list[tuple[Swap, Plate]]:
    """Each swap with a challenger of it that earns more, by cooks that meet the rules or not."""
    plates = view.costed.content.plates
    return [
        (swap, plate)
        for swap in view.costed.content.swaps.values()
        for plate, row in pairs(view, swap)
        if gains(view, plate, plates[swap.benchmark], row)
    ]


def _faulty(view: View) -> str:
    found = [
        (plate, fault) for swap, plate in gain_pairs(view) if (fault := fault_of(view, swap, plate))
    ]
    if len(found) > 1:
        return tr("{found} more are not counted: fix their cooks first.", found=len(found))
    return "".join(
        tr("Not counted: {plate} ({fault}).", plate=plate.title, fault=fault)
        for plate, fault in found
    )
