"""The pages of set menus and combos: what a guest costs and leaves, course by course."""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.display.words import listed
from builder.language import Deferred, clauses, ntr, tr
from builder.pages import withheld
from builder.pages.components import (
    Cell,
    Chart,
    Column,
    Figures,
    Link,
    Page,
    Part,
    Row,
    Table,
    Term,
    Text,
    Tone,
    TryLine,
)
from builder.pages.figure_names import SetMenuFigure
from builder.pages.how_sure import how_sure_part
from builder.pages.interval_words import between, sure_tile
from builder.pages.listings import listing
from builder.pages.menu_courses import Seen, allergens_part, anchor, course_part, dearest
from builder.pages.menu_guests import week_of_menu
from builder.pages.parts import (
    as_written,
    page_of,
    part,
    present,
)
from builder.pages.printed_sums import COARSE_SUMS
from builder.pages.remarks import remarks
from builder.pages.targets import against_target, is_over, over_words
from builder.pages.tax_words import tax_words
from builder.pages.tries import menu_inputs, tries
from builder.pages.unknown import IN_DOUBT, NOT_IN_FULL, doubted, doubted_chart, known_part
from builder.pages.values import capital
from builder.pages.view import F, FigureRow, View
from builder.pages.warned import notices_of
from builder.pages.waterfalls import Bar, waterfall
from builder.records.menus import EVERY_GUEST, SetMenu

PATH = "set-menus.html"
NAV = "~/menu.html"
_NOTHING = Deferred(
    "No set menu or combo is written yet; a file under menus/ names its "
    "price and its plates, and this page shows what a guest costs and leaves."
)


def set_menu_pages(view: View) -> Iterator[Page]:
    """The list of set menus, and a page for each."""
    found = [Seen(view, menu) for menu in view.costed.content.menus.values()]
    yield _list_page(found)
    for seen in found:
        yield _menu_page(seen)


def menu_found(view: View, menu: SetMenu) -> tuple[str, str]:
    """What a set menu is called in the search, which finds it by its plates."""
    plates = view.costed.content.plates
    kind = tr("set menu") if menu.courses else tr("combo")
    return kind, " ".join(plates[plate].title for plate in menu.plate_ids)


def set_menus_part(view: View) -> Part | None:
    """The set menus in one table, for the menu's page; None where there is none."""
    found = [Seen(view, menu) for menu in view.costed.content.menus.values()]
    return part("set-menus", tr("Set menus"), _list_table(found)) if found else None


# The list


def _list_table(found: list[Seen]) -> Table:
    columns = (
        Column("menu", tr("Set menu")),
        # Money is next to the name: what a phone can't show is further on.
        Column("price", tr("A guest pays"), numeric=True, unit=tr("supplements included")),
        Column("margin", tr("Contribution margin"), numeric=True),
        Column("week", tr("Margin a week"), numeric=True),
        Column("food", tr("Food"), numeric=True),
        Column("full", tr("Full cost"), numeric=True),
        Column("share", tr("Food cost %"), numeric=True),
        Column("guests", tr("Guests a week"), numeric=True),
    )
    body = tuple(Row(_list_cells(seen)) for seen in found)
    return Table(
        "list-of-set-menus",
        tr("Every set menu"),
        columns,
        body,
        sortable=len(body) > 1,
        empty=tr("Nothing is written yet."),
    )


def _list_cells(seen: Seen) -> tuple[Cell, ...]:
    row, tone = seen.row, _tone(seen)
    doubt = tr(IN_DOUBT) if seen.doubt else ""
    full = tr(NOT_IN_FULL) if seen.missing else ""
    kind = (
        tr("combo")
        if seen.is_combo
        else ntr("{count} course", "{count} courses", len(seen.courses))
    )
    return (
        Cell(seen.menu.title, seen.menu.title.lower(), f"~/{page_of(seen.menu)}", note=kind),
        row.cell("menu_price"),
        row.cell("contribution_margin", note=doubt),
        row.cell("week_margin", note=doubt),
        row.cell("food_cost", note=doubt),
        row.cell("full_cost", note=clauses((doubt, full))),
        row.cell("food_cost_share", tone=tone, note=doubt),
        row.cell("guests"),
    )


def _list_page(found: list[Seen]) -> Page:
    count = ntr("{count} set menu", "{count} set menus", len(found))
    lead = withheld.seen(_over_words, found, count)
    lead = lead or tr("{count}, each one price for several plates.", count=capital(count))
    return Page(
        path=PATH,
        title=tr("Set menus"),
        lead=lead if found else tr(_NOTHING),
        kind=tr("One price a guest"),
        crumbs=(Link(tr("Menu"), NAV),),
        nav=NAV,
        sections=(_list_table(found),),
    )


def _over_words(found: list[Seen], count: str) -> str:
    """How many are above the food cost aimed at, where one is."""
    if not found or not found[0].row.known("food_cost_target"):
        return ""
    over, aimed = sum(seen.over_target for seen in found), found[0].row.text("food_cost_target")
    if not over:
        return tr("No set menu is above the {aimed} food cost aimed at.", aimed=aimed)
    return over_words(over, count, aimed)


