"""What goes in at once: the load and its pieces against what their equipment holds."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import fmean

from builder.language import tr
from builder.problems import Place, Problem
from builder.quantities import written_like
from builder.reading.tree import Text
from builder.records.content import Content
from builder.records.equipment import Equipment, gear_title
from builder.records.fields import Measure
from builder.records.kinds import Cook
from builder.records.sizes import Counted
from builder.records.slips import slip
from builder.records.ways import BATH
from builder.records.written import Doubted, Value, warning

# A cook shorter than this has its loads one after another, as a line cooks [h; our rule].
_SHORT_H = 1.0


def goes_in_by_number(cook: Cook) -> bool:
    """Whether the number of pieces is what limits a load: they lie side by side for a short time.

    What a bath holds is a weight, and a long cook's load is rather a batch than a limit.
    """
    short = cook.for_ is not None and cook.for_.value < _SHORT_H
    return isinstance(cook.load, Counted) and short and cook.how != BATH


def check_load(content: Content, cook: Cook) -> Iterator[Problem]:
    """Refuse a load, and a piece, that don't go into the cook's equipment."""
    gear = content.kitchen.equipment[cook.equipment] if cook.equipment else None
    holds = gear.holds if gear else None
    if cook.load is None and not cook.tests and holds is None:
        hint = tr("write load:, such as load: 8 kg")
        yield Problem(Place(cook.file), tr("how much goes in at once is not known"), hint)
    if holds and holds.value <= 0:
        return  # reported where it is written
    if cook.load and gear and holds and cook.load.value > holds.value:
        message = tr(
            "{written} is more than {equipment} holds",
            written=_written(cook.load),
            equipment=cook.equipment,
        )
        hint = _hint(cook.load, cook.equipment, gear, holds)
        yield Problem(cook.load.place, message, hint)
    elif cook.piece and cook.piece.weight:
        yield from _check_piece(cook, cook.piece.weight, holds)


def _written(load: Measure) -> str:
    """A load with its weight, and with its number where that is what the file says."""
    return f"{load.counted}, {load.text}," if isinstance(load, Counted) else load.text


def _hint(load: Measure, name: Text | None, gear: Equipment, holds: Measure) -> str:
    """What of a load too large may be meant: one of several, or a slip of the pen."""
    many = gear.how_many.value if gear.how_many else 1.0
    if many > 1 and load.value <= holds.value * many:
        return tr(
            "{name} holds {holds}, each of {many:g}; write the load of one",
            name=name,
            holds=holds.text,
            many=many,
        )
    meant = slip(load, holds.value / load.value)
    return tr(
        "{name} holds {holds}; {meant}",
        name=name,
        holds=holds.text,
        meant=meant or tr("write load: {holds} or less", holds=holds.text),
    )


def _check_piece(cook: Cook, weight: Measure, holds: Measure | None) -> Iterator[Problem]:
    """The load is as stated, else as tested, else what the equipment holds."""
    tested = max((test.in_ for test in cook.tests), key=lambda load: load.value, default=None)
    most = cook.load or tested or holds
    if weight.value <= 0:
        yield Problem(weight.place, tr("a piece weighs more than nothing"))
    elif most is not None and weight.value > most.value:
        hint = tr("the load is {most}", most=most.text)
        yield Problem(weight.place, tr("one piece is heavier than the load"), hint)
    elif holds is not None and weight.value > holds.value:
        message = tr("one piece is heavier than {equipment} holds", equipment=cook.equipment)
        hint = tr("{equipment} holds {holds}", equipment=cook.equipment, holds=holds.text)
        yield Problem(weight.place, message, hint)


def check_tested_loads(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn where tests stand for the load, and weigh more than the equipment holds."""
    for cook in content.cooks.values():
        gear = content.kitchen.equipment.get(cook.equipment) if cook.equipment else None
        holds = gear.holds if gear else None
        if cook.load or not cook.tests or not holds:
            continue
        if {holds.place, *(test.in_.place for test in cook.tests)} & reported:
            continue
        first, mean = cook.tests[0], fmean(test.in_.value for test in cook.tests)
        if mean > holds.value:
            value = Value("cooks.tests.in", first.in_, cook, cook.path, first.date.day)
            of_tests = written_like(first.in_.text, mean)
            gear_words = gear_title(content.kitchen.equipment, str(cook.equipment))
            of_gear = tr("{equipment} holds {holds}", equipment=gear_words, holds=holds.text)
            message = tr(
                "by its tests the load is {of_tests}; {of_gear}", of_tests=of_tests, of_gear=of_gear
            )
            yield from warning(value, message, tr("write what goes into one at once as load:"))
