"""Slips that only another figure of the same record, or of the same kitchen, shows.

The kitchens are made up; each slip is a true value with its point moved.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from builder.problems import Problem
from tests.kitchens import read, write

FILES: Mapping[str, str] = {
    "kitchen.yaml": (
        "name: X\ncurrency: USD\nlocale: en_US\nunits: us customary\ntax: 5 %\n"
        "loaded wage: 24.50/h\ntargets: {food cost: 30 %}\n"
    ),
    "cuts/ribeye.yaml": "species: beef\nprice: 16.30/lb\ntrim: 8 %\n",
    "cooks/grill.yaml": "cut: ribeye\nhow: grill\nload: 10 lb\nloss: 20 %\n",
    "plates/steak.yaml": "menu: mains\ncook: grill\nportion: 7 oz\nprice: 38.00\n",
}


def warned(root: Path, files: Mapping[str, str], path: str) -> list[Problem]:
    """What is said at a line of a file that is out of proportion."""
    costed, problems = read(write(root, {**FILES, **files}))
    assert costed is not None, problems
    return [p for p in problems if p.place.file == path and "checked:" in p.hint]


@pytest.mark.parametrize(("price", "meant"), [("3.45", "34.5"), ("3.80", "38.0"), ("0.38", "38")])
def test_food_that_costs_more_than_guests_pay_is_told(
    price: str, meant: str, tmp_path: Path
) -> None:
    path = "plates/steak.yaml"
    text = FILES[path].replace("38.00", price)
    problem = warned(tmp_path, {path: text}, path)[0]
    assert problem.place.line == 4
    assert f"did you mean {meant}?" in problem.hint
    assert warned(tmp_path, {path: f"{text}checked: 2026-09-01\n"}, path) == []


def test_a_plate_that_earns_is_left_alone(tmp_path: Path) -> None:
    assert warned(tmp_path, {}, "plates/steak.yaml") == []
