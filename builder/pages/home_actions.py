"""The first page's list of what to do, by the money and how sure it is."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

from markupsafe import Markup

from builder.costing.actions import Action
from builder.costing.due import due_services
from builder.display.chances import money_a_month, month_as_read
from builder.display.words import listed
from builder.language import Deferred, ntr, tr
from builder.pages.components import Column, Part, Table
from builder.pages.home_rows import action_row, due_row, month_width
from builder.pages.parts import part
from builder.pages.tasting_pieces import method_href
from builder.pages.view import View
from builder.pages.worth_doing import NOTHING_YET, sold_today

# What a morning has room for.
MOST = 12
# As many more are listed in a part that opens.
MOST_MORE = 50
_OF_A_MONTH = Deferred(
    "Money a month is that of a twelfth of the weeks open a year, if as many are sold."
)


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
        sold = sold_today(each)
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
    return [each for each in found[:MOST] if each.kind not in NOTHING_YET]


def _either_words(view: View, found: Sequence[Action]) -> str:
    """Which plates have several rows, of which the sum takes one."""
    times = Counter(map(sold_today, _paying(found)))
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
    about = (tr(_OF_A_MONTH) if _paying(found) else "", _either_words(view, found))
    rows = (
        *(due_row(view, due) for due in due_services(view.costed)),
        *(action_row(view, action) for action in found[:MOST]),
    )
    return Table(
        "to-do",
        tr("By the money, and how sure it is"),
        _columns(),
        rows,
        about=Markup(" ").join(filter(None, (*about, _ranked_words() if found else ""))),
        empty=tr("Nothing is worth doing today, as far as the files say."),
    )


def _columns() -> tuple[Column, ...]:
    return (
        Column("do", tr("Do")),
        Column("month", tr("A\N{NO-BREAK SPACE}month"), numeric=True),
        Column("sure", tr("How sure")),
        Column("why", tr("Why")),
    )


def _ranked_words() -> Markup:
    """The way to the rule by which the list is ranked."""
    return Markup('<a href="{}">{}</a>').format(
        method_href("worth_of_action"), tr("How the list is ranked")
    )


def further_actions(view: View, found: Sequence[Action]) -> Part:
    """What a morning has no room for, worth less than what is listed; empty where there is none."""
    rest = found[MOST:]
    title = ntr("{count} more, worth less", "{count} more, worth less", len(rest))
    if not rest:
        return part("further", title)
    shown = rest[:MOST_MORE]
    left = len(rest) - len(shown)
    return part(
        "further",
        title,
        Table(
            "further-to-do",
            tr("By the money, and how sure it is"),
            _columns(),
            tuple(action_row(view, action) for action in shown),
            about=tr("{left} more are worth less.", left=left) if left else "",
        ),
    )
