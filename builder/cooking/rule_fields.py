"""Reading the fields of a rule set's file, so that every refusal names its key path."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum, StrEnum, auto
from typing import TypeVar

from builder.display.words import listed
from builder.language import Deferred, tr
from builder.problems import did_you_mean
from builder.quantities import Dimension, QuantityError, parse_quantity
from builder.quantities.prints import PRINTED_PAIR_C

E = TypeVar("E", bound=StrEnum)
Path = tuple[str | int, ...]


class Fault(Enum):
    """What may be done about a fault of a key rests on these; of a value there are others."""

    UNKNOWN_KEY = auto()
    MISSING = auto()


class RuleSetError(ValueError):
    """A value of a rule set that cannot be used: its key path and what is wrong with it.

    >>> str(RuleSetError(("holds", 0, "rows"), "it has no rows"))
    'holds[0].rows: it has no rows'
    """

    def __init__(self, path: Path, message: str, fault: Fault | None = None) -> None:
        super().__init__(path, message)
        self.path = path
        self.message = message
        self.fault = fault

    def __str__(self) -> str:
        steps = (f"[{step}]" if isinstance(step, int) else f".{step}" for step in self.path)
        return f"{''.join(steps).lstrip('.') or tr('the rule set')}: {self.message}"


def measure(value: object, path: Path, dimension: Dimension) -> float:
    """Read a quantity with its unit, in the base unit of its dimension."""
    if not isinstance(value, str):
        raise RuleSetError(
            path, tr("{value!r} is no {dimension} with a unit", value=value, dimension=dimension)
        )
    try:
        return parse_quantity(value, dimension).value
    except QuantityError as error:
        raise RuleSetError(path, str(error)) from error


def temperature_c(value: object, path: Path) -> float:
    """Read a temperature [°C], -40 to 150 °C."""
    found = measure(value, path, Dimension.TEMPERATURE)
    if not -40 <= found <= 150:
        raise RuleSetError(path, tr("{value} is outside -40 to 150 °C", value=value))
    return found


def seconds(value: object, path: Path) -> float:
    """Read a duration [s], up to 400 days."""
    found = round(measure(value, path, Dimension.TIME) * 3600, 6)
    if not 0 <= found <= 400 * 86400:
        raise RuleSetError(path, tr("{value} is outside 0 s to 400 d", value=value))
    return found


def words(value: object, path: Path) -> str:
    """Read a text that is not empty; a bare year is a text too."""
    if isinstance(value, bool) or not isinstance(value, str | int) or not str(value).strip():
        raise RuleSetError(path, tr("a text belongs here"))
    return Deferred(str(value).strip())


@dataclass(frozen=True, slots=True)
class Fields:
    """One mapping of the file with its key path."""

    values: Mapping[str, object]
    path: Path = ()

    @classmethod
    def of(cls, value: object, path: Path, known: Sequence[str]) -> Fields:
        """Take a mapping and refuse keys that are not known."""
        if not isinstance(value, Mapping):
            raise RuleSetError(path, tr("a mapping of keys to values belongs here"))
        for key in value:
            if key not in known:
                hint = did_you_mean(str(key), known) or tr(
                    "known keys: {known}", known=", ".join(known)
                )
                raise RuleSetError(
                    (*path, str(key)), tr("unknown key; {hint}", hint=hint), Fault.UNKNOWN_KEY
                )
        return cls(value, path)

    def at(self, key: str) -> Path:
        """Return the key path of one key."""
        return (*self.path, key)

    def need(self, key: str) -> object:
        """Return a value that has to be there."""
        if self.values.get(key) is None:
            raise RuleSetError(self.at(key), tr("missing"), Fault.MISSING)
        return self.values[key]

    def has(self, key: str) -> bool:
        """Tell whether a key has a value."""
        return self.values.get(key) is not None

    def text(self, key: str, default: str | None = None) -> str:
        """Read a text."""
        if default is not None and not self.has(key):
            return default
        return words(self.need(key), self.at(key))

    def celsius(self, key: str) -> float:
        """Read a temperature [°C]."""
        return temperature_c(self.need(key), self.at(key))

    def prints_c(self, key: str) -> tuple[float, ...]:
        """Read a temperature [°C] that is printed once, or in both units: 34 °F / 1.1 °C."""
        prints = words(self.need(key), self.at(key)).split(" / ")
        found = tuple(temperature_c(text, self.at(key)) for text in prints)
        if max(found) - min(found) > PRINTED_PAIR_C:
            raise RuleSetError(
                self.at(key),
                tr("{prints} are not the same temperature", prints=listed(prints)),
            )
        return found

    def minutes(self, key: str) -> float:
        """Read a duration longer than nothing [min]."""
        found = seconds(self.need(key), self.at(key))
        if not found:
            raise RuleSetError(self.at(key), tr("a limit of no time at all"))
        return found / 60

    def flag(self, key: str, default: bool) -> bool:
        """Read yes or no, as a word or as what a reader has made of it."""
        value = self.values.get(key, default)
        known = {True: True, False: False, "yes": True, "no": False}
        if not isinstance(value, bool | str) or value not in known:
            raise RuleSetError(self.at(key), tr("{value!r} is neither yes nor no", value=value))
        return known[value]

    def items(self, key: str) -> Iterator[tuple[object, Path]]:
        """Go through a list that may be left out, each item with its path."""
        value = self.values.get(key)
        if value is None:
            return
        if isinstance(value, str | bytes) or not isinstance(value, Sequence):
            raise RuleSetError(self.at(key), tr("a list belongs here"))
        for index, item in enumerate(value):
            yield item, (*self.at(key), index)

    def texts(self, key: str) -> tuple[str, ...]:
        """Read a list of texts that may be left out."""
        return tuple(words(item, path) for item, path in self.items(key))

    def members(self, key: str, kind: type[E]) -> frozenset[E]:
        """Read a list of known words; a list left out means all of them."""
        known = [member.value for member in kind]
        for item, path in self.items(key):
            if item not in known:
                hint = did_you_mean(str(item), known) or tr(
                    "known: {known}", known=", ".join(known)
                )
                raise RuleSetError(
                    path, tr('"{item}" is no {key}; {hint}', item=item, key=key, hint=hint)
                )
        named = frozenset(kind(str(item)) for item, _ in self.items(key))
        if self.has(key) and not named:
            raise RuleSetError(self.at(key), "names nothing")
        return named or frozenset(kind)
