"""The inputs that are not known for sure as open data: enough to draw each of them again."""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.engine.draws import Spread, spread_name
from builder.engine.model import Node
from builder.language import Deferred
from builder.pages.resource import Field, Resource, Texts
from builder.pages.view import View
from builder.records.editions import GROUPS


def _inputs(view: View) -> Iterator[tuple[str, Node, int, Spread]]:
    """Every input with a spread, its id first."""
    known = view.costed.uncertainty
    for node, rows in (known.spreads if known else {}).items():
        for row, spread in rows.items():
            who = view.costed.figures.identity(node[0], row)
            key = f"/{who.key}" if who.key else ""
            yield f"{'.'.join(node)}/{who.owner}{key}", node, row, spread


def _spreads(view: View) -> Iterator[tuple[int, Texts]]:
    for name, node, row, spread in _inputs(view):
        who = view.costed.figures.identity(node[0], row)
        seed = f"{spread.group} width" if spread.shared else spread_name(node, who)
        numbers = (spread.count, spread.center, *spread.ends, spread.scale, spread.freedom)
        bounds = (spread.low, spread.high)
        yield (
            row,
            (
                name, *node, who.owner, who.key or None, spread.basis.value,
                *map(_number, numbers), *map(_number, bounds),
                "logarithm" if spread.relative else "value", seed,
            ),
        )  # fmt: skip


def _factors(view: View) -> Iterator[tuple[int, Texts]]:
    for name, _, row, spread in _inputs(view):
        for factor, loading in spread.shared:
            yield row, (f"{name}/{factor}", name, factor, _number(loading))


def _number(value: float) -> str | None:
    return repr(value) if math.isfinite(value) else None


SPREAD_RESOURCES: tuple[Resource, ...] = (
    Resource(
        "spreads",
        Deferred("Inputs that are not known for sure, and how far off each may be"),
        "",
        (
            Field("id", "Table, figure, record and row of the input"),
            Field("table", "Table of the input"),
            Field("figure", "Name of the input in its table"),
            Field("record", "Record that the input belongs to"),
            Field("key", "Row of that record; empty where the input is the record's own"),
            Field("basis", "What is behind the spread"),
            Field("count", "Tests, changes, portions or months behind it; 0 if stated", "number"),
            Field("plain", "Value that every plain figure is computed from", "number"),
            Field("low", "Low end of the input's 90 % interval", "number"),
            Field("high", "High end of the input's 90 % interval", "number"),
            Field("scale", "Standard deviation, or scale of Student's t", "number"),
            Field("freedom", "Degrees of freedom of Student's t; empty for a normal", "number"),
            Field("least", "Draws below are put up to this; empty for none", "number"),
            Field("most", "Draws above are put down to this; empty for none", "number"),
            Field("spread_of", "What the scale is of: the value or its logarithm"),
            Field("seed_name", "Text that the order of the draws is seeded with"),
        ),
        _spreads,
        tuple(g for g in GROUPS if g != "tasting answers"),
    ),
    Resource(
        "spread_factors",
        Deferred("What moves prices of one supplier together"),
        "",
        (
            Field("id", "Input and factor"),
            Field("spread", "Price that the factor moves", refers="spreads"),
            Field("factor", "List of a supplier: the text that its draws are seeded with"),
            Field("loading", "Change of the price's logarithm for one of the factor", "number"),
        ),
        _factors,
        tuple(g for g in GROUPS if g != "tasting answers"),
    ),
)
