"""The command line as a test runs it: in this process where it can, in its own where it must."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest

from builder import cli
from tests.site.sites import ROOT


@dataclass(frozen=True)
class Ran:
    """What a command answered: its exit code, and what it said on each stream."""

    code: int
    out: str
    reported: str


class Command:
    """`shankbook` in this process: quick, and open to replacements."""

    def __init__(self, capsys: pytest.CaptureFixture[str]) -> None:
        self._capsys = capsys

    def __call__(self, *arguments: object) -> Ran:
        """Run one command."""
        self._capsys.readouterr()
        try:
            code = cli.main([str(argument) for argument in arguments])
        except SystemExit as ended:
            code = int(ended.code or 0)
        said = self._capsys.readouterr()
        return Ran(code, said.out, said.err)


def in_process(
    *arguments: object, cwd: Path = ROOT, changes: Mapping[str, str | None] | None = None
) -> Ran:
    """Run this Python with arguments, its environment changed; None takes a variable away."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT), **(changes or {})}
    ran = subprocess.run(
        [sys.executable, *map(str, arguments)],
        cwd=cwd,
        env={name: value for name, value in environment.items() if value is not None},
        capture_output=True,
        check=False,
    )
    return Ran(ran.returncode, ran.stdout.decode(), ran.stderr.decode())
