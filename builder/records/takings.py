"""What is counted, weighed and booked in a week against what the plates usually sell and yield."""

from __future__ import annotations

import math
from collections.abc import Iterator
from statistics import median

from builder.language import tr
from builder.problems import Problem
from builder.quantities import Dimension
from builder.records.amounts import price_per_kg
from builder.records.content import Content
from builder.records.counts import Count, CountedCut
from builder.records.fields import Measure
from builder.records.guests import own_covers
from builder.records.kinds import Plate
from builder.records.peers import all_prices_of, weekly_sales
from builder.records.services import Service
from builder.records.slips import slip
from builder.records.written import Doubted, Value, far, is_far, is_far_from, times, warning

# How many times apart a period's count may lie from the plate's weeks, a service from a whole
# week of it, what was paid from the prices known, and one weighed portion from the others.
# Common practice, no published source.
WEEKS_APART, SERVICE, PAID, PORTIONS = 6.0, 3.0, 3.0, 3.0
# The least that comes of a cook: published cooking yields of meat lie between a half and 95 %,
# and a brisket loses bones and fat besides. Common practice, no published source.
LEAST_MADE = 0.25
DAYS_A_WEEK = 7
# Stock is counted by the day, the week, the month or the quarter. Common practice, no published
# source.
LONGEST_COUNT = 100


def check_takings(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of counts and covers that no week of the plate is like, and of weights beside them."""
    for count in content.counts.values():
        yield from _too_long(count) or _sold(content, count, reported)
        yield from _weighed(count)
        for name, cut in count.cuts.items():
            yield from _paid(content, count, name, cut, reported)
        yield from _made(count)
    for service in content.services.values():
        yield from _covers(content, service, reported)


def week_of(plate: Plate | None, reported: Doubted) -> float:
    """What a plate sells a week by its months, else by its forecast; 0 where neither is known."""
    if plate is None:
        return 0.0
    forecast = plate.forecast
    stated = forecast.value if forecast and forecast.place not in reported else 0.0
    return weekly_sales(plate, reported) or stated


def _days(count: Count) -> int:
    """Days of a period; 0 of a count that is of one day."""
    return (count.to.day - count.from_.day).days + 1 if count.from_ and count.to else 0


def _too_long(count: Count) -> list[Problem]:
    """A period that no stock is counted for, so that its plates can't be held to their weeks."""
    days, first, last = _days(count), count.from_, count.to
    if days <= LONGEST_COUNT or first is None or last is None:
        return []
    written = Measure(days, first.place, str(first.day), Dimension.TIME)
    message = tr("{days} days are long for one count", days=days)
    same_year = f"{last.day.year}{first.day:-%m-%d}"
    meant = same_year if same_year <= str(last.day) else ""
    hint = tr("did you mean {words}?", words=meant) if meant else ""
    return list(warning(Value("counts.from", written, count, count.path), message, hint))


def _sold(content: Content, count: Count, reported: Doubted) -> Iterator[Problem]:
    """A period's count; a day or two prove little, so only a week or more is compared."""
    days = _days(count)
    for name, counted in count.plates.items():
        plate = content.plates.get(name)
        week = week_of(plate, reported)
        sold = own_covers(counted.sold)
        if plate and days >= DAYS_A_WEEK and week and sold:
            value = Value("counts.sold", sold, count, count.path)
            usual = week * days / DAYS_A_WEEK
            yield from far(value, usual, WEEKS_APART, tr("{plate}'s weeks", plate=plate.title))


def _weighed(count: Count) -> Iterator[Problem]:
    """One portion among others of the same plate."""
    for counted in count.plates.values():
        for each in counted.weighed_portions:
            others = sorted(o.value for o in counted.weighed_portions if o is not each)
            if len(others) > 1 and is_far_from(each.value, others, PORTIONS):
                value = Value("counts.weighed portions", each, count, count.path)
                yield from far(value, median(others), PORTIONS, tr("the other portions weighed"))


def _paid(
    content: Content, count: Count, name: str, counted: CountedCut, reported: Doubted
) -> Iterator[Problem]:
    """What was paid for a delivery against the cut's prices."""
    cut, paid, bought = content.cuts.get(name), counted.paid, counted.bought
    if cut is None or paid is None or bought is None or not bought.value > 0:
        return
    found = [each.measure for each in all_prices_of(content, cut)]
    prices = [price_per_kg(cut, price) for price in found if price.place not in reported]
    if not prices or not is_far(paid.value / bought.value, median(prices), PAID):
        return
    ratio = paid.value / bought.value / median(prices)
    message = tr(
        "{paid} for {bought} is {times} the price of {cut}",
        paid=paid.text,
        bought=bought.text,
        times=times(ratio),
        cut=cut.title,
    )
    meant = slip(bought, ratio)
    # Ten times as much bought is as likely as ten times as much paid: the count's stock says.
    there = counted.opening.value if counted.opening else 0.0
    less = slip(paid, 1 / ratio)
    # A point lost makes ten times as much, ounces for pounds sixteen.
    by_unit = bool(meant) and abs(math.log10(ratio) - round(math.log10(ratio))) > 0.1
    of_weight = bought.value > PAID * there if ratio < 1 else by_unit or bool(meant and not less)
    measure, hint = (bought, meant) if of_weight else (paid, less)
    yield from warning(Value("counts.paid", measure, count, count.path), message, hint)


def _made(count: Count) -> Iterator[Problem]:
    """What came of a cook, by what went in."""
    for counted in count.cooks.values():
        used, made = counted.used, counted.made
        if used and made and 0 < made.value < LEAST_MADE * used.value:
            value = Value("counts.made", made, count, count.path)
            message = tr(
                "{made} of {used} is {made2:.0%} of what went in",
                made=made.text,
                used=used.text,
                made2=made.value / used.value,
            )
            yield from warning(value, message, slip(made, 0.7 * used.value / made.value))


def _covers(content: Content, service: Service, reported: Doubted) -> Iterator[Problem]:
    """One service against a whole week of the plate."""
    for name, serving in service.plates.items():
        plate = content.plates.get(name)
        week, covers = week_of(plate, reported), own_covers(serving.covers)
        if plate and week and covers and covers.value > SERVICE * week:
            value = Value("services.plates.covers", covers, service, service.path)
            ratio = covers.value / week
            message = tr(
                "{covers} in one service is {times} the week's sales of {plate}",
                covers=covers.text,
                times=times(ratio),
                plate=plate.title,
            )
            yield from warning(value, message, slip(covers, 1 / ratio))
