"""A record whose name gives a time, a heat or a weight, against what its keys say."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from builder.language import tr
from builder.problems import Problem
from builder.quantities import Dimension, QuantityError, parse_quantity
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cook, Plate, Record
from builder.records.slips import slip
from builder.records.tastings import Tasting
from builder.records.written import Doubted, Value, is_far, values_in, warning

# How many times apart the time of a name and of a key may lie: a name is rounded. Common
# practice, no published source.
ROUNDED = 1.25
# A menu gives the raw weight, and the plate bears what is left of it. Common practice, no
# published source.
AS_RAW = 1.8
# A slip that would leave this power of ten beside the name is not what was meant.
_AS_NAMED = 0.02
# So many degrees [K] a name may be off, and no cook that a name is made for is cooler or hotter
# [degrees Celsius]. Common practice, no published source.
DEGREES, HEATS = 3.0, (40.0, 320.0)
# Whole, with decimals, or with a fraction: "6", "5.5", "5 1/2", "5½", "1/2".
_NUMBER = r"(?<![\w.,/])((?:\d+[\s-])?\d+/\d+|\d*[½¼¾⅓⅔]|\d+(?:[.,]\d+)?)[\s-]?"
_TIMES = {
    rf"{_NUMBER}(?:h|hrs?|hours?|heures?)\b": 1.0,
    rf"{_NUMBER}(?:d|days?|jours?)\b": 24.0,
    rf"{_NUMBER}(?:min|mins|minutes?)\b": 1 / 60,
}
_HEAT = re.compile(r"(?<![\w.,])(\d{2,3})[\s-]?°?[\s-]?(c|f)\b", re.IGNORECASE)
_WEIGHTS = {rf"{_NUMBER}g\b": 0.001, rf"{_NUMBER}oz\b": 0.028349523125}


# A sample's short name that is nothing but hours.
_CALLED = re.compile(r"(?:h-?(\d+)|(\d+)-?h(?:ours)?)", re.IGNORECASE)


def check_names(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of a cook that goes on for another time, or at another heat, than its name says.

    A name that gives several times, or one that any key of the record has, proves nothing.
    """
    for cook in content.cooks.values():
        values = [v for v in values_in(cook) if v.measure.place not in reported]
        times = [v for v in values if v.measure.dimension is Dimension.TIME]
        hours, heats = numbers_in(cook, _TIMES), heats_in(cook)
        yield from _unlike(cook, "for", cook.for_, hours, _like(times, hours, ROUNDED))
        yield from _unlike(cook, "at", cook.at, heats, _near(values, heats))
    for tasting in content.tastings.values():
        yield from _samples(content, tasting)
    for plate in content.plates.values():
        weights, portions = numbers_in(plate, _WEIGHTS), plate.served
        values = [v for v in values_in(plate) if v.measure.dimension is Dimension.MASS]
        if len(portions) == 1 and portions[0].portion.dimension is Dimension.MASS:
            like = _like(values, weights, AS_RAW)
            yield from _unlike(plate, "portion", portions[0].portion, weights, like)


def _samples(content: Content, tasting: Tasting) -> Iterator[Problem]:
    """A sample called by the hours of another cook of its cut, as h24 or 24h."""
    for name, sample in tasting.samples.items():
        cook, hours = content.cooks.get(sample.cook or ""), _CALLED.fullmatch(name)
        if sample.cook is None or cook is None or cook.for_ is None or hours is None:
            continue
        called = float(hours[1] or hours[2])
        times = {
            other.id: other.for_.value
            for other in content.cooks.values()
            if other.cut == cook.cut and other.for_
        }
        nearest = min(times, key=lambda each: abs(times[each] - called))
        if is_far(cook.for_.value, called, ROUNDED) and not is_far(times[nearest], called, ROUNDED):
            measure = replace(cook.for_, place=sample.cook.place)
            value = Value("tastings.samples", measure, tasting, tasting.path)
            message = tr(
                "{cook} goes on for {hours}, which is not what its short name here says",
                cook=sample.cook,
                hours=cook.for_.text,
            )
            yield from warning(value, message, tr("did you mean {words}?", words=nearest))


def numbers_in(record: Record, patterns: dict[str, float]) -> list[float]:
    """Each quantity that a record's id and name give, in the base unit of the patterns."""
    found = {
        _value(number) * unit
        for text in (str(record.id), record.title)
        for pattern, unit in patterns.items()
        for number in re.findall(pattern, text, re.IGNORECASE)
    }
    return sorted(found - {0.0})


def _value(number: str) -> float:
    """The value of a number as a name has it; 0 of none.

    >>> _value("5 1/2"), _value("5½"), _value("5,5"), _value("4/3")
    (5.5, 5.5, 5.5, 0.0)
    """
    try:
        return parse_quantity(f"{number.replace(',', '.').replace('-', ' ')} each").value
    except QuantityError:
        return 0.0


def heats_in(record: Record) -> list[float]:
    """Each temperature [degrees Celsius] at which food may be cooked, of an id and a name."""
    written = [m for text in (str(record.id), record.title) for m in _HEAT.findall(text)]
    celsius = {
        (float(number) - 32) * 5 / 9 if scale in "fF" else float(number)
        for number, scale in written
    }
    return sorted(each for each in celsius if HEATS[0] <= each <= HEATS[1])


def _like(values: Sequence[Value], named: Sequence[float], apart: float) -> bool:
    """Whether any value of a record is what its name gives."""
    return any(
        one > 0 and value.measure.value > 0 and not is_far(value.measure.value, one, apart)
        for value in values
        for one in named
    )


def _near(values: Sequence[Value], named: Sequence[float]) -> bool:
    return any(
        abs(value.measure.value - one) <= DEGREES
        for value in values
        for one in named
        if value.measure.dimension is Dimension.TEMPERATURE
    )


def _unlike(
    record: Cook | Plate, key: str, measure: Measure | None, named: Sequence[float], like: bool
) -> Iterator[Problem]:
    if measure is None or len(named) != 1 or like or measure.value <= 0:
        return
    value = Value(f"{record.folder}.{key}", measure, record, record.path)
    message = tr(
        '{key}: {measure} is not what the name "{name}" says',
        key=key,
        measure=measure.text,
        # The file's own name where the title holds no number.
        name=record.title if any(map(str.isdigit, record.title)) else record.id,
    )
    meant = slip(measure, named[0] / measure.value, _AS_NAMED) or _as_named(measure, named[0])
    yield from warning(value, message, meant)


def _as_named(measure: Measure, named: float) -> str:
    """What the name gives, in the unit of what is written.

    >>> from builder.problems import Place
    >>> _as_named(Measure(81.0, Place("a"), "81 h", Dimension.TIME), 18.0)
    'did you mean 18 h?'
    >>> _as_named(Measure(68.0, Place("a"), "154.4 °F", Dimension.TEMPERATURE), 57.2)
    'did you mean 135 °F?'
    """
    numbers = re.findall(r"\d+(?:\.\d+)?", measure.text)
    if len(numbers) != 1:
        return ""
    share = named / measure.value
    if measure.dimension is Dimension.TEMPERATURE and "f" in measure.text.lower():
        share = (named * 9 / 5 + 32) / float(numbers[0])
    meant = f"{float(numbers[0]) * share:.3g}"
    return tr("did you mean {words}?", words=measure.text.replace(numbers[0], meant))
