"""The first page's list of what to do, by the money and how sure it is."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from itertools import chain

from builder.costing.actions import Action, new_prices, ranked, swaps, weighings
from builder.costing.due import due_services
from builder.costing.menu_actions import drops, fixes, promotions, stops
from builder.display.chances import money_a_month, month_as_read
from builder.display.words import listed
from builder.language import Deferred, ntr, tr
from builder.pages.components import Column, Table
from builder.pages.home_rows import action_row, due_row, month_width
from builder.pages.per_view import once_per_view
from builder.pages.swap_counts import earns_more, pairs
from builder.pages.view import View
from builder.pages.warned import plate_faults

# What a morning has room for.
MOST = 12
_OF_A_MONTH = Deferred(
    "Money a month is that of a twelfth of the weeks open a year, if as many are sold."
)


@once_per_view
def actions(view: View) -> Sequence[Action]:
    """Everything worth doing, ranked."""
    paying = [
        (swap, plate)
        for swap in view.costed.content.swaps.values()
        for plate, row in pairs(view, swap)
        if earns_more(view, swap, plate, row)
        and not swap.decision(plate.id, view.costed.content.as_of)
    ]
    costed = view.costed
    others = (each(costed) for each in (new_prices, promotions, drops, stops, weighings, fixes))
    found = ranked([*swaps(costed, paying), *chain.from_iterable(others)])
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


def worth_words(view: View, found: Sequence[Action]) -> str:
    """How many rows are listed, how many of them pay, and the sum of what they say a month.

    A plate that makes room for another brings nothing by a new price of its own, nor by a second
    swap, and what is promoted at today's margin is not at another: of rows on one plate the
    largest counts. The sum is written as its rows are, to three digits.
    """
    rows = _paying(found)
    if not rows:
        return ""
    best: dict[str, float] = {}
    for each in rows:
        sold = _sold_today(each)
        best[sold] = max(best.get(sold, 0.0), _as_read(view, each))
    total = math.fsum(best.values())
    worth = money_a_month(view.style, total)
    things = things_words(view, found)
    if_all = tr("if all of it works out") if len(rows) > 1 else tr("if it works out")
    if len(rows) == things_listed(view, found):
        return tr(
            "{things} to do, worth about {worth} a month {if_all}.",
            things=things,
            worth=worth,
            if_all=if_all,
        )
    return ntr(
        "{things} to do; {count} of them is worth about {worth} a month {if_all}.",
        "{things} to do; {count} of them are worth about {worth} a month {if_all}.",
        len(rows),
        things=things,
        worth=worth,
        if_all=if_all,
    )


def things_listed(view: View, found: Sequence[Action]) -> int:
    """How many rows the table of what to do has: services that are due, and what is worth doing."""
    return len(list(due_services(view.costed))) + len(found[:MOST])


def things_words(view: View, found: Sequence[Action]) -> str:
    """How many rows the table of what to do has, in words."""
    return ntr("{count} thing", "{count} things", things_listed(view, found))


def _paying(found: Sequence[Action]) -> list[Action]:
    """The listed rows that bring money."""
    return [each for each in found[:MOST] if each.kind not in ("weigh", "fix")]


def _sold_today(action: Action) -> str:
    """The plate whose guests an action is about: the one repriced, or the one that makes room."""
    return action.swap.benchmark if action.kind == "swap" and action.swap else action.plate.id


def _either_words(view: View, found: Sequence[Action]) -> str:
    """Which plates have several rows, of which the sum takes one."""
    times = Counter(map(_sold_today, _paying(found)))
    plates = view.costed.content.plates
    twice = [plates[name].title for name, count in times.items() if count > 1]
    if not twice:
        return ""
    return tr(
        "Where several lines are about one plate ({twice}), the sum counts the largest.",
        twice=listed(twice),
    )


def _as_read(view: View, action: Action) -> float:
    """What an action brings a month, as its row writes it."""
    width = month_width(view, action)
    return month_as_read(view.style, action.money, width)


def actions_table(view: View, found: Sequence[Action]) -> Table:
    """The first of them as a table: what to do, why, and what it is worth a month."""
    columns = (
        Column("do", tr("Do")),
        Column("month", tr("A\N{NO-BREAK SPACE}month"), numeric=True),
        Column("sure", tr("How sure")),
        Column("why", tr("Why")),
    )
    left = len(found) - MOST
    return Table(
        "to-do",
        tr("By the money, and how sure it is"),
        columns,
        (
            *(due_row(view, due) for due in due_services(view.costed)),
            *(action_row(view, action) for action in found[:MOST]),
        ),
        about=" ".join(
            filter(
                None,
                (
                    tr(_OF_A_MONTH) if _paying(found) else "",
                    _either_words(view, found),
                    tr("{left} more are worth less.", left=left) if left > 0 else "",
                ),
            )
        ),
        empty=tr("Nothing is worth doing today, as far as the files say."),
    )
