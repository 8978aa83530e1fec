"""Clashes that follow each other are one, whatever their order and across the end of the week."""

from __future__ import annotations

from datetime import datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from builder.cooking.schedule import Clash, ClashKind
from builder.costing.week_clashes import Part, joined_round_the_week

MONDAY = datetime(2026, 9, 28)
WEEK_H = 7 * 24
Hours = tuple[int, int]


def part_of(name: str, kind: ClashKind, hours: Hours) -> Part:
    start, lasts = hours
    at = MONDAY + timedelta(hours=start)
    return Part(Clash(kind, "bath", (name,), at, at + timedelta(hours=lasts), 1.0), ())


def meet_in_the_week(one: Part, other: Part) -> bool:
    """By the definition: same kind, and at one time as the week comes round."""
    a, b = one.clash, other.clash
    by = [timedelta(hours=WEEK_H * weeks) for weeks in (-1, 0, 1)]
    return a.kind is b.kind and any(a.start + n <= b.end and b.start <= a.end + n for n in by)


def connected(parts: list[Part]) -> set[frozenset[str]]:
    """Groups of what meets, directly or by way of others, by looking at every pair."""
    groups: list[list[Part]] = []
    for part in parts:
        met = [group for group in groups if any(meet_in_the_week(part, each) for each in group)]
        apart = [group for group in groups if all(group is not each for each in met)]
        groups = [*apart, [part, *(each for group in met for each in group)]]
    return {frozenset(names(group)) for group in groups}


def names(parts: list[Part]) -> list[str]:
    return [part.clash.cooks[0] for part in parts]


# From the day before the week to its end: what starts on Sunday for Tuesday.
HOURS = st.tuples(st.integers(-30, WEEK_H - 1), st.integers(1, 40))


@given(st.lists(st.tuples(st.sampled_from(list(ClashKind)), HOURS), max_size=12))
def test_what_meets_in_the_week_is_one(drawn: list[tuple[ClashKind, Hours]]) -> None:
    parts = [part_of(str(number), *each) for number, each in enumerate(drawn)]
    found = list(joined_round_the_week(parts))
    assert sorted(name for group in found for name in names(group)) == sorted(names(parts))
    assert {frozenset(names(group)) for group in found} == connected(parts)


def test_a_stretch_across_the_end_of_the_week_is_moved_to_one_time() -> None:
    """Sunday 20:00 to 26:00 and the Monday after it, 1:00 to 5:00, are nine hours in a row."""
    sunday = part_of("sunday", ClashKind.CAPACITY, (WEEK_H - 4, 6))
    monday = part_of("monday", ClashKind.CAPACITY, (1, 4))
    [group] = joined_round_the_week([monday, sunday])
    start = min(part.clash.start for part in group)
    assert max(part.clash.end for part in group) - start == timedelta(hours=9)
