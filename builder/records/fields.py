"""The kinds of value that a key may hold, each read from text and keeping its place.

Every reader raises `PydanticCustomError` with the message, the hint and the place,
so that pydantic collects all of a file's problems and none loses its line.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date, time
from typing import Annotated, TypeVar

from pydantic import PlainValidator, ValidationInfo, WithJsonSchema
from pydantic_core import PydanticCustomError

from builder.language import Deferred, clauses, spelled, tr
from builder.problems import Place, did_you_mean
from builder.quantities import (
    Dimension,
    Quantity,
    QuantityError,
    coins_of,
    is_plausible,
    parse_clock,
    parse_date,
    parse_factor,
    parse_money,
    parse_month,
    parse_quantity,
    parse_rate,
    parse_whole,
    years_wanted,
)
from builder.reading.tree import Blank, Branch, Row, Text
from builder.records.own_words import with_number
from builder.spelling import american

T = TypeVar("T")

# A number with a letter in it that looks like a digit, in print or in a hurry.
_LOOKS_LIKE = re.compile(r"(?=[OolI.,]*[0-9])[0-9OolI](?:[0-9OolI.,]|[SB](?=[0-9.,/]))*")
# Such a letter where no unit has it: behind a digit or a point and no word, or in front of one.
_NO_UNIT = re.compile(
    r"[0-9.,](?:[OoI](?![^\W\d_])|[OoIl](?=[0-9])|[SB](?=[0-9.,/]))|(?<!\w)[OoIl](?=[0-9.,]*[0-9])"
)
_A_TIME = "a time, for example 36 h or 35 min"
_A_YEAR, _A_WEEK = Deferred("up to a year, 8784 h"), Deferred("up to 7 d, 168 h")
_ALL_OF_IT, _TENFOLD = Deferred("at most 100 %"), Deferred("at most 1000 %")
SINGLE = Deferred("a single value is wanted here")
_DIGITS = str.maketrans("OolISB", "001158")


@dataclass(frozen=True, slots=True)
class Measure:
    """A number as written: its value in the base unit, and where it is.

    `dimension` is that of a quantity, or of what a rate is paid for; None for money.
    `resolution` is half the last written place, in the base unit; `coins` the decimals of money.
    """

    value: float
    place: Place
    text: str
    dimension: Dimension | None = None
    resolution: float = 0.0
    coins: int | None = field(default=None, kw_only=True)


@dataclass(frozen=True, slots=True)
class Day:
    """A date as written."""

    day: date
    place: Place


@dataclass(frozen=True, slots=True)
class Clock:
    """A time of day as written."""

    hour: time
    place: Place
    text: str


@dataclass(frozen=True, slots=True)
class Month:
    """A month as written; its first day stands for it."""

    first: date
    place: Place

    def __str__(self) -> str:
        return f"{self.first:%Y-%m}"


def refuse(message: str, hint: str = "", place: Place | None = None) -> PydanticCustomError:
    """Make the error that a reader raises for a value it can't accept."""
    return PydanticCustomError(
        "content", "{message}", {"message": message, "hint": hint, "place": place}
    )


def scalar(node: object, wanted: str) -> Text:
    """Return a non-empty text; anything else is refused, saying what is wanted."""
    if isinstance(node, Text):
        if isinstance(node, Blank) or not node.strip():
            raise refuse(
                tr("nothing is written here"), tr("write {wanted}", wanted=wanted), node.place
            )
        return node
    place = node.place if isinstance(node, Branch | Row) else None
    alone = node[0] if isinstance(node, Row) and len(node) == 1 else None
    wanted = alone if isinstance(alone, Text) and not isinstance(alone, Blank) else wanted
    raise refuse(tr(SINGLE), tr("write {wanted}", wanted=wanted), place)


def read_with(node: object, wanted: str, parse: Callable[[str], T]) -> tuple[T, Text]:
    """Read a text, with the reader's own message and hint where it can't be."""
    text = scalar(node, wanted)
    try:
        return parse(text), text
    except QuantityError as error:
        raise _clearer(text, parse) or refuse(error.message, error.hint, text.place) from None


def _clearer(text: Text, parse: Callable[[str], T]) -> PydanticCustomError | None:
    """The error of a text that can be read once its letters O, l, I, S and B are digits.

    What else keeps such a text from being read is the hint, where no unit has the letter.
    """
    mended = _LOOKS_LIKE.sub(lambda token: token[0].translate(_DIGITS), text)
    if mended == text:
        return None
    hint = tr("write {mended}", mended=mended)
    try:
        parse(mended)
    except QuantityError as error:
        if not _NO_UNIT.search(text):
            return None
        hint = str(error)
    return refuse(tr('"{text}" has a letter where a digit belongs', text=text), hint, text.place)


