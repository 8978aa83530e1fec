"""The rows of the records in the book of inputs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any, TypeVar

from builder.costing.menu_rows import MenuRows
from builder.costing.portion_rows import Further
from builder.costing.scale_rows import ScaleRows
from builder.costing.service_rows import ServiceRows
from builder.records.chains import Link
from builder.records.kinds import Plate
from builder.records.plates import Portion

R = TypeVar("R")


@dataclass(slots=True)
class Rows:
    """Which row of which table is which record."""

    cuts: dict[str, int] = field(default_factory=dict)
    cooks: dict[str, int] = field(default_factory=dict)
    pantry: dict[str, int] = field(default_factory=dict)
    plates: dict[str, int] = field(default_factory=dict)
    sections: dict[str, int] = field(default_factory=dict)
    equipment: dict[str, int] = field(default_factory=dict)
    stages: dict[tuple[str, str], int] = field(default_factory=dict)
    swaps: dict[tuple[str, str], int] = field(default_factory=dict)
    moved_cuts: dict[tuple[str, str, str], int] = field(default_factory=dict)
    steps: dict[str, list[tuple[Link, int]]] = field(default_factory=dict)
    tests: dict[int, list[int]] = field(default_factory=dict)
    parts: dict[int, dict[str, int]] = field(default_factory=dict)
    byproducts: dict[int, dict[str, int]] = field(default_factory=dict)
    lines: dict[str, dict[str, int]] = field(default_factory=dict)
    sides: dict[str, dict[str, int]] = field(default_factory=dict)
    cover: dict[str, int] = field(default_factory=dict)
    further: dict[str, list[Further]] = field(default_factory=dict)
    orders: dict[str, list[int]] = field(default_factory=dict)
    consumables: dict[str, dict[str, int]] = field(default_factory=dict)
    cooling: dict[str, list[int]] = field(default_factory=dict)
    services: ServiceRows = field(default_factory=ServiceRows)
    menus: dict[str, MenuRows] = field(default_factory=dict)
    scaling: ScaleRows = field(default_factory=ScaleRows)
    takings: dict[tuple[str, date], int] = field(default_factory=dict)
    raw: dict[tuple[str, bool], int] = field(default_factory=dict)
    kinds: dict[type, Mapping[str, Any]] = field(default_factory=dict)

    def of(self, rows: type[R]) -> Mapping[str, R]:
        """The rows of a kind of `costing.kinds`, by the ids of its records."""
        return self.kinds[rows]

    def batch(self, portion: Portion) -> int:
        """The batch that a portion is of: of its cook, or of its cut, by pieces or by weight."""
        counted = portion.pieces is not None
        return self.cooks[portion.cook] if portion.cook else self.raw[str(portion.cut), counted]

    def portions(self, plate: Plate) -> Iterator[tuple[Portion, str, int]]:
        """Every portion of a plate with its table and row; the main one's are the plate's."""
        rows = [("plate", self.plates[plate.id])]
        rows += [("portion", further.row) for further in self.further[plate.id]]
        for portion, (table, row) in zip(plate.served, rows, strict=False):
            yield portion, table, row
