"""Every component renders to valid HTML, escapes what people wrote, and stays accessible.

Validity is judged by html5lib's strict parser, an implementation of the HTML
standard's parsing rules that this project has no part in [installed package].
"""

from __future__ import annotations

import dataclasses
import json
import re
from itertools import pairwise
from typing import get_args
from xml.etree.ElementTree import Element

import html5lib  # type: ignore[import-untyped]
import pytest
from markupsafe import Markup

from builder.pages.chart_rows import chart_data
from builder.pages.components import (
    Cell,
    Chart,
    Column,
    Page,
    Part,
    Row,
    Section,
    Table,
    Value,
    walk,
)
from builder.pages.rendering import CSP, render, root_of, table_rows
from tests.pages.chart_examples import CHARTS, WATERFALL
from tests.pages.examples import EXAMPLES
from tests.pages.gallery import PAGES, SITE

HOSTILE = "</script><script>alert(1)</script>\"'&<b onclick=x>"
H = "{http://www.w3.org/1999/xhtml}"
EVERY = [*EXAMPLES.items(), *((chart.kind, chart) for chart in CHARTS)]


def parsed(html: bytes) -> Element:
    root: Element = html5lib.HTMLParser(strict=True).parse(html)
    return root


def page_of(section: Section, path: str = "some/page.html") -> Page:
    return Page(path, "A title", "A sentence.", (section,))


@pytest.mark.parametrize(("name", "section"), EVERY, ids=[name for name, _ in EVERY])
def test_every_example_is_valid_html(name: str, section: Section) -> None:
    tree = parsed(render(page_of(section), SITE))
    assert tree.find(f".//{H}main") is not None


@pytest.mark.parametrize("pair", [True, False])
def test_a_part_says_itself_whether_its_picture_and_table_are_a_pair(pair: bool) -> None:
    """Its id says nothing of how it looks."""
    section = Part("costs", "What it costs", (WATERFALL,), pair=pair)
    tree = parsed(render(page_of(section), SITE))
    assert len(tree.findall(f".//{H}details/{H}div[@class='pair']")) == pair


def test_every_kind_of_section_has_an_example() -> None:
    shown = {type(section) for _, example in EVERY for section in walk((example,))}
    assert shown == set(get_args(Section))


@pytest.mark.parametrize("page", PAGES, ids=[page.path for page in PAGES])
def test_pages_are_valid_with_one_h1_no_skipped_heading_and_no_id_twice(page: Page) -> None:
    tree = parsed(render(page, SITE))
    levels = [int(e.tag[-1]) for e in tree.iter() if re.fullmatch(f"{H}h[1-6]", e.tag)]
    assert levels.count(1) == 1
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))
    ids = [e.attrib["id"] for e in tree.iter() if "id" in e.attrib]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("page", PAGES, ids=[page.path for page in PAGES])
def test_nothing_inline_that_the_policy_forbids(page: Page) -> None:
    tree = parsed(render(page, SITE))
    for element in tree.iter():
        assert "style" not in element.attrib
        assert not [name for name in element.attrib if name.startswith("on")]
        if element.tag == f"{H}script":
            assert "src" in element.attrib or element.attrib["type"] == "application/json"
    meta = tree.find(f".//{H}meta[@http-equiv='Content-Security-Policy']")
    assert meta is not None
    assert meta.attrib["content"] == CSP


