"""The units that a kitchen writes, each with its exact factor to a base unit.

Base units: kg, L, each, mm, °C, h, 1 (ratio), kWh, kW. Factors are fractions,
so no rounding happens before the last step.

Sources: NIST Handbook 44, Appendix C "General Tables of Units of Measurement";
NIST Special Publication 811, Appendix B "Conversion Factors"; the SI Brochure.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from builder.language import Deferred, tr
from builder.problems import did_you_mean


class Dimension(StrEnum):
    """What a quantity measures; money is an amount of currency, not a dimension."""

    MASS = "mass"
    VOLUME = "volume"
    COUNT = "count"
    LENGTH = "length"
    TEMPERATURE = "temperature"
    TIME = "time"
    RATIO = "ratio"
    ENERGY = "energy"
    POWER = "power"


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: base value = (written value − zero) × factor."""

    name: str
    dimension: Dimension
    factor: Fraction
    source: str
    aliases: tuple[str, ...] = ()
    zero: Fraction = Fraction(0)
    case_matters: bool = False


SI = "SI Brochure, 9th ed."
HB44 = "NIST Handbook 44, Appendix C"
SP811 = "NIST SP 811, Appendix B"
TRADE = Deferred("definition; no published source needed")

POUND = Fraction("0.45359237")
INCH = Fraction("25.4")
CUBIC_INCH = (INCH / 100) ** 3
GALLON = 231 * CUBIC_INCH
IMPERIAL_GALLON = Fraction("4.54609")
BUSHEL = Fraction("2150.42") * CUBIC_INCH
JOULE = Fraction(1, 3_600_000)
BTU = Fraction("1055.05585262") * JOULE


def _units(
    dimension: Dimension, source: str, rows: Iterable[tuple[str, Fraction | int, str]]
) -> Iterable[Unit]:
    for name, factor, aliases in rows:
        spellings = tuple(filter(None, (alias.strip() for alias in aliases.split(","))))
        yield Unit(name, dimension, Fraction(factor), source, spellings)


def _degrees(letter: str) -> tuple[str, ...]:
    """The ways of writing a degree that keyboards and habits bring, for one scale."""
    signs = ("º", "˚", "deg", "deg.", "degree", "degrees")
    ways = (f"{sign}{space}{letter}" for sign in signs for space in ("", " "))
    return (letter, f"° {letter}", *ways)


