"""The portions of a plate: the figures of each, wherever the plate holds several."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from math import ceil
from typing import TypeAlias

from builder.costing.portion_rows import Further
from builder.display.words import listed
from builder.language import Deferred, ntr, tr
from builder.pages.components import Cell, Column, Row, Table
from builder.pages.figure_names import FurtherOrderFigure, PortionFigure
from builder.pages.parts import record_cell
from builder.pages.unknown import IN_DOUBT, cook_note, cost_cell, loss_note
from builder.pages.values import measured
from builder.pages.view import FigureRow, View
from builder.records.fields import Measure
from builder.records.kinds import Cook, Cut, Plate, Service
from builder.records.plates import Portion, counted_text
from builder.records.portions import source_of

PortionRow: TypeAlias = FigureRow[PortionFigure]
FurtherOrderRow: TypeAlias = FigureRow[FurtherOrderFigure]


def rows_of(view: View, plate: Plate) -> Iterator[tuple[Portion, PortionRow]]:
    """Every portion of a plate with its figures, the main one first: its are the plate's own."""
    for portion, table, row in view.costed.rows.portions(plate):
        yield portion, FigureRow(view, table, row)


def further_row(view: View, further: Further) -> PortionRow:
    """The figures of a further portion."""
    return FigureRow(view, "portion", further.row)


def share(view: View, plate: Plate, source: Cook | Cut) -> PortionRow:
    """The figures of a plate's portion of a cook that is on it, or of a cut without one."""
    of_cook = isinstance(source, Cook)
    found = rows_of(view, plate)
    return next(row for each, row in found if (each.cook if of_cook else each.cut) == source.id)


def portion_of(plate: Plate, cook: Cook) -> Portion:
    """A plate's portion of a cook that is on it."""
    return next(portion for portion in plate.served if portion.cook == cook.id)


_FIGURES: dict[PortionFigure, str] = {
    "ap_weight_per_portion": Deferred("AP weight"),
    "portions_charged": Deferred("Portions a batch"),
    "protein_cost": Deferred("Food"),
    "energy_per_plate": Deferred("Energy"),
    "consumables_per_plate": Deferred("Consumables"),
    "equipment_per_plate": Deferred("Equipment"),
}
# What is uncooked comes in no batches, and nothing heats it.
_OF_A_BATCH: frozenset[PortionFigure] = frozenset(
    ("portions_charged", "energy_per_plate", "consumables_per_plate", "equipment_per_plate")
)
_MAIN = Deferred(
    "What one portion takes. The first is the main one: what a batch gives, "
    "the limits of swaps and tastings are of it."
)


def size_words(view: View, portion: Portion) -> str:
    """A portion's size: its weight, or its pieces or slices as they are written."""
    return counted_words(portion.portion) or measured(view.style, portion.portion)


_BY_NUMBER = re.compile(r"(?P<number>\d[\d./ ]*?)\s*(?P<word>piece|slice)s?", re.IGNORECASE)


def counted_words(portion: Measure | None) -> str:
    """A number of pieces or slices in the language of the pages; another word as it is written."""
    text = counted_text(portion)
    found = _BY_NUMBER.fullmatch(text)
    if not found:
        return text
    number = found["number"]
    several = ceil(sum(map(Fraction, number.split())))
    if found["word"].lower() == "slice":
        return ntr("{number} slice", "{number} slices", several, number=number)
    return ntr("{number} piece", "{number} pieces", several, number=number)


def further_words(view: View, plate: Plate) -> str:
    """The portions beyond the main one, as a note beside it; empty without any."""
    return tr("with {listed}", listed=_listed(view, plate.further)) if plate.further else ""


def portion_note(view: View, plate: Plate) -> str:
    """What the weight of a main portion leaves unsaid: its pieces, and what lies beside it."""
    return ", ".join(filter(None, (counted_words(plate.portion), further_words(view, plate))))


def all_words(view: View, plate: Plate) -> str:
    """Every portion of a plate with its size, and the cook or cut it is of."""
    return _listed(view, plate.served)


def _listed(view: View, portions: Iterable[Portion]) -> str:
    content = view.costed.content
    return listed(
        [f"{size_words(view, each)} {source_of(content, each).title}" for each in portions]
    )


