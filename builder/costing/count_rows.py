"""Rows of the counts: their cuts, cooks and plates, and every weight that was thrown away."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from builder.costing.entries import entry, noted
from builder.costing.filled_rows import Rows
from builder.costing.portion_rows import Further
from builder.engine.book import Book, Entry, Identity
from builder.engine.tables import Table
from builder.language import tr
from builder.money.counted import COUNT, OUTPUT, SALE, USAGE, WASTE
from builder.money.further_sales import FURTHER_SALE
from builder.money.guest_sales import GUEST_SALE, MENU_SALE
from builder.reading.names import slug
from builder.reading.tree import Text
from builder.records.amounts import price_per_kg
from builder.records.content import Content
from builder.records.counts import Count, CountedCook, CountedCut, CountedPlate
from builder.records.fields import Measure
from builder.records.guests import own_covers
from builder.records.portions import cut_of, source_of
from builder.records.pricing import CurrentPrice, current_prices


@dataclass(slots=True)
class CountRows:
    """Rows of one count: its own, and those of its cuts, cooks and plates by their ids."""

    row: int
    usages: dict[str, int] = field(default_factory=dict)
    outputs: dict[str, int] = field(default_factory=dict)
    sales: dict[str, int] = field(default_factory=dict)
    wastes: dict[tuple[str, str], int] = field(default_factory=dict)
    menus: dict[str, int] = field(default_factory=dict)


def add_counts(book: Book, content: Content, rows: Rows) -> dict[str, CountRows]:
    """Add the rows of every count, by its id."""
    prices: dict[date, Mapping[str, CurrentPrice]] = {}
    found: dict[str, CountRows] = {}
    for count in content.counts.values():
        end = count.end.day if count.end else content.as_of
        if end not in prices:
            prices[end] = current_prices(replace(content, as_of=end))
        found[count.id] = _CountFiller(book, content, rows, count, prices[end]).fill()
    return found


class _CountFiller:
    """One filling of the rows of one count."""

    def __init__(
        self,
        book: Book,
        content: Content,
        rows: Rows,
        count: Count,
        prices: Mapping[str, CurrentPrice],
    ) -> None:
        self.book, self.content, self.kitchen_rows, self.count = book, content, rows, count
        self.prices = prices
        self.rows = CountRows(book.add(COUNT, who=Identity(count.path)))

    def fill(self) -> CountRows:
        """Add a row for each cut and cook that was counted, or that a plate sold is made of."""
        for name, cut in self.count.cuts.items():
            self._usage(str(name), cut)
        for name, cook in self.count.cooks.items():
            self._output(str(name), cook)
        for name, plate in self.count.plates.items():
            self._sale(str(name), plate)
        for name, guests in self.count.menus.items():
            self._guests(str(name), guests)
        return self.rows

    def _usage(self, name: str, counted: CountedCut | None = None) -> int:
        if name in self.rows.usages:
            return self.rows.usages[name]
        cut = self.content.cuts[name]
        current = self.prices.get(name)
        written = counted or CountedCut.model_construct()
        values = {
            "stated_used": entry(written.used),
            "opening": entry(written.opening),
            "bought": entry(written.bought),
            "closing": entry(written.closing),
            "paid": entry(written.paid),
            "listed_price": entry(current.price, price_per_kg(cut, current.price))
            if current
            else None,
        }
        links = {"count": self.rows.row, "cut": self.kitchen_rows.cuts[name]}
        row = self.rows.usages[name] = self._add(USAGE, links, values, "cuts", name, cut.title)
        self._wastes("cuts", name, cut.title, written.thrown, {"usage": row})
        return row

    def _output(self, name: str, counted: CountedCook | None = None) -> int:
        if name in self.rows.outputs:
            return self.rows.outputs[name]
        cook = self.content.cooks[name]
        written = counted or CountedCook.model_construct()
        values = {
            "raw_used": entry(written.used),
            "made": entry(written.made),
            "cooked_opening": entry(written.opening),
            "left": entry(written.left),
        }
        links = {"usage": self._usage(str(cook.cut)), "batch": self.kitchen_rows.cooks[name]}
        row = self.rows.outputs[name] = self._add(OUTPUT, links, values, "cooks", name, cook.title)
        self._wastes("cooks", name, cook.title, written.thrown, {"output": row})
        return row

    def _sale(self, name: str, counted: CountedPlate) -> None:
        plate = self.content.plates[name]
        output = self._output(str(plate.cook)) if plate.cook else -1
        usage = self._usage(cut_of(self.content, plate.served[0]).id) if plate.served else -1
        weighed, mean = counted.weighed_portions, counted.mean_portion
        reason = tr("mean of {weighed} weighed portions", weighed=len(weighed))
        values = {
            "sold_alone": entry(own_covers(counted.sold)),
            "weighed_portion": noted(mean, weighed[0].place, reason) if mean else None,
        }
        links = {
            "count": self.rows.row,
            "plate": self.kitchen_rows.plates[name],
            "output": output,
            "usage": usage,
        }
        row = self.rows.sales[name] = self._add(SALE, links, values, "plates", name, plate.title)
        for number, further in enumerate(self.kitchen_rows.further[name], start=2):
            self._further(f"{name}.portion.{number}", row, further)

    def _further(self, key: str, sale: int, further: Further) -> None:
        """A further portion of a plate that was sold."""
        own = further.portion
        links = {
            "sale": sale,
            "portion": further.row,
            "output": self._output(str(own.cook)) if own.cook else -1,
            "usage": self._usage(cut_of(self.content, own).id),
        }
        title = source_of(self.content, own).title
        self._add(FURTHER_SALE, links, {}, "plates", key, title)

    def _guests(self, name: str, guests: Measure) -> None:
        """The guests of a set menu, and the plates of it that are in the count."""
        menu, rows = self.content.menus[name], self.kitchen_rows.menus[name]
        links = {"count": self.rows.row, "menu": rows.row}
        values = {"guests_served": entry(guests)}
        paid = self.rows.menus[name] = self._add(
            MENU_SALE, links, values, "menus", name, menu.title
        )
        for number, ((_, plate), choice) in enumerate(rows.choices.items(), start=1):
            taken = {"menu_sale": paid, "sale": self.rows.sales[plate], "choice": choice}
            title = self.content.plates[plate].title
            self._add(GUEST_SALE, taken, {}, "menus", f"{name}.{number}", title)

    def _wastes(
        self,
        kind: str,
        name: str,
        title: str,
        thrown: Mapping[Text, Measure],
        links: Mapping[str, int],
    ) -> None:
        for reason, weight in thrown.items():
            who = f"{title}, {reason}"
            values = {"thrown_weight": entry(weight)}
            self.rows.wastes[f"{kind}/{name}", str(reason)] = self._add(
                WASTE, links, values, kind, f"{name}.{slug(str(reason))}", who
            )

    def _add(
        self,
        table: Table,
        links: Mapping[str, int],
        values: Mapping[str, Entry | None],
        kind: str,
        name: str,
        title: str,
    ) -> int:
        who = Identity(self.count.path, f"{kind}.{name}", title)
        return self.book.add(table, links, values, who)
