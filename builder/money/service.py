"""Services: what goes into each cook for all of its plates, and the steps that lead up to them."""

from __future__ import annotations

from builder.engine.arith import Column, either, known, or_else, whole_up
from builder.engine.tables import Table, formula
from builder.money.kitchen import PROCESS
from builder.money.plates import PLATE
from builder.money.portions import PORTION
from builder.yields.chain import BATCH

LOADING = Table("loading", "What goes into a cook for a service")
SERVING = Table("serving", "A portion of a plate of a service, with its covers")
JOB = Table("job", "A step of a service's plan")

LOADING.link("batch", BATCH)
LOADING.lookups("batch", BATCH, "load", "pieces")
SERVING.link("loading", LOADING)
SERVING.link("plate", PLATE)
SERVING.link("portion", PORTION)
SERVING.given("covers", "count", "Portions to serve")
SERVING.lookups("plate", PLATE, "portions_per_piece", "portions_by_weight")
SERVING.lookup("further_per_piece", "portion", PORTION, "portions_per_piece")
SERVING.lookup("further_by_weight", "portion", PORTION, "portions_by_weight")


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


JOB.link("loading", LOADING)
JOB.given("hours", "h", "How long the step takes")
JOB.lookups("loading", LOADING, "pieces_to_cook", "raw_weight")
