"""Reading quantities: what is read, what is refused, and that nothing changes meaning."""

from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from builder.quantities import UNITS, Dimension, Quantity, QuantityError, convert, parse_quantity
from builder.quantities.units import Unit

D = Dimension
LB = 0.45359237  # NIST Handbook 44, Appendix C, exact
PINT: pint.UnitRegistry[float] = pint.UnitRegistry()

# Expected values are written out by hand from the exact factors.
READ = [
    ("1.9 kg", D.MASS, 1.9, 0.05),
    ("14 g", D.MASS, 0.014, 0.0005),
    ("14g", D.MASS, 0.014, 0.0005),
    (".5 kg", D.MASS, 0.5, 0.05),
    ("22 lb 0 oz", D.MASS, 22 * LB, LB / 32),
    ("6 lb 8 oz", D.MASS, 6.5 * LB, LB / 32),
    ("6 lb 08 oz", D.MASS, 6.5 * LB, LB / 32),
    ("6lb 8.25oz", D.MASS, (6 + 8.25 / 16) * LB, 0.005 * LB / 16),
    ("5 1/2 lb", D.MASS, 5.5 * LB, LB / 20),
    ("5½ lb", D.MASS, 5.5 * LB, LB / 20),
    ("½ lb", D.MASS, 0.5 * LB, LB / 20),
    ("3/4 lb", D.MASS, 0.75 * LB, LB / 200),
    ("1/3 lb", D.MASS, LB / 3, LB / 200),
    ("5 lb 8 1/2 oz", D.MASS, 5.53125 * LB, 0.05 * LB / 16),
    ("10#", D.MASS, 10 * LB, LB / 2),
    ("2 LBS.", D.MASS, 2 * LB, LB / 2),
    ("1 cwt", D.MASS, 100 * LB, 50 * LB),
    ("2 fl oz", D.VOLUME, 0.059147059125, 0.01478676478125),
    ("2 imp fl oz", D.VOLUME, 0.056826125, 0.01420653125),
    ("1 gal", D.VOLUME, 3.785411784, 1.892705892),
    ("12 m3", D.VOLUME, 12000, 500),
    ("250 ml", D.VOLUME, 0.25, 0.0005),
    ("60 mm", D.LENGTH, 60, 0.5),
    ("2.5 in", D.LENGTH, 63.5, 1.27),
    ('1 ft 2"', D.LENGTH, 355.6, 12.7),
    ("131 °F", D.TEMPERATURE, 55, 5 / 18),
    ("131 F", D.TEMPERATURE, 55, 5 / 18),
    ("57 °C", D.TEMPERATURE, 57, 0.5),
    ("-18 °C", D.TEMPERATURE, -18, 0.5),
    ("−18 °C", D.TEMPERATURE, -18, 0.5),
    ("0 °F", D.TEMPERATURE, -160 / 9, 5 / 18),
    ("36 h", D.TIME, 36, 0.5),
    ("35 min", D.TIME, 35 / 60, 0.5 / 60),
    ("1 h 30 min", D.TIME, 1.5, 0.5 / 60),
    ("1 h 05 min", D.TIME, 65 / 60, 0.5 / 60),
    ("2 d 12 h", D.TIME, 60, 0.5),
    ("90 s", D.TIME, 0.025, 0.5 / 3600),
    ("30 %", D.RATIO, 0.3, 0.005),
    ("12.5%", D.RATIO, 0.125, 0.0005),
    ("6 each", D.COUNT, 6, 0.5),
    ("2 dozen", D.COUNT, 24, 6),
    ("case of 12", D.COUNT, 12, 0.5),
    ("3 cases of 12", D.COUNT, 36, 1.5),
    ("case of 4 kg", D.MASS, 4, 0.5),
    ("2 cases of 6 x 500 g", D.MASS, 6, 0.006),
    ("0.14 kWh", D.ENERGY, 0.14, 0.005),
    ("3.6 MJ", D.ENERGY, 1, 0.05 / 3.6),
    ("210 W", D.POWER, 0.21, 0.0005),
]


