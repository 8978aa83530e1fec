"""Pictures: charts, and the chain of weights as bars."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from builder.pages.components.tables import Table
from builder.pages.components.words import Text

Value: TypeAlias = str | float | int | bool | None
LiveTerm: TypeAlias = tuple[float, str]
Live: TypeAlias = str | Mapping[str, str | Sequence[LiveTerm]]
BalanceKind = Literal["out", "by-product", "loss", "gain"]


@dataclass(frozen=True, slots=True)
class Chart:
    """A picture of a kind from `charts.KINDS`, with its rows again as a table: its own,
    or None where a table beside it on the page has them.

    `rows` carry the fields that the kind names and `units` the words for its
    axes; `title` says what the picture shows, `summary` says it in a sentence.
    `options` are added to the specification as they are, such as a `height` in pixels.
    `live` says of what figures the rows are made, so that they can follow a what-if: by
    the row's number and its field words with figures in braces, or terms (factor, figure)
    whose changes add to a number, and whose sum a text writes with its sign. "adds" is no
    field but what a waterfall's bar adds to the bars before it; a bar that adds one figure,
    and shows its text, is that figure's name alone.
    `beside` is the table on the page that has the rows where it is not the picture's own.
    """

    id: str
    kind: str
    title: Text
    summary: Text
    rows: tuple[Mapping[str, Value], ...]
    table: Table | None
    units: Mapping[str, str] = field(default_factory=dict)
    options: Mapping[str, Value] = field(default_factory=dict)
    live: Mapping[int, Live] = field(default_factory=dict)
    beside: Table | None = None


@dataclass(frozen=True, slots=True)
class BalancePart:
    """A piece of a stage's weight; `share` is its part of the first weight, 0 to 1."""

    label: Text
    text: Text
    share: float
    kind: BalanceKind


@dataclass(frozen=True, slots=True)
class BalanceStage:
    """What goes into a stage and what becomes of it; the parts add up to what goes in."""

    label: Text
    text: Text
    parts: tuple[BalancePart, ...]
    href: str = ""
    note: Text = ""


@dataclass(frozen=True, slots=True)
class Balance:
    """The chain of weights as bars, each stage's bar as long as the weight that enters it."""

    id: str
    title: Text
    summary: Text
    stages: tuple[BalanceStage, ...]
