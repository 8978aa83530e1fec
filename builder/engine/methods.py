"""Sourced functions: statistics and physics that feed figures.

A formula (see `formulas.py`) is a one-line body over figures. What needs a loop,
a solver or a distribution is an ordinary function marked `@method`, so that it
gets a page of its own made from the same docstring.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from inspect import signature
from typing import ParamSpec, TypeVar

# What a function is annotated with that returns numbers.
_NUMBERS = re.compile(
    r"(?:float|int|Column|Floats|FloatArray|NDArray\[[\w.]+\])\b.*|tuple\[(?:float|int)\b.*"
)
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

    @property
    def unit_words(self) -> str:
        """The unit as a page writes it; empty where what it gives is no number, such as a plan."""
        return "number" if self.unit == "1" else self.unit


METHODS: dict[str, Method] = {}


def method(
    *, unit: str, source: str, title: str = ""
) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Register a function for the method pages and return it unchanged.

    `unit` is the unit of what it returns ("1" for a plain number; it has none where the
    function's annotation says that it returns something else), `source` the
    publication that it follows with its status: read, secondary, from memory,
    or "common practice, no published source".
    """

    def register(function: Callable[P, R]) -> Callable[P, R]:
        name = getattr(function, "__name__", "")
        if name in METHODS:
            raise ValueError(f"two methods are called {name}")
        METHODS[name] = Method(
            name=name,
            unit="" if unit == "1" and not _returns_numbers(function) else unit,
            source=source,
            title=title or name.replace("_", " "),
            doc=function.__doc__ or "",
            parameters=tuple(signature(function).parameters),
        )
        return function

    return register


def _returns_numbers(function: Callable[..., object]) -> bool:
    """Whether a function is annotated to return a number, or several."""
    return _NUMBERS.fullmatch(str(signature(function).return_annotation)) is not None
