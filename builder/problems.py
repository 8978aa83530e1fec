"""Problems are values: where, what is wrong, what is allowed.

Every stage collects problems instead of stopping at the first; the shell sorts
and prints them once. An exception is for the programmer's mistakes and for
what makes going on pointless (`ShankbookError`).
"""

from __future__ import annotations

import difflib
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from builder.language import tr

# Problems of one file that are held, and of all files of a kind; more of them say nothing new.
MAX_HELD_PER_FILE, MAX_HELD = 5_000, 50_000


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
    on which what it is about starts; None where it is about every day.
    """

    place: Place
    message: str
    hint: str = ""
    severity: Severity = Severity.ERROR
    record: str = ""
    also: tuple[str, ...] = ()
    needs: tuple[str, ...] | None = None
    days: frozenset[int] | None = None

    @property
    def is_error(self) -> bool:
        """Whether this problem stops publishing."""
        return self.severity is Severity.ERROR


def in_order(problems: Iterable[Problem]) -> list[Problem]:
    """Sort by file, line and column, errors before warnings, each problem once."""
    unique = dict.fromkeys(problems)
    return sorted(unique, key=lambda p: (p.place, not p.is_error, p.message))


def bounded(
    problems: Iterable[Problem], most: int = MAX_HELD_PER_FILE, held: int = 0
) -> Iterator[Problem]:
    """Take problems until one file has more than so many; one problem then says so for the rest.

    What makes problems is not asked for more: a list of millions of wrong rows is passed over
    without being looked at, or held. Beside `held` problems of other files it is passed over
    earlier, so that many such files hold no more than a few; each still has its first one.

    >>> from itertools import count
    >>> endless = (Problem(Place("a.csv", n, 1), "no price") for n in count(1))
    >>> [str(problem.place) for problem in bounded(endless, 2)]
    ['a.csv:1:1', 'a.csv:2:1', 'a.csv']
    >>> endless = (Problem(Place("b.csv", n, 1), "no price") for n in count(1))
    >>> [str(problem.place) for problem in bounded(endless, held=MAX_HELD)]
    ['b.csv:1:1', 'b.csv']
    """
    counts: Counter[str] = Counter()
    for number, problem in enumerate(problems):
        file = problem.place.file
        counts[file] += 1
        if counts[file] > most or number > max(MAX_HELD - held, 0):
            hint = tr("correct the first of them, and check again")
            yield Problem(Place(file), tr("more problems than are counted here"), hint)
            return
        yield problem


def shortened(problems: Iterable[Problem], most: int) -> tuple[list[Problem], dict[str, int]]:
    """Keep at most so many problems of each file, errors first, and count what is left out.

    >>> kept, left_out = shortened([Problem(Place("a.csv", n, 1), "no price") for n in (1, 2)], 1)
    >>> str(kept[0].place), left_out
    ('a.csv:1:1', {'a.csv': 1})
    """
    kept: list[Problem] = []
    counts: Counter[str] = Counter()
    for problem in sorted(problems, key=lambda each: not each.is_error):
        counts[problem.place.file] += 1
        if counts[problem.place.file] <= most:
            kept.append(problem)
    return in_order(kept), {file: n - most for file, n in counts.items() if n > most}


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