def quantity(
    wanted: str, *dimensions: Dimension, most: float = float("inf"), limit: str = ""
) -> Callable[[object], Measure]:
    """Make a reader for a quantity of some dimensions, at most `most` in the base unit."""

    def read(node: object) -> Measure:
        found, text = read_with(node, wanted, lambda line: parse_quantity(line, *dimensions))
        if found.value > most:
            hint = clauses((_in_hours(text, found.value, most), tr(limit)))
            raise refuse(tr("{text} is more than can be", text=text), hint, text.place)
        return Measure(found.value, text.place, str(text), found.dimension, found.resolution)

    return read


def _amount(node: object) -> Measure:
    """A weight, a volume or a count, which is of each whatever a piece is called."""
    found, text = read_with(
        node, tr("an amount, for example 180 g, 60 ml or 2 each"), _counted_each
    )
    return Measure(found.value, text.place, str(text), found.dimension, found.resolution)


_OF_PIECES = Deferred("of pieces write {number} each; {hint}")


def _counted_each(line: str) -> Quantity:
    try:
        return parse_quantity(line, Dimension.MASS, Dimension.VOLUME, Dimension.COUNT)
    except QuantityError as error:
        raise with_number(error, line, _OF_PIECES) from error


def _in_hours(text: str, hours: float, most: float) -> str:
    """What days may have been meant to be: as many hours, where that can be.

    >>> _in_hours("140 d", 140 * 24, 168), _in_hours("400 d", 400 * 24, 168)
    ('did you mean 140 h?', '')
    """
    days = re.fullmatch(r"([\d.]+) ?d(?:ays?)?", text)
    return tr("did you mean {days} h?", days=days[1]) if days and hours / 24 <= most else ""


def _rate(wanted: str, *dimensions: Dimension) -> Callable[[object, ValidationInfo], Measure]:
    def read(node: object, info: ValidationInfo) -> Measure:
        currency = _currency(info)
        found, text = read_with(
            node, wanted, lambda line: parse_rate(line, *dimensions, currency=currency)
        )
        value, of = found.value_per_base, found.per.dimension
        return Measure(value, text.place, str(text), of, coins=coins_of(currency))

    return read


def read_money(node: object, info: ValidationInfo) -> Measure:
    """An amount of money in the kitchen's currency."""
    currency = _currency(info)
    found, text = read_with(
        node, tr("an amount, for example 27.00"), lambda line: parse_money(line, currency)
    )
    return Measure(found.value, text.place, str(text), coins=coins_of(currency))


def _currency(info: ValidationInfo) -> str | None:
    context: dict[str, str] = info.context or {}
    return context.get("currency")


def _day(node: object) -> Day:
    found, text = read_with(node, tr("a date, for example 2026-09-03"), parse_date)
    return Day(_plausible(found, text), text.place)


def _plausible(day: date, text: Text) -> date:
    if not is_plausible(day):
        raise refuse(
            tr("{text} is outside the years of a kitchen", text=text),
            tr("wanted: {years}", years=years_wanted()),
            text.place,
        )
    return day


def _month(node: object) -> Month:
    (year, month), text = read_with(node, tr("a month, for example 2026-08"), parse_month)
    return Month(_plausible(date(year, month, 1), text), text.place)


def _clock(node: object) -> Clock:
    found, text = read_with(node, tr("a time of day, for example 18:00"), parse_clock)
    return Clock(found, text.place, str(text))


def _factor(node: object) -> Measure:
    found, text = read_with(node, tr("a number from 0 to 2"), parse_factor)
    return Measure(found, text.place, str(text))


def _whole(node: object) -> Measure:
    found, text = read_with(node, tr("a whole number, for example 412"), parse_whole)
    return Measure(float(found), text.place, str(text), Dimension.COUNT)


def _words(node: object) -> Text:
    return scalar(node, "a few words")


def _yes_no(node: object) -> bool:
    text = scalar(node, "yes or no")
    word = text.lower()
    if word not in {"yes", "no", "true", "false"}:
        raise refuse(
            tr('"{text}" is neither yes nor no', text=text), tr("write yes or no"), text.place
        )
    return word in {"yes", "true"}


def one_of(*known: str, meant: Mapping[str, str] | None = None) -> Callable[[object], Text]:
    """Make a reader for one of a few words, however they are spaced, hyphenated or spelled.

    `meant` names the word that another one stands for, where the spelling alone would mislead.
    """
    others = meant or {}

    def read(node: object) -> Text:
        words = [spelled(name) for name in known]  # as pages write them; either is read
        listed = ", ".join(words)
        text = scalar(node, tr("one of {listed}", listed=listed))
        word = " ".join(text.lower().replace("-", " ").replace("_", " ").split())
        for name in known:
            if word in {name.replace("-", " "), american(name.replace("-", " "))}:
                return Text(name, text.file, text.line, text.column)
        near = [name for name in words if f" {name} " in f" {word} " or f" {word} " in f" {name} "]
        meant, hint = others.get(word, ""), ""
        if meant and meant not in known:
            hint = tr("write {meant}", meant=meant)
        elif meant or len(near) == 1:
            hint = tr('did you mean "{near}"?', near=spelled(meant) or near[0])
        hint = hint or did_you_mean(word, words)
        raise refuse(
            tr('"{text}" is not known here', text=text),
            hint or tr("one of {listed}", listed=listed),
            text.place,
        )

    return read


