"""The menu asks of a plate what the first page does: the same swap, or the same price."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import pytest

from builder.pages.components import Page, Table
from builder.pages.home import home_page
from builder.pages.menu import menu_page
from tests.kitchens import write
from tests.live.test_recomputed import view_of
from tests.money.test_menu_actions import FILES, PLATE
from tests.pages_data.kitchens import html_of, text_of

# By hand: 40 - 3, 44 - 3.5, 30 - 1 and 24 - 5 leave 37, 40.5, 29 and 19 a plate.
SWAP = "benchmark: both\nchallengers: [earns]\n"
PLATES: Mapping[str, str] = {
    **FILES,
    "plates/both.yaml": PLATE.format("Bench", 300, 40, 200),
    "plates/earns.yaml": PLATE.format("Dear", 350, 44, 20),
    "plates/sells.yaml": PLATE.format("Cheap", 100, 30, 50),
    "plates/neither.yaml": PLATE.format("Last", 500, 24, 15),
}


def asked(page: Page) -> dict[str, str]:
    """What the menu asks of each plate."""
    table = next(part for part in page.sections if isinstance(part, Table) and part.id == "plates")
    last = [column.key for column in table.columns].index("do")
    return {str(row.cells[0].text): str(row.cells[last].text) for row in table.rows}


def pages(root: Path, **more: str) -> tuple[str, dict[str, str]]:
    view = view_of(write(root, {**PLATES, **{f"swaps/{n}.yaml": text for n, text in more.items()}}))
    return text_of(html_of(home_page(view))), asked(menu_page(view))


def test_a_plate_that_is_to_be_swapped_is_not_kept_as_it_is(tmp_path: Path) -> None:
    home, menu = pages(tmp_path / "none")
    assert menu["Bench"] == "keep as it is"
    home, menu = pages(tmp_path / "swap", a=SWAP)
    assert "Swap Bench for Dear" in home
    assert menu["Bench"] == "swap it"


def test_a_swap_that_is_decided_on_is_asked_for_no_more(tmp_path: Path) -> None:
    decided = "decided: {date: 2026-09-03, who: JB, why: no, taken: no}\n"
    home, menu = pages(tmp_path, a=SWAP + decided)
    assert "Swap Bench for Dear" not in home
    assert menu["Bench"] == "keep as it is"


def test_a_swap_that_was_made_and_loses_is_taken_back_on_both(tmp_path: Path) -> None:
    made = "decided: {date: 2026-09-03, who: JB, why: cheaper}\n"
    loses = "benchmark: both\nchallengers: [sells]\nforecast: 50\n"
    home, menu = pages(tmp_path, a=loses + made)
    assert "Stop Cheap in place of Bench" in home
    assert menu["Cheap"] == "take its swap back"


@pytest.mark.parametrize("swapped", [True, False])
def test_what_is_to_take_anothers_place_is_not_dropped(swapped: bool, tmp_path: Path) -> None:
    """Last leaves 19 and Worse 17, far below the 37 of Bench; it sells little."""
    worse = {"plates/worse.yaml": PLATE.format("Worse", 500, 22, 90)}
    swap = "benchmark: worse\nchallengers: [neither]\nforecast: 50\n"
    files = {**PLATES, **worse, **({"swaps/a.yaml": swap} if swapped else {})}
    view = view_of(write(tmp_path, files))
    home, menu = text_of(html_of(home_page(view))), asked(menu_page(view))
    assert ("Swap Worse for Last" in home) is swapped
    assert ("Drop Last" in home) is not swapped
    assert menu["Last"] == ("swap it in" if swapped else "rework or drop")


def test_what_a_waiting_swap_brings_in_is_not_dropped_yet_and_says_what_that_brings(
    tmp_path: Path,
) -> None:
    """Last leaves 19, Worse 17; raw pork at 50 °C for an hour is in no published table."""
    cooks = {
        "kitchen.yaml": FILES["kitchen.yaml"] + "authority: us-food-code-2017\n",
        "cuts/p.yaml": "name: Butt\nspecies: pork\nprice: 10/kg\n",
        "cooks/p.yaml": "name: Cool\ncut: p\nhow: water bath\nat: 50 °C\nfor: 1 h\n"
        "piece: {shape: slab, thickness: 30 mm}\nload: 4 kg\nloss: 0 %\n",
        "plates/worse.yaml": PLATE.format("Worse", 500, 22, 90).replace("cook: a", "cook: p"),
        "swaps/a.yaml": "benchmark: worse\nchallengers: [neither]\nforecast: 50\n",
    }
    view = view_of(write(tmp_path, {**PLATES, **cooks}))
    home, menu = text_of(html_of(home_page(view))), asked(menu_page(view))
    assert "Fix the plan of Cool" in home
    assert "Drop Last" not in home
    assert re.search(r"to drop Last instead would bring \$\d+ a month", home)
    assert menu["Last"] == "fix a cook, then swap it in"


def test_a_drop_that_brings_more_than_the_swap_goes_before_it_and_names_it(tmp_path: Path) -> None:
    """Last leaves 19 and Worse 17, of which ten a week are to be replaced."""
    worse = {"plates/worse.yaml": PLATE.format("Worse", 500, 22, 90)}
    swap = "name: Ten a week\nbenchmark: worse\nchallengers: [neither]\nforecast: 10\n"
    view = view_of(write(tmp_path, {**PLATES, **worse, "swaps/a.yaml": swap}))
    home, menu = text_of(html_of(home_page(view))), asked(menu_page(view))
    assert "Drop Last" in home
    assert "Swap Worse for Last" not in home
    assert re.search(r"the swap Ten a week instead would bring \$\d+ a month", home)
    assert menu["Last"] == "rework or drop"


def test_what_a_swap_that_loses_replaced_is_not_dropped(tmp_path: Path) -> None:
    """Last leaves 19 and Worse, which replaced it, 17."""
    worse = {"plates/worse.yaml": PLATE.format("Worse", 500, 22, 90)}
    made = "decided: {date: 2026-09-03, who: JB, why: cheaper}\n"
    swap = "benchmark: neither\nchallengers: [worse]\nforecast: 50\n"
    view = view_of(write(tmp_path, {**PLATES, **worse, "swaps/a.yaml": swap + made}))
    home, menu = text_of(html_of(home_page(view))), asked(menu_page(view))
    assert "Stop Worse in place of Last" in home
    assert "Drop Last" not in home
    assert menu["Last"] == "bring it back"


@pytest.mark.parametrize("swapped", [True, False])
def test_what_a_swap_takes_off_is_not_sold_more_of(swapped: bool, tmp_path: Path) -> None:
    """Dear leaves 40.50 and Best 45, both far above the rest; both sell little."""
    best = {"plates/best.yaml": PLATE.format("Best", 300, 48, 15)}
    swap = "benchmark: earns\nchallengers: [best]\nforecast: 50\n"
    files = {**PLATES, **best, **({"swaps/a.yaml": swap} if swapped else {})}
    home = text_of(html_of(home_page(view_of(write(tmp_path, files)))))
    assert ("Swap Dear for Best" in home) is swapped
    assert ("Sell more of Dear" in home) is not swapped
