"""Plates that change class, by themselves or because the line moved."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.costing.history import ClassCause
from tests.changes.kitchens import BEFORE, PLATE, Files, edited, entry

CHEAP = PLATE.replace("price: 20", "price: 10")
THREE: Files = {
    **BEFORE,
    "plates/other.yaml": PLATE.replace("price: 20", "price: 16"),
    "plates/cheap.yaml": CHEAP,
}
# Margins are 17.50, 13.50 and 7.50, ten sold of each: the line is at 12.83, and at 0.7/3 of sales.


@pytest.mark.parametrize(
    ("edit", "plate", "cause"),
    [
        # 27.50 + 13.50 + 7.50 over 3 are 16.17.
        (("plates/dear.yaml", "price: 20", "price: 30"), "plates/other", ClassCause.LINE),
        # 11.50 is below 12.83.
        (("plates/other.yaml", "price: 16", "price: 14"), "plates/other", ClassCause.OWN_MARGIN),
        # 5 of 25 are 0.2, below 0.233.
        (("plates/other.yaml", ": 10}", ": 5}"), "plates/other", ClassCause.OWN_SALES),
    ],
)
def test_why_a_class_moved(
    edit: tuple[str, str, str], plate: str, cause: ClassCause, tmp_path: Path
) -> None:
    found = entry(tmp_path, edited(edit, files=THREE), THREE)
    causes = {each.plate: each.causes for each in found.classes}
    assert causes[plate] == (cause,)


def test_sales_of_another_plate_move_a_class(tmp_path: Path) -> None:
    # 10 of 60 are 0.167: below 0.233, though the plate sold what it sold before.
    after = edited(("plates/dear.yaml", ": 10}", ": 40}"), files=THREE)
    causes = {each.plate: each.causes for each in entry(tmp_path, after, THREE).classes}
    assert causes["plates/cheap"] == (ClassCause.OTHERS_SALES,)


def test_both_lines_crossed_at_once(tmp_path: Path) -> None:
    # 40 sold at 27.50: the line goes to 21.83, the share of the others to 0.167.
    edits = (
        ("plates/dear.yaml", "price: 20", "price: 30"),
        ("plates/dear.yaml", ": 10}", ": 40}"),
    )
    found = entry(tmp_path, edited(*edits, files=THREE), THREE)
    causes = {each.plate: each.causes for each in found.classes}
    assert causes["plates/other"] == (ClassCause.OTHERS_SALES, ClassCause.LINE)


def test_without_a_class_there_is_no_cause(tmp_path: Path) -> None:
    after = edited(("plates/cheap.yaml", "sold: {2026-09: 10}\n", ""), files=THREE)
    (gone,) = [e for e in entry(tmp_path, after, THREE).classes if e.plate == "plates/cheap"]
    assert (gone.after, gone.causes) == (None, ())
