"""The pictures of a swap: plate costs side by side, and where the price lines cross."""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.language import Deferred, tr
from builder.pages.components import Cell, Chart, Column, Live, Row, Table, Value
from builder.pages.cost_lines import not_there
from builder.pages.figure_names import PlateFigure, SwapFigure
from builder.pages.unknown import doubt_note, doubted_chart, named, plate_doubt
from builder.pages.values import capital
from builder.pages.view import SwapRow, View
from builder.records.kinds import Plate

_PARTS: tuple[tuple[PlateFigure, str], ...] = (
    ("protein_cost", Deferred("protein")),
    ("further_food", Deferred("further portions")),
    ("accompaniments_food", Deferred("sides")),
    ("garnish_cost", Deferred("garnish")),
    ("seasoning_cost", Deferred("seasoning")),
    ("cover_cost", Deferred("cover")),
    ("labour_cost", Deferred("labour")),
    ("process_per_plate", Deferred("energy and supplies")),
)
# Of each side its full cost, what a kilogram's price adds to it, and what is left without.
_ROLES: tuple[tuple[SwapFigure, SwapFigure, SwapFigure], ...] = (
    ("challenger_full_cost", "challenger_price_slope", "challenger_cost_unpriced"),
    ("benchmark_full_cost", "benchmark_price_slope", "benchmark_cost_unpriced"),
)


def _parts(view: View, plates: list[Plate]) -> list[tuple[PlateFigure, str]]:
    """The parts of the costs that any of the plates has."""
    hidden = not_there(view, plates)
    return [part for part in _PARTS if part[0] not in hidden]


def cost_stack(view: View, plates: list[Plate]) -> Chart:
    """Plate costs side by side, part on part; the benchmark first."""
    money = str(view.costed.content.kitchen.currency)
    rows = tuple(_stack_rows(view, plates))
    table = Table(
        "stack-rows",
        tr("What each plate costs, part by part"),
        (
            Column("part", tr("Part")),
            *(Column(plate.id, plate.title, numeric=True) for plate in plates),
        ),
        tuple(
            Row(
                (
                    Cell(capital(tr(label))),
                    *(
                        view.plate(plate).cell(figure, note=doubt_note(view, plate, figure))
                        for plate in plates
                    ),
                )
            )
            for figure, label in _parts(view, plates)
        ),
    )
    costs = ", ".join(f"{named(view, p)} {view.plate(p).text('full_cost')}" for p in plates)
    return Chart(
        "stack",
        "cost-stack",
        tr("What each plate costs, part on part"),
        tr("Full plate cost: {costs}.", costs=costs),
        rows,
        table,
        units={"money": tr("{money} a plate", money=money)},
        live=dict(_stack_live(view, plates)),
    )


def _stack_live(view: View, plates: list[Plate]) -> Iterator[tuple[int, Live]]:
    """Which figures the rows of `_stack_rows` are."""
    found = ((view.plate(plate), figure) for plate in plates for figure, _ in _parts(view, plates))
    for number, (row, figure) in enumerate(found):
        part, total = row.name(figure), row.name("full_cost")
        yield number, {"amount": [(1.0, part)], "text": f"{{{part}}}", "total": f"{{{total}}}"}


def _stack_rows(view: View, plates: list[Plate]) -> Iterator[dict[str, Value]]:
    for plate in plates:
        row = view.plate(plate)
        total = row.text("full_cost")
        for order, (figure, label) in enumerate(_parts(view, plates)):
            if not row.known(figure):
                continue  # left out of the sum as well
            yield {
                "plate": named(view, plate),
                "part": tr(label),
                "order": order,
                "amount": row.number(figure),
                "text": row.text(figure),
                "total": total,
            }


def crossover(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> Chart | None:
    """Plate cost against the price of the challenger's cut, where it moves the saving."""
    price = row.number("ap_price")
    limit = row.number("break_even_ap_price")
    if not (math.isfinite(limit) and limit > 0) or not math.isfinite(price):
        return None
    low, high = 0.6 * min(price, limit), 1.3 * max(price, limit)
    prices = (low, price, limit, high)
    challenger, other = (_line(row, *role, prices) for role in _ROLES)
    today, even = row.text("ap_price"), row.text("break_even_ap_price")
    rows: list[dict[str, Value]] = []
    for name, costs in ((named(view, plate), challenger), (named(view, benchmark), other)):
        rows += [
            {"role": "line", "name": name, "price": x, "cost": y}
            for x, y in ((low, costs[0]), (high, costs[3]))
        ]
        if _moves(costs):
            text = tr("today {today}", today=today)
            rows.append(
                {"role": "today", "name": name, "price": price, "cost": costs[1], "text": text}
            )
    rows.append(
        {
            "role": "break-even",
            "price": limit,
            "cost": challenger[2],
            "text": tr("break-even {even}", even=even),
        }
    )
    mass = view.style.money_per_kg(1.0).partition("/")[2]
    currency = view.costed.content.kitchen.currency
    found = Chart(
        f"crossover-{plate.id}",
        "crossover",
        tr("Plate cost of {plate} against the price of its cut", plate=plate.title),
        tr(
            "At today's {today} a plate costs {challenger_full_cost} against "
            "{benchmark_full_cost}; they cost the same at {even}.",
            today=today,
            challenger_full_cost=row.text("challenger_full_cost"),
            benchmark_full_cost=row.text("benchmark_full_cost"),
            even=even,
        ),
        tuple(rows),
        _crossover_table(row, plate, benchmark),
        units={
            "price": tr("{currency} / {mass} as purchased", currency=currency, mass=mass),
            "cost": tr("{currency} a plate", currency=currency),
        },
        live=dict(enumerate(_crossover_live(row, low, high))),
    )
    return doubted_chart(found, plate_doubt(view, plate) or plate_doubt(view, benchmark))


def _moves(costs: list[float]) -> bool:
    """Whether a line follows the price at all: today's price is a point of such a line only."""
    return costs[0] != costs[3]


def _crossover_live(row: SwapRow, low: float, high: float) -> Iterator[Live]:
    """What moves each row of `crossover`: the ends of both lines, today's points, the crossing."""

    def point(price: SwapFigure, cost: SwapFigure, word: str) -> Live:
        at = row.name(price)
        text = f"{word} {{{at}}}"
        return {"price": [(1.0, at)], "cost": [(1.0, row.name(cost))], "text": text}

    for full, slope, start in _ROLES:
        for price in (low, high):
            yield {"cost": [(1.0, row.name(start)), (price, row.name(slope))]}
        if row.number(slope):
            yield point("ap_price", full, "today")
    yield point("break_even_ap_price", "break_even_cost", "break-even")


def _line(
    row: SwapRow, full: SwapFigure, slope: SwapFigure, _: SwapFigure, prices: tuple[float, ...]
) -> list[float]:
    """A plate's full cost at several prices of the challenger's cut: a straight line."""
    now, cost, rise = row.numbers("ap_price", full, slope)
    return [cost + rise * (price - now) for price in prices]


def _crossover_table(row: SwapRow, plate: Plate, benchmark: Plate) -> Table:
    columns = (
        Column("price", tr("Price of the cut"), numeric=True),
        Column(plate.id, plate.title, numeric=True),
        Column(benchmark.id, benchmark.title, numeric=True),
    )
    body = (
        Row(row.cells("ap_price", "challenger_full_cost", "benchmark_full_cost")),
        Row(row.cells("break_even_ap_price", "break_even_cost", "break_even_cost")),
    )
    return Table(f"crossover-{plate.id}-rows", tr("Today and at break-even"), columns, body)
