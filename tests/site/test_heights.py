"""How tall every page of the demo is before anything on it is opened."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from tests.site.opened import drawn, opened
from tests.site.sites import BuiltSite, pages_of

# Pixels asked for, with the fonts of a plain Debian; those of another machine may set lines wider.
MOST = {1280: 2500, 360: 6000}
OTHER_FONTS = 1.1
SHARES = 12
# Of the nearly thousand pages of methods, all of one make, those with the most in them.
METHODS = 60
TALL = "document.documentElement.scrollHeight"


@pytest.mark.parametrize("share", range(SHARES))
def test_every_page_is_short_before_anything_is_opened(
    browser: Browser, demo: BuiltSite, share: int
) -> None:
    assert too_tall(browser, demo, measured(demo)[share::SHARES]) == []


def test_french_lists_and_records_are_as_short(browser: Browser, french_demo: BuiltSite) -> None:
    """French words are longer; every list, and one page of every kind of record."""
    paths = sorted(pages_of(french_demo.folder))
    first = {path.partition("/")[0]: path for path in reversed(paths)}
    assert "cooks.html" in first.values()
    assert too_tall(browser, french_demo, sorted(first.values())) == []


def too_tall(browser: Browser, site: BuiltSite, paths: list[str]) -> list[tuple[str, int, int]]:
    """Pages that are taller than asked for, with the width and the height; opened one by one."""
    found = []
    with opened(browser, site.home("file"), paths[0], unfolded=False) as page:
        for path in paths:
            page.goto(f"{site.home('file')}/{path}")
            for width, most in MOST.items():
                page.set_viewport_size({"width": width, "height": 900})
                drawn(page)
                height = page.evaluate(TALL)
                found += [(path, width, height)] if height > most * OTHER_FONTS else []
            page.set_viewport_size({"width": 1280, "height": 900})
    return found


def measured(demo: BuiltSite) -> list[str]:
    """Every page, but of the methods only the longest."""
    paths = sorted(pages_of(demo.folder))
    methods = [path for path in paths if path.startswith("methods/")]
    methods.sort(key=lambda path: (demo.folder / path).stat().st_size)
    return sorted({*paths} - {*methods[:-METHODS]})


def test_sheets_lie_side_by_side_and_a_key_moves_along_them(
    browser: Browser, demo: BuiltSite
) -> None:
    path = "forms/lamb-first-try-ballots.html"
    with opened(browser, demo.home("file"), path, unfolded=False) as page:
        sheets = page.locator(".sheets > .form")
        assert sheets.count() > 2
        tops = sheets.evaluate_all("all => all.map((it) => it.getBoundingClientRect().top)")
        assert len(set(tops)) == 1
        page.locator(".sheets").focus()
        page.keyboard.press("ArrowRight")
        page.wait_for_function("() => document.querySelector('.sheets').scrollLeft > 0")


def test_why_something_is_to_be_done_is_a_line_of_its_own_on_a_phone(
    browser: Browser, demo: BuiltSite
) -> None:
    with opened(browser, demo.home("file"), "index.html", width=360, unfolded=False) as page:
        row = page.locator("#to-do tbody tr").first
        first, why = row.locator("> *").first.bounding_box(), row.locator("td").last.bounding_box()
        assert first is not None
        assert why is not None
        assert why["y"] >= first["y"] + first["height"]
        assert why["width"] > 300
        assert page.get_by_role("row").nth(1).get_by_role("cell").count() > 0


@pytest.mark.parametrize(("width", "height"), [(1280, 800), (360, 740)])
def test_three_actions_are_on_the_first_screen_of_home(
    browser: Browser, demo: BuiltSite, width: int, height: int
) -> None:
    with opened(browser, demo.home("file"), "index.html", width=width, unfolded=False) as page:
        page.set_viewport_size({"width": width, "height": height})
        boxes = [row.bounding_box() for row in page.locator("#to-do tbody tr").all()[:3]]
        ends = [box["y"] + box["height"] for box in boxes if box]
    assert len(ends) == 3
    assert max(ends) <= height
