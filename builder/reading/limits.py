"""How much a content folder may hold, so that reading is bounded in time and memory."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limits:
    """Caps of one reading, far above what a kitchen writes by hand.

    `yaml_bytes`, `csv_bytes`, `picture_bytes` [B] of one file and `total_bytes` [B] of the folder;
    `depth` levels of nesting; `nodes` of one YAML file with its aliases written out
    (64 characters of text count as one node more); `rows`, `columns` and `cells` of one
    CSV file;
    `problems` reported for one file before the rest is passed over.
    """

    yaml_bytes: int = 256 * 1024
    csv_bytes: int = 8 * 1024 * 1024
    picture_bytes: int = 16 * 1024 * 1024
    total_bytes: int = 256 * 1024 * 1024
    depth: int = 20
    nodes: int = 50_000
    rows: int = 100_000
    columns: int = 200
    cells: int = 1_000_000
    problems: int = 20


LIMITS = Limits()