def any_of(
    *known: str, meant: Mapping[str, str] | None = None
) -> Callable[[object], tuple[Text, ...]]:
    """Make a reader for one or several of a few words, a lone one or a list."""
    read_one = one_of(*known, meant=meant)

    def read(node: object) -> tuple[Text, ...]:
        if isinstance(node, Row) and not node:
            raise refuse(
                tr("this list is empty"),
                tr("any of {known}", known=spelled(", ".join(known))),
                node.place,
            )
        return tuple(read_one(item) for item in (node if isinstance(node, Row) else [node]))

    return read


def schema(example: str, about: str) -> WithJsonSchema:
    """How a kind of value shows on the reference pages: an example, and what it is."""
    return WithJsonSchema({"type": "string", "description": about, "examples": [example]})


D = Dimension
YEAR_H = 24.0 * 366

Words = Annotated[Text, PlainValidator(_words), schema("Beef chuck roll", "text")]
YesNo = Annotated[bool, PlainValidator(_yes_no), schema("yes", "yes or no")]
Id = Annotated[Text, PlainValidator(_words), schema("beef-chuck-roll", "the id of a record")]
Date = Annotated[Day, PlainValidator(_day), schema("2026-09-03", "a date")]
MonthKey = Annotated[Month, PlainValidator(_month), schema("2026-08", "a month")]
TimeOfDay = Annotated[Clock, PlainValidator(_clock), schema("18:00", "a time of day")]
Factor = Annotated[Measure, PlainValidator(_factor), schema("0.5", "a number from 0 to 2")]
Whole = Annotated[Measure, PlainValidator(_whole), schema("40", "a whole number")]
Money = Annotated[Measure, PlainValidator(read_money), schema("27.00", "money")]
Mass = Annotated[
    Measure,
    PlainValidator(quantity("a weight, for example 1.9 kg", D.MASS)),
    schema("1.9 kg", "weight"),
]
Amount = Annotated[
    Measure,
    PlainValidator(_amount),
    schema("60 ml", "weight, volume or count"),
]
Volume = Annotated[
    Measure,
    PlainValidator(quantity("a volume, for example 40 L", D.VOLUME)),
    schema("40 L", "volume"),
]
Length = Annotated[
    Measure,
    PlainValidator(quantity("a length, for example 60 mm", D.LENGTH)),
    schema("60 mm", "length"),
]
Temperature = Annotated[
    Measure,
    PlainValidator(quantity("a temperature, for example 57 °C or 135 °F", D.TEMPERATURE)),
    schema("57 °C", "temperature"),
]
Hours = Annotated[
    Measure,
    PlainValidator(quantity(_A_TIME, D.TIME, most=YEAR_H, limit=_A_YEAR)),
    schema("36 h", "time"),
]
CookHours = Annotated[
    Measure,
    PlainValidator(quantity(_A_TIME, D.TIME, most=168.0, limit=_A_WEEK)),
    schema("36 h", "time"),
]
Share = Annotated[
    Measure,
    PlainValidator(quantity("a share, for example 22 %", D.RATIO, most=1.0, limit=_ALL_OF_IT)),
    schema("22 %", "per cent"),
]
AnyShare = Annotated[
    Measure,
    PlainValidator(quantity("a share, for example 5 %", D.RATIO, most=10.0, limit=_TENFOLD)),
    schema("5 %", "per cent"),
]
Energy = Annotated[
    Measure,
    PlainValidator(quantity("an energy, for example 3.1 kWh", D.ENERGY)),
    schema("3.1 kWh", "energy"),
]
Power = Annotated[
    Measure,
    PlainValidator(quantity("a power, for example 0.21 kW", D.POWER)),
    schema("0.21 kW", "power"),
]
PricePerMass = Annotated[
    Measure,
    PlainValidator(_rate("a price, for example 7.90/kg", D.MASS)),
    schema("7.90/kg", "price by weight"),
]
price_per_unit = _rate("a price, for example 14.80/kg", D.MASS, D.VOLUME, D.COUNT)
PricePerHour = Annotated[
    Measure,
    PlainValidator(_rate("a rate, for example 24.50/h", D.TIME)),
    schema("24.50/h", "money by the hour"),
]
_tariff = _rate("a tariff, for example 0.14/kWh", D.ENERGY)
PricePerKwh = Annotated[Measure, PlainValidator(_tariff), schema("0.14/kWh", "tariff")]
