"""CSV files to records of positioned text, with the delimiter found from the header."""

from __future__ import annotations

import csv
import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from builder.language import Deferred, ntr, tr
from builder.problems import Place, Problem, did_you_mean, nearest
from builder.reading.limits import LIMITS, Limits
from builder.reading.other_words import another_word, meant_by
from builder.reading.source import Source, short
from builder.reading.tree import Blank, Branch, Text

DELIMITERS = ",;\t"

_ONE_CELL = r' *(?:"(?:[^"]|"")*"[^{0}]*|[^{0}]*)'
_CELL = {delimiter: re.compile(_ONE_CELL.format(delimiter)) for delimiter in DELIMITERS}
LONGEST_CELL = 131_072
_WHOLE = re.compile(r"[^0-9A-Za-z]?[0-9]+")
_DECIMALS = re.compile(r"[0-9]{1,2}(?:[^0-9-]|$)")
_BREAK = re.compile(r"\r\n|\n|\r")


def parse_csv(
    file: str,
    data: bytes,
    required: Collection[str] = (),
    optional: Collection[str] | None = (),
    limits: Limits = LIMITS,
) -> tuple[list[Branch], list[Problem]]:
    """Read a CSV file with a header as one Branch a row, with every problem at its cell.

    Cells are separated by commas, semicolons or tabs, whichever suits the header. Column
    names are compared in lower case, spaces around a cell are dropped, an empty cell is a
    Blank, and empty rows and empty columns at the right are passed over. `optional` None
    takes any further column. A row of the wrong length is reported and left out; without
    a usable header there are no records. Never raises for any bytes.

    >>> data = b"date,item,price\\n2026-09-01,beef-chuck-roll,13.60/kg\\n"
    >>> records, problems = parse_csv("prices/west.csv", data, ["date", "item", "price"])
    >>> records, problems, str(records[0]["price"].place)
    ([{'date': '2026-09-01', 'item': 'beef-chuck-roll', 'price': '13.60/kg'}], [], \
'prices/west.csv:2:28')
    """
    source = Source(file, limits)
    if not source.decode(data, limits.csv_bytes):
        return [], source.problems
    known = {*required, *(optional or ())}
    delimiter = _delimiter(source.text, known)
    rows = _rows(source, delimiter)
    header = next(rows, None)
    if header is None:
        if not source.problems:
            source.refuse(
                0,
                0,
                tr("this file has no header row"),
                tr("write: {required}", required=",".join(required)),
            )
        return [], source.problems
    check = _Header(source, tuple(required), None if optional is None else known)
    columns = check.columns(header)
    records = list(_records(source, columns, list(rows), delimiter)) if columns else []
    return records, source.problems


ADD_COLUMN = Deferred("add it to the first row, and its cell to every other")
"""The hint where no column of the file may be the missing one."""


def missing_column(name: str) -> str:
    """What is reported where a required column is not there."""
    return tr('the column "{missing}" is missing', missing=name)


def _delimiter(text: str, known: Collection[str]) -> str:
    """The delimiter that finds the most known columns in the header, then the most cells."""
    first = next((line for line in _BREAK.split(text, maxsplit=100) if line.strip()), "")

    def fits(delimiter: str) -> tuple[int, int]:
        names = [cell.strip(' "').lower() for cell in first.split(delimiter)]
        return sum(name in known for name in names), len(names)

    return max(DELIMITERS, key=fits)


def _rows(source: Source, delimiter: str) -> Iterator[list[Text]]:
    """The rows that hold something, as placed cells, up to the cap of rows."""
    lines = source.text.splitlines(keepends=True)
    reader = csv.reader(lines, delimiter=delimiter, skipinitialspace=True, strict=True)
    end = count = total = 0
    while True:
        start = end
        try:
            cells = next(reader, None)
        except csv.Error as error:
            _refuse_row(source, start + 1, str(error))
            return
        if cells is None:
            return
        end = reader.line_num
        # The csv module's own cap is global, and other libraries lift it.
        if max(map(len, cells), default=0) > LONGEST_CELL:
            _refuse_row(source, start + 1, "larger than")
            return
        if any(cell.strip() for cell in cells):
            count, total = count + 1, total + len(cells)
            if passed := _passed_cap(source.limits, count, len(cells), total):
                source.refuse(
                    start + 1,
                    1,
                    tr("more than {passed}", passed=passed),
                    tr("split it into several files"),
                )
                return
            raw = "".join(lines[start:end])
            yield [*_placed(source.file, cells, raw, start + 1, _CELL[delimiter])]


