"""Slices, pieces by their own name, and loads by count, against hand arithmetic."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.costing.costed import Costed
from builder.records.plates import counted_text
from tests.kitchens import costed_from, read, write

# A piece of 2 kg at 10.00/kg leaves 1.5 kg to slice.
FILES = {
    "kitchen.yaml": "name: K\ncurrency: CAD\nas of: 2026-10-01\nportions: whole\n"
    "equipment: {pot: {kind: oven, holds: 12 kg}}\ncovers: [40]\n",
    "cuts/round.yaml": "species: beef\nprice: 10.00/kg\ntrim: {loss: 0 %}\neach: 2 kg\n",
    "cooks/round.yaml": "cut: round\nhow: roast\nload: 4 kg\npiece: {weight: 2 kg, name: loaf}\n"
    "for: 3 h\nequipment: pot\nloss: 25 %\nslices: 28 g\n",
    "plates/round.yaml": "menu: mains\ncook: round\nportion: 3 slices\nprice: 20\n",
}


def kitchen(folder: Path, **changed: str) -> Costed:
    return costed_from(write(folder, {**FILES, **changed}))


def plate(costed: Costed, figure: str) -> float:
    return costed.figures.value("plate", figure, 0)


def problem(folder: Path, **changed: str) -> tuple[str, str, str]:
    _, problems = read(write(folder, {**FILES, **changed}))
    [error] = [each for each in problems if each.is_error]
    return str(error.place), error.message, error.hint


def test_slices_of_a_weight_are_a_portion_by_weight(tmp_path: Path) -> None:
    """Three of 28 g are 84 g; 1500 g give 17 whole portions and 72 g: 20.00 / 17."""
    costed = kitchen(tmp_path)
    assert plate(costed, "portion") == pytest.approx(0.084)
    assert plate(costed, "portions_per_piece") == 17
    assert plate(costed, "protein_cost") == pytest.approx(20 / 17)
    assert counted_text(costed.content.plates["round"].portion) == "3 slices"
    assert costed.figures.origin(("plate", "stated_portion"), 0).text == "3 slices"


def test_slices_that_a_piece_gives_are_a_share_of_it(tmp_path: Path) -> None:
    """Three of twelve are a quarter of a piece of 20.00, and weigh a quarter of its 1.5 kg."""
    cook = FILES["cooks/round.yaml"].replace("slices: 28 g", "slices: 12")
    costed = kitchen(tmp_path, **{"cooks/round.yaml": cook})
    assert plate(costed, "portion") == pytest.approx(0.375)
    assert plate(costed, "portions_per_piece") == pytest.approx(4)
    assert plate(costed, "protein_cost") == pytest.approx(5)
    [order] = costed.rows.orders["round"]
    assert costed.figures.value("order", "pieces_to_cook", order) == 10


@pytest.mark.parametrize("slices", ["28 g", "24"])
def test_slices_of_a_cut_that_nothing_cooks(slices: str, tmp_path: Path) -> None:
    """A ham of 2 kg at 10.00/kg, sliced as it is: by weight, or as three of its 24."""
    cut = FILES["cuts/round.yaml"] + f"slices: {slices}\n"
    served = "menu: mains\ncut: round\nportion: 3 slices\nprice: 20\n"
    costed = kitchen(tmp_path, **{"cuts/round.yaml": cut, "plates/round.yaml": served})
    assert plate(costed, "protein_cost") == pytest.approx(0.84 if "g" in slices else 20 * 3 / 24)


@pytest.mark.parametrize(("written", "cost"), [("1 loaf", 20), ("2 loaves", 40), ("1/2 loaf", 10)])
def test_a_piece_by_its_own_name(written: str, cost: float, tmp_path: Path) -> None:
    served = FILES["plates/round.yaml"].replace("3 slices", written)
    costed = kitchen(tmp_path, **{"plates/round.yaml": served})
    assert plate(costed, "protein_cost") == pytest.approx(cost)
    assert counted_text(costed.content.plates["round"].portion) == written


@pytest.mark.parametrize("written", ["3 pieces", "3 loaves"])
def test_a_load_by_count_is_so_many_times_a_piece(written: str, tmp_path: Path) -> None:
    cook = FILES["cooks/round.yaml"].replace("load: 4 kg", f"load: {written}")
    costed = kitchen(tmp_path, **{"cooks/round.yaml": cook})
    assert costed.figures.value("batch", "load", 0) == pytest.approx(6)
    assert costed.figures.value("batch", "pieces", 0) == 3


def test_tests_by_count_take_whole_pieces(tmp_path: Path) -> None:
    """Three pieces of 2 kg leave 4.2 kg, 70 %; five as bought at 2 kg leave 9 kg, 90 %."""
    cook = FILES["cooks/round.yaml"].replace(
        "loss: 25 %", "tests: [{date: 2026-09-01, in: 3 loaves, out: 4.2 kg}]"
    )
    cut = FILES["cuts/round.yaml"].replace(
        "{loss: 0 %}", "{tests: [{date: 2026-09-01, in: 5 pieces, out: 9 kg}]}"
    )
    costed = kitchen(tmp_path, **{"cooks/round.yaml": cook, "cuts/round.yaml": cut})
    assert costed.figures.value("batch", "overall_yield", 0) == pytest.approx(0.7 * 0.9)


_AT = "plates/round.yaml:3:10"


@pytest.mark.parametrize(
    ("file", "old", "new", "place", "message", "hint"),
    [
        ("cooks/round.yaml", "slices: 28 g\n", "", _AT,
         "3 slices of Round: what a slice weighs is not known",
         "write one's weight, or how many a piece gives, in cooks/round.yaml as slices:"),
        ("cooks/round.yaml", "28 g", "2.8 kg", "cooks/round.yaml:8:9",
         "a slice of 2.8 kg is heavier than the piece of 2 kg",
         "write what one slice weighs, or how many there are"),
        ("cooks/round.yaml", "28 g", "0 g", "cooks/round.yaml:8:9",
         "a slice is more than nothing", "such as slices: 28 g"),
        ("cooks/round.yaml", "28 g", "28 ml", "cooks/round.yaml:8:9",
         '"28 ml" is a volume; this asks for a weight', "units that fit: kg, g, lb, oz"),
        ("plates/round.yaml", "3 slices", "1 leg", _AT, 'unknown unit "leg"',
         "units that fit: kg, g, lb, oz, piece, slice; its cook may call a piece so, "
         "as name under piece"),
        ("cuts/round.yaml", "{loss: 0 %}\neach: 2 kg",
         "{tests: [{date: 2026-09-01, in: 5 pieces, out: 9 kg}]}", "cuts/round.yaml:3:39",
         "5 pieces has no weight behind it",
         "write what one weighs in cuts/round.yaml, such as each: 90 g"),
        ("cooks/round.yaml", "slices: 28 g",
         "carve: {tests: [{date: 2026-09-01, in: 2 pieces, out: 2.9 kg}]}\nslices: 28 g",
         "cooks/round.yaml:8:40", "no whole pieces go into this stage",
         "write what went in as a weight"),
    ],
)  # fmt: skip
def test_what_contradicts_or_is_missing(
    file: str, old: str, new: str, place: str, message: str, hint: str, tmp_path: Path
) -> None:
    changed = {file: FILES[file].replace(old, new)}
    assert problem(tmp_path, **changed) == (place, message, hint)


def test_a_count_without_a_weight_is_refused(tmp_path: Path) -> None:
    cook = "cut: round\nhow: roast\nload: 3 pieces\nfor: 3 h\nequipment: pot\nloss: 25 %\n"
    served = FILES["plates/round.yaml"].replace("3 slices", "84 g")
    found = problem(tmp_path, **{"cooks/round.yaml": cook, "plates/round.yaml": served})
    assert found == (
        "cooks/round.yaml:3:7", "3 pieces has no weight behind it",
        "write its raw weight in cooks/round.yaml, such as piece: {weight: 250 g}",
    )  # fmt: skip


def test_a_number_of_slices_needs_the_weight_of_what_gives_them(tmp_path: Path) -> None:
    cook = FILES["cooks/round.yaml"].replace("piece: {weight: 2 kg, name: loaf}\n", "")
    served = FILES["plates/round.yaml"].replace("3 slices", "84 g")
    changed = {"cooks/round.yaml": cook.replace("28 g", "12"), "plates/round.yaml": served}
    assert problem(tmp_path, **changed) == (
        "cooks/round.yaml:7:9", "what gives 12 slices has no weight",
        "write its raw weight in cooks/round.yaml, such as piece: {weight: 250 g}",
    )  # fmt: skip


def test_another_cook_s_word_is_refused(tmp_path: Path) -> None:
    """A kitchen knows the word, but this cook's piece is not called so."""
    legs = FILES["cooks/round.yaml"].replace("name: loaf", "name: leg")
    served = FILES["plates/round.yaml"].replace("3 slices", "2 legs")
    found = problem(tmp_path, **{"cooks/legs.yaml": legs, "plates/round.yaml": served})
    assert found == (_AT, "a piece of Round is called loaf", "write 2 pieces")


