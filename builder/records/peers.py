"""Values against an item's own history, and against the same key in records of the same kind."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date
from statistics import median

from builder.language import Deferred, tr
from builder.problems import Problem
from builder.quantities import Dimension
from builder.records.base import Record
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cook, Cut, Equipment, PantryItem, Plate
from builder.records.listed import listed_candidates
from builder.records.slips import slip
from builder.records.written import (
    Doubted,
    Value,
    far,
    general_key,
    is_far,
    is_far_from,
    middle_of,
    one_of_two,
    times,
    values_in,
    warning,
    without,
)

# How many times apart values may lie: of one thing's own history, and of a key's values in the
# records that have the same kind, where there are more than a few. Common practice, no
# published source.
OWN, SOLD, FEW = 3.5, 7.0, 3
# What a kitchen counts one by-product at is its own choice, and moves as prices do. Common
# practice, no published source.
OWN_WORTH = 1.9
# A month that has only begun may hold a single day.
PART_OF_MONTH = 31.0
PEERS = {
    "cuts.price": 7.0,
    "cuts.parts.worth": 5.0,
    "cuts.tests.parts.worth": 5.0,
    "cooks.for": 12.0,
    "cooks.hands on": 12.0,
    "cooks.load": 30.0,
    "cooks.parts.worth": 5.0,
    "cooks.tests.parts.worth": 5.0,
    "cooks.piece.thickness": 5.0,
    "cooks.piece.weight": 8.0,
    "cooks.remainder": 7.0,
    "pantry.hands on": 25.0,
    "plates.forecast": 20.0,
    "plates.hands on": 12.0,
    "plates.portion": 6.0,
    "plates.price": 5.0,
    "plates.with": 6.0,
}
# What values of a key are called, several of them.
NAMES = {
    "cuts.price": Deferred("cuts' prices"),
    "cuts.parts.worth": Deferred("worths of by-products"),
    "cuts.tests.parts.worth": Deferred("worths of by-products"),
    "cooks.for": Deferred("cooks' times"),
    "cooks.hands on": Deferred("cooks' hands-on times"),
    "cooks.load": Deferred("cooks' loads"),
    "cooks.parts.worth": Deferred("worths of by-products"),
    "cooks.tests.parts.worth": Deferred("worths of by-products"),
    "cooks.piece.thickness": Deferred("cooks' thicknesses"),
    "cooks.piece.weight": Deferred("cooks' pieces"),
    "cooks.remainder": Deferred("cooks' left-overs"),
    "pantry.hands on": Deferred("recipes' hands-on times"),
    "plates.forecast": Deferred("plates' forecasts"),
    "plates.hands on": Deferred("plates' hands-on times"),
    "plates.portion": Deferred("plates' portions"),
    "plates.price": Deferred("plates' prices"),
    "plates.with": Deferred("plates' amounts"),
}
# How far a forecast may lie from the weeks of the months behind it, or of one month, and a
# by-product's worth above the price of its cut. Common practice, no published source.
FORECAST, LITTLE_KNOWN, WORTH = 5.0, 10.0, 3.0
# The price of a cut, as a multiple of what a by-product is usually worth.
USUAL_WORTH = 1.7
WEEKS_A_MONTH = 365.25 / 12 / 7
Kin = tuple[str, str, str]


def against_peers(content: Content, found: Iterable[Value], reported: Doubted) -> Iterator[Problem]:
    """Warn of values that are far from the same key's in records that are like theirs.

    A record counts once, by the middle of its values.
    """
    groups: dict[Kin, list[Value]] = defaultdict(list)
    for value in found:
        if value.measure.value > 0 and (kin := kin_of(content, value)):
            groups[kin].append(value)
    for (key, kind, _), group in groups.items():
        sound = [value for value in group if value.measure.place not in reported]
        middles = _by_record(sound)
        ordered = sorted(middles.values())
        for value in sound:
            others = without(ordered, middles[value.record])
            few = 2 if key == "plates.with" else FEW
            if len(others) >= few and is_far_from(value.measure.value, others, PEERS[key]):
                of = tr("the other {others} {names}", others=len(others), names=NAMES[key]) + (
                    f" ({kind})" if kind else ""
                )
                yield from far(value, middle_of(others), PEERS[key], of)


def _by_record(values: Iterable[Value]) -> dict[str, float]:
    found: dict[str, list[float]] = defaultdict(list)
    for value in values:
        found[value.record].append(value.measure.value)
    return {record: _middle(each) for record, each in found.items()}


def kin_of(content: Content, value: Value) -> Kin | None:
    """With whom a value is compared: its key and what it must have in common; None with nobody."""
    key = general_key(value.key)
    kind = _kind(content, key, value.owner, value.item, value.measure.dimension)
    if key not in PEERS or kind is None:
        return None
    return key, kind, str(value.measure.dimension)


def _kind(
    content: Content, key: str, owner: Record | Equipment, item: str, dimension: Dimension | None
) -> str | None:
    match owner:
        case Cut() | Cook() if key.endswith("parts.worth"):
            return f"{item}, {_species(content, owner)}"
        case Cook() if key == "cooks.for":
            # A minced or a thin piece of the same cut is done sooner than a whole one.
            return " ".join([owner.cut, owner.how, *(owner.form or ())])
        case Cook() if key.startswith("cooks.piece"):
            return f"{owner.cut}"
        case Cook() if key == "cooks.remainder":
            return _species(content, owner)
        case Plate() if key == "plates.with":
            return item
        case Plate() if key == "plates.price":
            return str(owner.menu)
        case Plate() if key == "plates.forecast" and len(owner.sold) > 1:
            return None
        case Plate() if key == "plates.portion" and dimension is Dimension.COUNT:
            return None  # half a rack and a dozen oysters are both as they are served
        case Cut():
            return _species(content, owner)
    return ""


def _species(content: Content, owner: Cut | Cook) -> str:
    cut = content.cuts.get(owner.cut) if isinstance(owner, Cook) else owner
    return str(cut.species) if cut else ""


# An item's own history


def against_history(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Prices against the item's other prices, months against the plate's other months, and the
    worths of a by-product among the tests of one stage.

    A history of two says that one of them is wrong: it is named once what else there is to
    compare with has spoken, so two are left to `against_the_other`.
    """
    for found, of, apart, _ in _histories(content):
        sound = [value for value in found if value.measure.place not in reported]
        if len(sound) > 2:
            middle = _middle([value.measure.value for value in sound])
            for value in sound:
                yield from far(value, middle, apart(value), of)


