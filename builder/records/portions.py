"""What is on a plate, portion by portion: its cooks are there, its pieces have a weight."""

from __future__ import annotations

from collections.abc import Iterator

from builder.problems import Problem, Severity
from builder.records.content import Content
from builder.records.kinds import Cook, Plate
from builder.records.plates import Portion


def check_portions(content: Content, plate: Plate) -> Iterator[Problem]:
    """Portions of nothing, and one cook twice on a plate."""
    seen: set[str] = set()
    for portion in plate.served:
        if portion.portion.value <= 0:
            yield Problem(portion.portion.place, "a portion weighs more than nothing")
        if portion.cook in seen and portion.cook in content.cooks:
            yield _twice(plate, content.cooks[portion.cook], portion)
        seen.add(portion.cook)


def _twice(plate: Plate, cook: Cook, portion: Portion) -> Problem:
    return Problem(
        portion.cook.place,
        f"{cook.title} is on this plate twice",
        "write one portion of it, with all its weight or pieces",
        Severity.WARNING,
        plate.path,
    )


def check_pieces_served(content: Content, plate: Plate) -> Iterator[Problem]:
    """Portions of pieces whose cook does not say what a piece weighs."""
    for portion in plate.served:
        cook = content.cooks.get(portion.cook)
        if portion.pieces is None or cook is None or {"piece", "piece.*"} & cook.unread:
            continue
        if cook.piece is None or cook.piece.weight is None:
            yield Problem(
                portion.pieces.place,
                f"{portion.pieces.text} has no weight behind it",
                f"write its raw weight in {cook.file}, such as piece: {{weight: 250 g}}",
            )
