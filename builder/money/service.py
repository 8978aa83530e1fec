"""Services: what goes into each cook for all of its plates, and the steps that lead up to them."""

from __future__ import annotations

from typing import Final

from builder.engine.arith import Column, either, known, or_else, whole_up
from builder.engine.tables import Table, formula
from builder.money.kitchen import PROCESS
from builder.money.plates import PLATE
from builder.money.portions import PORTION
from builder.money.set_menus import CHOICE, FIXED_PRICE
from builder.yields.chain import BATCH

WHOLE_PLATES: Final = "our rule: what guests are expected to take is made ready in whole portions"
LOADS_WRITTEN: Final = (
    "our rule: no more goes in at once than a cook's own load, where nobody says what is held "
    "or the load is a number of pieces that lie side by side"
)

LOADING = Table("loading", "What goes into a cook for a service")
SERVING = Table("serving", "A portion of a plate of a service, with its covers")
JOB = Table("job", "A step of a service's plan")
MENU_SERVING = Table("menu_serving", "What guests of a set menu take of a plate in a service")

LOADING.link("batch", BATCH)
LOADING.lookups("batch", BATCH, "load", "pieces", "holds", "pieces_at_once")
SERVING.link("loading", LOADING)
SERVING.link("plate", PLATE)
SERVING.link("portion", PORTION)
SERVING.given("own_covers", "count", "Portions to serve, as written for the plate", 0.0, "none")
SERVING.lookups("plate", PLATE, "portions_per_piece", "portions_by_weight")
SERVING.lookup("further_per_piece", "portion", PORTION, "portions_per_piece")
SERVING.lookup("further_by_weight", "portion", PORTION, "portions_by_weight")
MENU_SERVING.link("serving", SERVING)
MENU_SERVING.link("choice", CHOICE)
MENU_SERVING.given("menu_guests", "count", "Guests of the set menu in the service")
MENU_SERVING.lookup("share", "choice", CHOICE)


@formula(MENU_SERVING, unit="count", source=FIXED_PRICE)
def taken_by_guests(menu_guests: Column, share: Column) -> Column:
    """Portions that the menu's guests take, not yet whole."""
    return menu_guests * share


SERVING.total(
    "taken_by_guests", MENU_SERVING, "taken_by_guests", "serving", "Portions that guests take"
)


@formula(SERVING, unit="count", source=WHOLE_PLATES)
def covers(own_covers: Column, taken_by_guests: Column) -> Column:
    """Portions to serve: as written, and what guests of set menus take, up to whole ones."""
    return own_covers + whole_up(taken_by_guests)


@formula(SERVING, unit="factor", source=PROCESS)
def pieces_taken(covers: Column, portions_per_piece: Column, further_per_piece: Column) -> Column:
    """Pieces that the portions take, not yet whole; none where a piece gives no portion."""
    given = or_else(portions_per_piece, further_per_piece)
    return either(given > 0, covers / given, 0.0)


@formula(SERVING, unit="factor", source=PROCESS)
def batches_taken(covers: Column, portions_by_weight: Column, further_by_weight: Column) -> Column:
    """Batches that the portions take by weight; none where a batch gives no portion."""
    given = or_else(portions_by_weight, further_by_weight)
    return either(given > 0, covers / given, 0.0)


LOADING.total(
    "pieces_shared", SERVING, "pieces_taken", "loading", "Pieces that all of its plates take"
)
LOADING.total(
    "batches_shared", SERVING, "batches_taken", "loading", "Batches that all of its plates take"
)


@formula(LOADING, unit="count", source=PROCESS)
def pieces_to_cook(pieces: Column, pieces_shared: Column) -> Column:
    """Whole pieces for all portions of the cook, rounded once; not known without a piece weight."""
    return either(known(pieces), whole_up(pieces_shared), float("nan"))


@formula(LOADING, unit="kg", source=PROCESS)
def raw_weight(
    pieces_to_cook: Column, load: Column, pieces: Column, batches_shared: Column
) -> Column:
    """Raw weight of the whole pieces; as the portions take it without a piece weight."""
    return or_else(pieces_to_cook * load / pieces, batches_shared * load)


@formula(LOADING, unit="count", source=LOADS_WRITTEN)
def loads_as_written(
    raw_weight: Column, load: Column, holds: Column, pieces_to_cook: Column, pieces_at_once: Column
) -> Column:
    """Whole loads of the pieces, or the weight, that the cook's file puts in at once.

    Not known, and not needed, where the equipment's file says what it holds and the load is no
    number of pieces that lie side by side.
    """
    by_weight = either(known(holds), float("nan"), whole_up(raw_weight / load))
    return or_else(whole_up(pieces_to_cook / pieces_at_once), by_weight)


JOB.link("loading", LOADING)
JOB.given("hours", "h", "How long the step takes")
JOB.lookups("loading", LOADING, "pieces_to_cook", "raw_weight", "loads_as_written")
