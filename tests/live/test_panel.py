"""Pressing numbers and moving inputs on the demo's pages, from disk and over http."""

from __future__ import annotations

import json
import re
from urllib.parse import unquote

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from builder.costing.model import MODEL
from builder.pages.whereabouts import method_path
from tests.site.conftest import demo, script_cache  # noqa: F401 - fixtures
from tests.site.opened import opened, until, violations
from tests.site.sites import BuiltSite, text_of

pytestmark = pytest.mark.browser

PLATE = "plates/chuck-steak.html"
COOK = "cooks/chuck-roll-30h.html"
SWAP = "swaps/top-blade-for-flank.html"


@pytest.fixture(params=["file", "http"])
def home(request: pytest.FixtureRequest, demo: BuiltSite) -> str:  # noqa: F811
    """The demo's address, from disk and over http."""
    return demo.home(request.param)


def panel(page: Page) -> Locator:
    return page.locator("#figure-panel")


def referring(figure: str) -> str:
    """The selector of numbers that are a figure of a name, whatever its table."""
    pages = [method_path((table, figure)) for table in MODEL.tables]
    return ", ".join(f"[href*='{page}'][href*='#']" for page in pages)


def number(page: Page, figure: str) -> Locator:
    """The first number of a page that is a figure of a name."""
    return page.locator("main").locator(referring(figure)).first


def field(page: Page, label: str) -> Locator:
    """A box of the strip of inputs, opened where it is not."""
    strip = page.locator("details.try")
    if strip.get_attribute("open") is None:
        strip.locator("summary").click()
    return strip.get_by_label(label, exact=True)


def attempt(page: Page, label: str, text: str) -> None:
    box = field(page, label)
    box.fill(text)
    box.press("Tab")
    expect(page.locator("#tried")).to_be_visible()


def test_a_number_opens_down_to_the_line_that_it_rests_on(browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE) as page:
        cell = number(page, "food_cost")
        shown = cell.inner_text()
        cell.focus()
        page.keyboard.press("Enter")
        expect(panel(page).locator(".value b")).to_have_text(shown)
        assert (
            "protein cost + further food + food in the sides"
            in panel(page).locator(".how").first.inner_text()
        )
        for _ in range(30):
            if panel(page).locator(".origin a").count():
                break
            panel(page).locator("li button").first.press("Enter")
        written = panel(page).locator(".origin").inner_text()
        link = panel(page).locator(".origin a")
        place = link.inner_text()
        link.click()
        line = page.locator("figure.source li:target")
        expect(line).to_be_in_viewport()
        text = written.removeprefix("Written as ").removesuffix(place).strip()
        assert text in text_of(line.inner_text())
        assert line.get_attribute("id") == f"L{place.split(':')[1]}"


def test_a_time_of_the_core_opens_down_to_the_thickness_and_its_clause(
    browser: Browser, home: str
) -> None:
    with opened(browser, home, COOK) as page:
        cell = number(page, "hold_margin")
        shown = cell.inner_text()
        cell.click()
        expect(panel(page).locator(".value b")).to_have_text(shown)
        panel(page).get_by_role("button", name="Asked hold").click()
        expect(panel(page).locator(".origin")).to_have_text(re.compile(r"^3-401\.11\(B\): "))
        # The method is said beside the clause, and the clause once.
        expect(panel(page).locator(".how").first).not_to_contain_text("3-401.11")
        panel(page).get_by_role("button", name="Back").click()
        panel(page).get_by_role("button", name="Time to core slow").click()
        expect(panel(page)).to_contain_text("Computed when the site was built")
        panel(page).get_by_role("button", name="Thickness", exact=False).first.click()
        expect(panel(page).locator(".origin")).to_contain_text("Written as 85 mm")
        # A box that moves nothing is not offered.
        expect(panel(page).locator(".field")).to_have_count(0)


def test_a_test_of_a_tasting_names_its_own_method_once(browser: Browser, home: str) -> None:
    with opened(browser, home, "tastings/chuck-durations.html") as page:
        number(page, "adjusted_p_value").click()
        how = panel(page).locator(".how").first
        expect(how).not_to_have_text("")
        expect(how).not_to_contain_text("; or ")
        expect(panel(page).locator(".origin")).to_have_count(0)


def test_an_input_that_nothing_is_computed_from_again_is_not_tried(
    browser: Browser, home: str
) -> None:
    with opened(browser, home, f"{COOK}?try=batch:cooks/chuck-roll-30h.thickness*50") as page:
        until(page, "!document.documentElement.classList.contains('trying')")
        expect(page.locator("#tried")).to_be_hidden()


def test_a_longer_cook_has_more_to_spare(browser: Browser, home: str) -> None:
    with opened(browser, home, COOK) as page:
        number(page, "cook_hours").click()
        box = panel(page).get_by_label("Try another value", exact=True)
        box.fill("40")
        box.press("Tab")
        expect(number(page, "hold_margin")).to_have_class(re.compile("more"))
        expect(number(page, "time_to_core_slow")).not_to_have_class(re.compile("moved"))


