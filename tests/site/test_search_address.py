"""What is searched is in the address: it can be sent on, and Back leads to the results again."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser, expect

from tests.site.opened import opened
from tests.site.sites import BuiltSite

ASKED = "index.html?search=milk&search.kind=plate"


@pytest.fixture(params=["file", "http"])
def home(request: pytest.FixtureRequest, demo: BuiltSite) -> str:
    return demo.home(request.param)


def test_an_address_that_was_sent_on_shows_the_same_results(browser: Browser, home: str) -> None:
    with opened(browser, home, ASKED) as page:
        expect(page.get_by_role("dialog")).to_be_visible()
        expect(page.get_by_label("Search by name")).to_have_value("milk")
        expect(
            page.locator("[role=option]").filter(has_text=re.compile("plate$")).first
        ).to_be_visible()
        kinds = page.locator("[role=option] .kind").all_inner_texts()
        assert set(kinds) == {"plate"}


def test_what_is_typed_and_chosen_is_in_the_address_and_leaves_it(
    browser: Browser, home: str
) -> None:
    with opened(browser, home, "menu.html?plates.q=beef") as page:
        page.keyboard.press("/")
        page.keyboard.type("short rib")
        expect(page).to_have_url(re.compile(r"\?plates\.q=beef&search=short\+rib$"))
        every = page.locator("[role=option]").count()
        page.get_by_label("Kind of page").select_option("cook")
        expect(page).to_have_url(re.compile(r"&search\.kind=cook$"))
        assert 0 < page.locator("[role=option]").count() < every
        page.keyboard.press("Escape")
        expect(page).to_have_url(re.compile(r"\?plates\.q=beef$"))


def test_back_leads_to_the_results_again(browser: Browser, home: str) -> None:
    with opened(browser, home, "index.html") as page:
        page.keyboard.press("/")
        page.keyboard.type("milk")
        expect(page.locator("[role=option]").first).to_be_visible()
        page.keyboard.press("Enter")
        expect(page).not_to_have_url(re.compile("index"))
        page.go_back()
        expect(page.get_by_role("dialog")).to_be_visible()
        expect(page.get_by_label("Search by name")).to_have_value("milk")
        expect(page.locator("[role=option]").first).to_be_visible()


@pytest.mark.parametrize(
    ("words", "kind", "part"),
    [
        ("bath is free half a day", "log", "#log"),
        ("legs wait for no order", "decision", "#decided"),
    ],
)
def test_what_was_decided_is_found_by_its_reason(
    browser: Browser, demo: BuiltSite, words: str, kind: str, part: str
) -> None:
    with opened(browser, demo.home("file"), "index.html") as page:
        page.keyboard.press("/")
        page.keyboard.type(words)
        page.locator("[role=option]").filter(has_text=re.compile(f"{kind}$")).first.click()
        expect(page).to_have_url(re.compile(f"{part}$"))
        expect(page.locator(part)).to_be_in_viewport()
