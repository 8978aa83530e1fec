"""How one kitchen's pages write every kind of value."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime, time
from functools import lru_cache
from typing import Literal, TypeAlias

from babel import Locale
from babel.core import UnknownLocaleError
from babel.dates import (
    format_date,
    format_interval,
    format_skeleton,
    format_time,
    get_day_names,
)
from babel.localedata import locale_identifiers
from babel.numbers import get_currency_precision, is_currency

from builder.display.numerals import MINUS, MISSING, NumberFormat, is_missing
from builder.display.scales import STEPS, UNIT, UnitSystem, step_for
from builder.language import Deferred, current_language, tr
from builder.quantities import Dimension, convert, find_unit
from builder.rounding import half_up, nearest_whole, without_noise

NBSP, NARROW_NBSP = "\N{NO-BREAK SPACE}", "\N{NARROW NO-BREAK SPACE}"
# Pounds and ounces are read up to this weight; above it only pounds.
POUNDS_ONLY_FROM = 100
# Within `Style` the name `date` is that of a method.
_Day: TypeAlias = date


def _of_words(locale: str) -> str:
    """The locale that names of months are taken from: the kitchen's, in the language of the pages.

    >>> [_of_words(locale) for locale in ("en_CA", "de_DE", "ja_JP")]
    ['en_CA', 'en_DE', 'en']
    """
    language = current_language()
    own, _, country = locale.replace("-", "_").partition("_")
    named = f"{language}_{country}"
    return locale if language == own else named if named in locale_identifiers() else language


# In French the first of a month alone is an ordinal number, "1er octobre" [common practice; the
# rule is of the Imprimerie nationale's lexicon, from memory]; of dates in digits no day is.
_FIRST = re.compile(r"\b1(?=\s[^\W\d_])|^1$")


@lru_cache(maxsize=4096)
def _date(day: date, locale: str) -> str:
    return _numbered(format_date(day, "medium", locale=locale), day, locale)


def _numbered(text: str, day: date, locale: str) -> str:
    return _FIRST.sub(r"\g<0>er", text) if locale.startswith("fr") and day.day == 1 else text


def _days(first: date, last: date, locale: str) -> str:
    if not locale.startswith("fr"):
        return format_interval(first, last, "yMMMd", locale=locale)
    return tr("{first} to {last}", first=_first_day(first, last, locale), last=_date(last, locale))


def _first_day(first: date, last: date, locale: str) -> str:
    """The first of several days, without what it shares with the last."""
    if first.year != last.year:
        return _date(first, locale)
    shared = first.month == last.month
    text = format_skeleton("d" if shared else "MMMd", first, locale=locale)
    return _numbered(text, first, locale)


@lru_cache(maxsize=1024)
def _month(year: int, month: int, locale: str) -> str:
    return format_skeleton("yMMM", date(year, month, 1), locale=locale)


def day_name(moment: date, width: Literal["wide", "abbreviated"] = "wide") -> str:
    """The day of the week in the language of the pages.

    >>> day_name(date(2026, 10, 2)), day_name(date(2026, 10, 2), "abbreviated")
    ('Friday', 'Fri')
    """
    return str(get_day_names(width, locale=current_language())[moment.weekday()])


# Languages that leave the minutes after hours without their unit, in two digits: 5 h 05 in
# French [common practice, from memory].
_MINUTES_ALONE = ("fr",)


def minutes_alone() -> bool:
    """Whether minutes that follow hours are written without their unit, as in 5 h 40."""
    return current_language() in _MINUTES_ALONE


def unit_name(unit: str) -> str:
    """What a unit is called on pages: the one that is a word follows their language.

    >>> unit_name("each"), unit_name("kg")
    ('each', 'kg')
    """
    return tr(_EACH) if unit == _EACH else unit


_EACH = Deferred("each")


def per(amount: str, unit: str) -> str:
    """An amount that is for one of a unit, as in $4.20/kg, or for each piece.

    >>> per("$4.20", "kg"), per("$0.22", "each")
    ('$4.20/kg', '$0.22 each')
    """
    return tr("{amount} each", amount=amount) if unit == _EACH else f"{amount}/{unit_name(unit)}"


def pieces(style: Style, count: float) -> str:
    """So many pieces of an item, with up to two decimals.

    >>> style = Style.of("en_US", "USD")
    >>> pieces(style, 1), pieces(style, 30), pieces(style, 0.25)
    ('1 piece', '30 pieces', '0.25 pieces')
    """
    counted = style.number(count, 2, trim=True)
    if counted == style.count(1):
        return tr("{counted} piece", counted=counted)
    return tr("{counted} pieces", counted=counted)


@lru_cache(maxsize=256)
def per_unit(unit: str) -> float:
    """What a price per base unit is multiplied by to be one per a named unit."""
    found = find_unit(unit)
    if found is None:
        raise ValueError(f"unknown unit {unit!r}")
    return float(found.factor)


def _locale(name: str) -> Locale:
    try:
        return Locale.parse(name)
    except (UnknownLocaleError, ValueError) as error:
        raise ValueError(f'unknown locale "{name}"; write one such as en_CA') from error


@lru_cache(maxsize=16)
def _number_marks(locale: str) -> tuple[str, str]:
    # Asked for every sentence that is brought to a style; Babel looks for its data each time.
    found = _locale(locale).number_symbols["latn"]
    return found["decimal"], found["group"]


@dataclass(frozen=True, slots=True)
class Style:
    """Writes values for people: a locale's numerals, a currency and a system of units.

    A missing value (None, NaN, infinite) is a dash; a unit follows its number after a
    no-break space; the minus is U+2212, where Babel has the keyboard's hyphen.

    >>> style = Style.of("en_CA", "CAD")
    >>> style.money(-1234.5), style.money_per_kg(14.8)
    ('−$1,234.50', '$14.80/kg')
    >>> style.weight(0.18).replace(NBSP, " "), style.percent(0.3056), style.money(None)
    ('180 g', '30.6%', '–')
    """

    locale: str
    currency: str
    units: UnitSystem
    places: int
    numerals: NumberFormat
    percents: NumberFormat
    amounts: NumberFormat

    @classmethod
    def of(cls, locale: str, currency: str, units: str = UnitSystem.METRIC) -> Style:
        """Read the locale's patterns once; raises ValueError for an unknown name.

        `currency` is an ISO 4217 code; `units` is "metric" or "us customary".
        """
        if not is_currency(currency):
            raise ValueError(f'unknown currency "{currency}"; write an ISO 4217 code such as CAD')
        found = _locale(locale)
        return cls(
            locale=locale,
            currency=currency,
            units=UnitSystem(units),
            places=get_currency_precision(currency),
            numerals=NumberFormat.from_pattern(found.decimal_formats[None], found),
            percents=NumberFormat.from_pattern(found.percent_formats[None], found),
            amounts=NumberFormat.from_pattern(found.currency_formats["standard"], found, currency),
        )

    @property
    def number_marks(self) -> tuple[str, str]:
        """Return the decimal mark and the mark between groups of digits."""
        return _number_marks(self.locale)

    def unit(self, dimension: Dimension) -> str:
        """Return the unit of a column of masses, volumes, lengths or temperatures."""
        return UNIT[self.units][dimension]

    def number(self, x: float | None, places: int = 2, *, trim: bool = False) -> str:
        """Write a plain number with a fixed count of decimals, or no zeros at their end."""
        return self.numerals(x, places, trim=trim)

    def count(self, x: float | None) -> str:
        """Write a number of things, to the nearest whole one."""
        return self.numerals(x, 0)

    def factor(self, x: float | None) -> str:
        """Write a cost factor or another multiplier with three decimals."""
        return self.numerals(x, 3)

    def percent(self, x: float | None, places: int = 1) -> str:
        """Write a ratio [1] as a percentage."""
        return self.percents(x, places)

    def signed_percent(self, x: float | None, places: int = 1) -> str:
        """Write a change of a ratio [1] with its sign."""
        return self.percents(x, places, plus=True)

    def money(self, x: float | None) -> str:
        """Write an amount with the currency's sign and decimals."""
        return self.amounts(x, self.places)

    def amount(self, x: float | None) -> str:
        """Write an amount without the currency's sign, for a column that names it."""
        return self.numerals(x, self.places)

    def signed_money(self, x: float | None) -> str:
        """Write a rise or a fall with its plus or minus, without the currency's sign.

        >>> Style.of("en_CA", "CAD").signed_money(6.1)
        '+6.10'
        """
        return self.numerals(x, self.places, plus=True)

    def money_per(self, x: float | None, unit: str) -> str:
        """Write a price [money per base unit] per a unit; a few coins with two more decimals.

        >>> style = Style.of("en_US", "USD")
        >>> style.money_per(0.1437, "kWh"), style.money_per(0.2167, "each")
        ('$0.1437/kWh', '$0.22 each')
        >>> style.money_per(0.8762, "kg"), style.money_per(0.0042, "each")
        ('$0.88/kg', '$0.0042 each')
        """
        if x is None or is_missing(x):
            return MISSING
        price = without_noise(x * per_unit(unit))
        return per(self.amounts(price, self._rate_places(price, unit)), unit)

    def _rate_places(self, price: float, unit: str) -> int:
        """Return the currency's decimals, or those that a price of a few coins has more.

        Of energy a tariff below one has these.
        """
        if abs(price) >= (1 if unit == "kWh" else 10.0 ** (1 - self.places)):
            return self.places
        decimals = str(half_up(price, self.places + 2)).partition(".")[2].rstrip("0")
        return max(self.places, len(decimals))

    def money_per_kg(self, x: float | None) -> str:
        """Write a price [money/kg] per kilogram or per pound."""
        return self.money_per(x, self.unit(Dimension.MASS))

    def money_per_hour(self, x: float | None) -> str:
        """Write a wage or another hourly rate [money/h]."""
        return self.money_per(x, "h")

    def money_per_kwh(self, x: float | None) -> str:
        """Write an energy tariff [money/kWh]."""
        return self.money_per(x, "kWh")

    def in_unit(self, x: float | None, unit: str, places: int = 2, *, trim: bool = False) -> str:
        """Write a value [base unit] in a named unit with a fixed count of decimals."""
        if x is None or is_missing(x):
            return MISSING
        return f"{self.numerals(without_noise(convert(x, unit)), places, trim=trim)}{NBSP}{unit}"

    def _sized(self, x: float | None, dimension: Dimension) -> str:
        if x is None or is_missing(x):
            return MISSING
        step = step_for(x, STEPS[self.units][dimension])
        return self.in_unit(x, step.unit, step.places, trim=step.trim)

    def weight(self, kg: float | None) -> str:
        """Write a mass [kg] in g or kg, or in oz, pounds and ounces, or pounds."""
        if kg is not None and not is_missing(kg) and self.units is UnitSystem.US_CUSTOMARY:
            tenths = nearest_whole(without_noise(abs(convert(kg, "oz"))) * 10)
            if 160 <= tenths < POUNDS_ONLY_FROM * 160:
                return self._pounds_and_ounces(tenths, MINUS if kg < 0 else "")
        return self._sized(kg, Dimension.MASS)

    def _pounds_and_ounces(self, tenths: int, sign: str) -> str:
        pounds, rest = divmod(tenths, 160)
        whole = f"{sign}{pounds}{NBSP}lb"
        return f"{whole}{NBSP}{self.numerals(rest / 10, 1, trim=True)}{NBSP}oz" if rest else whole

    def volume(self, litres: float | None) -> str:
        """Write a volume [L] in mL or L, or in US fl oz, qt or gal."""
        return self._sized(litres, Dimension.VOLUME)

    def volume_as_bought(self, litres: float) -> str:
        """Write a volume [L] that is a name as well, as of a bath: without zeros at its end.

        >>> customary = Style.of("en_US", "USD", "us customary")
        >>> customary.volume_as_bought(37.8541).replace(NBSP, " ")
        '10 gal'
        >>> Style.of("en_CA", "CAD").volume_as_bought(40.0).replace(NBSP, " ")
        '40 L'
        """
        step = step_for(litres, STEPS[self.units][Dimension.VOLUME])
        return self.in_unit(litres, step.unit, step.places, trim=True)

    def length(self, mm: float | None) -> str:
        """Write a length [mm] in mm or m, or in inches."""
        return self._sized(mm, Dimension.LENGTH)

    def temperature(self, celsius: float | None) -> str:
        """Write a temperature [°C] in °C or °F, to a tenth."""
        return self._sized(celsius, Dimension.TEMPERATURE)

    def duration(self, hours: float | None) -> str:
        """Write a time [h] as seconds below two minutes, minutes, or hours and minutes.

        >>> Style.of("en_CA", "CAD").duration(1.5).replace(NBSP, " ")
        '1 h 30 min'
        """
        if hours is None or is_missing(hours):
            return MISSING
        sign = MINUS if hours < 0 else ""
        seconds, minutes = (nearest_whole(without_noise(abs(hours) * n)) for n in (3600, 60))
        if 0 < seconds < 120:
            return f"{sign}{seconds}{NBSP}s"
        whole, rest = divmod(minutes, 60)
        parts = [f"{self.count(whole)}{NBSP}h"] if whole else []
        if whole and rest and minutes_alone():
            parts.append(f"{rest:02}")
        elif rest or not whole:
            parts.append(f"{rest}{NBSP}min")
        return (sign if minutes else "") + NBSP.join(parts)

    def energy(self, kwh: float | None) -> str:
        """Write an energy [kWh]."""
        return self.in_unit(kwh, "kWh")

    def power(self, kw: float | None) -> str:
        """Write a power [kW] in W below one kilowatt."""
        small = kw is not None and abs(kw) < 0.9995
        return self.in_unit(kw, "W", 0) if small else self.in_unit(kw, "kW")

    def date(self, day: date | None) -> str:
        """Write a date in the locale's medium form."""
        return MISSING if day is None else _date(day, _of_words(self.locale))

    def days(self, first: _Day, last: _Day) -> str:
        """Write the days from the first to the last, what they share once.

        >>> Style.of("en_CA", "CAD").days(date(2026, 9, 28), date(2026, 10, 4))
        'Sep 28–Oct 4, 2026'
        """
        return self.date(last) if first == last else _days(first, last, _of_words(self.locale))

    def clock(self, moment: time) -> str:
        """Write a time of the day as the locale's clock, of 12 or of 24 hours, has it.

        >>> Style.of("en_GB", "GBP").clock(time(17, 5))
        '17:05'
        >>> Style.of("en_US", "USD").clock(time(17, 5)).replace(NBSP, " ")
        '5:05 PM'
        """
        return format_time(moment, "short", locale=self.locale).replace(NARROW_NBSP, NBSP)

    @property
    def day_periods(self) -> tuple[str, str] | None:
        """Return the locale's words for before and after noon; None with a clock of 24 hours."""
        found = _locale(self.locale)
        if "a" not in found.time_formats["short"].pattern:
            return None
        words = found.day_periods["format"]["abbreviated"]
        return words["am"], words["pm"]

    def day_and_time(self, moment: datetime) -> str:
        """Write a moment of the week, its day in the language of the pages.

        >>> Style.of("en_GB", "GBP").day_and_time(datetime(2026, 10, 2, 18, 0))
        'Fri 18:00'
        """
        return f"{day_name(moment, 'abbreviated')} {self.clock(moment.time())}"

    def month(self, month: tuple[int, int] | None) -> str:
        """Write a month, given as (year, month), in the locale's short form."""
        return MISSING if month is None else _month(*month, _of_words(self.locale))
