"""Every number of the demo's pages leads to where it comes from, but for those listed here."""

from __future__ import annotations

from builder.pages.site import site_pages
from tests.benchmarks.no_way_back import without_a_way
from tests.pages_data.opened import demo_view

# What a page is made of, counted on the page itself.
COUNTED = {
    ("cuts.html", "Cooks"),
    ("kitchen.html", "Cooks"),
    ("tastings.html", "Tasters"),
    ("tastings.html", "Samples"),
    ("tastings", "Samples"),
    ("tastings", "Tasters asked"),
}
# Points of one curve, whose method stands under the table.
CURVE = {("cooks", column) for column in ("Time", "Slow end", "Typical", "Fast end")}
# Of a tasting that is planned, and of the week: from the plan, not from a figure yet.
PLANNED = {
    ("tastings", "Servings"),
    ("tastings", "Servable weight"),
    ("tastings", "Fewest that may do"),
    ("tastings", "Chance of showing it"),
    ("schedule.html", "At"),
    ("schedule.html", "Load"),
    ("schedule.html", "Each on its own"),
    ("schedule.html", "Shared hours once"),
    ("schedule.html", "Covers"),
    ("services", "In the cold before"),
}
# A number that names a cut in the trade, not a value.
NAMES = {("cuts.html", "IMPS")}
# Pages about the tool, its rules and its sources.
ABOUT = {"writing", "sources.html", "methods.html", "rules.html", "notices.html", "data.html"}


def test_numbers_lead_to_where_they_come_from() -> None:
    view = demo_view()
    names = {str(getattr(record, "title", "")) for record in view.costed.content.records()}
    found = without_a_way(site_pages(view), names - {""})
    groups = {(kind, column) for kind, _, column in found if kind not in ABOUT}
    assert groups - COUNTED - CURVE - PLANNED - NAMES == set()
    # The list holds nothing that has found its way since.
    assert groups == COUNTED | CURVE | PLANNED | NAMES
