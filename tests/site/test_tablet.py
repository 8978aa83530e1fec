"""On a tablet held upright no table of the demo has to be moved sideways, in either language."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from tests.site.opened import opened
from tests.site.sites import BuiltSite

pytestmark = pytest.mark.browser

PAGES = (
    "allergens.html", "cooks.html", "cooks/pork-butt-30h.html", "counts.html",
    "counts/late-september.html", "cuts.html", "index.html", "kitchen.html", "menu.html",
    "menus/sunday-three-courses.html", "pantry.html", "prices.html", "schedule.html",
    "services/friday-dinner.html", "services/sunday-lunch.html", "swaps.html", "tastings.html",
    "tastings/chuck-durations.html", "try-next.html",
)  # fmt: skip
TOO_WIDE = """() => [...document.querySelectorAll(".scroll > table")]
  .filter((table) => !table.closest(".source"))
  .filter(({ parentElement: box }) => box.clientWidth && box.scrollWidth > box.clientWidth + 1)
  .map((table) => table.caption?.textContent ?? table.id)"""


@pytest.mark.parametrize("path", PAGES)
def test_no_table_is_wider_than_the_page(browser: Browser, demo: BuiltSite, path: str) -> None:
    with opened(browser, demo.home("file"), path, width=768) as page:
        assert page.locator(".scroll > table").count() > 0
        assert page.evaluate(TOO_WIDE) == []


@pytest.mark.parametrize("path", PAGES)
def test_no_french_table_is_wider_than_the_page(
    browser: Browser, french_demo: BuiltSite, path: str
) -> None:
    with opened(browser, french_demo.home("file"), path, width=768) as page:
        assert page.evaluate(TOO_WIDE) == []


@pytest.mark.parametrize("width", [360, 1280, 1366, 1920])
def test_the_menu_fits_every_screen_in_either_language(
    browser: Browser, demo: BuiltSite, french_demo: BuiltSite, width: int
) -> None:
    """Its words are in lines of their own there, none of them cut off."""
    for site in (demo, french_demo):
        with opened(browser, site.home("file"), "menu.html", width=width) as page:
            assert page.evaluate(TOO_WIDE) == []
