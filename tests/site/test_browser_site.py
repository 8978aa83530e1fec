"""The demo kitchen's site in a real browser, opened from disk and over http.

Which pages are looked at follows from the built site itself (`examples`), so that a
new kind of page is looked at without anybody thinking of it.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from urllib.parse import unquote

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.picture import SIZE, take
from tests.site.opened import drawn, opened, sheets_of, until, violations
from tests.site.sites import ROOT, BuiltSite, examples, kinds_of, pages_of, typical

pytestmark = pytest.mark.browser

ARTIFACTS = ROOT / "tests" / "artifacts"
PLATE = "plates/chuck-steak.html"
LISTED = {
    "index.html", "menu.html", "swaps.html", "swaps", "cuts.html", "cuts", "cooks.html", "cooks",
    "pantry.html", "pantry", "plates", "kitchen.html", "prices.html", "methods.html", "methods",
    "writing.html", "writing", "data.html", "forms yield-test", "forms cooking-loss",
    "forms blank-yield-test", "forms blank-cooking-loss", "sources.html", "notices.html",
}  # fmt: skip
"""Kinds of page that the site must have; that it may have more is the point of deriving them."""


@pytest.fixture(params=["file", "http"])
def home(request: pytest.FixtureRequest, demo: BuiltSite) -> str:
    """The demo's address, from disk and over http."""
    return demo.home(request.param)


@pytest.fixture(scope="session")
def pages(demo: BuiltSite) -> dict[str, str]:
    """Example pages by kind."""
    return examples(demo.folder)


def arrive(page: Page, home: str, path: str) -> None:
    """Wait for a page of the site, whatever its query and anchor."""
    page.wait_for_url(re.compile(re.escape(f"{home}/{path}") + r"([?#].*)?$"))


# Every kind of page


def test_every_kind_of_page_has_an_example(pages: dict[str, str]) -> None:
    assert {kind.partition(",")[0] for kind in pages} >= LISTED


def test_no_page_scrolls_sideways_on_a_phone_or_complains(
    browser: Browser, home: str, pages: dict[str, str]
) -> None:
    """`opened` fails on a console message, a violation of the policy, an outside request."""
    widths = {}
    for path in pages.values():
        with opened(browser, home, path, width=360) as page:
            widths[path] = page.evaluate("document.documentElement.scrollWidth")
    assert {path: width for path, width in widths.items() if width > 360} == {}


@pytest.mark.parametrize(
    "path",
    ["menu", "swaps", "cuts", "cooks", "pantry", "prices", "counts", "set-menus", "try-next"],
)
def test_the_first_money_of_a_list_is_in_sight_on_a_phone(
    browser: Browser, demo: BuiltSite, path: str
) -> None:
    """A list is wider than a phone; what it is read for is beside the name, not behind it."""
    ends = (
        "[...document.querySelectorAll('.scroll > table')].filter((each) => each.checkVisibility())"
        ".map((each) => [...each.tBodies[0].rows[0].cells].find((cell) => /\\$[0-9]/.test("
        "cell.textContent))).filter(Boolean).map((cell) => cell.getBoundingClientRect().right)"
    )
    with opened(browser, demo.home("file"), f"{path}.html", width=360) as page:
        found = page.evaluate(ends)
    assert found and max(found) <= 360


def test_a_box_is_a_stop_for_the_keyboard_only_where_it_scrolls(
    browser: Browser, home: str
) -> None:
    stops = (
        "[...document.querySelectorAll('.scroll')].filter((box) => box.checkVisibility())"
        ".map((box) => [box.tabIndex, box.scrollWidth > box.clientWidth])"
    )
    with opened(browser, home, "allergens.html", width=1600) as page:
        # A box of a part that is opened only now is measured in the next frame.
        until(page, "[...document.querySelectorAll('.scroll')].every((box) => box.tabIndex < 0)")
        assert {tuple(each) for each in page.evaluate(stops)} == {(-1, False)}
        page.set_viewport_size({"width": 360, "height": 900})
        until(page, "document.querySelector('.scroll').tabIndex === 0")
        assert {tuple(each) for each in page.evaluate(stops)} <= {(-1, False), (0, True)}


@pytest.mark.parametrize("part", range(4))
def test_axe_finds_nothing_in_light_or_dark(browser: Browser, demo: BuiltSite, part: int) -> None:
    """Only colours differ between the schemes, so the second look is at contrast alone.

    The time that it takes grows with the page, so the longest pages are left out; it is the
    longest of all tests, so that it comes in parts that processes can share.
    """
    found = {}
    for path in list(typical(demo.folder).values())[part::4]:
        with opened(browser, demo.home("file"), path) as page:
            light = violations(page)
            page.emulate_media(color_scheme="dark")
            found[path] = light + violations(page, "color-contrast")
    assert {path: faults for path, faults in found.items() if faults} == {}


