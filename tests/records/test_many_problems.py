"""However many problems a folder has, so many are held, and every file with an error has one."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import partial
from itertools import count
from pathlib import Path

import pytest

from builder.cli import main
from builder.problems import Gathered, Place, Problem, Severity, bounded
from builder.records import content
from tests.kitchens import write

HEAD = "name: C\nspecies: beef\nprice: 3/kg\ntrim:\n  tests:\n"
TEST = "    - {date: 2026-13-01, in: x, out: y}\n"


def warnings(file: str) -> Iterator[Problem]:
    return (Problem(Place(file, n, 1), "old", severity=Severity.WARNING) for n in count(1))


def test_a_folder_of_wrong_records_holds_so_many(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(content, "Gathered", partial(Gathered, most=60, of_a_file=20))
    files = {f"cuts/c{n}.yaml": HEAD + TEST * 40 for n in range(10)}
    root = write(tmp_path, {"kitchen.yaml": "name: K\ncurrency: EUR\n", **files})
    loaded, problems = content.load(root, None, date(2026, 10, 1))
    held = [problem for problem in problems if not problem.stands_for_more]
    # Twenty each of three files, then the first error of each of the others.
    assert len(held) == 60 + 7
    assert {problem.place.file for problem in held} == set(files)
    assert loaded.doubtful == set(files)
    said = {problem.place.file for problem in problems if problem.stands_for_more}
    assert said == set(files)


def test_an_error_is_held_where_warnings_have_filled_all() -> None:
    gathered = Gathered(most=2)
    gathered.add(problem for problem, _ in zip(warnings("a"), range(5), strict=False))
    gathered.add([Problem(Place("a", 9, 1), "wrong"), Problem(Place("a", 10, 1), "wrong")])
    lines = [problem.place.line for problem in gathered]
    assert lines == [1, 2, 9, 0]
    assert [problem.is_error for problem in gathered] == [False, False, True, True]


@pytest.mark.parametrize("error_after", [None, 7])
def test_warnings_without_end_are_no_error(error_after: int | None) -> None:
    found = [problem for problem, _ in zip(warnings("a"), range(10), strict=False)]
    if error_after:
        found.insert(error_after, Problem(Place("a", 9, 1), "wrong"))
    *_, last = bounded(found, 3)
    assert last.stands_for_more
    assert last.is_error is bool(error_after)


def test_what_is_printed_of_a_folder_is_bounded(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("builder.cli.MAX_PROBLEMS", 30)
    monkeypatch.setattr("builder.cli.MAX_FILES_NAMED", 2)
    (tmp_path / "cuts").mkdir()
    (tmp_path / "kitchen.yaml").write_text("name: K\ncurrency: EUR\n")
    for n in range(5):
        (tmp_path / f"cuts/c{n}.yaml").write_text(HEAD + TEST * 10)
    assert main(["check", str(tmp_path)]) == 1
    printed = capsys.readouterr().err.splitlines()
    # Three things are wrong with each of ten tests of each of five files.
    assert sum(": error: " in line for line in printed) == 30
    assert printed[-3:-1] == [
        "cuts/c2.yaml: 30 more, not listed here",
        "2 other files: 60 more, not listed here",
    ]
    assert printed[-1] == "150 errors, 0 warnings"


def test_a_count_of_what_is_not_all_held_is_at_least_so_many(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "cuts").mkdir()
    (tmp_path / "kitchen.yaml").write_text("name: K\ncurrency: EUR\n")
    (tmp_path / "cuts/c.yaml").write_text(HEAD + TEST * 1_700)
    assert main(["check", str(tmp_path)]) == 1
    assert capsys.readouterr().err.splitlines()[-1] == "at least 500 errors, 0 warnings"
