"""What tables keep in sight on a phone, and what is set side by side."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from tests.site.opened import opened
from tests.site.sites import BuiltSite

PAGES = (
    "index.html",
    "cooks/chuck-roll-30h.html",
    "cooks/turkey-thigh-14h.html",
    "plates/chuck-steak.html",
    "plates/duck-leg-plate.html",
    "swaps/duck-leg-for-breast.html",
    "swaps/chuck-for-ribeye.html",
    "pantry/bone-sauce.html",
    "pantry/butter.html",
    "counts/late-september.html",
    "services/friday-dinner.html",
)
# Of six columns, too: the till, what a guest and a counter bring, what is left over, goods.
SIX = (
    "sales.html",
    "plates/beef-sandwich.html",
    "menus/bun-and-slaw.html",
    "menus/sunday-three-courses.html",
    "buffets.html",
    "pantry/eggs.html",
    "cooks/chuck-roll-42h.html",
    "forms/friday-dinner-order.html",
    "forms/chuck-for-ribeye-decision.html",
)
# The heading of every column that ends right of its table's frame, and what stands first in it.
CUT = """([most, id]) => [...document.querySelectorAll('.scroll > table')].filter((table) =>
    table.checkVisibility() && (id ? table.id === id : table.rows[0].cells.length <= most)
).flatMap((table) => {
    const edge = table.parentElement.getBoundingClientRect().right + 1;
    const body = [...table.tBodies[0].rows].filter((row) => row.cells.length > 1);
    return [...table.rows[0].cells].flatMap((head, at) =>
        head.getBoundingClientRect().right > edge
            ? [[table.id, head.innerText, body.map((row) => row.cells[at].innerText).join(' ')]]
            : []);
})"""


def cut_money(
    browser: Browser,
    demo: BuiltSite,
    path: str,
    table: str = "",
    *,
    most: int = 4,
    sign: str = "$",
) -> list[list[str]]:
    with opened(browser, demo.home("file"), path, width=360) as page:
        return [each for each in page.evaluate(CUT, [most, table]) if sign in each[2]]


@pytest.mark.parametrize("path", PAGES)
def test_all_money_of_a_table_of_four_columns_is_in_sight(
    browser: Browser, demo: BuiltSite, path: str
) -> None:
    assert cut_money(browser, demo, path) == []


@pytest.mark.parametrize("path", SIX)
def test_all_money_of_a_table_of_six_columns_is_in_sight(
    browser: Browser, demo: BuiltSite, path: str
) -> None:
    assert cut_money(browser, demo, path, most=6) == []


@pytest.mark.parametrize("path", ["menus/sunday-three-courses.html", "buffets/staff-party.html"])
def test_what_a_guest_costs_is_in_sight_in_french(
    browser: Browser, french_demo: BuiltSite, path: str
) -> None:
    """Long headings break within a word, where French breaks it."""
    assert cut_money(browser, french_demo, path, most=6, sign="€") == []


def test_a_shade_says_where_more_is_hidden_side_by_side(browser: Browser, demo: BuiltSite) -> None:
    with opened(browser, demo.home("file"), "cuts.html", width=360, unfolded=False) as page:
        for n in range(4):
            page.locator("input.pick").nth(n).check()
        box = page.locator(".beside > .scroll")
        assert box.evaluate("box => box.scrollWidth > box.clientWidth")
        assert "gradient" in box.evaluate("box => getComputedStyle(box).backgroundImage")


def test_the_edge_of_the_next_sheet_is_in_sight(browser: Browser, demo: BuiltSite) -> None:
    path = "forms/chuck-durations-key.html"
    with opened(browser, demo.home("file"), path, width=360) as page:
        frame, second = page.evaluate(
            """[document.querySelector('.sheets').getBoundingClientRect().right,
                document.querySelectorAll('.sheets > .form')[1].getBoundingClientRect().left]"""
        )
        assert second + 8 <= frame


@pytest.mark.parametrize(
    ("path", "table"),
    [
        ("cooks/chuck-roll-30h.html", "loads"),
        ("cooks/turkey-thigh-14h.html", "loads"),
        ("index.html", "best-swaps"),
    ],
)
def test_money_comes_before_what_is_pushed_for(
    browser: Browser, demo: BuiltSite, path: str, table: str
) -> None:
    with opened(browser, demo.home("file"), path, width=360) as page:
        assert page.locator(f"#{table}").count() == 1
    assert cut_money(browser, demo, path, table) == []


def test_what_is_tried_leaves_a_phone_its_page(browser: Browser, demo: BuiltSite) -> None:
    """The strip that stays in sight takes a third of the screen at most; its words open below."""
    with opened(browser, demo.home("file"), PAGES[3], width=360, unfolded=False) as page:
        page.locator("details.try > summary").click()
        page.locator("details.try input[type=range]").first.press("End")
        bar = page.locator("#tried")
        bar.wait_for()
        box = bar.bounding_box()
        assert box is not None
        assert box["height"] < 740 / 3
        bar.locator("summary").click()
        words = bar.locator(".how-near").bounding_box()
        assert words is not None
        assert words["height"] > 40


def test_side_by_side_a_number_ends_below_the_end_of_its_name(
    browser: Browser, demo: BuiltSite
) -> None:
    with opened(browser, demo.home("file"), "cuts.html", unfolded=False) as page:
        for n in range(3):
            page.locator("input.pick").nth(n).check()
        ends = page.locator(".beside tr").evaluate_all(
            """rows => rows.map((row) => [...row.cells].slice(1).map((cell) => {
                const range = document.createRange();
                range.selectNodeContents(cell);
                return Math.round(range.getBoundingClientRect().right);
            }))"""
        )
        assert len(ends) > 4
        heads, *lines = ends
        for line in lines:
            assert all(abs(end - head) <= 2 for end, head in zip(line, heads, strict=True)), line
