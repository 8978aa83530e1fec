"""The count of numbers that lead nowhere counts just those."""

from __future__ import annotations

from builder.pages.components import Cell, Column, Figures, FigureTile, Page, Row, Table
from tests.benchmarks.no_way_back import without_a_way


def test_only_numbers_without_a_link_are_counted() -> None:
    columns = (Column("of", "Of"), Column("cost", "Cost of Neck", numeric=True), Column("at", "At"))
    rows = (
        Row((Cell("Neck 2"), Cell("$3.10"), Cell("57\N{NO-BREAK SPACE}°C"))),
        Row((Cell("30 h"), Cell("$3.10", href="=plate.food_cost.0"), Cell("Fri 18:00"))),
        Row((Cell("Shank"), Cell("–"), Cell("–"))),
    )
    tiles = FigureTile("Sold", "12"), FigureTile("Cost", "12", trace_href="=plate.sold.0")
    sections = Table("t", "Costs of Neck", columns, rows), Figures((*tiles, FigureTile("Of", "–")))
    pages = [Page(path, "", "", sections) for path in ("cuts/neck.html", "forms/neck.html")]
    assert without_a_way(pages, ["Neck"]) == {
        ("cuts", "Costs of …", "Of"): 1,
        ("cuts", "Costs of …", "Cost of …"): 1,
        ("cuts", "Costs of …", "At"): 1,
        ("cuts", "tiles: Key figures", "Sold"): 1,
    }
    assert without_a_way([], []).total() == 0
