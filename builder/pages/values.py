"""Figures as text: one rule for each unit that a figure can have."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal

from builder.display import numerals
from builder.display.chances import (
    coarse,
    count_down,
    factor_near,
    interval_places,
    money_a_month,
    money_a_year,
    money_an_hour,
    money_near,
    money_up,
    portion_factor_near,
    rate_near,
    share_down,
    share_near,
    share_rounded_down,
    times_in_ten,
    wage_limit,
    weeks_near,
    whole_portions,
    year_as_read,
)
from builder.display.estimates import Way, about, thickness_that_fits, written_thickness
from builder.display.rounded_sizes import weight_down
from builder.display.style import Style, pieces, unit_name
from builder.engine.units import FIGURE_UNITS
from builder.language import tr, written
from builder.quantities import Dimension, convert
from builder.records.fields import Measure
from builder.rounding import half_up

# A share is printed in per cent with one decimal.
SHARE_PLACES = 3
# A month's days of the week move its plates a day by as much; `numbers.js` has the same number.
STEADY = 0.055
# What is smaller than this is nothing.
_NO_FACTOR = 5e-10
# What binary arithmetic leaves over.
_HAIR = 1e-9

Plain = Callable[[Style, float], str]
Show = Callable[[Style, float, str], str]
Near = Callable[[Style, float, float | None], str]
_MASS = Dimension.MASS
_DECIMALS = re.compile(r"\d[.,](\d+)")
_KILOGRAM = re.compile(r"\bkg\b|\bkilogram\b|\bkilo(?:gramme)?\b")

_BY_DIMENSION: Mapping[Dimension, Plain] = {
    Dimension.MASS: lambda style, x: style.weight(x),
    Dimension.VOLUME: lambda style, x: style.volume(x),
    Dimension.LENGTH: lambda style, x: style.length(x),
    Dimension.TEMPERATURE: lambda style, x: style.temperature(x),
    Dimension.TIME: lambda style, x: style.duration(x),
    Dimension.COUNT: pieces,
}
_DIMENSIONS = {"kg": Dimension.MASS, "L": Dimension.VOLUME}


def as_read(style: Style, unit: str, value: float, width: float = math.nan) -> float:
    """A value as the page prints it, so that a verdict never contradicts what is beside it.

    Money is read to the currency's decimals and a share to a tenth of a per cent, neither finer
    than its interval is wide; values in other units are left as they are.
    """
    if unit in {"money/year", "money/week"}:
        return year_as_read(style, value, width)
    if unit == "money whole":
        return numerals.as_read(value, 0)
    if unit == "money":
        places = interval_places(width, style.places)
        return numerals.as_read(coarse(value, places), style.places if places > 0 else 0)
    if unit == "share down":
        return share_rounded_down(value, width)
    if unit != "share":
        return value
    return numerals.as_read(value, max(interval_places(width, SHARE_PLACES), 2))


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
    return _KILOGRAM.sub(lambda found: unit if found[0] == "kg" else tr("pound"), words)


def paragraph_of(sentences: Sequence[str]) -> tuple[str, ...]:
    """Sentences as one paragraph under a lead, if there is any.

    >>> paragraph_of(["Food costs less.", "Labour more."]), paragraph_of([])
    (('Food costs less. Labour more.',), ())
    """
    return (" ".join(sentences),) if sentences else ()


def capital(text: str) -> str:
    """The first letter large, the others as they are.

    >>> capital("cost per kg in CAD")
    'Cost per kg in CAD'
    """
    words = written(text)
    return words[:1].upper() + words[1:]


def _plain(show: Plain) -> Show:
    """A rule that needs not know what the row's item is priced by."""
    return lambda style, x, _: show(style, x)


def _any_row(near: Near) -> Callable[[Style, float, float | None, str], str]:
    """A rule of an interval that needs not know what the row's item is priced by."""
    return lambda style, x, other, _: near(style, x, other)


def _square(style: Style, x: float) -> str:
    unit = style.unit(_MASS)
    square = convert(convert(x, unit), unit)
    return f"{_small(style, square, -4, 5)} {unit}²"