def uncooked_orders(view: View, service: Service) -> Iterator[tuple[Cut, str]]:
    """The cuts that a service serves uncooked, each with its pieces and weight as purchased."""
    pieces: dict[str, float] = {}
    weight: dict[str, float] = {}
    for name, serving in service.plates.items():
        for portion, row in rows_of(view, view.costed.content.plates[name]):
            if portion.cut is not None:
                count = portion.pieces.value if portion.pieces else 0.0
                covers, key = serving.covers.value, str(portion.cut)
                pieces[key] = pieces.get(key, 0.0) + covers * count
                taken = covers * row.number("ap_weight_per_portion")
                weight[key] = weight.get(key, 0.0) + taken
    for key, taken in weight.items():
        whole = ceil(round(pieces[key], 6))
        counted = tr("{whole} pieces, ", whole=view.style.count(whole)) if whole else ""
        yield view.costed.content.cuts[key], f"{counted}{view.style.weight(taken)}"


def source_note(view: View, source: Cook | Cut) -> str:
    """The note of what a portion of a cook or an uncooked cut costs; empty without a doubt."""
    if isinstance(source, Cook):
        return cook_note(view, source)
    return tr(IN_DOUBT) if view.costed.doubts.of_cut(source) else ""


def portions_table(view: View, plate: Plate) -> Table | None:
    """What each of several portions takes of its batch; None where there is one."""
    if not plate.further:
        return None
    columns = (
        Column("cook", tr("Portion of")),
        Column("portion", tr("Portion"), numeric=True),
        *(Column(key.replace("_", "-"), label, numeric=True) for key, label in _FIGURES.items()),
    )
    body = tuple(_row(view, portion, row) for portion, row in rows_of(view, plate))
    return Table("each-portion", tr("Each portion of the plate"), columns, body, about=tr(_MAIN))


def _row(view: View, portion: Portion, row: PortionRow) -> Row:
    source = source_of(view.costed.content, portion)
    doubt = weights = source_note(view, source)
    if isinstance(source, Cook):
        weights = loss_note(view, source)
    notes: dict[PortionFigure, str] = {"protein_cost": doubt, "ap_weight_per_portion": weights}
    size = row.cell("portion", note=counted_words(portion.portion))
    figures = (
        Cell("–")
        if portion.cut is not None and figure in _OF_A_BATCH
        else replace(cost_cell(row, _as_counted(row, figure)), note=notes.get(figure, ""))
        for figure in _FIGURES
    )
    return Row((record_cell(source), size, *figures))


def _as_counted(row: PortionRow, figure: PortionFigure) -> PortionFigure:
    """Portions of a batch as they are served: whole ones where the kitchen counts so."""
    whole = figure == "portions_charged" and row.number("counts_pieces") > 0
    return "whole_portions" if whole else figure


def shared_cook(view: View, plate: Plate, cook: str | None) -> str:
    """Where other plates share a cook: pieces are rounded once for all of them together."""
    sharing = view.uses.plates_of_cook.get(str(cook), ())
    others = [each.title for each in sharing if each.id != plate.id]
    if not others:
        return ""
    names = listed(others)
    return tr(
        " Whole pieces are for this plate alone; cooked with {names}, they are rounded once.",
        names=names,
    )


def orders_tables(view: View, plate: Plate) -> Iterator[Table]:
    """How much to buy for each further portion."""
    for number, further in enumerate(view.costed.rows.further[plate.id], start=2):
        rows: list[FurtherOrderRow] = [
            FigureRow(view, "further_order", row) for row in further.orders
        ]
        title = source_of(view.costed.content, further.portion).title
        shown: dict[FurtherOrderFigure, str] = {
            "covers": tr("Portions to serve"),
            "quantity_to_buy": tr("Buy, by weight"),
        }
        about = ""
        if rows[0].known("pieces_to_cook"):
            about = shared_cook(view, plate, further.portion.cook).strip()
            shown |= {
                "pieces_to_cook": tr("Whole pieces"),
                "quantity_to_buy_whole": tr("Buy, whole pieces"),
            }
        if rows[0].known("quantity_as_sold"):
            shown["quantity_as_sold"] = tr("Buy, as sold")
        columns = (Column(key.replace("_", "-"), label, True) for key, label in shown.items())
        yield Table(
            f"orders-{number}",
            tr("How much to buy for {title}", title=title),
            tuple(columns),
            tuple(Row(row.cells(*shown)) for row in rows),
            about=about,
        )


def served_words(view: View, plate: Plate) -> str:
    """What is on a plate, for whoever does not see what it costs."""
    content = view.costed.content
    cooked = [source_of(content, portion).title for portion in plate.served]
    found = [*cooked, *(content.pantry[name].title for name in plate.with_)]
    return tr("{plate}: {listed}.", plate=plate.title, listed=listed(found)) if found else ""
