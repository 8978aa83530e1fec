"""Looking at folders without ever following a symbolic link, and carrying files between them."""

from __future__ import annotations

import os
import shutil
from dataclasses import dataclass, field
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Survey:
    """What lies in a folder, by relative path: names to `regular` (not a link, pipe or socket)."""

    files: dict[str, bool] = field(default_factory=dict)
    folders: list[str] = field(default_factory=list)


def survey(root: Path, ignore: str = "") -> Survey:
    """List a folder to its depths, parents before children; a missing folder is an empty one.

    `ignore` names one entry at the top to leave out.
    """
    found = Survey()
    if root.is_dir():
        _look(str(root), "", ignore, found)
    return found


def _look(folder: str, prefix: str, ignore: str, found: Survey) -> None:
    with os.scandir(folder) as entries:
        for entry in sorted(entries, key=lambda each: each.name):
            path = prefix + entry.name
            if entry.is_dir(follow_symlinks=False):
                if path != ignore:
                    found.folders.append(path)
                    _look(entry.path, f"{path}/", ignore, found)
            else:
                found.files[path] = entry.is_file(follow_symlinks=False)


def holds(file: Path, content: bytes) -> bool:
    """Tell whether a regular file holds exactly `content`, by its bytes and not by its date."""
    return file.stat().st_size == len(content) and file.read_bytes() == content


def link_or_copy(source: Path, target: Path) -> None:
    """Give `target` the same file: a hard link where the file system can, else a copy."""
    try:
        os.link(source, target, follow_symlinks=False)
    except (OSError, NotImplementedError):
        shutil.copy2(source, target, follow_symlinks=False)


def same(one: Path, other: Path) -> bool:
    """Tell whether two names are one file, or links or regular files with the same content."""
    if os.path.samestat(one.lstat(), other.lstat()):
        return True
    if one.is_symlink() and other.is_symlink():
        return one.readlink() == other.readlink()
    regular = [each.is_file() and not each.is_symlink() for each in (one, other)]
    return all(regular) and holds(one, other.read_bytes())


def remove_empty(root: Path, folders: list[str]) -> None:
    """Remove those of the folders under `root` that are empty, the deepest first."""
    for folder in sorted(folders, key=lambda path: path.count("/"), reverse=True):
        place = root / folder
        if place.is_dir() and not place.is_symlink() and not any(place.iterdir()):
            place.rmdir()


def parents(path: str) -> list[str]:
    """Return the folders above a relative path, the nearest first.

    >>> parents("a/b/c.html")
    ['a/b', 'a']
    """
    return [str(folder) for folder in Path(path).parents if folder.name]
