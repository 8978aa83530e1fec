"""How pages write what is not known for sure: ends of an interval, and chances in words.

The twin of what `numbers.js` writes.
"""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from math import ceil, floor, isclose, isfinite, isnan, nan

from builder.display.numerals import MISSING, as_read
from builder.display.style import Style, per, per_unit, unit_name
from builder.language import tr
from builder.quantities import Dimension, convert
from builder.rounding import nearest_whole

# A percentage is written to a tenth at the finest.
_PERCENT_PLACES = 1
# A factor is written with so many figures at the finest.
_FACTOR_FIGURES = 3
# What a number may lie above a step by rounding alone.
_HAIR = 1e-9
_WIDTH_DIGITS = 9


def interval_places(width: float, most: int) -> int:
    """Decimals for the ends of an interval: two digits of its width; below 0 for tens and more.

    >>> interval_places(0.57, 2), interval_places(1.4, 2), interval_places(3640.0, 2)
    (2, 1, -2)
    """
    if not (isfinite(width) and width > 0):
        return most
    # A width is a difference: its last digits are rounding, which 1.0 less a hair must not show.
    power = int(f"{width:.{_WIDTH_DIGITS}e}".partition("e")[2])
    return min(most, 1 - power)


def coarse(x: float, places: int) -> float:
    """A number rounded to so many decimals, to tens, hundreds ... where they are below 0.

    >>> coarse(9.378, 1), coarse(-1554.5, -2)
    (9.4, -1600.0)
    """
    if not isfinite(x):
        return x
    if places > 0:
        return as_read(x, places)
    step = 10.0**-places
    return nearest_whole(x / step) * step if places < 0 else x


def interval_width(value: float, low: float, high: float) -> float:
    """How wide an interval is; not known without an end.

    With one end open it is taken for as wide on that side; open on both sides, from -inf to inf,
    for so wide that two digits of the value are left: with one, a price rounded up to it may lie
    far from what it stands for.

    >>> from math import inf
    >>> interval_width(9.0, 8.0, 11.0), interval_width(9.0, 8.0, inf), interval_width(9.0, 9.0, inf)
    (3.0, 2.0, 9.0)
    >>> interval_width(9.0, -inf, inf), interval_width(9.0, nan, nan)
    (9.0, nan)
    """
    if isfinite(low) and isfinite(high):
        return high - low
    known = [end for end in (low, high) if isfinite(end)]
    if isnan(low) and isnan(high):
        return nan
    return (2 * abs(value - known[0]) if known else 0) or abs(value) or nan


def money_near(style: Style, x: float, other: float | None) -> str:
    """An amount no finer than its interval is wide; `other` is the interval's other end.

    >>> style = Style.of("en_CA", "CAD")
    >>> money_near(style, 9.378, 10.834), money_near(style, -1554.5, 2084.0)
    ('$9.40', '−$1,600')
    """
    return _amount_near(style, x, other, coarse)


def money_a_year(style: Style, x: float, other: float | None = None) -> str:
    """An amount a year to three figures, without coins from ten up: nobody knows a year closer.

    What a week earns, or an hour, is written so, too.

    Nor is it written finer than its interval, whose other end is `other`, but for the first
    digit: what is something a month is not written as nothing a year.

    >>> style = Style.of("en_CA", "CAD")
    >>> money_a_year(style, 20083.44), money_a_year(style, 328.8, 11280.0)
    ('$20,100', '$300')
    """
    width = abs(x - other) if other is not None else nan
    places = _year_places(style, x, width)
    return style.amounts(_as_read(x, places), style.places if places > 0 else 0)


def money_an_hour(style: Style, x: float, other: float | None = None) -> str:
    """What an hour earns, to as many figures as `money_a_year` writes.

    >>> style = Style.of("en_CA", "CAD")
    >>> money_an_hour(style, 2774.8), money_an_hour(style, 14.96), money_an_hour(style, 66.9, 86.9)
    ('$2,770/h', '$15/h', '$67/h')
    """
    return f"{money_a_year(style, x, other)}/{unit_name('h')}"


def wage_limit(style: Style, x: float, other: float | None = None) -> str:
    """A wage at which something ends, to three figures and no finer than its interval is wide.

    >>> style = Style.of("en_CA", "CAD")
    >>> wage_limit(style, 1769.31), wage_limit(style, 20.79), wage_limit(style, 9.5)
    ('$1,770/h', '$20.80/h', '$9.50/h')
    """
    width = abs(x - other) if other is not None else 0.0
    places = min(interval_places(width, style.places), 2 - _tens(x))
    amount = style.amounts(_as_read(x, places), style.places if places > 0 else 0)
    return per(amount, "h")


