"""Loads, baths and hours, worked by hand; the back-schedule and clashes by the calendar."""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import pairwise
from math import inf
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.cooking.capacity import (
    Load,
    equipment_needed,
    loads_a_week,
    margin_per_equipment_hour,
    portions_a_load,
)
from builder.cooking.schedule import (
    Booking,
    ClashKind,
    Step,
    back_schedule,
    find_clashes,
)

# Worked by hand: 40 kg hold 5 pieces of 7.1 kg, 27 portions each; 30 h + 2 h turn-round.
LOAD = Load(holds_kg=40, piece_kg=7.1, portions_per_piece=27, cook_h=30, turn_round_h=2)


def test_a_week_worked_by_hand() -> None:
    assert portions_a_load(LOAD) == 135
    assert loads_a_week(LOAD) == 5
    assert loads_a_week(LOAD, weekly_cleaning_h=8) == 5
    assert loads_a_week(LOAD, weekly_cleaning_h=9) == 4
    assert equipment_needed(700, LOAD, 5) == 2
    assert equipment_needed(675, LOAD, 5) == 1
    assert margin_per_equipment_hour(LOAD, 16) == pytest.approx(135 * 16 / 32)


def test_a_whole_piece_is_not_lost_to_binary_fractions() -> None:
    assert portions_a_load(Load(0.3, 0.1, 1, 1)) == 3


def test_a_piece_that_does_not_fit_makes_nothing() -> None:
    too_big = Load(5, 7.1, 27, 30)
    assert portions_a_load(too_big) == 0
    assert equipment_needed(10, too_big, 5) == inf
    assert equipment_needed(0, too_big, 5) == 0


@given(st.floats(1, 5000), st.integers(1, 20))
def test_what_is_needed_suffices_and_one_fewer_does_not(forecast: float, loads: int) -> None:
    needed = equipment_needed(forecast, LOAD, loads)
    made = portions_a_load(LOAD) * loads
    assert needed * made >= forecast - 1e-3
    assert (needed - 1) * made < forecast


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"holds_kg": 0}, "load 0 kg is outside"),
        ({"piece_kg": -1}, "piece -1 kg"),
        ({"cook_h": 200}, "cooking time 200 h is outside 0.01 to 168 h"),
        ({"turn_round_h": -1}, "turn-round -1 h"),
    ],
)
def test_an_impossible_load_is_refused(changed: dict[str, float], message: str) -> None:
    values: dict[str, float] = {"holds_kg": 40, "piece_kg": 7, "cook_h": 30, **changed}
    with pytest.raises(ValueError, match=message):
        Load(portions_per_piece=27, **values)


STEPS = [
    Step("trim and bag", 90, hands_on=True),
    Step("bath", 30 * 60, "bath-40"),
    Step("chill", 120),
    Step("sear and carve", 45, "plancha", hands_on=True),
]


def test_a_friday_service_starts_on_thursday_morning() -> None:
    """By the calendar: Friday 18:00 less 45 min, 2 h, 30 h and 90 min."""
    timed = back_schedule(datetime(2026, 10, 2, 18, 0), STEPS)
    assert [t.start.strftime("%a %H:%M") for t in timed] == [
        "Thu 07:45",
        "Thu 09:15",
        "Fri 15:15",
        "Fri 17:15",
    ]
    assert all(a.end == b.start for a, b in pairwise(timed))
    assert timed[-1].end == datetime(2026, 10, 2, 18, 0)


def test_a_night_in_which_the_clocks_go_back_keeps_its_hours() -> None:
    """Toronto, 1 November 2026, 02:00 becomes 01:00: twelve hours before noon is 01:00."""
    zone = ZoneInfo("America/Toronto")
    (only,) = back_schedule(datetime(2026, 11, 1, 12, 0, tzinfo=zone), [Step("bath", 12 * 60)])
    assert only.start.strftime("%d %H:%M") == "01 01:00"
    assert only.end.timestamp() - only.start.timestamp() == 12 * 3600


def test_a_step_of_negative_length_is_refused() -> None:
    with pytest.raises(ValueError, match="duration of rest -5 min is outside"):
        Step("rest", -5)


MONDAY = datetime(2026, 10, 5)


def booking(
    cook: str, at: float, start_h: float, end_h: float, kg: float = 5, equipment: str = "bath-40"
) -> Booking:
    start, end = (MONDAY + timedelta(hours=h) for h in (start_h, end_h))
    return Booking(cook, equipment, at, start, end, kg)


def test_two_temperatures_in_one_bath_clash() -> None:
    (clash,) = find_clashes([booking("chuck", 57, 0, 30), booking("shank", 65, 20, 44)])
    assert clash.kind is ClashKind.TEMPERATURE
    assert clash.cooks == ("chuck", "shank")
    assert clash.start == MONDAY + timedelta(hours=20)
    assert clash.end == MONDAY + timedelta(hours=30)


def test_one_temperature_is_shared_as_long_as_it_fits() -> None:
    three = [booking(name, 57, h, 30, 5) for h, name in enumerate(("a", "b", "c"))]
    assert find_clashes(three, {"bath-40": 15}) == ()
    (clash,) = find_clashes(three, {"bath-40": 14})
    assert clash.kind is ClashKind.CAPACITY
    assert clash.load_kg == 15
    assert clash.start == MONDAY + timedelta(hours=2)


def test_loads_that_start_together_are_counted_together() -> None:
    (clash,) = find_clashes([booking(n, 57, 0, 30, 8) for n in "abc"], {"bath-40": 20})
    assert clash.cooks == ("a", "b", "c")


def test_one_load_alone_can_be_too_much() -> None:
    (clash,) = find_clashes([booking("a", 57, 0, 30, 50)], {"bath-40": 40})
    assert clash.cooks == ("a",)


def test_one_after_the_other_or_elsewhere_is_no_clash() -> None:
    after = [booking("a", 57, 0, 30), booking("b", 65, 30, 40)]
    elsewhere = [booking("a", 57, 0, 30), booking("b", 65, 0, 30, equipment="bath-20")]
    assert find_clashes(after) == find_clashes(elsewhere) == ()


def test_a_booking_that_ends_before_it_starts_is_refused() -> None:
    with pytest.raises(ValueError, match="ends on bath-40 no later than it starts"):
        booking("a", 57, 5, 5)
