"""Rows of a list picked and seen side by side, in a real browser and from disk."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.site.opened import opened, violations
from tests.site.sites import BuiltSite


def picked(page: Page, *names: str) -> None:
    for name in names:
        page.get_by_role("checkbox", name=f"Side by side: {name}", exact=True).check()


def beside(page: Page) -> list[list[str]]:
    cells: list[list[str]] = page.locator(".beside tr").evaluate_all(
        "rows => rows.map((row) => Array.from(row.cells, (cell) => cell.textContent.trim()))"
    )
    return cells


@pytest.mark.parametrize("width", [1280, 360])
def test_two_to_five_cooks_side_by_side_as_their_list_writes_them(
    browser: Browser, demo: BuiltSite, width: int
) -> None:
    with opened(browser, demo.home("file"), "cooks.html", width=width) as page:
        row = page.locator("#cooks tbody tr", has_text="Chuck roll 30h")
        cells = [text.strip() for text in row.locator("td").all_text_contents()]
        heads = page.locator("#cooks thead th").all_text_contents()
        picked(page, "Chuck roll 30h")
        assert beside(page) == []
        expect(page.locator(".picks [role=status]")).to_have_text("1 picked; pick one more.")
        picked(page, "Chuck roll 24h")
        found = beside(page)
        assert found[0] == ["", "Chuck roll 30h", "Chuck roll 24h"]
        assert [line[0] for line in found[1:]] == [head.strip() for head in heads[1:]]
        assert [line[1] for line in found[1:]] == cells
        assert violations(page) == []
        picked(page, "Chuck roll 18h", "Chuck roll 42h", "Chuck roll 60h")
        assert page.locator("input.pick:enabled").count() == 5
        page.get_by_role("button", name="Pick none").click()
        assert beside(page) == []
        assert "pick" not in page.url


def test_what_was_picked_is_in_the_address(browser: Browser, demo: BuiltSite) -> None:
    path = "menu.html?plates.pick=chuck-steak,ribeye-steak,nothing"
    with opened(browser, demo.home("file"), path) as page:
        names = ["Chuck steak with bone sauce and mash", "Ribeye with pepper sauce and mash"]
        assert beside(page)[0] == ["", *names]


def test_cells_side_by_side_open_like_those_of_the_list(browser: Browser, demo: BuiltSite) -> None:
    path = "cuts.html?cuts.pick=beef-chuck-roll,beef-ribeye"
    with opened(browser, demo.home("file"), path) as page:
        page.locator(".beside a[href*=methods]").first.click()
        expect(page.get_by_role("dialog", name="Beef chuck roll: AP price")).to_be_visible()
