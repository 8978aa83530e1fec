"""Intervals, chances and their picture on the demo's pages, in a real browser."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.live.test_panel import attempt, home, number, panel  # noqa: F401 - a fixture
from tests.site.conftest import demo, script_cache  # noqa: F401 - fixtures
from tests.site.opened import opened, violations

pytestmark = pytest.mark.browser

SWAP = "swaps/chuck-for-ribeye.html"
PLATE = "plates/chuck-steak.html"
CASES = [(SWAP, "saving", "#how-sure-chuck-steak"), (PLATE, "food_cost", "#how-sure")]


def picture(page: Page, sure: str) -> Locator:
    return page.locator(f"{sure} figure[data-kind='range-bars']")


@pytest.mark.parametrize(("path", "figure", "sure"), CASES)
def test_a_tile_says_both_ends_and_the_picture_has_a_bar_for_each(
    browser: Browser,
    home: str,  # noqa: F811
    path: str,
    figure: str,
    sure: str,
) -> None:
    for width in (360, 1280):
        with opened(browser, home, path, width=width) as page:
            low, high = (number(page, f"{figure}_{end}").inner_text() for end in ("low", "high"))
            expect(page.locator("main")).to_contain_text(f"{low} to {high}, 9 times in 10")
            bars = picture(page, sure).locator(".mark-rect.role-mark path")
            names = picture(page, sure).locator("tbody tr")
            assert bars.count() == 2 * names.count() > 4
            boxes = [bar.bounding_box() for bar in bars.all()]
            # The first input's two bars are together the widest.
            wide = [box["width"] if box else 0.0 for box in boxes]
            pairs = [sum(wide[n : n + 2]) for n in range(0, len(wide), 2)]
            assert pairs == sorted(pairs, reverse=True)
            words = picture(page, sure).locator(".mark-text.role-mark text")
            assert words.count() == bars.count()
            hidden = [word for word in words.all() if word.get_attribute("visibility") == "hidden"]
            assert not hidden, width


@pytest.mark.parametrize(("path", "figure", "sure"), CASES)
def test_a_tried_price_moves_ends_and_reset_brings_them_back(
    browser: Browser,
    home: str,  # noqa: F811
    path: str,
    figure: str,
    sure: str,
) -> None:
    names = [figure, f"{figure}_low", f"{figure}_high"]
    if path == SWAP:
        names.append("chance_earns_more")
    with opened(browser, home, path) as page:
        cells = [number(page, name) for name in names]
        before = [cell.inner_text() for cell in cells]
        attempt(page, "Beef chuck roll: AP price", "20")
        for cell, text in zip(cells, before, strict=True):
            expect(cell).to_have_class(re.compile("moved"))
            expect(cell).to_have_attribute("title", f"as written: {text}")
            assert cell.inner_text() != text
            assert "now" not in cell.inner_text()
        page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
        assert [cell.inner_text() for cell in cells] == before
        page.evaluate("window.dispatchEvent(new Event('afterprint'))")
        assert [cell.inner_text() for cell in cells] != before
        assert violations(page) == []
        page.locator("#tried").get_by_role("button", name="Reset").click()
        for cell, text in zip(cells, before, strict=True):
            expect(cell).to_have_text(text)
            expect(cell).not_to_have_attribute("title", f"as written: {text}")


def test_the_keyboard_reaches_an_end_and_opens_its_method(
    browser: Browser,
    home: str,  # noqa: F811
) -> None:
    with opened(browser, home, PLATE) as page:
        number(page, "food_cost").focus()
        page.keyboard.press("Tab")
        end = number(page, "food_cost_low")
        expect(end).to_be_focused()
        shown = end.inner_text()
        page.keyboard.press("Enter")
        expect(panel(page).locator(".value b")).to_have_text(shown)


def test_a_sure_class_gets_its_chance_when_a_price_makes_it_unsure(
    browser: Browser,
    home: str,  # noqa: F811
) -> None:
    """And what the class asks for is marked as written; paper and Reset hide the chance again."""
    with opened(browser, home, "menu.html") as page:
        chances = page.locator("main .chance")
        hidden = [not each.is_visible() for each in chances.all()]
        assert any(hidden) and not all(hidden)
        assert page.locator("main .chance:not([hidden])").count() == hidden.count(False)
        attempt(page, "Beef chuck roll: AP price", "40")
        expect(page.locator("main .chance[hidden]")).not_to_have_count(hidden.count(True))
        now = [each.is_visible() for each in chances.all()]
        risen = [n for n, (was, is_) in enumerate(zip(hidden, now, strict=True)) if was and is_]
        assert risen
        expect(chances.nth(risen[0]).locator(".moved")).to_have_text(re.compile("in 10"))
        page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
        assert [not each.is_visible() for each in chances.all()] == hidden
        page.evaluate("window.dispatchEvent(new Event('afterprint'))")
        todo = page.locator("#plates tbody tr td:last-child")
        assert any(cell.inner_text() for cell in todo.all())
        for cell in todo.all():
            if cell.inner_text():
                expect(cell).to_have_class(re.compile("written"))
        page.locator("#tried").get_by_role("button", name="Reset").click()
        expect(page.locator("main .chance[hidden]")).to_have_count(hidden.count(True))
        attempt(page, "Beef chuck roll: AP price", "40")
        now_sure = chances.nth(risen[0])
        expect(now_sure).to_be_visible()
        said = now_sure.inner_text()
        now_sure.locator("xpath=ancestor::tr").locator("a").first.click()
        expect(page.locator("main .chance")).to_have_text(said)
        expect(page.locator("main .chance")).not_to_have_attribute("hidden", "")
        expect(page.locator("main .chance .moved")).to_have_count(1)


def test_break_even_notes_and_the_pictures_table_say_that_they_are_as_written(
    browser: Browser,
    home: str,  # noqa: F811
) -> None:
    """No cell of the picture's table mixes what was written with what is tried."""
    with opened(browser, home, SWAP) as page:
        table = picture(page, "#how-sure-chuck-steak").locator("tbody tr")
        before = table.all_text_contents()
        cells = page.locator("#limits-chuck-steak tbody td")
        note = cells.filter(has_text="from today's price").first
        mark = "e => getComputedStyle(e, '::before').content"
        assert "as written" not in note.locator(".written").evaluate(mark)
        attempt(page, "Beef chuck roll: AP price", "20")
        assert table.all_text_contents() == before
        expect(table.locator(".now")).to_have_count(0)
        expect(page.locator("#how-sure-chuck-steak-table")).to_have_class(re.compile("written"))
        assert "as written" in note.locator(".written").evaluate(mark)
        expect(picture(page, "#how-sure-chuck-steak")).to_have_class(re.compile("as-written"))
