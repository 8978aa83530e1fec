"""Published and independently computed values, each row with its source and status."""

from __future__ import annotations

import csv
from pathlib import Path

DATA = Path(__file__).parent / "data"

Row = dict[str, str]


def rows(name: str) -> list[Row]:
    """All rows of a data file."""
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def label(row: Row) -> str:
    """A test id: the row's values without its source."""
    return "-".join(value for key, value in row.items() if key not in {"source", "status"})
