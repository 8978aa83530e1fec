"""What nothing written states is empty in the data and named beside the sum without it."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from tests.cooks.kitchens import COOK, FILES, changed, costed, pages

SIDES = {
    "pantry/roots.yaml": "price: 2/kg\n",
    "pantry/mash.yaml": "of: {roots: 1 kg}\nmakes: 0.9 kg\n",
    "pantry/soup.yaml": "of: {roots: 1 kg}\nmakes: 2 kg\nenergy: 3 kWh\n",
    "pantry/pie.yaml": "of: {mash: 1 kg, soup: 1 kg}\nmakes: 2 kg\nenergy: 1 kWh\n",
    "plates/chuck-plate.yaml": FILES["plates/chuck-plate.yaml"]
    + "with: {mash: 100 g, soup: 200 g}\n",
    "plates/second.yaml": FILES["plates/chuck-plate.yaml"].replace("200 g", "100 g"),
    "swaps/swap.yaml": "benchmark: chuck-plate\nchallengers: [second]\n",
}
NO_TIME = {**changed(COOK, ("for: 30 h\n", "")), **SIDES}


def test_process_that_is_not_known_is_empty_and_what_is_known_is_summed(tmp_path: Path) -> None:
    kitchen = costed(tmp_path, {**FILES, **SIDES})
    value, rows = kitchen.figures.value, kitchen.rows
    units = {name: value("pantry", "process_per_unit", row) for name, row in rows.pantry.items()}
    assert math.isnan(units["mash"])
    assert math.isnan(units["pie"])  # of it the mash is not known
    # 3 kWh at 0.20 over 2 kg; nothing in what is bought.
    assert units["soup"] == pytest.approx(0.3)
    assert units["roots"] == 0
    row = rows.plates["chuck-plate"]
    assert math.isnan(value("plate", "accompaniments_process", row))
    assert value("plate", "accompaniments_known_process", row) == pytest.approx(0.06)
    parts = ("energy_per_plate", "accompaniments_known_process")
    known = sum(value("plate", name, row) for name in parts)
    assert value("plate", "process_per_plate", row) == pytest.approx(known)


def test_the_lead_of_a_swap_names_what_it_leaves_out_of_either_side(tmp_path: Path) -> None:
    found = pages(costed(tmp_path, {**FILES, **SIDES}))
    lead = found["swaps/swap.html"][0].answer
    assert "This leaves out what is not known in full: " in lead
    assert "labour and equipment of Second" in lead
    assert "labour, equipment and the energy and supplies in the sides of Chuck plate" in lead


def test_what_is_not_known_in_full_is_named_once_a_page(tmp_path: Path) -> None:
    """Below the lead; the figures that leave it out say only that they do."""
    found = pages(costed(tmp_path, {**FILES, **SIDES}))
    for path in ("swaps/swap.html", "plates/chuck-plate.html"):
        text = found[path][1]
        assert text.count("not known in full") == 1, path
        assert "not in full" in text, path


def test_what_swaps_leave_out_is_said_once_a_row_of_their_list(tmp_path: Path) -> None:
    """Each swap leaves out something else, so it can't be said once below all of them."""
    more = {
        "plates/third.yaml": FILES["plates/chuck-plate.yaml"].replace("200 g", "150 g"),
        "swaps/plain.yaml": "benchmark: second\nchallengers: [third]\n",
    }
    text = pages(costed(tmp_path, {**FILES, **SIDES, **more}))["swaps.html"][1]
    assert text.count("not known in full") == 2


def test_loads_that_nobody_counted_are_not_nothing(tmp_path: Path) -> None:
    """One plate without a forecast: not known. Beside one of 400 a week, as that one takes."""
    plate = "plates/chuck-plate.yaml"
    silent = {**FILES, plate: FILES[plate].replace("forecast: 400\n", "")}
    kitchen = costed(tmp_path / "silent", silent)
    for figure in ("loads_needed", "booked_hours"):
        assert math.isnan(kitchen.figures.value("batch", figure, 0)), figure
    found = pages(kitchen)
    assert re.search(r"Loads: no plate is counted – Hours booked in a week –",
                     found["cooks/chuck-30h.html"][1])  # fmt: skip
    assert "not known" in found["equipment.html"][1]
    assert not re.search(r"(?<![\d.,])0\s?(min|h|%)", found["equipment.html"][1])
    both = {**silent, "plates/other.yaml": FILES[plate]}
    loads = [
        costed(tmp_path / name, files).figures.value("batch", "loads_needed", 0)
        for name, files in (("both", both), ("one", FILES))
    ]
    assert loads[0] == loads[1] > 0


