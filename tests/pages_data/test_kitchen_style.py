"""Every number that a page says is in the kitchen's own locale and units."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from shutil import copytree
from tempfile import TemporaryDirectory
from typing import Any

import html5lib  # type: ignore[import-untyped]
import pytest

from builder.build import compute_content
from builder.language import written_in
from builder.pages.rendering import render
from builder.pages.site import frame, site_pages
from builder.pages.view import View
from builder.records.kitchen_head import language_for
from tests.kitchens import pages_but_methods
from tests.tastings.kitchens import ROOT, TODAY

# What is quoted as it is printed or written: dates, groups of thousands, clauses, versions,
# sections, the constants of a formula, a stated loss, a swap's note.
QUOTED = re.compile(
    r"\d\d\.\d\d\.\d{4}|\d{1,3}(\.\d{3})+(?!\d)|\d-\d{3}\.\d+"
    r"|\d+(\.\d+){2,}|\d\.\d-log|\+ 0\.5\)|0\.7 (÷|over)|0\.7 over|\d+ % is stated"
    r"|rise of about \d %"
)
# A source ends with its status, and numbers its sections and figures as it prints them.
SOURCE = re.compile(r"\[(read|from memory|problem text read)\]")
# Pages that hold for every kitchen, and the price lists, which quote each price as it is written.
GENERAL = re.compile(r"(writing|notices|sources|prices)(/|\.html)")
METHODS = re.compile(r"(methods|rules)(/|\.html)")
GERMAN = "locale: de_DE"
NOT_READ = {"code", "pre", "script", "style"}
AS_WRITTEN = ("as written", "taken as")


@cache
def pages(change: str) -> list[tuple[str, str]]:
    """The pages of the demo kitchen with a key of its own changed: address and text.

    Pages of methods take three quarters of the time, and are read in one language alone.
    """
    key = change.partition(":")[0]
    with TemporaryDirectory() as folder:
        root = Path(folder) / "content"
        copytree(ROOT, root)
        file = root / "kitchen.yaml"
        written = re.sub(rf"(?m)^{key}:.*\n", "", file.read_text(encoding="utf-8"))
        file.write_text(f"{written}\n{change}\n", encoding="utf-8")
        costed, problems = compute_content(root, None, TODAY)
    assert costed is not None, problems
    view = View.of(costed, problems)
    made = site_pages if change == GERMAN else pages_but_methods
    with written_in(language_for(costed.content.kitchen)):
        return [
            (page.path, text)
            for page in made(view)
            if not GENERAL.match(page.path)
            for text in texts(html5lib.parse(render(page, frame(view)).decode()))
        ]


def texts(element: Any) -> Iterator[str]:
    """Each text that is read, a listing of a file and what is quoted from one left out."""
    name = str(element.tag).rpartition("}")[2]
    words = "".join(element.itertext()).strip()
    quoted = name == "li" and words.startswith(AS_WRITTEN)
    if name not in NOT_READ and not quoted and "source" not in element.get("class", "").split():
        yield from filter(None, (element.text, element.get("aria-label"), element.get("alt")))
        for child in element:
            yield from texts(child)
            if child.tail:
                yield child.tail


def reported(found: list[tuple[str, str]]) -> list[str]:
    """A few of what was found, each kind of sentence once."""
    kinds = {
        re.sub(r"[\d.]+", "#", text)[:60]: f"{path}: {text.strip()[:160]}" for path, text in found
    }
    return list(kinds.values())[:40]


@pytest.mark.parametrize(
    "kind", ["tastings", "swaps", "plates", "forms", "cooks", "cuts", "pantry", "menu", "index",
             "services", "schedule", "kitchen", "equipment", "rules", "methods"]
)  # fmt: skip
def test_no_decimal_point_in_a_german_kitchen(kind: str) -> None:
    found = [
        (path, text)
        for path, text in pages(GERMAN)
        if path.startswith(kind)
        and not SOURCE.search(text)
        and re.search(r"\d\.\d", QUOTED.sub("", text))
    ]
    assert reported(found) == []


@pytest.mark.parametrize(
    "kind", ["tastings", "swaps", "plates", "forms", "cooks", "cuts", "pantry", "menu", "index",
             "services", "schedule", "kitchen", "equipment"]
)  # fmt: skip
def test_no_kilogram_in_a_customary_kitchen(kind: str) -> None:
    found = [
        (path, text)
        for path, text in pages("units: us customary")
        if path.startswith(kind) and re.search(r"\bkg\b|kg²|\bkilogram", text)
    ]
    assert reported(found) == []


@pytest.mark.parametrize(
    ("locale", "alien"), [("en_US", r"\d\s%"), ("de_DE", r"\d%"), ("fr_FR", r"\d%|\d\.\d")]
)
def test_per_cent_is_written_one_way(locale: str, alien: str) -> None:
    """CLDR writes 30%, 30 % and 30 % with a space that does not break, in this order."""
    found = [
        (path, text)
        for path, text in pages(f"locale: {locale}")
        if not path.startswith("reference")
        and not METHODS.match(path)
        and re.search(alien, QUOTED.sub("", text))
    ]
    assert reported(found) == []


@pytest.mark.parametrize("locale", ["en_US", "de_DE", "fr_FR"])
def test_no_day_or_month_is_written_as_files_write_it(locale: str) -> None:
    found = [
        (path, text)
        for path, text in pages(f"locale: {locale}")
        # The page of data says how its tables write them.
        if not METHODS.match(path)
        and path != "data.html"
        and re.search(r"\b20\d\d-\d\d(-\d\d)?\b(?!\.csv)", text)
    ]
    assert reported(found) == []


def test_the_scan_sees_a_point_and_a_kilogram() -> None:
    assert any(re.search(r"\d\.\d", text) for _, text in pages("locale: en_CA"))
    assert any(re.search(r"\bkg\b", text) for _, text in pages("units: metric"))
    assert any(re.search(r"\d%", text) for _, text in pages("locale: en_US"))
    assert any(re.search(r"\d\s%", text) for _, text in pages(GERMAN))
