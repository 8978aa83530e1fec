"""The counts: actual against theoretical food cost, and what parts them, by cut and by plate."""

from __future__ import annotations

import math
from collections.abc import Iterator

from markupsafe import Markup

from builder.display.words import listed
from builder.language import Deferred, tr
from builder.pages import withheld
from builder.pages.components import (
    Cell,
    Chart,
    Column,
    Figures,
    FigureTile,
    Link,
    Page,
    Part,
    Prose,
    Row,
    RowKind,
    Table,
    Term,
    Text,
    TryLine,
)
from builder.pages.count_tables import (
    PARTS,
    Seen,
    cooks_table,
    cuts_table,
    menus_table,
    plates_table,
    thrown_table,
)
from builder.pages.figure_names import CountFigure
from builder.pages.interval_words import sure_tile
from builder.pages.listings import listing
from builder.pages.parts import page_of, part, present
from builder.pages.printed_sums import COARSE_SUMS
from builder.pages.remarks import remarks
from builder.pages.tries import tries
from builder.pages.unknown import IN_DOUBT, doubted, doubted_chart, plates_doubt
from builder.pages.values import shown
from builder.pages.view import FigureRow, View
from builder.pages.waterfalls import Bar, waterfall

PATH = "counts.html"
NAV = f"~/{PATH}"
_ORDER = Deferred(
    "The split goes in this order: portions at the yield and price that "
    "plates are costed at; yield at the period's portions; what was thrown "
    "away, at its own portions and yield; what nothing explains, at the "
    "price costed; and last the price, on all that was used. Each step "
    "starts where the one before ended, so the parts add up. By-products are "
    "credited at the rate of the tests. Sides, seasoning and cuts "
    "that were not counted are taken as costed."
)
_HELD = Deferred("Intervals hold every price at what plates are costed at.")
_NOTHING = Deferred(
    "Nothing is counted yet; a file under counts/ says what was sold, used "
    "and thrown away, and this page shows where the money went."
)


def _newest_first(view: View) -> list[Seen]:
    costed = view.costed
    found = [Seen(view, each, costed.counts[each.id]) for each in costed.content.counts.values()]
    return sorted(found, key=lambda seen: seen.last, reverse=True)


def count_pages(view: View) -> Iterator[Page]:
    """The list of counts, and a page for each."""
    found = _newest_first(view)
    yield _list_page(found)
    for seen in found:
        yield _count_page(seen)


def last_count(view: View) -> Part | None:
    """The newest count in one line, for the first page; None where nothing is counted."""
    found = _newest_first(view)
    if not found:
        return None
    words = Markup('<p><a href="~/{}">{}</a>. {}</p>')
    line = Prose(words.format(page_of(found[0].count), found[0].count.title, _lead(found[0])))
    return part("counts", tr("The last count"), line)


# The list


def _list_page(found: list[Seen]) -> Page:
    columns = (
        Column("count", tr("Count")),
        Column("difference", tr("Difference"), numeric=True),
        Column("theoretical", tr("Theoretical food cost %"), numeric=True),
        Column("actual", tr("Actual food cost %"), numeric=True),
        Column("sold", tr("Plates sold"), numeric=True),
        *(Column(figure, label, numeric=True) for figure, _, label, _ in PARTS),
    )
    body = tuple(Row(_list_cells(seen)) for seen in found)
    return Page(
        path=PATH,
        title=tr("Counts"),
        lead=_newest(found[0]) if found else tr(_NOTHING),
        also=_also(found[0], tr("The newest count: {count}.", count=found[0].count.title))
        if found
        else (),
        kind=tr("Actual against theoretical food cost"),
        nav=NAV,
        sections=(
            Table(
                "counts",
                tr("Every count, the newest first"),
                columns,
                body,
                empty=tr("No count is written yet."),
            ),
        ),
    )


def _list_cells(seen: Seen) -> tuple[Cell, ...]:
    name = Cell(seen.count.title, href=f"~/{page_of(seen.count)}", note=seen.days)
    costs: tuple[CountFigure, ...] = ("difference", "theoretical_share", "actual_share")
    note = tr(IN_DOUBT) if _doubt(seen) else ""
    shares = (seen.row.cell(figure, note=note) for figure in costs)
    parts = (seen.row.cell(part[0], note=note) for part in PARTS)
    return (name, *shares, seen.row.cell("plates_sold"), *parts)


# One count


