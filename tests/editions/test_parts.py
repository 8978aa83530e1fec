"""Records granted by parts: what a reader may see of swaps, tastings, counts and the menu is there.

What they may not see is not, and a warning is there where all that it rests on is.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Collection
from importlib.metadata import version
from pathlib import Path
from random import Random

import pytest

from builder import __version__
from builder.build import compute_content
from builder.pages.editions import reader_of
from builder.pages.reader import reads_warning
from builder.pages.search import search_records
from builder.pages.view import View
from builder.problems import Problem
from builder.records.editions import GROUPS, KINDS, PARTS, edition
from tests.editions.generated import kitchen as generated
from tests.editions.made import TODAY, Kitchen, computed, files_of
from tests.editions.searched import amounts_in
from tests.editions.small import SMALL, written

RECORDS = ("cuts", "cooks", "pantry", "plates", "swaps", "tastings", "counts")
KITCHEN = ("weights", "cooking", "work")
HELD, AHEAD = "tastings/held-try.html", "tastings/blind-try.html"
SWAP, COUNT, MENU = "swaps/chuck-for-ribeye.html", "counts/week-39.html", "menu.html"


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
    for withheld in ("The panel", "The answers", "How sure", "Planned"):
        assert withheld not in page
    assert "This tasting was held; what tasters found is not in this edition." in page
    assert "Planned: 3 tasters" in words(files[AHEAD])
    assert "forms/held-try-key.html" not in files
    assert "What tasters found" not in words(files["plates/chuck-steak.html"])
    held = "1 tasting held, 1 planned; what tasters found is not in this edition."
    assert held in words(files["tastings.html"])


def test_weights_to_cook_need_weights(kitchen: Kitchen, cache: Path) -> None:
    page = words(site(kitchen, cache, ("cooking",))[HELD])
    assert "What to cook" in page
    assert "Into the cook" not in page


def test_without_cooking_a_tasting_is_there_without_its_hours(
    kitchen: Kitchen, cache: Path
) -> None:
    """What tasters found of so many hours is left out with them."""
    page = words(site(kitchen, cache, ("weights", "tasting answers"))[HELD])
    assert "How it is served" in page
    for withheld in ("What to cook", "30\u00a0h", "The answers"):
        assert withheld not in page


def test_weighings_of_a_count_are_there_without_its_money(kitchen: Kitchen, cache: Path) -> None:
    files = site(kitchen, cache, KITCHEN)
    page = words(files[COUNT])
    for shown in ("As it was counted,", "Cuts, as weighed", "Into the cook and out", "gimbled",
                  "261.7 kg", "Thrown away, the heaviest first", "181 g mean of 2"):  # fmt: skip
        assert shown in page
    for withheld in ("Theoretical", "Food cost", "Sold", "Plates sold", "1,013"):
        assert withheld not in page
    assert not amounts_in(files[COUNT])
    assert COUNT not in site(kitchen, cache, ("cooking", "sales", "menu prices"))


def test_what_parts_the_costs_of_a_count_needs_all_that_they_are_made_of(
    kitchen: Kitchen, cache: Path
) -> None:
    groups = [group for group in GROUPS if group not in ("suppliers", "labour", "personal codes")]
    seen = reader_of("somebody", edition((*RECORDS, "menus"), groups, ("methods",)))
    page = words(files_of(kitchen, seen, cache)[COUNT])
    for shown in ("Where the difference is", "Theoretical food cost", "Unexplained", "1,013",
                  "Thrown away, the dearest first"):  # fmt: skip
        assert shown in page


def test_the_menu_shows_what_of_its_money_is_granted(kitchen: Kitchen, cache: Path) -> None:
    assert MENU not in site(kitchen, cache, KITCHEN)
    page = words(site(kitchen, cache, ("menu prices",))[MENU])
    assert "$127.37" in page
    assert "Sold" not in page
    files = site(kitchen, cache, ("menu prices", "sales"))
    page = words(files[MENU])
    for shown in ("4 plates, section by section.", "Sold in Sep 2026", "Sales ex tax", "4,391",
                  "What the till took"):  # fmt: skip
        assert shown in page
    for withheld in ("Food cost", "Contribution", "Class", "Dividing"):
        assert withheld not in page
    assert "126.80" in words(files["sales.html"])
    assert "sales.html" not in site(kitchen, cache, ("sales",))


def test_the_menu_is_whole_for_whoever_sees_margins_and_sales(
    kitchen: Kitchen, cache: Path
) -> None:
    groups = [group for group in GROUPS if group not in ("suppliers", "personal codes")]
    page = words(site(kitchen, cache, groups)[MENU])
    for shown in ("No plate is above the 31.7% food cost aimed at", "Dividing margin",
                  "Contribution margin", "Class"):  # fmt: skip
        assert shown in page
    assert "Menu price Contribution" not in page


def test_answers_come_without_codes_and_with_them(kitchen: Kitchen, cache: Path) -> None:
    without = site(kitchen, cache, (*KITCHEN, "tasting answers"), ("methods", "tasting sheets"))
    page = words(without[HELD])
    assert "3 tasters" in page
    assert "Held" in page
    assert "The panel" not in page
    assert not any(b"Q71" in data for data in without.values())
    whole = site(kitchen, cache, (*KITCHEN, "tasting answers", "personal codes"))
    assert "Q71" in words(whole[HELD])


def test_who_sees_notes_finds_logs_and_decisions_by_the_search(
    kitchen: Kitchen, cache: Path
) -> None:
    """Whoever has no notes finds none of it."""
    found = "assets/search-data.js"
    noted = site(kitchen, cache, GROUPS, ("methods", "notes"))[found].decode()
    for said in ("Changed to Tulgey trim", "cuts/chuck-roll.html#log"):
        assert said in noted
    assert f"{SWAP}#decided" in noted
    plain = site(kitchen, cache, GROUPS)[found].decode()
    assert "#log" not in plain and "#decided" not in plain


def test_the_kitchen_s_own_log_is_found(kitchen: Kitchen) -> None:
    found = [(title, path) for title, _, path, _ in search_records(View.of(kitchen[0], kitchen[1]))]
    assert ("Hired the Manxome crew", "kitchen.html#log") in found


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
        assert b"href=notices.html" in files["index.html"]


def test_a_warning_is_there_where_all_that_it_rests_on_is(kitchen: Kitchen, cache: Path) -> None:
    def seen(figures: Collection[str], also: Collection[str]) -> str:
        files = site(kitchen, cache, figures, also)
        return words(files["cooks/chuck-30h.html"])

    cooked, weighed = "be compared with US model Food Code", "one test only, so no interval"
    page = seen(("weights", "cooking"), ("warnings",))
    assert cooked in page
    assert weighed in page
    page = seen(("weights",), ("warnings",))
    assert cooked not in page
    assert weighed in page
    assert weighed not in seen(("weights", "cooking"), ())


def test_a_week_that_is_too_full_is_told_to_whoever_sees_what_books_it(
    kitchen: Kitchen, cache: Path
) -> None:
    booked = "forecast with the guests of set menus books"
    for kinds, there in ((RECORDS, False), ((*RECORDS, "menus"), True)):
        somebody = reader_of("somebody", edition(kinds, (*KITCHEN, "sales"), ("warnings",)))
        assert (booked in words(files_of(kitchen, somebody, cache)["equipment.html"])) is there
    [warning] = [problem for problem in kitchen[1] if booked in problem.message]
    for without in ("sales", "work", "weights"):
        groups = [group for group in GROUPS if group != without]
        assert not reads_warning(reader_of("x", edition(KINDS, groups, PARTS)), warning)


def test_every_warning_says_what_it_rests_on() -> None:
    """So that one that is new is shown where it may be; None says that everything has to be."""
    unsaid = [
        f"{path}:{call.lineno}"
        for path in sorted(Path("builder").rglob("*.py"))
        for call in ast.walk(ast.parse(path.read_text()))
        if isinstance(call, ast.Call) and _is_warning(call) and not _says_needs(call)
    ]
    # What the content folder itself has, by names that may be anything.
    assert [place.partition(":")[0] for place in unsaid] == ["builder/reading/folder.py"]


def _is_warning(call: ast.Call) -> bool:
    values = [*call.args, *(keyword.value for keyword in call.keywords)]
    return any(isinstance(each, ast.Attribute) and each.attr == "WARNING" for each in values)


_NEEDS_AT = list(Problem.__dataclass_fields__).index("needs")


def _says_needs(call: ast.Call) -> bool:
    named = any(keyword.arg == "needs" for keyword in call.keywords)
    return named or len(call.args) > _NEEDS_AT


def test_what_a_warning_rests_on_can_be_granted(tmp_path: Path) -> None:
    """In kitchens with all sorts of slips: each is a kind of record, a group or a part."""
    found: set[str] = set()
    for seed in range(6):
        root = written(generated(Random(seed), slips=False), tmp_path / str(seed))
        costed, problems = compute_content(root, None, TODAY)
        warnings = [problem for problem in problems if not problem.is_error]
        found.update(need for problem in warnings for need in problem.needs or ())
        reader = reader_of("x", edition(KINDS, GROUPS, [p for p in PARTS if p != "raw files"]))
        assert costed is None or all(reads_warning(reader, problem) for problem in warnings)
    assert {"prices", "sales", "notes", "counts", "allergens", "suppliers"} <= found
    assert found <= {*KINDS, *GROUPS, *PARTS}