def against_the_other(content: Content, reported: Doubted) -> Iterator[Problem]:
    """In a history of two the one that is farther from others like it, else both of them."""
    for found, of, apart, like in _histories(content):
        sound = [value for value in found if value.measure.place not in reported]
        if len(sound) != 2:
            continue
        one, other = sound
        if like > 0 and _off(one, like) > _off(other, like):
            one, other = other, one
        most = max(map(apart, sound))
        if like > 0:
            yield from far(other, one.measure.value, most, of)
        elif is_far(other.measure.value, one.measure.value, most):
            yield from one_of_two(other, one.measure)


def _off(written: Value, like: float) -> float:
    return abs(math.log(written.measure.value / like))


def _middle(values: Sequence[float]) -> float:
    """The median; between two middle values it lies as many times from the one as the other."""
    return math.exp(median(math.log(value) for value in values))


History = tuple[list[Value], str, Callable[[Value], float], float]


def _histories(content: Content) -> Iterator[History]:
    """Each history with what it is of, how far apart it may be, and what others are like."""
    yield from _prices(content)
    yield from _months(content)
    yield from _worths(content)


def _bought(content: Content) -> list[Cut]:
    """Every cut with a price: those with a file, and the candidates that only a list names."""
    return [*content.cuts.values(), *listed_candidates(content).values()]


