"""Every value that a kitchen's files write, and the warning that one of them is in doubt."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from datetime import date
from functools import cache, lru_cache

from builder.frozen import frozen
from builder.language import clauses, tr
from builder.problems import Place, Problem, Severity
from builder.records.base import Record, Written
from builder.records.chains import BEFORE
from builder.records.content import Content
from builder.records.fields import Measure, Month
from builder.records.kinds import Equipment, Plate
from builder.records.slips import slip
from builder.rounding import Halved

Doubted = set[Place]
"""Places of the values that are in doubt already, and prove nothing against others."""


@frozen
class Value:
    """A value with its key ("plates.portion"), its owner, and the day that it is of, if any."""

    key: str
    measure: Measure
    owner: Record | Equipment
    record: str
    day: date | None = None
    item: str = ""


def values_of(content: Content) -> Iterator[Value]:
    """Every measure of the kitchen and its records, by the keys as they are written."""
    kitchen = content.kitchen
    yield from _of(kitchen, kitchen, "kitchen", "kitchen")
    for record in content.records():
        yield from values_in(record)


def values_in(record: Record) -> Iterator[Value]:
    """Every measure of one record."""
    yield from _of(record, record, record.path, record.folder)


def _of(node: Written, owner: Record | Equipment, record: str, key: str) -> Iterator[Value]:
    """The measures of a record and of all that it holds, by the keys as they are written."""
    whose = node if isinstance(node, Equipment) else owner
    for name, written in _keys(type(node)):
        value = getattr(node, name)
        if not value:
            continue  # most keys of most records
        if isinstance(node, Plate) and name == "portions":
            yield from _in(list(node.further), whose, record, key)  # the main one is its own
        else:
            yield from _in(value, whose, record, f"{key}.{written}")


@cache
def _keys(kind: type[Written]) -> tuple[tuple[str, str], ...]:
    """The names of a record's fields, each with the key that is written."""
    return tuple(
        (name, (field.alias or name).replace("_", " ").strip())
        for name, field in kind.model_fields.items()
    )


def _in(value: object, owner: Record | Equipment, record: str, key: str) -> Iterator[Value]:
    match value:
        case Measure() if not value.place.file:
            return  # stands in for a key that could not be read
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


@lru_cache(maxsize=1 << 10)
def general_key(key: str) -> str:
    """A stage's own keys are the same whichever stage it is, and a cook's trimming is a cut's.

    >>> general_key("cuts.trim.tests.in"), general_key("cooks.finish.tests.in")
    ('cuts.tests.in', 'cooks.tests.in')
    >>> general_key("cooks.carve.parts.worth"), general_key("cooks.trim.loss")
    ('cooks.parts.worth', 'cuts.trim.loss')
    """
    folder, _, rest = key.partition(".")
    if rest.partition(".")[0] in BEFORE:
        folder = "cuts"
    for inner in ("tests", "parts", "published", "give or take"):
        _, found, last = f".{rest}".partition(f".{inner}.")
        if found:
            return f"{folder}.{inner}.{last}"
    return f"{folder}.{rest}"


def believed(owner: Record | Equipment, day: date | None) -> bool:
    """Whether the owner's file says that it was checked, on the value's day or later."""
    return owner.checked is not None and (day is None or day <= owner.checked.day)


# Of cuts, cooks and equipment what is weighed, timed or measured: the checks hold it against
# nothing else than such values.
_MEASURED = frozenset(
    ("in", "out", "tests", "loss", "yield", "gain", "load", "weight", "thickness", "each",
     "slices", "for", "at", "core", "hands on", "energy", "gas", "volume", "holds", "purge")
)  # fmt: skip
_MEASURED_OF = ("cuts", "cooks", "kitchen.equipment")
_WEIGHED_AGAINST = ("cuts", "cooks", "plates", "weights", "cooking", "work")
# All other values may be held against any of these: a price against the wage, the wage against
# the menu; and a note may say what else goes into a recipe.
_ANY_AGAINST = (
    "cuts", "cooks", "pantry", "plates", "weights", "cooking", "work", "food cost", "labour",
    "margins", "sales", "prices", "menu prices", "notes",
)  # fmt: skip
_TASTED = ("tastings", "tasting answers", "personal codes")


def rests_on(written: Value) -> tuple[str, ...]:
    """What a warning that a value is out of proportion rests on.

    With what the value is compared, and with what the checks before have taken out of that.
    """
    folder, _, last = general_key(written.key).rpartition(".")
    # A candidate's and a consumable's figures are of no weighing.
    measured = folder.startswith(_MEASURED_OF) and "candidate" not in folder
    if measured and last in _MEASURED and "consumables" not in folder:
        return _WEIGHED_AGAINST
    kind = written.record.partition("/")[0] if "/" in written.record else ""
    return (*_ANY_AGAINST, *(_TASTED if kind == "tastings" else filter(None, (kind,))))


