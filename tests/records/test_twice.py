"""A weighing that is written twice is told with both of its lines."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.problems import Problem
from tests.kitchens import read, write

TEST = "{date: 2026-09-03, in: 8.42 kg, out: 7.10 kg, parts: {fat: 0.41 kg}}"
SAME = "{date: 2026-09-03, in: 8420 g, out: 7.10 kg, parts: {fat: 410 g}}"
OTHERS = (
    TEST.replace("09-03", "09-04"),
    TEST.replace("8.42", "8.43"),
    TEST.replace("7.10", "7.11"),
    TEST.replace("0.41", "0.42"),
    TEST.replace("fat", "skin"),
)
CUT = "species: beef\nprice: 13.60/kg\ntrim:\n  tests:\n"


def warnings(root: Path, *tests: str, cook: str = "") -> list[Problem]:
    lines = "".join(f"    - {test}\n" for test in tests)
    files = {"kitchen.yaml": "name: X\ncurrency: CAD\n", "cuts/shin.yaml": f"{CUT}{lines}"}
    if cook:
        files["cooks/stew.yaml"] = f"cut: shin\nhow: braise\ntrim: {{tests: [{cook}]}}\n"
    _, problems = read(write(root, files))
    return [problem for problem in problems if "counts twice" in problem.message]


@pytest.mark.parametrize("again", [TEST, SAME])
def test_the_same_weighing_is_reported_with_both_lines(again: str, tmp_path: Path) -> None:
    [problem] = warnings(tmp_path, TEST, OTHERS[0], again)
    assert str(problem.place).startswith("cuts/shin.yaml:7:")
    assert "cuts/shin.yaml:5:" in problem.message
    assert problem.record == "cuts/shin"


def test_the_same_weighing_in_a_cook_s_file_is_reported(tmp_path: Path) -> None:
    [problem] = warnings(tmp_path, TEST, cook=TEST)
    assert problem.place.file == "cooks/stew.yaml"
    assert "cuts/shin.yaml:5:" in problem.message


def test_a_weighing_of_another_cook_is_a_copy_and_counts_once(tmp_path: Path) -> None:
    cook = f"cut: shin\nhow: braise\ntests: [{TEST}]\n"
    files = {"kitchen.yaml": "name: X\ncurrency: CAD\n", "cuts/shin.yaml": "species: beef\n"}
    files |= {"cooks/a.yaml": cook, "cooks/b.yaml": cook}
    _, problems = read(write(tmp_path, files))
    [problem] = [found for found in problems if "this weighing" in found.message]
    assert problem.place.file == "cooks/b.yaml"
    assert problem.message.endswith("cooks/a.yaml:3:16: it seems to be copied from there")
    assert "counts twice" not in problem.message


@pytest.mark.parametrize("other", OTHERS)
def test_another_weighing_is_another(other: str, tmp_path: Path) -> None:
    assert warnings(tmp_path, TEST, other) == []
