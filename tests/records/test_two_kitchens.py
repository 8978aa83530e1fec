"""Slips in two made-up kitchens, a metric and a US customary one, and values that are unusual only.

The slips were written down before the rules were tried on them; those that stay silent are named,
for nothing in the kitchen belies them.
"""

from __future__ import annotations

import csv
import shutil
from functools import cache
from pathlib import Path

import pytest

from builder.records.content import load
from builder.records.proportion import check_proportion
from tests.kitchens import TODAY, read

KITCHENS = Path(__file__).parent / "two_kitchens"
SLIPS = list(csv.DictReader((KITCHENS / "slips.csv").open(encoding="utf-8")))
UNUSUAL = list(csv.DictReader((KITCHENS / "unusual.csv").open(encoding="utf-8")))
# A much richer side: it could be.
SILENT = {"butter: 1.5 kg"}


@cache
def known(kitchen: str) -> frozenset[tuple[str, str]]:
    costed, problems = read(KITCHENS / kitchen)
    assert costed is not None, problems
    return frozenset((str(p.place), p.message) for p in problems)


@pytest.mark.parametrize("kitchen", ["metric", "customary"])
def test_the_kitchens_as_they_are_give_no_problem(kitchen: str) -> None:
    """A braise and a pan on two burners of one range are no clash of temperatures, for one.

    Their loads are weights, most of them no whole number of pieces, which matters to few.
    """
    parts = "the part of a piece counts by its weight"
    of_parts = {each for each in known(kitchen) if each[1].endswith(parts)}
    assert known(kitchen) == of_parts
    assert len(of_parts) <= 3


def changed(folder: Path, row: dict[str, str]) -> int:
    """One of the kitchens with one value changed; the number of its line."""
    shutil.copytree(KITCHENS / row["kitchen"], folder)
    target = folder / row["file"]
    text = target.read_text(encoding="utf-8")
    assert text.count(row["old"]) == 1, row
    target.write_text(text.replace(row["old"], row["new"]), encoding="utf-8")
    return text[: text.index(row["old"])].count("\n") + 1


@pytest.mark.parametrize("kitchen", ["metric", "customary"])
def test_the_slips_of_a_kitchen_are_reported_at_their_line(kitchen: str, tmp_path: Path) -> None:
    silent, rows = set(), [row for row in SLIPS if row["kitchen"] == kitchen]
    for number, row in enumerate(rows):
        folder = tmp_path / str(number)
        line = changed(folder, row)
        places = {
            (p.place.file, p.place.line)
            for p in read(folder)[1]
            if (str(p.place), p.message) not in known(kitchen)
        }
        if (row["file"], line) not in places:
            silent.add(row["new"])
    assert silent <= SILENT
    assert len(rows) > 50
    assert len(SILENT) <= 0.05 * len(SLIPS)


@pytest.mark.parametrize("row", UNUSUAL, ids=lambda row: row["new"])
def test_what_is_unusual_but_true_is_left_alone(row: dict[str, str], tmp_path: Path) -> None:
    changed(tmp_path / "kitchen", row)
    content, problems = load(tmp_path / "kitchen", None, TODAY)
    assert content is not None
    assert not [problem for problem in problems if problem.is_error]
    assert [(str(p.place), p.message) for p in check_proportion(content)] == []
