"""How sure a plate's or a swap's money is: its interval, what moves it most, what to weigh next."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from markupsafe import Markup

from builder.costing.next_weighing import next_weighing
from builder.costing.uncertainty import ENERGY
from builder.display.ends import own_ends
from builder.engine.draws import Spread
from builder.engine.model import Node
from builder.engine.sensitivity import Reach
from builder.language import labelled, ntr, tr
from builder.pages.behind_spreads import behind, jump_words
from builder.pages.components import (
    Cell,
    Chart,
    Column,
    Part,
    Prose,
    Row,
    Table,
    Text,
    Value,
)
from builder.pages.held import held_list
from builder.pages.input_names import words_of_input
from builder.pages.parts import part
from builder.pages.ranged import are_moved_alike, are_ranged_in_vain, held_words
from builder.pages.unknown import doubted_chart, plate_doubt
from builder.pages.values import capital, written_unit
from builder.pages.view import F, FigureRow, View
from builder.pages.whereabouts import reference
from builder.records.kinds import Cut, Plate

# Inputs that a picture has room for; what is left moves the figure less than any of these.
MOST = 6


def plate_sure_part(view: View, plate: Plate) -> Part | None:
    """What moves the full cost of a plate."""
    doubt = plate_doubt(view, plate)
    return how_sure_part(
        view, view.plate(plate), "full_cost", tr("the full plate cost"), doubt=doubt
    )


def _named(of: Plate | Cut | None) -> tuple[str, str]:
    return (
        (f"how-sure-{of.id}", tr("How sure: {of}", of=of.title))
        if of
        else ("how-sure", tr("How sure"))
    )


def _of_energy_only(
    view: View,
    row: FigureRow[F],
    figure: F,
    label: str,
    reaches: Sequence[Reach],
    held: Markup,
    of: Plate | Cut | None,
    *,
    in_vain: bool,
) -> Part | None:
    """What is to be said where no price and no yield moves the figure, and only energy does."""
    low, high = _then(view, row, figure, reaches[0])
    moved = (
        tr("by less than is shown")
        if low == high
        else tr("from {low} to {high}", low=low, high=high)
    )
    held_at = held_words() if in_vain else tr("prices and yields are held at what is written")
    words = tr(
        "Little is known of how sure {label} is, so it has no interval: {held_at}. {input_name} "
        "alone moves it {moved}.",
        label=label,
        held_at=held_at,
        input_name=input_name(view, reaches[0]),
        moved=moved,
    )
    return part(*_named(of), _as_written(words, held))


def _unmoved_words(row: FigureRow[F], label: str, *, in_vain: bool) -> str:
    """Why a figure that nothing moves has no interval."""
    if in_vain and are_moved_alike(row):
        return tr(
            "What has a range moves both plates alike, so {label} has no interval.", label=label
        )
    if in_vain:
        return tr("What has a range does not move {label}, so it has no interval.", label=label)
    return tr("Nothing says how far off {label} may be, so it has no interval.", label=label)


def how_sure_part(
    view: View,
    row: FigureRow[F],
    figure: F,
    label: str,
    of: Plate | Cut | None = None,
    *,
    doubt: str = "",
) -> Part | None:
    """What moves a figure: a picture, the same as a table, what is held fixed, what to weigh.

    of: the record that the part is about, on a page that has one part for each of several.
    doubt: why the figure itself can't be trusted; its interval can't be then either.
    """
    known = view.costed.uncertainty
    if known is None:
        return None
    kinds = {"plate": known.plates, "swap": known.swaps, "candidate": known.candidates}
    kinds |= {"set_menu": known.menus, "buffet": known.buffets}
    sensitivity = kinds[row.table]
    reaches = sensitivity.of((row.table, figure), row.row)
    held = held_list(sensitivity, known.sure, row)
    in_vain = are_ranged_in_vain(sensitivity, row, reaches)
    if reaches and all(reach.node in ENERGY for reach in reaches):
        return _of_energy_only(view, row, figure, label, reaches, held, of, in_vain=in_vain)
    name, title = _named(of)
    endless = " ".join(
        _endless_words(row, figure, reach, label) for reach in reaches if _is_endless(reach)
    )
    endless += tr(" Chances leave such cases out.") if endless and row.table == "swap" else ""
    reaches = [reach for reach in reaches if reach.ends_are_known]
    if not reaches:
        unknown = endless or _unmoved_words(row, label, in_vain=in_vain)
        return part(name, title, _as_written(unknown, held))
    return part(
        name,
        title,
        doubted_chart(_picture(view, row, figure, label, reaches, name, bool(endless)), doubt),
        _as_written(f"{endless} {_next_words(view, reaches, label)}".strip(), held),
        about=tr(
            "What {label} would be with one input at either end of its own interval "
            "and the others as written.",
            label=label,
        ),
    )


def _picture(
    view: View,
    row: FigureRow[F],
    figure: F,
    label: str,
    reaches: Sequence[Reach],
    name: str,
    endless: bool,
) -> Chart:
    return Chart(
        f"{name}-picture",
        "range-bars",
        tr("What moves {label} most", label=label),
        _most_words(view, row, figure, reaches[0], endless),
        tuple(_bars(view, row, figure, _seen(view, row, figure, reaches))),
        _table(view, row, figure, label, reaches, name),
        units={"value": f"{capital(label)}, {view.costed.content.kitchen.currency}"},
    )


def _most_words(view: View, row: FigureRow[F], figure: F, first: Reach, endless: bool) -> str:
    """What moves a figure most, of the inputs that leave it an end; `endless`: some do not."""
    name, (low, high) = input_name(view, first), _then(view, row, figure, first)
    moved = tr("from {low} to {high}", low=low, high=high)
    moved = tr("by less than is shown") if low == high else moved
    if endless:
        return tr(
            "Of the inputs that always leave a whole portion, {input_name} moves it most, {moved}.",
            input_name=name,
            moved=moved,
        )
    return tr("{input_name} moves it most, {moved}.", input_name=name, moved=moved)


def _bars(
    view: View, row: FigureRow[F], figure: F, reaches: Sequence[Reach]
) -> Iterator[dict[str, Value]]:
    base = row.number(figure)
    for order, reach in enumerate(reaches, start=1):
        for side, value, end in zip(
            ("low", "high"), (reach.low, reach.high), _ends(view, reach), strict=True
        ):
            yield {
                "input": input_name(view, reach),
                "order": order,
                "side": side,
                "value": value,
                "base": base,
                "text": end,
            }


def _table(
    view: View, row: FigureRow[F], figure: F, label: str, reaches: Sequence[Reach], name: str
) -> Table:
    # One way for the whole column: each of its cells is the same figure, otherwise moved.
    heading, then = Markup('<a href="{}">{}</a>'), tr("{label} then", label=capital(label))
    columns = (
        Column("input", tr("Input")),
        Column("own", tr("Its own interval"), numeric=True),
        Column("then", heading.format(row.href(figure), then), numeric=True),
        Column("behind", tr("What is behind it")),
    )
    shown = _seen(view, row, figure, reaches)
    body = tuple(
        Row(
            (
                Cell(input_name(view, reach)),
                Cell(_to(_ends(view, reach)), href=reference(reach.node, reach.row)),
                Cell(_to(_then(view, row, figure, reach))),
                Cell(
                    behind(view, reach),
                    note=jump_words(view, reach.node, reach.row),
                    href=_home(view, reach),
                ),
            )
        )
        for reach in shown
    )
    rest = len(reaches) - len(shown)
    about = rest_words(rest, len(shown)) if rest else ""
    return Table(
        f"{name}-table",
        tr("What moves {label}", label=label),
        columns,
        body,
        fixed=True,
        about=about,
    )


def rest_words(rest: int, shown: int) -> str:
    """What is said of the inputs that the table leaves out."""
    if shown == 1:
        return ntr(
            "{count} other input moves it less than this one.",
            "{count} other inputs each move it less than this one.",
            rest,
        )
    return ntr(
        "{count} other input moves it less than these.",
        "{count} other inputs each move it less than these.",
        rest,
    )


def _to(ends: tuple[Text, Text]) -> Text:
    """Both ends of an interval."""
    low, *high = dict.fromkeys(ends)
    return tr("{low} to {high}", low=low, high=high[0]) if high else low


def _seen(view: View, row: FigureRow[F], figure: F, reaches: Sequence[Reach]) -> Sequence[Reach]:
    """What a picture shows: inputs that the figure, as finely as it is known, is moved by."""
    moving = [each for each in reaches if len(set(_then(view, row, figure, each))) > 1]
    return moving[:MOST] or reaches[:1]


def _then(view: View, row: FigureRow[F], figure: F, reach: Reach) -> tuple[Text, Text]:
    """The figure at both ends of an input, written no finer than it is known itself."""
    unit = view.definition(row.table, f"{figure}_low").unit
    width = view.width(row.table, figure, row.row)
    known = max(reach.width, width) if math.isfinite(width) else reach.width
    low, high = (view.shown(unit, end, "kg", end + known) for end in (reach.low, reach.high))
    return low, high


def _ends(view: View, reach: Reach) -> tuple[Text, Text]:
    return input_ends(view, reach.node, reach.row, reach.spread)


def input_ends(view: View, node: Node, row: int, spread: Spread) -> tuple[str, str]:
    """Both ends of an input's own interval as its kitchen writes such a value."""
    unit = view.definition(*node).unit
    if unit == "unit":
        # An amount of an item, in what the item is priced by.
        return own_ends(view.style, view.per(node[0], row), *spread.ends, "")
    priced_by = unit.partition("/")[2]
    if priced_by in {"kg", "unit"}:
        priced_by = written_unit(view.style, view.per(node[0], row))
    return own_ends(view.style, unit, *spread.ends, priced_by)


