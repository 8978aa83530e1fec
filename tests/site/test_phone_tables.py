"""What tables keep in sight on a phone, and what is set side by side."""

from __future__ import annotations

from collections.abc import Iterable

import pytest
from playwright.sync_api import Browser

from tests.site.opened import opened, unfold
from tests.site.sites import BuiltSite

SECOND = "plates/chuck-steak.html"
# The heading of every column that ends right of its table's frame, and what stands first in it.
CUT = """(id) => [...document.querySelectorAll('.scroll > table')].filter((table) =>
    table.checkVisibility() && (!id || table.id === id)
).flatMap((table) => {
    const edge = table.parentElement.getBoundingClientRect().right + 1;
    const body = [...table.tBodies[0].rows].filter((row) => row.cells.length > 1);
    return [...table.rows[0].cells].flatMap((head, at) =>
        head.getBoundingClientRect().right > edge
            ? [[table.id, head.innerText, body.map((row) => row.cells[at].innerText).join(' ')]]
            : []);
})"""


def cut_money(
    browser: Browser, site: BuiltSite, paths: Iterable[str], table: str = "", *, sign: str = "$"
) -> list[list[str]]:
    """Where money is to be pushed for: the page, the table, its heading and what is in it."""
    found = []
    # One page for all of them, without the pictures, which hold no table.
    context = browser.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.route("**/assets/charts*", lambda route: route.abort())
    for path in paths:
        page.goto(f"{site.home('file')}/{path}")
        unfold(page)
        found += [[path, *each] for each in page.evaluate(CUT, table) if sign in each[2]]
    context.close()
    return found


def _with_money(site: BuiltSite, sign: str) -> list[str]:
    """Every page with an amount in a table, but the methods', which explain numbers."""
    paths = sorted(site.folder.rglob("*.html"))
    found = [p.relative_to(site.folder).as_posix() for p in paths if sign in p.read_text("utf-8")]
    return [path for path in found if not path.startswith("methods/")]


def test_no_money_of_any_table_is_to_be_pushed_for(browser: Browser, demo: BuiltSite) -> None:
    paths = _with_money(demo, "$")
    assert len(paths) > 150
    assert cut_money(browser, demo, paths) == []


def test_nor_in_french(browser: Browser, french_demo: BuiltSite) -> None:
    """Long headings break within a word, where French breaks it."""
    paths = _with_money(french_demo, "€")
    assert len(paths) > 150
    assert cut_money(browser, french_demo, paths, sign="€") == []


def test_names_and_headings_of_a_stacked_table_are_in_one_order(
    browser: Browser, demo: BuiltSite
) -> None:
    """Each heading ends or begins where its numbers do, in as many lines as a row has."""
    with opened(browser, demo.home("file"), "counts.html", width=360) as page:
        rows = page.locator("#counts tr").evaluate_all(
            """rows => rows.map((row) => [...row.cells].map((cell) => {
                const box = cell.getBoundingClientRect();
                return [Math.round(box.left), Math.round(box.right)];
            }))"""
        )
    head, *lines = rows
    assert len(head) == 10 and all(right <= 360 for _, right in head)
    assert lines and all(line == head for line in lines)


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
    assert cut_money(browser, demo, [path], table) == []


def test_what_is_tried_leaves_a_phone_its_page(browser: Browser, demo: BuiltSite) -> None:
    """The strip that stays in sight takes a third of the screen at most; its words open below."""
    with opened(browser, demo.home("file"), SECOND, width=360, unfolded=False) as page:
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