@pytest.mark.parametrize("line", ["<script>1</script>", '<img src="http://127.0.0.1:9/x.png">'])
def test_a_page_that_breaks_the_policy_is_noticed(
    browser: Browser, demo: BuiltSite, tmp_path: Path, line: str
) -> None:
    """The check itself: a script in the page, a picture from elsewhere."""
    broken = demo.text("notices.html").replace("</main>", f"{line}</main>")
    (tmp_path / "notices.html").write_text(broken, encoding="utf-8")
    for name in ("style.css", "page.js", "search.js", "icon.svg"):
        (tmp_path / "assets").mkdir(exist_ok=True)
        (tmp_path / "assets" / name).write_bytes((demo.folder / "assets" / name).read_bytes())
    with (
        pytest.raises(AssertionError, match="notices"),
        opened(browser, tmp_path.as_uri(), "notices.html") as page,
    ):
        page.wait_for_timeout(100)


# Search


@pytest.mark.parametrize(
    ("typed", "name", "kind", "path"),
    [
        ("chukc rol", "Beef chuck roll", "cut", "cuts/beef-chuck-roll.html"),
        ("116A", "Beef chuck roll", "cut", "cuts/beef-chuck-roll.html"),
        ("harow lane", "Beef chuck roll", "cut", "cuts/beef-chuck-roll.html"),
        ("anchovies", "Salsa verde", "sub-recipe", "pantry/salsa-verde.html"),
        ("ribye pepper", "Ribeye with pepper sauce", "plate", "plates/ribeye-steak.html"),
        ("friday diner", "Friday dinner", "service", "services/friday-dinner.html"),
    ],
    ids=["misspelt", "IMPS number", "supplier", "ingredient", "misspelt plate", "service"],
)
def test_search_leads_there(
    browser: Browser, home: str, typed: str, name: str, kind: str, path: str
) -> None:
    with opened(browser, home, PLATE) as page:
        page.keyboard.press("/")
        page.keyboard.type(typed)
        options = page.locator("[role=option]")
        wanted = options.filter(has_text=name).filter(has_text=re.compile(rf"{kind}$"))
        expect(wanted).to_have_count(1)
        while page.locator("[role=option][aria-selected=true]").inner_text() != wanted.inner_text():
            page.keyboard.press("ArrowDown")
        page.keyboard.press("Enter")
        arrive(page, home, path)
        assert name in page.locator("h1").inner_text()


def test_enter_alone_takes_the_nearest(browser: Browser, home: str) -> None:
    with opened(browser, home, "index.html") as page:
        page.keyboard.press("/")
        page.keyboard.type("beef chukc")
        expect(page.locator("[role=option]").first).to_contain_text("Beef chuck roll")
        page.keyboard.press("Enter")
        arrive(page, home, "cuts/beef-chuck-roll.html")


# Pictures


def pictured(demo: BuiltSite) -> dict[tuple[str, str], str]:
    """The largest page of each kind for each kind of picture on it."""
    found: dict[tuple[str, str], str] = {}
    for kind, paths in kinds_of(pages_of(demo.folder)).items():
        for path in sorted(paths, key=lambda path: len(demo.text(path))):
            for picture in re.findall(r"data-kind=([\w-]+)", demo.text(path)):
                found[kind, picture] = path
    return found


def test_pictures_are_drawn_and_name_their_units(browser: Browser, demo: BuiltSite) -> None:
    found = pictured(demo)
    assert {kind for kind, _ in found} >= {"cooks", "plates", "swaps", "menu.html"}
    faults = []
    for path in dict.fromkeys(found.values()):
        with opened(browser, demo.home("file"), path) as page:
            for figure in page.locator("figure[data-kind]").all():
                faults += [f"{path}: {fault}" for fault in faults_of(figure)]
    assert faults == []


def faults_of(figure: Locator) -> list[str]:
    """What is wrong with a picture: not drawn, without marks, an axis without its unit."""
    name = f"#{figure.get_attribute('id')}"
    if figure.get_attribute("data-drawn") != "yes":
        return [f"{name} is not drawn"]
    marks = "svg .role-mark :is(path, rect, text, line)"
    words = figure.locator("svg text").all_text_contents()
    units = json.loads(figure.locator("> script").inner_text())["units"]
    faults = [f"{name} does not say {unit!r}" for unit in units.values() if unit not in words]
    if figure.locator(marks).count() < 2:
        faults.append(f"{name} has no marks")
    if odd := [word for word in words if re.search(r"NaN|undefined|null|Infinity", word)]:
        faults.append(f"{name} says {odd}")
    return faults


