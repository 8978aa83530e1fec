"""Costs that are not known: said so in their cell, and by name beside the sum without them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from builder.costing.left_out import left_out
from builder.display.words import listed
from builder.pages.components import Cell, Figures, FigureTile
from builder.pages.figure_names import PlateFigure
from builder.pages.view import F, FigureRow, View
from builder.records.kinds import Cook, Plate

NOT_KNOWN = "not known"
IN_DOUBT = "in doubt"
_NAMES = {
    "labour_cost": "labour",
    "energy_per_plate": "energy",
    "equipment_per_plate": "equipment",
    "accompaniments_known_process": "process in the accompaniments",
}


def cost_cell(row: FigureRow[F], figure: F) -> Cell:
    """A cost with the link to its trace, or that it is not known."""
    return row.cell(figure) if row.known(figure) else Cell(NOT_KNOWN)


def doubted(tiles: Iterable[FigureTile], doubt: str, *, but: tuple[str, ...] = ()) -> Figures:
    """Tiles as marked figures, where there is a doubt; those of some labels rest on no cost."""
    found = (
        replace(tile, note="; ".join(filter(None, (IN_DOUBT, str(tile.note)))), tone="")
        if doubt and tile.label not in but
        else tile
        for tile in tiles
    )
    return Figures(tuple(found))


def plate_doubt(view: View, plate: Plate) -> str:
    """Why what a plate costs can't be trusted; empty where it can."""
    return view.costed.doubts.plates[plate.id]


def plate_cost(view: View, figure: PlateFigure, plate: Plate) -> Cell:
    """A cost of a plate; a sum of nothing, where a part of it is not known, is not known."""
    row = view.plate(plate)
    if figure in left_out(view.costed, plate) and not row.number(figure) > 0:
        return Cell(NOT_KNOWN)
    return row.cell(figure, note=doubt_note(view, plate, figure))


def cook_note(view: View, cook: Cook) -> str:
    """The note of a cost that rests on a cook's servable weight; empty where there is no doubt."""
    return IN_DOUBT if view.costed.doubts.cooks[cook.id] else ""


# What a plate's table says of its food, and of all that is reckoned from it.
_RESTS_ON_FOOD: frozenset[PlateFigure] = frozenset(
    (
        "overall_yield", "cost_per_servable_kg", "ap_weight_per_portion", "ap_cost_per_portion",
        "credit_per_portion", "protein_cost", "portion_cost_by_weight", "portion_cost_whole",
        "remainder_credit", "food_cost", "prime_cost", "full_cost", "contribution_margin",
        "margin_after_prime", "margin_after_full", "food_cost_share", "price_for_food_cost",
        "price_for_margin", "margin_per_equipment_hour",
    )
)  # fmt: skip


def doubt_note(view: View, plate: Plate, figure: PlateFigure) -> str:
    """The note of a cell that rests on what the food costs; empty where there is no doubt."""
    return IN_DOUBT if figure in _RESTS_ON_FOOD and plate_doubt(view, plate) else ""


def left_out_words(view: View, plates: Iterable[Plate]) -> str:
    """What the full costs of plates leave out, said once of those that leave out the same."""
    titles: dict[str, list[str]] = {}
    for plate in plates:
        titles.setdefault(missing_words(view, [plate]), []).append(plate.title)
    return "; ".join(f"{missing} of {listed(who)}" for missing, who in titles.items() if missing)


def missing_words(view: View, plates: Iterable[Plate]) -> str:
    """What the full costs of plates leave out, by name; nothing where all of it is known."""
    found = {figure for plate in plates for figure in left_out(view.costed, plate)}
    names = [name for figure, name in _NAMES.items() if figure in found]
    return listed(names)
