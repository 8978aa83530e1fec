"""A recipe that only two plates take, by amounts that are too far apart."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from builder.problems import Problem
from builder.quantities import Dimension
from builder.records.content import Content
from builder.records.written import Doubted, Value, is_far, one_of_two

# A sauce and a bowl of soup of it lie so many times apart. Common practice, no published source.
APART = 9.0


def check_pairs(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of the larger of two amounts of one recipe on two plates, naming the other.

    Of three and more plates the one that is unlike the others is known (`peers.py`).
    """
    found: dict[tuple[str, Dimension | None], list[Value]] = defaultdict(list)
    for plate in content.plates.values():
        for name, amount in plate.with_.items():
            item = content.pantry.get(name)
            if item is not None and item.of and amount.place not in reported:
                value = Value("plates.with", amount, plate, plate.path, item=str(name))
                found[str(name), amount.dimension].append(value)
    for pair in found.values():
        less, more = min(pair, key=_amount), max(pair, key=_amount)
        if len(pair) == 2 and is_far(_amount(more), _amount(less), APART):
            yield from one_of_two(more, less.measure)


def _amount(value: Value) -> float:
    return value.measure.value
