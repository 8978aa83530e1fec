"""The pages of counters and buffets: what a weight sold or a guest costs and leaves."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from builder.costing.buffet_rows import BuffetRows
from builder.costing.left_out import labour_left_out, process_left_out
from builder.display.words import listed
from builder.language import Deferred, clauses, tr
from builder.pages import withheld
from builder.pages.allergens import LIST_PAGE, sentences
from builder.pages.buffet_uses import kind_words
from builder.pages.components import (
    Cell,
    Column,
    Figures,
    FigureTile,
    Link,
    Notice,
    Page,
    Part,
    Row,
    Table,
    Text,
    Tone,
    TryLine,
)
from builder.pages.figure_names import BuffetFigure, DishFigure
from builder.pages.how_sure import how_sure_part
from builder.pages.interval_words import between, sure_tile
from builder.pages.listings import listing
from builder.pages.parts import ALLERGENS, links, page_of, paragraph, part, present, record_cell
from builder.pages.remarks import remarks
from builder.pages.targets import against_target, is_over
from builder.pages.tries import cut_inputs, tries
from builder.pages.unknown import IN_DOUBT, NOT_IN_FULL, doubted, known_part
from builder.pages.view import FigureRow, View
from builder.pages.warned import notices_of
from builder.records.buffets import Buffet
from builder.records.contained import contained
from builder.records.kinds import Cook, PantryItem

PATH = "buffets.html"
NAV = "~/menu.html"
_NOTHING = Deferred(
    "Nothing is sold by weight yet; a file under buffets/ names what is put "
    "out and its price, by weight or a guest, and this page shows what it "
    "costs and leaves."
)

_HELD = Deferred(
    "How hot or cold food stands while it is put out, and for how long, "
    "local code and the licensed authority decide; log it."
)


class Seen:
    """A counter or a buffet with its rows."""

    def __init__(self, view: View, buffet: Buffet) -> None:
        self.view, self.buffet = view, buffet
        rows, content = view.costed.rows.of(BuffetRows)[buffet.id], view.costed.content
        self.row: FigureRow[BuffetFigure] = FigureRow(view, "buffet", rows.row)
        self.dishes: list[tuple[Cook | PantryItem, FigureRow[DishFigure]]] = [
            *((content.cooks[name], self._dish(row)) for name, row in rows.cooks.items()),
            *((content.pantry[name], self._dish(row)) for name, row in rows.items.items()),
        ]
        self.cooks = [each for each, _ in self.dishes if isinstance(each, Cook)]
        doubts = view.costed.doubts.cooks
        self.doubt = next((doubts[cook.id] for cook in self.cooks if doubts[cook.id]), "")

        self.unpaid = self._all(self.unpaid_in)
        self.missing = self._all(self.left_out)

    def _all(self, why: Callable[[Cook | PantryItem], str | None]) -> str | None:
        """Why a cost of all dishes is not known in full, each reason once."""
        found = [why(record) for record, _ in self.dishes]
        return None if None in found else clauses(dict.fromkeys(filter(None, found)))

    def unpaid_in(self, record: Cook | PantryItem) -> str | None:
        """Why the labour in a dish is not known in full; empty where it is, None if not granted."""
        return withheld.seen(labour_left_out, self.view.costed, record)

    def left_out(self, record: Cook | PantryItem) -> str | None:
        """Why the process of a dish is not known in full, likewise."""
        return withheld.seen(process_left_out, self.view.costed, record)

    def _dish(self, row: int) -> FigureRow[DishFigure]:
        return FigureRow(self.view, "dish", row)

    @property
    def titles(self) -> list[str]:
        """What is put out, by name."""
        return [record.title for record, _ in self.dishes]

    @property
    def over_target(self) -> bool:
        """Whether food is a larger share of what is paid than is aimed at."""
        return is_over(self.row)


def buffet_pages(view: View) -> Iterator[Page]:
    """The list of counters and buffets, and a page for each."""
    found = [Seen(view, buffet) for buffet in view.costed.content.buffets.values()]
    yield _list_page(found)
    for seen in found:
        yield _buffet_page(seen)


def buffet_found(view: View, buffet: Buffet) -> tuple[str, str]:
    """What a buffet is called in the search, which finds it by what it puts out."""
    cooks, pantry = view.costed.content.cooks, view.costed.content.pantry
    dishes = [*map(cooks.__getitem__, buffet.cooks), *map(pantry.__getitem__, buffet.items)]
    return kind_words(buffet), " ".join(dish.title for dish in dishes)


def buffets_part(view: View) -> Part | None:
    """Counters and buffets in one table, for the menu's page; None where there is none."""
    found = [Seen(view, buffet) for buffet in view.costed.content.buffets.values()]
    return part("buffets", tr("Counters and buffets"), _list_table(found)) if found else None