@pytest.mark.parametrize(("text", "dimension", "value", "resolution"), READ)
def test_read(text: str, dimension: Dimension, value: float, resolution: float) -> None:
    found = parse_quantity(f" {text} ", dimension)
    assert (found.dimension, found.text) == (dimension, text)
    assert found.value == pytest.approx(value, rel=1e-15, abs=1e-15)
    assert found.resolution == pytest.approx(resolution, rel=1e-15)


def test_unit_is_the_largest_as_written() -> None:
    assert parse_quantity("6 lbs 8 oz").unit == "lbs"
    assert parse_quantity("case of 12").unit == "each"


REFUSED = [
    ("12", "no unit", "units that fit: kg, g, lb, oz"),
    ("no", "no number", "units that fit"),
    ("kg", "no number", "units that fit"),
    ("", "nothing", ""),
    ("010", "starts with a zero", "10 or 0.10"),
    ("010 kg", "starts with a zero", "10 kg or 0.10 kg"),
    ("00.5 kg", "not a number", "units that fit"),
    ("12:30", "time on a clock", "units that fit: kg"),
    ("1e3", "power of ten", "1000"),
    ("1e3 kg", "power of ten", "1000"),
    ("1E-3 kg", "power of ten", "write 0.001"),
    ("0x10 kg", "not clear", ""),
    ("1,9 kg", "comma", "write 1.9 kg"),
    ("1.000,5 h", "comma", "write 1000.5 h"),
    ("1,250,000 g", "comma", "write 1250000 g"),
    ("5,5 lb 8,5 oz", "comma", "write 5.5 lb 8.5 oz"),
    ("57,5 °C", "comma", "write 57.5 °C"),
    ("1 250.5 g", "groups", "write 1250.5 g"),
    ("1.250.000 g", "two decimal points", "write 1250000 g"),
    ("1,900 kg", "comma", "1900 kg for thousands or 1.900 kg for decimals"),
    ("1 900 kg", "groups", "write 1900"),
    ("1\u202f900 kg", "groups", "write 1900"),
    ("1'900 kg", "groups", "write 1900"),
    ("1_900 kg", "groups", "write 1900"),
    ("“1.2 kg”", "stands in quotation marks", "take them out"),
    ("1.5 kg ca.", 'unknown unit "kg ca."', "units that fit"),
    (".5", '".5" has no unit', "units that fit"),
    ("5 %", '"5 %" is a share; this asks for a weight', "kg"),
    ("1.2.3 kg", "two decimal points", ""),
    ("5. kg", "decimal point", "write 5"),
    ("inf kg", "not a number", ""),
    ("nan", "not a number", ""),
    (".inf", "no number", ""),
    ("-5 kg", "negative", "temperature"),
    ("5 lb -3 oz", "unknown unit", ""),
    ("+5 kg", "plus sign", ""),
    ("5-6 lb", "two numbers", "one number"),
    ("5 to 6 lb", "two numbers", "one number"),
    ("6/5 lb", "proper fraction", "case of 6 x 5 lb"),
    ("1/0 lb", "proper fraction", ""),
    ("5 lb 20 oz", "more oz than 1 lb", ""),
    ("5.5 lb 8 oz", "only the last", ""),
    ("8 oz 5 lb", "out of order", "largest unit first"),
    ("5 lb 3 lb", "out of order", ""),
    ("5 lb 3 °C", "do not add up", ""),
    ("1 °F 1 °C", "do not add up", ""),
    ("5 lb and 8 oz", "not a number with its unit", "write 5 lb 8 oz"),
    ("8 oz and 5 lb", "unknown unit", ""),
    ("5 lb and 20 min", "unknown unit", ""),
    ("3 t", "not clear", "tonne"),
    ("3 ton", "not clear", "short ton"),
    ("3 gr", "not clear", "g for grams"),
    ("3 cases", "not clear", "case of 12"),
    ("3 punds", "unknown unit", 'did you mean "pounds"'),
    ("3 kgg", "unknown unit", "did you mean"),
    ("12 L", "is a volume; this asks for a weight", "units that fit: kg, g, lb, oz"),
    ("57 °C", "is a temperature", "units that fit: kg"),
    ("case of 0", "holds nothing", ""),
    ("case of 012", "starts with a zero", ""),
    ("case of 0 kg", "holds nothing", ""),
    ("٣ kg", "no number", ""),
    ("1 kg <b>", "unknown unit", ""),
    ("9" * 90 + " kg", "too long", ""),
]


