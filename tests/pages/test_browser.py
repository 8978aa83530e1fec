"""The gallery in a real browser, opened from disk and over http."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from builder.pages.components import Page as View
from builder.pages.rendering import render, search_data
from tests.pages.chart_examples import CHARTS
from tests.pages.gallery import PAGES, SITE
from tests.site.opened import Scheme, drawn, opened, served, sheets_of, violations

pytestmark = pytest.mark.browser

PATHS = [page.path for page in PAGES]


@pytest.fixture(scope="session")
def http(site: Path) -> Iterator[str]:
    with served(site) as address:
        yield address


@pytest.fixture(params=["file", "http"])
def home(request: pytest.FixtureRequest, site: Path, http: str) -> str:
    return site.as_uri() if request.param == "file" else http


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("path", PATHS)
def test_axe_finds_nothing(browser: Browser, site: Path, path: str, scheme: Scheme) -> None:
    with opened(browser, site.as_uri(), path, scheme=scheme) as page:
        assert violations(page) == []


@pytest.mark.parametrize("path", PATHS)
def test_no_sideways_scroll_on_a_phone(browser: Browser, site: Path, path: str) -> None:
    with opened(browser, site.as_uri(), path, width=360) as page:
        assert page.evaluate("document.documentElement.scrollWidth") == 360


@pytest.mark.parametrize("path", PATHS)
def test_no_sideways_scroll_on_a_desk(browser: Browser, site: Path, path: str) -> None:
    """Hidden words inside sheets that lie side by side are within their strip."""
    with opened(browser, site.as_uri(), path) as page:
        assert page.evaluate("document.documentElement.scrollWidth") == 1280


@pytest.mark.parametrize("path", PATHS)
def test_targets_are_large_enough_on_a_phone(browser: Browser, site: Path, path: str) -> None:
    """Links inside a sentence are exempt, WCAG 2.2 success criterion 2.5.8 [from memory]."""
    script = """() => [...document.querySelectorAll('a, button, summary, input')]
        .filter((e) => e.checkVisibility() && !e.closest('.skip, .prose'))
        .filter((e) => e.getBoundingClientRect().height < 24)
        .map((e) => e.outerHTML.slice(0, 100))"""
    with opened(browser, site.as_uri(), path, width=360) as page:
        assert page.evaluate(script) == []


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("chuck", "Beef chuck roll"),
        ("chcuk rol", "Beef chuck roll"),
        ("ribye", "Ribeye steak"),
        ("116a", "Beef chuck roll"),
        ("tarn", "Beef chuck roll"),
        ("puree", "Celeriac purée"),
        ("celriac buter", "Celeriac purée"),
    ],
)
def test_search_forgives(browser: Browser, site: Path, typed: str, expected: str) -> None:
    with opened(browser, site.as_uri(), "pictures/all/index.html") as page:
        page.keyboard.press("/")
        page.get_by_label("Search by name").fill(typed)
        expect(page.locator("[role=option]").first).to_contain_text(expected)


def test_search_by_keyboard_alone(browser: Browser, home: str) -> None:
    with opened(browser, home, "plates/index.html") as page:
        page.keyboard.press("/")
        page.keyboard.type("steak")
        options = page.locator("[role=option]")
        expect(options).to_have_count(2)
        box = page.get_by_label("Search by name")
        first = box.get_attribute("aria-activedescendant")
        page.keyboard.press("ArrowDown")
        assert box.get_attribute("aria-activedescendant") != first
        page.keyboard.press("ArrowDown")
        assert box.get_attribute("aria-activedescendant") == first
        page.keyboard.press("Escape")
        assert not page.get_by_role("dialog").is_visible()
        page.get_by_role("button", name="Search").click()
        box.fill("celeriac")
        page.keyboard.press("Enter")
        page.wait_for_url("**/notices.html")


def test_axe_finds_nothing_in_the_open_search(browser: Browser, site: Path) -> None:
    with opened(browser, site.as_uri(), "notices.html") as page:
        page.keyboard.press("/")
        page.get_by_label("Search by name").fill("steak")
        assert violations(page) == []


@pytest.mark.parametrize("width", [1280, 360])
def test_axe_finds_nothing_in_rows_side_by_side(browser: Browser, site: Path, width: int) -> None:
    path = "components.html?picked.pick=plate-0,plate-2"
    with opened(browser, site.as_uri(), path, width=width) as page:
        expect(page.locator(".beside th[scope=col]")).to_have_count(2)
        boxes = page.locator("input.pick").evaluate_all(
            "all => all.map((box) => box.getBoundingClientRect().height)"
        )
        assert min(boxes) >= 24
        assert violations(page) == []


def test_a_slash_in_a_field_is_a_slash(browser: Browser, site: Path) -> None:
    with opened(browser, site.as_uri(), "index.html") as page:
        page.locator("#menu-filter").press("/")
        assert page.locator("#menu-filter").input_value() == "/"
        assert page.get_by_role("dialog").count() == 0


def test_ten_thousand_records(browser: Browser, site: Path, tmp_path: Path) -> None:
    names = [(f"Plate {n:05} of shin", "plate", "index.html", f"code {n}") for n in range(9999)]
    for source in site.rglob("*"):
        if source.is_file():
            target = tmp_path / source.relative_to(site)
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(source.read_bytes())
    last = ("Oxtail terrine", "plate", "notices.html", "")
    (tmp_path / "assets" / "search-data.js").write_bytes(search_data([*names, last]))
    with opened(browser, tmp_path.as_uri(), "index.html") as page:
        page.keyboard.press("/")
        page.get_by_label("Search by name").fill("oxtial terine")
        expect(page.locator("[role=option]")).to_have_text(["Oxtail terrine plate"])
        page.get_by_label("Search by name").fill("shin")
        assert page.locator("[role=option]").count() == 30
        assert "9999 pages" in page.locator("dialog [role=status]").inner_text()


def first_column(page: Page, table: str) -> list[str]:
    return page.locator(f"#{table} tbody th").all_inner_texts()


def test_sorting_by_keyboard_is_kept_in_the_address(browser: Browser, home: str) -> None:
    with opened(browser, home, "index.html") as page:
        before = first_column(page, "menu")
        head = page.locator("#menu th[data-key=margin]")
        head.locator("button").press("Enter")
        assert head.get_attribute("aria-sort") == "descending"
        assert first_column(page, "menu")[:2] == ["Ribeye steak", "Lamb neck, barley"]
        head.locator("button").press("Space")
        assert head.get_attribute("aria-sort") == "ascending"
        assert first_column(page, "menu")[0] == "Chicken thigh"
        page.wait_for_url("**menu.sort=margin*")
        page.reload()
        assert first_column(page, "menu")[0] == "Chicken thigh"
        head.locator("button").press("Enter")
        assert head.get_attribute("aria-sort") is None
        assert first_column(page, "menu") == before
        page.wait_for_url(re.compile(r"index\.html$"))


def test_filtering_is_kept_in_the_address(browser: Browser, home: str) -> None:
    with opened(browser, home, "index.html") as page:
        page.get_by_label("Show rows with").first.fill("RAGU")
        assert first_column(page, "menu") == ["Beef shin ragù"]
        assert page.locator("#menu-filter ~ .count").inner_text() == "1 of 6 rows"
        page.wait_for_url("**menu.q=RAGU*")
        page.reload()
        assert first_column(page, "menu") == ["Beef shin ragù"]


def test_long_lists_come_in_short_pages(browser: Browser, site: Path) -> None:
    with opened(browser, site.as_uri(), "index.html") as page:
        pager = page.get_by_role("navigation", name="Pages of 250 plates")
        assert len(first_column(page, "long")) == 25
        for _ in range(9):
            pager.get_by_role("button", name="Next").click()
        assert pager.get_by_role("status").inner_text() == "226–250 of 250"
        assert first_column(page, "long")[-1] == "Plate 0249"
        page.emulate_media(media="print")
        page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
        assert len(first_column(page, "long")) == 250
        # Chromium leaves the boxes of buttons out where it says a heading again on a next sheet.
        boxes = "all => all.map((button) => getComputedStyle(button).display)"
        assert set(page.eval_on_selector_all("#long thead button", boxes)) == {"contents"}


def test_without_scripts_all_rows_show(browser: Browser, site: Path) -> None:
    with opened(browser, site.as_uri(), "index.html", scripts=False) as page:
        assert page.locator("#long tbody tr").last.is_visible()
        assert not page.locator("#long-filter").is_visible()
        assert not page.locator(".find").is_visible()


def test_pictures_are_drawn_with_their_labels(browser: Browser, home: str) -> None:
    with opened(browser, home, "pictures/all/index.html") as page:
        for chart in CHARTS:
            figure = page.locator(f"#{chart.id}")
            assert figure.get_attribute("data-drawn") == "yes"
            label = figure.get_by_role("img").get_attribute("aria-label") or ""
            assert label.replace("\N{NO-BREAK SPACE}", " ") == chart.summary.replace(
                "\N{NO-BREAK SPACE}", " "
            )
            words = figure.locator("svg text").all_text_contents()
            assert set(chart.units.values()) <= set(words)


def test_pictures_fit_a_phone(browser: Browser, site: Path) -> None:
    with opened(browser, site.as_uri(), "pictures/all/index.html", width=360) as page:
        widths = page.eval_on_selector_all(
            ".plot svg", "all => all.map((svg) => svg.getBoundingClientRect().width)"
        )
    assert len(widths) == len(CHARTS)
    assert max(widths) <= 328


def test_no_label_covers_another(browser: Browser, site: Path) -> None:
    scatter = next(chart for chart in CHARTS if chart.kind == "margin-scatter")
    plates = [
        {
            **scatter.rows[n % 6],
            "number": str(n + 1),
            "plate": f"Plate {n}",
            "sold": n * 37 % 101,
            "margin": n * 53 % 17,
        }
        for n in range(30)
    ]
    crowd = replace(scatter, rows=(*plates, scatter.rows[-1]))
    (site / "crowd.html").write_bytes(render(View("crowd.html", "C", "L", (crowd,)), SITE))
    script = """() => [...document.querySelectorAll('.role-mark text')]
        .filter((e) => e.getAttribute('visibility') !== 'hidden')
        .map((e) => e.getBoundingClientRect()).map((b) => [b.left, b.right, b.top, b.bottom])"""
    with opened(browser, site.as_uri(), "crowd.html", width=360) as page:
        boxes = page.evaluate(script)
        key = page.locator("ol.key li").all_inner_texts()
    covering = [
        (a, b)
        for a, b in combinations(boxes, 2)
        if a[0] < b[1] and b[0] < a[1] and a[2] < b[3] and b[2] < a[3]
    ]
    # Thirty names have no room on a phone: every point has its number, and the key its name.
    assert key == [plate["plate"] for plate in plates]
    assert len(boxes) == len(plates) + 4  # the four fields are named in the corners
    assert covering == []


def test_every_point_has_its_name_where_there_is_room(browser: Browser, site: Path) -> None:
    scatter = next(chart for chart in CHARTS if chart.kind == "margin-scatter")
    (site / "named.html").write_bytes(render(View("named.html", "N", "L", (scatter,)), SITE))
    with opened(browser, site.as_uri(), "named.html", width=1280) as page:
        words = page.locator('.role-mark text[visibility="visible"]').all_text_contents()
        expect(page.locator("ol.key")).to_be_hidden()
    assert {str(row["plate"]) for row in scatter.rows if row["role"] == "plate"} < set(words)


def test_figures_are_written_as_the_site_says(browser: Browser, site: Path, tmp_path: Path) -> None:
    page_file = site / "pictures/all/comma.html"
    html = (site / "pictures/all/index.html").read_text()
    page_file.write_text(html.replace("<html lang=en", '<html lang=en data-decimal=","'))
    with opened(browser, site.as_uri(), "pictures/all/comma.html") as page:
        words = page.locator("#example-interval svg text, #example-waterfall svg text")
        assert "." not in "".join(re.findall(r"\d\.\d", " ".join(words.all_text_contents()[:6])))


def test_scripts_leave_one_global_each_and_only_where_others_need_it(
    browser: Browser, site: Path
) -> None:
    script = """() => {
        const frame = document.body.appendChild(document.createElement('iframe'));
        const usual = new Set(Object.getOwnPropertyNames(frame.contentWindow));
        const own = Object.getOwnPropertyNames(window).filter((name) => !usual.has(name));
        frame.remove();
        return own.filter((name) => !/^\\d+$/.test(name));
    }"""
    context = browser.new_context()
    page = context.new_page()
    page.goto((site / "pictures/all/index.html").as_uri())
    drawn(page)
    assert sorted(page.evaluate(script)) == ["Live", "Page", "Pictures", "drawChart"]
    context.close()


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize(("path", "sheets"), [("forms/yield.html", 1), ("forms/two.html", 2)])
def test_every_form_fits_one_sheet(
    browser: Browser, site: Path, paper: str, path: str, sheets: int
) -> None:
    with opened(browser, site.as_uri(), path) as page:
        printed = page.pdf(format=paper)
    assert sheets_of(printed) == sheets


def test_paper_is_light_whatever_the_scheme(browser: Browser, site: Path) -> None:
    with opened(browser, site.as_uri(), "plates/index.html", scheme="dark") as page:
        ground = "getComputedStyle(document.documentElement).backgroundColor"
        assert page.evaluate(ground) == "rgb(25, 22, 19)"
        page.emulate_media(media="print")
        assert page.evaluate(ground) == "rgb(255, 255, 255)"
        assert not page.locator(".masthead nav").is_visible()
