"""Reading amounts, rates and dates."""

from datetime import date
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.quantities import (
    Dimension,
    QuantityError,
    parse_date,
    parse_money,
    parse_month,
    parse_rate,
)

D = Dimension
LB = Fraction("0.45359237")  # NIST Handbook 44, Appendix C, exact


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("14.80/kg", Fraction("14.80")),
        (".50/kg", Fraction("0.50")),
        ("3.19/lb", Fraction("3.19") / LB),
        ("3.19 / lb", Fraction("3.19") / LB),
        ("3.19 per lb", Fraction("3.19") / LB),
        ("12.00/2.5 kg", Fraction("4.8")),
        ("40/case of 4 kg", Fraction(10)),
        ("9/case of 6 x 500 g", Fraction(3)),
        ("5/5 lb 8 oz", 5 / (Fraction("5.5") * LB)),
        ("2/½ lb", 4 / LB),
        ("0/kg", Fraction(0)),
        ("CAD 14.80/kg", Fraction("14.80")),
        ("14.80 CAD/kg", Fraction("14.80")),
        ("$14.80/kg", Fraction("14.80")),
        ("CA$14.80/kg", Fraction("14.80")),
    ],
)
def test_rate_by_mass(text: str, value: Fraction) -> None:
    assert parse_rate(text, D.MASS, currency="CAD").value_per_base == float(value)


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("24.50/h", D.TIME, 24.5),
        ("0.50/min", D.TIME, 30.0),
        ("0.1437/kWh", D.ENERGY, 0.1437),
        ("48.00/case of 12", D.COUNT, 4.0),
        ("6.00/dozen", D.COUNT, 0.5),
        ("0.35/each", D.COUNT, 0.35),
        ("3.785411784/gal", D.VOLUME, 1.0),
        ("1.10/m", D.LENGTH, 0.0011),
    ],
)
def test_rate_by_other_dimensions(text: str, dimension: Dimension, value: float) -> None:
    found = parse_rate(text, dimension)
    assert (found.value_per_base, found.per.dimension) == (value, dimension)


def test_rate_keeps_what_is_written() -> None:
    found = parse_rate(" 3.190/lb ", D.MASS)
    assert (found.amount, found.text, found.per.unit) == (Decimal("3.190"), "3.190/lb", "lb")


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        ("14.80", "per what", "units that fit: kg, g, lb, oz"),
        ("14.80/", "per what", "units that fit"),
        ("0", "per what", "write free, or a price and its unit"),
        ("14.80/L", "is a price by volume; this asks for a price by weight", "units that fit: kg"),
        ("14.80/klo", "unknown unit", "did you mean"),
        ("14.80/case", "not clear", "case of 12"),
        ("14.80/0 kg", "nothing to pay for", ""),
        ("-1/kg", "negative", "no sign"),
        ("14.80 kg", '"14.80 kg" is a weight; this asks for an amount of money', "write 14.80/kg"),
        ("‘14.80/kg’", "stands in quotation marks", "take them out"),
        ("€3/kg", "not clear as a currency", "CAD"),
        ("USD 3/kg", "not clear as a currency", "CAD"),
        ("CAD 3 CAD/kg", "not an amount", ""),
        ("1,480.00/kg", "comma", "1480"),
        ("1 480/kg", "groups", "1480"),
        ("1e3/kg", "power of ten", ""),
        ("12:30/kg", "clock", ""),
        ("010/kg", "starts with a zero", "0.10"),
        ("no/kg", "not an amount", "14.80"),
        ("-", "not an amount", "14.80"),
        ("3.600,00/kg", "comma", "write 3600.00/kg"),
        ("$1,250.00/kg", "comma", "write $1250.00/kg"),
        ("13.50/2,5 kg", "comma", "write 13.50/2.5 kg"),
        ("nan/kg", "not a number", ""),
        ("inf/kg", "not a number", ""),
        ("", "nothing", ""),
    ],
)
def test_rate_refused(text: str, message: str, hint: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_rate(text, D.MASS, currency="CAD")
    assert message in caught.value.message
    assert hint in caught.value.hint


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        ("12,50/case of 2,5 kg", "has a comma", "write 12.50/case of 2.5 kg"),
        ("27,00/50,5 lb", "has a comma", "write 27.00/50.5 lb"),
        ("$2.48 lb", "does not say per what", "write $2.48/lb"),
        ("2.48 $ lb", "does not say per what", "write 2.48 $/lb"),
        ("CAD 38.00 25 lb", "does not say per what", "write CAD 38.00/25 lb"),
        ("38.00 for 25 lb", "does not say per what", "write 38.00/25 lb"),
        ("12.50 case of 12", "does not say per what", "write 12.50/case of 12"),
        ("21.40/pail of 18 lb", '"pail" is not known as a pack', "write 21.40/case of 18 lb"),
        ("31.20/6 x 7 lb", "has no word for its pack", "write 31.20/case of 6 x 7 lb"),
        ("31.20/case of 6 x 7 lb 2 ozz", 'unknown unit "ozz"', 'did you mean "oz"?'),
        ("O.50 lb", "is not an amount of money", "an amount, for example"),
    ],
)
def test_a_hint_writes_the_whole_price_so_that_one_round_is_enough(
    text: str, message: str, hint: str
) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_rate(text, D.MASS, D.COUNT, currency="CAD")
    assert message in caught.value.message
    assert caught.value.hint.startswith(hint)
    if hint.startswith("write"):
        assert parse_rate(hint.removeprefix("write "), D.MASS, D.COUNT, currency="CAD")


