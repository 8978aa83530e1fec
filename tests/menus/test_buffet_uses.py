"""A cook, a cut and a pantry item name the counters and buffets that they go to."""

from __future__ import annotations

from pathlib import Path

from builder.pages.cooks import cook_page
from builder.pages.cuts import cut_page
from builder.pages.editions import reader_of
from builder.pages.pantry import item_page
from builder.pages.view import View
from builder.records.editions import edition
from tests.editions.made import computed, files_of
from tests.kitchens import costed_from, write
from tests.menus.test_buffets import BASE
from tests.menus.test_pages import words

# The cook and the slaw are on no plate; the slaw is made from cabbage.
FILES = {
    **{path: text for path, text in BASE.items() if not path.startswith("plates/")},
    "kitchen.yaml": f"{BASE['kitchen.yaml']}equipment: {{oven: {{kind: oven, holds: 20 kg}}}}\n",
    "cooks/roast.yaml": f"{BASE['cooks/roast.yaml']}equipment: oven\nat: 150 C\nfor: 3 h\n",
    "pantry/slaw.yaml": "of: {cabbage: 1 kg}\nmakes: 1 kg\n",
    "pantry/cabbage.yaml": "price: 2.00/kg\n",
    "pantry/salt.yaml": "price: 1.00/kg\n",
    "plates/bun.yaml": "menu: mains\nwith: {bun: 1 each}\nprice: 9.00\n",
}


def view_of(folder: Path) -> View:
    return View.of(costed_from(write(folder, FILES)), ())


def test_an_item_says_which_buffet_takes_how_much(tmp_path: Path) -> None:
    view = view_of(tmp_path)
    pantry = view.costed.content.pantry
    slaw = words(item_page(view, pantry["slaw"]))
    assert "Nothing uses it yet" not in slaw
    assert "Party" in slaw
    assert "250 g a guest" in slaw
    assert "Nothing uses it yet" not in words(item_page(view, pantry["cabbage"]))
    assert "Nothing uses it yet" in words(item_page(view, pantry["salt"]))


def test_a_cook_and_its_cut_name_the_counter_and_the_buffet(tmp_path: Path) -> None:
    view = view_of(tmp_path)
    content = view.costed.content
    cook = words(cook_page(view, content.cooks["roast"]))
    assert "200 g a guest" in cook
    assert "1.00 kg in the mix" in cook
    assert "uses it" not in cook
    # No count has what a buffet puts out, so that the hours booked are said to be without it.
    assert "What counters and buffets put out is in no count." in cook
    assert "On the menu in Roast by weight and Party." in words(
        cut_page(view, content.cuts["beef"])
    )


def test_whoever_may_not_know_of_buffets_hears_of_none(tmp_path: Path) -> None:
    grants = edition(("cuts", "cooks", "pantry", "plates"), ("weights", "cooking", "work"), ())
    kitchen = computed(write(tmp_path / "kitchen", FILES))
    files = files_of(kitchen, reader_of("line", grants), tmp_path)
    item, cook, cut = (
        files[path].decode() for path in ("pantry/slaw.html", "cooks/roast.html", "cuts/beef.html")
    )
    assert "No plate or sub-recipe uses it yet." in item
    assert "No plate uses it." in cook
    assert "No plate on the menu uses it." in cut
    assert not any("uffet" in page or "Party" in page for page in (item, cook, cut))