def count_down(style: Style, x: float) -> str:
    """The most of something that a week could give, to three figures and never above itself.

    >>> style = Style.of("en_CA", "CAD")
    >>> count_down(style, 23576.0), count_down(style, 468.0), count_down(style, 17.6)
    ('23,500', '468', '17')
    """
    step = 10.0 ** max(_tens(x) - 2, 0)
    return style.count(floor(x / step + _HAIR) * step)


def whole_portions(style: Style, x: float) -> str:
    """Portions that are served whole: a part of one is none.

    >>> style = Style.of("en_CA", "CAD")
    >>> whole_portions(style, 41.6), whole_portions(style, 47.99999999999), whole_portions(style, 3)
    ('41', '48', '3')
    """
    return style.count(floor(x + _HAIR))


def year_as_read(style: Style, x: float, width: float = nan) -> float:
    """An amount a year as `money_a_year` writes it.

    >>> year_as_read(Style.of("en_CA", "CAD"), -20083.44)
    -20100.0
    """
    return _as_read(x, _year_places(style, x, width))


def _year_places(style: Style, x: float, width: float) -> int:
    """Decimals of an amount a year: of three figures, of its interval, of one figure at least."""
    return max(interval_places(width, _finest(style, x)), min(-_tens(x), style.places))


def _finest(style: Style, x: float) -> int:
    """Decimals of three figures; none from ten up."""
    return style.places if _tens(x) < 1 else min(2 - _tens(x), 0)


def money_up(style: Style, x: float, other: float | None) -> str:
    """An amount that is asked for, as `money_near` writes it, but never below itself.

    >>> style = Style.of("en_CA", "CAD")
    >>> money_up(style, 74.72, 89.8), money_near(style, 74.72, 79.8)
    ('$75', '$74.70')
    """
    return _amount_near(style, x, other, _coarse_up)


def _amount_near(
    style: Style, x: float, other: float | None, rounded: Callable[[float, int], float]
) -> str:
    """An amount rounded to the decimals of its interval; of coins all digits are written."""
    places = interval_places(abs(x - other) if other is not None else 0.0, style.places)
    return style.amounts(rounded(x, places), style.places if places > 0 else 0)


def _coarse_up(x: float, places: int) -> float:
    """As `coarse`, but never below the number."""
    if places > 0:
        return ceil(x * 10.0**places - _HAIR) / 10.0**places
    return ceil(x / 10.0**-places - _HAIR) * 10.0**-places


def rounded_up(x: float, width: float, most: int) -> float:
    """An amount that is asked for as `money_up` writes it, with `most` decimals at the most.

    >>> rounded_up(31.66, 12.0, 2), rounded_up(31.66, 2.0, 2), rounded_up(31.66, nan, 2)
    (32.0, 31.7, 31.66)
    """
    return _coarse_up(x, interval_places(width, most)) if isfinite(x) else x


def rate_near(style: Style, x: float, other: float | None, unit: str) -> str:
    """A price per unit [money per base unit] no finer than its interval is wide.

    >>> rate_near(Style.of("en_US", "USD", "us customary"), 22.41, 31.2, "lb")
    '$10.20/lb'
    """
    price, end = (each and each * per_unit(unit) for each in (x, other))
    return per(money_near(style, price or 0.0, end), unit)


def money_a_month(style: Style, x: float, other: float | None = None) -> str:
    """An amount to three figures, without coins from ten up: nobody knows a month closer.

    Nor is it written finer than its interval, whose other end is `other`, but for the digits
    without which twelve of it would not be the year that is written beside it.

    >>> style = Style.of("en_CA", "CAD")
    >>> money_a_month(style, 3334.6), money_a_month(style, -65.974), money_a_month(style, 27.4, 940)
    ('$3,330', '−$66', '$27')
    >>> money_a_month(style, 27.4, 147), money_near(style, 12 * 27.4, 12 * 147)
    ('$27', '$300')
    """
    width = abs(x - other) if other is not None else nan
    places = style.places if _month_places(style, x, width) > 0 else 0
    return style.amounts(month_as_read(style, x, width), places)


def month_as_read(style: Style, x: float, width: float = nan) -> float:
    """An amount a month as `money_a_month` writes it, so that a sum is one of what is read.

    >>> [month_as_read(Style.of("en_CA", "CAD"), x) for x in (3334.6, -65.974, 3.456)]
    [3330.0, -66.0, 3.46]
    """
    return _as_read(x, _month_places(style, x, width))