def written_unit(style: Style, per: str) -> str:
    """The unit that the kitchen writes for what is priced by the kg, the L or each."""
    return style.unit(_DIMENSIONS[per]) if per in _DIMENSIONS else per


def stated_share(style: Style, x: float) -> str:
    """A rate with its own digits: one decimal of a per cent at least, three at most.

    >>> [stated_share(Style.of("en_US", "USD"), x) for x in (0.05, 0.0825, 0.14975)]
    ['5.0%', '8.25%', '14.975%']
    """
    places = (places for places in (1, 2) if abs(round(100 * x, places) - 100 * x) < _HAIR)
    return style.percent(x, next(places, 3))


def change_words(style: Style, x: float) -> str:
    """A rise or a fall to the whole per cent, with an arrow; steady up to 5 of them.

    >>> [change_words(Style.of("en_US", "USD"), x) for x in (0.124, -0.31, 0.05, -0.01)]
    ['↑ up 12%', '↓ down 31%', '→ steady', '→ steady']
    """
    if abs(x) < STEADY:
        return tr("→ steady")
    share = style.percent(abs(x), 0)
    return tr("↑ up {share}", share=share) if x > 0 else tr("↓ down {share}", share=share)


def written_factor(style: Style, x: float) -> str:
    """A factor to two decimals, and one below 1 to three figures: no price is known better.

    >>> style = Style.of("en_CA", "CAD")
    >>> [written_factor(style, x) for x in (1.385, -1.0577, 0.4375, 0.0000312, 0.0)]
    ['1.39', '−1.06', '0.438', '0.0000312', '0']
    """
    return _small(style, x, 0, 2)


def _tenths(style: Style, x: float) -> str:
    """A number of portions, plates or guests: a whole one without a decimal."""
    return style.count(x) if x == round(x) else style.number(x, 1)


def _small(style: Style, x: float, least_tens: int, places: int) -> str:
    """A number with so many decimals; with three figures below a power of ten, or nothing."""
    if abs(x) < _NO_FACTOR:
        return style.count(0)
    tens = Decimal(repr(float(x))).adjusted()
    return style.number(x, 2 - tens if tens < least_tens else places)


def _hours_per(style: Style, hours: float, unit: str) -> str:
    time = style.duration(hours / convert(1.0, unit))
    return tr("{amount} each", amount=time) if unit == "each" else f"{time} / {unit_name(unit)}"


def _amount(style: Style, value: float, per: str) -> str:
    match per:
        case "kg":
            return style.weight(value)
        case "L":
            return style.volume(value)
        case _:
            if per == "whole portions":
                return whole_portions(style, value)
            if per != "portions":
                return pieces(style, value)
            return style.count(value) if value == round(value) else style.number(value, 2)


def _chance(style: Style, p_value: float) -> str:
    if p_value < 0.001:
        return f"p < {style.number(0.001, 3)}"
    return f"p = {style.number(p_value, 2 if p_value >= 0.1 else 3)}"


def _tested(style: Style, value: float, of: str) -> str:
    """What a test of a tasting is about: the row says in what it is counted."""
    match of:
        case "points" | "ranks":
            return style.number(value, 1)
        case "rank sums":
            return style.number(value, 0 if value.is_integer() else 1)
        case "points apart":
            return style.numerals(value, 1, plus=True)
        case "share":
            return style.percent(value)
        case "h":
            return style.duration(value)
        case _:
            return style.number(value, 2)


