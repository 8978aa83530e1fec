"""Builds from the command line: same bytes, whole or not at all, and nobody else's files."""

from __future__ import annotations

import os
import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from builder import cli
from builder.pages.components import Link, LinkList, Page
from builder.pages.menu import menu_page
from builder.pages.view import View
from builder.publish import MANIFEST
from builder.starter.schemas import header
from tests.site.command import Command, in_process
from tests.site.sites import DEMO, STARTER, BuiltSite, files_of, pages_of

ELSEWHERE = {
    "PYTHONHASHSEED": "4711",
    "TZ": "Pacific/Kiritimati",
    "LC_ALL": "de_DE.UTF-8",
    "LANG": "tr_TR.UTF-8",
    "LANGUAGE": "de",
    "COLUMNS": "20",
    "PYTHONUTF8": "0",
}


@pytest.fixture
def built(command: Command, kitchen: Path) -> Path:
    """The small kitchen's site, published."""
    output = kitchen.parent / "site"
    ran = command("build", kitchen, output, "--as-of", "2026-02-01")
    assert ran.code == 0, ran.reported
    return output


def again(command: Command, kitchen: Path, output: Path) -> str:
    """Build once more for the same day; return what was told."""
    ran = command("build", kitchen, output, "--as-of", "2026-02-01")
    assert ran.code == 0, ran.reported
    return ran.reported


def test_two_builds_give_the_same_bytes(
    demo: BuiltSite, tmp_path: Path, script_cache: Path
) -> None:
    """Another folder, process, hash seed, time zone and language, and the scripts made anew."""
    output = tmp_path / "deep" / "er"
    changes = {**ELSEWHERE, "XDG_CACHE_HOME": str(tmp_path / "cache")}
    arguments = ("-m", "builder", "build", os.path.relpath(DEMO, tmp_path), output)
    ran = in_process(*arguments, cwd=tmp_path, changes=changes)
    assert ran.code == 0, ran.reported
    one, other = files_of(demo.folder), files_of(output)
    assert one.keys() == other.keys()
    assert [path for path in one if one[path] != other[path]] == []


def test_nothing_of_this_machine_is_in_a_site(demo: BuiltSite) -> None:
    marks = [str(demo.folder).encode(), str(DEMO).encode(), str(Path.home()).encode() + b"/"]
    found = [path for path, data in files_of(demo.folder).items() for mark in marks if mark in data]
    assert found == []


def test_a_second_build_writes_nothing(command: Command, kitchen: Path, built: Path) -> None:
    before = {path: (built / path).stat().st_mtime_ns for path in files_of(built)}
    reported = again(command, kitchen, built)
    assert f"0 files written, {len(before) - 1:,} unchanged, 0 deleted" in reported
    assert before == {path: (built / path).stat().st_mtime_ns for path in files_of(built)}


def test_an_error_leaves_the_old_site(command: Command, kitchen: Path, built: Path) -> None:
    before = files_of(built)
    (kitchen / "cuts" / "ribeye.yaml").write_text("species: beef\nprice: 36.00\n")
    ran = command("build", kitchen, built)
    assert ran.code == 1
    assert "cuts/ribeye.yaml:2:8: error: " in ran.reported
    assert "nothing published; the site that was there is as it was" in ran.reported
    assert files_of(built) == before


