"""The stages of a chain on the page: their tests, and what their figure rests on."""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.pages.components import Cell, Column, Row, Table
from builder.pages.values import measured
from builder.pages.view import View
from builder.reading.names import slug
from builder.records.stages import Stage

TWO_MEANS = (
    "; costs rest on all weights together, a study's table on the mean of the yields, where each "
    "test counts alike"
)


def basis(view: View, row: int, stage: Stage) -> str:
    """What the stage's yield rests on, in words."""
    count = len(stage.tests)
    if count > 1:
        low, high = (view.text("stage", name, row) for name in ("yield_low", "yield_high"))
        return f"{count} tests, 95 % interval {low} to {high}"
    if count == 1:
        return "one test, no interval"
    if stage.stated is not None:
        return f"stated: {measured(view.style, stage.stated)}"
    if stage.published is not None:
        return f"published: {view.origin(('stage', 'published_yield'), row)[0].partition(': ')[2]}"
    return "nothing weighed; counted as no loss"


def tests_table(view: View, name: str, stage: Stage, row: int) -> Table | None:
    """Every test of a stage with its mass balance, and the pooled figure under them."""
    rows = view.costed.rows
    if not stage.tests:
        return None
    parts = list(rows.byproducts[row])
    columns = (
        Column("date", "Weighed on"),
        Column("in", "In", numeric=True),
        Column("out", "Out", numeric=True),
        *(Column(slug(part), part.capitalize(), numeric=True) for part in parts),
        Column("loss", "Loss", numeric=True),
        Column("yield", "Yield", numeric=True),
    )
    body = tuple(
        _test_row(view, stage.tests[n].date.day.isoformat(), test, parts)
        for n, test in enumerate(rows.tests[row])
    )
    foot = (
        *_worth_row(view, row, parts),
        *_mean_row(view, row, parts),
        _pooled_row(view, row, parts),
    )
    return Table(
        f"tests-{slug(name)}",
        f"Weighings: {name}",
        columns,
        body,
        foot,
        about=basis(view, row, stage) + (TWO_MEANS if len(stage.tests) > 1 else ""),
    )


def stated_parts_table(view: View, name: str, stage: Stage, row: int) -> Table | None:
    """The by-products of a stage that nobody weighed, as the kitchen states them."""
    kept = view.costed.rows.byproducts[row]
    if stage.tests or not kept:
        return None
    columns = (
        Column("part", "By-product"),
        Column("share", "Share of the weight in", numeric=True),
        Column("worth", "Worth by weight", numeric=True),
    )
    figures = ("byproduct_share_of_in", "byproduct_worth")
    body = tuple(
        Row((Cell(part.capitalize()), *(view.cell("byproduct", f, n) for f in figures)))
        for part, n in kept.items()
    )
    return Table(f"parts-{slug(name)}", f"By-products as stated: {name}", columns, body)


def _worth_row(view: View, row: int, parts: list[str]) -> Iterator[Row]:
    """What the by-products are worth by weight, where there are any."""
    kept = view.costed.rows.byproducts[row]
    if parts:
        worths = (view.cell("byproduct", "byproduct_worth", kept[part]) for part in parts)
        yield Row((Cell("Worth by weight"), Cell(""), Cell(""), *worths, Cell(""), Cell("")))


def _test_row(view: View, day: str, test: int, parts: list[str]) -> Row:
    kept = view.costed.rows.parts[test]
    return Row(
        (
            Cell(day),
            view.cell("test", "weight_in", test),
            view.cell("test", "weight_out", test),
            *(
                view.cell("part", "weight", kept[part]) if part in kept else Cell("–")
                for part in parts
            ),
            view.cell("test", "loss_weight", test),
            view.cell("test", "test_yield", test),
        )
    )


def spread_words(view: View, row: int) -> str:
    """The spread of the tests' yields; nothing where there are fewer than two."""
    spread = view.number("stage", "test_yield_spread", row)
    text = view.text("stage", "test_yield_spread", row)
    return "" if math.isnan(spread) else f"standard deviation {text}"


def _mean_row(view: View, row: int, parts: list[str]) -> Iterator[Row]:
    """The mean of the yields, each test alike, as studies print it; only of several tests."""
    if spread := spread_words(view, row):
        mean = view.cell("stage", "mean_test_yield", row, note=spread)
        empty = (Cell("") for _ in range(len(parts) + 3))
        yield Row((Cell("Mean of the yields"), *empty, mean))


def _pooled_row(view: View, row: int, parts: list[str]) -> Row:
    kept = view.costed.rows.byproducts[row]
    half = view.number("stage", "yield_half_width", row)
    plus_minus = "" if math.isnan(half) else f"± {view.text('stage', 'yield_half_width', row)}"
    return Row(
        (
            Cell("All together"),
            view.cell("stage", "tested_in", row),
            view.cell("stage", "tested_out", row),
            *(view.cell("byproduct", "byproduct_share_of_in", kept[part]) for part in parts),
            view.cell("stage", "loss_share", row),
            view.cell("stage", "measured_yield", row, note=plus_minus),
        ),
        kind="total",
    )
