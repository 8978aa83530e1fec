"""Which one slip of the pen explains a value that is out of proportion."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from string import ascii_letters

from builder.language import either, tr
from builder.quantities import Dimension
from builder.records.fields import Measure

# Zeros that say nothing, at the end of a decimal fraction.
_ZEROS = re.compile(r"(?:\.0+|(\.\d*?[1-9])0+)(?![\d.])")
_NUMBER = re.compile(r"\d[\d,]*\.?\d*")
# Units that are taken for each other, and how many times the right one the wrong one makes it.
_UNITS = {
    "kg": (("g", 1e-3),), "g": (("kg", 1e3),), "L": (("ml", 1e-3),), "l": (("ml", 1e-3),),
    "ml": (("L", 1e3),), "mL": (("L", 1e3),), "h": (("min", 1 / 60),), "min": (("h", 60.0),),
    "d": (("h", 1 / 24),),
    "cm": (("mm", 0.1),), "mm": (("cm", 10.0),), "lb": (("oz", 1 / 16),), "oz": (("lb", 16.0),),
    "qt": (("gal", 4.0),), "gal": (("qt", 0.25),), "fl oz": (("qt", 32.0),),
    "in": (("mm", 1 / 25.4),), "kW": (("W", 1e-3),), "W": (("kW", 1e3),),
}  # fmt: skip
# A hint comes nearer than half a step of the decimal point to what is wanted.
_NEAR = 0.55
# How much farther [decades] a unit may be from what is wanted than a decimal point.
_UNIT_FIRST, _TIME_FIRST = 0.15, 0.3
Candidate = tuple[str, float]
"""What may have been meant, and how many times the written value it is."""


def slip(measure: Measure, factor: float, near: float | None = None) -> str:
    """Say what may have been meant by a value that should be about `factor` times as large.

    A unit taken for another, or a decimal point lost or put in; empty where neither comes near,
    by the power of ten that it may be off.

    >>> from builder.problems import Place
    >>> slip(Measure(200, Place("a"), "200 kg"), 0.001)
    'did you mean 200 g?'
    >>> slip(Measure(1360, Place("a"), "1360/kg"), 0.012)
    'did you mean 13.60/kg?'
    >>> slip(Measure(9200, Place("a"), "9200", Dimension.COUNT), 0.013)
    'did you mean 92?'
    >>> slip(Measure(4.6, Place("a"), "4.60/kg", Dimension.MASS, coins=2), 10)
    'did you mean 46.00/kg?'
    """
    wanted = math.log10(max(abs(factor), 1e-12))
    found = _candidates(measure)
    return _nearest(measure, found, factor, near or _NEAR) if abs(wanted) > _NEAR / 2 else ""


def _nearest(
    measure: Measure, found: Sequence[Candidate], factor: float, near: float = _NEAR
) -> str:
    """Of two that explain a slip nearly alike the unit comes first: it is the commoner slip."""
    units = _other_units(measure.text)
    first = _TIME_FIRST if measure.dimension is Dimension.TIME else _UNIT_FIRST

    def off(each: Candidate) -> float:
        return abs(math.log10(each[1] / factor)) - first * (each in units)

    best = min(found, key=off, default=None)
    return _did_you_mean(best[0]) if best and off(best) < near else ""


def slip_into(
    measure: Measure, value: float, low: float, high: float, like: float | None = None
) -> str:
    """Say what may have been meant by a value that lies outside a range, in the range's unit.

    Of several slips that lead into the range the one nearest to `like` counts; without it only
    a lone one does, or the unit of what is too much.

    >>> from builder.problems import Place
    >>> slip_into(Measure(0.02, Place("a"), "20 g", Dimension.MASS), 0.02, 0.03, 40)
    ''
    >>> slip_into(Measure(0.02, Place("a"), "20 g", Dimension.MASS), 0.02, 0.03, 40, 0.23)
    'did you mean 200 g?'
    >>> stored = Measure(3360, Place("a"), "140 d", Dimension.TIME)
    >>> slip_into(stored, 3360, 4, 800), slip_into(stored, 3360, 0.03, 120)
    ('did you mean 14 d?', 'did you mean 1.4 d?')
    """
    if measure.dimension is Dimension.TEMPERATURE:
        found = [(words, to / value) for words, to in _temperatures(measure)]
    else:
        found = _candidates(measure)
    within = [each for each in found if low <= value * each[1] <= high]
    if like is not None and like * value > 0:
        return _nearest(measure, [each for each in within if each[1] > 0], like / value)
    units = [each for each in within if each in _other_units(measure.text)]
    alike = len({round(math.log10(abs(times)), 6) for _, times in within}) == 1
    lone = within if alike else units if value > high else []
    if value > high and (_is_packs(measure) or measure.dimension is Dimension.TIME):
        lone = _digit_too_many(measure.text, within) or lone or _mildest(within)
    return _did_you_mean(lone[0][0]) if lone else ""


def _digit_too_many(text: str, within: Sequence[Candidate]) -> list[Candidate]:
    """The whole number without its last digit, 0: the commonest slip of a long time."""
    number = _NUMBER.search(text)
    fits = number is not None and number[0].endswith("0") and "." not in number[0]
    return [each for each in within if fits and math.isclose(each[1], 0.1)]


def _mildest(within: Sequence[Candidate]) -> list[Candidate]:
    """The one that changes least, of those that nobody would write in a smaller unit."""
    readable = [each for each in within if not each[0].startswith("0")]
    return sorted(readable, key=lambda each: -each[1])[:1]


def other_amounts(measure: Measure) -> list[Candidate]:
    """Smaller amounts that may have been meant, in another unit or with the point moved, each
    with its ratio to what is written.
    """
    return [each for each in _candidates(measure) if 0 < each[1] < 1]


def other_scale(measure: Measure, low: float, high: float) -> str:
    """Say that the other scale was meant by a temperature that lies from low to high [°C] there.

    >>> from builder.problems import Place
    >>> hot = Measure(135, Place("a"), "135 °C", Dimension.TEMPERATURE)
    >>> other_scale(hot, 30, 95), other_scale(hot, 30, 50)
    ('did you mean 135 °F?', '')

    A zero too many may bring it there as well.

    >>> other_scale(Measure(30, Place("a"), "30 °C", Dimension.TEMPERATURE), -5, 15)
    'did you mean 3 °C or 30 °F?'
    """
    if measure.dimension is not Dimension.TEMPERATURE:
        return ""
    words, celsius = next(_temperatures(measure), ("", low - 1))
    if not low <= celsius <= high:
        return ""
    shorter = measure.text.replace("0 ", " ", 1)
    fewer = [shorter] if shorter != measure.text and low <= measure.value / 10 <= high else []
    return _did_you_mean(either([*fewer, words]))


def _did_you_mean(words: str) -> str:
    return tr("did you mean {words}?", words=words)


def _is_packs(measure: Measure) -> bool:
    """Whether it is a number of packs, which is no money and has no unit of its own."""
    return measure.dimension is None and measure.coins is None


def _candidates(measure: Measure) -> list[Candidate]:
    """What may have been meant, in the key's own kind: a count is whole.

    A value of several numbers, 1 h 10 min or 2 1/4 in, has no point to move and no one unit.
    """
    if len(_NUMBER.findall(measure.text.partition("/")[0])) > 1:
        return []
    found = [*_other_units(measure.text), *_moved_points(measure.text)]
    if measure.coins is not None:
        found = list(_in_coins(measure.text, found, measure.coins))
    if measure.dimension is Dimension.TIME and "/" not in measure.text:
        return [(_ZEROS.sub(r"\1", words), times) for words, times in found]
    if "/" in measure.text or not (measure.dimension is Dimension.COUNT or _is_packs(measure)):
        return found
    whole = [(_ZEROS.sub(r"\1", words), times) for words, times in found]
    return [(words, times) for words, times in whole if "." not in words]


def _in_coins(text: str, found: Iterable[Candidate], coins: int) -> Iterator[Candidate]:
    """Money with as many decimals as its currency has, where it has any."""
    for words, times in found:
        number = _NUMBER.search(words)
        whole, point, part = number[0].partition(".") if number else ("", "", "")
        if number is None or not point:
            yield words, times
            continue
        part = part.rstrip("0").ljust(coins, "0")
        # Less than a coin nobody pays, but by the kilogram.
        if "/" in text or coins >= len(part) > 0:
            yield words.replace(number[0], f"{whole}.{part}".rstrip("."), 1), times


def _temperatures(measure: Measure) -> Iterator[Candidate]:
    """A temperature in the other scale, or with its point moved, and what it is [°C]."""
    text, value = measure.text, measure.value
    if "F" in text:
        yield text.replace("F", "C"), value * 9 / 5 + 32
    elif "C" in text:
        yield text.replace("C", "F"), (value - 32) * 5 / 9
        for words, times in _moved_points(text):
            yield words, value * times


def _other_units(text: str) -> list[Candidate]:
    number = text.removesuffix("fl oz").rstrip(ascii_letters)
    unit = text[len(number) :]
    per = number.rstrip().endswith("/")
    return [
        (f"{number}{other}", 1 / times if per else times) for other, times in _UNITS.get(unit, ())
    ]


def _moved_points(text: str) -> list[Candidate]:
    """The number with its point one, two or three places further left or right."""
    number = _NUMBER.search(text)
    if number is None:
        return []
    bare = number[0].replace(",", "")
    return [
        (text.replace(number[0], _shifted(bare, places), 1), 10.0**places)
        for places in (-3, -2, -1, 1, 2, 3)
    ]


def _shifted(number: str, places: int) -> str:
    """A number's digits with its point moved.

    >>> _shifted("1360", -2), _shifted("3.45", 1), _shifted("21", 1)
    ('13.60', '34.5', '210')
    """
    whole, _, part = number.partition(".")
    at = len(whole) + places
    digits = (whole + part).ljust(at, "0")
    digits = digits.rjust(len(digits) - min(at - 1, 0), "0")
    at = max(at, 1)
    whole, part = digits[:at].lstrip("0") or "0", digits[at:]
    return f"{whole}.{part}" if part else whole
