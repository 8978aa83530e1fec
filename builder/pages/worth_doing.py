"""What is worth doing, one thing of each plate, for the first page, the menu and the search."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from enum import Enum, auto
from itertools import chain

from builder.costing.actions import Action, new_prices, ranked, swaps, weighings
from builder.costing.menu_actions import drops, fixes, promotions, stops
from builder.pages.per_view import once_per_view
from builder.pages.swap_counts import fault_of, gain_pairs
from builder.pages.view import View
from builder.pages.warned import plate_faults
from builder.records.kinds import Plate

# What these bring comes once something else is done.
NOTHING_YET = ("weigh", "fix", "plan")
# Whether a plate comes in or goes out, and which.
Move = tuple[str, str]


class Exchange(Enum):
    """What the swaps that are to be made, or taken back, ask of a plate."""

    GO = auto()
    """It makes room for another; nothing else done with it brings as much."""
    GO_BACK = auto()
    """It goes, for the swap that brought it in loses; nothing else brings as much."""
    COME = auto()
    """It comes in another's place."""
    COME_BACK = auto()
    """It comes back in the place of what replaced it."""
    WAIT = auto()
    """It comes in another's place once a cook's plan is fixed."""


@once_per_view
def actions(view: View) -> Sequence[Action]:
    """Everything worth doing, ranked; of what contradicts what comes before it nothing."""
    kept: list[Action] = []
    undone: set[Move] = set()
    made: set[Move] = set()
    for each in _found(view):
        if _undone(each) in made or _made(each) & undone:
            continue
        kept.append(each)
        undone.add(_undone(each))
        made |= _made(each)
    return kept


@once_per_view
def _found(view: View) -> Sequence[Action]:
    """Everything that would be worth doing by itself, ranked."""
    costed, as_of = view.costed, view.costed.content.as_of
    gaining = [pair for pair in gain_pairs(view) if not pair[0].decision(pair[1].id, as_of)]
    others = (each(costed) for each in (new_prices, promotions, drops, stops, weighings, fixes))
    swapped = (
        swaps(costed, [pair], "plan" if fault_of(view, *pair) else "swap") for pair in gaining
    )
    found = ranked([*chain.from_iterable(swapped), *chain.from_iterable(others)])
    return [each for each in found if _reads_so(view, each) and not _fails(view, each)]


def _fails(view: View, action: Action) -> bool:
    """Whether more is to be sold of what a cook's plan fails in, or has a caution on."""
    return action.kind == "promote" and bool(plate_faults(view, action.plate))


def _reads_so(view: View, action: Action) -> bool:
    """Whether a plate earns more, or less, than the others of its section as its row writes it."""
    if action.kind not in ("promote", "drop"):
        return True
    row = view.plate(action.plate)
    more = row.as_read("contribution_margin") - row.as_read("others_margin")
    return more > 0 if action.kind == "promote" else more < 0


def _opposed(one: Action, other: Action) -> bool:
    """Whether one can't be done beside the other."""
    return _undone(one) in _made(other) or _undone(other) in _made(one)


def _undone(action: Action) -> Move:
    """What is to be done with a plate alone undoes: dropped it can't come in another's place, sold
    more of it can't make room."""
    return {"drop": "in", "promote": "out"}.get(action.kind, ""), action.plate.id


def _made(action: Action) -> frozenset[Move]:
    """Which plate a swap brings in, or back, now or once a cook is fixed, and which goes out."""
    moves = [("in", _comes(action))] if _comes(action) else []
    if action.kind in ("swap", "stop"):
        moves.append(("out", sold_today(action)))
    return frozenset(moves)


def _comes(action: Action) -> str:
    """The plate that a swap brings in, or back, today or once it may; empty for all else."""
    if action.kind in ("swap", "plan"):
        return action.plate.id
    return action.swap.benchmark if action.kind == "stop" and action.swap else ""


def sold_today(action: Action) -> str:
    """The plate whose guests an action is about: the one repriced, or the one that makes room."""
    return action.swap.benchmark if action.kind == "swap" and action.swap else action.plate.id


def instead(view: View, action: Action) -> Action | None:
    """What is worth the most of what an action leaves no room for."""
    return next((each for each in _found(view) if _opposed(each, action)), None)


@once_per_view
def _first_of_plates(view: View) -> Mapping[str, Action]:
    """By plate the action about it that is worth the most; what makes sure changes nothing."""
    of_plates = (each for each in reversed(actions(view)) if each.kind not in NOTHING_YET)
    return {sold_today(each): each for each in of_plates}


def leaves(view: View, plate: Plate) -> Exchange | None:
    """Whether the best thing to do with a plate is to let another take its place."""
    first = _first_of_plates(view).get(plate.id)
    return {"swap": Exchange.GO, "stop": Exchange.GO_BACK}.get(first.kind) if first else None


@once_per_view
def _coming(view: View) -> Mapping[str, set[str]]:
    """By plate the kinds of what brings it in, or back."""
    kinds: defaultdict[str, set[str]] = defaultdict(set)
    for each in actions(view):
        kinds[_comes(each)].add(each.kind)
    return kinds


def comes(view: View, plate: Plate) -> Exchange | None:
    """Whether a swap brings a plate in, or back, now or once a cook is fixed."""
    kinds = _coming(view).get(plate.id, set())
    asked = {"swap": Exchange.COME, "stop": Exchange.COME_BACK, "plan": Exchange.WAIT}
    return next((exchange for kind, exchange in asked.items() if kind in kinds), None)
