"""The menu asks of a plate what the first page does: the same swap, or the same price."""

from __future__ import annotations

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