UNITS: tuple[Unit, ...] = (
    *_units(
        Dimension.MASS,
        SI,
        [
            ("kg", 1, "kgs, kilo, kilos, kilogram, kilograms"),
            ("g", Fraction(1, 1000), "gram, grams"),
            ("tonne", 1000, "tonnes, metric ton, metric tons"),
        ],
    ),
    Unit(
        "mg", Dimension.MASS, Fraction(1, 10**6), SI, ("milligram", "milligrams"), Fraction(0), True
    ),
    *_units(
        Dimension.MASS,
        HB44,
        [
            ("lb", POUND, "lbs, #, pound, pounds"),
            ("oz", POUND / 16, "ounce, ounces"),
            ("cwt", POUND * 100, "US cwt, short cwt, hundredweight"),
            ("imp cwt", POUND * 112, "long cwt, UK cwt"),
            ("short ton", POUND * 2000, "short tons, US ton, US tons"),
            ("long ton", POUND * 2240, "long tons, imp ton, imp tons"),
        ],
    ),
    *_units(
        Dimension.VOLUME,
        SI,
        [
            ("L", 1, "liter, liters, litre, litres"),
            ("mL", Fraction(1, 1000), "cm³, cc, milliliter, milliliters, millilitre, millilitres"),
            ("cL", Fraction(1, 100), "centiliter, centiliters, centilitre, centilitres"),
            ("dL", Fraction(1, 10), "deciliter, deciliters, decilitre, decilitres"),
            ("hL", 100, "hectoliter, hectoliters, hectolitre, hectolitres"),
            ("m³", 1000, "cubic metre, cubic metres, cubic meter, cubic meters"),
        ],
    ),
    *_units(
        Dimension.VOLUME,
        HB44,
        [
            ("gal", GALLON, "US gal, gallon, gallons, US gallon, US gallons"),
            ("qt", GALLON / 4, "US qt, quart, quarts, US quart, US quarts"),
            ("pt", GALLON / 8, "US pt, pint, pints, US pint, US pints"),
            ("cup", GALLON / 16, "cups, US cup, US cups"),
            ("fl oz", GALLON / 128, "US fl oz, floz, fl. oz, fluid ounce, fluid ounces"),
            ("tbsp", GALLON / 256, "tbsps, tablespoon, tablespoons"),
            ("tsp", GALLON / 768, "tsps, teaspoon, teaspoons"),
            ("bu", BUSHEL, "bushel, bushels"),
            ("peck", BUSHEL / 4, "pecks"),
            ("dry qt", BUSHEL / 32, "dry quart, dry quarts"),
            ("dry pt", BUSHEL / 64, "dry pint, dry pints"),
            ("ft³", CUBIC_INCH * 1728, "cu ft, cubic foot, cubic feet"),
            ("in³", CUBIC_INCH, "cu in, cubic inch, cubic inches"),
        ],
    ),
    *_units(
        Dimension.VOLUME,
        SP811,
        [
            ("imp gal", IMPERIAL_GALLON, "UK gal, imperial gallon, imperial gallons"),
            ("imp qt", IMPERIAL_GALLON / 4, "UK qt, imperial quart, imperial quarts"),
            ("imp pt", IMPERIAL_GALLON / 8, "UK pt, imperial pint, imperial pints"),
            ("imp fl oz", IMPERIAL_GALLON / 160, "UK fl oz, imperial fluid ounce"),
        ],
    ),
    *_units(
        Dimension.COUNT,
        TRADE,
        [
            ("each", 1, "ea, pc, pcs, piece, pieces, portion, portions"),
            ("dozen", 12, "dozens, doz, dz"),
        ],
    ),
    *_units(
        Dimension.LENGTH,
        SI,
        [
            ("mm", 1, "millimetre, millimetres, millimeter, millimeters"),
            ("cm", 10, "centimetre, centimetres, centimeter, centimeters"),
            ("m", 1000, "metre, metres, meter, meters"),
        ],
    ),
    *_units(
        Dimension.LENGTH,
        HB44,
        [
            ("in", INCH, 'inch, inches, ", ″'),
            ("ft", INCH * 12, "foot, feet, ', ′"),
        ],
    ),
    Unit("°C", Dimension.TEMPERATURE, Fraction(1), SI, (*_degrees("C"), "℃", "celsius")),
    Unit(
        "°F",
        Dimension.TEMPERATURE,
        Fraction(5, 9),
        SP811,
        (*_degrees("F"), "℉", "fahrenheit"),
        Fraction(32),
    ),
    *_units(
        Dimension.TIME,
        SI,
        [
            ("h", 1, "hr, hrs, hour, hours"),
            ("min", Fraction(1, 60), "mins, minute, minutes"),
            ("s", Fraction(1, 3600), "sec, secs, second, seconds"),
            ("d", 24, "day, days"),
        ],
    ),
    *_units(Dimension.TIME, TRADE, [("week", 168, "wk, wks, weeks")]),
    *_units(Dimension.RATIO, SI, [("%", Fraction(1, 100), "pct, percent, per cent")]),
    *_units(
        Dimension.ENERGY,
        SI,
        [("kWh", 1, ""), ("Wh", Fraction(1, 1000), ""), ("kJ", 1000 * JOULE, "")],
    ),
    Unit("MJ", Dimension.ENERGY, 10**6 * JOULE, SI, (), Fraction(0), True),
    *_units(
        Dimension.ENERGY,
        SP811,
        [("Btu", BTU, "Btus"), ("therm", Fraction(105_480_400) * JOULE, "therms, US therm")],
    ),
    *_units(
        Dimension.POWER,
        SI,
        [("kW", 1, "kilowatt, kilowatts"), ("W", Fraction(1, 1000), "watt, watts")],
    ),
    *_units(Dimension.POWER, SP811, [("Btu/h", BTU, "Btu/hr, Btuh")]),
)

# What a message offers: the units in daily use, not every unit that is read.
USUAL: dict[Dimension, str] = {
    Dimension.MASS: "kg, g, lb, oz",
    Dimension.VOLUME: "L, mL, fl oz, cup, pt, qt, gal",
    Dimension.COUNT: "each, dozen, case of 12",
    Dimension.LENGTH: "mm, cm, in",
    Dimension.TEMPERATURE: "°C, °F",
    Dimension.TIME: "min, h, d",
    Dimension.RATIO: "%",
    Dimension.ENERGY: "kWh, MJ",
    Dimension.POWER: "kW, W",
}

