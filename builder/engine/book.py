"""The book of inputs: rows with their given values, links and places.

Filled row by row from the checked records, read column by column by the
computation. Every given value keeps the place where somebody wrote it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from builder.engine.arith import Column
from builder.engine.model import Model, Node
from builder.engine.tables import Entered, Given, Table
from builder.frozen import frozen
from builder.problems import Place

Links = NDArray[np.intp]
"""For each row the number of the row that it points to, -1 for none."""


@frozen
class Origin:
    """Where an input's value comes from: a place in a file, or a reason."""

    place: Place | None = None
    reason: str = ""
    text: str = ""


@frozen
class Entry:
    """A given value with its origin."""

    value: float
    origin: Origin


@frozen
class Identity:
    """Who a row is, whatever its number: its owner's path, its key there, its words.

    `owner` is the path of the record that the row belongs to ("cuts/chuck-roll"); `key` tells
    the row from the owner's others and `label` does so in words, both empty for the row that
    stands for the owner itself. Neither changes when other records come or go.
    """

    owner: str
    key: str = ""
    label: str = ""


@dataclass(slots=True)
class _Rows:
    """The rows of one table, column by column while they are being added."""

    size: int = 0
    identities: list[Identity] = field(default_factory=list)
    values: dict[str, list[float]] = field(default_factory=dict)
    origins: dict[str, list[Origin]] = field(default_factory=dict)
    links: dict[str, list[int]] = field(default_factory=dict)


class Book:
    """Rows of every table of a model, with given values and links."""

    def __init__(self, model: Model) -> None:
        self.model = model
        self._rows = {name: self._blank(table) for name, table in model.tables.items()}
        self._defaults = {name: _defaults(table) for name, table in model.tables.items()}

    @staticmethod
    def _blank(table: Table) -> _Rows:
        rows = _Rows(links={link: [] for link in table.links})
        for figure in table.figures.values():
            if isinstance(figure.how, Entered):
                rows.values[figure.name] = []
                rows.origins[figure.name] = []
        return rows

    def add(
        self,
        table: Table,
        links: Mapping[str, int] | None = None,
        values: Mapping[str, Entry | None] | None = None,
        who: Identity | None = None,
    ) -> int:
        """Add a row and return its number; without an identity it is called by its number.

        A value left out (or None) takes the figure's default. KeyError on a
        name that is not entered with a row or a link of the table.
        """
        rows = self._rows[table.name]
        links = links or {}
        values = values or {}
        if unknown := (set(links) - set(rows.links)) | (set(values) - set(rows.values)):
            raise KeyError(f"table {table.name} has no {', '.join(sorted(unknown))}")
        for name, column in rows.links.items():
            column.append(links.get(name, -1))
        defaults = self._defaults[table.name]
        for name, numbers in rows.values.items():
            entry = values.get(name) or defaults[name]
            numbers.append(entry.value)
            rows.origins[name].append(entry.origin)
        rows.identities.append(who or Identity(table.name, str(rows.size)))
        rows.size += 1
        return rows.size - 1

    def size(self, table: str) -> int:
        """Number of rows in a table."""
        return self._rows[table].size

    def identity(self, table: str, row: int) -> Identity:
        """Who a row is."""
        return self._rows[table].identities[row]

    def given(self, node: Node) -> Column:
        """The column of a figure that is entered with its rows, shape (rows, 1)."""
        table, name = node
        return np.array(self._rows[table].values[name], dtype=np.float64).reshape(-1, 1)

    def links(self, table: str, link: str) -> Links:
        """A link's row numbers, shape (rows,)."""
        return np.array(self._rows[table].links[link], dtype=np.intp)

    def origin(self, node: Node, row: int) -> Origin:
        """Where the value of a given figure in one row comes from."""
        table, name = node
        return self._rows[table].origins[name][row]


def _defaults(table: Table) -> dict[str, Entry]:
    """What stands in for a value that nobody wrote."""
    found = {}
    for figure in table.figures.values():
        how = figure.how
        if isinstance(how, Given) and how.default is not None:
            found[figure.name] = Entry(how.default, Origin(reason=how.reason or "default"))
        elif isinstance(how, Entered):
            reason = "not given" if isinstance(how, Given) else "not known"
            found[figure.name] = Entry(float("nan"), Origin(reason=reason))
    return found
