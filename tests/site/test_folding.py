"""Parts of a page that are folded away: what is open first, how the rest opens, how tall it is."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, expect

from tests.site.opened import drawn, opened, sheets_of, violations
from tests.site.sites import BuiltSite

RECORDS = (
    "index.html",
    "swaps.html",
    "swaps/chuck-for-ribeye.html",
    "plates/chuck-steak.html",
    "cooks/chuck-roll-30h.html",
    "cuts/beef-chuck-roll.html",
    "tastings/chuck-durations.html",
    "pantry/bone-sauce.html",
    "services/friday-dinner.html",
    "counts/late-september.html",
    "try-next.html",
    "schedule.html",
    "equipment.html",
)
TALL = "document.documentElement.scrollHeight"


@pytest.mark.parametrize(("width", "most"), [(1280, 2600), (360, 6000)])
def test_before_anything_is_opened_a_page_is_short(
    browser: Browser, demo: BuiltSite, width: int, most: int
) -> None:
    tall = {}
    for path in RECORDS:
        with opened(browser, demo.home("file"), path, width=width, unfolded=False) as page:
            tall[path] = page.evaluate(TALL)
    assert {path: height for path, height in tall.items() if height > most} == {}


def test_the_first_part_is_open_and_a_caution_stays_so(browser: Browser, demo: BuiltSite) -> None:
    with opened(browser, demo.home("file"), RECORDS[4], unfolded=False) as page:
        parts = page.locator("main > .part[open]")
        assert parts.evaluate_all("found => found.map((it) => it.id)") == ["heat", "cautions"]
        assert violations(page) == []


def test_a_list_of_records_comes_before_its_parts(browser: Browser, demo: BuiltSite) -> None:
    with opened(browser, demo.home("file"), "menu.html", unfolded=False) as page:
        assert page.locator("main > .part").count() > 4
        assert page.locator("main > .part[open]").count() == 0


def test_a_link_opens_what_it_leads_into(browser: Browser, demo: BuiltSite) -> None:
    """A line of a file, in a part; a picture, in a part of a part."""
    for path, name in (("cuts/beef-chuck-roll.html", "L3"), (RECORDS[2], "how-sure-chuck-steak")):
        with opened(browser, demo.home("file"), f"{path}#{name}", unfolded=False) as page:
            expect(page.locator(f"#{name}")).to_be_in_viewport()
            inside = page.locator(f"#{name} > details > .body, #{name}:not(:has(> details))")
            expect(inside.first).to_be_visible()


def test_all_parts_open_by_the_keyboard_and_their_pictures_are_drawn(
    browser: Browser, demo: BuiltSite
) -> None:
    with opened(browser, demo.home("file"), RECORDS[3], unfolded=False) as page:
        waiting = page.locator("figure[data-kind]:not([data-drawn])")
        assert waiting.count() > 0
        page.get_by_role("button", name="Open all parts").press("Enter")
        drawn(page)
        expect(waiting).to_have_count(0)
        expect(page.locator(".part:not([open])")).to_have_count(0)
        page.get_by_role("button", name="Close all parts").click()
        expect(page.locator(".part[open]")).to_have_count(0)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_what_is_folded_away_is_not_printed(browser: Browser, demo: BuiltSite, paper: str) -> None:
    sheets = []
    for unfolded in (False, True):
        with opened(browser, demo.home("file"), RECORDS[2], unfolded=unfolded) as page:
            sheets.append(sheets_of(page.pdf(format=paper)))
    assert sheets[0] <= 2 < sheets[1]
