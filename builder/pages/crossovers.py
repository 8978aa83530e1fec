"""The pictures of a swap over the price of its cut: both margins, both costs, where they cross."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from builder.language import Deferred, tr
from builder.pages.components import Chart, Column, Live, Row, Table, Value
from builder.pages.figure_names import SwapFigure
from builder.pages.unknown import doubted_chart, named, plate_doubt
from builder.pages.view import SwapRow, View
from builder.records.kinds import Plate


@dataclass(frozen=True, slots=True)
class Side:
    """One plate's line: its amount today, the one at a price of nothing, what a price adds."""

    now: SwapFigure
    unpriced: SwapFigure
    slope: SwapFigure


@dataclass(frozen=True, slots=True)
class Question:
    """What is drawn against the price of a challenger's cut, and where both plates are alike.

    `sign` is that of what a dearer cut does to the amount; `limit` is the price at which both
    amounts are `both`. Texts are templates.
    """

    id: str
    sign: float
    challenger: Side
    benchmark: Side
    limit: SwapFigure
    both: SwapFigure
    title: str
    summary: str
    never: str
    mark: str
    unit: str

    @property
    def sides(self) -> tuple[Side, Side]:
        """The challenger's line, then the benchmark's."""
        return self.challenger, self.benchmark


_MARGIN = Question(
    "margins",
    -1.0,
    Side("challenger_margin_after_full", "challenger_margin_unpriced", "challenger_price_slope"),
    Side("benchmark_margin_after_full", "benchmark_margin_unpriced", "benchmark_price_slope"),
    "equal_margin_ap_price",
    "equal_margin_a_plate",
    Deferred("Margin of {plate} against the price of its cut"),
    Deferred(
        "At today's {today} a plate leaves {challenger} against {benchmark}, after full plate "
        "cost; they leave the same at {even}."
    ),
    Deferred(
        "At today's {today} a plate leaves {challenger} against {benchmark}, after full plate "
        "cost; no price of its cut makes them equal."
    ),
    Deferred("equal at {even}"),
    Deferred("{currency} a plate, after full plate cost"),
)
_COST = Question(
    "costs",
    1.0,
    Side("challenger_full_cost", "challenger_cost_unpriced", "challenger_price_slope"),
    Side("benchmark_full_cost", "benchmark_cost_unpriced", "benchmark_price_slope"),
    "break_even_ap_price",
    "break_even_cost",
    Deferred("Plate cost of {plate} against the price of its cut"),
    Deferred(
        "At today's {today} a plate costs {challenger} against {benchmark}; they cost the same "
        "at {even}."
    ),
    Deferred(
        "At today's {today} a plate costs {challenger} against {benchmark}; no price of its cut "
        "makes them equal."
    ),
    Deferred("break-even {even}"),
    Deferred("{currency} a plate"),
)


def margin_crossover(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> Chart | None:
    """Both margins against the price of the challenger's cut; None where it moves neither."""
    return _crossover(view, plate, benchmark, row, _MARGIN)


def cost_crossover(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> Chart | None:
    """Both plate costs against the price of the challenger's cut."""
    return _crossover(view, plate, benchmark, row, _COST)


def _crossover(
    view: View, plate: Plate, benchmark: Plate, row: SwapRow, asks: Question
) -> Chart | None:
    amounts = row.numbers("ap_price", *(side.now for side in asks.sides))
    if not all(map(math.isfinite, amounts)) or not row.number("price_slope"):
        return None
    low, high = _span(row, asks)
    names = named(view, plate), named(view, benchmark)
    today, even = row.text("ap_price"), row.text(asks.limit)
    mass = view.style.money_per_kg(1.0).partition("/")[2]
    currency = view.costed.content.kitchen.currency
    found = Chart(
        f"{asks.id}-{plate.id}",
        "crossover",
        tr(asks.title, plate=plate.title),
        tr(
            asks.summary if row.known(asks.limit) else asks.never,
            today=today,
            challenger=row.text(asks.challenger.now),
            benchmark=row.text(asks.benchmark.now),
            even=even,
        ),
        tuple(_rows(row, asks, names, low, high)),
        _table(row, plate, benchmark, asks),
        units={
            "price": tr("{currency} / {mass} as purchased", currency=currency, mass=mass),
            "cost": tr(asks.unit, currency=currency),
        },
        live=dict(enumerate(_live(row, asks, low, high))),
    )
    return doubted_chart(found, plate_doubt(view, plate) or plate_doubt(view, benchmark))


def _span(row: SwapRow, asks: Question) -> tuple[float, float]:
    """The prices that are drawn: today's and that of the crossing, with room on both sides."""
    price, limit = row.numbers("ap_price", asks.limit)
    shown = [price, limit] if math.isfinite(limit) else [price]
    return (0.6 * min(shown) if math.isfinite(limit) else 0.0), 1.3 * max(shown)


def _rows(
    row: SwapRow, asks: Question, names: tuple[str, str], low: float, high: float
) -> Iterator[dict[str, Value]]:
    price, limit = row.numbers("ap_price", asks.limit)
    for name, side in zip(names, asks.sides, strict=True):
        start, slope = row.numbers(side.unpriced, side.slope)
        for at in (low, high):
            amount = start + asks.sign * slope * at
            yield {"role": "line", "name": name, "price": at, "cost": amount}
        if slope:
            # Today's price is a point of a line that follows it only.
            text = tr("today {today}", today=row.text("ap_price"))
            now = row.number(side.now)
            yield {"role": "today", "name": name, "price": price, "cost": now, "text": text}
    if math.isfinite(limit):
        text = tr(asks.mark, even=row.text(asks.limit))
        yield {"role": "break-even", "price": limit, "cost": row.number(asks.both), "text": text}


def _live(row: SwapRow, asks: Question, low: float, high: float) -> Iterator[Live]:
    """What moves each of `_rows`: the ends of both lines, today's points, the crossing."""

    def point(price: SwapFigure, amount: SwapFigure, text: str) -> Live:
        return {"price": [(1.0, row.name(price))], "cost": [(1.0, row.name(amount))], "text": text}

    for side in asks.sides:
        for at in (low, high):
            moved = asks.sign * at, row.name(side.slope)
            yield {"cost": [(1.0, row.name(side.unpriced)), moved]}
        if row.number(side.slope):
            today = tr("today {today}", today=f"{{{row.name('ap_price')}}}")
            yield point("ap_price", side.now, today)
    if row.known(asks.limit):
        even = tr(asks.mark, even=f"{{{row.name(asks.limit)}}}")
        yield point(asks.limit, asks.both, even)


def _table(row: SwapRow, plate: Plate, benchmark: Plate, asks: Question) -> Table:
    columns = (
        Column("price", tr("Price of the cut"), numeric=True),
        Column(plate.id, plate.title, numeric=True),
        Column(benchmark.id, benchmark.title, numeric=True),
    )
    body = [Row(row.cells("ap_price", *(side.now for side in asks.sides)))]
    if row.known(asks.limit):
        body.append(Row(row.cells(asks.limit, asks.both, asks.both)))
    title = tr("Today and where they are equal")
    return Table(f"{asks.id}-{plate.id}-rows", title, columns, tuple(body))
