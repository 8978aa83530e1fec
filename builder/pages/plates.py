"""The pages of the plates: food cost, prime cost, full plate cost, price and margin."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.language import tr
from builder.pages import portions
from builder.pages.allergens import allergens_part
from builder.pages.at_the_stove import allergen_facts, portion_facts
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
)
from builder.pages.cost_lines import COST_LINES, not_there
from builder.pages.figure_names import OrderFigure, PlateFigure
from builder.pages.found_once import left_out_of
from builder.pages.how_sure import plate_sure_part
from builder.pages.interval_words import between, sure_tile
from builder.pages.listings import listing
from builder.pages.load_pieces import UNWEIGHED, pieces_words
from builder.pages.menu_classes import over_target
from builder.pages.parts import amounts, page_of, part, present
from builder.pages.plate_sales import sales_part
from builder.pages.printed_sums import sums_words
from builder.pages.remarks import remarks
from builder.pages.steps import steps_part
from builder.pages.targets import against_target
from builder.pages.tasting_evidence import plate_evidence
from builder.pages.tax_words import tax_words
from builder.pages.tries import plate_tries, tries
from builder.pages.unknown import (
    doubt_note,
    doubted,
    doubted_chart,
    missing_words,
    plate_cost,
    plate_doubt,
)
from builder.pages.view import View
from builder.pages.warned import plate_warnings
from builder.pages.waterfalls import Bar, waterfall
from builder.pages.withheld import seen
from builder.records.kinds import Plate

NAV = "~/menu.html"


def plate_page(view: View, plate: Plate) -> Page:
    """One plate of the menu, which is their list."""
    lead, *also = seen(_answer, view, plate) or [portions.served_words(view, plate)]
    return Page(
        path=page_of(plate),
        title=plate.title,
        lead=lead,
        also=tuple(also),
        kind=tr("Plate, {menu}", menu=plate.menu),
        crumbs=(Link(tr("Menu"), NAV),),
        nav=NAV,
        aside=tuple(_facts(view, plate)),
        sections=present(
            view.notices(plate.path),
            seen(plate_warnings, view, plate),
            seen(_key_figures, view, plate),
            tries(plate_tries(view, plate)),
            seen(_cost_part, view, plate),
            seen(steps_part, view, plate),
            seen(_sides_part, view, plate),
            seen(_portions_part, view, plate),
            seen(_price_part, view, plate),
            seen(plate_sure_part, view, plate),
            seen(_buying_part, view, plate),
            seen(sales_part, view, plate),
            seen(plate_evidence, view, plate),
            allergens_part(view, plate),
            *remarks(view, plate),
            listing(view, plate),
        ),
    )


def _answer(view: View, plate: Plate) -> list[str]:
    """What a plate leaves of its price, and what it costs."""
    row = view.plate(plate)
    if row.hides("full_cost"):
        return [portions.served_words(view, plate)]
    if doubt := view.costed.doubts.plates[plate.id]:
        return [tr("The cost of {plate} is in doubt: {doubt}.", plate=plate.title, doubt=doubt)]
    full, food, margin, share = row.texts(
        "full_cost", "food_cost", "contribution_margin", "food_cost_share"
    )
    missing = missing_words(view, [plate])
    without = tr(" ({missing} not known in full)", missing=missing) if missing else ""
    return [
        tr(
            "{plate}: {margin} left after the food; food cost {share}{against_target}.",
            plate=plate.title,
            margin=margin,
            share=share,
            against_target=against_target(row),
        ),
        tr(
            "It costs {full} to put on the table{without}, {food} of it food.",
            full=full,
            without=without,
            food=food,
        ),
    ]


def _facts(view: View, plate: Plate) -> Iterator[Term]:
    yield from portion_facts(view, plate)
    yield from allergen_facts(view, plate)
    if view.grants("menu prices"):
        yield Term(tr("On the menu at"), view.style.money(plate.price.value))


def _without_words(view: View, plate: Plate, missing: str) -> str:
    """That the full cost leaves something out; what it is, where it is not below the lead."""
    row = view.plate(plate)
    hidden = row.hides("contribution_margin") or row.hides("food_cost_share")
    names_it = not hidden and not view.costed.doubts.plates[plate.id]
    return tr("not in full") if names_it else tr("{missing} not known in full", missing=missing)


def _key_figures(view: View, plate: Plate) -> Figures:
    row = view.plate(plate)
    tone: Tone = "loss" if over_target(view, plate) else ""
    missing = missing_words(view, [plate])
    without = _without_words(view, plate, missing) if missing else ""
    unpaid = (
        tr("food and labour, not in full")
        if "labour_cost" in (seen(left_out_of, view, plate) or {})
        else tr("food and labour")
    )
    return doubted(
        (
            sure_tile(row, "food_cost", row.tile("food_cost", label=tr("Food cost"))),
            sure_tile(
                row, "prime_cost", row.tile("prime_cost", label=tr("Prime cost"), note=unpaid)
            ),
            sure_tile(
                row, "full_cost", row.tile("full_cost", label=tr("Full plate cost"), note=without)
            ),
            sure_tile(
                row,
                "contribution_margin",
                row.tile("contribution_margin", note=tr("price ex tax less food")),
            ),
            sure_tile(
                row,
                "food_cost_share",
                row.tile("food_cost_share", label=tr("Food cost %"), tone=tone),
            ),
        ),
        plate_doubt(view, plate),
    )


def _cost_part(view: View, plate: Plate) -> Part:
    columns = (Column("what", tr("One plate")), Column("money", tr("Cost"), numeric=True))
    missing = left_out_of(view, plate)
    hidden = not_there(view, [plate])
    body = tuple(
        Row((Cell(label, note=missing.get(figure, "")), plate_cost(view, figure, plate)), kind)
        for figure, label, kind in COST_LINES
        if figure not in hidden
    )
    table = Table(
        "cost-lines", tr("What a plate costs"), columns, body, about=sums_words(view, [plate])
    )
    return part("costs", tr("What it costs"), _waterfall(view, plate, table), table, pair=True)


def _waterfall(view: View, plate: Plate, lines: Table) -> Chart:
    row = view.plate(plate)
    bars: list[Bar] = []
    for figure, label, kind in COST_LINES:
        value, own = row.number(figure), row.name(figure)
        if kind or abs(value) > 5e-4:
            text = row.text(figure)
            bars.append(Bar(label, value, text, ((1.0, own),), own, total=bool(kind)))
    full = row.text("full_cost")
    known = tr(", as far as known,") if left_out_of(view, plate) else ""
    found = waterfall(
        "waterfall",
        tr("What makes up the cost of a plate"),
        tr(
            "Food, labour, energy and supplies{known} add up to {full} a plate.",
            known=known,
            full=full,
        ),
        tr("{currency} a plate", currency=view.costed.content.kitchen.currency),
        bars,
        beside=lines,
    )
    return doubted_chart(found, plate_doubt(view, plate))


def _sides_part(view: View, plate: Plate) -> Part | None:
    if not plate.with_:
        return None
    rows = view.sides(plate)
    columns, body = amounts(view, tr("Side"), plate.with_, rows)
    hidden = ("accompaniment", "food") in view.hidden
    caption = tr("Amounts") if hidden else tr("Amounts and what they cost")
    table = Table("sides", caption, columns, body)
    return part("accompaniments", tr("The sides"), table)


def _portions_part(view: View, plate: Plate) -> Part | None:
    if not plate.served:
        return None
    row = view.plate(plate)
    whole = row.number("counts_pieces") > 0
    pieces = row.known("portions_per_piece")
    columns = (
        Column("what", tr("From one batch")),
        Column("weight", tr("By weight"), numeric=True),
        Column("whole", tr("Whole portions"), numeric=True),
    )
    body = (
        Row(
            (
                Cell(tr("Portions")),
                row.cell("portions_by_weight"),
                row.cell("whole_portions"),
            )
        ),
        Row(
            (
                Cell(tr("Left over")),
                Cell("–"),
                row.cell("remainder_weight"),
            )
        ),
        Row(
            (
                Cell(tr("Worth of what is left over")),
                Cell("–"),
                row.cell("remainder_credit", note=doubt_note(view, plate, "remainder_credit")),
            )
        ),
        Row(
            (
                Cell(tr("Cost of a portion")),
                plate_cost(view, "portion_cost_by_weight", plate),
                plate_cost(view, "portion_cost_whole", plate),
            ),
            "total",
        ),
    )
    used = (
        tr("The menu uses the cost by whole portions.")
        if whole
        else tr("The menu uses the cost by weight.")
    )
    costed = "" if row.hides("protein_cost") else used
    about = costed + pieces_words(view, plate, row)
    table = Table("portion-lines", tr("Portions by weight and whole"), columns, body, about=about)
    doubt = plate_doubt(view, plate)
    loss = view.costed.doubts.loss(view.costed.content.cooks[plate.cook]) if plate.cook else doubt
    weights = (
        row.tile("ap_cost_per_portion", label=tr("Meat as purchased")),
        row.tile("ap_weight_per_portion", label=tr("AP weight a portion")),
    )
    costs = (
        row.tile("credit_per_portion", label=tr("Less credits a portion")),
        row.tile("cost_factor_per_portion", note=tr("by weight") if whole else ""),
    )
    tiles = Figures(
        (
            *doubted(weights[:1], loss).tiles,
            *doubted(costs, doubt_note(view, plate, "protein_cost")).tiles,
            *([row.tile("portions_per_piece")] if pieces else []),
            *doubted(weights[1:], loss).tiles,
        ),
        tr("Portion figures"),
    )
    several = portions.portions_table(view, plate)
    batch = table if plate.cook else None  # an uncooked cut is bought, not made in batches
    return part("portions", tr("Portions"), several, batch, tiles)


def _price_part(view: View, plate: Plate) -> Part | None:
    row = view.plate(plate)
    tax = tax_words(row)
    ends = bool(view.costed.content.kitchen.price_endings)
    share, margin = row.texts("food_cost_target", "margin_target")
    lines: list[tuple[PlateFigure, str]] = [
        (
            "menu_price",
            tr("Price on the menu ({with_words} tax)", with_words=tax)
            if tax
            else tr("Price on the menu"),
        ),
        ("price_ex_tax", tr("Price ex tax")),
        ("contribution_margin", tr("Contribution margin (after food)")),
        ("margin_after_prime", tr("Margin after prime cost")),
        ("margin_after_full", tr("Margin after full plate cost")),
        ("price_for_food_cost", tr("Menu price for a {share} food cost", share=share)),
        ("price_to_write", tr("The same with one of your price endings")),
        ("price_for_margin", tr("Menu price for a margin of {margin}", margin=margin)),
    ]
    body = tuple(
        Row((Cell(label), _price_cell(view, plate, figure)))
        for figure, label in lines
        if not row.hides(figure) and row.known(figure) and (figure != "price_to_write" or ends)
    )
    if not body:
        return None
    columns = (Column("what", tr("Price and margin")), Column("money", tr("Amount"), numeric=True))
    return part(
        "price", tr("What it earns"), Table("price-table", tr("Price and margin"), columns, body)
    )


def _price_cell(view: View, plate: Plate, figure: PlateFigure) -> Cell:
    cell = view.plate(plate).cell(figure, note=_price_note(view, plate, figure))
    # Which ending is next is found when the site is built.
    return replace(cell, fixed=figure == "price_to_write")


def _price_note(view: View, plate: Plate, figure: PlateFigure) -> Text:
    """What a price or a margin rests on: a doubt, and how sure a price that is asked for is."""
    doubt = doubt_note(view, plate, figure)
    asked = figure in {"price_for_food_cost", "price_for_margin"}
    sure = between(view.plate(plate), figure) if asked else ""
    return doubt or sure


def _buying_part(view: View, plate: Plate) -> Part | None:
    orders = view.orders(plate)
    if not orders:
        return None
    first = orders[0]
    pieces = first.known("pieces_to_cook")
    columns: dict[OrderFigure, Column] = {
        "covers": Column("covers", tr("Portions to serve"), numeric=True),
        "quantity_to_buy": Column(
            "buy", tr("Buy, by weight"), True, about=tr("portions × portion ÷ yield")
        ),
        "pieces_to_cook": Column("pieces", tr("Whole pieces"), numeric=True),
        "quantity_to_buy_whole": Column("whole", tr("Buy, whole pieces"), numeric=True),
        "quantity_as_sold": Column("sold", tr("Buy, as sold"), numeric=True),
        "portion_size_from": Column(
            "size", tr("Portion if one batch must do, by weight"), numeric=True
        ),
    }
    left = set() if pieces else {"pieces", "whole"}
    of_pieces = view.plate(plate).known("portion_pieces")
    left |= set() if plate.cook and not of_pieces else {"size"}
    left |= set() if first.known("quantity_as_sold") else {"sold"}
    shown = {k: c for k, c in columns.items() if c.key not in left}
    body = tuple(Row(row.cells(*shown)) for row in orders)
    about = (
        tr(
            "One batch of {ap_weight} as purchased gives {portions_from} "
            "portions{by_weight}.{shared_cook}",
            ap_weight=first.text("ap_weight"),
            portions_from=view.plate(plate).text("whole_portions")
            if of_pieces
            else first.text("portions_from"),
            by_weight="" if of_pieces else tr(" by weight"),
            shared_cook=portions.shared_cook(view, plate, plate.cook) if pieces else tr(UNWEIGHED),
        )
        if plate.cook
        else ""
    )
    return part(
        "buying",
        tr("How much to buy"),
        Table("orders", tr("How much to buy"), tuple(shown.values()), body, about=about),
        *portions.orders_tables(view, plate),
    )
