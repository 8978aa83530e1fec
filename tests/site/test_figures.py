"""One figure, one value: on the page, in the data tables, and as computed.

What is printed is read back here by rules of our own, so that a wrong unit or a
figure in the wrong row shows.
"""

from __future__ import annotations

import csv
import html
import json
import math
import re
from collections.abc import Iterator
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from builder.build import compute_content
from builder.costing.costed import Costed
from builder.pages.tables import RESOURCES
from builder.pages.view import View
from tests.kitchens import PUBLISHED
from tests.site.conftest import FAR_OFF
from tests.site.sites import DEMO, BuiltSite, pages_of, text_of

# Each page's figures stand in its trace under the figure's name, or under a record's and its name.
HOMES = {
    "cuts": ("cut", "{id}.html", ""),
    "cooks": ("batch", "{id}.html", ""),
    "pantry": ("pantry", "{id}.html", ""),
    "plates": ("plate", "{id}.html", ""),
    "swaps": ("swap", "{swap}.html", "{challenger}."),
}
SIZES = {
    **{"": 1.0, "%": 0.01, "kg": 1.0, "g": 1e-3, "L": 1.0, "mL": 1e-3, "each": 1.0},
    **{"d": 24.0, "h": 1.0, "min": 1 / 60, "s": 1 / 3600, "kWh": 1.0, "kW": 1.0, "W": 1e-3},
    **{"a": 1.0, "weeks": 1.0},
}
"""What one of each printed unit is in the unit of the tables; "a" as in 66 a week."""


@cache
def view_of(root: Path) -> View:
    """A kitchen computed here, beside the built site."""
    costed, problems = compute_content(root, None, FAR_OFF)
    assert isinstance(costed, Costed), problems
    return View.of(costed, problems)


