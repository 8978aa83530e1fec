"""Costs that are not known: said so in their cell, and by name beside the sum without them."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace
from typing import NamedTuple

from builder.display.words import listed
from builder.language import Deferred, clauses, tr
from builder.pages.components import Cell, Chart, Figures, FigureTile
from builder.pages.figure_names import PlateFigure
from builder.pages.found_once import left_out_of
from builder.pages.in_clauses import in_clauses
from builder.pages.view import F, FigureRow, View
from builder.pages.withheld import WITHHELD, seen
from builder.records.kinds import Cook, Cut, Plate

NOT_KNOWN = Deferred("not known")
NOT_IN_FULL = Deferred("not known in full")
IN_DOUBT = Deferred("in doubt")
_NAMES = {
    "labour_cost": Deferred("labour"),
    "energy_per_plate": Deferred("energy"),
    "equipment_per_plate": Deferred("equipment"),
    "accompaniments_known_process": Deferred("the energy and supplies in the sides"),
    "further_process": Deferred("the energy and supplies in the further portions"),
    "cover_process": Deferred("the energy and supplies in the cover"),
}


def cost_cell(row: FigureRow[F], figure: F) -> Cell:
    """A cost with the link to its trace, or that it is not known."""
    return row.cell(figure) if row.hides(figure) or row.known(figure) else Cell(tr(NOT_KNOWN))


def known_part(row: FigureRow[F], figure: F, missing: Collection[str] | None) -> Cell:
    """A cost as far as it is known; a sum of nothing, where a part is not known, is not known.

    missing: what of it is not; None where the reader may not know that.
    """
    if row.hides(figure):
        return row.cell(figure)
    if missing is None:
        return Cell(WITHHELD)
    if missing and not row.number(figure) > 0:
        return Cell(tr(NOT_KNOWN))
    return row.cell(figure, note=tr(NOT_IN_FULL) if missing else "")


def doubted(tiles: Iterable[FigureTile], doubt: str, *, but: tuple[str, ...] = ()) -> Figures:
    """Tiles as marked figures, where there is a doubt; those of some labels rest on no cost."""
    found = (
        replace(tile, note=in_clauses((tr(IN_DOUBT), tile.note)), tone="")
        if doubt and tile.label not in but
        else tile
        for tile in tiles
    )
    return Figures(tuple(found))


def plate_doubt(view: View, plate: Plate) -> str:
    """Why what a plate costs can't be trusted; empty where it can."""
    return view.costed.doubts.plates[plate.id]


def use_doubt(view: View, cut: Cut, cooks: Iterable[str]) -> str:
    """Why what was used of a cut, raw or by these cooks, can't be costed; empty where it can."""
    doubts, all_cooks = view.costed.doubts, view.costed.content.cooks
    reasons = (doubts.cooks[name] for name in cooks if all_cooks[name].cut == cut.id)
    return doubts.of_cut(cut) or next(filter(None, reasons), "")


def plates_doubt(view: View, plates: Iterable[Plate]) -> str:
    """Why a sum over plates can't be trusted: the first of theirs; empty where it can."""
    return next(filter(None, (plate_doubt(view, plate) for plate in plates)), "")


def sold_doubt(view: View, plates: Iterable[Plate]) -> str:
    """Why a sum over what was sold of plates can't be trusted; empty where it can."""
    return plates_doubt(view, (p for p in plates if view.plate(p).number("sold") > 0))


def doubted_chart(chart: Chart, doubt: str) -> Chart:
    """A picture that says in its title and its sentence that what it shows is in doubt."""
    if not doubt:
        return chart
    title, summary = (
        f"{chart.title} ({tr(IN_DOUBT)})",
        tr(
            "{summary} It is {in_doubt}: {doubt}.",
            summary=chart.summary,
            in_doubt=IN_DOUBT,
            doubt=doubt,
        ),
    )
    rows = chart.table and replace(chart.table, caption=f"{chart.table.caption} ({tr(IN_DOUBT)})")
    return replace(chart, title=title, summary=summary, table=rows)


def named(view: View, plate: Plate) -> str:
    """A plate as pictures name it, which have no room for a note."""
    return f"{plate.title} ({tr(IN_DOUBT)})" if plate_doubt(view, plate) else plate.title


def plate_cost(view: View, figure: PlateFigure, plate: Plate) -> Cell:
    """A cost of a plate; a sum of nothing, where a part of it is not known, is not known."""
    row = view.plate(plate)
    if row.hides(figure):
        return row.cell(figure)
    known = seen(left_out_of, view, plate) if figure in _NAMES else {}
    if known is None:
        return Cell(WITHHELD)
    if figure in known and not row.number(figure) > 0:
        return Cell(tr(NOT_KNOWN))
    return row.cell(figure, note=doubt_note(view, plate, figure))


