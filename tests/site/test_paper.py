"""How many sheets of paper the demo's pages take as they are first opened."""

from __future__ import annotations

from itertools import pairwise

import pytest
from playwright.sync_api import Browser

from tests.site.opened import opened, sheets_of, until
from tests.site.sites import BuiltSite

ONE_SHEET = (
    "index.html",
    "tastings/*.html",
    "forms/*-order.html",
    "forms/*-prep.html",
    "forms/prep-*.html",
)
PLATES = ("plates/chuck-steak.html", "plates/ribeye-steak.html", "plates/side-mash.html")
# Those with most to say: cautions of a cook, the most lines of cost.
FULL_PLATES = (
    "plates/beef-sandwich.html",
    "plates/eye-of-round-tonnato.html",
    "plates/pork-butt-plate.html",
    "plates/surf-and-turf.html",
)


def printed(browser: Browser, demo: BuiltSite, path: str, paper: str) -> int:
    with opened(browser, demo.home("file"), path, unfolded=False) as page:
        return sheets_of(page.pdf(format=paper))


def of_several(
    browser: Browser, site: BuiltSite, patterns: tuple[str, ...], paper: str
) -> list[str]:
    """Which pages, of at least nine, take more than one sheet."""
    found = sorted(file for pattern in patterns for file in site.folder.glob(pattern))
    paths = [file.relative_to(site.folder).as_posix() for file in found]
    assert len(paths) > 8
    return [path for path in paths if printed(browser, site, path, paper) > 1]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_home_tastings_orders_and_prep_lists_take_one_sheet(
    browser: Browser, demo: BuiltSite, paper: str
) -> None:
    assert of_several(browser, demo, (*ONE_SHEET, *FULL_PLATES), paper) == []


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_in_french_too(browser: Browser, french_demo: BuiltSite, paper: str) -> None:
    """French takes more room; decisions of one challenger and allergens are near a sheet there."""
    plates = (*PLATES, *FULL_PLATES)
    patterns = (*ONE_SHEET, *plates, "forms/chuck-*-decision.html", "forms/allergens.html")
    assert of_several(browser, french_demo, patterns, paper) == []


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_menu_takes_two_sheets_and_its_table_the_width_of_one(
    browser: Browser, demo: BuiltSite, french_demo: BuiltSite, paper: str
) -> None:
    for site in (demo, french_demo):
        assert printed(browser, site, "menu.html", paper) <= 2
        with opened(browser, site.home("file"), "menu.html", unfolded=False) as page:
            page.emulate_media(media="print")
            page.set_viewport_size({"width": 688, "height": 900})
            assert page.locator("#plates").evaluate("it => it.offsetWidth") <= 688


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("path", PLATES)
def test_what_a_plate_costs_stands_beside_its_picture_on_one_sheet(
    browser: Browser, demo: BuiltSite, path: str, paper: str
) -> None:
    assert printed(browser, demo, path, paper) == 1
    with opened(browser, demo.home("file"), path, unfolded=False) as page:
        page.emulate_media(media="print")
        page.set_viewport_size({"width": 688, "height": 900})
        picture, lines = (
            page.locator(f".pair > {it}").bounding_box() for it in (".chart", ".table")
        )
        assert picture is not None
        assert lines is not None
        assert picture["x"] + picture["width"] <= lines["x"]
        assert lines["x"] + lines["width"] <= 688


def test_names_of_a_printed_picture_lie_below_each_other(
    browser: Browser, demo: BuiltSite, french_demo: BuiltSite
) -> None:
    """A name takes more lines in a column of paper than on the screen that it is printed from."""
    for site in (demo, french_demo):
        with opened(browser, site.home("file"), "plates/surf-and-turf.html") as page:
            page.emulate_media(media="print")
            page.evaluate("dispatchEvent(new Event('beforeprint'))")
            until(page, "document.querySelector('.pair svg').getBoundingClientRect().width <= 400")
            boxes = page.locator(".pair svg .role-axis-label text[text-anchor=end]")
            names = boxes.evaluate_all(
                "all => all.map((it) => it.getBoundingClientRect()).filter((it) => it.height)"
                ".map((it) => [it.top, it.bottom]).sort(([one], [other]) => one - other)"
            )
        assert len(names) > 8
        assert all(above[1] <= below[0] for above, below in pairwise(names))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_key_figures_are_one_row_on_paper(browser: Browser, demo: BuiltSite, paper: str) -> None:
    with opened(browser, demo.home("file"), PLATES[0], unfolded=False) as page:
        page.emulate_media(media="print")
        page.set_viewport_size({"width": {"A4": 688, "Letter": 710}[paper], "height": 900})
        tops = page.locator("main > .figures > div").evaluate_all(
            "all => all.map((it) => Math.round(it.getBoundingClientRect().top))"
        )
        assert len(tops) > 4
        assert len(set(tops)) == 1


def test_a_sentence_that_ends_in_a_clock_time_has_one_point(demo: BuiltSite) -> None:
    """Clashes and hours outside the shift name clock times last."""
    words = demo.text("forms/friday-dinner-prep.html")
    assert "p.m.<" in words
    twice = [
        file.relative_to(demo.folder).as_posix()
        for file in demo.folder.rglob("*.html")
        if "m.." in file.read_text(encoding="utf-8")
    ]
    assert twice == []
