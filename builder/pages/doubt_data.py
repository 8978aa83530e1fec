"""Why rows of the tables to download can't be trusted, in the words of their pages."""

from __future__ import annotations

from collections.abc import Callable

from builder.language import clauses, tr
from builder.pages.resource import Record
from builder.pages.swap_words import doubt_of
from builder.pages.unknown import (
    chain_doubts,
    missing_words,
    plate_doubt,
    sold_doubt,
)
from builder.pages.view import View
from builder.pages.warned import pair_fault_words
from builder.reading.names import slug
from builder.records.chains import stages_of


def cut_doubt(view: View, row: Record) -> str:
    """Why what is known of a cut is in doubt; empty where it is not, as of all below."""
    return view.costed.doubts.of_cut(view.costed.content.cuts[str(row["id"])])


def stage_doubt(view: View, row: Record) -> str:
    """Of a stage."""
    content, name = view.costed.content, str(row["stage"])
    owner = content.cuts[row["cut"]] if row["cut"] else content.cooks[str(row["cook"])]
    return view.costed.doubts.of_stage(owner, name, dict(stages_of(owner))[name])


def cook_doubt(view: View, row: Record) -> str:
    """Of a cook."""
    return view.costed.doubts.cooks[str(row["id"])]


def step_doubt(view: View, row: Record) -> str:
    """Of a step of a cook's chain."""
    cook = view.costed.content.cooks[str(row["cook"])]
    names = [f"{cook.id}/{slug(link.name)}" for link, _ in view.steps(cook)]
    doubtful = dict(zip(names, map(any, chain_doubts(view, cook)), strict=True))
    return view.costed.doubts.cooks[cook.id] if doubtful[str(row["id"])] else ""


def whole_plate_doubt(view: View, row: Record) -> str:
    """Of a plate, with what of it is not known in full."""
    plate = view.costed.content.plates[str(row["id"])]
    return clauses((plate_doubt(view, plate), not_in_full(missing_words(view, [plate]))))


def doubt_of_plate(column: str) -> Callable[[View, Record], str]:
    """What rests on the food of the plate that a column names."""

    def doubt(view: View, row: Record) -> str:
        return plate_doubt(view, view.costed.content.plates[str(row[column])])

    return doubt


def portion_doubt(view: View, row: Record) -> str:
    """Of a portion of a plate."""
    if row["cook"]:
        return view.costed.doubts.cooks[str(row["cook"])]
    return view.costed.doubts.of_cut(view.costed.content.cuts[str(row["cut"])])


def swap_doubt(view: View, row: Record) -> str:
    """Of a challenger beside its benchmark."""
    plates = view.costed.content.plates
    plate, benchmark = plates[str(row["challenger"])], plates[str(row["benchmark"])]
    return clauses(
        (
            doubt_of(view, plate, benchmark),
            pair_fault_words(view, plate, benchmark),
            not_in_full(missing_words(view, [benchmark, plate])),
        )
    )


def limit_doubt(view: View, row: Record) -> str:
    """Of a limit of a swap."""
    swap, _, challenger = str(row["swap"]).partition("/")
    benchmark = str(view.costed.content.swaps[swap].benchmark)
    return swap_doubt(view, {"challenger": challenger, "benchmark": benchmark})


def kitchen_doubt(view: View, _: Record) -> str:
    """Of all plates."""
    return sold_doubt(view, view.costed.content.plates.values())


def section_doubt(view: View, row: Record) -> str:
    """Of a section of the menu."""
    plates = view.costed.content.plates.values()
    return sold_doubt(view, (plate for plate in plates if plate.menu == row["id"]))


def not_in_full(missing: str) -> str:
    """That something is not known in full."""
    return tr("{missing} not known in full", missing=missing) if missing else ""