def prices_of(content: Content, record: Cut | PantryItem) -> list[Value]:
    """Every price of an item by one kind of unit, in the order of days; its file's own first."""
    sound = all_prices_of(content, record)
    return [w for w in sound if w.measure.dimension is sound[-1].measure.dimension]


def all_prices_of(content: Content, record: Cut | PantryItem) -> list[Value]:
    """Every price of an item, in the order of days; its file's own first."""
    rows = [row for row in content.prices if row.item == record.id]
    found = [
        Value("price", row.price, record, record.path, row.date.day)
        for row in sorted(rows, key=lambda row: row.date.day)
    ]
    if record.price is not None:
        found.insert(0, Value("price", record.price, record, record.path))
    return [value for value in found if value.measure.value > 0]


def listed_prices(content: Content) -> Iterator[Value]:
    """Of the price lists the rows that no longer history judges: the newest price of an item, and
    both where there are two.
    """
    priced: list[Cut | PantryItem] = [*_bought(content), *content.pantry.values()]
    for record in priced:
        prices = prices_of(content, record)
        for value in prices if len(prices) < 3 else prices[-1:]:
            if value.day is not None:
                yield replace(value, key=f"{record.folder}.price")


def _prices(content: Content) -> Iterator[History]:
    priced: list[Cut | PantryItem] = [*_bought(content), *content.pantry.values()]
    found = {record.id: prices_of(content, record) for record in priced}
    middles: dict[str, list[float]] = defaultdict(list)
    for cut in _bought(content):
        if prices := found[cut.id]:
            middles[f"{cut.species}{prices[0].measure.dimension}"].append(
                _middle([value.measure.value for value in prices])
            )
    for record in priced:
        prices, like = found[record.id], 0.0
        if isinstance(record, Cut) and prices:
            others = middles[f"{record.species}{prices[0].measure.dimension}"]
            like = _middle(others) if len(others) > 1 else 0.0
        yield prices, tr("{record}'s other prices", record=record.title), lambda _: OWN, like


def _months(content: Content) -> Iterator[History]:
    plates = content.plates.values()
    first = min((month.first for plate in plates for month in plate.sold), default=date.min)
    for plate in plates:
        months = [
            Value("sold", count, plate, plate.path, month.first)
            for month, count in sorted(plate.sold.items(), key=lambda each: each[0].first)
            if count.value > 0
        ]
        begun = {value.day for value in months[:1] if value.day != first}
        begun.add(content.as_of.replace(day=1))
        middle = _middle([value.measure.value for value in months]) if months else 0.0

        def apart(value: Value, begun: set[date | None] = begun, middle: float = middle) -> float:
            few = value.measure.value < middle
            return PART_OF_MONTH if few and value.day in begun else SOLD

        like = plate.forecast.value * WEEKS_A_MONTH if plate.forecast else 0.0
        yield months, tr("{plate}'s other months", plate=plate.title), apart, like


def _worths(content: Content) -> Iterator[History]:
    for owner in content.weighed:
        found: dict[tuple[str, str], list[Value]] = defaultdict(list)
        for value in worths_of(owner):
            found[value.key, value.item].append(value)
        for (_, item), worths in found.items():
            yield worths, tr("{item} in the other tests", item=item), lambda _: OWN_WORTH, 0.0


# Against what else is known of the same thing


def against_sales(content: Content, reported: Doubted) -> Iterator[Problem]:
    """A forecast against the plate's own months, a swap's against its benchmark's."""
    for plate in content.plates.values():
        week = weekly_sales(plate, reported)
        if plate.forecast and week:
            value = Value("plates.forecast", plate.forecast, plate, plate.path)
            of = tr("the weekly sales of {plate}", plate=plate.title)
            yield from far(value, week, FORECAST, of)
    for swap in content.swaps.values():
        benchmark = content.plates.get(swap.benchmark)
        if not swap.forecast or not benchmark:
            continue
        value = Value("swaps.forecast", swap.forecast, swap, swap.path)
        if week := weekly_sales(benchmark, reported):
            of = tr("the weekly sales of {plate}", plate=benchmark.title)
            yield from far(value, week, FORECAST, of)
        elif week := _little_known(benchmark, reported):
            of = tr("the weeks of {plate}", plate=benchmark.title)
            yield from far(value, week, LITTLE_KNOWN, of)