def test_escape_closes_and_back_goes_a_step_up(browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE) as page:
        cell = number(page, "food_cost")
        cell.click()
        first = panel(page).locator("h2").inner_text()
        panel(page).locator("li button").first.click()
        expect(panel(page).locator("h2")).not_to_have_text(first)
        panel(page).get_by_role("button", name="Back").click()
        expect(panel(page).locator("h2")).to_have_text(first)
        expect(panel(page).locator("h2")).to_be_focused()
        page.keyboard.press("Escape")
        expect(panel(page)).to_be_hidden()
        expect(cell).to_be_focused()
        assert page.url.endswith(PLATE)


def test_moving_the_wage_moves_the_page_and_goes_along(browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE) as page:
        cell = number(page, "full_cost")
        before = cell.inner_text()
        attempt(page, "Loaded wage", "49")
        expect(cell).to_have_class(re.compile("moved"))
        after = text_of(cell.inner_html())
        assert after != before
        assert f"as written: {before}" == cell.get_attribute("title")
        assert "try=kitchen" in unquote(page.url)
        page.reload()
        expect(cell).to_have_text(after)
        page.get_by_role("navigation", name="Site").get_by_text("Swaps").click()
        page.wait_for_url("**/swaps.html?try=*")
        expect(page.locator("#tried")).to_contain_text("Loaded wage")
        expect(page.locator("main .moved").first).to_be_visible()
        page.get_by_role("button", name="Reset").click()
        expect(page.locator("#tried")).to_be_hidden()
        expect(page.locator("main .moved")).to_have_count(0)
        assert "try" not in page.url


def test_write_this_down_names_the_line_and_what_to_write(browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE) as page:
        attempt(page, "Loaded wage", "30")
        page.locator("#tried summary").click()
        line = page.locator("#tried details li")
        expect(line.locator("a")).to_have_text(re.compile(r"^kitchen\.yaml:\d+:\d+$"))
        old, new = line.locator("del").inner_text(), line.locator("ins").inner_text()
        assert re.sub(r"[\d.]+", "30", old, count=1) == new


@pytest.mark.parametrize(
    ("limit", "ends"),
    [
        ("break_even_ap_price", "saving"),
        ("break_even_wage", "saving"),
        ("equal_margin_ap_price", "margin_change"),
        ("equal_margin_wage", "margin_change"),
    ],
)
def test_a_limit_can_be_tried_and_leaves_nothing(
    limit: str, ends: str, browser: Browser, home: str
) -> None:
    with opened(browser, home, SWAP) as page:
        cell = page.locator("td").filter(has=page.locator(referring(limit))).first
        cell.get_by_role("button", name="Try it").click()
        expect(page.locator("#tried")).to_be_visible()
        # No finer than its interval: dollars where that is dollars wide.
        expect(number(page, ends)).to_have_text(re.compile(r"^−?\$0(\.0+)?(?![.\d])"))


def test_pictures_follow(browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE) as page:
        picture = "document.querySelector('#waterfall .plot svg').innerHTML"
        before = page.evaluate(picture)
        attempt(page, "Portion", "360")
        until(page, f"{picture} !== {json.dumps(before)}")


def test_a_text_that_is_no_number_is_refused_and_moves_nothing(browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE) as page:
        box = field(page, "Loaded wage")
        box.fill("a lot")
        box.press("Tab")
        expect(box).to_have_attribute("aria-invalid", "true")
        expect(page.locator("#tried")).to_be_hidden()


def test_an_address_of_nothing_is_passed_over(browser: Browser, home: str) -> None:
    with opened(browser, home, f"{PLATE}?try=plate:plates/gone.portion*0.2,nonsense") as page:
        expect(page.locator("#tried")).to_be_hidden()
        expect(page.locator("main .moved")).to_have_count(0)


@pytest.mark.parametrize("width", [360, 1280])
def test_the_panel_and_the_strip_meet_the_standard(width: int, browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE, width=width) as page:
        attempt(page, "Loaded wage", "30")
        number(page, "food_cost").click()
        expect(panel(page)).to_be_visible()
        assert violations(page) == []


def test_nothing_of_it_is_printed(browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE) as page:
        attempt(page, "Loaded wage", "30")
        number(page, "food_cost").click()
        page.emulate_media(media="print")
        for part in ("#figure-panel", "#tried", "details.try"):
            expect(page.locator(part)).to_be_hidden()


def test_without_scripts_a_number_leads_to_its_method(browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE, scripts=False) as page:
        number(page, "food_cost").click()
        page.wait_for_url("**/methods/plate-food-cost.html#*")


