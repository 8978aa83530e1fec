"""Slips of the pen: values out of proportion to their own history, to others, to any kitchen.

Nothing is refused here: what is rare may be right. A record that says `checked: DATE` is
believed for all that it held on that day.
"""

from __future__ import annotations

import math
import re
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from statistics import median

from builder.data import PlausibleRange, plausible_ranges
from builder.language import tr
from builder.problems import Problem, Severity
from builder.quantities import Dimension, convert
from builder.records.aims import check_aims
from builder.records.batches import check_batches
from builder.records.bath_hours import check_bath_hours
from builder.records.chains import stages_of
from builder.records.closing import check_closing
from builder.records.content import Content
from builder.records.fields import Day, Measure
from builder.records.helpings import check_helpings
from builder.records.hot_hours import check_hot_hours
from builder.records.in_names import check_names
from builder.records.kinds import Cook, Cut, Equipment, PantryItem, Plate
from builder.records.larder import check_larder
from builder.records.loads import check_tested_loads
from builder.records.long_cooks import check_long_cooks
from builder.records.losses import check_losses
from builder.records.meters import check_meters
from builder.records.moves import against_last
from builder.records.offered import check_offered
from builder.records.pack_history import check_packs
from builder.records.pairs import check_pairs
from builder.records.peers import (
    against_history,
    against_peers,
    against_price,
    against_sales,
    against_the_other,
    listed_prices,
)
from builder.records.pieces import check_pieces
from builder.records.rich import check_rich
from builder.records.roles import check_roles
from builder.records.slips import slip, slip_into
from builder.records.sold_in import listed_minimums
from builder.records.stages import Stage
from builder.records.takings import check_takings
from builder.records.tariffs import check_currency, check_tariffs
from builder.records.weighings import check_weighings
from builder.records.work import check_work
from builder.records.written import (
    Doubted,
    Value,
    believed,
    general_key,
    rounded,
    values_of,
    warning,
)

# Hours of work that the middle plate of a menu costs. Common practice, no published source.
PLATE_OF_WAGE = (0.2, 8.0)
OLDEST = date(2000, 1, 1)
# A lone day so many years from every other day of the kitchen is in doubt, where there are more
# days than these. Common practice, no published source.
ALONE, FEW_DAYS = 5, 3
# A kitchen that names its day writes something down in so many days [two years]. Common practice,
# no published source.
LATE = 730
# Others say what a slip was meant to be where they lie within so many times of each other.
CLOSE = 6.0
# Saffron costs some hundreds of hours of work for a kilogram, and a batch takes a few grams [kg].
# Common practice, no published source.
DEAREST, PINCH = 1500.0, 0.02
# Fish that is cooked long to be tender, in English and French, and ways that take a night.
_TOUGH_FISH = re.compile(r"octopus|squid|cuttlefish|conch|abalone|poulpe|pieuvre|calmar|seiche")
_SMOKED = re.compile(r"smok|fum")
_BASE_UNITS = {
    Dimension.MASS: "kg",
    Dimension.VOLUME: "L",
    Dimension.COUNT: "each",
    Dimension.TIME: "h",
    Dimension.ENERGY: "kWh",
}
# What a day that is doubted rests on: all days that something was weighed, tasted or priced on.
_OF_DAYS = ("cuts", "cooks", "pantry", "tastings", "weights", "prices")
Check = Callable[[Content, Doubted], Iterator[Problem]]


def check_proportion(content: Content) -> Iterator[Problem]:
    """Warn of every value that is far from what it can be compared with, once for each.

    The checks go from the surest to the least sure: what one of them doubts is no measure for
    another value in the next.
    """
    found = list(values_of(content))
    listed = [*listed_prices(content), *listed_minimums(content)]
    checks: list[Check] = [
        check_currency,
        _wage,
        check_tariffs,
        against_history,
        partial(_against_ranges, found=[*found, *listed]),
        check_losses,
        check_weighings,
        check_batches,
        check_closing,
        check_helpings,
        check_rich,
        check_meters,
        check_work,
        lambda content, reported: against_peers(content, found, reported),
        check_pairs,
        against_the_other,
        against_last,
        against_sales,
        check_takings,
        check_packs,
        check_pieces,
        check_names,
        check_tested_loads,
        against_price,
        check_long_cooks,
        check_bath_hours,
        check_hot_hours,
        check_larder,
        check_roles,
        check_offered,
        check_aims,
        _days,
        _ahead,
    ]
    reported: Doubted = set()
    for check in checks:
        for problem in list(check(content, reported)):
            if problem.place not in reported:
                reported.add(problem.place)
                yield problem


# Against what it can be in any kitchen


