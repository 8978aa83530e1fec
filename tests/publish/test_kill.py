"""kill -9 at every step, and at random moments: the old site or the new one, never a mixture."""

from __future__ import annotations

import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.problems import ShankbookError
from builder.publish import publish, recover
from builder.publish.work import beside

from .sites import (
    FOREIGN,
    NEW,
    OLD,
    KillAt,
    KillAtLine,
    in_child,
    leftovers,
    put,
    swap_by,
    tree,
    whole,
)

KILLED = -signal.SIGKILL
_TOO_MANY = 200
_LAST_LINE = 1500
# 1 sweeps every line in half a minute; a prime, so that other runs of a loop are hit each time.
STRIDE = 37


def _kill_at_every_step(
    tmp_path: Path, after: Callable[[Path, int], None], begin: Callable[[Path, KillAt], object]
) -> int:
    """Kill at step 0, 1, 2 ... until a build gets through; hand each wreck to `after`."""
    for step in range(_TOO_MANY):
        output = tmp_path / str(step) / "output"
        publish(OLD, output)
        put(output, FOREIGN)
        if in_child(lambda: begin(output, KillAt(step))) == 0:  # noqa: B023 - called at once
            return step
        after(output, step)
    raise AssertionError("no build got through")


def _build(output: Path, observe: KillAt) -> object:
    return publish(NEW, output, observe=observe)


def test_exchange_is_whole_without_any_recovery(tmp_path: Path) -> None:
    seen: list[bool] = []

    def check(output: Path, step: int) -> None:
        found = tree(output)
        assert found in (whole(OLD, FOREIGN), whole(NEW, FOREIGN)), step
        seen.append(found == whole(NEW, FOREIGN))
        recover(output)
        assert tree(output) == found
        assert leftovers(output) == []
        publish(NEW, output)
        assert tree(output) == whole(NEW, FOREIGN)

    _kill_at_every_step(tmp_path, check, _build)
    assert seen == sorted(seen)
    assert {False, True} == set(seen)


@pytest.mark.parametrize("way", ["two renames", "in place"])
@pytest.mark.parametrize("again", ["recover", "build"])
def test_the_other_ways_are_whole_after_recovery(
    way: str, again: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    swap_by(way, monkeypatch)

    def check(output: Path, step: int) -> None:
        if again == "recover":
            recover(output)
            assert tree(output) in (whole(OLD, FOREIGN), whole(NEW, FOREIGN)), step
        else:
            third = {**OLD, "third.html": b"third"}
            publish(third, output)
            assert tree(output) == whole(third, FOREIGN)
        assert leftovers(output) == []

    assert _kill_at_every_step(tmp_path, check, _build) > 10


@pytest.mark.parametrize("way", ["exchange", "two renames", "in place"])
def test_a_kill_during_recovery_is_recovered_too(
    way: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    swap_by(way, monkeypatch)

    def wreck_twice(output: Path, step: int) -> None:
        for second in range(_TOO_MANY):
            if in_child(lambda: recover(output, KillAt(second))) == 0:  # noqa: B023
                break
        assert tree(output) in (whole(OLD, FOREIGN), whole(NEW, FOREIGN)), step
        assert leftovers(output) == []

    _kill_at_every_step(tmp_path, wreck_twice, _build)


@pytest.mark.parametrize("way", ["exchange", "two renames", "in place"])
def test_a_kill_between_any_two_lines(
    way: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    swap_by(way, monkeypatch)
    ended = {
        _killed_at_line(line, tmp_path / str(line) / "output", way)
        for line in range(random.Random(way).randrange(STRIDE), _LAST_LINE, STRIDE)
    }
    assert ended == {KILLED, 0}


def _killed_at_line(line: int, output: Path, way: str) -> int:
    publish(OLD, output, durable=False)
    put(output, FOREIGN)

    def build() -> None:
        sys.settrace(KillAtLine(line))
        publish(NEW, output, durable=False)

    ended = in_child(build)
    if way != "exchange":
        recover(output)
    assert tree(output) in (whole(OLD, FOREIGN), whole(NEW, FOREIGN)), line
    recover(output)
    assert tree(output) in (whole(OLD, FOREIGN), whole(NEW, FOREIGN)), line
    assert leftovers(output) == []
    return ended


def test_a_killed_first_build_leaves_nothing_or_all(tmp_path: Path) -> None:
    for step in range(_TOO_MANY):
        output = tmp_path / str(step) / "output"
        ended = in_child(lambda: publish(NEW, output, observe=KillAt(step)))  # noqa: B023
        assert tree(output) in ({}, whole(NEW))
        publish(OLD, output)
        assert tree(output) == whole(OLD)
        assert leftovers(output) == []
        if ended == 0:
            return
        assert ended == KILLED
    raise AssertionError("no build got through")


def test_a_kill_while_the_journal_is_written(tmp_path: Path) -> None:
    output = tmp_path / "output"
    publish(OLD, output)
    put(beside(output), {"lock": b"", "journal.draft": b'{"stag', "new/a.html": b"half"})
    recover(output)
    assert tree(output) == whole(OLD)
    assert leftovers(output) == []


def test_a_site_that_was_moved_while_it_was_torn_is_not_guessed_at(tmp_path: Path) -> None:
    output = tmp_path / "output"
    publish(OLD, output)
    put(beside(output), {"lock": b"", "journal.json": b'{"staged": [1, 2]}', "new/a.html": b"?"})
    with pytest.raises(ShankbookError, match="compare it"):
        publish(NEW, output)
    assert tree(output) == whole(OLD)
    assert (beside(output) / "new/a.html").read_bytes() == b"?"


def test_a_file_saved_by_somebody_in_the_instant_of_the_swap_is_not_lost(tmp_path: Path) -> None:
    output = tmp_path / "output"
    publish(OLD, output)

    def save(step: str) -> None:
        if step == "swap":
            put(output, {"late/note.txt": b"late", "swaps/fresh/one.html": b"mine"})

    publish(NEW, output, observe=save)
    late = {"late/note.txt": b"late", "swaps/fresh/one.html.kept": b"mine"}
    assert tree(output) == whole(NEW, late)
    assert leftovers(output) == []


_LOOP = """
import sys
from pathlib import Path
from builder.publish import publish
output, count = Path(sys.argv[1]), int(sys.argv[2])
def site(mark):
    return {f"{mark if n % 3 else 'both'}/{n}.html": b"%d" % (n if n % 2 else mark) * 50
            for n in range(count)}
print("ready", flush=True)
while True:
    for mark in (0, 1):
        publish(site(mark), output, durable=False)
"""


def _loop_site(mark: int, count: int) -> dict[str, bytes]:
    return {
        f"{mark if n % 3 else 'both'}/{n}.html": b"%d" % (n if n % 2 else mark) * 50
        for n in range(count)
    }


def test_a_build_killed_at_25_random_moments(tmp_path: Path) -> None:
    output, count = tmp_path / "output", 60
    sites = [whole(_loop_site(mark, count)) for mark in (0, 1)]
    publish(_loop_site(0, count), output)
    chance = random.Random(20_240_229)
    wrecks = 0
    for _ in range(25):
        arguments = [sys.executable, "-c", _LOOP, str(output), str(count)]
        with subprocess.Popen(arguments, stdout=subprocess.PIPE) as child:
            assert child.stdout is not None
            child.stdout.readline()
            time.sleep(chance.uniform(0.0, 0.06))
            child.kill()
        wrecks += leftovers(output) != []
        assert tree(output) in sites
    assert wrecks > 0
    recover(output)
    assert leftovers(output) == []
    assert tree(output) in sites
