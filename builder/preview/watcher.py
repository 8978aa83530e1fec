"""Seeing that files changed, by what is in them."""

from __future__ import annotations

import hashlib
import os
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

# A file may change twice within one tick of the file system's clock (2 s on FAT, the coarsest).
_CLOCK_TICK_NS = 2_000_000_000


@dataclass(frozen=True, slots=True)
class _Look:
    """What one look at a file found; a settled one cannot have missed a later change."""

    hint: tuple[int, ...]
    digest: str
    settled: bool


class Watcher:
    """Tells whether the files below some paths changed, by their content.

    A look at size and dates only spares reading a file that nobody can have touched since; hidden
    files, editors' backups (a trailing "~") and symbolic links do not count.
    """

    def __init__(self, paths: Sequence[Path]) -> None:
        self._paths = paths
        self._known: dict[str, _Look] = {}
        self.changed()

    def changed(self) -> bool:
        """Look again, and say whether anything differs from the look before."""
        before = self._digests()
        self._known = dict(self._look())
        return before != self._digests()

    def _digests(self) -> dict[str, str]:
        return {file: look.digest for file, look in self._known.items()}

    def _look(self) -> Iterator[tuple[str, _Look]]:
        for path in self._paths:
            for file in _files(path):
                try:
                    yield file, self._digest(file)
                except OSError:
                    continue

    def _digest(self, file: str) -> _Look:
        about = Path(file).stat(follow_symlinks=False)
        hint = (about.st_ino, about.st_size, about.st_mtime_ns, about.st_ctime_ns)
        known = self._known.get(file)
        if known and known.hint == hint and known.settled:
            return known
        settled = time.time_ns() - max(about.st_mtime_ns, about.st_ctime_ns) > _CLOCK_TICK_NS
        return _Look(hint, hashlib.sha256(Path(file).read_bytes()).hexdigest(), settled)


def _files(path: Path) -> Iterator[str]:
    if path.is_file():
        yield str(path)
    for folder, folders, names in os.walk(path):
        folders[:] = [name for name in folders if _counts(name)]
        paths = [f"{folder}/{name}" for name in names if _counts(name)]
        yield from (file for file in paths if not Path(file).is_symlink())


def _counts(name: str) -> bool:
    return not name.startswith(".") and not name.endswith("~") and name != "__pycache__"
