"""Kitchens as content folders, and the way from a folder to its figures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from functools import partial
from pathlib import Path

from builder.build import compute_content
from builder.costing.costed import Costed
from builder.pages.components import Page
from builder.pages.methods import method_pages
from builder.pages.site import page_groups
from builder.pages.view import View
from builder.problems import Problem

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
    return compute_content(root, None, today)


def costed_from(root: Path) -> Costed:
    """The figures of a folder that has no error."""
    costed, problems = read(root)
    assert costed is not None, [f"{p.place} {p.message}" for p in problems if p.is_error]
    return costed


def pages_but_methods(view: View) -> Iterator[Page]:
    """Every page but the thousand of the methods, which are three quarters of a small site."""
    for group in page_groups(view):
        for batch in group.batches:
            if not (isinstance(batch, partial) and batch.func is method_pages):
                yield from batch()
