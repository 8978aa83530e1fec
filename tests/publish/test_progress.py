"""A bar on a terminal, silence everywhere else, looked at through a real pseudo-terminal."""

from __future__ import annotations

import io
import os
import pty
import subprocess
import sys

import pytest

from builder.progress import Bar, Quiet, progress_on

_COLOUR = b"\x1b[38;5;"


def _drawn(environment: dict[str, str]) -> bytes:
    """Run two stages in a terminal and return all that reached it."""
    master, slave = pty.openpty()
    with os.fdopen(slave, "w", encoding="utf-8") as terminal:
        progress = progress_on(terminal, environment)
        with progress.stage("render [x]", total=1000) as step:
            for _ in range(1000):
                step()
        with progress.stage("publish") as step:
            step(3)
        terminal.write("END")
        terminal.flush()
        drawn = b""
        while not drawn.endswith(b"END"):
            drawn += os.read(master, 65_536)
    os.close(master)
    return drawn.removesuffix(b"END")


def test_a_terminal_gets_a_bar_with_every_step_counted() -> None:
    drawn = _drawn({"TERM": "xterm-256color"})
    assert b"render [x]" in drawn
    assert b"1000/1000" in drawn
    assert b"publish" in drawn


# The convention of no-color.org: set and not empty means no colour [published, from memory].
@pytest.mark.parametrize(("value", "coloured"), [("1", False), ("0", False), ("", True)])
def test_no_color(value: str, coloured: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.delenv("NO_COLOR", raising=False)
    drawn = _drawn({"TERM": "xterm-256color", "NO_COLOR": value})
    assert b"1000/1000" in drawn
    assert (_COLOUR in drawn) == coloured


def test_a_dumb_terminal_gets_silence() -> None:
    assert _drawn({"TERM": "dumb"}) == b""


def test_a_file_gets_silence() -> None:
    stream = io.StringIO()
    progress = progress_on(stream, {"TERM": "xterm"})
    assert isinstance(progress, Quiet)
    with progress.stage("render", total=2) as step:
        step()
    assert stream.getvalue() == ""


def test_a_failing_stage_passes_its_error_on() -> None:
    with pytest.raises(ZeroDivisionError), Bar(io.StringIO()).stage("x", total=1):
        raise ZeroDivisionError


def test_rich_is_imported_only_to_draw() -> None:
    code = (
        "import io, sys, builder.progress as p\n"
        "with p.progress_on(io.StringIO()).stage('x', 3) as step: step()\n"
        "sys.exit('rich' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
