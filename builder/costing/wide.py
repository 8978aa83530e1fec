"""A web form's export, a row a taster, laid out as a row a taster and sample."""

from __future__ import annotations

import re
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from builder.language import either, tr
from builder.problems import Problem, did_you_mean
from builder.reading.tree import Blank, Branch, Node, Text

_BETWEEN_WORDS = re.compile(r"[\W_]+")
_WHO = ("taster", "scale")
_MAX_COLUMNS_NAMED = 6


def folded(heading: str) -> str:
    """A column's heading as bare words.

    >>> folded("Chuck-24: liking"), folded("Liking [A]")
    ('chuck 24 liking', 'liking a')
    """
    return _BETWEEN_WORDS.sub(" ", heading.lower()).strip()


def is_wide(rows: Sequence[Branch]) -> bool:
    """Whether rows have no column for the sample, so that the headings have to name it."""
    return bool(rows) and {"sample", "code"}.isdisjoint(map(folded, rows[0]))


@dataclass(frozen=True)
class FormLayout:
    """What the columns of a form's export are about.

    `samples` gives the sample of each of its names, blind codes among them; `asked` lists what
    is asked about each.
    """

    samples: Mapping[str, str]
    asked: Sequence[str]

    @cached_property
    def wanted(self) -> list[str]:
        """A heading for each answer."""
        names = dict.fromkeys(self.samples.values())
        return [f"{name} {asked}" for name in names for asked in self.asked]

    @cached_property
    def _meanings(self) -> dict[str, set[tuple[str, str]]]:
        found: dict[str, set[tuple[str, str]]] = {}
        for name in self.samples:
            for asked in self.asked:
                alone = [name] if len(self.asked) == 1 else []
                for heading in (
                    f"{name} {asked}",
                    f"{asked} {name}",
                    f"{asked} of {name}",
                    *alone,
                ):
                    found.setdefault(folded(heading), set()).add((name, asked))
        return found

    def about(self, column: str) -> tuple[str, str] | None:
        """The name of a sample and what is asked, where a heading can mean only one of each."""
        found = self._meanings.get(folded(column), set())
        return next(iter(found)) if len(found) == 1 else None

    def problems(self, header: Branch) -> Iterator[Problem]:
        """Columns that mean nothing or the same twice, and answers without a column."""
        first: dict[str, Text] = {}
        for column in header:
            if found := self.about(column):
                same = first.setdefault(f"{self.samples[found[0]]} {found[1]}", column)
                if same is not column:
                    yield Problem(
                        column.place,
                        tr('"{column}" asks the same as "{same}"', column=column, same=same),
                    )
            elif folded(column) not in (*_WHO, "timestamp"):
                yield self._unknown(column)
        meant = {column: self._one_meant(column, first) for column in header}
        asked = {*first, *filter(None, meant.values())}
        missing = [name for name in self.wanted if name not in asked]
        place = next(iter(header)).place
        if any(meant.values()) and not missing:
            names = (meant[column] or column for column in header)
            hint = tr("write as the first row: {names}", names=",".join(names))
            yield Problem(place, tr("headings are written in other words"), hint)
        elif not asked:
            columns = self._reported(["Taster", *self.wanted], ",")
            hint = tr("a row a taster: {columns}; or a column Sample", columns=columns)
            yield Problem(place, tr("no column names a sample"), hint)
        elif missing:
            yield Problem(
                place,
                tr("no column for {reported}", reported=self._reported(missing)),
                tr("add it to the first row"),
            )

    def _reported(self, names: list[str], comma: str = ", ") -> str:
        return comma.join(names[:_MAX_COLUMNS_NAMED]) + "..." * (len(names) > _MAX_COLUMNS_NAMED)

    def _unknown(self, column: Text) -> Problem:
        taken = tr(
            "taken: {reported}; nothing personal belongs here",
            reported=self._reported(["taster", *self.wanted]),
        )
        near = did_you_mean(folded(column), map(folded, self.wanted))
        hint = self._renamed(column) or near or taken
        return Problem(
            column.place, tr('the column "{column}" means nothing here', column=column), hint
        )

    def _renamed(self, column: Text) -> str:
        """What to write for a heading that names one sample in words of its own."""
        options = self._options(column)
        named = either(f'"{option}"' for option in options)
        return tr("write {named} as its heading", named=named) if options else ""

    def _one_meant(self, column: Text, known: Container[str]) -> str:
        """The heading that such words can only mean, unless it is there already."""
        options = [] if self.about(column) else self._options(column)
        return options[0] if len(options) == 1 and options[0] not in known else ""

    def _options(self, column: Text) -> list[str]:
        """The headings that words of its own may mean: of the one sample that they name."""
        words = folded(column).split()
        named = {sample for name, sample in self.samples.items() if folded(name) in words}
        if len(named) != 1:
            return []
        options = [f"{next(iter(named))} {asked}" for asked in self.asked]
        asked = [heading for heading in options if set(folded(heading).split()) <= set(words)]
        return asked or options

    def rows(self, wide: Iterable[Branch]) -> Iterator[Branch]:
        """A row for each taster and sample; one without any answer is not there."""
        for row in wide:
            cells: dict[str, dict[Text, Node]] = {}
            for column, cell in row.items():
                if found := self.about(column):
                    name, asked = found
                    cells.setdefault(name, {})[_text(asked, column)] = cell
            for name, answers in cells.items():
                if not all(isinstance(cell, Blank) for cell in answers.values()):
                    yield _long(row, name, answers)


def _long(wide: Branch, name: str, answers: Mapping[Text, Node]) -> Branch:
    """One taster's answers on one sample, at the place of the first."""
    first = next(cell for cell in answers.values() if isinstance(cell, Text))
    row = Branch(first.place)
    row.update((key, cell) for key, cell in wide.items() if folded(key) in _WHO)
    row[_text("sample", first)] = _text(name, first)
    row.update(answers)
    return row


def _text(word: str, at: Text) -> Text:
    return Text(word, at.file, at.line, at.column)
