"""What a service orders, on its page; on an item's page how it is sold."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from builder.costing.services import WEEK, ServicePlan, elapsed
from builder.display.rounded_sizes import lasting
from builder.language import Deferred, tr
from builder.pages.components import (
    Cell,
    Column,
    Figures,
    Part,
    Row,
    Table,
    Term,
)
from builder.pages.figure_names import OrderLineFigure, PreparationFigure, ServiceOrderFigure
from builder.pages.in_clauses import in_clauses
from builder.pages.parts import form_path, page_of, part, record_cell
from builder.pages.values import capital, measured
from builder.pages.view import FigureRow, View
from builder.pages.ways import pack_words
from builder.pages.withheld import WITHHELD
from builder.quantities import Dimension
from builder.reading.names import slug
from builder.records.fields import Measure
from builder.records.kinds import Cut, PantryItem
from builder.records.services import Service
from builder.records.sold_as import PackSize, SoldAs

Item = Cut | PantryItem
Line = FigureRow[OrderLineFigure]
_ABOUT = Deferred(
    "What all plates take is added up, then rounded up once to what is sold. "
    "A portion costs what it uses, whatever is left over. Of seasoning and "
    "garnish that no plate lists, only what the service names (besides:) is "
    "in it."
)
_STOCK = Deferred("Stock at hand is taken off what is needed before anything is rounded up.")
DEPOSITS = Deferred("Deposits come back with the empties and are in no cost of a plate.")
_A_PIECE = Deferred("A piece costs what it weighs; its usual weight is used here.")


def order_path(service: Service) -> str:
    """The sheet of a service's order."""
    return form_path(service.id, "order")


def order_lines(view: View, service: Service) -> Iterator[tuple[Item, Line]]:
    """What a service orders, supplier by supplier, each with its figures."""
    rows, content = view.costed.orders[service.id], view.costed.content
    found: list[tuple[Item, int]] = [(content.cuts[name], row) for name, row in rows.cuts.items()]
    found += [(content.pantry[name], row) for name, row in rows.items.items()]
    for item, row in sorted(found, key=lambda pair: (supplier_of(view, pair[0]), pair[0].title)):
        yield item, FigureRow(view, "order_line", row)


def _line_of(view: View, service: Service, item: Item) -> Line | None:
    """The figures of one item in a service's order; None where it orders none."""
    rows = view.costed.orders[service.id]
    row = (rows.cuts if isinstance(item, Cut) else rows.items).get(item.id)
    return None if row is None else FigureRow(view, "order_line", row)


def order_part(view: View, plan: ServicePlan) -> Part | None:
    """What a service orders, what is left over and what it costs today."""
    lines = list(order_lines(view, plan.service))
    if not lines:
        return None
    row: FigureRow[ServiceOrderFigure] = FigureRow(
        view, "service_order", view.costed.orders[plan.service.id].row
    )
    tiles = [row.tile("goods_billed", label=tr("Goods"))]
    if has_deposits(row):
        tiles.append(
            row.tile("deposits_paid", label=tr("Deposits"), note=tr("come back with the empties"))
        )
        tiles.append(row.tile("billed_today", label=tr("To pay today")))
    tiles.append(row.tile("goods_left_over", label=tr("Left over"), note=tr("of the goods")))
    return part(
        "order",
        tr("What to order"),
        Figures(tuple(tiles)),
        _table(view, plan, lines),
        _made_table(view, plan.service),
        about=tr(_ABOUT),
    )


