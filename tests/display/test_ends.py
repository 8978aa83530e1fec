"""Ends of inputs differ wherever the inputs do, and carry no digits beyond their width."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.costing.spreads import SOLD
from builder.display.chances import interval_places, money_a_month, money_a_year, year_as_read
from builder.display.ends import own_ends
from builder.display.style import Style
from builder.engine.draws import Spreads
from builder.pages.how_sure import input_ends
from builder.pages.view import View
from tests.live.test_recomputed import KITCHENS, view_of

STYLES = [Style.of("en_GB", "GBP"), Style.of("en_US", "USD", "us customary")]
UNITS = ["money", "money/kg", "money/h", "money/kWh", "money/unit", "share", "h", "kg", "count"]
PRICED = {"money/kg": "kg", "money/h": "h", "money/kWh": "kWh", "money/unit": "L"}


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("style", STYLES, ids=str)
@given(low=st.floats(0.001, 50.0, allow_nan=False), wide=st.floats(0.002, 1.0, allow_nan=False))
def test_two_ends_never_read_alike(style: Style, unit: str, low: float, wide: float) -> None:
    first, second = own_ends(style, unit, low, low * (1 + wide), PRICED.get(unit, ""))
    assert first != second


@given(low=st.floats(0.01, 30.0), wide=st.floats(0.002, 1.0))
def test_minutes_are_whole_and_near_what_they_are_of(low: float, wide: float) -> None:
    """Within half a minute of an interval of five minutes and more, else within 2.5 seconds."""
    ends = (low, low * (1 + wide))
    for end, text in zip(ends, own_ends(STYLES[0], "h", *ends, ""), strict=True):
        sizes = re.findall(r"([\d.]+)\W(h|min|s)\b", text)
        assert not [size for size, unit in sizes if "." in size and unit != "s"], text
        read = sum(float(size) / {"h": 1, "min": 60, "s": 3600}[unit] for size, unit in sizes)
        few = ends[1] - ends[0] < 5 / 60
        assert abs(read - end) * 3600 <= (2.5 if few else 30) + 1e-6, text


def number(text: str) -> float:
    return float(re.sub(r"[^0-9.]", "", text.split("/", maxsplit=1)[0]))


@given(low=st.floats(1.0, 90.0), wide=st.floats(0.3, 40.0))
def test_a_price_has_two_digits_of_its_width(low: float, wide: float) -> None:
    step = 10.0 ** (math.floor(math.log10(wide)) - 1)
    for end, text in zip(
        (low, low + wide),
        own_ends(STYLES[0], "money/kg", low, low + wide, "kg"),
        strict=True,
    ):
        assert abs(number(text) - end) <= step / 2 + 0.005 + 1e-9
        assert abs(number(text) / step - round(number(text) / step)) < 1e-6 or step < 0.01


@pytest.mark.parametrize("name", KITCHENS)
def test_every_input_of_a_kitchen_has_two_ends(name: str) -> None:
    view = view_of(KITCHENS[name])
    seen = 0
    for node, row, ends in all_ends(view):
        assert ends[0] != ends[1], (node, row)
        seen += 1
        if node == SOLD:
            assert "." not in "".join(ends), ends
    assert seen or name == "starter"


def all_ends(view: View) -> list[tuple[tuple[str, str], int, tuple[str, str]]]:
    known = view.costed.uncertainty
    assert known is not None
    spreads: Spreads = known.spreads
    return [
        (node, row, input_ends(view, node, row, spread))
        for node, rows in spreads.items()
        for row, spread in rows.items()
        if spread.ends[0] < spread.ends[1]
    ]


@given(low=st.floats(1.0, 300.0), wide=st.floats(0.5, 200.0))
def test_ends_of_minutes_lie_within_a_tenth_of_their_interval(low: float, wide: float) -> None:
    """3 min give or take 36 s are 2.4 to 3.6 min, never 2 to 4; seconds and hours are units too."""
    sizes = {"s": 1 / 60, "min": 1.0, "h": 60.0, "d": 1440.0}
    for end, text in zip(
        (low, low + wide), own_ends(STYLES[0], "h", low / 60, (low + wide) / 60, ""), strict=True
    ):
        parts = re.findall(r"([0-9.]+)\s*([a-z]+)", text)
        read = sum(float(size) * sizes[unit] for size, unit in parts)
        assert abs(read - end) <= max(wide / 10, 0.5 if wide >= 5 else 0.0) + 1e-6, text


@given(x=st.floats(-4000.0, 4000.0), relative=st.floats(0.05, 8.0))
def test_twelve_months_as_written_are_the_year_as_written(x: float, relative: float) -> None:
    """To three figures of a month: twelve of it, rounded as the year is, are the year."""
    style, wide = STYLES[0], abs(x) * relative
    month = number(money_a_month(style, x, x + wide))
    first_digit = -math.floor(math.log10(abs(12 * x))) if x else 0
    year_places = max(interval_places(12 * wide, 2), first_digit)
    year = number(money_a_year(style, 12 * x, 12 * (x + wide)))
    assert not round(12 * x, 2) or year
    if abs(12 * month - year) > 0.5 * 10.0 ** max(-year_places, 0) + 1e-6:
        # Only digits beyond three figures, or coins from ten up, would bring them together.
        assert month >= 9.5
        assert (
            abs(month - abs(x)) <= 0.5 * 10.0 ** max(math.floor(math.log10(abs(x))) - 2, 0) + 1e-6
        )


def test_a_month_follows_from_its_year() -> None:
    """30 a month (two digits of its interval) beside 300 a year would not: 12 x 30 is 360."""
    assert money_a_year(STYLES[0], 328.8, 328.8 + 1440) == "£300"
    assert money_a_month(STYLES[0], 27.4, 27.4 + 120) == "£27"
    assert money_a_month(STYLES[0], 25.2, 25.2 + 120) == "£25"


def test_a_year_is_not_nothing_beside_a_month() -> None:
    """27.40 a month within 912 was 30 a month and 0 a year; three figures without an interval."""
    assert money_a_year(STYLES[0], 328.8, 328.8 + 10944) == "£300"
    assert money_a_year(STYLES[0], -328.8, -328.8 - 10944) == "\N{MINUS SIGN}£300"
    assert money_a_month(STYLES[0], 27.4, 27.4 + 912) == "£27"
    assert money_a_year(STYLES[0], 20083.44) == "£20,100"
    assert year_as_read(STYLES[0], 328.8, 10944.0) == 300
