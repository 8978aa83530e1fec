"""French words with a ligature are found by who types its letters, and the other way round."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from builder.build import build
from builder.starter import Choices, start
from tests.kitchens import TODAY, write
from tests.site.opened import opened

pytestmark = pytest.mark.browser

FILES = {
    "cuts/joue.yaml": "name: Joue de bœuf\nspecies: beef\nprice: 18.00/kg\n",
    "pantry/oeufs.yaml": "name: Œufs de caille\nprice: 0.60/each\n",
    "cuts/coeur.yaml": "name: Coeur de rumsteck\nspecies: beef\nprice: 24.00/kg\n",
}


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory, script_cache: Path) -> Iterator[str]:
    """A first kitchen in French with what has ligatures in its names, as a site."""
    folder = tmp_path_factory.mktemp("ligatures")
    start(folder / "kitchen", Choices(language="fr"))
    write(folder / "kitchen", FILES)
    outcome = build(folder / "kitchen", folder / "site", None, TODAY, cache=script_cache)
    assert outcome.report is not None
    yield (folder / "site").as_uri()


@pytest.mark.parametrize(
    ("typed", "title"),
    [
        ("boeuf", "Joue de bœuf"), ("oeuf", "Œufs de caille"), ("cœur", "Coeur de rumsteck"),
    ],
)  # fmt: skip
def test_search_finds_either_way_of_writing(
    browser: Browser, home: str, typed: str, title: str
) -> None:
    with opened(browser, home, "index.html") as page:
        page.keyboard.press("/")
        page.locator("dialog input").first.fill(typed)
        expect(page.locator("[role=option]").first).to_contain_text(title)


@pytest.mark.parametrize(("typed", "title"), [("boeuf", "Joue de bœuf"), ("cœur", "Coeur de")])
def test_a_list_s_filter_takes_either_way_of_writing(
    browser: Browser, home: str, typed: str, title: str
) -> None:
    with opened(browser, home, "cuts.html") as page:
        page.locator("input[id$=-filter]").first.fill(typed)
        rows = page.locator("table.listing tbody tr, table tbody tr").filter(has_text=title)
        expect(rows.first).to_be_visible()