def _table(view: View, plan: ServicePlan, lines: list[tuple[Item, Line]]) -> Table:
    sold = [sold_of(view, item) for item, _ in lines]
    paid = any(each and each.deposit for each in sold)
    stock = has_stock(lines)
    columns = (
        Column("item", tr("Item")),
        Column("order", tr("Packs"), numeric=True),
        Column("goods", tr("Goods"), numeric=True),
        Column("sold", tr("Sold as")),
        Column("amount", tr("To order"), numeric=True),
        Column("needed", tr("Needed"), numeric=True),
        *([Column("stock", tr("From stock"), numeric=True)] if stock else []),
        Column("left", tr("Left over"), numeric=True),
        *([Column("deposit", tr("Deposit"), numeric=True)] if paid else []),
        *_supplier_column(view),
    )
    body = tuple(_row(view, plan, item, line, paid=paid, stock=stock) for item, line in lines)
    about = [tr(_STOCK)] if stock else []
    about += [tr(_A_PIECE)] if any(each and each.piece for each in sold) else []
    about += [tr(DEPOSITS)] if paid else []
    return Table(
        "order-lines", tr("The order"), columns, body, about=" ".join(about), sortable=True
    )


def has_stock(lines: list[tuple[Item, Line]]) -> bool:
    """Whether anything is taken from stock."""
    return any(line.number("from_stock") > 0 for _, line in lines)


def _stock(line: Line) -> Cell:
    return line.cell("from_stock") if line.number("from_stock") > 0 else Cell("–")


def _row(view: View, plan: ServicePlan, item: Item, line: Line, *, paid: bool, stock: bool) -> Row:
    return Row(
        (
            record_cell(item),
            _packs(line),
            line.cell("line_billed"),
            Cell(capital(sold_words(view, sold_of(view, item))) or tr("Any amount")),
            *line.cells("amount_ordered", "amount_needed"),
            *([_stock(line)] if stock else []),
            _left(view, plan, item, line),
            *([_deposit(line)] if paid else []),
            *_supplier_cell(view, item),
        )
    )


def _supplier_column(view: View) -> tuple[Column, ...]:
    return (Column("supplier", tr("Supplier")),) if view.grants("suppliers") else ()


def _supplier_cell(view: View, item: Item) -> tuple[Cell, ...]:
    return (Cell(supplier_of(view, item) or "–"),) if view.grants("suppliers") else ()


def has_deposits(row: FigureRow[ServiceOrderFigure]) -> bool:
    """Whether a deposit is paid, and the reader may see it."""
    return not row.hides("deposits_paid") and row.number("deposits_paid") > 0


def _deposit(line: Line) -> Cell:
    return line.cell("deposits") if line.number("deposits") > 0 else Cell("–")


def _packs(line: Line) -> Cell:
    return line.cell("packs_ordered") if line.known("packs_ordered") else Cell("–")


def _left(view: View, plan: ServicePlan, item: Item, line: Line) -> Cell:
    """What is left over, what that cost, and whether it keeps until a service uses it."""
    if not line.number("left_over") > 0:
        return line.cell("left_over") if line.known("packs_ordered") else Cell("–")
    cost = "" if line.hides("left_over_cost") else line.traced("left_over_cost")
    notes = cost, keeping_words(view, plan, item)
    return line.cell("left_over", note=in_clauses(notes))


def keeping_words(view: View, plan: ServicePlan, item: Item) -> str:
    """That what is left over does not keep until the week's next service that uses it, if so."""
    if isinstance(item, Cut) or not view.grants("cooking") or (store := item.store) is None:
        return ""
    gap_h = _next_use(view, plan, item) / timedelta(hours=1)
    if gap_h <= store.for_.value:
        return ""
    keeps, until = (lasting(view.style, hours) for hours in (store.for_.value, gap_h))
    return tr("keeps {keeps}; no service uses it for {until}", keeps=keeps, until=until)


def _next_use(view: View, plan: ServicePlan, item: PantryItem) -> timedelta:
    """Time to the next service that takes the item; the same one comes round in a week."""
    served = (
        other.at
        for name, other in view.costed.services.items()
        if item.id in view.costed.orders[name].items
    )
    gaps = ((elapsed(at) - elapsed(plan.at)) % WEEK for at in served)
    return min((gap for gap in gaps if gap), default=WEEK)


