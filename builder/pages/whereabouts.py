"""Which page a row's figures stand on, and what the row is called there.

Every row of every table has one home page. Its figures have stable anchors made
of names, not of row numbers, so that adding a record moves no address.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.costing.costed import Costed
from builder.costing.fill import Rows
from builder.engine.model import Node
from builder.reading.names import slug

RowKey = tuple[str, int]


@dataclass(frozen=True, slots=True)
class Home:
    """A row's home: its page, the key in its anchors, and the words that tell it apart."""

    page: str
    key: str
    label: str


class Whereabouts:
    """The home of every row, and the way to any figure, method or line."""

    def __init__(self, costed: Costed) -> None:
        self._homes: dict[RowKey, Home] = dict(_homes(costed))
        self._titles = {
            f"{record.path}.html": getattr(record, "title", "")
            for record in costed.content.records()
        }
        self._pages = {
            record.file: f"{record.path}.html" for record in costed.content.records()
        } | {costed.content.kitchen.file: "kitchen.html"}
        self._pages |= {
            f"tastings/{tasting}.csv": f"tastings/{tasting}.html" for tasting in costed.tastings
        }

    def title(self, page: str) -> str:
        """The title of a record's page; empty for pages that are no record's."""
        return self._titles.get(page, "")

    def home(self, table: str, row: int) -> Home:
        """The home of a row; KeyError where a row belongs to no page."""
        return self._homes[table, row]

    def line_href(self, file: str, line: int) -> str:
        """The way to a line of a content file, or with line 0 to the file, where it is listed."""
        page, prefix = self.listed(file)
        if not page:
            return ""
        anchor = f"{prefix}L{line}" if line else f"{prefix}file"
        return f"~/{page}#{anchor}"

    def listed(self, file: str) -> tuple[str, str]:
        """The page that lists a content file, and what its lines' anchors begin with."""
        page = self._pages.get(file, "prices.html" if file.startswith("prices/") else "")
        return page, f"{slug(file)}-" if file.endswith(".csv") else ""


def reference(node: Node, row: int) -> str:
    """What stands for a figure of a row where a page leads to it.

    >>> reference(("plate", "food_cost"), 3)
    '=plate.food_cost.3'
    """
    return f"={node[0]}.{node[1]}.{row}"


def method_path(node: Node) -> str:
    """The page of a figure's formula."""
    return f"methods/{node[0]}-{node[1].replace('_', '-')}.html"


def _homes(costed: Costed) -> Iterator[tuple[RowKey, Home]]:
    rows = costed.rows
    yield ("kitchen", 0), Home("kitchen.html", "", "")
    for name, row in rows.equipment.items():
        yield ("equipment", row), Home("kitchen.html", name, name)
    for name, row in rows.sections.items():
        yield ("section", row), Home("menu.html", slug(name), name)
    for name, row in rows.cuts.items():
        yield ("cut", row), Home(f"cuts/{name}.html", "", "")
    yield from _stage_homes(rows)
    yield from _cook_homes(rows)
    yield from _pantry_homes(rows)
    yield from _plate_homes(rows)
    for (swap, challenger), row in rows.swaps.items():
        yield ("swap", row), Home(f"swaps/{swap}.html", challenger, challenger)


def _stage_homes(rows: Rows) -> Iterator[tuple[RowKey, Home]]:
    for (path, name), stage in rows.stages.items():
        page, key = f"{path}.html", slug(name)
        yield ("stage", stage), Home(page, key, name)
        for part, row in rows.byproducts[stage].items():
            yield ("byproduct", row), Home(page, f"{key}.{slug(part)}", f"{name}, {part}")
        for number, test in enumerate(rows.tests[stage], start=1):
            label = f"{name}, test {number}"
            yield ("test", test), Home(page, f"{key}.{number}", label)
            for part, row in rows.parts[test].items():
                yield ("part", row), Home(page, f"{key}.{number}.{slug(part)}", f"{label}, {part}")


def _cook_homes(rows: Rows) -> Iterator[tuple[RowKey, Home]]:
    for cook, batch in rows.cooks.items():
        page = f"cooks/{cook}.html"
        yield ("batch", batch), Home(page, "", "")
        for name, row in rows.consumables[cook].items():
            yield ("consumable", row), Home(page, f"uses.{slug(name)}", name)
        for link, row in rows.steps[cook]:
            yield ("step", row), Home(page, f"step.{slug(link.name)}", link.name)


def _pantry_homes(rows: Rows) -> Iterator[tuple[RowKey, Home]]:
    for item, row in rows.pantry.items():
        page = f"pantry/{item}.html"
        yield ("pantry", row), Home(page, "", "")
        for name, line in rows.lines[item].items():
            yield ("ingredient", line), Home(page, f"of.{name}", name)


def _plate_homes(rows: Rows) -> Iterator[tuple[RowKey, Home]]:
    for plate, row in rows.plates.items():
        page = f"plates/{plate}.html"
        yield ("plate", row), Home(page, "", "")
        for name, side in rows.sides[plate].items():
            yield ("accompaniment", side), Home(page, f"with.{name}", name)
        for order in rows.orders.get(plate, []):
            number = rows.orders[plate].index(order) + 1
            yield ("order", order), Home(page, f"order.{number}", f"order {number}")
