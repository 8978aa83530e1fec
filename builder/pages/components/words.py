"""Words on a page: links, notes, notices, key figures, terms."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from markupsafe import Markup

from builder.frozen import frozen
from builder.language import Deferred

Text: TypeAlias = str
Tone: TypeAlias = Literal["", "gain", "loss", "muted", "strong"]


@frozen
class Link:
    """A link with its words and, where a list wants it, a line about it."""

    text: Text
    href: str
    about: Text = ""
    figure: Text = ""


@dataclass(frozen=True, slots=True)
class Prose:
    """Running text, such as a note that was written as Markdown."""

    html: Markup


@dataclass(frozen=True, slots=True)
class Copyable:
    """Files to be copied in one click, each path with its text; `id` is its place on the page."""

    id: str
    label: Text
    files: tuple[tuple[str, str], ...]

    @property
    def text(self) -> str:
        """All files under each other, each below a line with its path."""
        return "\n".join(f"# {path}\n{text}" for path, text in self.files)


@dataclass(frozen=True, slots=True)
class Notice:
    """A sentence that asks for attention; `place` is "file:line:col" as written."""

    text: Text
    severity: Literal["warning", "caution", "note"] = "warning"
    place: str = ""
    hint: Text = ""
    href: str = ""


@dataclass(frozen=True, slots=True)
class Notices:
    """Several notices under each other, in the order given."""

    items: tuple[Notice, ...]


@frozen
class FigureTile:
    """A key figure; `trace_href` leads to its row in the trace."""

    label: Text
    value: Text
    unit: Text = ""
    trace_href: str = ""
    tone: Tone = ""
    note: Text = ""


@dataclass(frozen=True, slots=True)
class Figures:
    """A row of key figures; `label` names the row for a screen reader."""

    tiles: tuple[FigureTile, ...]
    label: str = Deferred("Key figures")


@dataclass(frozen=True, slots=True)
class Term:
    """A term with what it stands for."""

    term: Text
    text: Text
    href: str = ""
    note: Text = ""


@dataclass(frozen=True, slots=True)
class Definitions:
    """Terms side by side with what they stand for."""

    items: tuple[Term, ...]


_NOTHING_YET = Deferred("Nothing here yet.")


@dataclass(frozen=True, slots=True)
class LinkList:
    """Links to other pages, each with a line about it and a figure at the right."""

    items: tuple[Link, ...]
    label: str = ""
    empty: Text = _NOTHING_YET