def rows_of(site: BuiltSite, name: str) -> list[dict[str, str]]:
    """The records of a data table."""
    with (site.folder / "data" / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def traced(site: BuiltSite, page: str) -> dict[str, str]:
    """The figures of a page's trace as a reader sees them, by anchor."""
    found = re.findall(
        r'<li id="([^"]+)" tabindex="-1"><p class="is">.*?<b>(.*?)</b></p>', site.text(page)
    )
    return {html.unescape(anchor): text_of(value) for anchor, value in found}


def printed(site: BuiltSite) -> Iterator[tuple[str, str, float, str]]:
    """Each figure of the data tables that a page prints: where, its unit, its value, its text."""
    model = view_of(DEMO).costed.figures.model
    for folder, (table, page, prefix) in HOMES.items():
        for row in rows_of(site, folder):
            path = f"{folder}/{page.format_map(row)}"
            for anchor, text in traced(site, path).items():
                name = anchor.removeprefix(prefix.format_map(row))
                if name in row and name in model.tables[table].figures:
                    unit = model.definition((table, name)).unit
                    yield f"{path}#{anchor}", unit, float(row[name]), text


def read_back(unit: str, text: str) -> tuple[float, float]:
    """The value of a printed text in its unit, and half of its last printed digit."""
    bare = text.replace(",", "").replace("\N{MINUS SIGN}", "-")
    if unit == "flag":
        return {"yes": (1.0, 0.0), "no": (0.0, 0.0)}[bare]
    parts = re.findall(r"(-?)[^\d.-]{0,2}(\d+(?:\.(\d+))?)\s*([^\d\s/]*)", bare)
    value, half = 0.0, 0.0
    for sign, number, digits, word in parts:
        value += float(f"{sign}{number}") * SIZES[word]
        half = 0.5 * 10.0 ** -len(digits) * SIZES[word]
    return value, half


def test_a_page_prints_what_the_tables_hold(demo: BuiltSite) -> None:
    """Every figure of every record that has a page, read back to half its last digit."""
    wrong, seen = [], 0
    for where, unit, value, text in printed(demo):
        seen += 1
        found, half = read_back(unit, text)
        if abs(found - value) > half * (1 + 1e-9) + 1e-12:
            wrong.append((where, unit, value, text))
    assert seen > 3_000
    assert wrong == []


def test_a_table_holds_what_was_computed(demo: BuiltSite) -> None:
    """Full precision: a number in the file reads back as the very float; a blank is not known."""
    view = view_of(DEMO)
    for resource in RESOURCES:
        records = rows_of(demo, resource.name)
        computed = [row for row, _ in resource.rows(view)]
        assert len(records) == len(computed) > 0
        texts = {field.name for field in resource.fields}
        for name in view.costed.figures.model.tables[resource.table].figures.keys() - texts:
            for record, row in zip(records, computed, strict=True):
                value = view.number(resource.table, name, row)
                written = record[name]
                assert written == "" if not math.isfinite(value) else float(written) == value


def test_a_page_prints_what_was_computed(demo: BuiltSite) -> None:
    """The other rules too: figures of every unit, formatted, are what stands in the trace."""
    view = view_of(DEMO)
    units = set()
    for plate, row in view.costed.rows.plates.items():
        for anchor, text in traced(demo, f"plates/{plate}.html").items():
            if anchor in view.costed.figures.model.tables["plate"].figures:
                assert text == text_of(html.escape(view.text("plate", anchor, row)))
                units.add(view.definition("plate", anchor).unit)
    assert len(units) >= 6


@pytest.mark.parametrize("name", ["demo", "published"])
def test_every_line_that_a_trace_names_holds_the_value(
    name: str, request: pytest.FixtureRequest
) -> None:
    """From each page, each "as written" with its link: the line of the listing has the text."""
    site: BuiltSite = request.getfixturevalue(name)
    lines = {page: dict(listed(site, page)) for page in pages_of(site.folder)}
    wrong, seen = [], 0
    for page in lines:
        for value, href in re.findall(
            r'<li>as written <b>(.*?)</b> <span class="place"><a href="([^"]+)"', site.text(page)
        ):
            target, _, anchor = href.partition("#")
            at = (Path(page).parent / target).as_posix() if target else page
            line = lines[str(Path(re.sub(r"[^/]+/\.\./", "", at)))].get(anchor, "")
            seen += 1
            if text_of(value).lower() not in line.lower():
                wrong.append((page, href, value, line))
    assert seen > 40
    assert wrong == []


def listed(site: BuiltSite, page: str) -> Iterator[tuple[str, str]]:
    """The lines of the files that a page lists, by anchor."""
    for anchor, code in re.findall(
        r'<li id="([\w-]*L\d+)"[^>]*>.*?<code>(.*?)</code></li>', site.text(page)
    ):
        yield anchor, text_of(code)


def test_no_page_says_what_no_reader_should_see(demo: BuiltSite, published: BuiltSite) -> None:
    """Traces of Python and of templates where a figure or a word belongs."""
    odd = re.compile(r">[^<]*(?:\bnan\b|\bNone\b(?! of)|\binf\b|\{\{|\{%|<bound|&lt;builder\.)")
    found = [
        (page, match[0][:80])
        for site in (demo, published)
        for page in pages_of(site.folder)
        if not page.startswith("methods") and (match := odd.search(site.text(page)))
    ]
    assert found == []


def test_the_word_that_nobody_may_rely_on(demo: BuiltSite, published: BuiltSite) -> None:
    """Arithmetic on published tables vouches for no one's dinner."""
    word = re.compile(r"\bsafe\b", re.IGNORECASE)
    found = [
        page
        for site in (demo, published)
        for page in pages_of(site.folder)
        if word.search(text_of(site.text(page)))
    ]
    assert found == []


def test_published_prices_reach_the_pages(published: BuiltSite) -> None:
    """BLS average price of boneless chuck roast, November 2023: 7.612 USD a pound [read in a
    mirror]; over a cooking yield of 64 % (USDA 2014, read in a mirror transcription) 11.89."""
    (row,) = (row for row in rows_of(published, "cooks") if row["id"] == "pot-roast")
    assert float(row["cost_per_servable_kg"]) * 0.45359237 == pytest.approx(7.612 / 0.64)
    assert row["as_of"] == date(2023, 11, 30).isoformat()
    assert "$11.89" in text_of(published.text("cooks/pot-roast.html"))
    assert view_of(PUBLISHED).style.currency == "USD"


def test_the_search_knows_every_page_that_somebody_may_look_for(demo: BuiltSite) -> None:
    """All but the sheets of records, the method pages, the chapters on writing, and home."""
    text = demo.text("assets/search-data.js")
    known = {path for _, _, path, _ in json.loads(text.partition("=")[2].rstrip(";\n"))}
    wanted = {
        page
        for page in pages_of(demo.folder)
        if not page.startswith(("forms/", "methods/", "writing/")) and page != "index.html"
    }
    assert wanted - known == set()
    assert known - set(pages_of(demo.folder)) == set()