def _list_table(found: list[Seen]) -> Table:
    columns = (
        Column("what", tr("Counter or buffet")),
        Column("price", tr("Price"), numeric=True),
        Column("cost", tr("Food, by weight sold or eaten"), numeric=True),
        Column("guest", tr("Food a guest"), numeric=True),
        Column("share", tr("Food cost %"), numeric=True),
        Column("week", tr("Margin a week"), numeric=True),
    )
    rows = tuple(Row(_list_cells(seen)) for seen in found)
    return Table(
        "list-of-buffets",
        tr("Counters and buffets"),
        columns,
        rows,
        empty=tr("Nothing is written yet."),
    )


def _list_cells(seen: Seen) -> tuple[Cell, ...]:
    row, by_weight = seen.row, seen.buffet.by_weight
    doubt = tr(IN_DOUBT) if seen.doubt else ""
    kind = tr("by weight") if by_weight else tr("a guest")
    return (
        Cell(seen.buffet.title, href=f"~/{page_of(seen.buffet)}", note=kind),
        row.cell("price_per_kg" if by_weight else "guest_price"),
        row.cell("cost_per_kg_sold", note=doubt),
        Cell("–") if by_weight else row.cell("food_cost", note=doubt),
        row.cell("food_cost_share", tone=_tone(seen), note=doubt),
        row.cell("week_margin", note=doubt),
    )


def _list_page(found: list[Seen]) -> Page:
    lead = tr(
        "{found} sold by weight or put out{seen}.",
        found=len(found),
        seen=withheld.seen(_over_words, found) or "",
    )
    return Page(
        path=PATH,
        title=tr("Counters and buffets"),
        lead=lead if found else tr(_NOTHING),
        kind=tr("Sold by weight, or put out at a price a guest"),
        crumbs=(Link(tr("Menu"), NAV),),
        nav=NAV,
        sections=(_list_table(found),),
    )


def _over_words(found: list[Seen]) -> str:
    over = sum(seen.over_target for seen in found)
    return tr("; {over} above the food cost aimed at", over=over or tr("none"))


def _tone(seen: Seen) -> Tone:
    return "loss" if withheld.seen(is_over, seen.row) else ""


def _buffet_page(seen: Seen) -> Page:
    view, buffet = seen.view, seen.buffet
    return Page(
        path=page_of(buffet),
        title=buffet.title,
        lead=withheld.seen(_lead, seen)
        or tr("{plate}: {listed}.", plate=buffet.title, listed=listed(seen.titles)),
        also=withheld.seen(_left, seen) or (),
        kind=tr("Sold by weight") if buffet.by_weight else tr("Buffet"),
        crumbs=(Link(tr("Menu"), NAV), Link(tr("Counters and buffets"), f"~/{PATH}")),
        nav=NAV,
        sections=present(
            view.notices(buffet.path),
            withheld.seen(notices_of, view, seen.cooks),
            Notice(tr(_HELD), "caution"),
            withheld.seen(_key_figures, seen),
            tries(_tries(seen)),
            withheld.seen(_dishes_part, seen),
            withheld.seen(_price_part, seen),
            withheld.seen(_sure_part, seen),
            withheld.seen(_allergens_part, seen),
            *remarks(view, buffet),
            listing(view, buffet),
        ),
    )


