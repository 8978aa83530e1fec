"""Helpers of these tests: small sites, and the question whether a folder is exactly one of them."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Mapping
from pathlib import Path
from types import FrameType

import pytest

from builder.publish import MANIFEST, Manifest, site
from builder.publish.manifest import sha256

OLD = {
    "index.html": b"old home",
    "style.css": b"body{}",
    "cuts/chuck.html": b"old chuck",
    "cuts/gone.html": b"will go",
    "plates/only-here.html": b"a folder that goes",
}
NEW = {
    "index.html": b"new home",
    "style.css": b"body{}",
    "cuts/chuck.html": b"new chuck",
    "cuts/shank.html": b"arrives",
    "swaps/fresh/one.html": b"a folder that comes",
}
FOREIGN = {".gitkeep": b"", "CNAME": b"kitchen.invalid\n", "notes/mine.txt": b"keep me"}


def tree(folder: Path) -> dict[str, bytes]:
    """Read every file below a folder."""
    return {
        file.relative_to(folder).as_posix(): file.read_bytes()
        for file in folder.rglob("*")
        if file.is_file() and not file.is_symlink()
    }


def whole(
    pages: Mapping[str, bytes], foreign: Mapping[str, bytes] | None = None
) -> dict[str, bytes]:
    """Say what a folder holds when the site is whole."""
    manifest = Manifest({path: sha256(body) for path, body in pages.items()})
    return {**pages, **(foreign or {}), MANIFEST: manifest.to_bytes()}


def put(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write files as somebody else would."""
    for path, body in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(body)


def leftovers(output: Path) -> list[str]:
    """Name what lies beside the output, or hidden in it, that a finished build must not leave."""
    beside = [each.name for each in output.parent.iterdir() if each != output]
    return beside + [each.name for each in output.glob(".shankbook-work")]


def swap_by(way: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Take from the file system what the other ways to swap need."""
    if way == "two renames":
        monkeypatch.setattr(site, "exchange", lambda one, other: False)
    if way == "in place":
        monkeypatch.setattr(site, "locate", _inside)


def _inside(output: Path) -> Path:
    output.mkdir(exist_ok=True)
    return output / ".shankbook-work"


class KillAt:
    """An observer that kills its process with SIGKILL at the n-th step."""

    def __init__(self, step: int) -> None:
        self.left = step

    def __call__(self, step: str) -> None:
        if self.left == 0:
            os.kill(os.getpid(), signal.SIGKILL)
        self.left -= 1


class KillAtLine:
    """A tracer that kills its process before the n-th line of the publishing code."""

    def __init__(self, line: int) -> None:
        self.kill = KillAt(line)

    def __call__(self, frame: FrameType, event: str, _: object) -> KillAtLine | None:
        if "/publish/" not in frame.f_code.co_filename:
            return None
        if event == "line":
            self.kill(event)
        return self


def in_child(work: Callable[[], object]) -> int:
    """Run `work` in a forked process; return 0, or minus the signal that ended it."""
    child = os.fork()
    if child == 0:
        try:
            work()
            os._exit(0)
        finally:
            os._exit(1)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
