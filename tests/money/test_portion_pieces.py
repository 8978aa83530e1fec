"""Portions by the piece against hand arithmetic: a piece's share of the raw piece is the cost."""

from __future__ import annotations

from math import isnan
from pathlib import Path

import pytest

from builder.costing.costed import Costed
from builder.pages.plates import plate_page
from builder.pages.view import View
from tests.kitchens import costed_from, read, write

# 10 pieces of 0.25 kg go in; 2 kg come out, so that a piece serves 0.2 kg.
FILES = {
    "kitchen.yaml": "name: K\ncurrency: CAD\nas of: 2026-10-01\nportions: whole\n"
    "equipment: {pot: {kind: oven, holds: 2.6 kg}}\ncovers: [7]\n",
    "cuts/leg.yaml": "species: poultry\nprice: 6.00/kg\ntrim: {loss: 0 %}\n",
    "cooks/legs.yaml": "cut: leg\nhow: braise\nload: 2.5 kg\npiece: {weight: 250 g}\nfor: 3 h\n"
    "equipment: pot\nloss: 20 %\n",
}
PLATE = "menu: mains\ncook: legs\nportion: {}\nprice: 20\n"


def kitchen(folder: Path, portion: str, **changed: str) -> Costed:
    files = {**FILES, "plates/leg.yaml": PLATE.format(portion), **changed}
    return costed_from(write(folder, files))


# Portion, its weight [kg], portions a piece, cost (1.50 a raw piece), portions of the 10 pieces
# that the pot holds, pieces for 7 covers.
CASES = [
    ("1 piece", 0.2, 1, 1.50, 10, 7),
    ("2 pieces", 0.4, 0.5, 3.00, 5, 14),
    ("3 pieces", 0.6, 1 / 3, 4.50, 3, 21),
    ("1/2 piece", 0.1, 2, 0.75, 20, 4),
]


@pytest.mark.parametrize(("portion", "kg", "a_piece", "cost", "load", "seven"), CASES)
@pytest.mark.parametrize("basis", ["whole", "by weight"])
def test_a_portion_of_pieces(
    portion: str, kg: float, a_piece: float, cost: float, load: int, seven: int, basis: str,
    tmp_path: Path,
) -> None:  # fmt: skip
    text = FILES["kitchen.yaml"].replace("portions: whole", f"portions: {basis}")
    figures = kitchen(tmp_path, portion, **{"kitchen.yaml": text}).figures
    found = {
        name: figures.value("plate", name, 0)
        for name in ("portion", "portions_per_piece", "protein_cost", "portions_a_load")
    }
    assert found == pytest.approx(
        {
            "portion": kg,
            "portions_per_piece": a_piece,
            "protein_cost": cost,
            "portions_a_load": int(2.6 / 0.25) * a_piece // 1,
        }
    )
    assert found["portions_a_load"] == load
    assert figures.value("order", "pieces_to_cook", 0) == seven
    assert figures.value("order", "quantity_to_buy_whole", 0) == pytest.approx(seven * 0.25)


def test_a_piece_costs_the_same_whatever_it_loses(tmp_path: Path) -> None:
    """Only a portion by weight costs more where the cook loses more."""
    lost = FILES["cooks/legs.yaml"].replace("20 %", "45 %")
    figures = kitchen(tmp_path, "1 piece", **{"cooks/legs.yaml": lost}).figures
    assert figures.value("plate", "protein_cost", 0) == pytest.approx(1.50)
    assert figures.value("plate", "portion", 0) == pytest.approx(0.25 * 0.55)


def test_pieces_without_a_weight_are_refused_at_their_line(tmp_path: Path) -> None:
    cook = FILES["cooks/legs.yaml"].replace("piece: {weight: 250 g}\n", "")
    files = {**FILES, "cooks/legs.yaml": cook, "plates/leg.yaml": PLATE.format("1 piece")}
    _, problems = read(write(tmp_path, files))
    [error] = [problem for problem in problems if problem.is_error]
    assert str(error.place) == "plates/leg.yaml:3:10"
    assert error.message == "1 piece has no weight behind it"
    assert error.hint == ("write its raw weight in cooks/legs.yaml, such as piece: {weight: 250 g}")


@pytest.mark.parametrize(
    "key", ["weighed portions: [180 g, 190 g]", "give or take: {portion: 5 g}"]
)
def test_a_weight_is_refused_where_the_portion_is_of_pieces(key: str, tmp_path: Path) -> None:
    plate = PLATE.format("1 piece") + f"{key}\n"
    with pytest.raises(AssertionError, match="a portion of pieces weighs what they weigh"):
        kitchen(tmp_path, "1 piece", **{"plates/leg.yaml": plate})


COUNT = (
    "date: 2026-09-30\nplates: {{leg: {sold}}}\ncooks: {{legs: {{used: 25 kg, made: 19 kg}}}}\n"
    "cuts: {{leg: {{used: 25 kg}}}}\n"
)


