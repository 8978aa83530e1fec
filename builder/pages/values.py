"""Figures as text: one rule for each unit that a figure can have."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping

from builder.display.style import Style
from builder.quantities import Dimension, convert
from builder.records.fields import Measure

Show = Callable[[Style, float], str]
_MASS = Dimension.MASS
_DECIMALS = re.compile(r"\d[.,](\d+)")
_KILOGRAM = re.compile(r"\bkg\b|\bkilogram\b")

_RULES: Mapping[str, Show] = {
    "money": lambda style, x: style.money(x),
    "money/kg": lambda style, x: style.money_per_kg(x),
    "money/h": lambda style, x: style.money_per_hour(x),
    "money/kWh": lambda style, x: style.money_per_kwh(x),
    "money/week": lambda style, x: style.money(x),
    "money/year": lambda style, x: style.money(x),
    "share": lambda style, x: style.percent(x),
    "factor": lambda style, x: style.number(x, 4),
    "count/week": lambda style, x: f"{style.number(x, 1)} a week",
    "week": lambda style, x: f"{style.number(x, 1)} weeks",
    "kg": lambda style, x: style.weight(x),
    "h": lambda style, x: style.duration(x),
    "kWh": lambda style, x: style.energy(x),
    "kW": lambda style, x: style.power(x),
    "flag": lambda _, x: "yes" if x else "no",
    "kg2": lambda style, x: (
        f"{style.number(convert(convert(x, style.unit(_MASS)), style.unit(_MASS)), 5)}"
        f" {style.unit(_MASS)}²"
    ),
}
_BY_DIMENSION: Mapping[Dimension, Show] = {
    Dimension.MASS: lambda style, x: style.weight(x),
    Dimension.VOLUME: lambda style, x: style.volume(x),
    Dimension.LENGTH: lambda style, x: style.length(x),
    Dimension.TEMPERATURE: lambda style, x: style.temperature(x),
    Dimension.TIME: lambda style, x: style.duration(x),
    Dimension.COUNT: lambda style, x: f"{style.numerals(x, 2, trim=True)} each",
}
# A portion cost over the price of a kilogram is itself a weight: it turns with the unit.
_PORTION_FACTOR = "portion factor"
_DIMENSIONS = {"kg": Dimension.MASS, "L": Dimension.VOLUME}


def shown(style: Style, unit: str, value: float, per: str = "kg") -> str:
    """A value in its unit as the page prints it; an en dash where it is not known.

    `per` is the unit (kg, L or each) that the row of an item is priced by.
    """
    if math.isnan(value) or math.isinf(value):
        return style.number(None)
    rule = _RULES.get(unit)
    if rule is not None:
        return rule(style, value)
    if unit == "count":
        return style.count(value) if value == round(value) else style.number(value, 2)
    if unit == _PORTION_FACTOR:
        return style.number(convert(value, style.unit(Dimension.MASS)), 4)
    if unit == "money/unit":
        return style.money_per(value, _written_unit(style, per))
    if unit == "h/unit":
        written = _written_unit(style, per)
        return f"{style.duration(value / convert(1.0, written))} / {written}"
    if unit == "unit":
        return _amount(style, value, per)
    raise ValueError(f"no rule shows the unit {unit!r}")


def measured(style: Style, written: Measure) -> str:
    """A quantity of a file in the kitchen's own numerals and units."""
    if written.dimension is Dimension.RATIO:
        found = _DECIMALS.search(written.text)
        return style.percent(written.value, len(found[1]) if found else 0)
    show = _BY_DIMENSION.get(written.dimension) if written.dimension else None
    return show(style, written.value) if show else written.text


def in_mass_unit(style: Style, words: str) -> str:
    """The name of a figure or its formula, with the unit that the style weighs in.

    >>> in_mass_unit(Style.of("en_US", "USD", "us customary"), "cost per servable kg ÷ AP price")
    'cost per servable lb ÷ AP price'
    """
    unit = style.unit(_MASS)
    if unit == "kg":
        return words
    return _KILOGRAM.sub(lambda found: unit if found[0] == "kg" else "pound", words)


def capital(text: str) -> str:
    """The first letter large, the others as they are.

    >>> capital("cost per kg in CAD")
    'Cost per kg in CAD'
    """
    return text[:1].upper() + text[1:]


def _written_unit(style: Style, per: str) -> str:
    """The unit that the kitchen writes for what is priced by the kg, the L or each."""
    return style.unit(_DIMENSIONS[per]) if per in _DIMENSIONS else per


def _amount(style: Style, value: float, per: str) -> str:
    match per:
        case "kg":
            return style.weight(value)
        case "L":
            return style.volume(value)
        case _:
            return f"{style.number(value, 2)} each"
