"""What pages leave out to be small is put back by the browser and by the pages' scripts."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from builder.pages.components import Chart, walk
from tests.pages.gallery import COMPONENTS, PAGES
from tests.site.conftest import demo, script_cache  # noqa: F401 - fixtures
from tests.site.opened import opened
from tests.site.sites import BuiltSite

HEADINGS = """() => [...document.querySelectorAll("th")].map((e, n) => {
  e.id ||= `heading-${n}`;
  const kind = e.closest('thead') ? 'columnheader' : 'rowheader';
  return [e.id, e.scope === 'rowgroup' ? null : kind, e.textContent];
})"""


@pytest.mark.browser
@pytest.mark.parametrize("path", ["plates/ribeye-steak.html", "menu.html", "kitchen.html"])
def test_the_browser_knows_which_headings_are_of_rows(
    browser: Browser,
    demo: BuiltSite,  # noqa: F811
    path: str,
) -> None:
    """Roles as Chromium's own accessibility tree has them."""
    with opened(browser, demo.home("file"), path) as page:
        page.evaluate("document.querySelectorAll('details').forEach((e) => (e.open = true))")
        expected = [each for each in page.evaluate(HEADINGS) if each[1]]
        assert len(expected) > 10
        session = page.context.new_cdp_session(page)
        session.send("DOM.enable")
        root = session.send("DOM.getDocument")["root"]["nodeId"]
        for name, role, words in expected:
            node = session.send("DOM.querySelector", {"nodeId": root, "selector": f"[id='{name}']"})
            tree: Any = session.send(
                "Accessibility.getPartialAXTree",
                {"nodeId": node["nodeId"], "fetchRelatives": False},
            )
            assert tree["nodes"][0]["role"]["value"] == role, words


@pytest.mark.browser
@pytest.mark.parametrize(
    "path",
    [
        page.path
        for page in PAGES
        if any(isinstance(section, Chart) for section in walk(page.sections))
    ],
)
def test_scripts_read_the_rows_of_pictures_as_they_were_packed(
    browser: Browser, site: Path, path: str
) -> None:
    [page_of] = [page for page in PAGES if page.path == path]
    charts = [section for section in walk(page_of.sections) if isinstance(section, Chart)]
    assert charts
    with opened(browser, site.as_uri(), path) as page:
        for chart in charts:
            script = f"Pictures.data(document.getElementById('{chart.id}')).rows"
            read = page.evaluate(script)
            assert len(read) == len(chart.rows)
            for found, row in zip(read, chart.rows, strict=True):
                assert found.keys() == row.keys()
                assert all(same(found[name], value) for name, value in row.items()), (found, row)


def same(found: object, value: object) -> bool:
    """Whether a value came through: a number to the six digits that are written, and a text read
    off a table with the space that no line ends at before a unit."""
    if isinstance(found, str):
        found = found.replace("\N{NO-BREAK SPACE}", " ")
    if isinstance(value, float) and isinstance(found, int | float):
        return found == pytest.approx(value, rel=5e-6, abs=1e-12)
    return found == value


def test_examples_have_each_way_of_leaving_out() -> None:
    charts = [section for section in walk(COMPONENTS.sections) if isinstance(section, Chart)]
    assert any(chart.beside for chart in charts)
    assert any(
        str(row["input"]) == str(chart.table.rows[0].cells[0].text)
        for chart in charts
        if chart.kind == "range-bars" and chart.table
        for row in chart.rows
    )
