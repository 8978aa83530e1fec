"""Sourced functions: statistics and physics that feed figures.

A formula (see `formulas.py`) is a one-line body over figures. What needs a loop,
a solver or a distribution is an ordinary function marked `@method`, so that it
gets a page of its own made from the same docstring.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from inspect import signature
from typing import ParamSpec, TypeVar

P = ParamSpec("P")
R = TypeVar("R")


@dataclass(frozen=True, slots=True)
class Method:
    """A sourced function as its method page shows it."""

    name: str
    unit: str
    source: str
    title: str
    doc: str
    parameters: tuple[str, ...]


METHODS: dict[str, Method] = {}


def method(
    *, unit: str, source: str, title: str = ""
) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Register a function for the method pages and return it unchanged.

    `unit` is the unit of what it returns ("1" for a ratio), `source` the
    publication that it follows with its status: read, secondary, from memory,
    or "common practice, no published source".
    """

    def register(function: Callable[P, R]) -> Callable[P, R]:
        name = getattr(function, "__name__", "")
        if name in METHODS:
            raise ValueError(f"two methods are called {name}")
        METHODS[name] = Method(
            name=name,
            unit=unit,
            source=source,
            title=title or name.replace("_", " "),
            doc=function.__doc__ or "",
            parameters=tuple(signature(function).parameters),
        )
        return function

    return register