def _made_table(view: View, service: Service) -> Table | None:
    made = view.costed.orders[service.id].made
    if not made:
        return None
    rows: dict[str, FigureRow[PreparationFigure]] = {
        name: FigureRow(view, "preparation", number) for name, number in made.items()
    }
    stock = any(row.number("on_hand") > 0 for row in rows.values())
    figures: dict[PreparationFigure, str] = (
        {"amount_wanted": tr("Needed"), "on_hand": tr("At hand"), "amount_made": tr("To make")}
        if stock
        else {"amount_made": tr("Needed")}
    )
    columns = (
        Column("item", tr("Sub-recipe")),
        *(Column(slug(name), label, numeric=True) for name, label in figures.items()),
    )
    body = tuple(
        Row((record_cell(view.costed.content.pantry[name]), *row.cells(*figures)))
        for name, row in rows.items()
    )
    return Table("order-made", tr("Sub-recipes that it takes"), columns, body)


def supplier_of(view: View, item: Item) -> str:
    """Who sells an item; empty where nobody says, or the reader may not see it."""
    current = view.costed.prices.get(item.id) if view.grants("suppliers") else None
    return current.supplier if current else ""


def supplier_cell(view: View, item: Item) -> Cell:
    """Who sells an item, in a list of items."""
    return Cell((supplier_of(view, item) or "–") if view.grants("suppliers") else WITHHELD)


def sold_of(view: View, item: Item) -> SoldAs | None:
    """How an item is sold today; None where nobody says."""
    current = view.costed.prices.get(item.id)
    return current.sold_as if current else None


def sold_words(view: View, sold: SoldAs | None) -> str:
    """How an item is sold, in a few words; empty where nobody says."""
    if sold is None:
        return ""
    one = one_words(view, sold)
    in_steps = sold.steps and not sold.singly
    parts = [tr("steps of {one}", one=one) if in_steps else one] if one else []
    if sold.minimum:
        packs = view.style.count(sold.minimum.value) if sold.minimum.dimension is None else ""
        least = packs or measured(view.style, sold.minimum)
        parts.append(tr("at least {least}", least=least))
    return ", ".join(parts)


def one_words(view: View, sold: SoldAs) -> str:
    """What an order has a whole number of: a pack, a piece or a step; empty where of nothing."""
    if isinstance(sold.pack, PackSize):
        return tr("{word} of {size}", word=pack_words(sold.pack.word), size=_size(view, sold.pack))
    if sold.piece:
        return tr("piece of about {measured}", measured=measured(view.style, sold.piece))
    if sold.singly:
        return tr("by the piece")
    return _size(view, sold.steps) if sold.steps else ""


def _size(view: View, size: Measure) -> str:
    if size.dimension is Dimension.COUNT:
        return view.style.numerals(size.value, 2, trim=True)
    return measured(view.style, size)


def sold_facts(view: View, item: Item) -> Iterator[Term]:
    """How an item is sold, and the deposit on it."""
    sold = sold_of(view, item)
    if sold and (words := sold_words(view, sold)):
        yield Term(tr("Sold as"), capital(words))
    if sold and sold.deposit:
        word = pack_words(sold.pack.word if isinstance(sold.pack, PackSize) else "pack")
        yield Term(
            tr("Deposit"),
            tr(
                "{deposit} a {word}, comes back",
                deposit=view.style.money(sold.deposit.value),
                word=word,
            ),
        )


def item_orders_part(view: View, item: Item) -> Part | None:
    """What each service of the week orders of an item; None where none does."""
    columns = (
        Column("service", tr("Service")),
        Column("needed", tr("Needed"), numeric=True),
        Column("order", tr("Packs"), numeric=True),
        Column("amount", tr("To order"), numeric=True),
        Column("left", tr("Left over"), numeric=True),
    )
    body = tuple(
        Row(
            (
                Cell(plan.service.title, href=f"~/{page_of(plan.service)}#order"),
                line.cell("amount_needed"),
                _packs(line),
                line.cell("amount_ordered"),
                _left(view, plan, item, line),
            )
        )
        for plan in view.costed.services.values()
        if (line := _line_of(view, plan.service, item)) is not None
    )
    table = Table("ordered", tr("Orders of the week's services"), columns, body)
    return part("orders", tr("What services order"), table) if body else None
