"""A letter that looks like a digit is named, and the hint has the digit in its place."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.kitchens import read, write

KITCHEN = "name: X\ncurrency: CAD\n"
CASES = (
    ("price: 13.O5/kg", "write 13.05/kg"),
    ("price: l3.05/kg", "write 13.05/kg"),
    ("price: I3.05/kg", "write 13.05/kg"),
    ("price: 13.05/kg\npurge: 1.O %", "write 1.0 %"),
    ("price: 13/kg\ntrim: {tests: [{date: 2O26-09-03, in: 8 kg, out: 7 kg}]}", "write 2026-09-03"),
    ("price: 13/kg\ntrim: {tests: [{date: 2026-09-03, in: 8.4o kg, out: 7 kg}]}", "write 8.40 kg"),
)


@pytest.mark.parametrize(("text", "hint"), CASES)
def test_a_letter_for_a_digit_is_named(text: str, hint: str, tmp_path: Path) -> None:
    files = {
        "kitchen.yaml": "name: X\ncurrency: CAD\n",
        "cuts/shin.yaml": f"species: beef\n{text}\n",
    }
    _, problems = read(write(tmp_path, files))
    [problem] = [found for found in problems if found.is_error]
    assert problem.hint == hint
    assert "letter where a digit belongs" in problem.message


@pytest.mark.parametrize("text", ["price: 13.05/l", "price: 2/lb", "price: 12/oz"])
def test_a_unit_s_letter_is_no_digit(text: str, tmp_path: Path) -> None:
    files = {
        "kitchen.yaml": "name: X\ncurrency: CAD\n",
        "pantry/oil.yaml": f"litre: 1 kg\n{text}\n",
    }
    _, problems = read(write(tmp_path, files))
    assert not [found for found in problems if "letter" in found.message]
