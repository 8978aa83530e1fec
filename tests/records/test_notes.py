"""Links in notes: followed where there is a record, told where there is none."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.problems import Severity
from tests.kitchens import read, write
from tests.kitchens.small import SMALL


@pytest.mark.parametrize(
    ("note", "hints"),
    [
        ("see [[cuts/ribeye]] and [[cooks/chuck-30h]]", []),
        ("see [[cuts/ribey]]", ['did you mean "[[cuts/ribeye]]"?']),
        ("see [[ribeye]]", ["write [[cuts/ribeye]]"]),
        ("see [[ribey]]", ['did you mean "[[cuts/ribeye]]"?']),
        ("see [[zzzz]]", ["write the folder and the id, as in [[cuts/beef-chuck-roll]]"]),
        (
            "[[]] and [[cuts/zzzz]]",
            ["write the folder and the id, as in [[cuts/beef-chuck-roll]]"] * 2,
        ),
        ("a list of [lists], [[unclosed", []),
    ],
)
def test_a_link_to_no_record_is_a_warning_on_its_page(
    tmp_path: Path, note: str, hints: list[str]
) -> None:
    cut = f"note: '{note}'\n" + SMALL["cuts/chuck.yaml"]
    _, problems = read(write(tmp_path, {**SMALL, "cuts/chuck.yaml": cut}))
    found = [problem for problem in problems if "leads to no record" in problem.message]
    assert [problem.hint for problem in found] == hints
    for problem in found:
        assert (str(problem.place), problem.record) == ("cuts/chuck.yaml:1:7", "cuts/chuck")
        assert problem.severity is Severity.WARNING
