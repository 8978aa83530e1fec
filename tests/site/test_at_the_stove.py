"""What is looked for at the stove is on the first screen of a phone, on every plate and cook."""

from __future__ import annotations

from collections.abc import Sequence

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
    "plates": ("How", "Core", "Finish", "Portion", "Allergens"),
    "cooks": ("How", "At", "For", "Core", "Finish", "Portion", "Allergens"),
}
FRENCH = {
    "How": "Comment", "At": "Température", "For": "Durée", "Core": "Cœur", "Finish": "Finition",
    "Portion": "Portion", "Allergens": "Allergènes",
}  # fmt: skip
EXAMPLES = {"plates": "plates/chuck-steak.html", "cooks": "cooks/chuck-roll-30h.html"}


@pytest.mark.parametrize("folder", WANTED)
def test_the_first_screen_says_how_it_is_cooked_and_what_is_in_it(
    browser: Browser, demo: BuiltSite, folder: str
) -> None:
    assert too_low(browser, demo, folder, WANTED[folder]) == []


@pytest.mark.parametrize("folder", WANTED)
def test_the_first_screen_says_as_much_in_french(
    browser: Browser, french_demo: BuiltSite, folder: str
) -> None:
    assert too_low(browser, french_demo, folder, [FRENCH[term] for term in WANTED[folder]]) == []


def too_low(
    browser: Browser, site: BuiltSite, folder: str, terms: Sequence[str]
) -> list[tuple[str, str]]:
    """What of the terms is below the first screen, page by page."""
    low = []
    with opened(browser, site.home("file"), EXAMPLES[folder], unfolded=False, width=360) as page:
        page.set_viewport_size({"width": 360, "height": HEIGHT})
        assert {each.inner_text() for each in page.locator(".aside dt").all()} >= {*terms}
        for path in sorted(site.folder.glob(f"{folder}/*.html")):
            page.goto(path.as_uri())
            low += [(path.stem, found) for found in page.evaluate(BELOW, [HEIGHT, list(terms)])]
    return low