def _key_figures(seen: Seen) -> Figures:
    return doubted(_tiles(seen), seen.doubt)


def _sure_part(seen: Seen) -> Part | None:
    """How sure the food is: of a counter that of what is sold, which what is left moves."""
    figure: BuffetFigure = "cost_per_kg_sold" if seen.buffet.by_weight else "food_cost"
    label = tr("the food of what is sold") if seen.buffet.by_weight else tr("the food put out")
    return how_sure_part(seen.view, seen.row, figure, label, doubt=seen.doubt)


def _lead(seen: Seen) -> str:
    row, title = seen.row, seen.buffet.title
    if row.hides("food_cost"):
        raise withheld.WithheldError
    if seen.doubt:
        return tr("The cost of {title} is in doubt: {doubt}.", title=title, doubt=seen.doubt)
    share = row.text("food_cost_share")
    target = against_target(row)
    if seen.buffet.by_weight:
        cost, margin = row.texts("cost_per_kg_sold", "margin_per_kg")
        return tr(
            "{title}: food for {cost} sold leaves {margin}; food cost {share}{target}.",
            title=title,
            cost=cost,
            margin=margin,
            share=share,
            target=target,
        )
    food, margin = row.texts("food_cost", "contribution_margin")
    return tr(
        "A guest leaves {margin} after {food} of food; food cost {share}{against_target}.",
        food=food,
        margin=margin,
        share=share,
        against_target=target,
    )


def _left(seen: Seen) -> tuple[str, ...]:
    if seen.doubt or not seen.buffet.left:
        return ()
    return (tr("{left_share} of what is put out is left.", left_share=seen.row.text("left_share")),)


_BY_WEIGHT: tuple[tuple[BuffetFigure, str], ...] = (
    ("cost_per_kg_sold", Deferred("Food, by weight sold")),
    ("margin_per_kg", Deferred("Margin, by weight sold")),
)
_A_GUEST: tuple[tuple[BuffetFigure, str], ...] = (
    ("food_cost", Deferred("Food a guest")),
    ("contribution_margin", Deferred("Contribution margin a guest")),
    ("cost_per_kg_sold", Deferred("Food, by weight eaten")),
)


def _tiles(seen: Seen) -> Iterator[FigureTile]:
    row = seen.row
    for figure, label in _BY_WEIGHT if seen.buffet.by_weight else _A_GUEST:
        yield sure_tile(row, figure, row.tile(figure, label=label))
    share = row.tile("food_cost_share", label=tr("Food cost %"), tone=_tone(seen))
    yield sure_tile(row, "food_cost_share", share)
    if row.known("week_margin"):
        yield row.tile("week_margin", label=tr("Contribution a week"))


def _tries(seen: Seen) -> Iterator[TryLine]:
    row = seen.row
    if seen.buffet.by_weight:
        yield TryLine(tr("Price by weight"), row.name("price_per_kg"))
    else:
        yield TryLine(tr("Price a guest"), row.name("guest_price"))
    yield TryLine(tr("Share that is left"), row.name("left_share"))
    for record, dish in seen.dishes:
        figure: DishFigure = "stated_weight" if isinstance(record, Cook) else "quantity"
        yield TryLine(tr("{record}: put out", record=record.title), dish.name(figure))
    yield from cut_inputs(seen.view, [cook.cut for cook in seen.cooks])


def _dishes_part(seen: Seen) -> Part:
    columns = (
        Column("dish", tr("Put out")),
        Column("weight", tr("Weight"), numeric=True),
        Column("food", tr("Food"), numeric=True),
        Column("labour", tr("Labour"), numeric=True),
        Column("process", tr("Energy and supplies"), numeric=True),
    )
    body = tuple(
        Row(
            (
                record_cell(record),
                dish.cell("weight"),
                dish.cell("dish_food", note=_doubt_note(seen, record)),
                known_part(dish, "dish_labour", seen.unpaid_in(record)),
                known_part(dish, "dish_process", seen.left_out(record)),
            )
        )
        for record, dish in seen.dishes
    )
    row = seen.row
    cells = (
        *row.cells("put_out", "dishes_food"),
        known_part(row, "dishes_labour", seen.unpaid),
        known_part(row, "dishes_process", seen.missing),
    )
    total = Row((Cell(tr("All that is put out")), *cells), "total")
    what = tr("In any one mix that is sold") if seen.buffet.by_weight else tr("A guest")
    caption, about = tr("{what}, what is put out", what=what), " ".join(_not_in_full(seen))
    table = Table("put-out", caption, columns, body, (total,), about=about)
    return part("dishes", tr("What is put out"), table)


