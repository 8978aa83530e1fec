"""Portions by the piece against hand arithmetic: a piece's share of the raw piece is the cost."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.costing.costed import Costed
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
    assert error.hint == "write piece: {weight: 250 g} in cooks/legs.yaml, as it goes into the cook"


def test_weighed_portions_belong_to_a_portion_by_weight(tmp_path: Path) -> None:
    plate = PLATE.format("1 piece") + "weighed portions: [180 g, 190 g]\n"
    with pytest.raises(AssertionError, match="a portion of pieces weighs what they weigh"):
        kitchen(tmp_path, "1 piece", **{"plates/leg.yaml": plate})
