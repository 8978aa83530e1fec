"""Results that every record's page asks of a view again: made once a view, and gone with it."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from functools import wraps
from typing import TypeVar
from weakref import WeakKeyDictionary

from builder.pages.view import View

K = TypeVar("K", bound=Hashable)
R = TypeVar("R")


def per_view(make: Callable[[View, K], R]) -> Callable[[View, K], R]:
    """The same function, which keeps each result for as long as its view is there.

    Without it a page that looks through all plates makes the building time grow with their
    square. What raises is asked again the next time.
    """
    kept: WeakKeyDictionary[View, dict[K, R]] = WeakKeyDictionary()

    @wraps(make)
    def once(view: View, key: K) -> R:
        results = kept.setdefault(view, {})
        if key not in results:
            results[key] = make(view, key)
        return results[key]

    return once
