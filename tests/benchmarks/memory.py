"""What a command and its children hold in memory together, shared pages counted once."""

from __future__ import annotations

import subprocess
import time
from collections.abc import Sequence
from pathlib import Path

EVERY_SECONDS = 0.25


def run(command: Sequence[str], folder: Path | None = None) -> tuple[str, float]:
    """Run a command; gives what it printed and the peak of all its processes in MB.

    The command runs in `folder` where one is named.

    A page that several processes share counts for each by its part (the kernel's
    "proportional set size"), so that the sum is what the machine must have. NaN where the
    system does not tell. Raises CalledProcessError where the command fails.
    """
    peak = 0.0
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, cwd=folder) as process:
        assert process.stdout is not None
        while process.poll() is None:
            peak = max(peak, _held(process.pid))
            time.sleep(EVERY_SECONDS)
        printed = process.stdout.read()
    if process.returncode:
        raise subprocess.CalledProcessError(process.returncode, command)
    return printed, peak or float("nan")


def _held(pid: int) -> float:
    return sum(_megabytes(each) for each in (pid, *_children(pid)))


def _children(pid: int) -> list[int]:
    try:
        return [int(n) for n in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()]
    except OSError:
        return []


def _megabytes(pid: int) -> float:
    try:
        lines = Path(f"/proc/{pid}/smaps_rollup").read_text().splitlines()
    except OSError:
        return 0.0
    return sum(int(line.split()[1]) / 1e3 for line in lines if line.startswith("Pss:"))