# A menu


def _menu_page(seen: Seen) -> Page:
    view, menu = seen.view, seen.menu
    cooks = [view.costed.content.cooks[name] for plate in seen.plates for name in plate.cooks]
    return Page(
        path=page_of(menu),
        title=menu.title,
        lead=withheld.seen(_lead, seen) or _served_words(seen),
        kind=tr("Combo") if seen.is_combo else tr("Set menu"),
        crumbs=(Link(tr("Menu"), NAV), Link(tr("Set menus"), f"~/{PATH}")),
        nav=NAV,
        aside=tuple(_facts(seen)),
        sections=present(
            view.notices(menu.path),
            withheld.seen(notices_of, view, cooks, seen.plates),
            withheld.seen(_key_figures, seen),
            tries(_tries(seen)),
            withheld.seen(_cost_part, seen),
            *(withheld.seen(course_part, seen, course) for course in seen.courses),
            withheld.seen(week_of_menu, seen),
            withheld.seen(_price_part, seen),
            withheld.seen(_sure_part, seen),
            withheld.seen(allergens_part, seen),
            *remarks(view, menu),
            listing(view, menu),
        ),
    )


def _sure_part(seen: Seen) -> Part | None:
    label = tr("the food of a guest")
    return how_sure_part(seen.view, seen.row, "food_cost", label, doubt=seen.doubt)


def _served_words(seen: Seen) -> str:
    """What is on a menu, for whoever does not see what it costs."""
    return tr(
        "{plate}: {listed}.",
        plate=seen.menu.title,
        listed=listed([plate.title for plate in seen.plates]),
    )


def _lead(seen: Seen) -> str:
    if seen.row.hides("food_cost"):
        raise withheld.WithheldError
    if seen.doubt:
        return tr(
            "The cost of {menu} is in doubt: {doubt}.", menu=seen.menu.title, doubt=seen.doubt
        )
    food, margin, share = seen.row.texts("food_cost", "contribution_margin", "food_cost_share")
    return tr(
        "A guest leaves {margin} after {food} of food; food cost {share}{against_target}.",
        food=food,
        margin=margin,
        share=share,
        against_target=against_target(seen.row),
    )


def _facts(seen: Seen) -> Iterator[Term]:
    style, menu = seen.view.style, seen.menu
    if seen.view.grants("menu prices"):
        yield Term(tr("Price a guest"), style.money(menu.price.value))
    if seen.view.grants("sales") and menu.guests:
        yield Term(tr("Guests a week"), style.count(menu.guests.value))


def _tone(seen: Seen) -> Tone:
    return "loss" if withheld.seen(is_over, seen.row) else ""


def _key_figures(seen: Seen) -> Figures:
    row = seen.row
    without = tr("{missing} not known in full", missing=seen.missing) if seen.missing else ""
    tiles = [
        sure_tile(row, "food_cost", row.tile("food_cost", label=tr("Food a guest"))),
        sure_tile(
            row, "full_cost", row.tile("full_cost", label=tr("Full cost a guest"), note=without)
        ),
        sure_tile(
            row,
            "contribution_margin",
            row.tile("contribution_margin", note=tr("a guest: price ex tax less food")),
        ),
        sure_tile(
            row,
            "food_cost_share",
            row.tile("food_cost_share", label=tr("Food cost %"), tone=_tone(seen)),
        ),
    ]
    if row.known("week_margin"):
        tiles.append(row.tile("week_margin", label=tr("Contribution a week")))
    return doubted(tiles, seen.doubt)


def _tries(seen: Seen) -> Iterator[TryLine]:
    yield TryLine(tr("Price a guest"), seen.row.name("guest_price"))
    for (course, name), row in seen.choices.items():
        plate = seen.view.costed.content.plates[name]
        own = f"{capital(course)}, {plate.title}"
        if row.known("stated_share") and course != EVERY_GUEST:
            yield TryLine(tr("{own}: share of guests", own=own), row.name("stated_share"))
        if row.number("supplement") > 0:
            yield TryLine(tr("{own}: supplement", own=own), row.name("supplement"))
    if seen.row.known("guests"):
        yield TryLine(tr("Guests a week"), seen.row.name("guests"))
    yield from menu_inputs(seen.view, seen.plates)


