"""What bookings take of a piece of equipment, against a count of every way to pack them.

Common practice, no published source: the pieces of one temperature share a bath that holds them.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.cooking.schedule import (
    Booking,
    ClashKind,
    find_clashes,
    hours_kept,
    taken_at_once,
)

MONDAY = datetime(2026, 9, 28, 6)


def booking(
    cook: str,
    load: float,
    pieces: int = 1,
    *,
    at: float | None = 57,
    start: int = 0,
    hours: int = 24,
) -> Booking:
    begin = MONDAY + timedelta(hours=start)
    return Booking(cook, "bath", at, begin, begin + timedelta(hours=hours), load, pieces)


def fewest(pieces: Sequence[float], room: float) -> int:
    """The fewest baths for pieces, by trying every way; a piece too large has one to itself."""
    if not pieces:
        return 0
    first, *others = pieces
    best = len(pieces)
    for chosen in range(2 ** len(others)):
        beside = [p for n, p in enumerate(others) if chosen >> n & 1]
        if not beside or first + sum(beside) <= room * (1 + 1e-9):
            left = [p for n, p in enumerate(others) if not chosen >> n & 1]
            best = min(best, 1 + fewest(left, room))
    return best


def test_loads_that_only_touch_are_not_in_one_another_s_way() -> None:
    first, second = booking("a", 5), booking("b", 5, at=65, start=24)
    assert not first.overlaps(second)
    assert not second.overlaps(first)
    late = booking("c", 5, at=65, start=23)
    assert first.overlaps(late)
    assert late.overlaps(first)


def test_the_heaviest_piece_goes_in_first_however_much_a_load_weighs() -> None:
    """Two of 6 kg and two of 4 kg: 6 and 4 in each of two baths of 10 kg."""
    loads = [booking("a", 6), booking("b", 6), booking("c", 8, 2)]
    assert taken_at_once(loads, 10) == fewest([6, 6, 4, 4], 10) == 2


@given(
    st.lists(
        st.tuples(st.sampled_from([1.0, 2.0, 3.0, 5.0, 14.0]), st.integers(1, 3)),
        min_size=1,
        max_size=3,
    ),
    st.sampled_from([6.0, 10.0, 12.0]),
)
def test_what_loads_take_is_near_the_fewest_possible(
    loads: list[tuple[float, int]], room: float
) -> None:
    """Largest first never takes less than the fewest, and at most 11/9 of it and 6/9 more.

    The bound is Dosa's for first fit decreasing, 2007 [from memory].
    """
    bookings = [booking(str(n), each * count, count) for n, (each, count) in enumerate(loads)]
    least = fewest([each for each, count in loads for _ in range(count)], room)
    found = taken_at_once(bookings, room)
    assert least <= found <= 11 / 9 * least + 6 / 9


def test_pieces_that_just_fit_share_a_bath() -> None:
    assert taken_at_once([booking("a", 8, 4), booking("b", 4, 2)], 12) == 1
    assert taken_at_once([booking("a", 8, 4), booking("b", 6, 3)], 12) == 2
    # 7 kg leave 5 kg free: two of the pieces of 2 kg go there, the third into another.
    assert taken_at_once([booking("a", 7, 1), booking("b", 6, 3)], 12) == 2
    assert taken_at_once([booking("a", 7, 1), booking("b", 4, 2)], 12) == 1


def test_a_piece_larger_than_the_bath_takes_one_and_nothing_weighs_nothing() -> None:
    assert taken_at_once([booking("a", 40, 2)], 12) == 2
    assert taken_at_once([booking("a", 0, 1)], 12) == 1
    assert taken_at_once([booking("a", 40, 2)], None) == 1
    assert taken_at_once([booking("a", 1), booking("b", 28, 2)], 6) == 3


@pytest.mark.parametrize(
    ("second", "clash"),
    [
        (4.0, False),  # 8 + 4 just fill 12
        (4.1, True),
        (8.0, True),
    ],
)
def test_a_bath_filled_to_the_brim_is_no_clash(second: float, clash: bool) -> None:
    found = find_clashes(
        [booking("a", 8), booking("b", second, start=2)], {"bath": 12.0}, {"bath": 1}
    )
    assert [c.kind for c in found] == ([ClashKind.CAPACITY] if clash else [])


def test_loads_that_follow_each_other_do_not_fill_a_bath_together() -> None:
    after = [booking("a", 8, hours=24), booking("b", 8, start=24)]
    assert find_clashes(after, {"bath": 12.0}, {"bath": 1}) == ()
    within = [booking("a", 8, hours=24), booking("b", 8, start=23)]
    assert len(find_clashes(within, {"bath": 12.0}, {"bath": 1})) == 1
    assert hours_kept(after, 12) == 48
    # The hour that both are in takes two baths.
    assert hours_kept(within, 12) == 48


def test_what_still_clashes_once_another_is_out_is_found() -> None:
    """Three at once of two baths, and three more that want them when the first has left."""
    cooks = [
        booking("shin", 6, at=62, hours=14),
        booking("cheek", 2, at=53, start=2, hours=28),
        booking("neck", 2, at=68, start=4, hours=26),
        booking("duck", 2, at=78, start=10, hours=18),
    ]
    found = find_clashes(cooks, {"bath": 8.0}, {"bath": 2})
    asked = [(c.cooks, (c.end - c.start).total_seconds() / 3600, c.needed) for c in found]
    assert asked == [
        (("shin", "cheek", "neck"), 10, 3),
        (("shin", "cheek", "neck", "duck"), 4, 4),
        (("cheek", "neck", "duck"), 18, 3),
    ]


def test_what_still_overfills_a_bath_once_another_is_out_is_found() -> None:
    cooks = [booking("a", 5, hours=10), booking("b", 5, start=2), booking("c", 5, start=4)]
    found = find_clashes(cooks, {"bath": 8.0}, {"bath": 1})
    assert [c.cooks for c in found] == [("a", "b"), ("a", "b", "c"), ("b", "c")]
    apart = [booking("a", 5, hours=10), booking("b", 5, start=2), booking("c", 3, start=4)]
    found = find_clashes(apart, {"bath": 8.0}, {"bath": 1})
    assert [c.cooks for c in found] == [("a", "b"), ("a", "b", "c")]


def test_loads_that_only_ever_lie_there_with_another_are_no_clash_of_their_own() -> None:
    """When the first leaves, the last goes in: there is no moment for the two between alone."""
    cooks = [
        booking("a", 5, hours=10),
        booking("b", 5, start=2),
        booking("c", 5, start=4),
        booking("d", 5, start=10),
    ]
    one = find_clashes(cooks, {"bath": 8.0}, {"bath": 1})
    assert [c.cooks for c in one] == [("a", "b"), ("a", "b", "c"), ("b", "c", "d"), ("c", "d")]
    two = find_clashes(cooks, {"bath": 6.0}, {"bath": 2})
    assert [c.cooks for c in two] == [("a", "b", "c"), ("b", "c", "d")]


@given(
    st.lists(
        st.tuples(
            st.sampled_from([57.0, 65.0]),
            st.integers(0, 6),
            st.integers(1, 6),
            st.sampled_from([3.0, 5.0, 9.0]),
        ),
        max_size=5,
    )
)
def test_what_overfills_a_bath_is_what_lies_in_it_at_one_hour(
    loads: list[tuple[float, int, int, float]],
) -> None:
    """Against a look at the bath in the middle of every hour."""
    cooks = [
        booking(str(n), load, at=at, start=start, hours=hours)
        for n, (at, start, hours, load) in enumerate(loads)
    ]
    seen = set()
    for hour in range(12):
        for heat in (57.0, 65.0):
            there = [
                n
                for n, (at, start, hours, _) in enumerate(loads)
                if at == heat and start < hour + 0.5 < start + hours
            ]
            if sum(loads[n][3] for n in there) > 8:
                seen.add(frozenset(str(n) for n in there))
    found = find_clashes(cooks, {"bath": 8.0}, {"bath": 1})
    crowded = [frozenset(c.cooks) for c in found if c.kind is ClashKind.CAPACITY]
    assert len(crowded) == len(seen)
    assert set(crowded) == seen


def test_a_load_without_a_temperature_is_at_no_other_than_its_neighbour_s() -> None:
    """It shares what it fits into, and takes its own only where it fits in nowhere."""
    cold, warm, hot = booking("a", 5, at=None), booking("b", 5), booking("c", 4, at=65)
    assert find_clashes([cold, warm], {"bath": 12.0}) == ()
    assert [c.kind for c in find_clashes([cold, warm], {"bath": 9.0})] == [ClashKind.CAPACITY]
    assert taken_at_once([warm, hot, cold], 12) == 2
    assert taken_at_once([cold, warm, hot], 9) == 2  # only beside the 4 kg
    assert taken_at_once([cold, warm, hot], 8) == 3
    assert taken_at_once([cold], 12) == taken_at_once([cold], None) == 1
