"""Free pages in the site: the list by folder, the search, the ways back, a real browser."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.kitchens import write
from tests.kitchens.small import SMALL
from tests.site.command import Command
from tests.site.opened import opened, violations
from tests.site.sites import BuiltSite, text_of

PUSH = "notes/how-we-work/friday-push.html"
PAGES = {
    "notes/opening.md": "Baths on, then [[The Friday push]] and [[nowhere]].\n",
    "notes/team/push.md": "---\ntitle: The Friday push\n---\nOf <b>[[chuck-30h]]</b>, zwieback.\n",
}


def test_check_and_build_agree_on_links_that_lead_nowhere(command: Command, tmp_path: Path) -> None:
    root = write(tmp_path / "kitchen", {**SMALL, **PAGES})
    runs = [command("check", root), command("build", root, tmp_path / "site")]
    found = [re.findall(r"notes/\S+: \w+: .*\n.*", ran.reported) for ran in runs]
    assert found[0] == found[1]
    assert [line.partition(" warning: ")[0] for line in found[0]] == ["notes/opening.md:1:40:"]
    page = (tmp_path / "site/notes/opening.html").read_text(encoding="utf-8")
    assert "<a href=../notes/team/push.html>The Friday push</a> and [[nowhere]]." in page
    assert "leads to no record or page" in page


def test_pages_are_listed_by_folder_searched_and_mentioned(
    command: Command, tmp_path: Path
) -> None:
    root = write(tmp_path / "kitchen", {**SMALL, **PAGES})
    assert command("build", root, tmp_path / "site").code == 0
    site = BuiltSite(tmp_path / "site", "")
    index = site.text("notes.html")
    assert text_of(index[index.index("<main") : index.index("<footer")]) == (
        "Notes 2 pages in the kitchen's own words, in 1 folder. Opening Team The Friday push"
    )
    assert "<a href=notes.html>Notes</a>" in site.text("index.html")
    assert '["The Friday push","note","notes/team/push.html","Team Of' in site.text(
        "assets/search-data.js"
    )
    push = site.text("notes/team/push.html")
    assert "Of &lt;b&gt;<a href=../../cooks/chuck-30h.html>Chuck 30h</a>&lt;/b&gt;" in push
    assert "<a href=../../notes/opening.html>Opening</a>" in push
    assert "href=../notes/team/push.html>The Friday push" in site.text("cooks/chuck-30h.html")


def test_a_kitchen_without_free_pages_has_no_list_of_them(command: Command, tmp_path: Path) -> None:
    root = write(tmp_path / "kitchen", SMALL)
    assert command("build", root, tmp_path / "site").code == 0
    assert not (tmp_path / "site/notes.html").exists()
    assert "notes.html" not in (tmp_path / "site/index.html").read_text(encoding="utf-8")


def test_a_log_is_newest_first_and_leaves_out_what_is_later(
    command: Command, tmp_path: Path
) -> None:
    log = "log:\n" + "".join(
        f"  - {{date: 2026-{day}, who: JB, what: W{day}, why: Y{day}}}\n"
        for day in ("03-01", "05-01", "04-01")
    )
    root = write(tmp_path / "kitchen", {**SMALL, "pantry/salt.yaml": f"price: 1.10/kg\n{log}"})
    assert command("build", root, tmp_path / "site", "--as-of", "2026-04-15").code == 0
    page = (tmp_path / "site/pantry/salt.html").read_text(encoding="utf-8")
    part = page[page.index("id=log") : page.index("id=file")]
    assert re.findall(r"[WY]\d\d-\d\d", part) == ["W04-01", "Y04-01", "W03-01", "Y03-01"]
    assert "is left out: 1." in part


@pytest.mark.browser
@pytest.mark.parametrize("width", [360, 1280])
def test_a_free_page_can_be_read_by_everybody(
    browser: Browser, demo: BuiltSite, width: int
) -> None:
    for path in (PUSH, "notes.html", "swaps/duck-leg-for-breast.html"):
        with opened(browser, demo.http, path, width=width) as page:
            assert violations(page) == []
            wide = page.evaluate("document.documentElement.scrollWidth")
            assert wide <= width, path
    with opened(browser, demo.http, PUSH, width=width) as page:
        page.get_by_role("main").get_by_role("link", name="Friday dinner").click()
        page.wait_for_url("**/services/friday-dinner.html")
        back = page.locator("#mentioned-on")
        back.locator("summary").click()
        back.get_by_role("link", name="The Friday push").click()
        page.wait_for_url(f"**/{PUSH}")
