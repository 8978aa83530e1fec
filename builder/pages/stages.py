"""The stages of a chain on the page: their tests, and what their figure rests on."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from datetime import date

from builder.costing.spread_checks import BEHIND
from builder.costing.spreads import YIELD
from builder.engine.draws import Basis, Spread
from builder.language import Deferred, clauses, tr
from builder.pages.components import Cell, Column, Row, Table
from builder.pages.values import measured
from builder.pages.view import ByproductRow, StageRow, TestRow, View
from builder.reading.names import slug
from builder.records.fields import Measure
from builder.records.stages import Stage

_ALONE = Deferred(" by these tests alone")
_COSTS_USE = {
    # Whether like stages count for the spread, and whether the means are set side by side.
    (True, False): Deferred("costs use the spread of like stages, too"),
    (False, True): Deferred("costs use all weights together"),
    (True, True): Deferred("costs use all weights together and the spread of like stages, too"),
}
_TWO_MEANS = Deferred("studies print the mean of the yields, where each test counts alike")
# A half width [share] that is no more than the rounding of sums.
_ALIKE = 1e-9
Parts = Mapping[str, ByproductRow]


def basis(view: View, row: StageRow, stage: Stage, *, with_means: bool = False) -> str:
    """What the stage's yield rests on, in words, and what the kitchen states in vain.

    Beside a table of several tests also which mean of theirs counts (`with_means`).
    """
    spread = _spread_of(view, row)
    stated = stage.give_or_take.loss if stage.give_or_take else None
    two_means = with_means and len(stage.tests) > 1
    unused = (
        tr("{measured} given or taken is not used", measured=measured(view.style, stated))
        if stated and spread and spread.basis in BEHIND
        else ""
    )
    costs_use = _COSTS_USE.get((_is_pooled(row, stage, spread), two_means), "")
    return clauses([_basis(view, row, stage), costs_use, unused, _TWO_MEANS if two_means else ""])


def _is_pooled(row: StageRow, stage: Stage, spread: Spread | None) -> bool:
    """Whether the tests have an interval of their own, and costs use that of like stages, too."""
    has_own = len(stage.tests) > 1 and row.number("yield_half_width") > _ALIKE
    return has_own and spread is not None and spread.basis == Basis.POOLED


def _basis(view: View, row: StageRow, stage: Stage) -> str:
    count = len(stage.tests)
    spread = _spread_of(view, row)
    if count > 1 and not row.number("yield_half_width") > _ALIKE:
        return tr(
            "{count} tests alike, so their interval is of no width by itself; {instead}",
            count=count,
            instead=_instead(spread),
        )
    if count > 1:
        low, high = row.texts("yield_low", "yield_high")
        return tr(
            "{count} tests, {low} to {high}, 19 times in 20{alone}",
            count=count,
            low=low,
            high=high,
            alone=tr(_ALONE) if _is_pooled(row, stage, spread) else "",
        )
    if count == 1:
        return tr("one test only; {instead}", instead=_instead(spread))
    if stage.stated is not None:
        return _as_stated(view, stage, stage.stated)
    if stage.published is not None:
        return tr(
            "published: {partition}",
            partition=view.origin(("stage", "published_yield"), row.row)[0].partition(": ")[2],
        )
    return tr("nothing weighed; counted as no loss")


def _as_stated(view: View, stage: Stage, stated: Measure) -> str:
    """What is stated, and of what: a yield of 97 % is no loss of 97 %."""
    share = measured(view.style, stated)
    if stage.loss is not None:
        return tr("stated: a loss of {share}", share=share)
    if stage.gain is not None:
        return tr("stated: a gain of {share}", share=share)
    return tr("stated: a yield of {share}", share=share)


def _spread_of(view: View, row: StageRow) -> Spread | None:
    known = view.costed.uncertainty
    return known.spreads.get(YIELD, {}).get(row.row) if known else None


def _instead(spread: Spread | None) -> str:
    """What says how sure a yield is whose own tests don't."""
    match spread.basis if spread else None:
        case Basis.LIKE:
            return tr("its interval comes from like stages in this kitchen")
        case Basis.STATED:
            return tr("its interval is what the kitchen gives or takes")
        case _:
            return tr("nothing else says how sure it is")


