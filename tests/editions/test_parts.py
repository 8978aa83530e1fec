"""Swaps and tastings granted by parts: what a reader may see of them is there, the rest is not."""

from __future__ import annotations

import re
from collections.abc import Collection
from importlib.metadata import version
from pathlib import Path

import pytest

from builder import __version__
from builder.pages.editions import reader_of
from builder.pages.reader import reads_warning
from builder.records.editions import GROUPS, KINDS, edition
from tests.editions.made import Kitchen, computed, files_of
from tests.editions.searched import amounts_in
from tests.editions.small import SMALL, written

RECORDS = ("cuts", "cooks", "pantry", "plates", "swaps", "tastings")
KITCHEN = ("weights", "cooking", "work")
HELD, AHEAD = "tastings/held-try.html", "tastings/blind-try.html"
SWAP = "swaps/chuck-for-ribeye.html"


@pytest.fixture(scope="module")
def kitchen(tmp_path_factory: pytest.TempPathFactory) -> Kitchen:
    return computed(written(SMALL, tmp_path_factory.mktemp("kitchen")))


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("scripts")


def site(
    kitchen: Kitchen, cache: Path, figures: Collection[str], also: Collection[str] = ("methods",)
) -> dict[str, bytes]:
    return files_of(kitchen, reader_of("somebody", edition(RECORDS, figures, also)), cache)


def words(page: bytes) -> str:
    return " ".join(re.sub(r"<[^>]*>", " ", page.decode()).split())


def test_a_plan_is_there_without_what_tasters_found(kitchen: Kitchen, cache: Path) -> None:
    files = site(kitchen, cache, KITCHEN)
    page = words(files[HELD])
    for shown in ("How it is served", "What to cook", "Into the cook", "How many tasters"):
        assert shown in page
    for withheld in ("The panel", "The answers", "How sure", "Held"):
        assert withheld not in page
    assert "forms/held-try-key.html" not in files
    assert "What tasters found" not in words(files["plates/chuck-steak.html"])
    assert "each as it is planned" in words(files["tastings.html"])


def test_weights_to_cook_need_weights(kitchen: Kitchen, cache: Path) -> None:
    page = words(site(kitchen, cache, ("cooking",))[HELD])
    assert "What to cook" in page
    assert "Into the cook" not in page


def test_tastings_need_cooking(kitchen: Kitchen, cache: Path) -> None:
    assert HELD not in site(kitchen, cache, ("weights", "tasting answers"))


def test_answers_come_without_codes_and_with_them(kitchen: Kitchen, cache: Path) -> None:
    without = site(kitchen, cache, (*KITCHEN, "tasting answers"), ("methods", "tasting sheets"))
    page = words(without[HELD])
    assert "3 tasters" in page
    assert "Held" in page
    assert "The panel" not in page
    assert not any(b"Q71" in data for data in without.values())
    whole = site(kitchen, cache, (*KITCHEN, "tasting answers", "personal codes"))
    assert "Q71" in words(whole[HELD])


def test_ballots_of_what_is_ahead_are_led_to(kitchen: Kitchen, cache: Path) -> None:
    files = site(kitchen, cache, KITCHEN, ("tasting sheets", "allergens"))
    assert b"forms/blind-try-ballots.html" in files[AHEAD]
    assert "forms/blind-try-ballots.html" in files
    assert not {path for path in files if path.endswith(("-key.html", "-trays.html"))}
    assert "forms/held-try-ballots.html" not in files


def test_whoever_sees_margins_but_no_wage_sees_what_the_food_saves(
    kitchen: Kitchen, cache: Path
) -> None:
    files = site(kitchen, cache, [group for group in GROUPS if group not in ("labour", "work")])
    page = words(files[SWAP])
    for shown in ("Food cost saved a plate", "its food costs", "Contribution margin", "EP / AP"):
        assert shown in page
    for withheld in ("Margin change", "Direct labour", "Full plate cost", "Loaded wage", "24.7"):
        assert withheld not in page
    assert amounts_in(files[SWAP])
    assert "Food saved a plate" in words(files["swaps.html"])


def test_a_chef_sees_weights_and_the_tasting_and_no_money(kitchen: Kitchen, cache: Path) -> None:
    files = site(kitchen, cache, ("weights", "cooking", "tasting answers"))
    page = words(files[SWAP])
    for shown in ("Chuck steak instead of Ribeye steak.", "What tasters found", "EP / AP",
                  "Yield: trim", "Portion"):  # fmt: skip
        assert shown in page
    for path, data in files.items():
        assert not amounts_in(data) or path.startswith(("assets/", "methods")), path
    assert "Allergens" not in page


def test_every_edition_says_what_it_carries_and_on_what_terms(
    kitchen: Kitchen, cache: Path
) -> None:
    bare = reader_of("nobody", edition((), (), ()))
    for files in (files_of(kitchen, bare, cache), site(kitchen, cache, KITCHEN)):
        page = words(files["notices.html"])
        assert f"Made by shankbook {__version__}." in page
        for name, licence in (("Vega-Lite", "BSD-3-Clause"), ("D3 modules", "ISC")):
            assert f"{name} " in page
            assert licence in page
        assert f"Packed by vl-convert {version('vl-convert-python')}" in page
        assert b'href="notices.html"' in files["index.html"]


def test_a_warning_is_there_where_all_that_it_rests_on_is(kitchen: Kitchen, cache: Path) -> None:
    def seen(figures: Collection[str], also: Collection[str]) -> str:
        files = site(kitchen, cache, figures, also)
        return words(files["cooks/chuck-30h.html"])

    cooked, weighed = "be held against US model Food Code", "one test only, so no interval"
    page = seen(("weights", "cooking"), ("warnings",))
    assert cooked in page
    assert weighed in page
    page = seen(("weights",), ("warnings",))
    assert cooked not in page
    assert weighed in page
    assert weighed not in seen(("weights", "cooking"), ())


def test_a_warning_of_which_nobody_says_what_it_rests_on_is_withheld(kitchen: Kitchen) -> None:
    [unsaid] = [problem for problem in kitchen[1] if problem.needs is None]
    assert "a week's forecast" in unsaid.message
    reader = reader_of("somebody", edition(KINDS, GROUPS, ("warnings", "steps", "allergens")))
    assert not reads_warning(reader, unsaid)
    assert all(reads_warning(reader, each) for each in kitchen[1] if each.needs is not None)