def _against_ranges(
    content: Content, reported: Doubted, found: Sequence[Value]
) -> Iterator[Problem]:
    wage = _sound_wage(content, reported)
    within: dict[PlausibleRange, list[Value]] = defaultdict(list)
    outside: list[tuple[Value, PlausibleRange, float]] = []
    for written in found:
        for limits in _ranges(content, written):
            value = _in_unit(_by_weight(written), limits, wage)
            if value is None or value == 0 or written.measure.place in reported:
                continue
            if limits.low <= value <= limits.high:
                within[limits].append(written)
            elif not (value > limits.high and _is_spice(content, written, value)):
                outside.append((written, limits, value))
    for written, limits, value in outside:
        like = _like(written, within[limits], partial(_in_unit, limits=limits, wage=wage))
        yield from warning(
            written,
            tr(
                "{measure} is far outside what is usual here ({reason})",
                measure=written.measure.text,
                reason=limits.reason,
            ),
            slip_into(written.measure, value, limits.low, limits.high, like),
        )


def _is_spice(content: Content, written: Value, hours: float) -> bool:
    """Whether a dear item [hours of work for a kilogram] is bought and used by the gram."""
    item, text = written.owner, written.measure.text
    if not isinstance(item, PantryItem) or written.key != "pantry.price" or hours > DEAREST:
        return False
    users = [recipe.of for recipe in content.pantry.values()]
    users += [plate.with_ for plate in content.plates.values()]
    amounts = [amount.value for of in users for name, amount in of.items() if name == item.id]
    return text.endswith("g") and not text.endswith("kg") and max(amounts, default=0.0) <= PINCH


def _by_weight(written: Value) -> Measure:
    """The price of what is priced each, by weight where the weight of one is known."""
    owner, measure = written.owner, written.measure
    priced = isinstance(owner, Cut | PantryItem) and written.key.endswith("s.price")
    priced = priced or written.key == "pantry.price"
    each = owner.each if isinstance(owner, Cut | PantryItem) and priced else None
    if each is None or each.value <= 0 or measure.dimension is not Dimension.COUNT:
        return measure
    return replace(measure, value=measure.value / each.value, dimension=Dimension.MASS)


def _ranges(content: Content, written: Value) -> Iterator[PlausibleRange]:
    """The ranges of a value's key; of a way of cooking, a kind of equipment, a species, too.

    What is bought by a common name has the range of that instead of any item's.
    """
    key, known = general_key(written.key), plausible_ranges()
    named = [
        limits for kind in _kinds(content, written) for limits in known.get(f"{key} ({kind})", ())
    ]
    is_item = isinstance(written.owner, PantryItem) and bool(named)
    yield from () if is_item else known.get(key, ())
    yield from named


def _kinds(content: Content, written: Value) -> list[str]:
    match written.owner:
        case Plate() if written.item:
            return str(written.item).split("-")
        case Cook() if how := _stage_how(written):
            return how.lower().replace(",", " ").split()[:1]
        case Cook() as cook:
            way = cook.how.lower().replace(",", " ").split()[:1]
            form = [str(cook.counts_as)] if cook.counts_as else []
            ways = [*way, *form, *(f"{how} {form[0]}" for how in way if form)]
            return [*ways, *_soft(content, cook)]
        case Equipment() as gear:
            return [str(gear.kind).lower()]
        case Cut() as cut:
            return [str(cut.species)]
        case PantryItem() as item:
            last = item.id.rpartition("-")[2]
            return [last, last.removesuffix("s"), last.removesuffix("es")][
                : 3 if "s" in last else 1
            ]
    return []


def _soft(content: Content, cook: Cook) -> list[str]:
    """The species of a cook's cut where it is soft: not what is smoked, nor an octopus."""
    cut = content.cuts.get(cook.cut)
    if cut is None or cut.species != "fish" or _SMOKED.search(cook.how.lower()):
        return []
    return [] if _TOUGH_FISH.search(f"{cut.id} {cut.title}".lower()) else [str(cut.species)]


def _stage_how(written: Value) -> str:
    """How a stage of a cook's own is done, for a value that the stage holds."""
    stage = getattr(written.owner, written.key.split(".")[1], None)
    return str(stage.how or "") if isinstance(stage, Stage) else ""


def _like(
    written: Value, others: Sequence[Value], in_unit: Callable[[Measure], float | None]
) -> float | None:
    """What the same key is elsewhere: for the same cut or item, else where all are close."""
    values = [value for other in others if (value := in_unit(other.measure))]
    same = [v for other in others if _of_same(written, other) and (v := in_unit(other.measure))]
    if same:
        return median(same)
    close = len(values) > 1 and min(values) > 0 and max(values) / min(values) < CLOSE
    return median(values) if close else None


def _of_same(one: Value, other: Value) -> bool:
    if isinstance(one.owner, Cook) and isinstance(other.owner, Cook):
        return one.owner.cut == other.owner.cut and one.owner.how == other.owner.how
    return bool(one.item) and one.item == other.item


