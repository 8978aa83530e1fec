"""Run a room's tests against changed functions, each change in a forked process.

The tests are collected once. First every file of tests runs alone and tells which functions
each test calls and how long it takes. A change is then put into the function in place, in a
child process, and only those files run that call the function: the tests that call it first, in
all of them, the quickest before the others. Nothing is imported twice, so that most changes
take a second.
"""

from __future__ import annotations

import gc
import json
import os
import resource
import signal
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from types import CodeType, FrameType, FunctionType
from typing import Any

import pytest
from _pytest.runner import runtestprotocol
from hypothesis import Phase, settings

MEMORY = 3 << 30  # bytes; a changed size must not take the machine down
PATIENCE = 20  # seconds of computing for a test, beyond ten times what it takes unchanged
BUDGET = 20  # seconds of computing for all tests of a change
EXAMPLES = 15  # of a Hypothesis test, at most
NOTICED, SURVIVED, AT_IMPORT, ENDLESS = 1, 0, 2, 3
WORDS = {SURVIVED: "NOT NOTICED", AT_IMPORT: "runs at import only, not tried"}


@dataclass
class Record:
    """What a test calls (functions as "file:name") and its seconds."""

    calls: set[str] = field(default_factory=set)
    seconds: float = 0.0


@dataclass(frozen=True)
class Change:
    """A changed function: its file, its first line, the code to put in."""

    path: str
    first: int
    code: CodeType

    @property
    def function(self) -> str:
        """As a record writes it."""
        return f"{self.path}:{self.code.co_qualname}"


def functions(code: CodeType) -> Iterator[CodeType]:
    """The outermost functions of a module's code, methods included."""
    for const in code.co_consts:
        if isinstance(const, CodeType):
            if const.co_flags & 2:  # a function has fast local variables, a class body has not
                yield const
            else:
                yield from functions(const)


def changed_function(path: Path, before: str, after: str) -> Change | None:
    """The function that differs between two texts of a file; None where none does."""
    old = functions(compile(before, str(path), "exec"))
    new = functions(compile(after, str(path), "exec"))
    for one, other in zip(old, new, strict=True):
        if one != other:
            return Change(str(path), one.co_firstlineno, other)
    return None


def put_in(change: Change) -> None:
    """Change the function in place, wherever it is held."""
    found = [
        o
        for o in gc.get_objects()
        if isinstance(o, FunctionType)
        and o.__code__.co_filename == change.path
        and o.__code__.co_firstlineno == change.first
        and o.__code__.co_name == change.code.co_name
    ]
    if not found:
        raise LookupError(f"no function {change.code.co_name} in memory")
    for function in found:
        function.__code__ = change.code


def forget() -> None:
    """Empty the caches of the builder and of the tests, filled while tests were collected."""
    for o in gc.get_objects():
        clear = (
            getattr(o, "cache_clear", None) if type(o).__name__ == "_lru_cache_wrapper" else None
        )
        if clear and str(getattr(o, "__module__", "")).partition(".")[0] in {"builder", "tests"}:
            clear()


def forked(work: Callable[[], int]) -> int:
    """The exit code of work done in a child process (a kill counts as without end)."""
    sys.stdout.flush()
    child = os.fork()
    if child:
        _, status = os.waitpid(child, 0)
        return os.waitstatus_to_exitcode(status)
    code = ENDLESS
    try:
        with Path(os.devnull).open("w") as nowhere:
            os.dup2(nowhere.fileno(), 1)
            os.dup2(nowhere.fileno(), 2)
        code = work()
    finally:
        os._exit(code)


def calls_into(found: set[str]) -> Callable[[FrameType, str, Any], None]:
    """A tracer that collects the builder's functions that are called.

    Each code object is looked at once: half of all calls are of the same few functions.
    """
    known: dict[int, CodeType] = {}

    def seen(frame: FrameType, *_: Any) -> None:
        code = frame.f_code
        if id(code) not in known:
            known[id(code)] = code  # held, so that no other gets its number
            if "/builder/" in code.co_filename:
                found.add(f"{code.co_filename}:{code.co_qualname}")

    return seen


def failed(item: pytest.Item, following: pytest.Item | None) -> bool:
    """Whether a test fails."""
    return any(r.failed for r in runtestprotocol(item, log=False, nextitem=following))


