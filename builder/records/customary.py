"""Hints of a kitchen that weighs in pounds: its own units first, and examples in them."""

from __future__ import annotations

import re
from dataclasses import replace

from builder.language import Deferred, tr
from builder.problems import Problem
from builder.quantities import Dimension, convert, parse_quantity
from builder.quantities.units import USUAL
from builder.rounding import Halved, without_noise

_OWN = {
    USUAL[Dimension.MASS]: "lb, oz, g, kg",
    USUAL[Dimension.VOLUME]: "fl oz, cup, pt, qt, gal, L, mL",
    USUAL[Dimension.LENGTH]: "in, mm, cm",
    USUAL[Dimension.TEMPERATURE]: "°F, °C",
}
# Only an example may change: whatever else a hint says is made from what was written.
# What brings an example, as alternatives of a regular expression.
BRINGS_EXAMPLE = Deferred("such as|for example")
_MEASURE = re.compile(r"(?P<number>(?<![0-9.])[0-9]+(?:\.[0-9]+)?) (?P<unit>kg|g|L|ml|mL|mm|°C)\b")
_PRICE = re.compile("(?<=[0-9]/)(?:kg|L)")
_TWICE = re.compile(r"([0-9.]+ \S+) or \1")
_TURNED = {"kg": "lb", "g": "oz", "L": "qt", "ml": "fl oz", "mL": "fl oz", "mm": "in", "°C": "°F"}


def in_customary(problem: Problem) -> Problem:
    """The problem with its hint's units and examples in US customary units.

    >>> from builder.problems import Place
    >>> hint = "units that fit: kg, g, lb, oz"
    >>> in_customary(Problem(Place("a.yaml"), "no unit", hint)).hint
    'units that fit: lb, oz, g, kg'
    """
    fitting = _after(tr("units that fit: {units}", units=""), ".*")
    first = _after(tr("units such as {units}", units=""), "kg, L")
    hint = first.sub("lb, qt", fitting.sub(_own_first, problem.hint))
    example = re.compile(rf"(?:{tr(BRINGS_EXAMPLE)}) [^;(]*")
    return replace(problem, hint=example.sub(lambda found: _turned(found[0]), hint))


def _after(beginning: str, pattern: str) -> re.Pattern[str]:
    """The pattern behind the beginning of a sentence, as the language of the pages has it."""
    return re.compile(f"(?<={re.escape(beginning)}){pattern}")


def _own_first(found: re.Match[str]) -> str:
    words = found[0]
    for usual, own in _OWN.items():
        words = words.replace(usual, own)
    return words


def _turned(example: str) -> str:
    """Examples of measures by their exact factors, to two figures; of prices by the unit alone."""
    priced = _PRICE.sub(lambda found: _TURNED[found[0]], example)
    turned = _MEASURE.sub(lambda found: _measure(found["number"], found["unit"]), priced)
    return _TWICE.sub(r"\1", turned)


def _measure(number: str, unit: str) -> str:
    own = _TURNED[unit]
    value = Halved(without_noise(convert(parse_quantity(f"{number} {unit}").value, own)))
    return f"{value:.0f} {own}" if value >= 10 else f"{value:.2g} {own}"
