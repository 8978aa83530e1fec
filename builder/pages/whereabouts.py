"""The ways from a figure to its method, and from a file's line to the page that lists it."""

from __future__ import annotations

from builder.costing.costed import Costed
from builder.engine.model import Node
from builder.reading.names import slug
from builder.records.links import Links, owners
from builder.records.notes import mentions

# An export of a till with more lines is not listed: the page would be megabytes of them.
MOST_LINES = 2_000

RowKey = tuple[str, int]


class Whereabouts:
    """Which page is a record's, what it is called, and which lists a file."""

    def __init__(self, costed: Costed, *, lists: bool = True, elsewhere: str = "") -> None:
        self.lists = lists
        self.links = Links.of(costed.content, elsewhere)
        self.mentions = mentions(self.links)
        self._titles = {
            f"{each.path}.html": getattr(each, "title", "") for each in owners(costed.content)
        }
        self._pages = {
            record.file: f"{record.path}.html" for record in costed.content.records()
        } | {costed.content.kitchen.file: "kitchen.html"}
        self._pages |= {
            name: "sales.html"
            for name, file in costed.content.files.items()
            if costed.content.till
            and file.folder == "sales"
            and file.data.count(b"\n") <= MOST_LINES
        }
        self._pages |= {
            f"tastings/{tasting}.csv": f"tastings/{tasting}.html" for tasting in costed.tastings
        }

    def title(self, page: str) -> str:
        """The title of a record's page; empty for pages that are no record's."""
        return self._titles.get(page, "")

    def line_href(self, file: str, line: int) -> str:
        """The way to a line of a content file, or with line 0 to the file, where it is listed."""
        page, prefix = self.listed(file)
        if not page:
            return ""
        anchor = f"{prefix}L{line}" if line else f"{prefix}file"
        return f"~/{page}#{anchor}"

    def listed(self, file: str) -> tuple[str, str]:
        """The page that lists a content file, and what its lines' anchors begin with."""
        if not self.lists:
            return "", ""
        page = self._pages.get(file, "prices.html" if file.startswith("prices/") else "")
        return page, f"{slug(file)}-" if file.endswith(".csv") else ""


def reference(node: Node, row: int) -> str:
    """The reference that is printed for a figure of a row where a page leads to it.

    >>> reference(("plate", "food_cost"), 3)
    '=plate.food_cost.3'
    """
    return f"{reference_to(node)}{row}"


def reference_to(node: Node) -> str:
    """What the references to all rows of a figure begin with."""
    return f"={node[0]}.{node[1]}."


def method_path(node: Node) -> str:
    """The page of a figure's formula."""
    return f"methods/{node[0]}-{node[1].replace('_', '-')}.html"
