"""The kitchen's own units in messages and in what hints give as an example or a limit.

Checks write usual units, for most of them run before a style is known. What is of the other system
of units is written by the kitchen's style here, once; what a file says stays.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from builder.display.scales import STEPS, UnitSystem, step_for
from builder.display.style import NBSP, Style
from builder.language import tr
from builder.quantities import Dimension, Quantity, parse_quantity
from builder.records.customary import BRINGS_EXAMPLE
from builder.records.ranges import RANGE, WANTED, limits_in
from builder.records.weights import MISSED_BY

Written = Callable[[str], bool]
"""Whether a text, a number with its unit, is what the file has."""

_NUMBER = r"-?\d+(?:\.\d+)?"
# A decimal mark of the language of the pages, where a rule's text is translated.
_PRINTED = r"-?\d+(?:[.,]\d+)?[ \u00a0]°[CF]"
# "160 in one service" counts plates: an inch is no word's neighbour.
_UNIT = r"(?:fl oz|kg|g|lb|oz|L|mL|ml|qt|gal|pt|mm|cm|in(?! [^\W\d])|°C|°F)(?![\w/²³°])"
_OWN = {
    UnitSystem.METRIC: {"kg", "g", "L", "mL", "ml", "mm", "cm", "°C"},
    UnitSystem.US_CUSTOMARY: {"lb", "oz", "fl oz", "qt", "gal", "pt", "in", "°F"},
}


def _measures() -> re.Pattern[str]:
    """What of a text is a measure, by the words that join two in the language of the pages."""
    to = tr(RANGE, rounded="\0", rounded2="\0", unit="").split("\0")[1]
    alike = [
        tr(MISSED_BY, parts="", loss="", written_like="\0", more=more).split("\0")[1]
        for more in (tr("more"), tr("less"))
    ]
    return re.compile(
        r"(?<![\w.,/-])(?:"
        # A limit in both units, as its source prints it.
        rf"{_PRINTED} ?(?:/|\(|{tr('or')}) ?{_PRINTED}"
        rf"|(?P<low>{_NUMBER}){re.escape(to)}(?P<high>{_NUMBER}) (?P<of>{_UNIT})"
        rf"|(?P<one>(?:\d+ lb )?{_NUMBER} (?P<unit>{_UNIT})))"
        # How far weights miss each other is in the units of these weights.
        rf"(?!(?:{'|'.join(map(re.escape, alike))})\b)"
    )


def _in_hints() -> re.Pattern[str]:
    """The examples and limits of a hint, from what brings them."""
    wanted = tr(WANTED, words="").rstrip()
    return re.compile(rf"(?:{tr(BRINGS_EXAMPLE)}|{re.escape(wanted)}) [^;(]*")


def in_kitchen_units(text: str, style: Style, is_written: Written = lambda _: False) -> str:
    """A text with its weights, volumes, lengths and temperatures in the style's units.

    >>> customary = Style.of("en_US", "USD", "us customary")
    >>> in_kitchen_units("outside 1 to 2000 L, for 10.7 kg at 57 °C", customary)
    'outside 0.265 to 528 gal, for 23 lb 9.4 oz at 134.6 °F'
    >>> in_kitchen_units("60 °F, of 130 °F / 54.4 °C", Style.of("en_CA", "CAD"))
    '15.6 °C, of 130 °F / 54.4 °C'
    >>> in_kitchen_units("160 in one service, 2 in of water, 2 in", Style.of("en_CA", "CAD"))
    '160 in one service, 2 in of water, 50.8 mm'
    """

    def turned(found: re.Match[str]) -> str:
        unit = found["unit"] or found["of"]
        if unit is None or unit in _OWN[style.units] or is_written(found[0]):
            return found[0]
        if found["one"]:
            return _in_style(parse_quantity(found["one"]), style).replace(NBSP, " ")
        low, high = (parse_quantity(f"{found[end]} {unit}") for end in ("low", "high"))
        own = step_for(high.value, STEPS[style.units][high.dimension]).unit
        return limits_in(own, low.value, high.value)

    return _measures().sub(turned, text)


def holds_measure(text: str) -> bool:
    """Whether a text has a weight, volume, length or temperature in it.

    >>> holds_measure("Bath of 20 L"), holds_measure("Chuck roll 30h")
    (True, False)
    """
    return _measures().search(text) is not None


def hint_in_units(hint: str, style: Style) -> str:
    """A hint with its examples and limits in the style's units; what was written stays.

    >>> hint_in_units("did you mean 9 oz? wanted: 2 to 4 oz", Style.of("en_CA", "CAD"))
    'did you mean 9 oz? wanted: 56.7 to 113 g'
    """
    return _in_hints().sub(lambda found: in_kitchen_units(found[0], style), hint)


def _in_style(value: Quantity, style: Style) -> str:
    write = {
        Dimension.MASS: style.weight,
        Dimension.VOLUME: style.volume,
        Dimension.LENGTH: style.length,
        Dimension.TEMPERATURE: style.temperature,
    }
    return write[value.dimension](value.value)
