"""Words of what a record's figures say of it today: over its target, losing, to be repriced."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from builder.costing.actions import Kind
from builder.language import Deferred, tr
from builder.pages.menu_classes import class_of, over_target
from builder.pages.parts import page_of
from builder.pages.swap_counts import pairs
from builder.pages.view import SwapRow, View
from builder.pages.withheld import seen
from builder.pages.worth_doing import actions
from builder.records.kinds import Plate, Swap

# What people type for each; synonyms are in the data.
_OVER = Deferred("over target")
_EARNS_MORE = Deferred("earns more pays")
_LOSES = Deferred("loses earns less")
_TO_DO: dict[Kind, Deferred] = {
    "swap": Deferred("swap to make"),
    "stop": Deferred("stop take back"),
    "reprice": Deferred("reprice raise the price"),
    "promote": Deferred("promote sell more"),
    "drop": Deferred("drop take off the menu"),
    "weigh": Deferred("weigh again"),
    "fix": Deferred("fix mend mistake"),
    "plan": Deferred("fix the plan of its cook"),
}


def to_do(view: View) -> Mapping[str, str]:
    """By the page of a plate or swap the words of what is to be done about it.

    Nothing for a reader from whom figures are withheld: what is to be done would give them away.
    """
    found: dict[str, dict[str, None]] = defaultdict(dict)
    for action in [] if view.hidden else actions(view):
        record = action.swap or action.plate
        found[page_of(record)][tr(_TO_DO[action.kind])] = None
    return {path: " ".join(words) for path, words in found.items()}


def plate_states(view: View, plate: Plate) -> str:
    """Its class on the menu, and that its food cost is over its target."""
    over = tr(_OVER) if seen(over_target, view, plate) else ""
    return f"{seen(class_of, view, plate) or ''} {over}".strip()


def swap_states(view: View, swap: Swap) -> str:
    """Whether its challengers earn more or less than the benchmark, each word once."""
    said = (seen(_earning, row) or "" for _, row in pairs(view, swap))
    return " ".join(filter(None, dict.fromkeys(said)))


def _earning(row: SwapRow) -> str:
    """To the coin, as the swap's page says it; nothing where margins are equal or not known."""
    change = row.as_read("margin_change")
    return tr(_EARNS_MORE) if change > 0 else tr(_LOSES) if change < 0 else ""
