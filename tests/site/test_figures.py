"""One figure, one value: on the page, in the data tables, and as computed.

What is printed is read back here by rules of our own, so that a wrong unit or a
figure in the wrong row shows.
"""

from __future__ import annotations

import csv
import json
import math
import re
from collections import Counter
from collections.abc import Iterator
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from builder.build import compute_content
from builder.costing.costed import Costed
from builder.pages.downloads import RESOURCES
from builder.pages.view import View
from tests.kitchens import PUBLISHED
from tests.site.conftest import FAR_OFF
from tests.site.sites import DEMO, BuiltSite, pages_of, text_of

SIZES = {
    **{"": 1.0, "%": 0.01, "kg": 1.0, "g": 1e-3, "L": 1.0, "mL": 1e-3, "each": 1.0},
    **{
        "d": 24.0,
        "h": 1.0,
        "min": 1 / 60,
        "s": 1 / 3600,
        "kWh": 1.0,
        "kW": 1.0,
        "W": 1e-3,
        "kg²": 1.0,
    },
    **{"a": 1.0, "weeks": 1.0, "°C": 1.0, "mm": 1.0},
}
"""What one of each printed unit is in the unit of the tables; "a" as in 66 a week."""


CHANCES = {
    "once in 10": (0.1, 0.05),
    "more than 9 times in 10": (0.9725, 0.0225),
    "more than 99 times in 100": (0.9975, 0.0025),
    "less than once in 10": (0.0275, 0.0225),
    "less than once in 100": (0.0025, 0.0025),
}
"""The middle of what a chance in words means, and half of how far it reaches."""


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


def printed(site: BuiltSite, page: str) -> Iterator[tuple[tuple[str, str, int], str]]:
    """The figures of a page as a reader sees them, each with what it says that it is."""
    for table, name, row, text in re.findall(
        r"methods/(\w+?)-([\w-]+)\.html#(\d+)>(.*?)</a>", site.text(page)
    ):
        yield (table, name.replace("-", "_"), int(row)), text_of(text)


def read_back(unit: str, text: str) -> tuple[float, float]:
    """The value of a printed text in its unit, and half of its last printed digit."""
    # Of both ends of an estimate the last is the slow one.
    # A change of sales is said with an arrow and a word, not with a sign.
    bare = text.replace("↑ up ", "").replace("↓ down ", "-")
    bare = re.sub("^about (.* to )?", "", bare.replace(",", "").replace("\N{MINUS SIGN}", "-"))
    # A rule's own print names both units, the kitchen's last; a load its pieces before its weight.
    bare = re.sub(r"^(\d+ pieces? |.*°F / )", "", bare)
    if unit == "flag":
        return {"yes": (1.0, 0.0), "no": (0.0, 0.0)}[bare]
    if unit == "times in 10":
        return CHANCES.get(bare) or (int(bare.split()[0]) / 10, 0.05)
    parts = re.findall(r"(-?)[^\d.-]{0,2}(\d+(?:\.(\d+))?)\s*([^\d\s/]*)", bare)
    value, half = 0.0, 0.0
    for sign, number, digits, word in parts:
        value += float(f"{sign}{number}") * SIZES[word]
        # Amounts of which nobody knows the coins are rounded to tens, hundreds and so on.
        noughts = len(number) - len(number.rstrip("0")) if unit.startswith(("money", "week")) else 0
        places = len(digits) or -noughts
        half = 0.5 * 10.0**-places * SIZES[word]
    return value, half


def agrees(unit: str, text: str, value: float, width: float = math.nan) -> bool:
    """Whether a text is the value to half its last digit; an estimate lies on its own side.

    Money and weeks with an interval, `width` wide, have two digits of that, coins
    of noughts after it; what is asked for is not below the value, nor above it what may be lost.
    """
    found, half = read_back(unit, text)
    name, _, way = unit.partition(" ")
    if name.startswith(("money", "week")) and width > 0:
        half = max(half, 0.5 * 10.0 ** (math.floor(math.log10(width)) - 1))
    if name == "money" and way.startswith("up"):
        return -1e-9 <= found - value < 2 * half
    if name == "share" and way.startswith("down"):
        # What may be lost at the most is never above the value.
        return -1e-9 <= value - found < 2 * half
    if way not in {"up", "down", "near"} or name.startswith(("money", "share")):
        return abs(found - value) <= half * (1 + 1e-9) + 1e-12
    # Rounded by a quarter at the most, a thickness by a millimetre.
    most = 1.0 if name == "mm" else abs(value) / 4 + 1 / 360
    apart = {"up": found - value, "down": value - found, "near": abs(found - value)}[way]
    return -1e-9 <= apart <= most


