"""As many pieces of equipment as are said to be needed do hold a week's loads."""

from __future__ import annotations

import random
from collections.abc import Iterator

import numpy as np
import pytest

from builder.engine.arith import Column
from builder.money.capacity import equipment_needed

HOURS = 168.0


def column(value: float) -> Column:
    return np.array([value])


def needed(loads: dict[float, int]) -> int:
    """By cooks' hours a load and their loads a week."""
    shares = sum(count / (HOURS // hours) for hours, count in loads.items())
    booked = sum(hours * count for hours, count in loads.items())
    longest = max(hours for hours, count in loads.items() if count)
    return int(equipment_needed(*map(column, (shares, booked, HOURS, longest)))[0])


def fits(loads: dict[float, int], pieces: int) -> bool:
    """Whether loads, the longest first, fit: each into the emptiest piece, or into the first."""
    ordered = [hours for hours in sorted(loads, reverse=True) for _ in range(loads[hours])]
    return any(
        max(packed) <= HOURS + 1e-9
        for packed in (_to_the_emptiest(ordered, pieces), _to_the_first(ordered, pieces))
    )


def _to_the_emptiest(ordered: list[float], pieces: int) -> list[float]:
    taken = [0.0] * pieces
    for hours in ordered:
        taken[taken.index(min(taken))] += hours
    return taken


def _to_the_first(ordered: list[float], pieces: int) -> list[float]:
    """Into the first piece that has the hours left, else into the last."""
    taken = [0.0] * pieces
    for hours in ordered:
        room = [at for at, used in enumerate(taken) if used + hours <= HOURS]
        taken[room[0] if room else -1] += hours
    return taken


def weeks() -> Iterator[dict[float, int]]:
    chance = random.Random(7)
    for _ in range(400):
        cooks = chance.randint(1, 5)
        yield {float(chance.randint(2, 96)): chance.randint(1, 6) for _ in range(cooks)}


def test_every_week_by_chance_fits_into_what_it_is_said_to_need() -> None:
    worse = [(week, needed(week)) for week in weeks() if not fits(week, needed(week))]
    assert worse == []


@pytest.mark.parametrize(("loads", "pieces"), [({85.0: 2, 1.0: 1}, 2), ({85.0: 3}, 3)])
def test_by_hand(loads: dict[float, int], pieces: int) -> None:
    """Two of 85 h and one of 1 h go into two times 168 h; three of 85 h are one to a piece."""
    assert needed(loads) == pieces
    assert fits(loads, pieces)
    assert not fits(loads, pieces - 1)