def test_a_broken_link_leaves_the_old_site(
    command: Command, kitchen: Path, built: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = files_of(built)

    def broken(view: View) -> Page:
        page = menu_page(view)
        away = LinkList((Link("away", "~/cuts/nowhere.html"), Link("off", "~/index.html#gone")))
        return replace(page, sections=(*page.sections, away), title="A menu that must not show")

    monkeypatch.setattr("builder.pages.site.menu_page", broken)
    ran = command("build", kitchen, built, "--as-of", "2026-02-01")
    assert ran.code == 3
    assert "2 broken links, nothing published" in ran.reported
    assert 'menu.html: cuts/nowhere.html: there is no file "cuts/nowhere.html"' in ran.reported
    assert 'menu.html: index.html#gone: "index.html" has no id "gone"' in ran.reported
    assert files_of(built) == before
    assert sorted(entry.name for entry in built.parent.iterdir()) == ["kitchen", "site"]


def test_a_page_deleted_or_edited_by_hand_comes_back(
    command: Command, kitchen: Path, built: Path
) -> None:
    before = files_of(built)
    (built / "menu.html").unlink()
    (built / "cuts" / "ribeye.html").write_text("mine")
    same_size = before["swaps.html"].replace(b"Swaps", b"Sweps")
    (built / "swaps.html").write_bytes(same_size)
    assert "3 files written" in again(command, kitchen, built)
    assert files_of(built) == before


def test_only_pages_of_records_that_went_are_deleted(
    command: Command, kitchen: Path, built: Path
) -> None:
    (built / "CNAME").write_text("kitchen.invalid\n")
    (built / "cuts" / "notes.txt").write_text("keep me")
    (kitchen / "swaps" / "chuck-for-ribeye.yaml").unlink()
    reported = again(command, kitchen, built)
    left = files_of(built)
    assert "swaps/chuck-for-ribeye.html" not in left
    assert "forms/chuck-for-ribeye-decision.html" not in left
    assert "2 deleted" in reported
    assert left["CNAME"] == b"kitchen.invalid\n"
    assert left["cuts/notes.txt"] == b"keep me"
    assert not (built / "swaps").exists()


def test_a_folder_of_somebody_else_is_refused(
    command: Command, kitchen: Path, tmp_path: Path
) -> None:
    theirs = tmp_path / "theirs"
    theirs.mkdir()
    (theirs / "thesis.txt").write_text("years of work")
    ran = command("build", kitchen, theirs)
    assert ran.code == 3
    assert ran.reported.startswith("shankbook: ")
    assert files_of(theirs) == {"thesis.txt": b"years of work"}


def test_a_content_folder_that_is_not_there(command: Command, tmp_path: Path) -> None:
    ran = command("build", tmp_path / "no-such-kitchen", tmp_path / "site")
    assert ran.code == 3
    assert "no-such-kitchen" in ran.reported
    assert not (tmp_path / "site").exists()


# The day


def test_the_day_is_given_or_the_kitchens_own_or_today(
    command: Command, kitchen: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Fixed(date):
        @classmethod
        def today(cls) -> Fixed:
            return cls(2026, 3, 14)

    monkeypatch.setattr(cli, "date", Fixed)

    def day(*options: str) -> str:
        ran = command("build", kitchen, tmp_path / "site", *options)
        assert ran.code == 0, ran.reported
        found = (tmp_path / "site" / "data" / "datapackage.json").read_text()
        return found.partition('"as_of": "')[2][:10]

    assert day() == "2026-03-14"
    assert re.search(r"as of\s+Mar\.? 14, 2026", (tmp_path / "site" / "index.html").read_text())
    with (kitchen / "kitchen.yaml").open("a") as file:
        file.write("as of: 2026-04-15\n")
    assert day() == "2026-04-15"
    assert day("--as-of", "2026-05-16") == "2026-05-16"


def test_a_price_list_counts_from_its_day(command: Command, kitchen: Path, tmp_path: Path) -> None:
    (kitchen / "prices").mkdir()
    (kitchen / "prices" / "yard.csv").write_text(
        "date,item,price\n2026-02-01,ribeye,40.00/kg\n2026-03-01,ribeye,44.00/kg\n"
    )

    def price(day: str) -> str:
        assert command("build", kitchen, tmp_path / "site", "--as-of", day).code == 0
        text = (tmp_path / "site" / "data" / "cuts.csv").read_text()
        head, *rows = (line.split(",") for line in text.splitlines())
        (row,) = (row for row in rows if row[0] == "ribeye")
        return row[head.index("ap_price")]

    assert [price(day) for day in ("2026-01-31", "2026-02-28", "2026-03-01")] == [
        "36.0", "40.0", "44.0",
    ]  # fmt: skip


# Warnings


def test_a_warning_stands_on_its_page_and_at_home(command: Command, demo: BuiltSite) -> None:
    reported = command("check", DEMO).reported
    warnings = [line for line in reported.splitlines() if ": warning: " in line]
    homeless = []
    for place, _, message in (line.partition(": warning: ") for line in warnings):
        file = place.split(":")[0]
        page = file.replace(".yaml", ".html") if "/" in file else ""
        pages = ["index.html", page] if page.endswith(".html") else ["index.html"]
        homeless += [(page, message) for page in pages if not warned(demo, page, place)]
    # What fails in a cook leads its page and is not said again in a notice.
    homeless = [each for each in homeless if 'class="lead alarm"' not in demo.text(each[0])]
    assert len(warnings) >= 5
    assert homeless == []


def warned(site: BuiltSite, page: str, place: str) -> bool:
    """Whether a page has a notice about a place."""
    notices = site.text(page).split('class="notice warning"')[1:]
    return any(f">{place}</a>" in notice.partition("<li")[0] for notice in notices)


def test_a_warning_is_on_no_other_page(demo: BuiltSite) -> None:
    """A cut's old test is the cut's business and the home page's."""
    line = 'class="notice warning"'
    with_notice = {page for page in pages_of(demo.folder) if line in demo.text(page)}
    place = ">cuts/lamb-neck.yaml:"
    about = {page for page in with_notice if place in demo.text(page)}
    assert about == {"index.html", "cuts/lamb-neck.html"}


# The site of the published kitchen, and what a manifest lists


def test_published_figures_make_a_whole_site(published: BuiltSite) -> None:
    pages = pages_of(published.folder)
    assert len([page for page in pages if page.startswith("cooks/")]) == 8
    assert "swaps/pot-roast-for-sirloin.html" in pages


def test_the_manifest_lists_every_file_but_itself(demo: BuiltSite) -> None:
    text = demo.text(MANIFEST)
    assert {path for path in files_of(demo.folder) if f'"{path}":' not in text} == {MANIFEST}


def test_the_starter_is_what_new_writes(command: Command, tmp_path: Path) -> None:
    ran = command("new", tmp_path / "mine")
    assert ran.code == 0
    wanted = {
        path: header(path.rpartition("/")[0]).encode() + data
        for path, data in files_of(STARTER).items()
        if path.endswith(".yaml")
    }
    written = files_of(tmp_path / "mine")
    assert {path: data for path, data in written.items() if path.endswith(".yaml")} == wanted
    assert {Path(path).parent.name for path in written.keys() - wanted.keys()} == {".schema"}
    built = command("build", tmp_path / "mine", tmp_path / "site", "--as-of", "2026-02-01")
    assert built.code == 0
    assert "warning" not in built.reported, built.reported
