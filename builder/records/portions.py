"""Portions written by the piece: the weight of a piece has to be known."""

from __future__ import annotations

from collections.abc import Iterator

from builder.problems import Problem
from builder.records.content import Content
from builder.records.kinds import Plate


def check_pieces_served(content: Content, plate: Plate) -> Iterator[Problem]:
    """A portion of pieces whose cook does not say what a piece weighs."""
    cook = content.cooks.get(plate.cook) if plate.cook else None
    if plate.portion_pieces is None or cook is None or {"piece", "piece.*"} & cook.unread:
        return
    if cook.piece is None or cook.piece.weight is None:
        yield Problem(
            plate.portion_pieces.place,
            f"{plate.portion_pieces.text} has no weight behind it",
            f"write its raw weight in {cook.file}, such as piece: {{weight: 250 g}}",
        )
