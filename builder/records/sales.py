"""Rows of a till's exports as sales of plates: a file with one wrong row gives none."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from pydantic import TypeAdapter, ValidationError

from builder.language import clauses, tr
from builder.problems import Gathered, Place, Problem, bounded, did_you_mean, nearest
from builder.quantities.errors import quoted
from builder.reading.folder import ContentFile
from builder.reading.sales import parse_sales
from builder.reading.tree import Branch, Text
from builder.records.fields import Date, Measure, Money, Whole
from builder.records.kinds import Plate
from builder.records.till import Till

FOLDER = "sales"
_TIME_AFTER = re.compile(r"[ T]+[0-9]{1,2}:[0-9]{2}.*")
_THREE_NUMBERS = re.compile(r"([0-9]{1,4})[-/. ]([0-9]{1,2})[-/. ]([0-9]{1,4})")
_WHOLE = re.compile(r"([+-]?)([0-9]+)(?:[.,]0*)?")
# Where year, month and day lie among the numbers of a date, by how the till orders them.
_PARTS = {
    "year-month-day": (1, 2, 3), "day/month/year": (3, 2, 1), "month/day/year": (3, 1, 2),
}  # fmt: skip
_YEAR_DIGITS = (2, 4)
_DAY: TypeAdapter[object] = TypeAdapter(Date)
_COUNT: TypeAdapter[object] = TypeAdapter(Whole)
_MONEY: TypeAdapter[object] = TypeAdapter(Money)


@dataclass(frozen=True, slots=True)
class Sale:
    """Plates of one kind that a row says were sold; `taken` is the money for all of them.

    `count` is below 0 where plates were taken back; `taken` None where no price is written.
    """

    plate: str
    day: date
    count: float
    taken: float | None
    place: Place


def load_sales(
    files: tuple[ContentFile, ...],
    till: Till,
    plates: Mapping[str, Plate],
    context: Mapping[str, str],
    *,
    names_known: bool = True,
) -> tuple[list[Sale], list[Problem]]:
    """Read every export; a file with an error gives no sale at all.

    A name that leads to no plate is reported once every plate's name is known: a plate whose
    file, or name in it, can't be read may be the one that is meant.
    """
    sales: list[Sale] = []
    problems = Gathered()
    known = _Known.of(till, plates)
    names_known = names_known and not any("name" in plate.unread for plate in plates.values())
    for file in files:
        reader = _Rows(till, known, context, names_known)
        found = list(bounded(reader.read(file)))
        problems.add(found)
        if not found:
            sales += reader.sales
    return sales, list(problems)


@dataclass(frozen=True, slots=True)
class _Known:
    """Plates by their ids, names and what the till calls them, folded; None is left out."""

    names: Mapping[str, str | None]
    shown: tuple[str, ...]

    @classmethod
    def of(cls, till: Till, plates: Mapping[str, Plate]) -> _Known:
        titles = Counter(_fold(plate.title) for plate in plates.values())
        named = {
            _fold(plate.title): plate.id
            for plate in plates.values()
            if titles[_fold(plate.title)] == 1
        }
        names: dict[str, str | None] = {**named, **{_fold(name): name for name in plates}}
        names |= {_fold(name): str(plate) for name, plate in till.plates.items()}
        names |= {_fold(name): None for name in till.left_out}
        shown = (*till.plates, *till.left_out, *(p.title for p in plates.values()), *plates)
        return cls(names, tuple(map(str, shown)))

    def hint(self, name: str) -> str:
        """Which plate may be meant by an unknown name, and where to write what it is."""
        low = {_fold(each): each for each in self.shown}
        near = low.get(nearest(_fold(name), low), "")
        plate = self.names.get(_fold(near)) or "..."
        mapped = tr(
            'write "{name}": {plate} below till: plates: in kitchen.yaml', name=name, plate=plate
        )
        asked = did_you_mean(near, [near]) if near else ""
        return tr(
            "{asked} {mapped}, or {name} below left out:", asked=asked, mapped=mapped, name=name
        ).strip()


def _fold(name: str) -> str:
    return " ".join(name.casefold().split())


@dataclass(slots=True)
class _Rows:
    """One file's rows; unknown names are kept to be reported once each, with their rows."""

    till: Till
    known: _Known
    context: Mapping[str, str]
    names_known: bool
    sales: list[Sale] = field(default_factory=list)
    unknown: dict[str, list[Text]] = field(default_factory=dict)

    def read(self, file: ContentFile) -> Iterator[Problem]:
        """Read all rows into `sales`, and yield what is wrong."""
        names = ["date", "plate", "count"]
        if self.till.is_priced:
            names.append("price")
        heading = self.till.heading
        rows, found = parse_sales(file.path, file.data, [(name, heading(name)) for name in names])
        yield from found
        incomplete = {problem.place.line for problem in found}
        for row in rows:
            if row.place.line not in incomplete:
                yield from self._row(row)
        if self.names_known:
            yield from (self._no_plate(cells) for cells in self.unknown.values())

    def _row(self, row: Branch) -> Iterator[Problem]:
        cells = {name: row.get(Text(self.till.heading(name))) for name in ("plate", "price")}
        name = cells["plate"]
        if not isinstance(name, Text):
            return
        if _fold(name) not in self.known.names:
            self.unknown.setdefault(_fold(name), []).append(name)
        if self.known.names.get(_fold(name), "") is None:
            return
        wrong: list[Problem] = []
        day = self._day(self._cell(row, "date"), wrong)
        count = self._count(self._cell(row, "count"), wrong)
        taken = self._taken(cells["price"], count, wrong)
        yield from wrong
        plate = self.known.names.get(_fold(name))
        if day is not None and count is not None and plate and not wrong:
            self.sales.append(Sale(plate, day, count, taken, row.place))

    def _cell(self, row: Branch, name: str) -> Text:
        cell = row[Text(self.till.heading(name))]
        return cell if isinstance(cell, Text) else Text()

    def _day(self, cell: Text, wrong: list[Problem]) -> date | None:
        """The day of a cell in the till's order; without an order only year, month, day is read."""
        text = _TIME_AFTER.sub("", cell)
        found = _THREE_NUMBERS.fullmatch(text)
        order = _PARTS[str(self.till.dates)] if self.till.dates else None
        if found and order:
            year, month, day = (found[part] for part in order)
            text = f"{'20' if len(year) == 2 else ''}{year}-{month:0>2}-{day:0>2}"
            if len(year) not in _YEAR_DIGITS or len(day) > len("31"):
                hint = tr(
                    "write it as {order}, or change dates: below till: in kitchen.yaml",
                    order=self.till.dates,
                )
                message = tr("{line} is not a date", line=quoted(cell))
                wrong.append(Problem(cell.place, message, hint))
                return None
        read = self._read(_DAY, _at(text, cell), wrong)
        if read is None and found and order:
            message = tr("{line} is not in the calendar", line=quoted(cell))
            said = tr("kitchen.yaml says dates: {order}", order=self.till.dates)
            hint = clauses((wrong[-1].hint, said))
            wrong[-1] = replace(wrong[-1], message=message, hint=hint)
        if read is None and found and not order:
            hint = tr("write dates: day/month/year (or month/day/year) below till: in kitchen.yaml")
            wrong[-1] = replace(
                wrong[-1], hint=tr("{hint}; or {hint2}", hint=wrong[-1].hint, hint2=hint)
            )
        return getattr(read, "day", None)

    def _count(self, cell: Text, wrong: list[Problem]) -> float | None:
        """A whole number, with noughts behind its point or a sign as tills print them."""
        found = _WHOLE.fullmatch(cell)
        text = str(int(found[2])) if found else str(cell)
        read = self._read(_COUNT, _at(text, cell), wrong)
        if not isinstance(read, Measure):
            return None
        return -read.value if found and found[1] == "-" else read.value

    def _taken(self, cell: object, count: float | None, wrong: list[Problem]) -> float | None:
        """The money of a row; a sign is read as the row's own, taken back with its plates."""
        if not isinstance(cell, Text) or not cell or count is None:
            return None
        text = cell.lstrip("-") if count < 0 else str(cell)
        if self.till.decimal_comma:
            text = text.replace(".", "").replace(",", ".")
        read = self._read(_MONEY, _at(text, cell), wrong)
        if not isinstance(read, Measure):
            return None
        each = self.till.price_is != "row"
        return read.value * (count if each else (1 if count >= 0 else -1))

    def _read(self, kind: TypeAdapter[object], cell: Text, wrong: list[Problem]) -> object:
        try:
            return kind.validate_python(cell, context=dict(self.context))
        except ValidationError as error:
            found = error.errors(include_url=False)[0].get("ctx", {})
            message, hint = (str(found.get(key, "")) for key in ("message", "hint"))
            wrong.append(Problem(cell.place, message, hint))
            return None

    def _no_plate(self, cells: list[Text]) -> Problem:
        name, more = cells[0], len(cells) - 1
        rows = tr(", in {more} rows", more=more + 1) if more else ""
        return Problem(
            name.place,
            tr('no plate is called "{name}"{rows}', name=name, rows=rows),
            self.known.hint(name),
        )


def _at(text: str, cell: Text) -> Text:
    return Text(text, cell.file, cell.line, cell.column)


@dataclass(frozen=True, slots=True)
class MonthSold:
    """What the till says of a plate in a month: plates, and of those with a price the money.

    `days` is how many days of the month its exports cover, all of them of a whole month.
    """

    plate: str
    month: date
    count: float
    priced: float
    taken: float
    rows: int
    days: int
    place: Place


def by_month(sales: Iterable[Sale], days: Callable[[date], int]) -> list[MonthSold]:
    """Sum the sales of each plate and month, in order; at the place of their first rows."""
    groups: dict[tuple[str, date], list[Sale]] = {}
    for sale in sales:
        groups.setdefault((sale.plate, sale.day.replace(day=1)), []).append(sale)
    return [
        MonthSold(
            plate,
            month,
            sum(sale.count for sale in found),
            sum(sale.count for sale in found if sale.taken is not None),
            sum(sale.taken or 0.0 for sale in found),
            len(found),
            days(month),
            found[0].place,
        )
        for (plate, month), found in sorted(groups.items())
    ]
