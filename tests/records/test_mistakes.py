"""Every mistake is told at its file, line and column, with what would be right."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from builder.problems import Problem
from builder.records.content import load
from tests.kitchens import TODAY, read, write
from tests.kitchens.small import SMALL
from tests.records.doubts import WARNINGS
from tests.records.mistakes import EXTRA, MARK, MISTAKES, PRICES, Mistake

BASE: Mapping[str, str] = {**SMALL, **EXTRA}


def made(mistake: Mistake, text: str) -> tuple[str, str]:
    """The file's text with the mistake in it, and the place that must be told."""
    if mistake.old:
        assert text.count(mistake.old) == 1, mistake
    edited = text.replace(mistake.old, mistake.new) if mistake.old else text + mistake.new
    if MARK not in edited:
        return edited, mistake.file
    at = edited.index(MARK)
    line, column = edited.count("\n", 0, at) + 1, at - edited.rfind("\n", 0, at)
    return edited.replace(MARK, ""), f"{mistake.file}:{line}:{column}"


def check_one_error(mistake: Mistake, files: Mapping[str, str], root: Path) -> None:
    """With the mistake in its file there is this one error, at its place, with its hint."""
    text, place = made(mistake, files[mistake.file])
    costed, problems = read(write(root, {**files, mistake.file: text}))
    assert costed is None
    errors = [problem for problem in problems if problem.is_error]
    assert [str(error.place).startswith(place) for error in errors] == [True], errors
    assert mistake.message in errors[0].message
    assert mistake.hint in errors[0].hint


def reported(root: Path, files: Mapping[str, str]) -> list[Problem]:
    _, problems = read(write(root, {**BASE, **files}))
    return problems


def name(mistake: Mistake) -> str:
    return f"{mistake.file}: {mistake.old.strip()} -> {mistake.new.strip()}"


def test_the_kitchen_without_mistakes_has_no_problem(tmp_path: Path) -> None:
    assert reported(tmp_path, {}) == []


@pytest.mark.parametrize("mistake", MISTAKES, ids=name)
def test_a_mistake_is_one_error_at_its_place(mistake: Mistake, tmp_path: Path) -> None:
    text, place = made(mistake, BASE[mistake.file])
    [error] = [p for p in reported(tmp_path, {mistake.file: text}) if p.is_error]
    assert str(error.place) == place
    assert mistake.message in error.message
    assert mistake.hint in error.hint


@pytest.mark.parametrize("mistake", WARNINGS, ids=name)
def test_a_doubt_is_a_warning_on_its_page(mistake: Mistake, tmp_path: Path) -> None:
    text, place = made(mistake, BASE[mistake.file])
    costed, problems = read(write(tmp_path, {**BASE, mistake.file: text}))
    assert costed is not None
    [warning] = [p for p in problems if mistake.message in p.message]
    assert not warning.is_error
    assert str(warning.place) == place
    assert mistake.hint in warning.hint
    owner = mistake.file.removesuffix(".yaml")
    assert warning.record == ("cuts/chuck" if mistake.file == PRICES else owner)


def errors_of_reading(root: Path) -> list[Problem]:
    return [problem for problem in load(root, None, TODAY)[1] if problem.is_error]


def errors_of_checking(root: Path) -> list[Problem]:
    if errors_of_reading(root):
        return []
    return [problem for problem in read(root)[1] if problem.is_error]


@pytest.mark.parametrize(
    ("errors_of", "fewest"), [(errors_of_reading, 12), (errors_of_checking, 10)]
)
def test_a_mistake_in_every_file_is_reported_at_once(
    errors_of: Callable[[Path], list[Problem]],
    fewest: int,
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    """The first mistake of each file that this step finds, all together."""
    files: dict[str, str] = {}
    alone: set[Problem] = set()
    for mistake in MISTAKES:
        # A portion too large is only seen once there are figures.
        if mistake.file in files or "one piece gives" in mistake.message:
            continue
        text, _ = made(mistake, BASE[mistake.file])
        root = write(tmp_path_factory.mktemp("one"), {**BASE, mistake.file: text})
        if errors := errors_of(root):
            files[mistake.file] = text
            alone |= set(errors)
    together = errors_of(write(tmp_path_factory.mktemp("all"), {**BASE, **files}))
    assert set(together) == alone
    assert len(together) == len(alone)
    assert together == sorted(together, key=lambda problem: problem.place)
    assert len(files) >= fewest
