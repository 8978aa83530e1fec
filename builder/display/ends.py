"""Both ends of an input's own interval: no finer than it is wide, and fine enough to differ."""

from __future__ import annotations

from collections.abc import Callable

from builder.display.chances import coarse, interval_places
from builder.display.scales import UnitSystem
from builder.display.style import NBSP, Style, per, per_unit
from builder.quantities import convert
from builder.rounding import nearest_whole, without_noise

# An interval of fewer minutes has ends with seconds, to five of them if that tells them apart.
_WHOLE_MINUTES = 5.0
_SECONDS = (5, 1)
# Decimals that two ends are told apart with at the most.
_MOST = 6
Ends = tuple[str, str]


def own_ends(style: Style, unit: str, low: float, high: float, priced_by: str) -> Ends:
    """The ends of an input [its unit], as its page writes them but for their digits.

    `priced_by` is the unit behind the stroke of a price or rate, as the kitchen writes it.

    >>> own_ends(Style.of("en_GB", "GBP"), "money/kg", 25.013, 29.587, "kg")
    ('£25.00/kg', '£29.60/kg')
    >>> own_ends(Style.of("en_GB", "GBP"), "share", 0.8271, 0.8644, "")
    ('82.7%', '86.4%')
    >>> [each.replace("\\xa0", " ") for each in
    ...  own_ends(Style.of("en_GB", "GBP"), "h", 0.0452, 0.0548, "")]
    ['2 min 45 s', '3 min 15 s']
    >>> [each.replace("\\xa0", " ") for each in
    ...  own_ends(Style.of("en_GB", "GBP"), "L", 0.0405, 0.0495, "")]
    ['41 mL', '50 mL']
    """
    kind, _, _ = unit.partition("/")
    match kind:
        case "money":
            return _money(style, low, high, priced_by)
        case "share" | "share stated":
            least = max(min(interval_places(100 * (high - low), _MOST), 1), 0)
            return _apart(style.percent, low, high, least)
        case "h" if unit == "h":
            return _times(style, low, high)
        case "kg":
            small = "oz" if style.units is UnitSystem.US_CUSTOMARY else "g"
            return _plainly(style, style.weight, low, high, small)
        case "L":
            small = "fl oz" if style.units is UnitSystem.US_CUSTOMARY else "mL"
            return _plainly(style, style.volume, low, high, small)
    tail = f"\N{NO-BREAK SPACE}{unit}" if kind == "kWh" else ""
    places = interval_places(high - low, _MOST)
    return _apart(
        lambda x, n: f"{style.number(coarse(x, n), max(n, 0))}{tail}", low, high, min(places, 2)
    )


def _money(style: Style, low: float, high: float, priced_by: str) -> Ends:
    factor = per_unit(priced_by) if priced_by else 1.0

    def written(x: float, places: int) -> str:
        shown = places if places > style.places else style.places if places > 0 else 0
        amount = style.amounts(coarse(x, places), shown)
        return per(amount, priced_by) if priced_by else amount

    places = interval_places(factor * (high - low), _MOST)
    return _apart(written, factor * low, factor * high, min(places, style.places))


def _times(style: Style, low: float, high: float) -> Ends:
    """Whole minutes, or with seconds where whole ones would move an end by over a tenth of the
    interval [h]: nobody counts in parts of a minute.
    """
    if (high - low) * 60 >= _WHOLE_MINUTES:
        return style.duration(low), style.duration(high)
    for step in _SECONDS:
        ends = _with_seconds(style, low, step), _with_seconds(style, high, step)
        if ends[0] != ends[1]:
            return ends
    return _apart(lambda x, n: style.in_unit(x, "s", n), low, high, 1)


def _with_seconds(style: Style, hours: float, step: int) -> str:
    """A time [h] to so many seconds; seconds alone below two minutes, as pages write them."""
    seconds = nearest_whole(without_noise(hours * 3600 / step)) * step
    minutes, rest = divmod(seconds, 60)
    if seconds < 120 or not rest:
        return style.duration(seconds / 3600)
    return f"{style.duration(minutes / 60)}{NBSP}{rest}{NBSP}s"


def _plainly(
    style: Style, usual: Callable[[float], str], low: float, high: float, small: str
) -> Ends:
    """As a page writes the size, in a small unit with decimals where that shows no difference."""
    if usual(low) != usual(high):
        return usual(low), usual(high)
    places = max(interval_places(convert(high, small) - convert(low, small), _MOST), 1)
    return _apart(lambda x, n: style.in_unit(x, small, n), low, high, places)


def _apart(write: Callable[[float, int], str], low: float, high: float, places: int) -> Ends:
    """Both ends with the fewest decimals from `places` up that tell them apart."""
    for more in range(places, _MOST):
        if write(low, more) != write(high, more):
            return write(low, more), write(high, more)
    return write(low, _MOST), write(high, _MOST)
