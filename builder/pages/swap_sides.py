"""The plates of a swap side by side: every stage of weight, and every line of money."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.language import Deferred, tr
from builder.pages.components import Cell, Column, Row, Table
from builder.pages.cost_lines import COST_LINES, CostLine, not_there
from builder.pages.figure_names import PlateFigure
from builder.pages.portions import portion_note
from builder.pages.printed_sums import sums_words
from builder.pages.unknown import left_out_words, plate_cost
from builder.pages.view import View
from builder.pages.withheld import seen
from builder.records.chains import ORDER, stages_of
from builder.records.kinds import Plate

_WEIGHTS: tuple[CostLine, ...] = (
    ("ap_price", Deferred("AP price"), ""),
    ("overall_yield", Deferred("EP / AP"), ""),
    ("cost_per_servable_kg", Deferred("Cost of servable weight"), ""),
    ("portion", Deferred("Portion"), ""),
    ("ap_weight_per_portion", Deferred("AP weight a portion"), ""),
    ("ap_cost_per_portion", Deferred("Meat as purchased, a portion"), ""),
    ("credit_per_portion", Deferred("Less credits for by-products and what is left over"), ""),
)
# What is said between the costs, before the line of a figure.
_BETWEEN: Mapping[PlateFigure, tuple[CostLine, ...]] = {
    "further_food": (
        ("portion_cost_by_weight", Deferred("Protein if costed by weight"), ""),
        ("portion_cost_whole", Deferred("Protein if costed by whole portions"), ""),
    ),
    "labour_cost": (("labour_hours", Deferred("Active work"), ""),),
}
_MARGINS: tuple[CostLine, ...] = (
    ("price_ex_tax", Deferred("Price ex tax"), ""),
    ("contribution_margin", Deferred("Contribution margin"), ""),
    ("margin_after_full", Deferred("Margin after full plate cost"), ""),
    ("food_cost_share", Deferred("Food cost %"), ""),
)


def _lines() -> Iterator[CostLine]:
    """Every line of weight and money in its order; protein sums up what is above it."""
    yield from _WEIGHTS
    for figure, label, kind in COST_LINES:
        yield from _BETWEEN.get(figure, ())
        yield figure, label, "subtotal" if kind or figure == "protein_cost" else ""
    yield from _MARGINS


def side_by_side(view: View, plates: list[Plate]) -> Table:
    """The plates of a swap line by line, the benchmark first."""
    columns = (
        Column("what", tr("Stage")),
        *(Column(plate.id, plate.title, numeric=True) for plate in plates),
    )
    hidden = not_there(view, plates)
    money = tuple(
        Row((Cell(label), *(_line_cell(view, figure, plate) for plate in plates)), kind)
        for figure, label, kind in _lines()
        if figure not in hidden
    )
    return Table(
        "side-by-side-table",
        tr("Every stage of weight and money, side by side"),
        columns,
        (*_stage_rows(view, plates), *money),
        about=tr(
            "The benchmark is first.{seen} {sums_words}",
            seen=seen(_left_out_words, view, plates) or "",
            sums_words=sums_words(view, plates),
        ).strip(),
    )


def _line_cell(view: View, figure: PlateFigure, plate: Plate) -> Cell:
    if figure == "portion" and plate.served:
        return view.plate(plate).cell(figure, note=portion_note(view, plate))
    return plate_cost(view, figure, plate)


def _left_out_words(view: View, plates: list[Plate]) -> str:
    """What is not in the full costs, plate by plate, so that a saving is read with it."""
    reported = left_out_words(view, plates)
    rest = tr("left out of the full plate cost as far as not known")
    return (
        tr(" Not known in full, and {rest}: {reported}.", rest=rest, reported=reported)
        if reported
        else ""
    )


def _stage_rows(view: View, plates: list[Plate]) -> Iterator[Row]:
    """The yield of each stage that any of the plates passes, in the order of the chain."""
    yields = [_yields(view, plate) for plate in plates]
    for name in ORDER:
        if any(name in found for found in yields):
            cells = (found.get(name, Cell("–")) for found in yields)
            yield Row((Cell(tr("Yield: {name}", name=name)), *cells))


def _yields(view: View, plate: Plate) -> dict[str, Cell]:
    """The yields of the stages that a plate's main portion passes."""
    content = view.costed.content
    if plate.cook:
        steps = view.steps(content.cooks[plate.cook])
        return {link.name: row.cell("stage_yield") for link, row in steps}
    stages = stages_of(content.cuts[plate.cut]) if plate.cut else ()
    return {
        name: view.stage(content.cuts[str(plate.cut)].path, name).cell("stage_yield")
        for name, _ in stages
    }