@pytest.mark.parametrize(("text", "message", "hint"), REFUSED)
def test_refused(text: str, message: str, hint: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_quantity(text, D.MASS)
    assert message in caught.value.message
    assert hint in caught.value.hint
    assert len(str(caught.value)) < 250


@pytest.mark.parametrize("text", ["45 m", "45'", "45′"])
def test_minutes_written_as_metres_or_feet_are_seen(text: str) -> None:
    with pytest.raises(QuantityError, match="write min for minutes"):
        parse_quantity(text, D.TIME)


@pytest.mark.parametrize("scale", "CF")
@pytest.mark.parametrize("degree", ["", "°", "º", "˚", "deg ", "degrees ", "° "])
def test_degrees_are_read_however_a_keyboard_has_them(scale: str, degree: str) -> None:
    plain = parse_quantity(f"131 °{scale}", D.TEMPERATURE)
    assert parse_quantity(f"131 {degree}{scale}", D.TEMPERATURE).value == plain.value


def test_a_refusal_names_only_units_that_fit() -> None:
    with pytest.raises(QuantityError) as caught:
        parse_quantity("12", D.TIME, D.TEMPERATURE)
    assert caught.value.hint == "units that fit: min, h, d, °C, °F"


@given(st.text(max_size=100))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        found = parse_quantity(text)
    except QuantityError as error:
        assert error.message
    else:
        assert isinstance(found, Quantity)


@given(st.from_regex(r"[0-9.,:eE/ x½'_#-]{1,12} ?(kg|lb|oz|h|°F)?", fullmatch=True))
def test_what_is_read_has_the_number_that_is_written(text: str) -> None:
    try:
        found = parse_quantity(text)
    except QuantityError:
        return
    # A foot mark may end a length; anywhere else an apostrophe groups digits.
    assert not set(text.strip().removesuffix("'")) & set(",:eE'_")
    assert found.value >= 0 or found.dimension is D.TEMPERATURE


decimals = st.decimals(0, 10**6, places=3).map(lambda d: f"{d.normalize():f}")


@given(decimals, st.sampled_from(UNITS))
def test_exact_to_the_nearest_float(number: str, unit: Unit) -> None:
    found = parse_quantity(f"{number} {unit.name}")
    assert found.value == float((Fraction(number) - unit.zero) * unit.factor)
    assert convert(found.value, unit.name) == pytest.approx(float(number), rel=1e-12, abs=1e-12)


@given(st.integers(0, 500), st.integers(0, 159))
def test_compound_agrees_with_pint(pounds: int, tenths: int) -> None:
    found = parse_quantity(f"{pounds} lb {tenths / 10} oz", D.MASS)
    theirs = PINT.Quantity(pounds, "lb") + PINT.Quantity(tenths / 10, "oz")
    assert found.value == pytest.approx(theirs.to("kg").magnitude, rel=1e-12, abs=1e-15)


@given(st.integers(0, 99), st.integers(1, 15), st.sampled_from([2, 4, 5, 8, 16]))
def test_fractions_are_exact(whole: int, top: int, bottom: int) -> None:
    assume(top < bottom)
    found = parse_quantity(f"{whole} {top}/{bottom} kg", D.MASS)
    assert found.value == float(whole + Fraction(top, bottom))
    as_decimal = parse_quantity(f"{whole + Decimal(top) / Decimal(bottom)} kg", D.MASS)
    assert found.resolution == as_decimal.resolution


@pytest.mark.parametrize(
    ("written", "hint"),
    [("500", "write 500 °F if an oven"), ("350", "units that fit"), ("5000", "units that fit")],
)
def test_a_temperature_of_one_scale_only_is_asked_about(written: str, hint: str) -> None:
    """Nothing cooks at 500 °C, and not every way of cooking at 500 °F."""
    with pytest.raises(QuantityError) as caught:
        parse_quantity(written, Dimension.TEMPERATURE)
    assert caught.value.hint.startswith(hint)
