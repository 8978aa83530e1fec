"""Times from a model: never finer than it knows, never on the wrong side of a limit."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.display.estimates import Way, about, about_span, rounded_min, thickness_that_fits
from builder.display.style import NBSP, Style

METRIC, CUSTOMARY = Style.of("en_CA", "CAD"), Style.of("en_US", "USD", "us customary")
minutes = st.floats(0.5, 10_000)
ways = st.sampled_from(["up", "down", "near"])


@given(minutes, ways)
def test_rounding_moves_a_time_by_no_more_than_what_the_model_knows(time: float, way: Way) -> None:
    found = rounded_min(time, way)
    assert abs(found - time) <= max(time / 3, 1 / 6)
    assert way != "up" or found >= time * (1 - 1e-6)
    assert way != "down" or found <= time * (1 + 1e-6)


@given(minutes, st.floats(-5, 5), ways)
def test_what_breaks_a_limit_is_never_written_as_keeping_it(
    time: float, further: float, way: Way
) -> None:
    limit = time + further
    found = rounded_min(time, way, limit)
    if way != "down":
        assert (found > limit) == (time > limit)
    if way != "up":
        assert (found < limit) == (time < limit)


@given(st.floats(4, 10_000))
def test_a_time_is_written_near_enough_to_be_compared(time: float) -> None:
    """Within the quarter that a model of heat in meat is good to, half of it from an hour on."""
    most = 1 / 4 if time < 60 else 1 / 8
    for way in ("up", "down", "near"):
        assert rounded_min(time, way) == pytest.approx(time, rel=most)


@given(st.floats(2, 10_000))
def test_longer_is_never_written_as_shorter(time: float) -> None:
    for way in ("up", "down", "near"):
        assert rounded_min(time * 1.01, way) >= rounded_min(time, way)


@pytest.mark.parametrize(
    ("time", "up", "down"),
    [
        (0, "0 min", "0 min"),
        (0.6, "about 40 s", "about 30 s"),
        (7.2, "about 8 min", "about 7 min"),
        (41, "about 45 min", "about 40 min"),
        (83, "about 85 min", "about 80 min"),
        (119, "about 2 h", "about 115 min"),
        (180.0000000001, "about 3 h", "about 3 h"),
        (253, "about 4 h 30 min", "about 4 h"),
        (1733, "about 29 h", "about 28 h"),
        (-143, "about −2 h 15 min", "about −2 h 30 min"),
        (float("nan"), "–", "–"),
    ],
)
def test_words_of_a_time(time: float, up: str, down: str) -> None:
    assert about(METRIC, time, "up").replace(NBSP, " ") == up
    assert about(METRIC, time, "down").replace(NBSP, " ") == down


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (193, 236, "about 3 to 4 h"),
        (46, 71, "about 45 to 75 min"),
        (96, 149, "about 95 min to 2 h 30 min"),
        (13, 13, "about 13 min"),
        (1440, 1800, "about 24 to 30 h"),
    ],
)
def test_words_of_a_span(low: float, high: float, words: str) -> None:
    assert about_span(METRIC, low, high).replace(NBSP, " ") == words


def test_a_thickness_that_fits_is_rounded_down() -> None:
    assert thickness_that_fits(METRIC, 63.99).replace(NBSP, " ") == "63 mm"
    assert thickness_that_fits(METRIC, 64.0).replace(NBSP, " ") == "64 mm"
    assert thickness_that_fits(CUSTOMARY, 63.99).replace(NBSP, " ") == "2.5 in"