@pytest.mark.parametrize("remainder", ["", "remainder: 9.00/kg\n"])
@pytest.mark.parametrize("sold", ["40", "{sold: 40, weighed portions: [350 g, 370 g]}"])
@pytest.mark.parametrize("basis", ["whole", "by weight"])
def test_actuals_of_two_pieces_a_plate(
    basis: str, sold: str, remainder: str, tmp_path: Path
) -> None:
    """100 pieces lost more than is costed; 40 plates of two each still took 20 kg, 3.00 a plate."""
    text = FILES["kitchen.yaml"].replace("portions: whole", f"portions: {basis}")
    changed = {
        "kitchen.yaml": text,
        "counts/day.yaml": COUNT.format(sold=sold),
        "cooks/legs.yaml": FILES["cooks/legs.yaml"] + remainder,
    }
    figures = kitchen(tmp_path, "2 pieces", **changed).figures
    found = {
        name: figures.value("sale", name, 0)
        for name in ("portions_as_made", "ap_taken", "cost_taken", "portion_effect", "yield_effect")
    }
    assert found == pytest.approx(
        {
            "portions_as_made": 5, "ap_taken": 20, "cost_taken": 120,
            "portion_effect": 0, "yield_effect": 0,
        },
        abs=1e-9,
    )  # fmt: skip
    served = 40 * (0.36 if "weighed" in sold else 2 * 0.25 * 0.76)
    assert figures.value("sale", "weight_served", 0) == pytest.approx(served)
    assert figures.value("usage", "explained_use", 0) == pytest.approx(20)


def test_no_cook_loss_ends_the_saving_of_a_piece(tmp_path: Path) -> None:
    """A piece costs its share of the raw piece: its price can end the saving, its loss can't."""
    swapped = {
        "cuts/roast.yaml": "species: beef\nprice: 20/kg\ntrim: {loss: 0 %}\n",
        "cooks/roast.yaml": "cut: roast\nhow: roast\nload: 2 kg\npiece: {weight: 2 kg}\n"
        "loss: 20 %\nfor: 2 h\nequipment: pot\n",
        "plates/roast.yaml": "menu: mains\ncook: roast\nportion: 200 g\nprice: 20\n",
        "swaps/leg.yaml": "benchmark: roast\nchallengers: [leg]\n",
    }
    costed = kitchen(tmp_path, "2 pieces", **swapped)
    figures = costed.figures
    limits = ("break_even_cook_loss", "break_even_cook_loss_whole", "portions_to_break_even")
    equal = ("equal_margin_cook_loss", "equal_margin_cook_loss_whole", "portions_to_equal_margin")
    assert figures.value("swap", "margin_change", 0) == pytest.approx(2)
    assert all(isnan(figures.value("swap", name, 0)) for name in (*limits, *equal))
    # Eight portions of 20/kg x 2 kg cost 5.00 each; two pieces of 0.25 kg cost so at 10.00/kg.
    assert figures.value("swap", "break_even_ap_price", 0) == pytest.approx(10)


# Load, pieces of 250 g in it, what a portion of one piece costs at 6.00/kg and no trim.
LOADS = [
    ("2.5 kg", 10.0, 1.50),
    ("2.48 kg", 10.0, 1.488),  # 9.92: ten that are a little lighter
    ("2.39 kg", 9.56, 1.50),
    ("2.6 kg", 10.4, 1.50),
]


@pytest.mark.parametrize(("load", "held", "cost"), LOADS)
@pytest.mark.parametrize("basis", ["whole", "by weight"])
def test_a_load_that_is_no_whole_number_of_pieces(
    load: str, held: float, cost: float, basis: str, tmp_path: Path
) -> None:
    """By hand: a part of a piece gives and costs its share of one, so each costs 250 g of leg."""
    cook = FILES["cooks/legs.yaml"].replace("2.5 kg", load)
    text = FILES["kitchen.yaml"].replace("portions: whole", f"portions: {basis}")
    files = {**FILES, "kitchen.yaml": text, "cooks/legs.yaml": cook}
    files |= {"plates/leg.yaml": PLATE.format("1 piece")}
    figures = costed_from(write(tmp_path, files)).figures
    assert figures.value("plate", "pieces", 0) == pytest.approx(held)
    assert figures.value("plate", "whole_portions", 0) == pytest.approx(held)
    assert figures.value("plate", "protein_cost", 0) == pytest.approx(cost)
    assert figures.value("order", "quantity_to_buy_whole", 0) == pytest.approx(7 * cost / 6)
    told = [each for each in read(tmp_path)[1] if "the part of a piece" in each.message]
    assert len(told) == (held != round(held))
    assert all("write whole pieces, such as load: 10 pieces" in each.hint for each in told)


@pytest.mark.parametrize(("load", "reported"), [("2.5 kg", 0), ("2.43 kg", 0), ("1.41 kg", 1)])
def test_a_part_of_a_piece_is_reported_where_it_matters(
    load: str, reported: int, tmp_path: Path
) -> None:
    """41.67 pieces of 60 g are off by 0.8 %, 40.5 by 1.2 %, 23.5 by 2.1 %."""
    cook = FILES["cooks/legs.yaml"].replace("2.5 kg", load).replace("250 g", "60 g")
    files = {**FILES, "cooks/legs.yaml": cook, "plates/leg.yaml": PLATE.format("1 piece")}
    found = [each for each in read(write(tmp_path, files))[1] if "part of a piece" in each.message]
    assert len(found) == reported


def test_a_page_says_that_a_load_has_a_part_of_a_piece(tmp_path: Path) -> None:
    cook = FILES["cooks/legs.yaml"].replace("2.5 kg", "2.39 kg")
    view = View.of(kitchen(tmp_path, "1 piece", **{"cooks/legs.yaml": cook}), ())
    (plate,) = view.costed.content.plates.values()
    assert "A load is 9.56 pieces, which is no whole number" in str(plate_page(view, plate))
