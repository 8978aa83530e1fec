"""What a kitchen aims at and asks for: a margin against its prices, covers in their order."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from statistics import median

from builder.language import tr
from builder.problems import Problem
from builder.records.content import Content
from builder.records.slips import slip
from builder.records.takings import week_of
from builder.records.written import Doubted, Value, rounded, warning

# A margin is this part of the middle price at the least, at the most, and usually. Common
# practice, no published source.
LEAST, MOST, USUAL = 0.08, 0.9, 0.6
# So many weeks of all that the plates sell nobody buys at once. Common practice, no published
# source.
WEEKS = 5.0
# A week has no more services than these. Common practice, no published source.
SERVICES = 14.0


def check_aims(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of a margin that no plate can leave, or every plate does, and of covers that fall."""
    yield from _margin(content, reported)
    yield from _weeks_of_covers(content, reported)
    yield from _services_of_forecasts(content, reported)
    kitchen = content.kitchen
    for less, more in pairwise(kitchen.covers):
        if more.value < less.value and not {less.place, more.place} & reported:
            value = Value("kitchen.covers", more, kitchen, kitchen.path)
            message = tr(
                "{more} comes after {less}, and numbers of covers usually rise",
                more=more.text,
                less=less.text,
            )
            yield from warning(value, message, tr("one of them may be a slip"))


def _weeks_of_covers(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Numbers of portions that all plates together sell in many weeks only.

    A plate of which nothing is known counts as the mean of the others; sold by the piece or by
    the weight, nothing is known of what a week takes.
    """
    kitchen, weeks = (
        content.kitchen,
        [w for p in content.plates.values() if (w := week_of(p, reported))],
    )
    if not weeks or content.buffets or content.menus:
        return
    week = sum(weeks) / len(weeks) * len(content.plates)
    for covers in kitchen.covers:
        if covers.place not in reported and covers.value > WEEKS * week:
            value = Value("kitchen.covers", covers, kitchen, kitchen.path)
            message = tr(
                "{covers} portions are what all plates sell in {weeks} weeks",
                covers=covers.text,
                weeks=rounded(covers.value / week, 2),
            )
            hint = tr("this number, or a forecast, may be a slip")
            yield from warning(value, message, hint)


def _services_of_forecasts(content: Content, reported: Doubted) -> Iterator[Problem]:
    """A plate's forecast against the largest number of portions that the kitchen buys for at once.

    Where a month tells what is sold, it is held against that instead.
    """
    most = max((c.value for c in content.kitchen.covers if c.place not in reported), default=0.0)
    for plate in content.plates.values():
        forecast = plate.forecast
        if forecast is None or plate.sold or not most or forecast.place in reported:
            continue
        if forecast.value > SERVICES * most:
            message = tr(
                "{forecast} a week is {times} times the most that buying is shown for, {covers}",
                forecast=forecast.text,
                times=rounded(forecast.value / most, 2),
                covers=f"{most:g}",
            )
            value = Value("plates.forecast", forecast, plate, plate.path)
            yield from warning(value, message, slip(forecast, most / forecast.value), "work")


def _margin(content: Content, reported: Doubted) -> Iterator[Problem]:
    targets = content.kitchen.targets
    margin = targets.margin if targets else None
    prices = [
        plate.price.value
        for plate in content.plates.values()
        if plate.price.place not in reported and "price" not in plate.unread
    ]
    if margin is None or margin.value <= 0 or margin.place in reported or not prices:
        return
    middle = median(prices)
    middle_price = f"{middle:.{margin.coins or 0}f}"
    if margin.value > max(prices):
        message = tr("{margin} is more than any plate of the menu costs", margin=margin.text)
    elif margin.value > MOST * middle:
        message = tr(
            "{margin} is much to aim at: the middle plate costs {price}",
            margin=margin.text,
            price=middle_price,
        )
    elif margin.value < LEAST * middle:
        message = tr(
            "{margin} is little to aim at: the middle plate costs {price}",
            margin=margin.text,
            price=middle_price,
        )
    else:
        return
    value = Value("kitchen.targets.margin", margin, content.kitchen, content.kitchen.path)
    yield from warning(value, message, slip(margin, USUAL * middle / margin.value))
