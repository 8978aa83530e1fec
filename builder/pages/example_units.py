"""Examples of what a file may hold, in the kitchen's own units.

The record types give them in metric units. A kitchen in US customary units reads them in pounds,
quarts, inches and degrees Fahrenheit, rounded as somebody would write them.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from builder.display.numerals import as_read
from builder.display.scales import UnitSystem
from builder.quantities import convert, parse_quantity
from builder.rounding import Halved, nearest_whole

_METRIC = re.compile(
    r"(?<![\w.,/])(?P<number>-?\d+(?:\.\d+)?) (?P<unit>kg|g|L|ml|m3|mm|°C)(?![\w³²/])"
)
_PRICE = re.compile(r"(?<![\w./])(?<!\d,)(?P<number>\d+\.\d\d)/(?P<unit>kg|L)(?![\w/])")


def example_in(text: str, units: UnitSystem) -> str:
    """An example with its weights, volumes, lengths, temperatures and prices in a kitchen's units.

    >>> example_in("{date: 2026-09-03, in: 8.42 kg, out: 7.10 kg}", UnitSystem.US_CUSTOMARY)
    '{date: 2026-09-03, in: 18.6 lb, out: 15.7 lb}'
    >>> example_in("from -30 °C; {fat: [6 %, 0.40/kg]}, 64 mm", UnitSystem.US_CUSTOMARY)
    'from -22 °F; {fat: [6 %, 0.18/lb]}, 2.5 in'
    >>> example_in("gas: 1.8 m3", UnitSystem.US_CUSTOMARY)
    'gas: 64 ft³'
    >>> example_in("chuck,7.90/kg", UnitSystem.US_CUSTOMARY)
    'chuck,3.58/lb'
    >>> example_in("57 °C", UnitSystem.METRIC)
    '57 °C'
    """
    if units is not UnitSystem.US_CUSTOMARY:
        return text
    return _PRICE.sub(_price, _METRIC.sub(_amount, text))


def _amount(found: re.Match[str]) -> str:
    value = parse_quantity(found[0]).value
    return _CUSTOMARY[found["unit"]](value)


def _price(found: re.Match[str]) -> str:
    unit = "lb" if found["unit"] == "kg" else "qt"
    return f"{Halved(float(found['number']) / convert(1.0, unit)):.2f}/{unit}"


def _gas(litres: float) -> str:
    return f"{nearest_whole(convert(litres, 'ft³'))} ft³"


def _weight(kg: float) -> str:
    if convert(kg, "lb") >= 1:
        return f"{as_read(convert(kg, 'lb'), 1):g} lb"
    ounces = convert(kg, "oz")
    return f"{(as_read(ounces, 1) if ounces < 1 else nearest_whole(ounces * 4) / 4):g} oz"


def _volume(litres: float) -> str:
    if convert(litres, "gal") >= 5:
        return f"{nearest_whole(convert(litres, 'gal'))} gal"
    quarts = convert(litres, "qt")
    return (
        f"{as_read(quarts, 1):g} qt"
        if quarts >= 1
        else f"{nearest_whole(convert(litres, 'fl oz'))} fl oz"
    )


def _length(mm: float) -> str:
    """To a quarter of an inch."""
    return f"{max(nearest_whole(convert(mm, 'in') * 4), 1) / 4:g} in"


def _temperature(celsius: float) -> str:
    return f"{nearest_whole(convert(celsius, '°F'))} °F"


_CUSTOMARY: dict[str, Callable[[float], str]] = {
    "kg": _weight, "g": _weight, "L": _volume, "ml": _volume, "mm": _length, "°C": _temperature,
    "m3": _gas,
}  # fmt: skip
