"""Plates that stand in one role of a swap, against each other: their prices and portions."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import clauses, tr
from builder.problems import Problem
from builder.quantities import Dimension
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Plate
from builder.records.slips import slip
from builder.records.written import Doubted, Value, is_far, times, warning

# One guest eats the one instead of the other: so many times as much cooked meat at the most.
# Common practice, no published source.
PORTIONS = 2.3
# What replaces a premium cut costs guests no more than so many times its price, and no less
# than this part of it. Common practice, no published source.
DEARER, CHEAPER = 1.4, 1 / 3


def check_roles(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of a plate that is far larger, dearer or cheaper than the one whose role it takes.

    The values of two plates say only that one of them is wrong: both lines are named.
    """
    for swap in content.swaps.values():
        benchmark = content.plates.get(swap.benchmark)
        for name in swap.challengers:
            challenger = content.plates.get(name)
            if benchmark and challenger and benchmark.menu == challenger.menu:
                yield from _portions(benchmark, challenger, reported)
                yield from _prices(benchmark, challenger, reported)


def _portions(benchmark: Plate, challenger: Plate, reported: Doubted) -> Iterator[Problem]:
    one, other = _portion(benchmark), _portion(challenger)
    if one is None or other is None or {one.place, other.place} & reported:
        return
    if is_far(other.value, one.value, PORTIONS):
        yield from _apart(benchmark, challenger, "portion", one, other)


def _portion(plate: Plate) -> Measure | None:
    """The cooked weight of a plate's only portion."""
    served = plate.served
    only = served[0].portion if len(served) == 1 else None
    return only if only and only.dimension is Dimension.MASS else None


def _prices(benchmark: Plate, challenger: Plate, reported: Doubted) -> Iterator[Problem]:
    one, other = benchmark.price, challenger.price
    if "price" in benchmark.unread | challenger.unread or {one.place, other.place} & reported:
        return
    if one.value > 0 and other.value > 0 and not CHEAPER <= other.value / one.value <= DEARER:
        yield from _apart(benchmark, challenger, "price", one, other)


def _apart(
    benchmark: Plate, challenger: Plate, key: str, one: Measure, other: Measure
) -> Iterator[Problem]:
    value = Value(f"plates.{key}", other, challenger, challenger.path)
    ratio = other.value / one.value
    message = tr(
        "{key}: {other} is {times} that of {benchmark} at {place}, whose role the plate would take",
        key=key,
        other=other.text,
        times=times(ratio),
        benchmark=benchmark.title,
        place=one.place,
    )
    hint = clauses((slip(other, 1 / ratio), tr("one of them may be a slip")))
    yield from warning(value, message, hint, names_line=True)
