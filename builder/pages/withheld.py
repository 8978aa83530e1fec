"""What a reader may not see is kept from the pages themselves: reading it ends their section.

A page is made of a kitchen in which figures, keys and records that are not granted are barred.
Whatever looks at one, be it only to decide which words to use, raises `WithheldError`, and the
section that it belongs to is left out (`seen`). Cells, tiles and texts of barred figures hold
`WITHHELD` instead, and what holds that goes when the page is finished (`pages/granted.py`).
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Container, Iterable, Iterator
from dataclasses import replace
from functools import partial
from typing import Any, NoReturn, ParamSpec, TypeVar, cast

import numpy as np

from builder.engine.arith import Column
from builder.engine.book import Identity, Origin
from builder.engine.figures import Figures
from builder.engine.model import Node
from builder.language import Deferred
from builder.pages.granted_keys import ABSENT, AMOUNTS, REMARKS, THERE
from builder.pages.reader import Reader
from builder.pages.whereabouts import RowKey
from builder.records.base import Written
from builder.records.fields import Measure
from builder.records.kind import FREE

P = ParamSpec("P")
R = TypeVar("R")

WITHHELD = "\ufdd0"
"""Stands where a text is not granted; a noncharacter, so that no file can hold it by chance."""


NOT_HERE = Deferred("(not in this edition)")
"""Stands in a note for what its reader is not granted, or what is nowhere."""


class WithheldError(Exception):
    """A page looked at what its reader may not see."""


class Barred:
    """In place of a value that is not granted: any look at it raises."""

    def _refuse(self, *_: object, **__: object) -> NoReturn:
        raise WithheldError

    def __getattr__(self, name: str) -> NoReturn:
        # Python itself looks for names of its own kind, and takes their absence for an answer.
        raise AttributeError(name) if name.startswith("__") else WithheldError

    __bool__ = __iter__ = __len__ = __contains__ = __getitem__ = _refuse
    __str__ = __repr__ = __format__ = __float__ = __int__ = __index__ = __call__ = _refuse
    __add__ = __radd__ = __sub__ = __rsub__ = __mul__ = __rmul__ = __truediv__ = _refuse
    __lt__ = __gt__ = __le__ = __ge__ = __eq__ = __ne__ = __hash__ = _refuse


BARRED = Barred()


def seen(make: Callable[P, R], *args: P.args, **kwargs: P.kwargs) -> R | None:
    """A piece of a page; None where it rests on what the reader may not see."""
    try:
        return make(*args, **kwargs)
    except WithheldError:
        return None


def each_seen(pieces: Iterable[R]) -> Iterator[R]:
    """Pieces of a page up to the first that rests on what the reader may not see."""
    try:
        yield from pieces
    except WithheldError:
        return


class SeenFigures(Figures):
    """Figures of which those of some names can't be read, and some rows are nobody's, and empty."""

    def __init__(
        self, figures: Figures, hidden: Container[Node], nobodys: Collection[RowKey] = ()
    ) -> None:
        self.__dict__.update(figures.__dict__)
        self._hidden, self._nobodys = hidden, nobodys

    def _look(self, node: Node) -> None:
        if node in self._hidden:
            raise WithheldError

    def column(self, table: str, figure: str) -> Column:
        """All values of a figure."""
        self._look((table, figure))
        found = super().column(table, figure)
        if rows := [row for name, row in self._nobodys if name == table]:
            found = found.copy()
            found[rows] = np.nan
        return found

    def value(self, table: str, figure: str, row: int) -> float:
        """One value of the plain computation."""
        self._look((table, figure))
        if (table, row) in self._nobodys:
            return np.nan
        return super().reader((table, figure))(row)

    def reader(self, node: Node) -> Callable[[int], float]:
        """What gives the values of one figure, and is held to the same."""
        return partial(self.value, *node)

    def identity(self, table: str, row: int) -> Identity:
        """Whose row it is; of one that is nobody's the page alone."""
        found = super().identity(table, row)
        return Identity(found.owner) if (table, row) in self._nobodys else found

    def origin(self, node: Node, row: int) -> Origin:
        """Where an entered value comes from."""
        self._look(node)
        return super().origin(node, row)


_OWN_NAMES = ("id", "file", "unread", "path", "listed_by")


def redacted(value: R, reader: Reader) -> R:
    """A value of a file in which every key that is not granted is barred."""
    return cast(R, _redacted(value, reader))


def _redacted(value: object, reader: Reader) -> object:
    if isinstance(value, Written):
        return _record(value, reader)
    if isinstance(value, dict):
        return {key: _redacted(each, reader) for key, each in value.items()}
    if isinstance(value, list | tuple) and any(isinstance(each, Written) for each in value):
        return type(value)(_redacted(each, reader) for each in value)
    return value


def _record(record: Written, reader: Reader) -> Written:
    kind = type(record).__name__
    twin = record.model_copy()
    kept = {name: record.__dict__[name] for name in _OWN_NAMES if name in record.__dict__}
    for name in type(record).model_fields:
        grant = "notes" if name in REMARKS else record.granted.get(name)
        if grant is None and reader.sees_records:
            grant = FREE
        if grant is None or not _granted(grant, reader):
            kept[name] = _barred(record.__dict__[name], kind, name)
        elif (kind, name) in AMOUNTS and not _granted(AMOUNTS[kind, name], reader):
            kept[name] = dict.fromkeys(record.__dict__[name], BARRED)
        else:
            kept[name] = _redacted(record.__dict__[name], reader)
    twin.__dict__.clear()
    twin.__dict__.update(kept)
    return twin


def _barred(value: object, kind: str, name: str) -> object:
    """In place of a key's value that is not granted."""
    if (kind, name) not in THERE:
        return ABSENT.get(name, BARRED)
    barred: Any = BARRED
    if not isinstance(value, Measure):
        return None
    return replace(value, value=barred, text=barred, resolution=barred)


def _granted(grant: str, reader: Reader) -> bool:
    return not grant or grant in reader.groups or grant in reader.parts or grant in reader.kinds