def _little_known(plate: Plate, reported: Doubted) -> float:
    """What a plate sells a week [portions] by its forecast, else by its one month; 0 without."""
    if plate.forecast and plate.forecast.place not in reported:
        return plate.forecast.value
    months = [m.value for m in plate.sold.values() if m.value > 0 and m.place not in reported]
    return _middle(months) / WEEKS_A_MONTH if months else 0.0


def weekly_sales(plate: Plate, reported: Doubted) -> float:
    """What a plate sold a week [portions]; 0 where fewer than two months are known."""
    months = [m.value for m in plate.sold.values() if m.value > 0 and m.place not in reported]
    return _middle(months) / WEEKS_A_MONTH if len(months) > 1 else 0.0


def worths_of(owner: Cut | Cook) -> Iterator[Value]:
    """Every worth of a by-product that a record writes."""
    for value in values_in(owner):
        if general_key(value.key).endswith("parts.worth") and value.measure.value > 0:
            yield value


def against_price(content: Content, reported: Doubted) -> Iterator[Problem]:
    """A by-product or a remainder that is worth several times the cut itself.

    Where all of a cut's by-products are, by two values or more, its lone price is the slip.
    """
    low: set[str] = set()
    for owner in content.weighed:
        cut = content.cuts.get(owner.cut) if isinstance(owner, Cook) else owner
        price = _per_kg(content, cut, reported) if cut else 0.0
        if cut and cut is owner and (cheap := list(_cheap(content, cut, price))):
            yield from cheap
            low.add(cut.id)
        if cut and cut.id in low:
            continue
        worths = list(worths_of(owner))
        if isinstance(owner, Cook) and owner.remainder is not None:
            worths.append(Value("cooks.remainder", owner.remainder, owner, owner.path))
        for value in worths:
            if cut and 0 < price * WORTH < value.measure.value:
                ratio = times(value.measure.value / price)
                message = tr(
                    "{measure} is {ratio} the price of {cut}",
                    measure=value.measure.text,
                    ratio=ratio,
                    cut=cut.title,
                )
                yield from warning(value, message)


def _cheap(content: Content, cut: Cut, price: float) -> Iterator[Problem]:
    """The warning of a lone price [money/kg] that every by-product is worth several times."""
    worths, prices = list(worths_of(cut)), prices_of(content, cut)
    values = [value.measure.value for value in worths]
    if price > 0 and len(prices) == 1 and len(values) > 1 and min(values) > price * WORTH:
        text, middle = prices[0].measure.text, _middle(values)
        message = tr(
            "{text} is little for {cut}: its {item} is worth {worth}",
            text=text,
            cut=cut.title,
            item=worths[0].item,
            worth=worths[0].measure.text,
        )
        hint = slip(prices[0].measure, middle * USUAL_WORTH / price)
        yield from warning(prices[0], message, hint)


def _per_kg(content: Content, cut: Cut, reported: Doubted) -> float:
    """The middle of a cut's prices [money/kg]; 0 where none is known by weight."""
    prices = [p.measure for p in prices_of(content, cut) if p.measure.place not in reported]
    values = [per for price in prices if (per := _by_weight(cut, price, reported))]
    return _middle(values) if values else 0.0


def _by_weight(cut: Cut, price: Measure, reported: Doubted) -> float:
    if price.dimension is Dimension.MASS:
        return price.value
    each = cut.each.value if cut.each and cut.each.place not in reported else 0.0
    return price.value / each if price.dimension is Dimension.COUNT and each else 0.0
