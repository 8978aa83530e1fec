"""The demo's site in Firefox, opened from disk and over http: a second engine reads it too.

What is looked at in all its ways is looked at in Chromium; here one page of every kind, and
everything on a page that a script does, once.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from axe_playwright_python.base import AXE_SCRIPT  # type: ignore[import-untyped]

from tests.bidi import Session, Tab, opened
from tests.site.opened import DRAWN, UNFOLD, WCAG
from tests.site.sites import ROOT, BuiltSite, examples, typical
from tests.site.test_heights import MOST, OTHER_FONTS, TALL

pytestmark = pytest.mark.browser

PLATE = "plates/chuck-steak.html"
SHARES = 4
# Firefox complains of a script that was still on its way when the page is left.
FETCHED = "('drawChart' in globalThis || !document.querySelector('figure[data-kind]'))"


@pytest.fixture(params=["file", "http"])
def home(request: pytest.FixtureRequest, demo: BuiltSite) -> str:
    """The demo's address, from disk and over http."""
    return demo.home(request.param)


# Every kind of page


@pytest.mark.parametrize("share", range(SHARES))
def test_every_kind_of_page_loads_is_short_and_fits_a_phone(
    firefox: Session, home: str, demo: BuiltSite, share: int
) -> None:
    """`opened` fails on a console message, a violation of the policy, an outside request."""
    paths = list(examples(demo.folder).values())[share::SHARES]
    faults = []
    with opened(firefox, home, "notices.html") as tab:
        for path in paths:
            tab.go(f"{home}/{path}")
            for width, most in MOST.items():
                tab.size(width)
                tab.until(f"({DRAWN}) && {FETCHED}")
                tall, wide = tab.run(f"[{TALL}, document.documentElement.scrollWidth]")
                if tall > most * OTHER_FONTS or wide > width:
                    faults.append((path, width, tall, wide))
    assert faults == []


@pytest.mark.parametrize("share", range(SHARES))
def test_axe_finds_nothing(firefox: Session, demo: BuiltSite, share: int) -> None:
    kinds = typical(demo.folder)
    paths = [path for kind, path in kinds.items() if not kind.startswith("forms")][share::SHARES]
    found = {}
    with opened(firefox, demo.home("file"), "notices.html") as tab:
        for path in paths:
            tab.go(f"{demo.home('file')}/{path}")
            unfold(tab)
            found[path] = violations(tab)
    assert {path: faults for path, faults in found.items() if faults} == {}


def unfold(tab: Tab) -> None:
    """Open all parts of a page, and wait until nothing moves any more."""
    tab.run(UNFOLD)
    tab.until(f"({DRAWN}) && {FETCHED}")


def violations(tab: Tab) -> list[list[object]]:
    """What axe finds: each rule, and where it fails."""
    tab.run(f"(() => {{ {AXE_SCRIPT} }})()")
    places = "fault.nodes.map((node) => node.html.slice(0, 120))"
    listed = f"found.violations.map((fault) => [fault.id, {places}])"
    found: list[list[object]] = tab.run(f"axe.run({json.dumps(WCAG)}).then((found) => {listed})")
    return found


@pytest.mark.parametrize(
    "line", ["<script>1</script>", '<img src="http://127.0.0.1:9/x.png">', "<p style='color: red'>"]
)
def test_a_page_that_breaks_the_policy_is_noticed(
    firefox: Session, demo: BuiltSite, tmp_path: Path, line: str
) -> None:
    """The check itself: a script in the page, a picture from elsewhere, a style in the page."""
    broken = demo.text("notices.html").replace("</main>", f"{line}</main>")
    (tmp_path / "notices.html").write_text(broken, encoding="utf-8")
    with (
        pytest.raises(AssertionError, match="Content-Security-Policy"),
        opened(firefox, tmp_path.as_uri(), "notices.html"),
    ):
        pass


def test_a_file_that_is_not_there_is_noticed(firefox: Session, demo: BuiltSite) -> None:
    with (
        pytest.raises(AssertionError, match="404"),
        opened(firefox, demo.http, "notices.html") as tab,
    ):
        tab.run("Page.script('nothing.js').catch(() => 0)")


# What scripts do