def _hostile(value: object) -> object:
    """Put the hostile text wherever a component carries plain text."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        fields = {f.name: getattr(value, f.name) for f in dataclasses.fields(value)}
        kept = ("kind", "severity", "tone", "width", "id", "anchor", "key", "units", "options")
        changed = {k: v if k in kept else _hostile(v) for k, v in fields.items()}
        return dataclasses.replace(value, **changed)
    if isinstance(value, tuple):
        return tuple(_hostile(item) for item in value)
    if isinstance(value, dict):
        return {k: v if k in ("role", "kind") else _hostile(v) for k, v in value.items()}
    return HOSTILE if isinstance(value, str) and value and not isinstance(value, Markup) else value


@pytest.mark.parametrize(("name", "section"), EVERY, ids=[name for name, _ in EVERY])
def test_what_people_write_never_becomes_markup(name: str, section: Section) -> None:
    page = dataclasses.replace(page_of(section), title=HOSTILE, lead=HOSTILE)
    changed = dataclasses.replace(page, sections=(_hostile(section),))  # type: ignore[arg-type]
    tree = parsed(render(changed, SITE))
    assert all(
        "src" in e.attrib or e.attrib.get("type") == "application/json"
        for e in tree.iter(f"{H}script")
    )
    assert not [e for e in tree.iter() if "onclick" in e.attrib]


def test_links_lead_from_any_depth_to_the_root() -> None:
    section = EXAMPLES["links"]
    for path, root in (("index.html", ""), ("a/b.html", "../"), ("a/b/c.html", "../../")):
        tree = parsed(render(page_of(section, path), SITE))
        links = [a.attrib["href"] for a in tree.iter(f"{H}a")]
        assert f"{root}swaps/chuck-for-ribeye.html" in links
        assert not [link for link in links if "~" in link]
        assert tree.attrib["data-root"] == root == root_of(path)


def test_the_same_page_gives_the_same_bytes() -> None:
    assert [render(page, SITE) for page in PAGES] == [render(page, SITE) for page in PAGES]


def test_scripts_come_only_where_they_are_needed() -> None:
    assert b"charts.js" not in render(page_of(EXAMPLES["table"]), SITE)
    assert b"tables.js" not in render(page_of(EXAMPLES["table"]), SITE)
    assert b"tables.js" in render(page_of(Part("p", "P", (EXAMPLES["list"],))), SITE)
    drawn = render(page_of(Part("p", "P", (WATERFALL,))), SITE)
    # The large library is fetched by the small script, after the page has been painted.
    assert b"charts.js" in drawn and b"chart-bundle" not in drawn


def test_a_row_with_too_few_cells_is_refused() -> None:
    columns = (Column("a", "A"), Column("b", "B", True))
    with pytest.raises(ValueError, match="1 cells where 2 belong"):
        table_rows(columns, (Row((Cell("x"),)),))
    group = table_rows(columns, (Row((Cell("Mains"),), "group"),))
    assert 'colspan="2"' in group


def test_a_table_of_one_column_is_valid() -> None:
    table = Table("one", "One", (Column("a", "A"),), (Row((Cell("x"),)),))
    assert parsed(render(page_of(table), SITE)).find(f".//{H}tbody/{H}tr/{H}th").text.strip() == "x"  # type: ignore[union-attr]


def test_chart_rows_survive_the_page() -> None:
    row: dict[str, Value] = {
        "step": HOSTILE,
        "start": 0.1,
        "end": 2,
        "kind": "total",
        "text": "−0.84 ü",
    }
    chart = dataclasses.replace(WATERFALL, rows=(row,))
    tree = parsed(render(page_of(chart), SITE))
    block = tree.find(f".//{H}figure/{H}script")
    assert block is not None
    assert json.loads(block.text or "")["rows"] == [[list(row), list(row.values())]]


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"kind": "pie"}, "no chart kind 'pie'"),
        ({"units": {}}, "no unit for money"),
        ({"rows": ({"step": "Trim"},)}, "end, kind, start, text missing"),
        (
            {"rows": ({"step": "a", "start": float("nan"), "end": 1, "kind": "rise", "text": ""},)},
            "not JSON compliant",
        ),
    ],
)
def test_a_chart_that_cannot_be_drawn_is_refused(changes: dict[str, object], message: str) -> None:
    chart: Chart = dataclasses.replace(WATERFALL, **changes)  # type: ignore[arg-type]
    with pytest.raises(ValueError, match=message):
        chart_data(chart)