def test_an_unknown_unit_is_told_with_what_else_is_wrong() -> None:
    """One round, not two; where a piece is priced the word may be the kitchen's own for one."""
    with pytest.raises(QuantityError) as wage:
        parse_rate("24,80/Std", D.TIME)
    assert wage.value.hint == "write 24.80/Std; units that fit: min, h, d"
    with pytest.raises(QuantityError) as herbs:
        parse_rate("1,20/bunch", D.MASS, D.COUNT)
    assert herbs.value.hint == "write 1.20/bunch"


def test_a_sign_needs_a_known_currency() -> None:
    with pytest.raises(QuantityError, match="write the number alone"):
        parse_rate("$3/kg", D.MASS)


@given(st.decimals(0, 10**5, places=4), st.decimals("0.001", 10**4, places=3))
def test_rate_is_the_exact_quotient(amount: Decimal, pounds: Decimal) -> None:
    found = parse_rate(f"{amount:f}/{pounds:f} lb", D.MASS)
    assert found.value_per_base == float(Fraction(amount) / (Fraction(pounds) * LB))


@given(st.text(max_size=100))
def test_any_text_is_a_rate_or_refused(text: str) -> None:
    try:
        assert parse_rate(text, currency="CAD").value_per_base >= 0
    except QuantityError as error:
        assert error.message


# Decimals by currency: ISO 4217, list one [from memory]: JPY 0, CAD and EUR 2, KWD 3.
@pytest.mark.parametrize(
    ("text", "currency", "amount"),
    [
        ("27.00", "CAD", "27.00"),
        ("27", "CAD", "27"),
        ("$27.50", "CAD", "27.50"),
        (".50", "CAD", "0.50"),
        ("27 €", "EUR", "27"),
        ("185 kr", "SEK", "185"),
        ("2700", "JPY", "2700"),
        ("¥2700", "JPY", "2700"),
        ("1.250", "KWD", "1.250"),
    ],
)
def test_money(text: str, currency: str, amount: str) -> None:
    found = parse_money(text, currency)
    assert (found.amount, found.value) == (Decimal(amount), float(amount))


@pytest.mark.parametrize(
    ("text", "currency", "message"),
    [
        ("27.005", "CAD", "3 decimals"),
        ("2700.50", "JPY", "2 decimals"),
        ("-27", "CAD", "negative"),
        ("−27", "CAD", "negative"),
        ("27,00", "CAD", "comma"),
        ("2 700", "CAD", "groups"),
        ("£27", "CAD", "currency"),
        ("27.50/kg", "CAD", "a price for a unit; an amount alone is wanted"),
        ("27.50 per kg", "CAD", "a price for a unit; an amount alone is wanted"),
        ("no", "CAD", "not an amount"),
        ("010", "CAD", "zero"),
        ("1e3", "CAD", "power of ten"),
        ("12:30", "CAD", "clock"),
        ("..5", "CAD", "not an amount"),
        ("٢٧", "CAD", "not an amount"),
    ],
)
def test_money_refused(text: str, currency: str, message: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_money(text, currency)
    assert message in caught.value.message


@given(st.dates())
def test_dates_round_trip(day: date) -> None:
    assert parse_date(day.isoformat()) == day
    assert parse_month(day.isoformat()[:7]) == (day.year, day.month)


@pytest.mark.parametrize(
    "text", ["20260903", "2026-9-3", "03/09/2026", "2026-02-30", "2026-W36-4", "0000-01-01", "no"]
)
def test_date_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        parse_date(text)


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("20/11/2026", "write it as 2026-11-20"),
        ("11/20/2026", "write it as 2026-11-20"),
        ("20.11.2026", "write it as 2026-11-20"),
        ("2026/11/20", "write it as 2026-11-20"),
        ("2026-9-3", "write it as 2026-09-03"),
        ("3/9/2026", "write it as 2026-09-03 or 2026-03-09"),
        ("99/99/2026", "a date, for example 2026-09-03"),
        ("20-11-26", "a date, for example 2026-09-03"),
        ("2026-11-31", "that month has 30 days"),
        ("2026-02-29", "that month has 28 days"),
        ("2026-13-01", "months run from 01 to 12"),
    ],
)
def test_a_date_in_another_order_is_written_again_where_it_is_clear(text: str, hint: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_date(text)
    assert caught.value.hint == hint


@pytest.mark.parametrize(
    "text", ["2026-13", "2026-00", "2026-8", "202608", "0000-01", "2026-08-01"]
)
def test_month_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        parse_month(text)
