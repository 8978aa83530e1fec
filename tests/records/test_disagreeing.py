"""Slips that only show beside the other figures of one small kitchen, itself left alone."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

import pytest

from builder.problems import Problem
from builder.records.content import load
from builder.records.proportion import check_proportion
from tests.kitchens import write

BATH = "how: water bath\npiece: {weight: 300 g}\nequipment: bath\n"
TESTS = (
    "tests:\n  - {date: 2026-01-05, in: 12.4 kg, out: 9.05 kg}\n"
    "  - {date: 2026-02-09, in: 13.1 kg, out: 9.61 kg}\n"
    "  - {date: 2026-03-14, in: 12.8 kg, out: 9.22 kg}\n"
)
KITCHEN: Mapping[str, str] = {
    "kitchen.yaml": (
        "name: X\ncurrency: EUR\nloaded wage: 22/h\nseasoning: 3 %\nfill water: 14 °C\n"
        "equipment:\n  bath: {kind: water bath, volume: 58 L, holds: 16 kg}\n"
        "  oven: {kind: oven, holds: 20 kg, measured standby: 1.6 kW}\n"
    ),
    "cuts/leg.yaml": "species: poultry\nprice: 1.50/each\neach: 310 g\ntrim: {loss: 5 %}\n",
    "cooks/leg-4.yaml": f"cut: leg\n{BATH}for: 4 h\nloss: 29 %\n",
    "cooks/leg-8.yaml": f"cut: leg\n{BATH}for: 8 h\nloss: 27 %\n",
    "cooks/leg-9.yaml": f"cut: leg\n{BATH}for: 9 h\n{TESTS}",
    "cooks/roast.yaml": (
        "cut: leg\nhow: oven\nfor: 2 h\nequipment: oven\nload: 10 kg\nenergy: 8 kWh\n"
    ),
    "pantry/bones.yaml": "price: 2/kg\n",
    "pantry/potatoes.yaml": "price: 1/kg\n",
    "pantry/butter.yaml": "price: 7.20/kg\n",
    "pantry/milk.yaml": "price: 1.20/L\n",
    "pantry/rolls.yaml": "price: 0.60/each\neach: 70 g\n",
    "pantry/saffron.yaml": "price: 4.80/g\n",
    "pantry/mash.yaml": (
        "of: {potatoes: 6 kg, butter: 500 g, milk: 1.2 L, saffron: 1 g}\nyield: 93 %\n"
    ),
    "pantry/sauce.yaml": "of: {bones: 11 kg}\nmakes: 4 L\nenergy: 9 kWh\n",
    "plates/leg.yaml": "menu: M\nprice: 16\nwith: {rolls: 1 each, mash: 150 g}\n",
}
ORDER = ("pantry/plain.yaml", "of: {potatoes: 6 kg, butter: 500 g, milk: 1.2 L}\nyield: 93 %\n")


def doubts(root: Path, files: Mapping[str, str]) -> list[Problem]:
    content, problems = load(write(root, {**KITCHEN, **files}), None, date(2026, 12, 1))
    assert content is not None, problems
    assert not [problem for problem in problems if problem.is_error]
    return list(check_proportion(content))


SLIPS = [
    ("kitchen.yaml", "seasoning: 3 %", "seasoning: 20 %", "did you mean 2.0 %?"),
    ("kitchen.yaml", "fill water: 14 °C", "fill water: 58 °C", ""),
    ("kitchen.yaml", "volume: 58 L", "volume: 580 L", "did you mean 58.0 L?"),
    ("kitchen.yaml", "volume: 58 L", "volume: 14 qt", "did you mean 14 gal?"),
    ("cuts/leg.yaml", "each: 310 g", "each: 3.1 kg", "did you mean 0.31 kg?"),
    ("cuts/leg.yaml", "loss: 5 %", "loss: 50 %", "did you mean 5.0 %?"),
    ("cooks/leg-8.yaml", "loss: 27 %", "loss: 72 %", "did you mean 27 %?"),
    ("cooks/leg-9.yaml", "out: 9.61 kg", "out: 6.91 kg", ""),
    ("cooks/roast.yaml", "energy: 8 kWh", "energy: 80 kWh", "did you mean 8.0 kWh?"),
    ("cooks/roast.yaml", "energy: 8 kWh", "energy: 2 kWh", "one of the three"),
    ("pantry/rolls.yaml", "each: 70 g", "each: 0.7 kg", ""),
    ("pantry/sauce.yaml", "makes: 4 L", "makes: 40 L", "did you mean 4.0 L?"),
    ("pantry/sauce.yaml", "energy: 9 kWh", "energy: 90 kWh", "did you mean 9.0 kWh?"),
    ("pantry/mash.yaml", "milk: 1.2 L", "milk: 1.2 ml", "did you mean 1.2 L?"),
    ("pantry/saffron.yaml", "4.80/g", "4.80/kg", ""),
    ("plates/leg.yaml", "rolls: 1 each", "rolls: 11 each", ""),
]


def test_what_agrees_is_left_alone(tmp_path: Path) -> None:
    assert doubts(tmp_path, {}) == []


@pytest.mark.parametrize(("file", "old", "new", "hint"), SLIPS)
def test_one_figure_that_disagrees_is_doubted_alone(
    file: str, old: str, new: str, hint: str, tmp_path: Path
) -> None:
    text = KITCHEN[file]
    assert text.count(old) == 1
    found = doubts(tmp_path, {file: text.replace(old, new)})
    line = text[: text.index(old)].count("\n") + 1
    assert [(p.place.file, p.place.line) for p in found] == [(file, line)]
    assert all(hint in p.hint for p in found)


def test_a_small_part_that_is_nearly_all_of_the_cost_is_doubted(tmp_path: Path) -> None:
    butter = {"pantry/butter.yaml": "price: 72.0/kg\n", ORDER[0]: ORDER[1]}
    [problem] = doubts(tmp_path, butter)
    assert problem.place.file == "pantry/butter.yaml"
    assert "did you mean 7.20/kg?" in problem.hint


def test_a_price_by_the_gram_of_what_is_used_by_the_pound_is_doubted(tmp_path: Path) -> None:
    [problem] = doubts(tmp_path, {"pantry/butter.yaml": "price: 7.20/g\n"})
    assert "did you mean 7.20/kg?" in problem.hint
