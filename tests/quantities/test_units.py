"""Every factor against NIST's published values and against pint.

Status "secondary": seen in reproductions of the NIST tables, not in the publication itself.
"""

import csv
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.quantities import UNITS, Dimension, convert, find_unit
from builder.quantities.units import UNCLEAR, USUAL, Unit

HERE = Path(__file__).parent
PINT: pint.UnitRegistry[float] = pint.UnitRegistry()
BASE = {
    Dimension.MASS: "kg",
    Dimension.VOLUME: "L",
    Dimension.COUNT: "each",
    Dimension.LENGTH: "mm",
    Dimension.TEMPERATURE: "°C",
    Dimension.TIME: "h",
    Dimension.RATIO: "%",
    Dimension.ENERGY: "kWh",
    Dimension.POWER: "kW",
}
PINT_BASE = {
    Dimension.MASS: "kilogram",
    Dimension.VOLUME: "liter",
    Dimension.COUNT: "count",
    Dimension.LENGTH: "millimeter",
    Dimension.TIME: "hour",
    Dimension.ENERGY: "kilowatt_hour",
    Dimension.POWER: "kilowatt",
}


def rows(name: str) -> list[dict[str, str]]:
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


EXACT, ROUNDED = rows("factors.csv"), rows("rounded_factors.csv")


def known(name: str) -> Unit:
    unit = find_unit(name)
    assert unit is not None
    return unit


@pytest.mark.parametrize("row", EXACT, ids=lambda row: row["unit"])
def test_exact_factor_as_published(row: dict[str, str]) -> None:
    unit = known(row["unit"])
    assert unit.factor == Fraction(row["value"])
    assert BASE[unit.dimension] == row["base"]


@pytest.mark.parametrize("row", ROUNDED, ids=lambda row: row["unit"])
def test_factor_rounds_to_the_published_digits(row: dict[str, str]) -> None:
    unit, published = known(row["unit"]), Decimal(row["value"])
    exponent = published.as_tuple().exponent
    assert isinstance(exponent, int)
    half = Fraction(10) ** exponent / 2
    assert abs(unit.factor * Fraction(row["per_base"]) - Fraction(row["value"])) <= half


@pytest.mark.parametrize("row", EXACT + ROUNDED, ids=lambda row: row["unit"])
def test_factor_agrees_with_pint(row: dict[str, str]) -> None:
    unit = known(row["unit"])
    theirs = PINT(row["pint"]).to(PINT_BASE[unit.dimension]).magnitude
    assert float(unit.factor) == pytest.approx(theirs, rel=1e-12)


def test_every_unit_is_checked_against_a_published_value() -> None:
    checked = {row["unit"] for row in EXACT + ROUNDED}
    own_definition = {"kg", "L", "each", "mm", "h", "kW", "%", "°C", "°F"}
    assert {unit.name for unit in UNITS} == checked | own_definition


def test_base_units_have_factor_one() -> None:
    bases = [known(name) for name in BASE.values() if name != "%"]
    assert {unit.factor for unit in bases} == {Fraction(1)}
    assert known("%").factor == Fraction(1, 100)


# NIST SP 811, Appendix B.8: t/°C = (t/°F − 32) / 1.8 [from memory]; the fixed points are
# the ice point, the steam point and the temperature where both scales agree.
@pytest.mark.parametrize(
    ("fahrenheit", "celsius"), [(32, 0), (212, 100), (-40, -40), (131, 55), (0, -160 / 9)]
)
def test_fahrenheit(fahrenheit: float, celsius: float) -> None:
    assert convert(celsius, "°F") == pytest.approx(fahrenheit, abs=1e-12)
    assert PINT.Quantity(celsius, "degC").to("degF").magnitude == pytest.approx(fahrenheit)


def test_no_spelling_means_two_units() -> None:
    spellings = [s for unit in UNITS for s in (unit.name, *unit.aliases)]
    assert len(spellings) == len(set(spellings))
    folded: dict[str, str] = {}
    for unit in UNITS:
        for spelling in () if unit.case_matters else (unit.name, *unit.aliases):
            assert folded.setdefault(spelling.casefold(), unit.name) == unit.name


def test_unclear_spellings_are_no_units() -> None:
    assert [spelling for spelling in UNCLEAR if find_unit(spelling)] == []


def test_usual_units_exist_and_fit() -> None:
    for dimension, names in USUAL.items():
        for name in names.split(", "):
            unit = find_unit(name)
            assert name == "case of 12" or (unit is not None and unit.dimension is dimension)


@pytest.mark.parametrize("wrong", ["Mg", "mj", "stone", "", "kilogrammes/h"])
def test_capitals_and_strangers_are_not_guessed(wrong: str) -> None:
    assert find_unit(wrong) is None
    with pytest.raises(ValueError, match="unknown unit"):
        convert(1.0, wrong)


@given(st.sampled_from(UNITS), st.floats(-1e6, 1e6))
def test_convert_undoes_the_factor(unit: Unit, value: float) -> None:
    base = (Fraction(value) - unit.zero) * unit.factor
    assert convert(float(base), unit.name) == pytest.approx(value, rel=1e-12, abs=1e-12)
