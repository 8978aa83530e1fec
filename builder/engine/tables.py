"""Tables of figures: what is given, what is looked up, what is computed.

A table stands for one kind of row (a stage, a batch, a plate). Each of its
figures is declared once, as one of

    given     an input with a unit, and where useful a default with its reason
    formula   a one-expression function whose parameters are figures of the table
    lookup    the value of a figure in the row that a link points to
    total     a sum, product, count, smallest or largest over the rows that link here
    running   the sum or product over the earlier rows that share a link (a chain's scan)
    applied   what a sourced method (a solver, a statistic) gives for the row, entered with it

From these the order of computation, the trace, the method pages, sensitivity and
break-even all follow; see `model.py` and `figures.py`.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cache
from typing import Literal, TypeVar

from builder.engine.arith import Column
from builder.engine.methods import METHODS
from builder.engine.units import check_unit
from builder.language import tr

Body = Callable[..., Column]
Follows = Literal["", "end", "chance", "class"]
B = TypeVar("B", bound=Body)

# What kitchens write in capitals (as purchased, edible portion), and words of theirs.
_IN_KITCHENS = {
    "ap": "AP",
    "ep": "EP",
    "process": "energy and supplies",
    "accompaniment": "side",
    "accompaniments": "sides",
}


# What one row of a table is called, where the table's own name says it to programmers alone; and
# figures of sides.
_SPOKEN = {
    "accompaniments_food": "food in the sides",
    "accompaniments_hours": "hours in the sides",
    "accompaniments_process": "energy and supplies in the sides",
    "accompaniments_known_process": "known energy and supplies in the sides",
    "process_cost": "energy and supplies",
    "moved": "portion moved",
    "moved_cut": "other cut moved",
    "scaled": "amount made to size",
    "usage": "cut counted",
    "output": "cook counted",
    "sale": "plate counted",
    "taking": "month of the till",
    "waste": "weight thrown away",
    "part": "by-product weighed",
    "byproduct": "by-product",
    "job": "step of the service",
}


@cache
def in_words(name: str) -> str:
    """Return a figure's name as a person reads it.

    >>> in_words("share_of_ap")
    'share of AP'
    """
    words = (_IN_KITCHENS.get(word, word) for word in name.split("_"))
    return _SPOKEN.get(name) or " ".join(words)


def named(name: str) -> str:
    """The name of a figure or a table in words, in the language of the pages.

    One that has a capital in English for its initials alone is a heading's text, too, and begins
    small within a sentence of another language.

    >>> named("share_of_ap")
    'share of AP'
    """
    words = in_words(name)
    said = tr(words)
    return said if said == words else said[:1].lower() + said[1:]


class Fold(StrEnum):
    """How the values of many child rows become one."""

    SUM = "sum"
    PRODUCT = "product"
    COUNT = "count"
    LEAST = "smallest"
    MOST = "largest"


@dataclass(frozen=True, slots=True)
class Given:
    """An input; `default` fills a blank and `reason` says why that value."""

    default: float | None = None
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Formula:
    """An elementwise body over figures of the same row."""

    body: Body
    needs: tuple[str, ...]
    source: str
    doc: str


@dataclass(frozen=True, slots=True)
class Lookup:
    """The figure of the linked row, `missing` where there is no link.

    A recursive lookup may close a circle of names (a sub-recipe made of
    sub-recipes); the records themselves must not.
    """

    link: str
    table: str
    figure: str
    missing: float
    recursive: bool


@dataclass(frozen=True, slots=True)
class Total:
    """A fold of a child table's figure over the rows linked to this one."""

    fold: Fold
    table: str
    link: str
    figure: str


@dataclass(frozen=True, slots=True)
class Running:
    """The sum or product of a figure over earlier rows of the same linked group."""

    fold: Fold
    link: str
    figure: str


@dataclass(frozen=True, slots=True)
class Applied:
    """What a sourced method gives for a row; its value is entered with the row.

    Of several `methods` a row has its own, and its entry names that as the reason. `needs` are
    the figures of the row that the method is applied to. Moving them does not move it: only
    the builder has the method. What a page makes of it by first-order propagation, where an
    input moves, is in `follows`: the end of its first need's interval, the chance that this is
    above nothing (with its last need's ends), or the chance that both flags stay as they are, each
    by how far the figure after them lies above nothing.
    """

    methods: tuple[str, ...]
    needs: tuple[str, ...]
    follows: Follows = ""


How = Given | Formula | Lookup | Total | Running | Applied
Entered = Given | Applied
"""Figures whose values come with their rows."""


