"""The kinds of record whose rows lie beside the others': their tables, and what fills them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from builder.costing.buffet_rows import BuffetRows, buffet_rows
from builder.costing.filled_rows import Rows
from builder.engine.book import Book
from builder.engine.tables import Table
from builder.money.buffets import BUFFET, DISH
from builder.records.content import Content


@dataclass(frozen=True, slots=True)
class KindRows:
    """A kind of record as figures: `fill` adds its rows, that `Rows.of` finds by their class."""

    rows: type
    tables: tuple[Table, ...]
    fill: Callable[[Book, Content, Rows], Mapping[str, Any]]


KINDS = (KindRows(BuffetRows, (BUFFET, DISH), buffet_rows),)
"""Every one, after the cuts, cooks, pantry items, plates, set menus and services it links to."""