def _passed_cap(limits: Limits, rows: int, columns: int, cells: int) -> str:
    """The cap that a file passes with its latest row, in words, or an empty string."""
    if rows > limits.rows + 1:
        return tr("{rows:,} rows", rows=limits.rows)
    if columns > limits.columns:
        return tr("{columns:,} columns", columns=limits.columns)
    return tr("{cells:,} cells", cells=limits.cells) if cells > limits.cells else ""


def _refuse_row(source: Source, line: int, complaint: str) -> None:
    """Say what the csv module could not follow; a lost quote runs on to the end of the file."""
    if "expected after" in complaint:
        message = tr("text or a space follows a closing quote")
        hint = tr('inside quotes write a quote twice ("")')
    elif "larger than" in complaint:
        message, hint = tr("a cell in this row is too long"), tr("or its quote is never closed")
    else:
        message, hint = tr("a quote in this row is never closed"), tr('add the closing "')
    source.refuse_showing(line, 1, message, hint)


def _placed(
    file: str, cells: list[str], raw: str, line: int, one_cell: re.Pattern[str]
) -> Iterator[Text]:
    """Each cell stripped, with the place of its first character (or its quote) in `raw`."""
    column, at = 1, 0
    for cell in cells:
        found = one_cell.match(raw, at)
        written = found.group() if found else ""
        value = cell.strip()
        indent = len(written) - len(written.lstrip()) if value else 0
        yield (Text if value else Blank)(value, file, line, column + indent)
        at += len(written) + 1
        *breaks, rest = _BREAK.split(written) if '"' in written else [written]
        line += len(breaks)
        column = (1 if breaks else column) + len(rest) + 1


@dataclass(frozen=True, slots=True)
class _Header:
    """What a header may hold: `known` None allows any column beside the required."""

    source: Source
    required: tuple[str, ...]
    known: set[str] | None

    def columns(self, cells: list[Text]) -> list[Text]:
        """The column names in lower case, in order; empty after a problem."""
        before = len(self.source.problems)
        names = [Text(c.lower(), c.file, c.line, c.column) for c in _trimmed(cells)]
        if self.required and self.known and self.known.isdisjoint(names):
            message = tr("the first row must name the columns")
            self.source.refuse(
                cells[0].line, 1, message, tr("as in {required}", required=",".join(self.required))
            )
            return []
        seen: dict[str, Text] = {}
        for name in names:
            self.check(name, seen)
            seen.setdefault(name, name)
        # A required column that a misspelt one stands for has been reported with it.
        unknown = [name for name in seen if name not in (self.known or seen)]
        misspelt = {
            meant_by(name, self.known or ()) or nearest(name, self.known) for name in unknown
        }
        for missing in (name for name in self.required if name not in {*seen, *misspelt}):
            hint = did_you_mean(missing, set(seen) - (self.known or set())) or tr(ADD_COLUMN)
            self.source.refuse(cells[0].line, 1, missing_column(missing), hint)
        return names if len(self.source.problems) == before else []

    def check(self, name: Text, seen: dict[str, Text]) -> None:
        """Report an unnamed, repeated or unknown column."""
        if not name:
            self.refuse(name, tr("a column without a name"), tr("name it or delete it"))
        elif name in seen:
            self.refuse(
                name,
                tr(
                    '"{short}" is given twice: first at {place}',
                    short=short(name),
                    place=seen[name].place,
                ),
            )
        elif self.known is not None and name not in self.known:
            allowed = tr("allowed: {known}", known=", ".join(sorted(self.known)))
            meant = another_word(name, self.known) or did_you_mean(name, self.known)
            # The list helps too: a column may be there already, and this one too many.
            hint = f"{meant} {allowed}".strip()
            self.refuse(name, tr('unknown column "{short}"', short=short(name)), hint)

    def refuse(self, name: Text, message: str, hint: str = "") -> None:
        """Add a problem at a header cell."""
        self.source.refuse(name.line, name.column, message, hint)


