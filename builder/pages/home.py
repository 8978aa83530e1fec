"""The first page: what to act on today."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from markupsafe import Markup

from builder.costing.actions import Action
from builder.language import ntr, tr
from builder.pages.components import (
    Column,
    Figures,
    FigureTile,
    Notices,
    Page,
    Prose,
    Row,
    Table,
    Text,
)
from builder.pages.counts import last_count
from builder.pages.home_actions import (
    actions_table,
    further_actions,
    things_listed,
    things_words,
    worth_words,
)
from builder.pages.menu_classes import over_target
from builder.pages.parts import part, present, record_cell
from builder.pages.swap_counts import earns_more, expected_gain, left_out, pairs
from builder.pages.swap_words import takes_loss
from builder.pages.swaps import pair_cell, tone
from builder.pages.targets import over_words
from builder.pages.unknown import doubt_note
from builder.pages.values import paragraph_of
from builder.pages.view import SwapRow, View
from builder.pages.worth_doing import actions
from builder.records.kinds import Plate, Swap

PATH = "index.html"
# What a morning has room for; the rest is on its own pages.
MOST, MOST_WARNINGS = 20, 50
Gain = tuple[Swap, Plate, SwapRow]
"""A swap, a challenger that earns more in it, and its row."""


def home_page(view: View) -> Page:
    """What to act on: swaps worth making, plates above their target, warnings to mend."""
    kitchen = view.costed.content.kitchen
    best, over, todo = _best_swaps(view), _over(view), actions(view)
    lead, *also = _answer(view, todo, over)
    return Page(
        path=PATH,
        title=str(kitchen.name),
        lead=lead,
        also=paragraph_of(also),
        kind=tr("Costing wiki, as of {as_of}", as_of=view.style.date(view.costed.content.as_of)),
        sections=present(
            part("what-to-do", tr("What to do"), actions_table(view, todo)),
            further_actions(view, todo),
            part("swaps", tr("Swaps that earn more"), _swaps(view, best)),
            part("plates", tr("Plates above their target"), _plates(view, over)),
            last_count(view),
            part("warnings", tr("To fix in the files"), _warnings(view), _more_warnings(view)),
            _counts(view),
        ),
    )


def _best_swaps(view: View) -> list[Gain]:
    """Challengers that earn more, the largest gain times its chance first."""
    found = [
        (swap, plate, row)
        for swap in view.costed.content.swaps.values()
        for plate, row in pairs(view, swap)
        if earns_more(view, swap, plate, row)
    ]
    return sorted(found, key=lambda triple: -expected_gain(triple[2]))


def _over(view: View) -> list[Plate]:
    """Plates above their target: the largest share first of those that do not earn the most."""
    over = [plate for plate in view.costed.content.plates.values() if over_target(view, plate)]
    return sorted(over, key=lambda p: (_earns(view, p), -view.plate(p).number("food_cost_share")))


def _earns(view: View, plate: Plate) -> bool:
    """Whether a plate earns more than its section does on average."""
    return view.plate(plate).number("earns_above") > 0


def _answer(view: View, todo: Sequence[Action], over: list[Plate]) -> list[str]:
    sentences = []
    if worth := worth_words(view, todo):
        sentences.append(worth)
    elif things_listed(view, todo):
        sentences.append(tr("{things} to do.", things=things_words(view, todo)))
    if over:
        count = len(view.costed.content.plates)
        aimed = view.kitchen.text("food_cost_target")
        plates = ntr("{count} plate", "{count} plates", count)
        sentences.append(over_words(len(over), plates, aimed))
    if view.problems:
        count = len(view.problems)
        sentences.append(
            ntr(
                "{count} warning to fix in the files.",
                "{count} warnings to fix in the files.",
                count,
            )
        )
    return sentences or [tr("Nothing needs attention today.")]


def _counts(view: View) -> Figures:
    content = view.costed.content
    counts = (
        (tr("Plates on the menu"), len(content.plates), "~/menu.html"),
        (tr("Cuts"), len(content.cuts), "~/cuts.html"),
        (tr("Cooks"), len(content.cooks), "~/cooks.html"),
        (tr("Swaps"), len(content.swaps), "~/swaps.html"),
        (tr("Tastings"), len(content.tastings), "~/tastings.html"),
    )
    return Figures(
        tuple(FigureTile(label, str(count), trace_href=href) for label, count, href in counts),
        tr("The kitchen in numbers"),
    )


def _swaps(view: View, best: list[Gain]) -> Table:
    columns = (
        Column("swap", tr("Swap")),
        Column("margin", tr("Margin change"), numeric=True),
        Column("year", tr("Margin change a year"), numeric=True),
        Column("food", tr("Food saved a plate"), numeric=True),
        Column("chance", tr("Earns more"), numeric=True),
    )
    body = tuple(
        Row(
            (
                pair_cell(view, swap, plate),
                row.cell("margin_change", tone=tone(row, "margin_change")),
                row.cell("margin_change_a_year"),
                row.cell("food_saving"),
                row.cell("chance_earns_more", note=takes_loss(view, swap, plate, row)),
            )
        )
        for swap, plate, row in best[:MOST]
    )
    unsettled = left_out(view)
    about = _more(len(best), "~/swaps.html", tr("page of swaps")) or unsettled
    empty = _none(
        view, "swaps", tr("No swap earns more today. {unsettled}", unsettled=unsettled).rstrip()
    )
    # Its heading says it where nothing is listed.
    caption = tr("Swaps that earn more") if body else ""
    return Table("best-swaps", caption, columns, body, about=about, empty=empty)


def _more(count: int, href: str, where: str) -> Text:
    """How many more there are than are shown, and where."""
    words = Markup(tr('{} more on the <a href="{}">{}</a>.'))
    return words.format(count - MOST, href, where) if count > MOST else ""


def _plates(view: View, over: list[Plate]) -> Table:
    columns = (
        Column("plate", tr("Plate")),
        Column("margin", tr("Margin"), numeric=True),
        Column("share", tr("Food cost %"), numeric=True),
        Column("price", tr("Menu price now"), numeric=True),
        Column("asked", tr("Price for the target"), numeric=True),
    )
    body = tuple(_over_row(view, plate) for plate in over[:MOST])
    about = _more(len(over), "~/menu.html", "menu")
    empty = _none(view, "plates", _none_is_over(view))
    caption = tr("Food cost above its target") if body else ""
    return Table("over-target", caption, columns, body, about=about, empty=empty)


def _none_is_over(view: View) -> str:
    """Of which plates it can be said that none is above its target."""
    rows = [view.plate(plate) for plate in view.costed.content.plates.values()]
    if not any(row.known("food_cost_target") for row in rows):
        return tr("No target for the food cost is stated.")
    doubtful = any(view.costed.doubts.plates.values())
    if doubtful or not all(row.known("food_cost_share") for row in rows):
        return tr("No plate whose cost is sure is above it.")
    return tr("Every plate is within.")


def _over_row(view: View, plate: Plate) -> Row:
    row = view.plate(plate)
    doubt = doubt_note(view, plate, "food_cost_share")
    return Row(
        (
            record_cell(plate),
            row.cell("contribution_margin", note=_line_words(view, plate)),
            row.cell("food_cost_share", tone="" if doubt else "loss", note=doubt),
            row.cell("menu_price"),
            row.cell("price_for_food_cost", note=doubt),
        )
    )


def _line_words(view: View, plate: Plate) -> str:
    """That a plate earns more than the others of its section, with what they earn."""
    if not _earns(view, plate):
        return ""
    return tr("its section: {line}", line=view.plate(plate).text("dividing_margin"))


def _none(view: View, kind: Literal["plates", "swaps"], otherwise: str) -> str:
    """Why a table is empty: nothing of the kind is there at all, or what is said otherwise."""
    content = view.costed.content
    if content.plates if kind == "plates" else content.swaps:
        return otherwise
    lost = any(path.startswith(f"{kind}/") for path in content.left_out)
    if kind == "plates":
        return (
            tr("No plate has all its prices on this day.")
            if lost
            else tr("No plate is written yet.")
        )
    return tr("No swap has all its prices on this day.") if lost else tr("No swap is written yet.")


def _warnings(view: View) -> Notices | None:
    # Where not all have room, those that stand on no other page come first.
    crowded = len(view.problems) > MOST_WARNINGS
    order = sorted(view.problems, key=lambda each: crowded and bool(each.record))
    shown = order[:MOST_WARNINGS]
    return Notices(tuple(view.reported(problem) for problem in shown)) if shown else None


def _more_warnings(view: View) -> Prose | None:
    left = len(view.problems) - MOST_WARNINGS
    words = Markup(tr("<p>{} more, each on the page that it concerns.</p>"))
    return Prose(words.format(left)) if left > 0 else None