def _home(view: View, reach: Reach) -> str:
    """The page of the record that an input belongs to."""
    return f"~/{view.costed.figures.identity(reach.node[0], reach.row).owner}.html"


def input_name(view: View, reach: Reach) -> str:
    """An input in words: whose it is, and what."""
    owner, what = _input_words(view, reach)
    return labelled(owner, what) if owner else capital(what)


def _input_words(view: View, reach: Reach) -> tuple[str, str]:
    """Whose an input is, nobody's where it is the kitchen's, and what."""
    who = view.costed.figures.identity(reach.node[0], reach.row)
    what = words_of_input(reach.node, who.label)
    owner = "" if reach.node[0] == "kitchen" else view.where.title(f"{who.owner}.html")
    return owner, what


def _next_words(view: View, reaches: Sequence[Reach], label: str) -> str:
    """The weighing that narrows the interval most, or that none would."""
    found = next_weighing(reaches)
    if found is None:
        return tr("No single weighing would narrow the interval of {label} by much. ", label=label)
    share = view.style.percent(found.narrower, 0)
    name = capital(", ".join(filter(None, _input_words(view, found.reach))))
    return tr(
        "Weigh next: {name}. One more test should narrow the interval of {label} "
        "by about {share}. ",
        name=name,
        label=label,
        share=share,
    )