def _records(
    source: Source, columns: list[Text], rows: Sequence[list[Text]], delimiter: str
) -> Iterator[Branch]:
    """Each row of the header's length as a Branch.

    Where another sign parts the cells of every row, the header is what is wrong, and said once.
    """
    parted = {_parted_by(source, row, columns, delimiter) for row in rows}
    if len(parted) == 1 and len(rows) > 1 and (other := parted.pop()):
        message = tr(
            'the cells of the header are parted by "{delimiter}", those of the rows by "{other}"',
            delimiter=shown(delimiter),
            other=shown(other),
        )
        header = source.line(columns[0].line).replace(delimiter, other)
        source.refuse(columns[0].line, 1, message, tr("write {header}", header=shown(header)))
        return
    for row in rows:
        cells = row[: len(columns)] + _trimmed(row[len(columns) :])
        if len(row) > len(columns) and _parted(cells):
            cells = row
        if len(cells) != len(columns):
            message = ntr(
                "this row has {cells} cell, the header {columns}",
                "this row has {cells} cells, the header {columns}",
                len(cells),
                cells=len(cells),
                columns=len(columns),
            )
            hint = _other_sign(source, row, columns, delimiter) or _row_hint(cells, columns)
            source.refuse(row[0].line, row[0].column, message, hint)
            continue
        record = Branch(Place(source.file, row[0].line, 1))
        record.update(zip(columns, cells, strict=True))
        yield record


def _parted_by(source: Source, row: list[Text], columns: list[Text], delimiter: str) -> str:
    """The sign that parts the cells of a row instead of the header's; empty where none does."""
    line = source.line(row[0].line)
    fits = (
        other
        for other in DELIMITERS
        if other != delimiter and other in line and len(row) < len(columns)
        if line.replace(other, delimiter).count(delimiter) + 1 == len(columns)
    )
    return next(fits, "")


def _other_sign(source: Source, row: list[Text], columns: list[Text], delimiter: str) -> str:
    """The row with the sign of the header, where another one parts its cells."""
    other = _parted_by(source, row, columns, delimiter)
    if not other:
        return ""
    return tr(
        'cells are parted by "{delimiter}" here: write {row}',
        delimiter=shown(delimiter),
        row=shown(source.line(row[0].line).replace(other, delimiter)),
    )


def shown(text: str) -> str:
    """A line as a message quotes it: a tab is an arrow.

    >>> shown("a\\tb")
    'a→b'
    """
    return text.strip("\r\n").replace("\t", "→")


def _row_hint(cells: list[Text], columns: list[Text]) -> str:
    """A longer row often holds a comma that was meant as text or as a decimal mark."""
    if len(cells) < len(columns):
        return tr("columns: {columns}", columns=", ".join(columns))
    for left, right in pairwise(cells):
        if left[-1:].isdigit() and _DECIMALS.match(right):
            return tr("a comma ends a cell: write {left}.{right}", left=left, right=right)
    return tr("put quotes around a cell that holds the separator itself")


def _parted(cells: list[Text]) -> bool:
    """Whether a comma parts a price by a unit, in a row that its last, empty cell hides.

    >>> _parted([Text("5"), Text("60/L")]), _parted([Text("5"), Text("60")])
    (True, False)
    """
    return any(
        _WHOLE.fullmatch(left) and "/" in right and _DECIMALS.match(right)
        for left, right in pairwise(cells)
    )


def _trimmed(cells: list[Text]) -> list[Text]:
    """The cells without the empty ones at the right."""
    end = len(cells)
    while end and isinstance(cells[end - 1], Blank):
        end -= 1
    return cells[:end]
