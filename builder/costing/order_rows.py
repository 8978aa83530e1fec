"""Rows of what the services order: a line for each cut and bought item, with what takes of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from builder.costing.entries import entry
from builder.costing.filled_rows import Rows
from builder.costing.service_rows import serving_row
from builder.costing.service_steps import by_cook
from builder.engine.book import Book, Entry, Identity
from builder.language import tr
from builder.money.ordering import ORDER_LINE, ORDER_NEED, PREPARATION, SERVICE_ORDER
from builder.money.service import SERVING
from builder.problems import Problem, Severity
from builder.reading.tree import Text
from builder.records.content import Content
from builder.records.covered import cover_items, menu_cover_items
from builder.records.fields import Measure
from builder.records.guests import own_covers
from builder.records.kinds import Cut, PantryItem, Plate
from builder.records.menus import SetMenu
from builder.records.services import Service, Serving
from builder.records.sold_in import in_its_unit
from builder.records.stock import item_of

_NO_VALUES: Mapping[str, Entry | None] = MappingProxyType({})


@dataclass(slots=True)
class OrderRows:
    """Rows of one service's order: its own, and those of its lines by the ids of what they are of.

    `made` are the sub-recipes that its plates take.
    """

    row: int
    cuts: dict[str, int] = field(default_factory=dict)
    items: dict[str, int] = field(default_factory=dict)
    made: dict[str, int] = field(default_factory=dict)


def add_orders(book: Book, content: Content, rows: Rows) -> dict[str, OrderRows]:
    """Add the order of every service, by its id."""
    return {
        service.id: _Order(book, content, rows, service).fill()
        for service in content.services.values()
    }


class _Order:
    """One filling of one service's order."""

    def __init__(self, book: Book, content: Content, rows: Rows, service: Service) -> None:
        self.book, self.content, self.kitchen, self.service = book, content, rows, service
        self.needs = 0
        who = Identity(service.path, "order", tr("order for {service}", service=service.title))
        self.rows = OrderRows(book.add(SERVICE_ORDER, {"kitchen": 0}, who=who))

    def fill(self) -> OrderRows:
        """Add what goes into its cooks, then what each of its plates takes."""
        for cooked in by_cook(self.content, self.service):
            loading = self.kitchen.services.loadings[self.service.id, cooked.key]
            self._need(self._cut(str(cooked.cook.cut)), {"loading": loading}, cooked.cook.title)
        for plate, served in self.service.plates.items():
            self._plate(self.content.plates[plate], served)
        for menu, guests in self.service.menus.items():
            self._cover_of_guests(self.content.menus[menu], guests)
        for extra, amount in self.service.besides.items():
            self._besides(str(extra), amount)
        done: set[str] = set()
        while left := [name for name in self.rows.made if name not in done]:
            for name in left:
                self._ingredients(name)
            done.update(left)
        return self.rows

    def _plate(self, plate: Plate, served: Serving) -> None:
        serving = {"serving": self._serving(plate, served)}
        for portion, table, row in self.kitchen.portions(plate):
            if portion.cut is not None:
                self._need(self._cut(str(portion.cut)), serving | {table: row}, plate.title)
        for name, side in self.kitchen.sides[plate.id].items():
            self._need(self._item(name), serving | {"side": side}, plate.title)
        if own := own_covers(served.covers):
            self._cover(cover_items(self.content, plate), f"plates.{plate.id}", own, plate.title)

    def _cover_of_guests(self, menu: SetMenu, guests: Measure) -> None:
        """The cover comes once a guest, however many plates of the menu bear one."""
        items = menu_cover_items(self.content, menu)
        self._cover(items, f"menus.{menu.id}", guests, menu.title)

    def _cover(self, items: Iterable[Text], key: str, covers: Measure, title: str) -> None:
        """What comes with so many covers."""
        named = [str(name) for name in items]
        if not named:
            return
        who = Identity(self.service.path, f"{key}.cover", tr("{title}, its cover", title=title))
        serving = self.book.add(SERVING, {}, {"own_covers": entry(covers)}, who)
        for name in named:
            links = {"serving": serving, "cover_item": self.kitchen.cover[name]}
            self._need(self._item(name), links, tr("{title}, its cover", title=title))

    def _serving(self, plate: Plate, served: Serving) -> int:
        """The row that counts its covers; of a plate without a cook one of its own."""
        known = self.kitchen.services.servings.get((self.service.id, plate.id))
        if known is not None:
            return known
        key, services = f"plates.{plate.id}", self.kitchen.services
        return serving_row(self.book, services, self.service, plate, served, {}, key)

    def _besides(self, name: str, amount: Measure) -> None:
        """What is ordered besides what plates take."""
        item = item_of(self.content, name)
        if item is not None:
            of = self._cut(name) if isinstance(item, Cut) else self._item(name)
            values = {"amount_besides": entry(amount, in_its_unit(item, amount))}
            self._need(of, {}, tr("{item}, besides", item=item.title), values)

    def _at_hand(self, item: Cut | PantryItem) -> dict[str, Entry | None]:
        """The stock of an item, in its unit."""
        found = (each for name, each in self.service.on_hand.items() if name == item.id)
        amount = next(found, None)
        return {"on_hand": entry(amount, in_its_unit(item, amount))} if amount else {}

    def _ingredients(self, name: str) -> None:
        item, within = self.content.pantry[name], {"within": self.rows.made[name]}
        for ingredient, row in self.kitchen.lines[name].items():
            self._need(self._item(ingredient), within | {"ingredient": row}, item.title)

    def _cut(self, name: str) -> dict[str, int]:
        """The link to the line of a cut."""
        if name not in self.rows.cuts:
            links = {"order": self.rows.row, "cut": self.kitchen.cuts[name]}
            cut = self.content.cuts[name]
            who, values = self._who("order.cuts", cut), self._at_hand(cut)
            self.rows.cuts[name] = self.book.add(ORDER_LINE, links, values, who)
        return {"line": self.rows.cuts[name]}

    def _item(self, name: str) -> dict[str, int]:
        """The link to the line of a bought item, or to what is made of a sub-recipe."""
        item, row = self.content.pantry[name], self.kitchen.pantry[name]
        if item.of:
            if name not in self.rows.made:
                who, values = self._who("made", item), self._at_hand(item)
                self.rows.made[name] = self.book.add(PREPARATION, {"item": row}, values, who)
            return {"preparation": self.rows.made[name]}
        if name not in self.rows.items:
            links = {"order": self.rows.row, "item": row}
            who, values = self._who("order.items", item), self._at_hand(item)
            self.rows.items[name] = self.book.add(ORDER_LINE, links, values, who)
        return {"line": self.rows.items[name]}

    def _who(self, key: str, record: Cut | PantryItem) -> Identity:
        return Identity(self.service.path, f"{key}.{record.id}", record.title)

    def _need(
        self,
        of: Mapping[str, int],
        links: Mapping[str, int],
        title: str,
        values: Mapping[str, Entry | None] = _NO_VALUES,
    ) -> None:
        self.needs += 1
        who = Identity(self.service.path, f"need.{self.needs}", title)
        self.book.add(ORDER_NEED, {**of, **links}, values, who)


def check_on_hand(content: Content, orders: Mapping[str, OrderRows]) -> Iterator[Problem]:
    """Stock of what the service does not take: nothing is taken off for it."""
    for service in content.services.values():
        rows = orders[service.id]
        for name, amount in service.on_hand.items():
            if name not in {**rows.cuts, **rows.items, **rows.made}:
                yield Problem(
                    amount.place,
                    tr(
                        "no plate of this service takes {name}, so nothing is taken off for it",
                        name=name,
                    ),
                    tr("take it out, or add the plate that takes it"),
                    Severity.WARNING,
                    service.path,
                    needs=("services", "weights"),
                )
