"""The demo's editions in a real browser: every kind of page that they have, opened from disk."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from builder.editions import build_editions
from tests.editions.made import TODAY
from tests.site.opened import opened, violations
from tests.site.sites import DEMO, examples

pytestmark = pytest.mark.browser

HAS = {
    "kitchen": {
        "index.html", "cuts", "cooks", "pantry", "plates", "menus", "buffets", "services",
        "methods", "allergens.html", "tastings", "forms log", "forms/cooks", "forms/plates",
        "forms/services",
    },
    "front-of-house": {
        "index.html", "cuts", "cooks", "pantry", "plates", "menus", "buffets", "allergens.html",
        "tastings",
    },
}  # fmt: skip
"""Kinds of page that an edition must have, as `examples` names them; it may have more."""


@pytest.mark.parametrize("name", HAS)
def test_no_page_complains_scrolls_sideways_or_fails_the_checker(
    name: str, browser: Browser, tmp_path: Path
) -> None:
    site = tmp_path / "site"
    build_editions(DEMO, site, [name], None, TODAY, cache=tmp_path / "cache")
    pages = examples(site)
    assert {kind.partition(",")[0] for kind in pages} >= HAS[name]
    found: dict[str, object] = {}
    for path in pages.values():
        with opened(browser, site.as_uri(), path) as page:
            failed = violations(page)
            page.set_viewport_size({"width": 360, "height": 900})
            failed += violations(page, "target-size")
            wide = page.evaluate("document.documentElement.scrollWidth")
            if trouble := [*failed, *([f"{wide} px wide"] if wide > 360 else [])]:
                found[path] = trouble
    assert found == {}
