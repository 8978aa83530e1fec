"""A first kitchen to start from: few files, every one an example to write over."""

from __future__ import annotations

from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from builder.problems import ShankbookError


def start(folder: Path) -> list[Path]:
    """Write the first kitchen into a folder that is missing or empty; return its files.

    Raises ShankbookError where the folder holds something, or can't be written.
    """
    try:
        if folder.exists() and any(folder.iterdir()):
            raise ShankbookError(f"{folder} is not empty; name a new folder")
        return list(_write(files(__name__).joinpath("kitchen"), folder))
    except OSError as error:
        raise ShankbookError(f"can't write {folder}: {error.strerror or error}") from error


def _write(source: Traversable, target: Path) -> list[Path]:
    target.mkdir(parents=True, exist_ok=True)
    written: list[Path] = []
    for entry in sorted(source.iterdir(), key=lambda entry: entry.name):
        place = target / entry.name
        if entry.is_dir():
            written += _write(entry, place)
        elif entry.name.endswith((".yaml", ".csv")):
            place.write_bytes(entry.read_bytes())
            written.append(place)
    return written
