"""Sizes in the kitchen's units, written back to what they were; dates; refused names."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.display import Style
from builder.display.rounded_sizes import lasting, weight_down
from builder.language import tr
from builder.quantities import Dimension, parse_quantity

METRIC = Style.of("en_CA", "CAD")
US = Style.of("en_US", "USD", "us customary")
LB = 0.45359237  # NIST Handbook 44, Appendix C, exact
GAL = 3.785411784  # NIST Handbook 44, Appendix C, exact


def plain(text: str) -> str:
    return text.replace("\xa0", " ")


@pytest.mark.parametrize(
    ("kg", "metric", "us"),
    [
        (0.0, "0 g", "0 oz"),
        (0.0005, "0.5 g", "0.02 oz"),
        (0.0025, "2.5 g", "0.09 oz"),
        (0.18, "180 g", "6.3 oz"),
        (LB / 2, "227 g", "8 oz"),
        (0.9994, "999 g", "2 lb 3.3 oz"),
        (0.9996, "1.00 kg", "2 lb 3.3 oz"),
        (LB * 15.96 / 16, "452 g", "1 lb"),
        (LB * 31.96 / 16, "906 g", "2 lb"),
        (6.5 * LB, "2.95 kg", "6 lb 8 oz"),
        (-6.5 * LB, "−2.95 kg", "−6 lb 8 oz"),
        (22 * LB, "9.98 kg", "22 lb"),
        (99.99 * LB, "45.35 kg", "99 lb 15.8 oz"),
        (100 * LB, "45.36 kg", "100 lb"),
        (1234.56, "1,235 kg", "2,721.7 lb"),
    ],
)
def test_weight(kg: float, metric: str, us: str) -> None:
    assert (plain(METRIC.weight(kg)), plain(US.weight(kg))) == (metric, us)


@pytest.mark.parametrize(
    ("kg", "metric", "us"),
    [
        (0.0, "0 g", "0 oz"),
        (0.0006, "0.6 g", "0.02 oz"),
        (0.1799, "179 g", "6.3 oz"),
        (0.18, "180 g", "6.3 oz"),
        (0.1687, "168 g", "5.9 oz"),
        (LB / 2, "226 g", "8 oz"),
        (0.9994, "999 g", "2 lb 3.2 oz"),
        (6.5 * LB, "2.94 kg", "6 lb 8 oz"),
        (99.999 * LB, "45.35 kg", "99 lb 15.9 oz"),
        (1234.56, "1,234 kg", "2,721.7 lb"),
    ],
)
def test_the_most_that_a_weight_may_be_is_never_above_itself(
    kg: float, metric: str, us: str
) -> None:
    """By hand: 0.1799 kg is 6.346 oz, 0.1687 kg 5.951 oz, 0.9994 kg 35.253 oz."""
    assert (plain(weight_down(METRIC, kg)), plain(weight_down(US, kg))) == (metric, us)


@given(st.floats(1e-4, 1e4), st.sampled_from([METRIC, US]))
def test_a_weight_written_down_is_read_back_as_no_more(kg: float, style: Style) -> None:
    text = plain(weight_down(style, kg)).replace(",", "")
    assert kg - max(0.06, kg / 1000) <= parse_quantity(text).value <= kg * (1 + 1e-9)


@pytest.mark.parametrize(
    ("litres", "metric", "us"),
    [
        (0.06, "60 mL", "2 fl oz"),
        (GAL / 128 / 2, "15 mL", "0.5 fl oz"),
        (0.0025, "2.5 mL", "0.1 fl oz"),
        (GAL / 4, "946 mL", "1 qt"),
        (1.5, "1.50 L", "1.59 qt"),
        (GAL, "3.79 L", "1 gal"),
        (40.0, "40.00 L", "10.57 gal"),
        (250.0, "250.0 L", "66.04 gal"),
    ],
)
def test_volume(litres: float, metric: str, us: str) -> None:
    assert (plain(METRIC.volume(litres)), plain(US.volume(litres))) == (metric, us)


@pytest.mark.parametrize(
    ("mm", "metric", "us"),
    [(60.0, "60 mm", "2.36 in"), (63.5, "63.5 mm", "2.5 in"), (1200.0, "1.2 m", "47.24 in")],
)
def test_length(mm: float, metric: str, us: str) -> None:
    assert (plain(METRIC.length(mm)), plain(US.length(mm))) == (metric, us)


@pytest.mark.parametrize(
    ("celsius", "metric", "us"),
    [(57.0, "57 °C", "134.6 °F"), (55.0, "55 °C", "131 °F"), (-18.0, "−18 °C", "−0.4 °F")],
)
def test_temperature(celsius: float, metric: str, us: str) -> None:
    assert (plain(METRIC.temperature(celsius)), plain(US.temperature(celsius))) == (metric, us)


@pytest.mark.parametrize(
    ("hours", "expected"),
    [
        (0.0, "0 min"),
        (0.025, "90 s"),
        (2 / 60, "2 min"),
        (35 / 60, "35 min"),
        (59.6 / 60, "1 h"),
        (1.5, "1 h 30 min"),
        (1.9999, "2 h"),
        (36.0, "36 h"),
        (-0.5, "−30 min"),
        (1500.25, "1,500 h 15 min"),
    ],
)
def test_duration(hours: float, expected: str) -> None:
    assert plain(METRIC.duration(hours)) == expected


def test_energy_and_power() -> None:
    assert plain(METRIC.energy(6.3)) == "6.30 kWh"
    assert plain(METRIC.power(0.21)) == "210 W"
    assert plain(METRIC.power(2.4)) == "2.40 kW"


def test_prices_are_per_the_kitchens_unit() -> None:
    assert METRIC.money_per_kg(14.8) == "$14.80/kg"
    assert US.money_per_kg(3.19 / LB) == "$3.19/lb"
    assert METRIC.money_per_hour(24.5) == "$24.50/h"
    assert METRIC.money_per_kwh(0.1437) == "$0.1437/kWh"
    assert METRIC.money_per_kwh(0.14) == "$0.14/kWh"
    assert Style.of("fr_FR", "EUR").money_per_kg(14.8) == "14,80\xa0€/kg"
    assert METRIC.unit(Dimension.MASS) == "kg"


def half_place(style: Style, kg: float) -> float:
    """Half of the last place that a weight is shown with, in kg."""
    if style is US:
        return 0.05 * LB / 16 if kg >= 0.029 else 0.005 * LB / 16
    return 0.005 if kg >= 0.9995 else 0.0005 if kg >= 0.01 else 0.00005


@pytest.mark.parametrize("style", [METRIC, US], ids=["metric", "us"])
@given(kg=st.one_of(st.floats(0.001, 0.028), st.floats(0.029, 1.1), st.floats(1, 45)))
def test_a_weight_is_read_back_within_its_last_place(style: Style, kg: float) -> None:
    found = parse_quantity(plain(style.weight(kg)), Dimension.MASS)
    assert abs(found.value - kg) <= half_place(style, kg) * 1.0001


@given(hours=st.floats(1 / 60, 1e4))
def test_a_duration_is_read_back_to_the_minute(hours: float) -> None:
    written = plain(METRIC.duration(hours)).replace(",", "")
    assert abs(parse_quantity(written, Dimension.TIME).value - hours) <= 0.5 / 60 * 1.0001


@given(celsius=st.floats(-40, 300))
def test_a_temperature_is_read_back_to_a_tenth(celsius: float) -> None:
    for style, half in ((METRIC, 0.05), (US, 0.05 * 5 / 9)):
        found = parse_quantity(plain(style.temperature(celsius)), Dimension.TEMPERATURE)
        assert abs(found.value - celsius) <= half * 1.0001


@pytest.mark.parametrize(
    ("locale", "day", "month"),
    [
        ("en_US", "Sep 3, 2026", "Sep 2026"),
        ("fr_FR", "3 Sept 2026", "Sept 2026"),
        ("de_DE", "3 Sept 2026", "Sept 2026"),
    ],
)
def test_dates(locale: str, day: str, month: str) -> None:
    """English pages: a month's name is English, its place that of the kitchen's country (CLDR)."""
    style = Style.of(locale, "EUR")
    assert (style.date(date(2026, 9, 3)), style.month((2026, 9))) == (day, month)


@pytest.mark.parametrize(
    ("locale", "currency", "units", "message"),
    [
        ("xx_YY", "CAD", "metric", "unknown locale"),
        ("", "CAD", "metric", "unknown locale"),
        ("en_CA", "CDN", "metric", "unknown currency"),
        ("en_CA", "CAD", "imperial", "is not a valid"),
    ],
)
def test_unknown_names_are_refused(locale: str, currency: str, units: str, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        Style.of(locale, currency, units)


@pytest.mark.parametrize(("inches", "written"), [(9 / 8, "1.13"), (7 / 8, "0.88"), (3 / 8, "0.38")])
def test_eighths_of_an_inch_are_rounded_up(inches: float, written: str) -> None:
    """Converted from millimetres, 3/8 in is a hair less than it as a binary number."""
    assert Style.of("en_US", "USD", "us customary").length(inches * 25.4) == f"{written}\xa0in"


@pytest.mark.parametrize(("share", "written"), [(0.625, "63%"), (0.645, "65%"), (-0.625, "−63%")])
def test_a_half_of_a_percent_goes_away_from_zero(share: float, written: str) -> None:
    assert Style.of("en_CA", "CAD").percent(share, 0) == written


def test_halves_in_sentences_go_up() -> None:
    assert tr("{share:.0%} and {ratio:.1f}", share=0.625, ratio=4.25) == "63% and 4.3"


def test_halves_of_minutes_and_coins_go_up() -> None:
    style = Style.of("en_CA", "CAD")
    assert style.duration(2.5 + 2.5 / 60) == "2\xa0h\xa033\xa0min"
    assert (style.money(2.675), style.money(0.125), style.count(4.5)) == ("$2.68", "$0.13", "5")


@pytest.mark.parametrize(
    ("hours", "written"),
    [
        (1.5, "1 h 30 min"),
        (36, "36 h"),
        (47.75, "47 h 45 min"),
        (48, "2 days"),
        (60.25, "2 days 12 h 15 min"),
        (123.75, "5 days 3 h 45 min"),
        (0.1 * 3 * 240, "3 days"),
    ],
)
def test_what_waits_for_days_is_said_in_days(hours: float, written: str) -> None:
    """By hand; the last one is 72 h but for rounding."""
    assert plain(lasting(METRIC, hours)) == written