# Beyond this many dimensions a message names one unit of each.
FEW = 3
# A degree with its sign behind its letter, or another sign in front of it.
# How like a spelling is with one letter too few, or two of five exchanged.
_ONE_LETTER = 0.78
_DEGREE = re.compile(r"([CF])\W+|\W([CF])", re.IGNORECASE)

# Spellings that mean two things, or another thing than they look like.
UNCLEAR: dict[str, str] = {
    "t": Deferred("write tsp, tbsp or tonne"),
    "T": Deferred("write tbsp or tonne"),
    "c": Deferred("write cup or °C"),
    "ton": Deferred("write tonne, short ton or long ton"),
    "tons": Deferred("write tonne, short ton or long ton"),
    "gr": Deferred("write g for grams"),
    "M": Deferred("write min for minutes or m for metres"),
    "month": Deferred("months differ in length; write days or weeks"),
    "months": Deferred("months differ in length; write days or weeks"),
    "points": Deferred("write % for points of 100"),
    "x": Deferred("write packs as in case of 12 x 500 g"),
    "case": Deferred("write what is in it, such as case of 12 or case of 4 kg"),
    "cases": Deferred("write what is in it, such as case of 12 or case of 4 kg"),
}

_EXACT: dict[str, Unit] = {
    spelling: unit for unit in UNITS for spelling in (unit.name, *unit.aliases)
}
_FOLDED: dict[str, Unit] = {
    spelling.casefold(): unit for spelling, unit in _EXACT.items() if not unit.case_matters
}


def _look_up(written: str) -> Unit | None:
    if written in UNCLEAR:
        return None
    return _EXACT.get(written) or _FOLDED.get(written.casefold())


def find_unit(written: str) -> Unit | None:
    """Find the unit that a spelling means, or None when it means none or several.

    Capitals are forgiven where no two units differ by them alone.

    >>> find_unit("LBS").name, find_unit("fl. oz.").name, find_unit("t")
    ('lb', 'fl oz', None)
    """
    return _look_up(written) or _look_up(" ".join(written.removesuffix(".").split()))


def units_that_fit(dimensions: Collection[Dimension]) -> str:
    """List the usual units of the dimensions, for a hint.

    >>> units_that_fit([Dimension.TEMPERATURE])
    'units that fit: °C, °F'
    """
    usual = [tr(USUAL[dimension]) for dimension in dimensions]
    if len(usual) > FEW:
        first = ", ".join(units.partition(",")[0] for units in usual)
        return tr("units such as {units}", units=first)
    return tr("units that fit: {units}", units=", ".join(usual))


def nearest_unit(written: str, dimensions: Iterable[Dimension]) -> str:
    """Suggest the spelling that was probably meant, or return an empty string.

    Units are short: only a slip of a letter is like one, another word of pieces is not.

    >>> nearest_unit("galon", [Dimension.VOLUME]), nearest_unit("C°", [Dimension.TEMPERATURE])
    ('did you mean "gallon"?', 'did you mean "°C"?')
    >>> nearest_unit("tails", [Dimension.MASS])
    ''
    """
    wanted = frozenset(dimensions)
    degree = _DEGREE.fullmatch(written) if Dimension.TEMPERATURE in wanted else None
    if degree is not None:
        return tr('did you mean "°{degree}"?', degree=(degree[1] or degree[2]).upper())
    spellings = [s for s, unit in _EXACT.items() if unit.dimension in wanted]
    return did_you_mean(written, spellings, _ONE_LETTER)


def convert(value_base: float, unit: str) -> float:
    """Convert a value in the base unit of a dimension to another unit of it.

    value = value_base / factor + zero

    `value_base` is in kg, L, each, mm, °C, h, 1, kWh or kW. Raises ValueError for an
    unknown unit.

    >>> convert(0.45359237, "oz"), convert(55.0, "°F")
    (16.0, 131.0)
    """
    found = find_unit(unit)
    if found is None:
        raise ValueError(f"unknown unit {unit!r}")
    return value_base * found.factor.denominator / found.factor.numerator + float(found.zero)
