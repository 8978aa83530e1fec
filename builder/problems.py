"""Problems are values: where, what is wrong, what is allowed.

Every stage collects problems instead of stopping at the first; the shell sorts
and prints them once. An exception is for the programmer's mistakes and for
what makes going on pointless (`ShankbookError`).
"""

from __future__ import annotations

import difflib
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from enum import StrEnum

from builder.language import tr

# Problems of one file that are held; more of them say nothing new.
MAX_HELD_PER_FILE = 5_000
# Of a whole folder: beyond them only the first error of each file is held.
MAX_HELD = 50_000


class ShankbookError(Exception):
    """The one root of every error that the shell reports without a traceback."""


class BusyError(ShankbookError):
    """Another process is at work on the same site; a moment later it may be done."""


class Severity(StrEnum):
    """An error publishes nothing; a warning shows on the page that it concerns."""

    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A position in a content file; line and column count from 1, 0 means the whole file.

    >>> str(Place("cuts/beef-chuck-roll.yaml", 4, 8))
    'cuts/beef-chuck-roll.yaml:4:8'
    >>> str(Place("kitchen.yaml"))
    'kitchen.yaml'
    """

    file: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}" if self.line else self.file


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that somebody has to mend.

    `record` is the id path of the page that a warning belongs to, such as
    "cuts/beef-chuck-roll"; empty when it concerns the whole kitchen. `also` holds further
    pages on which it shows, because what they say rests on it. `needs`: kinds of record, groups
    of figures and parts that its sentence, and that it is there at all, rest on; None where
    nobody has said so, which is taken as all of them. `days`: the days of the week, Monday 0,
    on which what it is about starts; None where it is about every day. `stands_for_more`: it
    says that its file has others, which are not held.
    """

    place: Place
    message: str
    hint: str = ""
    severity: Severity = Severity.ERROR
    record: str = ""
    also: tuple[str, ...] = ()
    needs: tuple[str, ...] | None = None
    days: frozenset[int] | None = None
    stands_for_more: bool = False

    @property
    def is_error(self) -> bool:
        """Whether this problem stops publishing."""
        return self.severity is Severity.ERROR


def in_order(problems: Iterable[Problem]) -> list[Problem]:
    """Sort by file, line and column, errors before warnings, each problem once."""
    unique = dict.fromkeys(problems)
    return sorted(unique, key=lambda p: (p.place, not p.is_error, p.message))


def bounded(problems: Iterable[Problem], most: int = MAX_HELD_PER_FILE) -> Iterator[Problem]:
    """Take problems until one file has more than so many; one problem then says so for the rest.

    What makes problems is not asked for more than it takes to know whether one of the rest is an
    error: a list of millions of wrong rows is passed over without being looked at, or held.

    >>> from itertools import count
    >>> endless = (Problem(Place("a.csv", n, 1), "no price") for n in count(1))
    >>> [str(problem.place) for problem in bounded(endless, 2)]
    ['a.csv:1:1', 'a.csv:2:1', 'a.csv']
    """
    counts: Counter[str] = Counter()
    rest = iter(problems)
    for problem in rest:
        file = problem.place.file
        counts[file] += 1
        if counts[file] > most:
            wrong = problem.is_error or any(other.is_error for other in rest)
            yield _cut_short(file, is_error=wrong)
            return
        yield problem


def _cut_short(file: str, *, is_error: bool) -> Problem:
    """That a file has more problems than are held."""
    hint = tr("correct the first of them, and check again")
    severity = Severity.ERROR if is_error else Severity.WARNING
    message = tr("more problems than are counted here")
    return Problem(Place(file), message, hint, severity, stands_for_more=True)


@dataclass(slots=True)
class Gathered:
    """Problems of a whole folder as they are found: so many of each file, and of all together.

    The first error of every file is held whatever is full, so that it is known which files have
    one; a file of which some are passed over has one problem more, which says so.

    >>> gathered = Gathered(most=2)
    >>> gathered.add(Problem(Place(file, n, 1), "no price") for file in "ab" for n in (1, 2, 3))
    >>> [str(problem.place) for problem in gathered]
    ['a:1:1', 'a:2:1', 'b:1:1', 'a', 'b']
    """

    most: int = MAX_HELD
    of_a_file: int = MAX_HELD_PER_FILE
    _held: list[Problem] = field(default_factory=list)
    _counts: Counter[str] = field(default_factory=Counter)
    _wrong: set[str] = field(default_factory=set)
    _passed_over: dict[str, bool] = field(default_factory=dict)

    def add(self, problems: Iterable[Problem]) -> None:
        """Hold problems as far as there is room."""
        for problem in problems:
            file = problem.place.file
            if problem.stands_for_more:
                self._held.append(problem)
            elif self._has_room(file) or (problem.is_error and file not in self._wrong):
                self._hold(problem)
            else:
                passed = self._passed_over.get(file, False)
                self._passed_over[file] = passed or problem.is_error

    def __iter__(self) -> Iterator[Problem]:
        yield from self._held
        for file, is_error in self._passed_over.items():
            yield _cut_short(file, is_error=is_error)

    def _has_room(self, file: str) -> bool:
        return len(self._held) < self.most and self._counts[file] < self.of_a_file

    def _hold(self, problem: Problem) -> None:
        self._held.append(problem)
        self._counts[problem.place.file] += 1
        if problem.is_error:
            self._wrong.add(problem.place.file)


def shortened(
    problems: Iterable[Problem], most: int, of_all: int
) -> tuple[list[Problem], dict[str, int]]:
    """Keep at most so many problems of each file and of all, errors first; count what is left out.

    >>> problems = [Problem(Place(file, n, 1), "no price") for file in "ab" for n in (1, 2, 3)]
    >>> kept, left_out = shortened(problems, 2, 3)
    >>> [str(problem.place) for problem in kept], left_out
    (['a:1:1', 'a:2:1', 'b:1:1'], {'a': 1, 'b': 2})
    """
    kept: list[Problem] = []
    counts: Counter[str] = Counter()
    left_out: Counter[str] = Counter()
    for problem in sorted(problems, key=lambda each: not each.is_error):
        file = problem.place.file
        if counts[file] < most and len(kept) < of_all:
            counts[file] += 1
            kept.append(problem)
        else:
            left_out[file] += 1
    return in_order(kept), dict(left_out)


def nearest(word: str, known: Iterable[str] | None, likeness: float = 0.6) -> str:
    """The nearest known word of at least some likeness, 0 to 1, or an empty string.

    >>> nearest("prise", ["price", "trim"])
    'price'
    """
    near = difflib.get_close_matches(word, list(known or ()), n=1, cutoff=likeness)
    return near[0] if near else ""


def did_you_mean(word: str, known: Iterable[str], likeness: float = 0.6) -> str:
    """Suggest the nearest known word of at least some likeness, or return an empty string.

    >>> did_you_mean("prise", ["price", "trim"])
    'did you mean "price"?'
    >>> did_you_mean("zzz", ["price", "trim"])
    ''
    """
    near = nearest(word, known, likeness)
    return tr('did you mean "{near}"?', near=near) if near else ""
