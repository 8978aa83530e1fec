"""Cooks whose pieces nobody has weighed: nothing of them is rounded to whole pieces or loads.

By hand: 9.6 kg raw, a tenth trimmed before and 24 % lost in the cook, leave 7.296 kg to serve.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import isnan
from pathlib import Path

import pytest

from builder.cooking.schedule import Booking, taken_at_once
from tests.cooks.kitchens import COOK, FILES, changed, costed, pages, problems

UNWEIGHED = changed(COOK, (", weight: 2.4 kg", ""))
SERVABLE = 9.6 * 0.76
SECOND = "menu: mains\ncook: chuck-30h\nportion: 100 g\nprice: 15.00\nforecast: 40\n"


def served(files: Mapping[str, str], plates: str) -> Mapping[str, str]:
    service = f"day: Friday\nat: 18:00\nplates: {{{plates}}}\n"
    return {**files, "plates/small.yaml": SECOND, "services/friday.yaml": service}


def test_a_plate_is_costed_by_weight(tmp_path: Path) -> None:
    kitchen = costed(tmp_path, UNWEIGHED)
    found = {
        name: kitchen.figures.value("plate", name, 0)
        for name in ("protein_cost", "portion_cost_by_weight", "portions_charged")
    }
    assert found["protein_cost"] == found["portion_cost_by_weight"]
    assert found["portions_charged"] == pytest.approx(SERVABLE / 0.2)
    for name in ("portions_per_piece", "whole_portions", "portion_cost_whole"):
        assert isnan(kitchen.figures.value("plate", name, 0))


def test_an_order_and_a_load_are_not_rounded(tmp_path: Path) -> None:
    """A bath that holds 12 kg raw gives 12 / 9.6 of the batch; 400 plates take what they take."""
    figures = costed(tmp_path, UNWEIGHED).figures
    assert isnan(figures.value("order", "pieces_to_cook", 0))
    assert isnan(figures.value("order", "quantity_to_buy_whole", 0))
    portions = 12 * 0.76 / 0.2
    assert figures.value("plate", "portions_a_load", 0) == pytest.approx(portions)
    assert figures.value("batch", "loads_needed", 0) == pytest.approx(400 / portions)


def test_two_plates_of_one_cook_book_what_they_weigh(tmp_path: Path) -> None:
    """30 of 200 g and 20 of 100 g are 8 kg to serve: 10.53 kg raw, in a bath that holds 12 kg."""
    files = served(UNWEIGHED, "chuck-plate: 30, small: 20")
    kitchen = costed(tmp_path, files)
    (planned,) = kitchen.services["friday"].cooks
    assert planned.pieces == 0
    assert planned.raw_kg == pytest.approx(8 / 0.76)
    assert "10.53 kg" in pages(kitchen)["services/friday.html"][1].replace("\xa0", " ")
    found = problems(tmp_path / "again", files)
    assert not [p for p in found if p.record.startswith("services/")]


def test_plates_of_one_cook_are_pooled_before_they_are_rounded(tmp_path: Path) -> None:
    """9 of 200 g or 18 of 100 g from a piece: half a piece of each is one piece, not two."""
    files = served(FILES, "chuck-plate: 4, small: 9")
    (planned,) = costed(tmp_path, files).services["friday"].cooks
    assert planned.pieces == 1
    assert planned.raw_kg == pytest.approx(2.4)


def test_one_warning_a_cook_names_the_key(tmp_path: Path) -> None:
    files = served(UNWEIGHED, "chuck-plate: 4, small: 9")
    (found,) = [p for p in problems(tmp_path, files) if "piece" in p.message]
    assert str(found.place) == COOK
    assert "piece: {weight:" in found.hint
    assert found.record == "cooks/chuck-30h"
    assert not found.is_error
    weighed = problems(tmp_path / "weighed", served(FILES, "chuck-plate: 4, small: 9"))
    assert not [p for p in weighed if "piece" in p.message]


def test_pages_print_no_count_of_pieces_that_nobody_knows(tmp_path: Path) -> None:
    _, text = pages(costed(tmp_path, UNWEIGHED))["plates/chuck-plate.html"]
    assert "Whole pieces" not in text
    assert "Portions per piece" not in text
    assert "The menu uses the cost by weight" in text


def test_a_portion_above_the_whole_batch_is_refused(tmp_path: Path) -> None:
    plate = "plates/chuck-plate.yaml"
    files = {**UNWEIGHED, plate: FILES[plate].replace("200 g", "8 kg")}
    (found,) = [p for p in problems(tmp_path, files) if p.is_error]
    assert "more than a batch gives" in found.message


def test_a_load_without_pieces_fills_what_pieces_leave(tmp_path: Path) -> None:
    """Two pieces of 5 kg leave 2 kg of 12 kg: 2 kg more fit in, 3 kg take another."""
    day = costed(tmp_path, served(FILES, "chuck-plate: 4")).services["friday"].cooks[0].steps[-1]
    pieces = Booking("a", "bath", 57, day.start, day.end, 10, 2)
    for loose, baths in ((2.0, 1), (3.0, 2), (14.0, 2), (14.1, 3)):
        booking = Booking("b", "bath", 57, day.start, day.end, loose, 0)
        assert taken_at_once([pieces, booking], 12) == baths