def _month_places(style: Style, x: float, width: float) -> int:
    finest = _finest(style, x)
    places = interval_places(width, finest)
    year = _year_places(style, 12 * x, 12 * width)
    while isfinite(width) and places < finest and not _same_year(x, places, year):
        places += 1
    return places


def _same_year(x: float, places: int, year: int) -> bool:
    """Whether twelve of an amount as it is rounded are the year as that is rounded."""
    return isclose(_as_read(12 * _as_read(x, places), year), _as_read(12 * x, year), abs_tol=_HAIR)


def _as_read(x: float, places: int) -> float:
    """As `coarse`, without coins where no decimals are left."""
    return coarse(x, places) if places or not isfinite(x) else as_read(x, 0)


def weeks_near(style: Style, x: float, other: float | None) -> str:
    """A number of weeks, no finer than its interval is wide.

    >>> weeks_near(Style.of("en_CA", "CAD"), 13.46, 41.2)
    '13 weeks'
    """
    places = interval_places(abs(x - other) if other is not None else nan, 1)
    return tr("{x} weeks", x=style.number(coarse(x, places), max(places, 0)))


def _tens(x: float) -> int:
    """The power of ten of an amount's first digit."""
    return Decimal(repr(float(x))).adjusted() if isfinite(x) and x else 0


def share_near(style: Style, x: float, other: float | None) -> str:
    """A share in per cent, no finer than its interval is wide.

    >>> share_near(Style.of("en_CA", "CAD"), 0.284, 0.412)
    '28%'
    """
    width = 100 * abs(x - other) if other is not None else 0.0
    return style.percent(x, max(interval_places(width, _PERCENT_PLACES), 0))


def share_down(style: Style, x: float, other: float | None = None) -> str:
    """The most that a share may be, as `share_near` writes it, but never above itself.

    >>> style = Style.of("en_CA", "CAD")
    >>> share_down(style, 0.1753, 0.284), share_down(style, 0.1753), share_down(style, 0.18)
    ('17%', '17.5%', '18.0%')
    """
    width = abs(x - other) if other is not None else 0.0
    places = max(interval_places(100 * width, _PERCENT_PLACES), 0)
    return style.percent(share_rounded_down(x, width), places)


def share_rounded_down(x: float, width: float) -> float:
    """The most that a share may be as `share_down` writes it; `width` is that of its interval.

    >>> share_rounded_down(0.1753, 0.11), share_rounded_down(0.1753, nan)
    (0.17, 0.175)
    """
    steps = 10.0 ** (2 + max(interval_places(100 * width, _PERCENT_PLACES), 0))
    return floor(x * steps + _HAIR) / steps if isfinite(x) else x


def factor_near(style: Style, x: float, other: float | None) -> str:
    """A cost factor to three figures, no finer than its interval is wide.

    >>> style = Style.of("en_CA", "CAD")
    >>> factor_near(style, 2.2867, 2.71), factor_near(style, 1.6842, 1.6913)
    ('2.29', '1.68')
    """
    width = abs(x - other) if other is not None else nan
    return style.number(x, max(interval_places(width, _FACTOR_FIGURES - 1 - _tens(x)), 0))


def portion_factor_near(style: Style, x: float, other: float | None) -> str:
    """A portion's cost factor [base unit of mass], which turns with the kitchen's unit.

    >>> portion_factor_near(Style.of("en_US", "USD", "us customary"), 0.4116, 0.6)
    '0.91'
    """
    unit = style.unit(Dimension.MASS)
    return factor_near(style, convert(x, unit), other and convert(other, unit))


def times_in_ten(style: Style, chance: float) -> str:
    """A chance in words.

    >>> style = Style.of("en_CA", "CAD")
    >>> [times_in_ten(style, chance) for chance in (0.655, 0.973, 0.9991, 0.12, 0.003)]
    ['7 times in 10', 'more than 9 times in 10', 'more than 99 times in 100', 'once in 10', 'less than once in 100']
    """  # noqa: E501 - one list of what is written
    if not isfinite(chance):
        return MISSING
    if chance >= 0.95 or chance < 0.05:
        rarest = chance >= 0.995 or chance < 0.005
        return _rare(style, 100 if rarest else 10, likely=chance > 0.5)
    times, of = nearest_whole(chance * 10), style.count(10)
    if times == 1:
        return tr("once in {of}", of=of)
    return tr("{times} times in {of}", times=style.count(times), of=of)


def _rare(style: Style, of: int, *, likely: bool) -> str:
    if likely:
        times = style.count(of - 1)
        return tr("more than {times} times in {of}", times=times, of=style.count(of))
    return tr("less than once in {of}", of=style.count(of))