def _sound_wage(content: Content, reported: Doubted) -> float:
    """The wage that other money is measured by; NaN where it is not known or in doubt itself."""
    wage = content.kitchen.loaded_wage
    return math.nan if wage is None or wage.place in reported else wage.value


def _wage(content: Content, _reported: Doubted) -> Iterator[Problem]:
    """The wage against the menu: the middle plate costs some hours of work, or part of one."""
    wage, prices = content.kitchen.loaded_wage, [p.price.value for p in content.plates.values()]
    if wage is None or not wage.value or not prices or believed(content.kitchen, None):
        return
    ratio = median(prices) / wage.value
    if not PLATE_OF_WAGE[0] <= ratio <= PLATE_OF_WAGE[1]:
        value = Value("kitchen.loaded wage", wage, content.kitchen, content.kitchen.path)
        middle = math.sqrt(PLATE_OF_WAGE[0] * PLATE_OF_WAGE[1])
        yield from warning(
            value,
            tr(
                "{wage} is far from what the menu charges: the middle plate costs "
                "{rounded} hours of it",
                wage=wage.text,
                rounded=rounded(ratio, 2),
            ),
            slip(wage, ratio / middle),
        )


def _in_unit(measure: Measure, limits: PlausibleRange, wage: float) -> float | None:
    """A value in the unit of a range; None where it is of another kind, or no wage is known."""
    unit = limits.unit
    if unit == "packs":
        return measure.value if measure.dimension is None else None
    if unit == ("share" if measure.dimension is None else "wage hours"):
        return None  # money where a share has its range, or the other way round
    if unit.startswith("wage hours"):
        per = unit.partition("/")[2]
        if _BASE_UNITS.get(measure.dimension) != (per or None) if measure.dimension else per:
            return None
        return measure.value / wage if wage > 0 else None
    if measure.dimension is Dimension.RATIO or unit == "share":
        # What is given or taken may be a share or an amount; each has a range of its own.
        amount = measure.dimension in _BASE_UNITS and measure.dimension is not Dimension.COUNT
        return None if amount or unit in _BASE_UNITS.values() else measure.value
    if unit == "count":
        return measure.value
    base = _BASE_UNITS.get(measure.dimension) if measure.dimension else None
    if base is None:
        return convert(measure.value, unit) if measure.dimension else None
    return measure.value if base == unit else None


# Days


def _days(content: Content, _reported: Doubted) -> Iterator[Problem]:
    """Days of another century, and prices that begin in years to come."""
    days = list(_days_of(content))
    years = Counter(day.day.year for day, _ in days)
    for day, record in days:
        yield from _old(day, record, content, years)


def _ahead(content: Content, _reported: Doubted) -> Iterator[Problem]:
    """A day of the site that lies years behind all that was weighed, tasted and priced.

    It is held to the days of the files, not to today, so that a site that names its day is the
    same whenever it is built.
    """
    named, days = content.kitchen.as_of, [day.day for day, _ in _days_of(content)]
    before = [day for day in days if day <= content.as_of]
    if named is None or named.day != content.as_of or not before:
        return
    since = (named.day - max(before)).days
    if since > LATE:
        written = Measure(since, named.place, str(named.day))
        value = Value("kitchen.as of", written, content.kitchen, content.kitchen.path)
        message = tr("nothing was weighed, tasted or priced in the {days} days before", days=since)
        yield from warning(value, message, tr("leave as of: out for today"))


def _days_of(content: Content) -> Iterator[tuple[Day, str]]:
    """Every day that something was weighed, tasted or priced on, with its record."""
    for owner in content.weighed:
        for _, stage in stages_of(owner):
            yield from ((test.date, owner.path) for test in stage.tests)
    for tasting in content.tastings.values():
        if tasting.date is not None:
            yield tasting.date, tasting.path
    yield from ((row.date, "") for row in content.prices)


def _is_alone(year: int, years: Counter[int]) -> bool:
    """Whether a year holds one day, and no year near it any, of a kitchen with several."""
    near = sum(years[each] for each in range(year - ALONE, year + ALONE + 1))
    return near == 1 and years.total() > FEW_DAYS


def _old(day: Day, record: str, content: Content, years: Counter[int]) -> Iterator[Problem]:
    nearest = day.day.replace(year=content.as_of.year) if day.day.day < 29 else content.as_of
    too_late = day.day.year > content.as_of.year + 2
    if day.day < OLDEST or too_late or _is_alone(day.day.year, years):
        yield Problem(
            day.place,
            tr("{day} is far from {as_of}, the day of the build", day=day.day, as_of=content.as_of),
            tr("if the year slipped, write {nearest}", nearest=nearest),
            Severity.WARNING,
            record,
            needs=_OF_DAYS,
        )
