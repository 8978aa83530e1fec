"""What is looked for at the stove is on the first screen of a phone, on every plate and cook."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from tests.site.opened import opened
from tests.site.sites import BuiltSite

pytestmark = pytest.mark.browser

HEIGHT = 740
BELOW = """([most, wanted]) => [...document.querySelectorAll(".title .aside > div")]
  .filter((fact) => wanted.includes(fact.querySelector("dt").textContent.trim()))
  .filter((fact) => fact.getBoundingClientRect().bottom > most)
  .map((fact) => fact.textContent.trim())"""
WANTED = {
    "plates": {"How", "Core", "Finish", "Portion", "Allergens"},
    "cooks": {"How", "At", "For", "Core", "Finish", "Portion", "Allergens"},
}
EXAMPLES = {"plates": "plates/chuck-steak.html", "cooks": "cooks/chuck-roll-30h.html"}


@pytest.mark.parametrize("folder", WANTED)
def test_the_first_screen_says_how_it_is_cooked_and_what_is_in_it(
    browser: Browser, demo: BuiltSite, folder: str
) -> None:
    pages = sorted(demo.folder.glob(f"{folder}/*.html"))
    low, wanted = [], [HEIGHT, sorted(WANTED[folder])]
    with opened(browser, demo.home("file"), EXAMPLES[folder], unfolded=False, width=360) as page:
        page.set_viewport_size({"width": 360, "height": HEIGHT})
        assert {each.inner_text() for each in page.locator(".aside dt").all()} >= WANTED[folder]
        for path in pages:
            page.goto(path.as_uri())
            low += [(path.stem, found) for found in page.evaluate(BELOW, wanted)]
    assert low == []
