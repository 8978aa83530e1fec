"""Results that every record's page asks of a view again: made once a view, and gone with it.

Each language has its own, for tables of data say their texts in all of them.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from functools import wraps
from typing import TypeVar
from weakref import WeakKeyDictionary

from builder.language import current_words
from builder.pages.view import View
from builder.records.base import Record

A = TypeVar("A")
K = TypeVar("K", bound=Hashable)
R = TypeVar("R")
C = TypeVar("C", bound=Record)


def per_view(make: Callable[[View, K], R]) -> Callable[[View, K], R]:
    """The same function, which keeps each result for as long as its view is there.

    Without it a page that looks through all plates makes the building time grow with their
    square. What raises is asked again the next time.
    """
    return _kept(make, lambda key: key)


def once_per_view(make: Callable[[View], R]) -> Callable[[View], R]:
    """The same for what is asked of the whole kitchen."""
    found = _kept(lambda view, _: make(view), lambda key: key)
    return wraps(make)(lambda view: found(view, None))


def per_record(make: Callable[[View, C], R]) -> Callable[[View, C], R]:
    """The same for what is found of a record, which its path stands for."""
    return _kept(make, lambda record: record.path)


def _kept(make: Callable[[View, A], R], key_of: Callable[[A], Hashable]) -> Callable[[View, A], R]:
    kept: WeakKeyDictionary[View, dict[Hashable, R]] = WeakKeyDictionary()

    @wraps(make)
    def once(view: View, asked: A) -> R:
        results = kept.setdefault(view, {})
        key = current_words(), key_of(asked)
        if key not in results:
            results[key] = make(view, asked)
        return results[key]

    return once
