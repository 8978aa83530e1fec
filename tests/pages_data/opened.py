"""Tables to download as another program reads them, and the demo kitchen computed."""

from __future__ import annotations

import csv
import io
from datetime import date
from functools import cache

from builder.costing.costed import cost
from builder.pages.data import RESOURCES, csv_of
from builder.pages.view import View
from builder.records.content import load
from tests.site.sites import DEMO

Rows = list[dict[str, str]]


@cache
def demo_view() -> View:
    """The demo kitchen, computed once."""
    content, _ = load(DEMO, None, date(2031, 5, 6))
    assert content is not None
    return View.of(cost(content), ())


def table_of(view: View, name: str) -> Rows:
    """The rows of one table, read back from its file."""
    resource = next(found for found in RESOURCES if found.name == name)
    return list(csv.DictReader(io.StringIO(csv_of(view, resource).decode(), newline="")))


def number(text: str) -> float:
    """A number of a table; nothing known is NaN."""
    return float(text or "nan")
