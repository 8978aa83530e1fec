"""The first page's list of what to do, one line each, the most money first."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

from builder.costing.actions import Action, new_prices, ranked, swaps, weighings
from builder.display.chances import month_as_read
from builder.display.words import listed
from builder.pages.components import Cell, Column, Row, Table
from builder.pages.how_sure import input_name
from builder.pages.menu import class_doubt, class_of
from builder.pages.parts import number_of, page_of, record_cell
from builder.pages.swaps import pairs, saves
from builder.pages.view import View

# What a morning has room for.
MOST = 12


def actions(view: View) -> list[Action]:
    """Everything worth doing, ranked."""
    paying = [
        (swap, plate)
        for swap in view.costed.content.swaps.values()
        for plate, row in pairs(view, swap)
        if saves(view, swap, plate, row) and not swap.decision(plate.id, view.costed.content.as_of)
    ]
    costed = view.costed
    return ranked([*swaps(costed, paying), *new_prices(costed), *weighings(costed)])


def worth_words(view: View, found: Sequence[Action]) -> str:
    """How many of the listed rows pay, and the sum of what they say a month.

    A plate that makes room for another brings nothing by a new price of its own, nor by a second
    swap, so of rows on one plate the largest counts.
    """
    rows = _paying(found)
    if not rows:
        return ""
    best: dict[str, float] = {}
    for each in rows:
        sold = _sold_today(each)
        best[sold] = max(best.get(sold, 0.0), _as_read(view, each))
    whole = all(amount.is_integer() for amount in best.values())
    worth = view.style.amounts(math.fsum(best.values()), 0 if whole else view.style.places)
    return (
        f"{number_of(len(rows), 'thing')} to do, worth about {worth} a month "
        f"{'if all of it works out' if len(rows) > 1 else 'if it works out'}."
    )


def _paying(found: Sequence[Action]) -> list[Action]:
    """The listed rows that bring money."""
    return [each for each in found[:MOST] if each.kind != "weigh"]


def _sold_today(action: Action) -> str:
    """The plate whose guests an action is about: the one repriced, or the one that makes room."""
    return action.swap.benchmark if action.swap else action.plate.id


def _either_words(view: View, found: Sequence[Action]) -> str:
    """Which plates have several rows that rule each other out."""
    times = Counter(map(_sold_today, _paying(found)))
    plates = view.costed.content.plates
    twice = [plates[name].title for name, count in times.items() if count > 1]
    if not twice:
        return ""
    return (
        f"Of several lines on one plate ({listed(twice)}) only one can be done: the sum takes the "
        "largest."
    )


def _as_read(view: View, action: Action) -> float:
    """What an action brings a month, as its row writes it."""
    width = math.nan
    if action.swap:
        row = view.swap(action.swap, action.plate.id).row
        width = view.width("swap", "margin_change_a_month", row)
    return month_as_read(view.style, action.money, width)


def actions_table(view: View, found: Sequence[Action]) -> Table:
    """The first of them as a table: what to do, why, and what it is worth a month."""
    columns = (
        Column("do", "Do"),
        Column("month", "A month", numeric=True),
        Column("sure", "How sure"),
        Column("why", "Why"),
    )
    left = len(found) - MOST
    return Table(
        "to-do",
        "What to do, the most money first",
        columns,
        tuple(_row(view, action) for action in found[:MOST]),
        about=" ".join(
            filter(
                None,
                (_either_words(view, found), f"{left} more are worth less." if left > 0 else ""),
            )
        ),
        empty="Nothing is worth doing today, as far as the files say.",
    )


def _row(view: View, action: Action) -> Row:
    match action.kind:
        case "swap":
            return _swap_row(view, action)
        case "reprice":
            return _reprice_row(view, action)
        case "weigh":
            return _weigh_row(view, action)


def _swap_row(view: View, action: Action) -> Row:
    assert action.swap is not None
    row = view.swap(action.swap, action.plate.id)
    benchmark = view.costed.content.plates[action.swap.benchmark]
    return Row(
        (
            Cell(
                f"Swap {benchmark.title} for {action.plate.title}",
                href=f"~/{page_of(action.swap)}",
            ),
            row.cell("margin_change_a_month", tone="gain"),
            row.cell("chance_earns_more", note="that it earns more"),
            Cell(
                f"{row.text('margin_change')} more margin a plate, "
                f"{row.text('food_saving')} less food"
            ),
        )
    )


def _reprice_row(view: View, action: Action) -> Row:
    row = view.plate(action.plate)
    asked, now, share, target = row.texts(
        "price_for_food_cost", "menu_price", "food_cost_share", "food_cost_target"
    )
    group = "" if class_doubt(view, action.plate) else class_of(view, action.plate)
    why = f"now {now}; food cost {share} against {target}" + (f"; {group}" if group else "")
    link = record_cell(action.plate)
    return Row(
        (
            Cell(f"Raise {action.plate.title} to {asked}", href=link.href),
            row.cell("reprice_a_month", tone="gain", note="if as many are sold"),
            row.cell("chance_over_target", note="that food costs more than the target"),
            Cell(why),
        )
    )


def _weigh_row(view: View, action: Action) -> Row:
    assert action.weigh is not None
    row = view.plate(action.plate)
    who = view.costed.figures.identity(action.weigh.node[0], action.weigh.row)
    # Both ends of what it narrows: an estimate, so written as coarsely as an interval.
    money = view.shown("money/month near", action.money, "kg", -action.money)
    low, high = row.texts("contribution_margin_low", "contribution_margin_high")
    span = low if low == high else f"{low} to {high}"
    narrower = view.style.percent(action.narrower, 0)
    return Row(
        (
            Cell(f"Weigh {input_name(view, action.weigh)}", href=f"~/{who.owner}.html"),
            Cell(f"±{money}", href=row.href("contribution_margin_low")),
            Cell(f"{narrower} narrower"),
            Cell(
                f"one more test should narrow what {action.plate.title} earns, now {span} "
                f"a plate, by about {narrower}"
            ),
        )
    )
