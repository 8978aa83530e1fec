"""The search while its records are still on their way."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from tests.site.opened import opened, served

pytestmark = pytest.mark.browser


def ask(page: Page) -> None:
    """Open the search by its button, which is waited for; the key is looked at elsewhere."""
    page.get_by_role("button", name="Search").click()
    expect(page.get_by_role("dialog")).to_be_visible()


@contextmanager
def slow(browser: Browser, site: Path) -> Iterator[tuple[Page, list[Route]]]:
    """A page over http whose search records come only when they are let through."""
    held: list[Route] = []

    def hold(route: Route) -> None:
        held.append(route)

    with served(site) as address, opened(browser, address, "plates/index.html") as page:
        page.route("**/search-data.js", hold)
        ask(page)
        expect(page.get_by_text("Reading the list of pages")).to_be_visible()
        # The page says so before the request has come as far as this process.
        for _ in range(500):
            if held:
                break
            page.wait_for_timeout(20)
        yield page, held


def close(page: Page) -> None:
    """Escape, and wait until the search is gone: it takes no key for itself any more."""
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog")).to_be_hidden()


def test_enter_before_the_records_is_obeyed_when_they_come(browser: Browser, site: Path) -> None:
    with slow(browser, site) as (page, held):
        page.keyboard.type("celeriac")
        page.keyboard.press("Enter")
        assert page.url.split("?")[0].endswith("plates/index.html")
        held[0].continue_()
        page.wait_for_url("**/notices.html")


def test_typing_on_after_enter_takes_it_back(browser: Browser, site: Path) -> None:
    with slow(browser, site) as (page, held):
        page.keyboard.type("cel")
        page.keyboard.press("Enter")
        page.keyboard.type("eriac")
        held[0].continue_()
        expect(page.locator("[role=option]").first).to_contain_text("Celeriac")
        assert page.url.split("?")[0].endswith("plates/index.html")


def test_closing_takes_enter_back_and_the_records_are_asked_for_once(
    browser: Browser, site: Path
) -> None:
    with slow(browser, site) as (page, held):
        page.keyboard.type("celeriac")
        page.keyboard.press("Enter")
        close(page)
        ask(page)
        page.wait_for_timeout(200)
        assert len(held) == 1
        held[0].continue_()
        expect(page.locator("[role=option]").first).to_contain_text("Celeriac")
        assert page.url.split("?")[0].endswith("plates/index.html")


def test_records_that_do_not_come_are_said_and_asked_for_again(
    browser: Browser, site: Path
) -> None:
    with served(site) as address:
        context = browser.new_context()
        page = context.new_page()
        page.goto(f"{address}/plates/index.html")
        page.route("**/search-data.js", lambda route: route.abort())
        ask(page)
        expect(page.get_by_text("could not be read")).to_be_visible()
        close(page)
        page.unroute("**/search-data.js")
        ask(page)
        page.keyboard.type("celeriac")
        page.keyboard.press("Enter")
        page.wait_for_url("**/notices.html")
        context.close()


def test_a_filter_that_finds_nothing_says_so(browser: Browser, site: Path) -> None:
    with opened(browser, site.as_uri(), "index.html") as page:
        page.get_by_label("Show rows with").first.fill("no such plate")
        expect(page.locator("#menu tbody")).to_contain_text("No row has all of these words.")
        expect(page.locator("#menu-filter ~ .count")).to_have_text("0 of 6 rows")
        page.get_by_label("Show rows with").first.fill("")
        expect(page.locator("#menu tbody tr")).to_have_count(6)