@dataclass(frozen=True, slots=True)
class FigureDef:
    """One figure of a table, as its method page shows it.

    `limit` names a figure of the same row that a page, which rounds an estimate, never writes
    it across. `as_sure_as` names one of which this is a multiple, or nearly: its interval, in
    proportion, says how fine a figure is written that has none of its own.
    """

    table: str
    name: str
    unit: str
    about: str
    how: How
    limit: str = ""
    as_sure_as: str = ""

    @property
    def label(self) -> str:
        """The name as a person reads it.

        >>> FigureDef("batch", "cost_per_servable_kg", "money/kg", "", Given()).label
        'cost per servable kg'
        """
        return named(self.name)


@dataclass(slots=True)
class Table:
    """A kind of row: its links to other tables and its figures, in order of declaration."""

    name: str
    title: str
    links: dict[str, str] = field(default_factory=dict)
    figures: dict[str, FigureDef] = field(default_factory=dict)

    def link(self, name: str, to: Table) -> None:
        """Let every row point to one row of another table (or to none)."""
        self.links[name] = to.name

    def declare(
        self,
        name: str,
        unit: str,
        about: str,
        how: How,
        limit: str = "",
        as_sure_as: str = "",
    ) -> None:
        """Add a figure; a name may be declared only once in a table, its unit must be known.

        `limit` and `as_sure_as` are checked with the model: ends of an interval limit each other.
        """
        if name in self.figures:
            raise ValueError(f"{self.name}.{name} is declared twice")
        check_unit(unit, f"{self.name}.{name}")
        self.figures[name] = FigureDef(self.name, name, unit, about, how, limit, as_sure_as)

    def borrow(self, other: Table, *names: str) -> None:
        """Declare figures just as another table does, over this table's own figures."""
        for name in names:
            twin = other.figures[name]
            self.declare(name, twin.unit, twin.about, twin.how, twin.limit, twin.as_sure_as)

    def given(
        self, name: str, unit: str, about: str, default: float | None = None, reason: str = ""
    ) -> None:
        """Declare an input of the content files."""
        self.declare(name, unit, about, Given(default, reason))

    def applied(
        self,
        name: str,
        unit: str,
        about: str,
        method: Callable[..., object] | Sequence[Callable[..., object]],
        *needs: str,
        limit: str = "",
        follows: Follows = "",
    ) -> None:
        """Declare what a registered method gives for a row, or the row's own one of several.

        KeyError where one is not registered.
        """
        several = method if isinstance(method, Sequence) else (method,)
        names = tuple(METHODS[getattr(one, "__name__", "")].name for one in several)
        self.declare(name, unit, about, Applied(names, needs, follows), limit)

    def lookup(
        self,
        name: str,
        link: str,
        of: Table,
        figure: str = "",
        *,
        missing: float = float("nan"),
    ) -> None:
        """Declare a figure as that of the linked row; unit and words are the target's."""
        target = of.figures[figure or name]
        how = Lookup(link, of.name, target.name, missing, recursive=False)
        self.declare(name, target.unit, target.about, how)

    def recursive(
        self, name: str, link: str, of: Table, figure: str, unit: str, about: str
    ) -> None:
        """Declare a lookup that may close a circle of names; its target may come later."""
        self.declare(name, unit, about, Lookup(link, of.name, figure, float("nan"), recursive=True))

    def lookups(self, link: str, of: Table, *names: str) -> None:
        """Declare several lookups that keep the names of their targets."""
        for name in names:
            self.lookup(name, link, of)

    def total(
        self,
        name: str,
        of: Table,
        figure: str,
        link: str,
        about: str,
        *,
        fold: Fold = Fold.SUM,
        unit: str = "",
    ) -> None:
        """Declare a fold over the rows of a child table that link to this one.

        unit: where it is written otherwise than the rows are.
        """
        unit = unit or ("count" if fold is Fold.COUNT else of.figures[figure].unit)
        self.declare(name, unit, about, Total(fold, of.name, link, figure))

    def running(
        self, name: str, figure: str, link: str, about: str, *, fold: Fold = Fold.SUM
    ) -> None:
        """Declare the sum or product of a figure over the earlier rows of the same chain."""
        self.declare(name, self.figures[figure].unit, about, Running(fold, link, figure))


def formula(
    *tables: Table, unit: str, source: str, limit: str = "", as_sure_as: str = ""
) -> Callable[[B], B]:
    """Declare a formula on one or more tables.

    The function's name is the figure's name and its parameters are the figures
    that it needs. The body is one `return` of arithmetic on whole columns.
    """

    def register(body: B) -> B:
        name = body.__name__
        doc = inspect.getdoc(body) or ""
        needs = tuple(inspect.signature(body).parameters)
        for table in tables:
            about = " ".join(doc.partition("\n\n")[0].split())
            how = Formula(body, needs, source, doc)
            table.declare(name, unit, about, how, limit, as_sure_as)
        return body

    return register