def test_paper_shows_what_is_written(browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE) as page:
        cell = number(page, "full_cost")
        before = text_of(cell.inner_html())
        attempt(page, "Loaded wage", "49")
        expect(cell).to_have_class(re.compile("moved"))
        after = text_of(cell.inner_html())
        page.evaluate("dispatchEvent(new Event('beforeprint'))")
        assert text_of(cell.inner_html()) == before
        page.evaluate("dispatchEvent(new Event('afterprint'))")
        assert text_of(cell.inner_html()) == after


@pytest.mark.parametrize(
    ("label", "text"),
    [
        ("Loaded wage", "-3"),
        ("Loaded wage", "16,32"),
        ("Loaded wage", "1e9"),
        ("Loaded wage", ""),
        ("Chuck roll 30h: left after cook", "120"),
        ("Chuck roll 30h: left after cook", "0"),
    ],
)
def test_what_nobody_can_write_is_refused_in_words(
    label: str, text: str, browser: Browser, home: str
) -> None:
    with opened(browser, home, PLATE) as page:
        box = field(page, label)
        box.fill(text)
        box.press("Tab")
        expect(box).to_have_attribute("aria-invalid", "true")
        expect(page.locator(".field .wrong").filter(has_text="Write")).to_have_count(1)
        expect(page.locator("#tried")).to_be_hidden()


def test_a_box_put_back_tries_nothing(browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE) as page:
        label = "Chuck roll 30h: left after cook"
        shown = field(page, label).input_value()
        attempt(page, label, "60")
        box = field(page, label)
        box.fill(shown)
        box.press("Tab")
        expect(page.locator("#tried")).to_be_hidden()


def test_a_tried_yield_says_what_was_used_as_written(browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE) as page:
        label = "Chuck roll 30h: left after cook"
        used = float(field(page, label).input_value())
        attempt(page, label, "60")
        expect(page.locator("#tried small")).to_have_text(f"as written: {used:.1f}%")


def test_words_that_do_not_follow_are_marked(browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE) as page:
        words = page.locator("#how-sure p.written")
        marks = "all => all.map((each) => getComputedStyle(each, '::before').content)"
        assert words.count() > 0
        assert not any("As written" in mark for mark in words.evaluate_all(marks))
        attempt(page, "Loaded wage", "40")
        assert all("As written" in mark for mark in words.evaluate_all(marks))
        expect(page.locator("#how-sure figure")).to_have_class(re.compile("as-written"))
        expect(page.locator("#tried")).to_contain_text(
            "Ends of intervals and chances follow along straight lines"
        )


def test_the_open_panel_follows_the_strip(browser: Browser, home: str) -> None:
    with opened(browser, home, PLATE) as page:
        attempt(page, "Loaded wage", "30")
        number(page, "full_cost").click()
        value = panel(page).locator(".value b")
        first = value.inner_text()
        box = page.locator("details.try").get_by_label("Loaded wage", exact=True)
        box.fill("60")
        box.dispatch_event("change")
        expect(value).not_to_have_text(first)
        page.locator("body").press("Escape")
        expect(panel(page)).to_be_hidden()


def test_a_button_of_the_bar_stays_while_values_move(browser: Browser, home: str) -> None:
    """A press is not lost where the pointer goes down before the bar follows and up after."""
    with opened(browser, home, PLATE) as page:
        attempt(page, "Loaded wage", "30")
        pressed = page.locator("#tried ul button").first.element_handle()
        attempt(page, "Portion", "360")
        expect(page.locator("#tried > ul > li")).to_have_count(2)
        assert pressed is not None
        assert pressed.evaluate("button => button.isConnected")
        attempt(page, "Loaded wage", "31")
        expect(page.locator("#tried > ul > li").first).to_contain_text("31")
        assert pressed.inner_text().endswith("$31.00/h")


def test_a_what_if_goes_along_to_a_file_s_line_and_through_search(
    browser: Browser, home: str
) -> None:
    with opened(browser, home, PLATE) as page:
        attempt(page, "Loaded wage", "30")
        page.locator("#tried ul button").first.click()
        assert "try=" in (panel(page).locator(".origin a").get_attribute("href") or "")
        page.keyboard.press("Escape")
        page.keyboard.press("/")
        page.keyboard.type("ribeye")
        page.locator("[data-url]").first.wait_for()
        page.keyboard.press("Enter")
        page.wait_for_url("**try=*")
        expect(page.locator("#tried")).to_be_visible()


@pytest.mark.parametrize(
    "name", ["plate:plates/chuck-steak.full_cost", "kitchen:kitchen.constructor"]
)
def test_what_is_no_input_is_not_tried(name: str, browser: Browser, home: str) -> None:
    with opened(browser, home, f"{PLATE}?try={name}*1") as page:
        until(page, "!document.documentElement.classList.contains('trying')")
        expect(page.locator("#tried")).to_be_hidden()
