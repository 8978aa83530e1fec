"""Kitchens as content folders, and the way from a folder to its figures."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from builder.costing.costed import Costed, check_figures, check_records, cost
from builder.problems import Problem, in_order
from builder.records.content import load

PUBLISHED = Path(__file__).parent / "published"
"""A kitchen of published prices and cooking yields only."""

TODAY = date(2026, 10, 1)


def write(root: Path, files: Mapping[str, str]) -> Path:
    """Write a content folder, file by file."""
    for path, text in files.items():
        target = root / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8")
    return root


def read(root: Path, today: date = TODAY) -> tuple[Costed | None, list[Problem]]:
    """Send a folder through the whole chain: its figures, unless an error stops them."""
    content, problems = load(root, None, today)
    if content is not None and not any(problem.is_error for problem in problems):
        problems += check_records(content)
    if content is None or any(problem.is_error for problem in problems):
        return None, in_order(problems)
    costed = cost(content)
    return costed, in_order([*problems, *check_figures(costed)])


def costed_from(root: Path) -> Costed:
    """The figures of a folder that has no error."""
    costed, problems = read(root)
    assert costed is not None, [f"{p.place} {p.message}" for p in problems if p.is_error]
    return costed