def _count_page(seen: Seen) -> Page:
    count = seen.count
    return Page(
        path=page_of(count),
        title=count.title,
        lead=withheld.seen(_lead, seen) or tr("As it was counted, {days}.", days=seen.days),
        also=(*_also(seen), *_not_counted(seen)),
        kind=tr("Count"),
        crumbs=(Link(tr("Counts"), NAV),),
        nav=NAV,
        aside=(
            Term(tr("Counted"), seen.days),
            Term(tr("Plates sold"), seen.row.text("plates_sold")),
        ),
        sections=present(
            seen.view.notices(count.path),
            withheld.seen(_tiles, seen),
            tries(_moved(seen)),
            withheld.seen(_difference_part, seen),
            part("cuts", tr("By cut"), withheld.seen(cuts_table, seen)),
            part(
                "plates",
                tr("By plate"),
                withheld.seen(plates_table, seen),
                withheld.seen(menus_table, seen),
            ),
            part("cooks", tr("Into the cook and out"), withheld.seen(cooks_table, seen)),
            part("thrown", tr("Thrown away"), thrown_table(seen)) if seen.rows.wastes else None,
            *remarks(seen.view, count),
            listing(seen.view, count),
        ),
    )


def _not_counted(seen: Seen) -> Iterator[str]:
    """Which counters and buffets serve what is counted, though no count has what they sold."""
    content, count = seen.view.costed.content, seen.count
    if not seen.view.grants("buffets"):
        return
    found = [
        buffet.title
        for buffet in content.buffets.values()
        if any(
            name in count.cooks or content.cooks[name].cut in count.cuts for name in buffet.cooks
        )
    ]
    if found:
        yield tr(
            "What is served at {buffets} is not counted; of a cut counted here it is "
            "part of what is unexplained.",
            buffets=listed(found),
        )


def _difference_part(seen: Seen) -> Part:
    title = tr("Where the difference is")
    return part("difference", title, _picture(seen), _parts_table(seen))


def _newest(seen: Seen) -> Text:
    """What the newest count says; of which days it is, where costs are not for the reader."""
    return withheld.seen(_lead, seen) or tr("As it was counted, {days}.", days=seen.days)


def _also(seen: Seen, *before: str) -> tuple[str, ...]:
    """The largest part of the difference, after what else is said."""
    return (*before, *(withheld.seen(_largest, seen) or ()))


def _lead(seen: Seen) -> Text:
    row = seen.row
    if not row.known("difference"):
        return tr("Not every cut or plate counted has its cost, so there is nothing to compare.")
    if doubt := _doubt(seen):
        return tr("What the plates sold should cost is in doubt: {doubt}.", doubt=doubt)
    by = row.as_read("difference")
    if not row.known("actual_share"):
        return _without_sales(seen, by)
    actual, planned = row.texts("actual_share", "theoretical_share")
    if by == 0:
        return tr(
            "Food cost {actual} of sales, just what the plates sold should cost.", actual=actual
        )
    amount = _amount(seen, "difference")
    return tr(
        "Food cost {actual} of sales against {planned} on paper: {amount} {more} "
        "than the plates sold should cost{chance}.",
        actual=actual,
        planned=planned,
        amount=amount,
        more=tr("more") if by > 0 else tr("less"),
        chance=_chance(row),
    )


def _without_sales(seen: Seen, by: float) -> str:
    """The difference alone: there are no sales that it could be a share of."""
    if by == 0:
        return tr("No sales; food cost just what the plates counted should cost.")
    return tr(
        "No sales; food cost {amount} {more} than the plates counted should cost{chance}.",
        amount=_amount(seen, "difference"),
        more=tr("more") if by > 0 else tr("less"),
        chance=_chance(seen.row),
    )


def _share_note(row: FigureRow[CountFigure], figure: CountFigure) -> str:
    """Which share of the sales a cost is; empty where nothing was sold."""
    return tr("{share} of sales", share=row.text(figure)) if row.known(figure) else ""


def _chance(row: FigureRow[CountFigure]) -> str:
    """That the difference may as well be none, where its interval says so."""
    low, high = row.numbers("difference_low", "difference_high")
    # Open on both sides there is no interval to say it.
    bounded = math.isfinite(low) or math.isfinite(high)
    return tr("; that may be chance") if low < 0 < high and bounded else ""


def _doubt(seen: Seen) -> str:
    """Why what the plates counted should cost can't be trusted; empty where it can."""
    plates = seen.view.costed.content.plates
    return plates_doubt(seen.view, (plates[name] for name in seen.count.plates))


