"""Slips of the pen: values out of proportion to their own history, to others, to any kitchen.

Nothing is refused here: what is rare may be right. A record that says `checked: DATE` is
believed for all that it held on that day.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from statistics import median

from builder.data import PlausibleRange, plausible_ranges
from builder.problems import Place, Problem, Severity
from builder.quantities import Dimension, convert
from builder.records.base import Record, Written
from builder.records.chains import stages_of
from builder.records.content import Content
from builder.records.fields import Day, Measure, Month
from builder.records.kinds import Cook, Cut, Equipment, PantryItem, Plate
from builder.records.slips import slip
from builder.records.stages import WeighingTest
from builder.records.weights import MAY_GAIN

# How many times apart values may lie: of one thing's own history, and of a key's values in the
# records that have the same kind, where there are more than a few. Common practice, no
# published source.
OWN, FEW = 3.5, 4
PEERS = {
    "cuts.price": 6.0,
    "cooks.for": 8.0,
    "cooks.hands on": 8.0,
    "cooks.load": 12.0,
    "pantry.hands on": 25.0,
    "plates.forecast": 15.0,
    "plates.hands on": 12.0,
    "plates.portion": 5.0,
    "plates.price": 3.5,
    "plates.with": 5.0,
}
# Hours of work that the middle plate of a menu costs. Common practice, no published source.
PLATE_OF_WAGE = (0.25, 4.0)
# Shares of weight that two tests of one stage may differ by.
YIELDS_APART = 0.2
OLDEST = date(2000, 1, 1)
_BASE_UNITS = {
    Dimension.MASS: "kg",
    Dimension.VOLUME: "L",
    Dimension.COUNT: "each",
    Dimension.TIME: "h",
    Dimension.ENERGY: "kWh",
}


@dataclass(frozen=True, slots=True)
class Value:
    """A value with its key ("plates.portion"), its owner, and the day that it is of, if any."""

    key: str
    measure: Measure
    owner: Record | Equipment
    record: str
    day: date | None = None
    item: str = ""


def check_proportion(content: Content) -> Iterator[Problem]:
    """Warn of every value that is far from what it can be compared with, once for each."""
    found = list(_values(content))
    told: set[Place] = set()
    for problem in (
        *_wage(content),
        *_against_history(content),
        *_against_ranges(content, found),
        *_against_peers(found),
        *_yields(content),
        *_days(content),
    ):
        if problem.place not in told:
            told.add(problem.place)
            yield problem


def believed(owner: Record | Equipment, day: date | None) -> bool:
    """Whether the owner's file says that it was checked, on the value's day or later."""
    return owner.checked is not None and (day is None or day <= owner.checked.day)


# Every value that is written


def _values(content: Content) -> Iterator[Value]:
    kitchen = content.kitchen
    yield from _of(kitchen, kitchen, "kitchen", "kitchen")
    for record in content.records():
        yield from _of(record, record, record.path, record.folder)


def _of(node: Written, owner: Record | Equipment, record: str, key: str) -> Iterator[Value]:
    """The measures of a record and of all that it holds, by the keys as they are written."""
    whose = node if isinstance(node, Equipment) else owner
    for name, field in type(node).model_fields.items():
        own = f"{key}.{(field.alias or name).replace('_', ' ').strip()}"
        yield from _in(getattr(node, name), whose, record, own)


def _in(value: object, owner: Record | Equipment, record: str, key: str) -> Iterator[Value]:
    match value:
        case Measure():
            yield Value(key, value, owner, record)
        case Written():
            yield from _of(value, owner, record, key)
        case list():
            for each in value:
                yield from _in(each, owner, record, key)
        case dict():
            for name, each in value.items():
                day = name.first if isinstance(name, Month) else None
                for found in _in(each, owner, record, key):
                    item = str(name)
                    yield Value(found.key, found.measure, found.owner, record, day, item)


# Against what it can be in any kitchen


def _against_ranges(content: Content, found: Sequence[Value]) -> Iterator[Problem]:
    ranges = plausible_ranges()
    wage = _sound_wage(content)
    for written in found:
        for limits in ranges.get(_general(written.key), ()):
            value = _in_unit(written.measure, limits, wage)
            if value is None or limits.low <= value <= limits.high:
                continue
            if value == 0 or believed(written.owner, written.day):
                continue
            middle = math.sqrt(max(limits.low, limits.high / 1000) * limits.high)
            if limits.unit == "°C":
                middle = (limits.low + limits.high) / 2
            yield _warning(
                written,
                f"{written.measure.text} is far outside what is usual here ({limits.reason})",
                slip(written.measure, middle / value, middle if limits.unit == "°C" else None),
            )


def _sound_wage(content: Content) -> float:
    """The wage that other money is measured by; NaN where it is not known or in doubt itself."""
    wage = content.kitchen.loaded_wage
    return math.nan if wage is None or [*_wage(content)] else wage.value


def _wage(content: Content) -> Iterator[Problem]:
    """The wage against the menu: the middle plate costs some hours of work, or part of one."""
    wage, prices = content.kitchen.loaded_wage, [p.price.value for p in content.plates.values()]
    if wage is None or not wage.value or not prices or believed(content.kitchen, None):
        return
    ratio = median(prices) / wage.value
    if not PLATE_OF_WAGE[0] <= ratio <= PLATE_OF_WAGE[1]:
        value = Value("kitchen.loaded wage", wage, content.kitchen, content.kitchen.path)
        middle = math.sqrt(PLATE_OF_WAGE[0] * PLATE_OF_WAGE[1])
        yield _warning(
            value,
            f"{wage.text} is far from what the menu charges: the middle plate costs "
            f"{ratio:.2g} hours of it",
            slip(wage, ratio / middle),
        )


def _general(key: str) -> str:
    """A stage's own keys are the same whichever stage it is.

    >>> _general("cuts.trim.tests.in"), _general("cooks.finish.tests.in"), _general("cooks.for")
    ('cuts.tests.in', 'cooks.tests.in', 'cooks.for')
    """
    folder, _, rest = key.partition(".")
    _, tests, inner = rest.partition("tests.")
    return f"{folder}.tests.{inner}" if tests else key


def _in_unit(measure: Measure, limits: PlausibleRange, wage: float) -> float | None:
    """A value in the unit of a range; None where it is of another kind, or no wage is known."""
    unit = limits.unit
    if unit.startswith("wage hours"):
        per = unit.partition("/")[2]
        if _BASE_UNITS.get(measure.dimension) != (per or None) if measure.dimension else per:
            return None
        return measure.value / wage if wage > 0 else None
    if measure.dimension is Dimension.RATIO or unit == "share":
        return measure.value
    if unit == "count":
        return measure.value
    base = _BASE_UNITS.get(measure.dimension) if measure.dimension else None
    if base is None:
        return convert(measure.value, unit) if measure.dimension else None
    return measure.value if base == unit else None


# Against the same key elsewhere, and an item's own history


def _against_peers(found: Iterable[Value]) -> Iterator[Problem]:
    groups: dict[tuple[str, ...], list[Value]] = defaultdict(list)
    for value in found:
        if kin := _kin(value):
            groups[kin].append(value)
    for (key, kind, _), group in groups.items():
        for value in group if len(group) > FEW else ():
            others = [w.measure.value for w in group if w is not value and w.measure.value > 0]
            of = f"the other {len(others)} of {key}" + (f" ({kind})" if kind else "")
            yield from _far(value, others, PEERS[key], of)


def _kin(value: Value) -> tuple[str, str, str] | None:
    """With whom a value is compared: its key and what it must have in common; None with nobody."""
    key, owner = _general(value.key), value.owner
    if key not in PEERS:
        return None
    match owner:
        case Plate() if key == "plates.with":
            kind = value.item
        case Plate() if key == "plates.price":
            kind = str(owner.menu)
        case Cut():
            kind = str(owner.species)
        case Cook() if key == "cooks.for":
            kind = str(owner.how)
        case _:
            kind = ""
    return key, kind, str(value.measure.dimension)


def _far(written: Value, others: Sequence[float], apart: float, of: str) -> Iterator[Problem]:
    value = written.measure.value
    if not others or value <= 0 or believed(written.owner, written.day):
        return
    middle = median(others)
    if max(value / middle, middle / value) > apart:
        times = f"{value / middle:.3g} times" if value > middle else f"1/{middle / value:.3g} of"
        yield _warning(
            written,
            f"{written.measure.text} is {times} the middle of {of}",
            slip(written.measure, middle / value),
        )


def _against_history(content: Content) -> Iterator[Problem]:
    """Prices against the item's other prices, months against the plate's other months."""
    priced: list[Cut | PantryItem] = [*content.cuts.values(), *content.pantry.values()]
    for record in priced:
        rows = [row for row in content.prices if row.item == record.id and row.price.value > 0]
        prices = [Value("price", row.price, record, record.path, row.date.day) for row in rows]
        if record.price is not None:
            prices.append(Value("price", record.price, record, record.path))
        yield from _history(prices, f"{record.title}'s other prices")
    for plate in content.plates.values():
        months = [
            Value("sold", count, plate, plate.path, month.first)
            for month, count in plate.sold.items()
        ]
        yield from _history(months, f"{plate.title}'s other months", OWN * 2)


def _history(found: Sequence[Value], of: str, apart: float = OWN) -> Iterator[Problem]:
    for written in found:
        kin = [w for w in found if w is not written and _alike(w, written)]
        yield from _far(written, [w.measure.value for w in kin], apart, of)


def _alike(one: Value, other: Value) -> bool:
    return one.measure.dimension is other.measure.dimension


# Tests and days


def _yields(content: Content) -> Iterator[Problem]:
    """A test whose yield is far from the others of its stage."""
    owners: list[Cut | Cook] = [*content.cuts.values(), *content.cooks.values()]
    for owner in owners:
        for name, stage in stages_of(owner):
            gains = name in MAY_GAIN
            tests = [t for t in stage.tests if t.in_.value > 0 and (gains or _loses(t))]
            for test in tests:
                others = [t.out.value / t.in_.value for t in tests if t is not test]
                own = test.out.value / test.in_.value
                if not others or believed(owner, test.date.day):
                    continue
                if abs(own - median(others)) > YIELDS_APART:
                    yield Problem(
                        test.out.place,
                        f"{name}: {test.out.text} of {test.in_.text} is {own:.0%}, and the other "
                        f"tests of it give {median(others):.0%}",
                        _checked(content),
                        Severity.WARNING,
                        owner.path,
                    )


def _loses(test: WeighingTest) -> bool:
    """Whether no more comes out than went in: another weighing is refused, and proves nothing."""
    return test.out.value <= test.in_.value


def _days(content: Content) -> Iterator[Problem]:
    """Days of another century, and prices that begin in years to come."""
    owners: list[Cut | Cook] = [*content.cuts.values(), *content.cooks.values()]
    for owner in owners:
        for _, stage in stages_of(owner):
            for test in stage.tests:
                yield from _old(test.date, owner.path, content)
    for tasting in content.tastings.values():
        if tasting.date is not None:
            yield from _old(tasting.date, tasting.path, content)
    for row in content.prices:
        yield from _old(row.date, "", content)


def _old(day: Day, record: str, content: Content) -> Iterator[Problem]:
    nearest = day.day.replace(year=content.as_of.year) if day.day.day < 29 else content.as_of
    if day.day < OLDEST or day.day.year > content.as_of.year + 2:
        yield Problem(
            day.place,
            f"{day.day} is far from {content.as_of}, the day of the build",
            f"if the year slipped, write {nearest}",
            Severity.WARNING,
            record,
        )


def _checked(content: Content) -> str:
    return f"if it is right, write checked: {content.as_of} in this file"


def _warning(written: Value, message: str, hint: str) -> Problem:
    quiet = "if it is right, write checked: and the day in this file"
    hint = f"{hint}; {quiet}" if hint else quiet
    return Problem(written.measure.place, message, hint, Severity.WARNING, written.record)
