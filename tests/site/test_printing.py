"""A site is the same however many processes print it."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from builder.costing.tastings import FEW as FEW_TASTINGS
from builder.forking import MOST_WORKERS
from builder.printing import FEW, InOrder, Printed, workers_for
from builder.publish import open_links
from tests.benchmarks.tastings import files as tastings
from tests.kitchens import write
from tests.kitchens.small import SMALL

on_linux = pytest.mark.skipif(sys.platform != "linux", reason="pages are shared out on Linux only")

# In a process of its own: a browser's threads in this one would forbid the fork.
BUILD = """
import sys
from datetime import date
from pathlib import Path
from builder import build, printing
workers = int(sys.argv[3])
build.workers_for = lambda pages: workers
day = date(2026, 10, 1)
outcome = build.build(Path(sys.argv[1]), Path(sys.argv[2]), day, day)
assert outcome.report is not None, outcome.problems
"""


def tree(folder: Path) -> dict[str, bytes]:
    files = (file for file in folder.rglob("*") if file.is_file())
    return {file.relative_to(folder).as_posix(): file.read_bytes() for file in files}


@on_linux
def test_one_process_and_three_print_the_same_bytes(tmp_path: Path) -> None:
    content = write(tmp_path / "content", SMALL)
    for workers in ("1", "3"):
        command = [sys.executable, "-c", BUILD, str(content), str(tmp_path / workers), workers]
        subprocess.run(command, check=True)
    assert tree(tmp_path / "1") == tree(tmp_path / "3")


TASTINGS = """
import sys
from datetime import date
from pathlib import Path
from builder.build import compute_content
from builder.costing import tastings
workers = int(sys.argv[2])
tastings.workers_for = lambda pieces, few: workers
costed, problems = compute_content(Path(sys.argv[1]), None, date(2026, 10, 1))
assert costed is not None, problems
print(*(repr(each) for each in costed.tastings.values()), *costed.findings.rows, sep="\\n")
"""


@on_linux
def test_one_process_and_three_find_the_same_of_tastings(tmp_path: Path) -> None:
    content = write(tmp_path, tastings(FEW_TASTINGS + 1))
    found = [
        subprocess.run(
            [sys.executable, "-c", TASTINGS, str(content), workers],
            check=True,
            capture_output=True,
            text=True,
        ).stdout
        for workers in ("1", "3")
    ]
    assert "friedman=FriedmanTest(" in found[0]
    assert found[0] == found[1]


def test_batches_come_in_the_order_that_they_are_asked_for_in() -> None:
    """What long work was begun first waits until it is asked for, and is given once."""
    printed = {n: [Printed(f"{n}.html", b"", open_links("", b""))] for n in range(5)}
    coming = iter([(n, printed[n]) for n in (4, 2, 0, 3, 1)])
    in_order = InOrder(coming)
    assert list(in_order(range(3))) == [printed[n] for n in range(3)]
    assert list(in_order([3, 4])) == [printed[3], printed[4]]
    assert next(coming, None) is None


def test_few_pages_are_printed_by_one_process() -> None:
    assert workers_for(FEW - 1) == 1


def test_no_fork_beside_other_threads(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setattr(threading, "active_count", lambda: 2)
    assert workers_for(10 * FEW) == 1


@on_linux
def test_many_pages_are_shared_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: set(range(16)))
    assert workers_for(10 * FEW) == MOST_WORKERS


# A worker stands for the terminal: it sends Ctrl-C to every process while it prints a page.
# A job in the background starts with SIGINT ignored, so the script sets the usual answer itself.
CTRL_C = """
import os, signal, sys
from builder import build, printing
from builder.cli import main
signal.signal(signal.SIGINT, signal.default_int_handler)
build.workers_for = lambda pages: 3
job, parent = printing._printed, os.getpid()
def interrupted(page, site):
    assert os.getpid() != parent
    os.killpg(0, signal.SIGINT)
    return job(page, site)
printing._printed = interrupted
raise SystemExit(main(["build", *sys.argv[1:]]))
"""
# A service manager ends the build's own process, whether or not others work for it.
TERMINATED = """
import os, signal, sys
from builder import build, printing
from builder.cli import main
workers = int(sys.argv.pop())
build.workers_for = lambda pages: workers
job, parent = printing._printed, os.getpid()
def terminated(page, site):
    os.kill(parent, signal.SIGTERM)
    return job(page, site)
printing._printed = terminated
raise SystemExit(main(["build", *sys.argv[1:]]))
"""


def stopped(tmp_path: Path, script: str, *arguments: str, ignoring: bool = False) -> list[str]:
    """Stop a second build in its middle and return what it reported; the old site is whole."""
    content, site = write(tmp_path / "content", SMALL), tmp_path / "site"
    command = [sys.executable, "-c", BUILD, str(content), str(site), "1"]
    subprocess.run(command, check=True)
    before = tree(site)
    (content / "pantry/salt.yaml").write_text("price: 1.20/kg\n")
    day = ("--as-of", "2026-10-01")
    ended = subprocess.run(
        [sys.executable, "-c", script, str(content), str(site), *day, *arguments],
        capture_output=True,
        text=True,
        check=False,
        start_new_session=True,
        timeout=120,
        preexec_fn=(lambda: signal.signal(signal.SIGINT, signal.SIG_IGN)) if ignoring else None,
    )
    assert ended.returncode == 3
    assert "Traceback" not in ended.stderr
    assert tree(site) == before
    assert sorted(path.name for path in tmp_path.iterdir()) == ["content", "site"]
    return [line for line in ended.stderr.splitlines() if "warning" not in line and line[:1] != " "]


STOPPED = "stopped; the published site is whole, old or new"


@on_linux
@pytest.mark.parametrize("ignoring", [False, True], ids=["in front", "in the background"])
def test_ctrl_c_ends_every_process_in_one_line_and_leaves_the_old_site(
    tmp_path: Path, ignoring: bool
) -> None:
    assert stopped(tmp_path, CTRL_C, ignoring=ignoring)[-1] == STOPPED


@on_linux
@pytest.mark.parametrize("workers", ["1", "3"])
def test_sigterm_clears_the_work_folder(tmp_path: Path, workers: str) -> None:
    assert stopped(tmp_path, TERMINATED, workers)[-1] == STOPPED