def test_a_number_opens_its_panel_and_escape_closes_it(firefox: Session, home: str) -> None:
    with opened(firefox, home, PLATE) as tab:
        number = "main [href*='plate-food-cost.html'][href*='#']"
        unfold(tab)
        shown = tab.text(number)
        tab.click(number)
        tab.until("document.querySelector('#figure-panel .value b')")
        assert tab.text("#figure-panel .value b") == shown
        assert "protein cost + further food + food in the sides" in tab.text("#figure-panel .how")
        tab.click("#figure-panel li button")
        tab.until(f"document.querySelector('#figure-panel .value b').innerText !== {shown!r}")
        tab.type("Escape")
        tab.until("document.querySelector('#figure-panel').hidden")
        assert tab.run(f"document.activeElement === document.querySelector({json.dumps(number)})")


def test_what_is_tried_moves_numbers_and_is_in_the_address(firefox: Session, home: str) -> None:
    with opened(firefox, home, PLATE) as tab:
        margin = "main [href*='plate-contribution-margin.html'][href*='#']"
        unfold(tab)
        before = tab.text(margin)
        tab.click("details.try summary")
        tab.until("document.querySelector('details.try input')")
        tab.run("document.querySelector('details.try input').select()")
        tab.run("document.querySelector('details.try input').focus()")
        tab.type("99", "Tab")
        tab.until("!document.querySelector('#tried').hidden")
        tab.until(f"document.querySelector({json.dumps(margin)}).matches('.more')")
        assert tab.text(margin) != before
        tab.until("location.search.includes('try=')")
        tab.go(tab.run("location.href"))
        tab.until(f"document.querySelector({json.dumps(margin)}).matches('.more')")


def test_search_forgives_and_leads_there(firefox: Session, home: str) -> None:
    with opened(firefox, home, PLATE) as tab:
        tab.type("/")
        tab.until("document.activeElement.matches('[type=search], [role=combobox]')")
        tab.type("beef chukc rol")
        tab.until("document.querySelector('[role=option]')?.innerText.includes('Beef chuck roll')")
        assert tab.run("location.search") == "?search=beef+chukc+rol"
        tab.type("Enter")
        tab.until("location.pathname.endsWith('cuts/beef-chuck-roll.html')")


def test_the_menu_is_filtered_and_sorted_from_the_keyboard(firefox: Session, home: str) -> None:
    with opened(firefox, home, "menu.html") as tab:
        every = rows(tab)
        tab.run("document.querySelector('[aria-controls=plates]').focus()")
        tab.type("mash")
        tab.until("location.search.includes('plates.q=mash')")
        some = rows(tab)
        assert 2 <= len(some) < len(every)
        head = "#plates thead th.num[data-key]"
        tab.run(f"document.querySelector('{head} button').focus()")
        tab.type("Enter")
        tab.until("location.search.includes('plates.sort=-')")
        assert tab.run(f"document.querySelector('{head}').ariaSort") == "descending"
        shown = rows(tab)
        assert sorted(shown) == sorted(some)
        column = tab.run(f"document.querySelector('{head}').cellIndex") + 1
        keys = tab.run(
            f"[...document.querySelectorAll('#plates tbody tr > :nth-child({column})')]"
            ".filter((cell) => cell.checkVisibility()).map((cell) => parseFloat("
            "cell.innerText.replace(/[^0-9.]/g, '')))"
        )
        assert keys == sorted(keys, reverse=True)
        assert len(set(keys)) > 1
        tab.go(tab.run("location.href"))
        assert rows(tab) == shown


def rows(tab: Tab) -> list[str]:
    """The names of the plates that the menu's table shows."""
    names: list[str] = tab.run(
        "[...document.querySelectorAll('#plates tbody th')]"
        ".filter((cell) => cell.checkVisibility()).map((cell) => cell.innerText)"
    )
    return names


# Where there is no Firefox


def test_that_nothing_was_looked_at_in_firefox_is_said_loudly(tmp_path: Path) -> None:
    one = "test_a_file_that_is_not_there_is_noticed"
    assert "NOT TESTED IN FIREFOX" in without_firefox(tmp_path, "-k", one, "-n", "1")


def without_firefox(tmp_path: Path, *arguments: str) -> str:
    """What the tests of this file print where no program is to be found."""
    command = [sys.executable, "-m", "pytest", __file__, "-p", "no:cacheprovider", *arguments]
    variables = {**os.environ, "PATH": str(tmp_path)}
    ended = subprocess.run(
        command, cwd=ROOT, env=variables, capture_output=True, text=True, check=False
    )
    assert ended.returncode == 0, ended.stdout + ended.stderr
    return ended.stdout