def _not_in_full(seen: Seen) -> Iterator[str]:
    """Why the columns of labour and of process are not known in full."""
    if seen.unpaid and not seen.row.hides("dishes_labour"):
        yield tr("Labour is not known in full: {missing}.", missing=seen.unpaid)
    if seen.missing and not seen.row.hides("dishes_process"):
        yield tr("Energy and supplies are not known in full: {missing}.", missing=seen.missing)


def _doubt_note(seen: Seen, record: Cook | PantryItem) -> str:
    doubtful = isinstance(record, Cook) and seen.view.costed.doubts.cooks[record.id]
    return tr(IN_DOUBT) if doubtful else ""


def _price_part(seen: Seen) -> Part | None:
    row, weight = seen.row, seen.buffet.by_weight
    share, by = (
        row.text("food_cost_target"),
        tr("by weight sold") if weight else tr("by weight eaten"),
    )
    lines: list[tuple[BuffetFigure, str]] = [
        ("taken_weight", tr("Sold of what is put out") if weight else tr("Eaten by a guest")),
        ("left_cost", tr("Food that is left over, less its worth")),
        ("food_cost", tr("Food put out, with seasoning, less the worth of what is left")),
        ("cost_per_kg_sold", tr("Food, {by}", by=by)),
        ("full_cost_per_kg_sold", tr("Food, labour, energy and supplies, {by}", by=by)),
        ("price_per_kg_ex_tax", tr("Price by weight, ex tax")),
        ("margin_per_kg", tr("Margin by weight sold")),
        ("price_ex_tax", tr("Paid for it, ex tax")),
        ("contribution_margin", tr("Contribution margin of it")),
    ]
    if weight:
        lines.append(
            (
                "price_per_kg_for_food_cost",
                tr("Price by weight for a {share} food cost", share=share),
            )
        )
    else:
        lines.append(
            ("price_for_food_cost", tr("Price a guest for a {share} food cost", share=share))
        )
    there = (each for each in lines if not row.hides(each[0]))
    known = [(figure, label) for figure, label in there if row.known(figure)]
    if {figure for figure, _ in known} <= {"taken_weight"}:
        return None
    body = tuple(
        Row((Cell(label), row.cell(figure, note=_price_note(seen, figure))))
        for figure, label in known
    )
    columns = (
        Column("what", tr("Cost, price and margin")),
        Column("amount", tr("Amount"), numeric=True),
    )
    return part(
        "price", tr("What it earns"), Table("price-table", tr("Cost and margin"), columns, body)
    )


def _price_note(seen: Seen, figure: BuffetFigure) -> Text:
    if figure == "full_cost_per_kg_sold":
        return tr(NOT_IN_FULL) if seen.missing or seen.unpaid else ""
    return between(seen.row, figure) if figure.endswith("for_food_cost") else ""


def _allergens_part(seen: Seen) -> Part:
    view = seen.view
    cuts = view.costed.content.cuts
    holders = [cuts[each.cut] if isinstance(each, Cook) else each for each, _ in seen.dishes]
    words = list(sentences(contained(view.costed.content, *holders)))
    several = tr("Dishes stand side by side: {titles}.", titles=listed(seen.titles))
    return part(
        "allergens",
        tr("Allergens"),
        *(paragraph(text) for text in [*words, *([several] if len(holders) > 1 else [])]),
        Notice(tr(ALLERGENS), "caution"),
        links(tr("See also"), [Link(tr("All plates by allergen"), f"~/{LIST_PAGE}")]),
    )