# Lists by keyboard


def first_column(page: Page, table: str) -> list[str]:
    return page.locator(f"#{table} tbody th").all_inner_texts()


def tab_to(page: Page, target: Locator) -> None:
    """Press Tab until the element has the focus."""
    for _ in range(200):
        if target.evaluate("(e) => e === document.activeElement"):
            return
        page.keyboard.press("Tab")
    raise AssertionError("Tab does not lead there")


def test_a_list_is_sorted_by_keyboard_and_stays_so(browser: Browser, home: str) -> None:
    with opened(browser, home, "cuts.html") as page:
        table = page.locator("table.list").first.get_attribute("id") or ""
        head = page.locator(f"#{table} th.num[data-key]").first
        column = head.evaluate("(e) => e.cellIndex")
        before = first_column(page, table)
        tab_to(page, head.locator("button"))
        page.keyboard.press("Enter")
        assert head.get_attribute("aria-sort") == "descending"
        shown = first_column(page, table)
        assert sorted(shown) == sorted(before)
        cells = f"#{table} tbody tr > :nth-child({column + 1})"
        texts = page.locator(cells).all_inner_texts()
        values = [float(re.sub(r"[^\d.]", "", text)) for text in texts]
        assert values == sorted(values, reverse=True)
        assert len(set(values)) > 3
        page.wait_for_url(f"**{table}.sort=-*")
        page.reload()
        assert first_column(page, table) == shown
        assert page.locator(f"#{table} th[aria-sort=descending]").count() == 1


def test_a_list_is_filtered_by_keyboard_and_stays_so(browser: Browser, home: str) -> None:
    with opened(browser, home, "cuts.html") as page:
        box = page.get_by_label("Show rows with").first
        table = box.get_attribute("aria-controls") or ""
        tab_to(page, box)
        page.keyboard.type("lamb")
        shown = first_column(page, table)
        assert 2 <= len(shown) < 8
        page.wait_for_url(f"**{table}.q=lamb*")
        page.reload()
        assert first_column(page, table) == shown
        assert box.input_value() == "lamb"


# From a warning to its line


def test_the_line_of_a_warning_is_marked(browser: Browser, home: str) -> None:
    with opened(browser, home, "index.html") as page:
        warning = page.locator("#warnings .notice").first
        place = warning.locator(".place a").inner_text()
        warning.locator(".place a").click()
        line = page.locator("figure.source li:target")
        expect(line).to_be_in_viewport()
        number = place.rsplit(":", 2)[1]
        assert line.get_attribute("id") == f"L{number}"
        assert unquote(page.url).endswith(f"L{number}")


# Paper


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_sheet_prints_on_one_page(
    browser: Browser, demo: BuiltSite, pages: dict[str, str], paper: str
) -> None:
    """The fullest page of each kind of form: a page a sheet, one for two half sheets."""
    counts = {}
    for kind, path in pages.items():
        if not kind.startswith("forms "):
            continue
        with opened(browser, demo.home("file"), path) as page:
            halves = page.locator("section.form.half").count()
            sheets = page.locator("section.form:not(.half)").count() + -(-halves // 2)
            printed = sheets_of(page.pdf(format=paper))
            counts[path] = (sheets, printed)
    assert len(counts) >= 4
    assert {path: pair for path, pair in counts.items() if pair[0] != pair[1]} == {}


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_core_and_cooling_of_a_cook_are_logged_on_one_page(
    browser: Browser, demo: BuiltSite, paper: str
) -> None:
    """Of every cook, with all that is reported of it."""
    logs = sorted(demo.folder.glob("forms/*-log.html"))
    tab = browser.new_page()
    printed: dict[str, int] = {}
    for log in logs:
        tab.goto(log.as_uri())
        printed[log.name] = sheets_of(tab.pdf(format=paper))
    tab.close()
    assert len(printed) > 20
    assert {name: pages for name, pages in printed.items() if pages != 1} == {}


# The README's picture


def test_the_picture_for_the_readme(browser: Browser, demo: BuiltSite) -> None:
    ARTIFACTS.mkdir(exist_ok=True)
    file = ARTIFACTS / "screenshot.png"
    take(browser, demo.home("file"), file)
    data = file.read_bytes()
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    assert tuple(int.from_bytes(data[n : n + 4], "big") for n in (16, 20)) == SIZE
    assert 20_000 < len(data) < 250_000  # an empty page of this size takes some 5 kB


def test_pictures_are_drawn_again_after_going_back(browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE) as page:
        page.locator("nav.crumbs a").first.click()
        arrive(page, home, "menu.html")
        page.go_back()
        drawn(page)
        assert page.locator("figure[data-drawn=yes] svg").count() >= 1
