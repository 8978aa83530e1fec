"""Slips of the pen in a real kitchen are told at their line, and true values are not.

The slips are made up by hand (common practice, no published source): a decimal point lost, a
unit taken for another, a digit too many, a year that slipped.
"""

from __future__ import annotations

import csv
import shutil
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from builder.build import compute_content
from builder.problems import Problem
from builder.records.content import load
from builder.records.proportion import check_proportion
from tests.golden import SITES
from tests.kitchens import PUBLISHED, write
from tests.site.sites import DEMO, STARTER

TODAY = date(2031, 5, 6)
SLIPS = list(csv.DictReader((Path(__file__).parent / "slips.csv").open(encoding="utf-8")))


@cache
def before() -> frozenset[tuple[str, str]]:
    _, problems = compute_content(DEMO, None, TODAY)
    return frozenset((str(p.place), p.message) for p in problems)


def kitchen_with(folder: Path, slip: dict[str, str]) -> int:
    """The demo with one slip; the number of the line that it is on."""
    shutil.copytree(DEMO, folder, dirs_exist_ok=True)
    target = folder / slip["file"]
    text = target.read_text(encoding="utf-8")
    assert text.count(slip["old"]) == 1, slip
    target.write_text(text.replace(slip["old"], slip["new"]), encoding="utf-8")
    return text[: text.index(slip["old"])].count("\n") + 1


def new_problems(folder: Path) -> list[Problem]:
    _, problems = compute_content(folder, None, TODAY)
    return [p for p in problems if (str(p.place), p.message) not in before()]


def is_noticed(folder: Path, slip: dict[str, str]) -> bool:
    line = kitchen_with(folder, slip)
    return any((p.place.file, p.place.line) == (slip["file"], line) for p in new_problems(folder))


def test_nearly_every_slip_is_noticed_at_its_line(tmp_path: Path) -> None:
    silent = [
        slip["new"] for n, slip in enumerate(SLIPS) if not is_noticed(tmp_path / str(n), slip)
    ]
    assert len(SLIPS) == 80
    assert len(silent) <= 4, silent


@pytest.mark.parametrize("root", [DEMO, STARTER, PUBLISHED, *(site / "content" for site in SITES)])
def test_true_values_are_left_alone(root: Path) -> None:
    content, _ = load(root, None, TODAY)
    assert content is not None
    assert list(check_proportion(content)) == []


@pytest.mark.parametrize(
    ("file", "old", "new", "hint"),
    [
        ("plates/chuck-steak.yaml", "portion: 210 g", "portion: 210 kg", "did you mean 210 g?"),
        ("plates/chuck-steak.yaml", "mash: 200 g", "mash: 200 kg", "did you mean 200 g?"),
        ("plates/chuck-steak.yaml", "price: 34.50", "price: 3.45", "did you mean 34.5?"),
        ("cuts/beef-chuck-roll.yaml", "13.20/kg", "1320/kg", "did you mean 13.20/kg?"),
        ("cuts/beef-chuck-roll.yaml", "13.20/kg", "13.20/g", "did you mean 13.20/kg?"),
        ("cooks/chuck-roll-30h.yaml", "hands-on: 50 min", "hands-on: 50 h", "50 min?"),
        ("kitchen.yaml", "loaded wage: 24.50/h", "loaded wage: 245/h", "did you mean 24.5/h?"),
    ],
)
def test_the_hint_is_made_from_what_was_written(
    file: str, old: str, new: str, hint: str, tmp_path: Path
) -> None:
    kitchen_with(tmp_path, {"file": file, "old": old, "new": new})
    assert any(hint in p.hint for p in new_problems(tmp_path) if p.place.file == file)


def test_a_record_that_was_checked_is_believed(tmp_path: Path) -> None:
    slip = {"file": "plates/chuck-steak.yaml", "old": "portion: 210 g", "new": "portion: 21 g"}
    kitchen_with(tmp_path, slip)
    [problem] = [p for p in new_problems(tmp_path) if p.place.file == slip["file"]]
    assert "checked:" in problem.hint
    target = tmp_path / slip["file"]
    target.write_text(target.read_text(encoding="utf-8") + "checked: 2026-09-30\n", "utf-8")
    assert not [p for p in new_problems(tmp_path) if p.place.file == slip["file"]]


def test_a_price_newer_than_the_check_is_not_believed(tmp_path: Path) -> None:
    shutil.copytree(DEMO, tmp_path, dirs_exist_ok=True)
    rows = tmp_path / "prices/harrow-lane-meats.csv"
    text = rows.read_text(encoding="utf-8")
    rows.write_text(text.replace("beef-chuck-roll,13.60/kg", "beef-chuck-roll,1360/kg"), "utf-8")
    cut = tmp_path / "cuts/beef-chuck-roll.yaml"
    for day, told in (("2026-09-01", True), ("2026-09-30", False)):
        own = (DEMO / "cuts/beef-chuck-roll.yaml").read_text(encoding="utf-8")
        cut.write_text(f"{own}checked: {day}\n", encoding="utf-8")
        found = [
            p for p in new_problems(tmp_path) if p.place.file == "prices/harrow-lane-meats.csv"
        ]
        assert bool(found) is told


@pytest.mark.parametrize(("currency", "scale"), [("JPY", 110), ("KRW", 1000), ("KWD", 0.22)])
def test_money_is_measured_by_the_kitchen_s_own_wage(
    currency: str, scale: float, tmp_path: Path
) -> None:
    """A kitchen whose every amount is so many times as large is as plausible as before."""
    places = 0 if scale > 1 else 2
    wage, price, plate = (f"{x * scale:.{places}f}" for x in (24, 13, 30))
    files = {
        "kitchen.yaml": f"name: X\ncurrency: {currency}\nloaded wage: {wage}/h\n",
        "cuts/shin.yaml": f"species: beef\nprice: {price}/kg\n",
        "plates/stew.yaml": f"menu: mains\nprice: {plate}\n",
    }
    content, problems = load(write(tmp_path, files), None, TODAY)
    assert content is not None, problems
    assert list(check_proportion(content)) == []
