"""The fast numerals equal Babel's own, but for the true minus and no sign on a zero.

A half goes up, as Babel's does where it is asked to.
"""

from collections.abc import Callable
from decimal import ROUND_HALF_UP, localcontext
from math import inf, nan

import pytest
from babel import Locale
from babel.numbers import format_currency, format_decimal, format_percent, get_currency_precision
from hypothesis import example, given
from hypothesis import strategies as st

from builder.display import MISSING, Style

PLACES = [
    ("en_CA", "CAD"),
    ("en_US", "USD"),
    ("en_US", "CAD"),
    ("en_GB", "GBP"),
    ("fr_FR", "EUR"),
    ("fr_CA", "CAD"),
    ("de_DE", "EUR"),
    ("de_AT", "EUR"),
    ("de_CH", "CHF"),
    ("sv_SE", "SEK"),
    ("ja_JP", "JPY"),
    ("en_IN", "INR"),
    ("pt_PT", "EUR"),
    ("ar_KW", "KWD"),
]
STYLES = [Style.of(locale, currency) for locale, currency in PLACES]

# Cents and their halves, tenths of a cent, and anything a figure may come out at.
halves = st.integers(-(10**9), 10**9).map(lambda n: n / 200)
numbers = st.one_of(halves, st.floats(-1e12, 1e12), st.integers(-(10**6), 10**6).map(float))
styles = st.sampled_from(STYLES)
decimals = st.integers(0, 4)


def as_ours(babel: str, number: float, zero: str) -> str:
    """Babel's text with a true minus; of a number that rounds to nothing, that of zero."""
    if not any(digit in babel for digit in "123456789"):
        return zero
    return babel.replace("-", "−") if number < 0 else babel


def babels(write: Callable[..., str], *what: object, locale: str) -> str:
    """Babel's text, with halves up."""
    with localcontext(rounding=ROUND_HALF_UP):
        return write(*what, locale=locale)


def pattern(places: int, locale: str) -> str:
    """The locale's grouping with this count of decimals."""
    whole = Locale.parse(locale).decimal_formats[None].pattern.partition(".")[0]
    return f"{whole}.{'0' * places}" if places else whole


@given(numbers, styles)
@example(2.675, STYLES[0])  # a binary float below the half: 2.67 by its exact value
@example(0.125, STYLES[0])
@example(-0.125, STYLES[4])
@example(-0.001, STYLES[0])
@example(1234567.895, STYLES[11])
def test_money_is_babels(number: float, style: Style) -> None:
    zero = format_currency(0, style.currency, locale=style.locale)
    theirs = babels(format_currency, number, style.currency, locale=style.locale)
    expected = as_ours(theirs, number, zero)
    assert style.money(number) == expected


@given(numbers, styles, decimals)
@example(0.5, STYLES[0], 0)
@example(1.5, STYLES[0], 0)
def test_numbers_are_babels(number: float, style: Style, places: int) -> None:
    written = pattern(places, style.locale)
    zero = format_decimal(0, written, locale=style.locale)
    theirs = babels(format_decimal, number, written, locale=style.locale)
    assert style.number(number, places) == as_ours(theirs, number, zero)


@given(numbers, styles)
@example(0.285, STYLES[0])
def test_percents_are_babels(number: float, style: Style) -> None:
    zero = format_percent(0, locale=style.locale)
    theirs = babels(format_percent, number, locale=style.locale)
    assert style.percent(number, 0) == as_ours(theirs, number, zero)


@given(numbers, styles, decimals)
def test_percents_with_decimals_are_babels(number: float, style: Style, places: int) -> None:
    whole = Locale.parse(style.locale).percent_formats[None].pattern
    written = whole.replace("0%", f"0.{'0' * places}%").replace("0\xa0%", f"0.{'0' * places}\xa0%")
    written = written if places else whole
    zero = format_percent(0, written, locale=style.locale)
    theirs = babels(format_percent, number, written, locale=style.locale)
    assert style.percent(number, places) == as_ours(theirs, number, zero)


# Written out by hand; conventions are those of Unicode CLDR [as shipped with Babel].
@pytest.mark.parametrize(
    ("locale", "currency", "expected"),
    [
        ("en_CA", "CAD", "−$1,234.50"),
        ("fr_FR", "EUR", "−1\u202f234,50\xa0€"),
        ("de_DE", "EUR", "−1.234,50\xa0€"),
        ("sv_SE", "SEK", "−1\xa0234,50\xa0kr"),
        ("ja_JP", "JPY", "−￥1,235"),
        ("de_CH", "CHF", "CHF−1’234.50"),
        ("en_US", "CAD", "−CA$1,234.50"),
    ],
)
def test_money_by_hand(locale: str, currency: str, expected: str) -> None:
    assert Style.of(locale, currency).money(-1234.5) == expected


@pytest.mark.parametrize("missing", [None, nan, inf, -inf])
def test_missing_is_a_dash(missing: float | None) -> None:
    style = STYLES[0]
    written = [
        style.money(missing),
        style.amount(missing),
        style.money_per_kg(missing),
        style.money_per_kwh(missing),
        style.number(missing),
        style.percent(missing),
        style.count(missing),
        style.factor(missing),
        style.weight(missing),
        Style.of("en_US", "USD", "us customary").weight(missing),
        style.volume(missing),
        style.length(missing),
        style.temperature(missing),
        style.duration(missing),
        style.energy(missing),
        style.power(missing),
        style.in_unit(missing, "kg"),
        style.date(None),
        style.month(None),
    ]
    assert set(written) == {MISSING}


@pytest.mark.parametrize(
    ("x", "expected"),
    [(6.1, "+6.10"), (-6.1, "−6.10"), (0.0, "0.00"), (-0.0, "0.00"), (0.004, "0.00")],
)
def test_signed_numerals(x: float, expected: str) -> None:
    assert STYLES[0].numerals(x, 2, plus=True) == expected


@given(numbers, styles)
def test_amount_has_the_currencys_decimals(number: float, style: Style) -> None:
    precision = get_currency_precision(style.currency)
    assert style.amount(number) == style.number(number, precision)