def width_of(view: View, table: str, name: str, row: int) -> float:
    """How wide the interval is of a figure, or of the one that it is an end of."""
    plain = name.removesuffix("_low").removesuffix("_high")
    known = view.costed.figures.model.tables[table].figures
    return view.width(table, plain if plain in known else name, row)


def test_a_page_prints_what_was_computed(demo: BuiltSite) -> None:
    """Every number that leads to a figure, read back to half its last digit."""
    view, wrong, units = view_of(DEMO), [], Counter[str]()
    for page in pages_of(demo.folder):
        for node, text in printed(demo, page):
            unit = view.definition(*node[:2]).unit
            # A stage's name leads to its weight, too.
            # What an input or a figure may be leads to it, too: "12.90 to 14.40", "±100".
            if (" to " in text and not text.startswith("about")) or text[0] == "±":
                continue
            if view.per(node[0], node[2]) == "kg" and re.search(r"\d|^(yes|no)$", text):
                units[unit] += 1
                width = width_of(view, *node)
                if not agrees(unit, text, view.number(*node), width):
                    wrong.append((page, node, text))
    assert sum(units.values()) > 3_000
    assert len(units) >= 12
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


@pytest.mark.parametrize("name", ["demo", "published"])
def test_every_line_that_an_input_names_holds_the_value(
    name: str, request: pytest.FixtureRequest
) -> None:
    """From each written value that travels to the page: the line of the listing has its text."""
    site: BuiltSite = request.getfixturevalue(name)
    lines = {page: dict(listed(site, page)) for page in pages_of(site.folder)}
    wrong, seen = [], 0
    for script in sorted((site.folder / "assets/live").glob("rows-*.js")):
        shard = json.loads(script.read_text(encoding="utf-8").partition(",")[2][:-3])
        columns = (c for t in shard["rows"].values() for c in t["origins"].values())
        for origin in (found for column in columns for found in column if found):
            if len(origin) < 4 or not origin[1] or not origin[3]:
                continue
            file, line, _, text = origin[:4]
            _, page, prefix = shard["files"][file]
            seen += 1
            if text.lower() not in lines[page].get(f"{prefix}L{line}", "").lower():
                wrong.append((page, line, text))
    assert seen > 40
    assert wrong == []


def listed(site: BuiltSite, page: str) -> Iterator[tuple[str, str]]:
    """The lines of the files that a page lists, by anchor."""
    for anchor, code in re.findall(r"<li id=([\w-]*L\d+)[^>]*>(.*)", site.text(page)):
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


def test_an_id_is_on_a_page_once(demo: BuiltSite, published: BuiltSite) -> None:
    """HTML Living Standard, 3.2.6: the value of an id is unique among all of its tree."""
    for site in (demo, published):
        for path in pages_of(site.folder):
            ids = Counter(re.findall(r'<[^>]*\sid="?([^\s">]+)', site.text(path)))
            assert [each for each, count in ids.items() if count > 1] == [], path


def test_published_prices_reach_the_pages(published: BuiltSite) -> None:
    """BLS average price of boneless chuck roast, November 2023: 7.612 USD a pound [read in a
    mirror]; over a cooking yield of 64 % (USDA 2014, read in a mirror transcription) 11.89."""
    (row,) = (row for row in rows_of(published, "cooks") if row["id"] == "pot-roast")
    assert float(row["cost_per_servable_kg"]) * 0.45359237 == pytest.approx(7.612 / 0.64)
    assert row["as_of"] == date(2023, 11, 30).isoformat()
    # Written as finely as one price a month and the spread of the published yield let it be known.
    assert "$11.90/lb" in text_of(published.text("cooks/pot-roast.html"))
    assert view_of(PUBLISHED).style.currency == "USD"


def test_the_search_knows_every_page_that_somebody_may_look_for(demo: BuiltSite) -> None:
    """All but the sheets of records, the method pages, the chapters on writing, and home."""
    text = demo.text("assets/search-data.js")
    known = {
        path.partition("#")[0]
        for _, _, path, _ in json.loads(text.splitlines()[0].partition("=")[2].rstrip(";"))
    }
    wanted = {
        page
        for page in pages_of(demo.folder)
        if not page.startswith(("forms/", "methods/", "writing/")) and page != "index.html"
    }
    assert wanted - known == set()
    assert known - set(pages_of(demo.folder)) == set()