def _is_endless(reach: Reach) -> bool:
    return not reach.ends_are_known


def _as_written(words: str, below: Markup) -> Prose:
    """A paragraph that follows no what-if, so that the page marks it while something is tried."""
    return Prose(Markup('<p class="written">{}</p>').format(words) + below)


def _endless_words(row: FigureRow[F], figure: F, reach: Reach, label: str) -> str:
    """An input at one of whose ends the figure has no value, for no whole portion is left."""
    view = row.view
    low, high = _ends(view, reach)
    end = low if math.isfinite(reach.high) else high
    if not (math.isfinite(reach.low) or math.isfinite(reach.high)):
        end = tr("{low} and at {high}", low=low, high=high)
    return tr(
        "{input_name} may be from {low} to {high}: at {end} a piece gives no "
        "whole portion, so {open_end}.",
        input_name=input_name(view, reach),
        low=low,
        high=high,
        end=end,
        open_end=_open_end(row, figure, label),
    )


def _open_end(row: FigureRow[F], figure: F, label: str) -> str:
    low, high = (
        row.view.text(row.table, name, row.row)
        if math.isfinite(row.view.number(row.table, name, row.row))
        else ""
        for name in (f"{figure}_low", f"{figure}_high")
    )
    if low and high:
        return tr("beyond its interval {label} has no end", label=label)
    if low:
        return tr("{label} is at least {low} and has no upper end", label=label, low=low)
    return (
        tr("{label} is at most {high} and has no lower end", label=label, high=high)
        if high
        else tr("{label} has no end", label=label)
    )