def tests_table(view: View, name: str, stage: Stage, row: StageRow) -> Table | None:
    """Every test of a stage with its mass balance, and the pooled figure under them."""
    if not stage.tests:
        return None
    parts = view.byproducts(row)
    columns = (
        Column("date", tr("Weighed on")),
        Column("in", tr("In"), numeric=True),
        Column("out", tr("Out"), numeric=True),
        *(Column(slug(part), part.capitalize(), numeric=True) for part in parts),
        Column("loss", tr("Loss"), numeric=True),
        Column("yield", tr("Yield"), numeric=True),
    )
    body = tuple(
        _test_row(view, written.date.day, test, parts)
        for written, test in zip(stage.tests, view.tests(row), strict=True)
    )
    foot = (
        *_worth_row(parts),
        *_mean_row(row, parts),
        _pooled_row(row, parts),
    )
    return Table(
        f"tests-{slug(name)}",
        tr("Weighings: {name}", name=name),
        columns,
        body,
        foot,
        about=basis(view, row, stage, with_means=True),
    )


def stated_parts_table(view: View, name: str, stage: Stage, row: StageRow) -> Table | None:
    """The by-products of a stage that nobody weighed, as the kitchen states them."""
    kept = view.byproducts(row)
    if stage.tests or not kept:
        return None
    columns = (
        Column("part", tr("By-product")),
        Column("share", tr("Share of the weight in"), numeric=True),
        Column("worth", tr("Worth by weight"), numeric=True),
    )
    body = tuple(
        Row((Cell(name.capitalize()), *part.cells("byproduct_share_of_in", "byproduct_worth")))
        for name, part in kept.items()
    )
    return Table(
        f"parts-{slug(name)}", tr("By-products as stated: {name}", name=name), columns, body
    )


def _worth_row(parts: Parts) -> Iterator[Row]:
    """What the by-products are worth by weight, where there are any."""
    if parts:
        worths = (part.cell("byproduct_worth") for part in parts.values())
        yield Row((Cell(tr("Worth by weight")), Cell(""), Cell(""), *worths, Cell(""), Cell("")))


def _test_row(view: View, day: date, test: TestRow, parts: Parts) -> Row:
    kept = view.parts(test)
    return Row(
        (
            Cell(view.style.date(day), sort=day.isoformat()),
            test.cell("weight_in"),
            test.cell("weight_out"),
            *(kept[part].cell("weight") if part in kept else Cell("–") for part in parts),
            test.cell("loss_weight"),
            test.cell("test_yield"),
        )
    )


def spread_words(row: StageRow) -> str:
    """The spread of the tests' yields; nothing where there are fewer than two."""
    spread = row.number("test_yield_spread")
    text = row.text("test_yield_spread")
    return "" if math.isnan(spread) else tr("standard deviation {text}", text=text)


def _mean_row(row: StageRow, parts: Parts) -> Iterator[Row]:
    """The mean of the yields, each test alike, as studies print it; only of several tests."""
    if spread := spread_words(row):
        mean = row.cell("mean_test_yield", note=spread)
        empty = (Cell("") for _ in range(len(parts) + 3))
        yield Row((Cell(tr("Mean of the yields")), *empty, mean))


def _pooled_row(row: StageRow, parts: Parts) -> Row:
    half = row.number("yield_half_width")
    plus_minus = "" if math.isnan(half) else f"± {row.text('yield_half_width')}"
    return Row(
        (
            Cell(tr("All together")),
            row.cell("tested_in"),
            row.cell("tested_out"),
            *(part.cell("byproduct_share_of_in") for part in parts.values()),
            row.cell("loss_share"),
            row.cell("measured_yield", note=plus_minus),
        ),
        kind="total",
    )
