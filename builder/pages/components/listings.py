"""The lines of a file."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SourceListing:
    """A file's numbered lines, each an anchor (#L7) after `prefix`; `used` lines carry a mark."""

    file: str
    lines: tuple[str, ...]
    used: frozenset[int] = frozenset()
    prefix: str = ""
