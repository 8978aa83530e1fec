"""Pieces that nobody has weighed, and loads that are no whole number of them."""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.costing.filled_rows import Rows
from builder.costing.wording import style_of
from builder.display.style import Style
from builder.engine.figures import Figures
from builder.language import Deferred, ntr, tr
from builder.problems import Place, Problem, Severity
from builder.quantities import written_like
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cook
from builder.rounding import nearest_whole

UNWEIGHED = Deferred(
    "no weight of a piece is written, so nothing is rounded to whole pieces or loads"
)
_ADD = Deferred("add piece: {weight: ...}, the raw weight of one piece as it goes into the cook")
# Pieces differ by more than this share of a load [our rule]: a smaller part of one is not reported.
_MATTERS = 0.02
# Pieces of one cut differ by a few per cent: only more than this is worth a word [our rule].
_UNLIKE = 0.05
_NEEDS = ("cooks", "plates", "weights", "cooking")


def check_pieces(content: Content, figures: Figures, rows: Rows) -> Iterator[Problem]:
    """Cooks on a plate whose pieces are not weighed, or whose load has a part of a piece in it."""
    served = {cook for plate in content.plates.values() for cook in plate.cooks}
    for cook in content.cooks.values():
        if cook.id not in served:
            continue
        if cook.piece is None or cook.piece.weight is None:
            yield _warning(cook, Place(cook.file), tr(UNWEIGHED), tr(_ADD))
            continue
        load, pieces = (figures.value("batch", f, rows.cooks[cook.id]) for f in ("load", "pieces"))
        if math.isfinite(pieces) and abs(pieces - round(pieces)) > _MATTERS * pieces:
            place = cook.load.place if cook.load else cook.piece.weight.place
            style = style_of(content.kitchen)
            message, hint = _parts(style, cook, cook.piece.weight, load, pieces)
            yield _warning(cook, place, message, hint)
        elif _shared(load, pieces, cook.piece.weight.value):
            message, hint = _equal(style_of(content.kitchen), cook.piece.weight, load, pieces)
            yield _warning(cook, cook.piece.weight.place, message, hint)


def _shared(load: float, pieces: float, one: float) -> bool:
    """Whether whole pieces that share a load differ from their weight as it is written."""
    whole = math.isfinite(pieces) and pieces == nearest_whole(pieces)
    return whole and abs(load / pieces - one) > _UNLIKE * one


def _equal(style: Style, one: Measure, load: float, pieces: float) -> tuple[str, str]:
    message = ntr(
        "the load counts as {count} piece of {share}, not of {one}",
        "the load counts as {count} pieces of {share} each, not of {one}",
        nearest_whole(pieces),
        share=style.weight(load / pieces),
        one=one.text,
    )
    hint = ntr(
        "write load: {count} piece, or what one weighs",
        "write load: {count} pieces, or what one weighs",
        nearest_whole(pieces),
    )
    return message, hint


def _parts(style: Style, cook: Cook, one: Measure, load: float, pieces: float) -> tuple[str, str]:
    """What a load comes to that is no whole number of pieces, and whole loads near it."""
    stated = cook.load.text if cook.load else written_like(one.text, load, places=2)
    held = style.number(pieces, 2 if pieces < 10 else 1)
    message = tr(
        "a load of {stated} is {held} pieces of {one}; the part of a piece counts by its weight",
        stated=stated,
        held=held,
        one=one.text,
    )
    return message, tr("write whole pieces, such as load: {max} pieces", max=max(1, round(pieces)))


def _warning(cook: Cook, place: Place, message: str, hint: str) -> Problem:
    return Problem(place, message, hint, Severity.WARNING, cook.path, needs=_NEEDS)