_RULES: Mapping[str, Show] = {
    "money": _plain(Style.money),
    "money whole": _plain(lambda style, x: style.amounts(x, 0)),
    "money up": _plain(Style.money),
    "money/kg": _plain(Style.money_per_kg),
    "money/h": _plain(Style.money_per_hour),
    "money/kWh": _plain(Style.money_per_kwh),
    "money/h earned": _plain(money_an_hour),
    "money/h limit": _plain(wage_limit),
    "money/week": _plain(money_a_year),
    "money/month": _plain(money_a_month),
    "money/year": _plain(money_a_year),
    "money/unit": lambda style, x, per: style.money_per(x, written_unit(style, per)),
    "share": _plain(Style.percent),
    "share stated": _plain(stated_share),
    "share change": _plain(change_words),
    "share down": _plain(share_down),
    "factor": _plain(written_factor),
    # A portion cost over the price of a kilogram is itself a weight: it turns with the unit.
    "portion factor": _plain(
        lambda style, x: written_factor(style, convert(x, style.unit(Dimension.MASS)))
    ),
    "count": _plain(
        lambda style, x: style.count(x) if x == round(x) else style.number(x, 2),
    ),
    "count down": _plain(count_down),
    "plates": _plain(Style.count),
    "portions": _plain(_tenths),
    # A heading says that it is a week's.
    "count/week": _plain(lambda style, x: _tenths(style, float(half_up(x, 1)))),
    "whole portions": _plain(whole_portions),
    "week": _plain(lambda style, x: tr("{x} weeks", x=style.number(x, 1))),
    "°C": _plain(Style.temperature),
    "mm": _plain(written_thickness),
    "mm down": _plain(thickness_that_fits),
    "unit": _amount,
    "h": _plain(Style.duration),
    "h/unit": lambda style, x, per: _hours_per(style, x, written_unit(style, per)),
    "kg": _plain(Style.weight),
    "kg down": _plain(weight_down),
    "kg2": _plain(_square),
    "L": _plain(Style.volume),
    "kWh": _plain(Style.energy),
    "kW": _plain(Style.power),
    "flag": _plain(lambda _, x: tr("yes") if x else tr("no")),
    "chance": _plain(_chance),
    "times in 10": _plain(times_in_ten),
    "points": _plain(lambda style, x: style.number(x, 1)),
    "tested": _tested,
}

_ENDS: Mapping[str, Callable[[Style, float, float | None, str], str]] = {
    "money near": _any_row(money_near),
    **{f"money/{time} near": _any_row(money_a_year) for time in ("week", "year")},
    "money up near": _any_row(money_up),
    "money/month near": _any_row(money_a_month),
    "money/kg near": lambda style, x, other, _: rate_near(style, x, other, style.unit(_MASS)),
    "money/h near": lambda style, x, other, _: rate_near(style, x, other, "h"),
    "money/h earned near": _any_row(money_an_hour),
    "money/h limit near": _any_row(wage_limit),
    "money/unit near": lambda style, x, other, per: rate_near(
        style, x, other, written_unit(style, per)
    ),
    "share near": _any_row(share_near),
    "share down near": _any_row(share_down),
    "factor near": _any_row(factor_near),
    "portion factor near": _any_row(portion_factor_near),
    "week near": _any_row(weeks_near),
}
_ESTIMATES: Mapping[str, Way] = {"h up": "up", "h down": "down", "h near": "near"}

if unlike := (_RULES.keys() | _ENDS.keys() | _ESTIMATES.keys()) ^ FIGURE_UNITS.keys():
    raise ValueError(f"shown or declared only: {sorted(unlike)}")


_NEAR = frozenset(unit.removesuffix(" near") for unit in _ENDS if unit.endswith(" near"))


def is_written_near(unit: str) -> bool:
    """Whether a figure in a unit is written no finer than its interval, where it has one."""
    return unit in _NEAR


def shown(
    style: Style, unit: str, value: float, per: str = "kg", limit: float | None = None
) -> str:
    """A value in its unit as the page prints it; an en dash where it is not known.

    `per` is the unit (kg, L or each) that the row of an item is priced by, or what a test's
    row is counted in; an estimate is never rounded across its `limit`, in the same unit, and
    the end of an interval, whose limit is its other end, no finer than this is wide.
    """
    if math.isnan(value) or math.isinf(value):
        return style.number(None)
    if unit in _ESTIMATES:
        known = None if limit is None or math.isnan(limit) else limit * 60
        return about(style, value * 60, _ESTIMATES[unit], known)
    if unit in _ENDS:
        return _ENDS[unit](style, value, limit, per)
    return _RULES[unit](style, value, per)
