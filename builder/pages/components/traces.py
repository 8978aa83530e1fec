"""Where figures come from: their formulas, and the lines of the files."""

from __future__ import annotations

from dataclasses import dataclass

from builder.pages.components.words import Text


@dataclass(frozen=True, slots=True)
class TraceInput:
    """A value that a figure was made from: another row, or a line of a file."""

    label: Text
    value: Text
    href: str = ""
    origin: str = ""
    origin_href: str = ""


@dataclass(frozen=True, slots=True)
class TraceRow:
    """Where a figure comes from: its formula (`how`), its method page and its inputs."""

    anchor: str
    label: Text
    value: Text
    unit: Text = ""
    how: Text = ""
    method_href: str = ""
    inputs: tuple[TraceInput, ...] = ()
    note: Text = ""


@dataclass(frozen=True, slots=True)
class TraceGroup:
    """The figures of one thing, folded away until somebody asks."""

    label: Text
    rows: tuple[TraceRow, ...]


@dataclass(frozen=True, slots=True)
class Trace:
    """What the figures of a page unfold to; `open` where it is short enough to lie open."""

    groups: tuple[TraceGroup, ...]
    open: bool = False


@dataclass(frozen=True, slots=True)
class SourceListing:
    """A file's numbered lines, each an anchor (#L7) after `prefix`; `used` lines carry a mark."""

    file: str
    lines: tuple[str, ...]
    used: frozenset[int] = frozenset()
    prefix: str = ""