class Runs:
    """A plugin: it records the tests of a room, then tries every change of `changes`."""

    def __init__(self, kept: Path, changes: list[tuple[str, Change]]) -> None:
        self.kept, self.changes = kept, changes
        self.records: dict[str, Record] = {}
        self.noticed: dict[str, int] = {}
        self.at_import: set[str] = set()

    def pytest_collection(self) -> None:
        """Found is enough: Hypothesis does not look for the simplest example."""
        phases = (Phase.explicit, Phase.generate)
        settings.register_profile("mutants", settings.get_profile("no clock"), phases=phases)
        settings.load_profile("mutants")
        sys.settrace(calls_into(self.at_import))

    def pytest_itemcollected(self, item: pytest.Item) -> None:
        """A few examples find nearly what many find."""
        test = getattr(item, "obj", None)
        own = getattr(test, "_hypothesis_internal_use_settings", None)
        if own:
            few = settings(own, max_examples=min(own.max_examples, EXAMPLES))
            vars(test)["_hypothesis_internal_use_settings"] = few

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """In place of pytest's own loop."""
        sys.settrace(None)
        files: dict[str, list[pytest.Item]] = {}
        for item in session.items:
            if not item.get_closest_marker("browser") and not item.get_closest_marker("skip"):
                files.setdefault(str(item.path), []).append(item)
        for path, items in files.items():
            self.record(path, items)
        for number, (name, change) in enumerate(self.changes, start=1):
            start = time.monotonic()
            chosen = list(self.chosen(change, files.values()))
            self.noticed[name] = forked(lambda c=change, i=chosen: self.tried(c, i))  # type: ignore[misc]
            if not chosen and change.function in self.at_import:
                self.noticed[name] = AT_IMPORT
            word = WORDS.get(self.noticed[name], "noticed")
            took = time.monotonic() - start
            print(f"{number}/{len(self.changes)} {word} {name} ({took:.0f} s)")
            sys.stdout.flush()
        return True

    def chosen(self, change: Change, files: Iterable[list[pytest.Item]]) -> Iterator[pytest.Item]:
        """The tests of a change: in every file those that call its function, then the others.

        The quick ones first, and the files of quick ones first: what calls the function is run
        before the time for a change is up.
        """

        def rank(item: pytest.Item) -> tuple[bool, float]:
            return change.function not in self.calls(item), self.seconds(item)

        ranked = [sorted(items, key=rank) for items in files]
        ranked = sorted((i for i in ranked if not rank(i[0])[0]), key=lambda items: rank(items[0]))
        for other in (False, True):
            for items in ranked:
                yield from (item for item in items if rank(item)[0] == other)

    def calls(self, item: pytest.Item) -> set[str]:
        """The functions that a test calls."""
        return self.records[item.nodeid].calls if item.nodeid in self.records else set()

    def seconds(self, item: pytest.Item) -> float:
        """What a test takes."""
        return self.records[item.nodeid].seconds if item.nodeid in self.records else 0.0

    def tried(self, change: Change, items: list[pytest.Item]) -> int:
        """In a child: whether a test notices the change."""
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        signal.signal(signal.SIGVTALRM, lambda *_: os._exit(ENDLESS))
        forget()
        put_in(change)
        for number, item in enumerate(items):
            signal.setitimer(signal.ITIMER_VIRTUAL, PATIENCE + 10 * self.seconds(item))
            if failed(item, items[number + 1] if number + 1 < len(items) else None):
                return NOTICED
            if time.process_time() > BUDGET:
                break
        return SURVIVED

    def record(self, path: str, items: list[pytest.Item]) -> None:
        """Fill the records of a file's tests, or take those kept from an earlier run."""
        stamp = Path(path).stat().st_mtime_ns
        kept = self.kept / f"{Path(path).parent.name}-{Path(path).stem}-{stamp}.json"
        if not kept.exists():
            forked(lambda: self.recorded(items, kept))
        rows = json.loads(kept.read_text()) if kept.exists() else {}
        self.records |= {name: Record(set(calls), took) for name, (calls, took) in rows.items()}

    def recorded(self, items: list[pytest.Item], kept: Path) -> int:
        """In a child: run a file's tests unchanged, and write down what they call."""
        forget()
        rows = {}
        for number, item in enumerate(items):
            calls: set[str] = set()

            start = time.process_time()
            sys.settrace(calls_into(calls))
            try:
                wrong = failed(item, items[number + 1] if number + 1 < len(items) else None)
            finally:
                sys.settrace(None)
            if not wrong:  # what fails unchanged says nothing
                rows[item.nodeid] = (sorted(calls), time.process_time() - start)
        kept.write_text(json.dumps(rows))
        return 0
