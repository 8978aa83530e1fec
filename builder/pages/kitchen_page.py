"""The kitchen's own page, and the page of its prices: what every other page leans on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.display.words import listed
from builder.language import Deferred, clauses, ntr, tr
from builder.pages.components import (
    Cell,
    Column,
    Figures,
    FigureTile,
    Link,
    Page,
    Part,
    Row,
    SourceListing,
    Table,
)
from builder.pages.cover_part import cover_part
from builder.pages.figure_names import KitchenFigure
from builder.pages.listings import listing
from builder.pages.parts import (
    gear_name,
    links,
    part,
    present,
    record_cell,
    written_cell,
)
from builder.pages.remarks import remarks
from builder.pages.view import View
from builder.pages.ways import gear_words
from builder.reading.names import slug
from builder.records.kinds import Cut, Equipment, PantryItem
from builder.records.pricing import CurrentPrice

KITCHEN = "kitchen.html"
PRICES = "prices.html"
_TERMS: tuple[tuple[KitchenFigure, str], ...] = (
    ("loaded_wage", Deferred("An hour of work")),
    ("tax_rate", Deferred("Sales tax")),
    ("food_cost_target", Deferred("Food cost aimed at")),
    ("margin_target", Deferred("Margin aimed at")),
)
_ALLOWANCES: tuple[tuple[KitchenFigure, str], ...] = (
    ("seasoning_share", Deferred("Seasoning allowance")),
    ("kitchen_garnish_share", Deferred("Garnish that is not listed")),
    ("kitchen_garnish", Deferred("Garnish that is not listed")),
    ("cover_cost", Deferred("A cover: bread, condiments")),
    ("weeks_open", Deferred("Weeks open a year")),
)


def kitchen_page(view: View) -> Page:
    """Wage, tariffs, tax, targets and equipment, with the file that states them."""
    kitchen = view.costed.content.kitchen
    allowances = tuple(_tiles(view, _ALLOWANCES))
    return Page(
        path=KITCHEN,
        title=str(kitchen.name),
        lead=_lead(view),
        also=_aim(view),
        kind=tr("Kitchen"),
        nav=f"~/{KITCHEN}",
        sections=present(
            view.notices(kitchen.path),
            Figures(tuple(_tiles(view, _TERMS))),
            part(
                "tariffs",
                tr("Tariffs and allowances"),
                _tariffs(view),
                Figures(allowances, tr("Allowances and weeks")) if allowances else None,
            ),
            cover_part(view),
            part(
                "equipment",
                tr("Equipment"),
                _equipment(view),
                links(
                    tr("Further"),
                    [Link(tr("Equipment"), "~/equipment.html", tr("its week: who books it"))],
                ),
            ),
            *remarks(view, kitchen),
            listing(view, kitchen),
        ),
    )


def _lead(view: View) -> str:
    """The kitchen's terms in a sentence."""
    wage, tax = view.kitchen.texts("loaded_wage", "tax_rate")
    work = (
        tr("Work costs {wage} with all dues", wage=wage)
        if _stated(view, "loaded_wage")
        else tr("No wage is stated")
    )
    taxed = (
        tr("menu prices carry no sales tax")
        if not _stated(view, "tax_rate")
        else tr("menu prices include {tax} sales tax", tax=tax)
        if view.kitchen.number("tax_included")
        else tr("menu prices come before {tax} sales tax", tax=tax)
    )
    return f"{clauses([work, taxed])}."


def _aim(view: View) -> tuple[str, ...]:
    """What the kitchen aims at, where it says so."""
    aimed: tuple[tuple[KitchenFigure, str], ...] = (
        ("food_cost_target", Deferred("a food cost of {text}")),
        ("margin_target", Deferred("a margin of {text}")),
    )
    known = ((name, words) for name, words in aimed if view.kitchen.known(name))
    aims = [tr(words, text=view.kitchen.text(name)) for name, words in known]
    return (tr("The aim is {aims} a plate.", aims=listed(aims)),) if aims else ()


def _stated(view: View, figure: KitchenFigure) -> bool:
    return view.kitchen.number(figure) > 0


def _tiles(view: View, figures: Sequence[tuple[KitchenFigure, str]]) -> Iterator[FigureTile]:
    """The kitchen's own figures that it has written down."""
    kitchen, hidden = view.costed.content.kitchen, set[str]()
    if kitchen.cover_cost is None:
        hidden.add("cover_cost")
    if kitchen.garnish is None or kitchen.garnish.dimension is None:
        hidden.add("kitchen_garnish_share")
    if kitchen.garnish is None or kitchen.garnish.dimension is not None:
        hidden.add("kitchen_garnish")
    for figure, label in figures:
        if view.kitchen.known(figure) and figure not in hidden:
            yield view.kitchen.tile(figure, label=label)


def _tariffs(view: View) -> Table:
    columns = (Column("energy", tr("Energy")), Column("tariff", tr("Tariff"), numeric=True))
    tariffs: tuple[tuple[str, KitchenFigure], ...] = (
        (tr("Electricity"), "electricity_price"),
        (tr("Gas"), "gas_price"),
    )
    rows = tuple(
        Row((Cell(name), view.kitchen.cell(figure)))
        for name, figure in tariffs
        if view.kitchen.known(figure)
    )
    return Table("tariffs-table", tr("What a kilowatt-hour costs"), columns, rows)


