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


@pytest.mark.parametrize(
    ("time", "hint"),
    [("21 h", "did you mean 12 h?"), ("24 h", "did you mean 12 h?"), ("1.2 h", "12 h?")],
)
def test_the_hint_is_what_the_name_gives(tmp_path: Path, time: str, hint: str) -> None:
    """Two digits changed places, twice as long, and a decimal point: each time 12 h is meant."""
    cook = SMALL[GRILL].replace("how: grill", f"name: Ribs 12 h\nhow: oven\nat: 90 °C\nfor: {time}")
    _, problems = compute_content(write(tmp_path, {**SMALL, GRILL: cook}), None, date(2026, 10, 1))
    hints = [each.hint for each in problems if "is not what the name" in each.message]
    assert len(hints) == 1 and hint in hints[0], [str(each) for each in problems]


def test_a_number_of_the_files_own_name_is_quoted_from_there(tmp_path: Path) -> None:
    cook = SMALL[GRILL].replace("how: grill", "name: Ribs\nhow: oven\nat: 90 °C\nfor: 90 min")
    files = {**SMALL, "cooks/ribs-2h.yaml": cook}
    _, problems = compute_content(write(tmp_path, files), None, date(2026, 10, 1))
    [message] = [each.message for each in problems if "is not what the name" in each.message]
    assert message == 'for: 90 min is not what the name "ribs-2h" says'