def _largest(seen: Seen) -> tuple[str, ...]:
    """The part that is largest in the direction of the difference, in a sentence."""
    row = seen.row
    if not row.known("difference") or _doubt(seen) or row.as_read("difference") == 0:
        return ()
    sign = 1 if row.number("difference") > 0 else -1
    figure, _, label, _ = max(PARTS, key=lambda each: sign * row.number(each[0]))
    if not sign * row.as_read(figure) > 0:
        return ()
    amount = _amount(seen, figure)
    words = (
        tr("The largest part: {label}, {amount} more.", label=tr(label).lower(), amount=amount)
        if sign > 0
        else tr("The largest part: {label}, {amount} less.", label=tr(label).lower(), amount=amount)
    )
    return (words,)


def _amount(seen: Seen, figure: CountFigure) -> str:
    """A difference without its sign, no finer than it is known."""
    view, amount = seen.view, abs(seen.row.as_read(figure))
    width = view.width("count", figure, seen.row.row)
    near = "money near" if math.isfinite(width) else "money"
    return shown(view.style, near, amount, limit=amount + width)


def _tiles(seen: Seen) -> Figures:
    row = seen.row
    costs = (
        row.tile(
            "theoretical_food",
            label=tr("Theoretical food cost"),
            note=_share_note(row, "theoretical_share"),
        ),
        row.tile(
            "actual_food",
            label=tr("Actual food cost"),
            note=_share_note(row, "actual_share"),
        ),
        _difference_tile(row),
    )
    sales = row.tile("sales", label=tr("Sales ex tax"), note=tr("at today's menu prices"))
    return Figures((*doubted(costs, _doubt(seen)).tiles, sales))


def _difference_tile(row: FigureRow[CountFigure]) -> FigureTile:
    tile = row.tile("difference")
    return tile if row.hides("difference") else sure_tile(row, "difference", tile)


def _moved(seen: Seen) -> Iterator[TryLine]:
    """What a reader may try: what was sold, delivered, and left in stock."""
    content = seen.view.costed.content
    for name, sale in seen.sales().items():
        if sale.number("sold_alone") > 0:
            yield TryLine(
                tr("{plates}: sold", plates=content.plates[name].title), sale.name("sold_alone")
            )
    for name, guests in seen.menus().items():
        yield TryLine(
            tr("{menus}: guests", menus=content.menus[name].title), guests.name("guests_served")
        )
    for name, usage in seen.usages().items():
        title = content.cuts[name].title
        if usage.known("stated_used"):
            yield TryLine(tr("{title}: used", title=title), usage.name("stated_used"))
        elif usage.known("closing"):
            yield TryLine(tr("{title}: closing stock", title=title), usage.name("closing"))


def _picture(seen: Seen) -> Chart:
    row = seen.row
    own, total = row.name("difference"), row.number("difference")
    bars = [_bar(seen, figure, label) for figure, _, label, _ in PARTS]
    shown = [bar for bar in bars if abs(bar.amount) > 5e-4]
    last = Bar(tr("Difference"), total, row.text("difference"), ((1.0, own),), own, total=True)
    found = waterfall(
        "waterfall",
        tr("What makes up the difference"),
        tr(
            "Portion, yield, what was thrown away, what is unexplained and price add up to {last}.",
            last=last.text,
        ),
        str(seen.view.costed.content.kitchen.currency),
        [*shown, last],
    )
    return doubted_chart(found, _doubt(seen))


def _bar(seen: Seen, figure: CountFigure, label: str) -> Bar:
    amount = seen.row.number(figure)
    own = seen.row.name(figure)
    return Bar(label, amount, seen.row.text(figure), ((1.0, own),), own)


def _parts_table(seen: Seen) -> Table:
    columns = (
        Column("part", tr("Part")),
        Column("money", tr("Cost"), numeric=True),
        Column("about", tr("What it is")),
    )
    body = (
        _line(seen, tr("Theoretical food cost"), "theoretical_food", tr(_SOLD), "subtotal"),
        *(_line(seen, label, figure, about) for figure, _, label, about in PARTS),
        _line(seen, tr("Actual food cost"), "actual_food", "", "total"),
    )
    wide = math.isfinite(seen.view.width("count", "difference", seen.row.row))
    about = f"{tr(_ORDER)} {tr(_HELD)} {tr(COARSE_SUMS)}" if wide else tr(_ORDER)
    return Table("parts", tr("From theoretical to actual food cost"), columns, body, about=about)


def _line(seen: Seen, label: str, figure: CountFigure, about: str, kind: RowKind = "") -> Row:
    note = tr(IN_DOUBT) if _doubt(seen) else ""
    return Row((Cell(label), seen.row.cell(figure, note=note), Cell(about)), kind)


_SOLD = Deferred("What the plates sold cost as the menu costs them.")
