"""Batches of cuts that are served without a cook: what is bought, less the cut's own stages.

Nothing heats them, so a batch has no energy, no equipment and no hours.
"""

from __future__ import annotations

from collections.abc import Mapping

from builder.costing.entries import entry, noted
from builder.engine.book import Book, Identity
from builder.language import tr
from builder.problems import Place
from builder.reading.names import slug
from builder.records.chains import stages_of
from builder.records.content import Content
from builder.records.kinds import Cut
from builder.yields.chain import BATCH, STEP


def raw_rows(
    book: Book,
    content: Content,
    cuts: Mapping[str, int],
    stages: Mapping[tuple[str, str], int],
) -> dict[tuple[str, bool], int]:
    """Add a batch for every cut that a plate serves without a cook, by pieces or by weight."""
    found: dict[tuple[str, bool], int] = {}
    for plate in content.plates.values():
        for portion in plate.served:
            key = str(portion.cut), portion.pieces is not None
            if portion.cut is not None and key not in found:
                found[key] = _batch(book, content.cuts[key[0]], key[1], cuts[key[0]], stages)
    return found


def _batch(
    book: Book, cut: Cut, counted: bool, cut_row: int, stages: Mapping[tuple[str, str], int]
) -> int:
    """One piece as it is bought, or a kilogram; no stage lies before what goes in."""
    place = Place(cut.file)
    one = entry(cut.each) if counted else noted(1.0, place, tr("a kilogram as it is bought"))
    nothing = noted(0.0, place, tr("nothing cooks it"))
    values = {"load": one, "piece_weight": one if counted else None, "measured_energy": nothing}
    key = "pieces" if counted else "weight"
    links = {"cut": cut_row, "kitchen": 0}
    row = book.add(
        BATCH, links, values, Identity(cut.path, f"raw.{key}", tr("{cut}, uncooked", cut=cut.title))
    )
    for name, _ in stages_of(cut):
        flags = {
            "before_cook": noted(0.0, place, tr("it is not cooked")),
            "after_cook": noted(1.0, place, tr("{name} is all that is done to it", name=name)),
        }
        who = Identity(cut.path, f"raw.{key}.{slug(name)}", name)
        book.add(STEP, {"batch": row, "stage": stages[cut.path, name]}, flags, who)
    return row
