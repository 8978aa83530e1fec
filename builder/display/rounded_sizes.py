"""Sizes that pages write in a way of their own: the most of a weight, and what waits for days."""

from __future__ import annotations

from math import floor

from builder.display.numerals import MISSING, is_missing
from builder.display.scales import STEPS, step_for
from builder.display.style import POUNDS_ONLY_FROM, Style
from builder.language import tr
from builder.quantities import Dimension, convert
from builder.rounding import without_noise

# What a number may lie below a step by rounding alone.
_HAIR = 1e-9


def weight_down(style: Style, kg: float | None) -> str:
    r"""Write the most that a mass [kg] may be: as `Style.weight` does, but never above itself.

    >>> metric, customary = Style.of("en_CA", "CAD"), Style.of("en_US", "USD", "us customary")
    >>> weight_down(metric, 0.1679), weight_down(metric, 0.168)
    ('167\xa0g', '168\xa0g')
    >>> weight_down(customary, 0.16839), weight_down(customary, 0.5)
    ('5.9\xa0oz', '1\xa0lb\xa01.6\xa0oz')
    """
    if kg is None or is_missing(kg):
        return MISSING
    step = step_for(kg, STEPS[style.units][Dimension.MASS])
    unit, places = step.unit, step.places
    if unit == "lb" and abs(convert(kg, unit)) < POUNDS_ONLY_FROM:
        unit, places = "oz", 1
    steps = without_noise(convert(kg, unit)) * 10**places
    return style.weight(floor(steps + _HAIR) / 10**places / convert(1.0, unit))


def lasting(style: Style, hours: float) -> str:
    r"""Write how long something waits or keeps [h]: two days and more as days and hours.

    >>> [lasting(Style.of("en_CA", "CAD"), hours) for hours in (144, 24, 123.75)]
    ['6 days', '24\xa0h', '5 days 3\xa0h\xa045\xa0min']
    """
    days, rest = divmod(without_noise(hours), 24)
    if not days > 1:
        return style.duration(hours)
    whole = tr("{days:.0f} days", days=days)
    return f"{whole} {style.duration(rest)}" if rest else whole
