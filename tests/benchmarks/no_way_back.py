"""Numbers of the demo's pages that lead nowhere, by kind of page, table and column.

    python -m tests.benchmarks.no_way_back 40

lists the 40 largest groups of cells with a number and no link, and of tiles without one. Method
pages and printed forms are left out. A column that is not numeric counts where a whole cell is
a number with its unit.
"""

from __future__ import annotations

import re
import sys
from collections import Counter
from collections.abc import Iterable, Iterator

from builder.pages.components import Chart, Figures, Page, Part, Section, Table
from builder.pages.site import site_pages
from tests.pages_data.opened import demo_view

Group = tuple[str, str, str]
"""Kind of page, caption of a table or label of its tiles, and column or tile."""

_LEFT_OUT = ("methods/", "forms/")
_DIGIT = re.compile(r"\d")
_NUMBER = re.compile(r"[−+±]?[^\w\s]?\d[\d.,]*(\s?(%|°[CF]|[^\W\d]{1,5}))?")


def without_a_way(pages: Iterable[Page], names: Iterable[str]) -> Counter[Group]:
    """How many numbers of each group lead nowhere; names of records become an ellipsis."""
    whose = sorted(names, key=len, reverse=True)
    named = re.compile("|".join(re.escape(name) for name in whose) or r"(?!)")
    return Counter(
        (page.path.rpartition("/")[0] or page.path, named.sub("…", label), named.sub("…", column))
        for page in pages
        if not page.path.startswith(_LEFT_OUT)
        for label, column in _of_sections(page.sections)
    )


def _of_sections(sections: Iterable[Section]) -> Iterator[tuple[str, str]]:
    for section in sections:
        match section:
            case Part():
                yield from _of_sections(section.sections)
            case Chart(table=Table() as table) | (Table() as table):
                yield from _of_table(table)
            case Figures():
                for tile in section.tiles:
                    if not tile.trace_href and _DIGIT.search(str(tile.value)):
                        yield f"tiles: {section.label}", str(tile.label)


def _of_table(table: Table) -> Iterator[tuple[str, str]]:
    for row in (*table.rows, *table.foot):
        for column, cell in zip(table.columns, row.cells, strict=False):
            text = str(cell.text)
            number = _DIGIT.search(text) if column.numeric else _NUMBER.fullmatch(text)
            if number and not cell.href and "href=" not in str(column.label):
                yield str(table.caption), str(column.label)


def main() -> None:
    """Print the largest groups."""
    view = demo_view()
    names = {str(getattr(record, "title", "")) for record in view.costed.content.records()}
    found = without_a_way(site_pages(view), names - {""})
    print(f"{found.total()} numbers in {len(found)} groups lead nowhere")
    for (kind, label, column), count in found.most_common(int(sys.argv[1])):
        print(f"{count:6}  {kind} | {label} | {column}")


if __name__ == "__main__":
    main()