def cook_note(view: View, cook: Cook) -> str:
    """The note of a cost that rests on a cook's servable weight; empty where there is no doubt."""
    return tr(IN_DOUBT) if view.costed.doubts.cooks[cook.id] else ""


def credit_note(view: View, cook: Cook) -> str:
    """The note of what a cook's by-products are worth; empty where there is no doubt."""
    return tr(IN_DOUBT) if view.costed.doubts.below_nothing[cook.id] else ""


def loss_note(view: View, cook: Cook) -> str:
    """The note of a cook's weights and yields; empty where there is no doubt."""
    return tr(IN_DOUBT) if view.costed.doubts.loss(cook) else ""


class ChainDoubt(NamedTuple):
    """What of a stage is in doubt: the weight that comes in, the one that goes on, its cost."""

    came_in: bool
    goes_on: bool
    cost: bool


def chain_doubts(view: View, cook: Cook) -> Iterator[ChainDoubt]:
    """Of each stage what is in doubt; from one that is, all that rests on it is."""
    goes_on = cost = False
    for link, row in view.steps(cook):
        came_in, goes_on = goes_on, goes_on or view.costed.doubts.not_known(link)
        hidden = row.hides("cost_per_kg_out")
        cost = goes_on or cost or (not hidden and row.as_read("cost_per_kg_out") < 0)
        yield ChainDoubt(came_in, goes_on, cost)


# What a plate's table says of its food, and of all that is reckoned from it.
_RESTS_ON_FOOD: frozenset[PlateFigure] = frozenset(
    (
        "cost_per_servable_kg", "credit_per_portion", "protein_cost", "portion_cost_by_weight",
        "portion_cost_whole", "cost_factor_per_portion", "remainder_credit", "food_cost",
        "prime_cost", "full_cost", "contribution_margin", "margin_after_prime",
        "margin_after_full", "food_cost_share", "price_for_food_cost", "price_for_margin",
        "margin_per_equipment_hour", "further_food",
    )
)  # fmt: skip

# What is of the main portion alone, where a plate has several.
_OF_MAIN: frozenset[PlateFigure] = frozenset(
    (
        "cost_per_servable_kg", "credit_per_portion", "protein_cost", "portion_cost_by_weight",
        "portion_cost_whole", "cost_factor_per_portion", "remainder_credit",
    )
)  # fmt: skip

# What rests on the weights alone, whatever they are worth.
_RESTS_ON_LOSS: frozenset[PlateFigure] = frozenset(
    ("overall_yield", "ap_weight_per_portion", "ap_cost_per_portion")
)


def doubt_note(view: View, plate: Plate, figure: PlateFigure) -> str:
    """The note of a cell that rests on what the food costs; empty where there is no doubt."""
    if figure in _RESTS_ON_LOSS and plate.cook:
        return loss_note(view, view.costed.content.cooks[plate.cook])
    if figure not in _RESTS_ON_FOOD or not plate_doubt(view, plate):
        return ""
    served = plate.served
    of = served[1:] if figure == "further_food" else served[:1] if figure in _OF_MAIN else served
    doubtful = [portion for portion in served if view.costed.doubts.of_portion(portion)]
    whole = not doubtful and (figure != "further_food" or bool(of))
    return tr(IN_DOUBT) if whole or any(portion in of for portion in doubtful) else ""


def full_cost_words(view: View, plate: Plate) -> str:
    """The full cost of a plate beside a link to it, with its doubt."""
    cost, doubt = view.plate(plate).text("full_cost"), doubt_note(view, plate, "full_cost")
    return f"{cost}, {doubt}" if doubt else cost


def left_out_words(view: View, plates: Iterable[Plate]) -> str:
    """What the full costs of plates leave out, said once of those that leave out the same.

    Two plates are those that a sentence compares: of both, no name is said again.
    """
    titles: dict[str, list[str]] = {}
    for plate in plates:
        titles.setdefault(missing_words(view, [plate]), []).append(plate.title)
    if [len(who) for who in titles.values()] == [2]:
        [missing] = titles
        return tr("{missing} of both plates", missing=missing) if missing else ""
    return clauses(
        tr("{missing} of {who}", missing=missing, who=listed(who))
        for missing, who in titles.items()
        if missing
    )


def missing_words(view: View, plates: Iterable[Plate]) -> str:
    """What the full costs of plates leave out, by name; nothing where all of it is known."""
    found = {figure for plate in plates for figure in left_out_of(view, plate)}
    names = [name for figure, name in _NAMES.items() if figure in found]
    return listed(names)
