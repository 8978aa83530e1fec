"""A pack of ten times the size, and a count of more than a year, are told with what was meant."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from builder.build import compute_content
from builder.problems import Problem
from tests.kitchens import write
from tests.kitchens.small import SMALL

TODAY = date(2026, 10, 1)
HEAD = "date,item,price,supplier,sold as\n"
LIST, COUNT = "prices/more.csv", "counts/week.yaml"


def told(folder: Path, file: str, text: str) -> list[Problem]:
    _, problems = compute_content(write(folder, {**SMALL, file: text}), None, TODAY)
    return [each for each in problems if each.place.file == file]


@pytest.mark.parametrize(
    ("sizes", "told_of"),
    [
        (["case of 20 kg", "case of 2 kg"], "2 kg"),
        (["case of 20 kg", "case of 20 kg", "case of 20 g"], "20 g"),
        (["case of 20 kg", "case of 10 kg"], ""),
        (["case of 20 kg", "steps of 500 g"], ""),
        (["piece of about 2 kg", "piece of about 20 kg"], "20 kg"),
    ],
)
def test_a_size_far_from_those_before_it(tmp_path: Path, sizes: list[str], told_of: str) -> None:
    rows = [f"2026-0{n + 4}-01,ribeye,41.00/kg,Invented,{size}\n" for n, size in enumerate(sizes)]
    found = [each for each in told(tmp_path, LIST, HEAD + "".join(rows)) if "size" in each.message]
    assert [told_of in each.message for each in found] == [True] * bool(told_of)
    assert all(each.place.line == len(sizes) + 1 for each in found)


@pytest.mark.parametrize(
    ("first", "days", "hint"),
    [
        ("2025-09-21", 372, "did you mean 2026-09-21?"),
        ("2025-12-01", 301, "if it is right"),
        ("2026-07-01", 0, ""),
    ],
)
def test_a_count_of_more_than_a_quarter(tmp_path: Path, first: str, days: int, hint: str) -> None:
    text = f"from: {first}\nto: 2026-09-27\nplates: {{steak: 60}}\n"
    found = [each for each in told(tmp_path, COUNT, text) if "long for one count" in each.message]
    assert [f"{days} days" in each.message for each in found] == [True] * bool(days)
    assert all(hint in each.hint and "weeks" not in each.message for each in found)


@pytest.mark.parametrize(("deposits", "meant"), [(["4.00", "400"], "4.00"), (["4.00", "6.00"], "")])
def test_a_deposit_far_from_the_one_before(tmp_path: Path, deposits: list[str], meant: str) -> None:
    head = HEAD.replace("sold as", "sold as,deposit")
    rows = [
        f"2026-0{n + 4}-01,ribeye,41.00/kg,Invented,crate of 8 kg,{each}\n"
        for n, each in enumerate(deposits)
    ]
    found = [each for each in told(tmp_path, LIST, head + "".join(rows)) if "depo" in each.message]
    assert [f"did you mean {meant}?" in each.hint for each in found] == [True] * bool(meant)


@pytest.mark.parametrize(
    ("shape", "thickness", "is_told"),
    [("block", "11 mm", True), ("block", "110 mm", False), ("sphere", "60 mm", True),
     ("sphere", "150 mm", False)],
)  # fmt: skip
def test_a_thickness_against_the_weight_of_its_shape(
    tmp_path: Path, shape: str, thickness: str, is_told: bool
) -> None:
    """A ball of 2.4 kg of meat is 163 mm through; a block 11 mm high would be half a metre wide."""
    cook = "cooks/chuck-30h.yaml"
    piece = f"piece: {{shape: {shape}, thickness: {thickness}, starts at: 3 °C, weight: 2.4 kg}}"
    text = SMALL[cook].replace("piece: {weight: 2.4 kg}", piece)
    found = [each for each in told(tmp_path, cook, text) if "out of proportion" in each.message]
    assert len(found) == is_told


@pytest.mark.parametrize(("day", "is_told"), [("2062-10-01", True), ("2027-06-01", False)])
@pytest.mark.parametrize("today", [TODAY, date(1999, 1, 1)])
def test_a_site_for_a_day_that_nobody_plans_for(
    tmp_path: Path, day: str, is_told: bool, today: date
) -> None:
    """Whenever it is built: the newest weighing is of September 2026."""
    files = {**SMALL, "kitchen.yaml": f"{SMALL['kitchen.yaml']}as of: {day}\n"}
    _, problems = compute_content(write(tmp_path, files), None, today)
    found = [each for each in problems if "nothing was weighed" in each.message]
    at = f"kitchen.yaml:{len(files['kitchen.yaml'].splitlines())}:8"
    assert [str(each.place) for each in found] == [at] * is_told


def test_a_bath_of_a_hundred_times_its_price(tmp_path: Path) -> None:
    text = SMALL["kitchen.yaml"].replace("price: 1150", "price: 115000")
    assert [each for each in told(tmp_path, "kitchen.yaml", text) if "usual" in each.message]
