"""The published values beside these tests, each row with its source and status."""

from __future__ import annotations

import csv
from functools import lru_cache
from pathlib import Path

DATA = Path(__file__).parent / "data"


@lru_cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """Return the rows of one data file."""
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))
