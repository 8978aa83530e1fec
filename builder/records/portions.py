"""What is on a plate, portion by portion: its cook or cut is there, its pieces have a weight."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import tr
from builder.problems import Problem, Severity
from builder.records.by_count import says_no_weight, weight_hint
from builder.records.content import Content
from builder.records.kinds import Cook, Cut, Plate
from builder.records.plates import Portion


def source_of(content: Content, portion: Portion) -> Cook | Cut:
    """The cook of a portion, or the cut where it has none; KeyError where neither is there."""
    return content.cooks[portion.cook] if portion.cook else content.cuts[str(portion.cut)]


def cut_of(content: Content, portion: Portion) -> Cut:
    """The cut of a portion; KeyError where it is not there."""
    source = source_of(content, portion)
    return source if isinstance(source, Cut) else content.cuts[source.cut]


def check_portions(content: Content, plate: Plate) -> Iterator[Problem]:
    """Portions of nothing, and one cook or cut twice on a plate."""
    seen: set[tuple[str | None, str | None]] = set()
    for portion in plate.served:
        key = portion.cook, portion.cut
        if portion.portion.value <= 0:
            yield Problem(portion.portion.place, tr("a portion weighs more than nothing"))
        if key in seen and (portion.cook in content.cooks or portion.cut in content.cuts):
            yield _twice(plate, source_of(content, portion).title, portion)
        seen.add(key)


def _twice(plate: Plate, title: str, portion: Portion) -> Problem:
    named = portion.cook or portion.cut
    return Problem(
        named.place if named else portion.portion.place,
        tr("{title} is on this plate twice", title=title),
        tr("write one portion of it, with all its weight or pieces"),
        Severity.WARNING,
        plate.path,
        needs=("plates", "cuts", "cooks"),
    )


def check_pieces_served(content: Content, plate: Plate) -> Iterator[Problem]:
    """Portions of pieces whose cook, or cut, does not say what a piece weighs."""
    for portion in plate.served:
        if portion.pieces is None or not (hint := _weight_wanted(content, portion)):
            continue
        message = tr("{pieces} has no weight behind it", pieces=portion.pieces.text)
        yield Problem(portion.pieces.place, message, hint)


def _weight_wanted(content: Content, portion: Portion) -> str:
    """Where to write what a piece weighs; empty where it is written, or can't be read."""
    cook = content.cooks.get(portion.cook) if portion.cook else None
    cut = content.cuts.get(portion.cut) if portion.cut else None
    source = cook or cut
    return weight_hint(source) if source and says_no_weight(source) else ""