def _equipment(view: View) -> Table:
    columns = (
        Column("name", tr("Equipment")),
        # Money is next to the name: what a phone can't show is further on.
        Column("price", tr("Price"), numeric=True),
        Column("charge", tr("Charge"), numeric=True, about=tr("what an hour of use costs")),
        Column("life", tr("Hours of use"), numeric=True, about=tr("that it is expected to last")),
        Column("kind", tr("Kind")),
        Column("holds", tr("Holds"), numeric=True, about=tr("raw weight that goes in at once")),
        Column("volume", tr("Water"), numeric=True),
        Column(
            "standby", tr("Standby"), numeric=True, about=tr("mean draw at temperature, measured")
        ),
        Column(
            "cooks",
            tr("Cooks"),
            numeric=True,
            about=tr("cooks done in it, chilling not counted"),
        ),
    )
    gear = view.costed.content.kitchen.equipment
    rows = tuple(_gear_row(view, str(name), item) for name, item in gear.items())
    return Table("equipment-table", tr("Equipment"), columns, rows, sortable=len(rows) > 1)


def _gear_row(view: View, name: str, gear: Equipment) -> Row:
    row, style = view.equipment(name), view.style
    cooks = len(view.uses.cooks_on_equipment.get(name, ()))
    return Row(
        (
            Cell(
                gear_name(view, name),
                href=f"~/equipment.html#{slug(name)}" if cooks else "~/equipment.html",
            ),
            row.cell("purchase_price"),
            row.cell("charge_per_hour"),
            row.cell("service_life"),
            Cell(
                gear_words(str(gear.kind)),
                note=tr("{how_many} alike", how_many=gear.how_many.text) if gear.how_many else "",
            ),
            written_cell(view, gear.holds, style.weight(gear.holds.value) if gear.holds else ""),
            written_cell(view, gear.volume, style.volume(gear.volume.value) if gear.volume else ""),
            row.cell("standby_power"),
            Cell(str(cooks), cooks),
        )
    )


# Prices


def prices_page(view: View) -> Page:
    """The price that counts for every cut and bought item, and the lists it is in."""
    priced = list(_priced(view))
    lists = _lists(view)
    day = view.style.date(view.costed.content.as_of)
    files = tr("{lists} price lists", lists=len(lists)) if len(lists) > 1 else tr("the price list")
    own = tr("the one in the item's own file")
    newest = tr(
        "Each price is the newest in {files} on or before that day, else {own}.",
        files=files,
        own=own,
    )
    return Page(
        path=PRICES,
        title=tr("Prices"),
        lead=tr(
            "What {items} bought cost as of {day}.",
            items=ntr("{count} item", "{count} items", len(priced)),
            day=day,
        ),
        also=(newest if lists else tr("Each price is {own}, as there is no price list.", own=own),),
        nav=f"~/{PRICES}",
        sections=present(view.notices("prices"), _prices_table(view, priced), *lists),
    )


def _priced(view: View) -> Iterator[tuple[Cut | PantryItem, CurrentPrice]]:
    content = view.costed.content
    bought = (item for item in content.pantry.values() if not item.of)
    records: list[Cut | PantryItem] = [*content.cuts.values(), *bought]
    for record in records:
        if price := view.costed.prices.get(record.id):
            yield record, price


def _prices_table(view: View, priced: list[tuple[Cut | PantryItem, CurrentPrice]]) -> Table:
    columns = (
        Column("item", tr("Item")),
        Column("kind", tr("Kind")),
        Column("price", tr("Price"), numeric=True),
        Column(
            "written",
            tr("As written"),
            about=tr("the price and its pack as the list or file has it"),
        ),
        Column("supplier", tr("Supplier")),
        Column("since", tr("Since")),
    )
    rows = tuple(_price_row(view, record, price) for record, price in priced)
    return Table("prices", tr("Current prices"), columns, rows, sortable=True, filterable=True)


def _price_row(view: View, record: Cut | PantryItem, current: CurrentPrice) -> Row:
    place = current.price.place
    return Row(
        (
            record_cell(record),
            Cell(tr("cut") if isinstance(record, Cut) else tr("pantry")),
            _price_cell(view, record),
            Cell(current.price.text, href=view.where.line_href(place.file, place.line)),
            Cell(current.supplier or "–"),
            Cell(
                view.style.date(current.since),
                current.since.isoformat() if current.since else "",
            ),
        )
    )


def _price_cell(view: View, record: Cut | PantryItem) -> Cell:
    if isinstance(record, Cut):
        return view.cut(record).cell("ap_price")
    return view.item(record).cell("purchase_price")


def _lists(view: View) -> tuple[Part, ...]:
    """Every price list as it was written; the lines that count carry a mark."""
    content = view.costed.content
    counting = {price.price.place for price in view.costed.prices.values()}
    found = []
    for name, file in sorted(content.files.items()):
        if file.folder != "prices":
            continue
        lines = tuple(file.data.decode("utf-8-sig", "replace").splitlines())
        used = frozenset(place.line for place in counting if place.file == name)
        source = SourceListing(name, lines, used, f"{slug(name)}-")
        found.append(Part(slug(name), f"{file.id}{file.suffix}", (source,)))
    return tuple(found)