def test_work_that_nobody_states_is_not_nothing(tmp_path: Path) -> None:
    """Empty without any; with some of it the sum of that, and the page says what is left out."""
    plate, cook = "plates/chuck-plate.yaml", "cooks/chuck-30h.yaml"
    assert "hands-on" not in FILES[plate] + FILES[cook]
    paid = FILES["kitchen.yaml"].replace("currency", "loaded wage: 20/h\ncurrency")
    by_hand = {plate: FILES[plate] + "hands-on: 3 min\n"}
    nothing = {plate: FILES[plate] + "hands-on: 0 min\n", cook: FILES[cook] + "hands-on: 0 min\n"}
    missing = "no hands-on time"
    for name, more, hours, said in (
        ("none", {}, math.nan, True), ("plating", by_hand, 0.05, True),
        ("stated", nothing, 0.0, False),
    ):  # fmt: skip
        kitchen = costed(tmp_path / name, {**FILES, "kitchen.yaml": paid, **more})
        row = kitchen.rows.plates["chuck-plate"]
        found = [kitchen.figures.value("plate", f, row) for f in ("labour_hours", "labour_cost")]
        assert found == pytest.approx([hours, hours * 20], nan_ok=True)
        text = pages(kitchen)["plates/chuck-plate.html"][1]
        assert (missing in text) is said
        labour = re.search(
            rf"Direct labour(?: {missing} .*?)? (not known|[^\w ]?\d+[.,]\d\d)", text
        )
        assert labour, text
        assert labour[1].startswith("not known") is (name == "none")
        batch = kitchen.figures.value("batch", "batch_labour", kitchen.rows.cooks["chuck-30h"])
        assert math.isnan(batch) is (name != "stated")


def test_work_in_what_is_made_is_not_known_where_nobody_states_it(tmp_path: Path) -> None:
    timed = {**FILES, **SIDES, "pantry/soup.yaml": SIDES["pantry/soup.yaml"] + "hands-on: 1 h\n"}
    kitchen = costed(tmp_path, timed)
    hours = {
        name: kitchen.figures.value("pantry", "hours_per_unit", row)
        for name, row in kitchen.rows.pantry.items()
    }
    assert math.isnan(hours.pop("mash"))
    # An hour for 2 kg of soup; half of the pie is soup; roots are bought.
    assert hours == pytest.approx({"roots": 0, "soup": 0.5, "pie": 0.25})
    row = kitchen.rows.plates["chuck-plate"]
    assert kitchen.figures.value("plate", "labour_hours", row) == pytest.approx(0.2 * 0.5)
    found = pages(kitchen)
    assert "Work a unit not known" in found["pantry/mash.html"][1]
    assert "Work on a batch not known" in found["pantry/pie.html"][1]
    assert (
        "Mash"
        in re.findall(
            r"no hands-on time is stated for [\w ,]+", found["plates/chuck-plate.html"][1]
        )[0]
    )


def test_hours_that_no_file_states_are_never_nothing(tmp_path: Path) -> None:
    kitchen = costed(tmp_path, NO_TIME)
    value, row = kitchen.figures.value, kitchen.rows.cooks["chuck-30h"]
    for figure in ("cook_hours", "cycle_hours", "weekly_loads", "booked_hours", "hours_taken"):
        assert math.isnan(value("batch", figure, row)), figure
    for path, (_, text) in pages(kitchen).items():
        if not path.startswith(("methods", "forms/")):
            assert not re.search(r"(?<![\d.,])0\s?h\b", text), path
    stated = costed(tmp_path / "stated")
    assert stated.figures.value("batch", "cycle_hours", stated.rows.cooks["chuck-30h"]) == 31


def test_what_both_sides_of_a_swap_leave_out_is_said_once(tmp_path: Path) -> None:
    plain = {name: SIDES[name] for name in ("plates/second.yaml", "swaps/swap.yaml")}
    lead = pages(costed(tmp_path, {**FILES, **plain}))["swaps/swap.html"][0].answer
    assert lead.count("labour and equipment") == 1
    assert "labour and equipment of both plates" in lead


def test_a_limit_of_work_that_is_stated_in_part_says_so(tmp_path: Path) -> None:
    """Of none, of the sides' alone, and of all of it."""
    sides = {**FILES, **SIDES}
    soup = {"pantry/soup.yaml": f"{SIDES['pantry/soup.yaml']}hands-on: 1 h\n"}
    part = {name: f"{text}hands-on: 3 min\n" for name, text in sides.items() if "plates/" in name}
    cook, mash = "cooks/chuck-30h.yaml", "pantry/mash.yaml"
    rest = {name: f"{sides[name]}hands-on: 1 h\n" for name in (cook, mash)}
    none, some = "some work on the plates is stated nowhere", "as far as the work is stated"
    for name, files, said in (
        ("none", {**sides, **soup}, {none}),
        ("part", {**sides, **soup, **part}, {some}),
        ("full", {**sides, **soup, **part, **rest}, set()),
    ):
        text = pages(costed(tmp_path / name, files))["swaps/swap.html"][1]
        assert {words for words in (none, some) if words in text} == said, name
        assert said != {none} or "no wage can end" not in text
