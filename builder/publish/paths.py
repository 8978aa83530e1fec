"""Page paths that mean the same file on every file system and every web server."""

from __future__ import annotations

import re

from builder.language import tr
from builder.problems import ShankbookError

HISTORY = ".shankbook-history.json"
"""What the next build compares with: a file of the site that no page leads to."""

_SEGMENT = re.compile(r"[A-Za-z0-9_](?:[A-Za-z0-9._-]*[A-Za-z0-9_-])?")
_DEVICE = re.compile(r"(?:con|prn|aux|nul|com[0-9]|lpt[0-9])(?:\..*)?", re.IGNORECASE)
_LONGEST_SEGMENT = 200
_LONGEST_PATH = 1000


def check_path(path: str) -> None:
    """Raise ShankbookError unless `path` is relative, portable and inside the site.

    Segments are ASCII letters, digits, ".", "_" and "-", neither beginning nor ending with a
    dot: file systems disagree on how to spell an accented letter, Windows drops a trailing dot
    and keeps the names of devices for itself, and leading dots are for our own files.

    >>> check_path("cuts/beef-chuck-roll.html")
    >>> check_path("../secret.html")
    Traceback (most recent call last):
    builder.problems.ShankbookError: "../secret.html" cannot be a page's path: ".." is no file name
    """
    if path == HISTORY:
        return
    if len(path) > _LONGEST_PATH:
        raise ShankbookError(f'"{path[:40]}..." is longer than {_LONGEST_PATH} characters')
    for segment in path.split("/"):
        if not _is_portable(segment):
            raise ShankbookError(f'"{path}" cannot be a page\'s path: "{segment}" is no file name')


def _is_portable(segment: str) -> bool:
    return (
        len(segment) <= _LONGEST_SEGMENT
        and _SEGMENT.fullmatch(segment) is not None
        and _DEVICE.fullmatch(segment) is None
    )


class Claims:
    """Who is where: no two files under one name, whatever the file system makes of case.

    A folder has one spelling, and a name is a folder or a file, never both.

    >>> claims = Claims()
    >>> claims.page("cuts/Chuck.html")
    >>> claims.page("cuts/chuck.html")
    Traceback (most recent call last):
    builder.problems.ShankbookError: "cuts/chuck.html" and "cuts/Chuck.html" would be one file
    """

    def __init__(self) -> None:
        self._files: dict[str, str] = {}
        self._folders: dict[str, str] = {"": ""}
        self._foreign: set[str] = set()

    def page(self, path: str) -> None:
        """Claim the path of a page, or raise ShankbookError naming what is there."""
        check_path(path)
        self._folder(path.rpartition("/")[0], path)
        key = path.lower()
        if (other := self._files.get(key, self._folders.get(key))) is not None:
            raise ShankbookError(self._quarrel(path, other))
        self._files[key] = path

    def foreign(self, path: str, *, folder: bool = False) -> None:
        """Claim what somebody else put into the output; its name may be as odd as it likes."""
        parents = path.split("/")
        names = ["/".join(parents[:depth]) for depth in range(1, len(parents) + 1)]
        self._foreign.update(names)
        files = [] if folder else [names.pop()]
        self._folders.update((name.lower(), name) for name in names)
        self._files.update((name.lower(), name) for name in files)

    def _folder(self, folder: str, page: str) -> None:
        key = folder.lower()
        if self._folders.get(key) == folder:
            return
        if (other := self._folders.get(key, self._files.get(key))) is not None:
            raise ShankbookError(self._quarrel(page, other))
        self._folder(folder.rpartition("/")[0], page)
        self._folders[key] = folder

    def _quarrel(self, path: str, other: str) -> str:
        if other in self._foreign:
            return tr(
                '"{path}" cannot be written: "{other}" in the output folder is not ours',
                path=path,
                other=other,
            )
        if self._files.get(path.lower()) == path:
            return f'"{path}" would be written twice'
        return f'"{path}" and "{other}" would be one file'
