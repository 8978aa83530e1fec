"""A letter that looks like a digit is named, and the hint has the digit in its place."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.kitchens import read, write

KITCHEN = "name: X\ncurrency: CAD\n"
UNITS = "units that fit: kg, g, lb, oz, L, mL, fl oz, cup, pt, qt, gal, each, dozen, case of 12"
CASES = (
    ("price: 13.O5/kg", "write 13.05/kg"),
    ("price: l3.05/kg", "write 13.05/kg"),
    ("price: I3.05/kg", "write 13.05/kg"),
    ("price: 13.05/kg\npurge: 1.O %", "write 1.0 %"),
    ("price: 13.O5", f'"13.05" does not say per what; write 13.05/ and a unit; {UNITS}'),
    ("price: 3.8S/kg", "write 3.85/kg"),
    ("price: 3.B/kg", "write 3.8/kg"),
    ("price: 2.O8", f'"2.08" does not say per what; write 2.08/ and a unit; {UNITS}'),
    ("price: 2.8O", f'"2.80" does not say per what; write 2.80/ and a unit; {UNITS}'),
    (
        "price: 13,O5/kg",
        '"13,05" has a comma, which may group thousands or mark decimals; write 13.05/kg',
    ),
    ("price: 13/kg\npurge: 1.O", '"1.0" has no unit; units that fit: %'),
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