def warning(
    written: Value, message: str, hint: str = "", *also: str, names_line: bool = False
) -> Iterator[Problem]:
    """The warning of a value, unless its file says that it was checked.

    also: what its sentence rests on beside what the value does. One that names a line of a file
    is for whoever is granted everything.
    """
    if believed(written.owner, written.day):
        return
    hint = _or_checked(hint, written)
    place, record = written.measure.place, written.record
    needs = None if names_line else (*rests_on(written), *also)
    yield Problem(place, message, hint, Severity.WARNING, record, needs=needs)


def _or_checked(hint: str, written: Value) -> str:
    """A hint with what keeps a warning quiet behind it."""
    quiet = _where_checked(written)
    return clauses((hint, tr("if it is right, {quiet}", quiet=quiet))) if quiet else hint


def _where_checked(written: Value) -> str:
    """What to write that the value is right, and where; empty where no file has a key for it."""
    if isinstance(written.owner, Equipment):
        return tr("write checked: and the day among the keys of this equipment")
    if written.owner.file == written.measure.place.file:
        in_yaml = written.owner.file.endswith(".yaml")
        return tr("write checked: and the day in this file") if in_yaml else ""
    return tr("write checked: and the day in {file}", file=written.owner.file)


def far(written: Value, middle: float, apart: float, of: str) -> Iterator[Problem]:
    """Warn of a value that is more than so many times apart from the middle of what it is like."""
    value = written.measure.value
    if is_far(value, middle, apart):
        message = tr(
            "{measure} is {times} the middle of {of}",
            measure=written.measure.text,
            times=times(value / middle),
            of=of,
        )
        yield from warning(written, message, slip(written.measure, middle / value))


def one_of_two(written: Value, other: Measure) -> Iterator[Problem]:
    """Warn of two values that are far apart where nothing says which of them is right."""
    message = tr(
        "{measure} and {other} at {place} are far apart",
        measure=written.measure.text,
        other=other.text,
        place=other.place,
    )
    yield from warning(written, message, tr("one of them may be a slip"), names_line=True)


def times(ratio: float, figures: int = 3) -> str:
    """How many times as much a ratio [1] is, or which part, never by powers of ten.

    >>> times(1053.2), times(0.4651), times(13.4, 2)
    ('1050 times', '1/2.15 of', '13 times')
    """
    shown = rounded(max(ratio, 1 / ratio), figures)
    return tr("{shown} times", shown=shown) if ratio > 1 else tr("1/{shown} of", shown=shown)


def rounded(x: float, figures: int = 3) -> str:
    """A number to some figures, never by powers of ten.

    >>> rounded(1234.0), rounded(0.0456, 2)
    ('1230', '0.046')
    """
    return f"{float(f'{Halved(x):.{figures}g}'):.15g}"


def is_far(value: float, middle: float, apart: float) -> bool:
    """Whether two values above nothing lie more than so many times apart."""
    return min(value, middle) > 0 and max(value / middle, middle / value) > apart


def is_far_from(value: float, others: Sequence[float], apart: float) -> bool:
    """Whether a value is far from the middle of others, and from all but the farthest of them.

    One slip among the others then makes no true value doubtful. The others come in ascending
    order, so that one of their ends is the farthest.

    >>> is_far_from(1.0, [1.2, 3.0, 5.0, 400.0], 3.5), is_far_from(10.0, [0.8, 1.0, 1.2], 3.5)
    (False, True)
    """
    least, most = others[0], others[-1]
    rest = others[:-1] if most / value >= value / least else others[1:]
    return all(is_far(value, middle_of(pool), apart) for pool in (others, rest or others))


def without(ordered: Sequence[float], one: float) -> list[float]:
    """Values in ascending order without one of them.

    >>> without([1.0, 2.0, 2.0, 5.0], 2.0)
    [1.0, 2.0, 5.0]
    """
    at = bisect_left(ordered, one)
    return [*ordered[:at], *ordered[at + 1 :]]


def middle_of(ordered: Sequence[float]) -> float:
    """The median of values in ascending order, which are not sorted once more.

    >>> middle_of([1.0, 2.0, 5.0]), middle_of([1.0, 2.0])
    (2.0, 1.5)
    """
    last = len(ordered) - 1
    return (ordered[last // 2] + ordered[(last + 1) // 2]) / 2
