"""A time that a cook's name gives, as it is read out of the name."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from builder.build import compute_content
from tests.kitchens import write
from tests.kitchens.small import SMALL

GRILL = "cooks/ribeye-grill.yaml"


@pytest.mark.parametrize(
    ("name", "time", "differs"),
    [
        ("Ribs, 5 1/2 h", "5 h 30 min", False),
        ("Ribs, 5½ h", "5 h 30 min", False),
        ("Ribs, 1/2 h", "30 min", False),
        ("Ribs, 5 1/2 h", "2 h", True),
        ("Ribs, 5.5 h", "1 h", True),
    ],
)
def test_a_fraction_in_a_name_is_a_fraction(
    tmp_path: Path, name: str, time: str, differs: bool
) -> None:
    cook = SMALL[GRILL].replace("how: grill", f"name: {name}\nhow: grill\nfor: {time}")
    _, problems = compute_content(write(tmp_path, {**SMALL, GRILL: cook}), None, date(2026, 10, 1))
    assert any("is not what the name" in each.message for each in problems) == differs