def _cost_part(seen: Seen) -> Part:
    columns = (
        Column("course", tr("Course")),
        Column("taken", tr("Guests who take it"), numeric=True),
        Column("food", tr("Food"), numeric=True),
        Column("work", tr("Labour"), numeric=True),
        Column("process", tr("Energy and supplies"), numeric=True),
        Column("dearest", tr("Costs most"), about=tr("food, after its supplement")),
    )
    body = [
        Row(
            (
                Cell(capital(name), href=f"#{anchor(seen, name)}"),
                Cell(tr("every plate")) if name == EVERY_GUEST else row.cell("taken"),
                row.cell("course_food", note=tr(IN_DOUBT) if seen.doubt else ""),
                *_work_cells(row, "course_labour", "course_process", seen.not_in_full(name)),
                Cell(dearest(seen, name)),
            )
        )
        for name, row in seen.courses.items()
    ]
    row = seen.row
    if seen.menu.cover_cost or row.number("bears_cover") > 0 or _has_cover(row):
        body.append(
            Row((Cell(tr("Cover")), Cell(""), row.cell("cover_cost"), Cell(""), Cell(""), Cell("")))
        )
    total = Row(
        (
            Cell(tr("A guest")),
            Cell(""),
            row.cell("food_cost", note=tr(IN_DOUBT) if seen.doubt else ""),
            *_work_cells(row, "labour_cost", "process_per_plate", seen.guest_not_in_full),
            Cell(""),
        ),
        "total",
    )
    about = (
        tr(COARSE_SUMS) if math.isfinite(seen.view.width("set_menu", "food_cost", row.row)) else ""
    )
    table = Table("courses", tr("What a guest costs"), columns, tuple(body), (total,), about=about)
    return part("costs", tr("What a guest costs"), _waterfall(seen), table, pair=True)


def _work_cells(row: FigureRow[F], labour: F, process: F, missing: set[str] | None) -> list[Cell]:
    """Labour and process as far as they are known; `missing` are the figures that are not."""
    unpaid = None if missing is None else missing & {"labour_cost"}
    unmade = None if missing is None else missing - {"labour_cost"}
    return [known_part(row, labour, unpaid), known_part(row, process, unmade)]


def _has_cover(row: FigureRow[SetMenuFigure]) -> bool:
    """Whether the reader may see a cover's cost and there is one."""
    return not row.hides("cover_cost") and row.number("cover_cost") > 0


def _waterfall(seen: Seen) -> Chart:
    bars = [_bar(capital(name), row, "course_food") for name, row in seen.courses.items()]
    totals: tuple[tuple[SetMenuFigure, str, bool], ...] = (
        ("cover_cost", tr("Cover"), False),
        ("food_cost", tr("Food cost"), True),
        ("labour_cost", tr("Direct labour"), False),
        ("process_per_plate", tr("Energy and supplies"), False),
        ("full_cost", tr("Full cost"), True),
    )
    for figure, label, total in totals:
        if total or abs(seen.row.number(figure)) > 5e-4:
            bars.append(_bar(label, seen.row, figure, total=total))
    known = tr(", as far as known,") if seen.missing else ""
    found = waterfall(
        "waterfall",
        tr("What makes up the cost of a guest"),
        tr(
            "Courses, labour, energy and supplies{known} add up to {full_cost} a guest.",
            known=known,
            full_cost=seen.row.text("full_cost"),
        ),
        tr("{currency} a guest", currency=seen.view.costed.content.kitchen.currency),
        bars,
    )
    return doubted_chart(found, seen.doubt)


def _bar(label: str, row: FigureRow[F], figure: F, *, total: bool = False) -> Bar:
    own = row.name(figure)
    return Bar(label, row.number(figure), row.text(figure), ((1.0, own),), own, total=total)


def _price_part(seen: Seen) -> Part | None:
    row = seen.row
    tax = tax_words(row)
    share, margin = row.texts("food_cost_target", "margin_target")
    lines: list[tuple[SetMenuFigure, str]] = [
        (
            "guest_price",
            tr("Price a guest ({tax} tax)", tax=tax) if tax else tr("Price a guest"),
        ),
        ("supplements", tr("Supplements, on average")),
        ("menu_price", tr("What a guest pays on average")),
        ("prices_apart", tr("The same plates on their own")),
        ("off_prices_apart", tr("Less than its plates on their own")),
        ("price_ex_tax", tr("Price ex tax")),
        ("contribution_margin", tr("Contribution margin (after food)")),
        ("margin_after_prime", tr("Margin after prime cost")),
        ("margin_after_full", tr("Margin after full cost")),
        ("price_for_food_cost", tr("Price a guest for a {share} food cost", share=share)),
        ("price_for_margin", tr("Price a guest for a margin of {margin}", margin=margin)),
    ]
    body = tuple(
        Row((Cell(label), row.cell(figure, note=_price_note(seen, figure))))
        for figure, label in lines
        if not row.hides(figure) and row.known(figure)
    )
    # Nothing of it is for who may see no money.
    if not body:
        return None
    columns = (Column("what", tr("Price and margin")), Column("money", tr("Amount"), numeric=True))
    return part(
        "price", tr("What it earns"), Table("price-table", tr("Price and margin"), columns, body)
    )


_PRICES = frozenset(("guest_price", "supplements", "menu_price", "prices_apart", "price_ex_tax"))


def _price_note(seen: Seen, figure: SetMenuFigure) -> Text:
    if figure in _PRICES:
        return ""
    if figure == "off_prices_apart":
        dearer = seen.row.as_read(figure) < 0
        return (
            as_written(tr("below zero: a guest pays more than for the plates on their own"))
            if dearer
            else ""
        )
    asked = figure in {"price_for_food_cost", "price_for_margin"}
    return tr(IN_DOUBT) if seen.doubt else between(seen.row, figure) if asked else ""
