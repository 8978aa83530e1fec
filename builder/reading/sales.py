"""Exports of a till: `sales/*.csv`, rows with a day, a plate, a count and mostly a price."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from builder.language import clauses, tr
from builder.problems import Problem
from builder.reading.csv_text import missing_column, parse_csv
from builder.reading.limits import LIMITS, Limits
from builder.reading.tree import Branch


def parse_sales(
    file: str, data: bytes, headings: Sequence[tuple[str, str]], limits: Limits = LIMITS
) -> tuple[list[Branch], list[Problem]]:
    """Read a till's export as records of text; further columns are kept and not looked at.

    `headings` pairs each column that must be there with its heading in lower case. Errors: as
    `parse_csv`, and an empty cell of such a column. Without a heading the hint is made of those
    that the file has.

    >>> data = b"day;item;qty\\n2026-09-01;;3\\n"
    >>> records, problems = parse_sales("sales/a.csv", data, [("date", "day"), ("plate", "item")])
    >>> [(str(p.place), p.message) for p in problems]
    [('sales/a.csv:2:12', 'this row has no item')]
    """
    required = [heading for _, heading in headings]
    records, problems = parse_csv(file, data, required, None, limits)
    problems = [_with_mapping(each, dict(headings), file, data) for each in problems]
    empty = [(row, name) for row in records for name in required if not row[name]]
    problems += [
        Problem(row[name].place, tr("this row has no {name}", name=name))
        for row, name in empty[: limits.problems]
    ]
    return records, problems


def _with_mapping(problem: Problem, headings: dict[str, str], file: str, data: bytes) -> Problem:
    """Say how to name a heading in kitchen.yaml where a column is not found."""
    missing = [k for k, v in headings.items() if problem.message == missing_column(v)]
    if not missing:
        return problem
    rows, _ = parse_csv(file, data, (), None)
    there = ", ".join(rows[0]) if rows else ""
    hint = tr(
        "or name its heading in kitchen.yaml: till: {{columns: {{{missing}: ...}}}}",
        missing=missing[0],
    )
    return replace(
        problem,
        hint=clauses((problem.hint, hint, tr("headings here: {there}", there=there))),
    )
