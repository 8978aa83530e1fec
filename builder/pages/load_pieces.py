"""What is to be said of the pieces of a load: a part of one, or a weight that is not theirs."""

from __future__ import annotations

from builder.language import Deferred, tr
from builder.pages.view import PlateRow, View
from builder.records.kinds import Cook, Plate
from builder.rounding import nearest_whole

PART_OF_A_PIECE = Deferred(
    " A load is {} pieces, which is no whole number: the part of a piece counts by its weight."
)
PART_OF_A_PORTION = Deferred(
    " What it gives beyond a whole portion is costed, but is in neither count nor left-over."
)
# A load that is off its pieces by less is as good as theirs [our rule].
_NO_MATTER = 0.005
UNWEIGHED = Deferred(" No weight of a piece is written, so nothing is rounded to whole pieces.")


def pieces_words(view: View, plate: Plate, row: PlateRow) -> str:
    """What is to be said of the pieces of a plate's load that is not made of whole ones."""
    if not row.known("portions_per_piece"):
        return tr(UNWEIGHED)
    pieces = row.number("pieces")
    if pieces != nearest_whole(pieces):
        part = tr(PART_OF_A_PIECE).format(row.text("pieces"))
        portions = row.number("whole_portions")
        return part if portions == nearest_whole(portions) else part + tr(PART_OF_A_PORTION)
    return equal_parts(view, view.costed.content.cooks[plate.cook]) if plate.cook else ""


def equal_parts(view: View, cook: Cook) -> str:
    """That whole pieces share a load which is off their weight as it is written; else nothing."""
    row = view.batch(cook)
    if row.hides("load") or row.hides("pieces") or not row.known("pieces"):
        return ""
    pieces, load = row.number("pieces"), row.text("load")
    weighed = pieces * row.number("piece_weight")
    together, off = view.style.weight(weighed), abs(weighed / row.number("load") - 1)
    if pieces != nearest_whole(pieces) or str(load) == together or off < _NO_MATTER:
        return ""
    return tr(
        " The load of {load} counts as {pieces} pieces of equal weight; at {one} each they would "
        "weigh {together}.",
        load=load,
        pieces=row.text("pieces"),
        one=row.text("piece_weight"),
        together=together,
    )
