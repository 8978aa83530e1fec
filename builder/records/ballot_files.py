"""Answers of tastings as their files give them, a form's export among them."""

from __future__ import annotations

import re
from dataclasses import replace

from builder.language import tr
from builder.problems import Place, Problem, did_you_mean
from builder.reading.csv_text import ADD_COLUMN, missing_column, parse_csv
from builder.reading.folder import CSV, YAML, ContentFile
from builder.reading.tree import Branch, Text
from builder.records.kinds import Tasting

_WHO = {"name", "code", "who", "guest", "person"}
_LIKE_A_CODE = re.compile(r"[A-Za-z][0-9]{1,3}")


def load_ballots(
    files: tuple[ContentFile, ...],
) -> tuple[dict[str, tuple[Branch, ...]], list[Problem]]:
    """Read the rows of the tastings' CSV files; each belongs to the YAML file of its name."""
    ballots: dict[str, tuple[Branch, ...]] = {}
    problems: list[Problem] = []
    yaml = {file.id for file in files if file.suffix in YAML}
    for file in files:
        if file.suffix not in CSV:
            continue
        rows, found = parse_csv(file.path, file.data, ["taster"], None)
        if [problem.message for problem in found] == [missing_column("taster")]:
            rows, found = _as_form(file, found[0])
        problems += found
        if rows or not found:
            ballots[file.id] = tuple(rows)
        if file.id not in yaml:
            hint = did_you_mean(file.id, yaml) or tr(
                "write {folder}/{file}.yaml", folder=Tasting.folder, file=file.id
            )
            problems.append(Problem(Place(file.path), tr("answers without their tasting"), hint))
    return ballots, problems


def _as_form(file: ContentFile, problem: Problem) -> tuple[list[Branch], list[Problem]]:
    """A form's export without a column of tasters: say which heading to write anew.

    Its rows are read on as if that heading were written, so that what else is wrong with them is
    reported in the same round; no rows where no column is clearly the one.
    """
    rows, _ = parse_csv(file.path, file.data, (), None)
    headings = [str(column) for column in (rows[0] if rows else ()) if column != "timestamp"]
    who = [heading for heading in headings if not _WHO.isdisjoint(heading.split())]
    clear = who or [each for each in headings if all(_is_code(row.get(each)) for row in rows)]
    instead = "".join(
        tr(' in place of "{heading}"', heading=heading) for heading in [*clear, *headings][:1]
    )
    hint = problem.hint
    if hint == tr(ADD_COLUMN):
        hint = tr("write Taster{instead}, over private codes such as T1; no names", instead=instead)
    renamed = [_renamed(row, clear[0], "taster") for row in rows] if clear else []
    return renamed, [replace(problem, hint=hint)]


def _is_code(cell: object) -> bool:
    return isinstance(cell, Text) and bool(_LIKE_A_CODE.fullmatch(cell))


def _renamed(row: Branch, column: str, name: str) -> Branch:
    renamed = Branch(row.place)
    for key, cell in row.items():
        heading = Text(name, key.file, key.line, key.column) if key == column else key
        renamed[heading] = cell
    return renamed
