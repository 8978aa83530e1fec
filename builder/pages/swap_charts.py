"""The picture of a swap's plate costs, side by side."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import Deferred, tr
from builder.pages.components import Cell, Chart, Column, Live, Row, Table, Value
from builder.pages.cost_lines import not_there
from builder.pages.figure_names import PlateFigure
from builder.pages.unknown import doubt_note, named
from builder.pages.values import capital
from builder.pages.view import View
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
