"""Cautions that no rule set turns off: hours between 10 and 54.4 °C, by the heating model."""

from __future__ import annotations

import pytest

from builder.cooking.cautions import GROWS_TO_C, Slow, cool_cook, slow_cooling, slow_warming
from builder.cooking.pieces import BLAST_CHILLER, ICE_BATH, WATER_BATH, CoreEstimate, Piece


def warming(thickness_mm: float, bath_c: float) -> CoreEstimate:
    return CoreEstimate(Piece(thickness_mm, start_c=4), WATER_BATH, bath_c)


@pytest.mark.parametrize(
    ("hottest", "hours", "reported"),
    [
        (45, 48, True),
        (53.5, 18, True),
        (54.3, 4.1, True),
        (54.4, 48, False),
        (130 / 1.8 - 32 / 1.8, 48, False),
        (50, 4, False),
        (57, 48, False),
    ],
)
def test_a_long_cook_below_54_4_degrees(hottest: float, hours: float, *, reported: bool) -> None:
    """130 °F is 54.4 °C by print: neither is below it; a steak of 4 h is no long cook."""
    assert bool(list(cool_cook(hottest, hours * 60))) is reported


def test_a_core_that_comes_up_in_more_than_six_hours() -> None:
    heat = warming(160, 61)
    (found,) = slow_warming(Slow.COMING_UP, heat, 60 * 60)
    assert found.taken_min == heat.reach_min(GROWS_TO_C).high - heat.reach_min(10).high
    assert found.taken_min > 10 * 60
    assert found.gets_through
    assert not list(slow_warming(Slow.COMING_UP, warming(50, 61), 60 * 60))


def test_a_plan_that_ends_before_the_core_is_through_says_so() -> None:
    """A bath of either print brings the core to it; ten hours end before a thick one is there."""
    for either in (54.4, (130 - 32) / 1.8):
        (at_the_edge,) = slow_warming(Slow.COMING_UP, warming(60, either), 30 * 60)
        assert at_the_edge.gets_through
        assert at_the_edge.taken_min < 9 * 60
    (ends,) = slow_warming(Slow.COMING_UP, warming(200, 61), 10 * 60)
    assert not ends.gets_through
    assert ends.taken_min < 10 * 60
    assert not list(slow_warming(Slow.COMING_UP, warming(200, 61), 5 * 60))
    # A plan as long as the core takes, to the minute, lets it through.
    through = warming(200, 61).reach_min(GROWS_TO_C).high
    for minutes, in_time in ((through, True), (through - 1, False)):
        (found,) = slow_warming(Slow.COMING_UP, warming(200, 61), minutes)
        assert found.gets_through is in_time


def test_a_core_that_falls_in_more_than_six_hours() -> None:
    thick = CoreEstimate(Piece(160, start_c=61), BLAST_CHILLER, 0)
    (found,) = slow_cooling(thick)
    assert found.taken_min == thick.reach_min(10).high - thick.reach_min(GROWS_TO_C).high
    assert not list(slow_cooling(CoreEstimate(Piece(60, start_c=61), ICE_BATH, 1)))
    # A core that is below 54.4 °C already is in the range from its first minute.
    (cool,) = slow_cooling(CoreEstimate(Piece(160, start_c=50), BLAST_CHILLER, 0))
    assert (
        cool.taken_min == CoreEstimate(Piece(160, start_c=50), BLAST_CHILLER, 0).reach_min(10).high
    )