def test_weighed_portions_go_with_slices_by_weight_only(tmp_path: Path) -> None:
    served = FILES["plates/round.yaml"] + "weighed portions: [85 g, 83 g, 88 g]\n"
    assert plate(kitchen(tmp_path, **{"plates/round.yaml": served}), "portion") > 0
    cook = FILES["cooks/round.yaml"].replace("28 g", "12")
    found = problem(tmp_path, **{"cooks/round.yaml": cook, "plates/round.yaml": served})
    assert found[1] == "a portion of 3 slices weighs what they weigh"


def test_a_load_by_count_doubts_the_weight_of_a_piece(tmp_path: Path) -> None:
    """Two pieces of 2 kg, where tests put 40 kg in: a piece should weigh 20 kg."""
    cook = FILES["cooks/round.yaml"].replace("load: 4 kg", "load: 2 pieces").replace(
        "loss: 25 %", "tests: [{date: 2026-09-01, in: 40 kg, out: 30 kg}]"
    )  # fmt: skip
    kitchen = FILES["kitchen.yaml"].replace("12 kg", "40 kg")
    _, problems = read(
        write(tmp_path, {**FILES, "kitchen.yaml": kitchen, "cooks/round.yaml": cook})
    )
    [doubt] = [each for each in problems if "middle of its tests" in each.message]
    assert str(doubt.place) == "cooks/round.yaml:4:17"
    assert doubt.message == "2 kg is 1/10 of the middle of its tests, each of 2 pieces"
