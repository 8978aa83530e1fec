"""The view models of the components that every page is made of.

Everything here is already decided: rounded, formatted, worded. A string is
escaped when it is printed unless it is `Markup`. An address (`href`) is one of

    "#anchor"            a place on the same page
    "~/cuts/chuck.html"  a file of this site; `~/` becomes the way to its root
    "https://..."        elsewhere

A page is a list of sections; a section is any class named in `Section`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from markupsafe import Markup

Text: TypeAlias = str
Tone: TypeAlias = Literal["", "gain", "loss", "muted", "strong"]
Value: TypeAlias = str | float | int | bool | None


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
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
    label: str = "Key figures"


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table; `key` is its name in the address of a sorted view."""

    key: str
    label: Text
    numeric: bool = False
    unit: Text = ""
    about: Text = ""


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell; `sort` is what sorting compares, the text where it is None.

    A figure in a sortable column needs its `sort`: a number as people write it,
    with marks and signs, cannot be told from a word and would come last.
    """

    text: Text
    sort: float | str | None = None
    href: str = ""
    tone: Tone = ""
    note: Text = ""


@dataclass(frozen=True, slots=True)
class Row:
    """Cells in the order of the columns; the first one heads the row."""

    cells: tuple[Cell, ...]
    kind: Literal["", "subtotal", "total", "group"] = ""
    anchor: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """A table; sortable and filterable tables keep their state in the address."""

    id: str
    caption: Text
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    foot: tuple[Row, ...] = ()
    sortable: bool = False
    filterable: bool = False
    about: Text = ""
    empty: Text = "Nothing recorded yet."


@dataclass(frozen=True, slots=True)
class Chart:
    """A picture of a kind from `charts.KINDS`, with its rows again as a table.

    `rows` carry the fields that the kind names and `units` the words for its
    axes; `title` says what the picture shows, `summary` says it in a sentence.
    `options` are added to the specification as they are, such as a `height` in pixels.
    """

    id: str
    kind: str
    title: Text
    summary: Text
    rows: tuple[Mapping[str, Value], ...]
    table: Table
    units: Mapping[str, str] = field(default_factory=dict)
    options: Mapping[str, Value] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class BalancePart:
    """A piece of a stage's weight; `share` is its part of the first weight, 0 to 1."""

    label: Text
    text: Text
    share: float
    kind: Literal["out", "by-product", "loss", "gain"]


@dataclass(frozen=True, slots=True)
class BalanceStage:
    """What goes into a stage and what becomes of it; the parts add up to what goes in."""

    label: Text
    text: Text
    parts: tuple[BalancePart, ...]
    href: str = ""
    note: Text = ""


@dataclass(frozen=True, slots=True)
class Balance:
    """The chain of weights as bars, each stage's bar as long as the weight that enters it."""

    id: str
    title: Text
    summary: Text
    stages: tuple[BalanceStage, ...]


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


@dataclass(frozen=True, slots=True)
class LinkList:
    """Links to other pages, each with a line about it and a figure at the right."""

    items: tuple[Link, ...]
    label: str = ""
    empty: Text = "Nothing here yet."


@dataclass(frozen=True, slots=True)
class SourceListing:
    """A file's numbered lines, each an anchor (#L7) after `prefix`; `used` lines carry a mark."""

    file: str
    lines: tuple[str, ...]
    used: frozenset[int] = frozenset()
    prefix: str = ""


@dataclass(frozen=True, slots=True)
class FormField:
    """A place to write; a value that is known is printed on the line."""

    label: Text
    value: Text = ""
    unit: Text = ""
    width: Literal["quarter", "half", "full"] = "half"


@dataclass(frozen=True, slots=True)
class FormFields:
    """Places to write, side by side."""

    items: tuple[FormField, ...]


@dataclass(frozen=True, slots=True)
class FormGrid:
    """A ruled table; `blank` empty rows follow the given ones."""

    caption: Text
    columns: tuple[Column, ...]
    rows: tuple[Row, ...] = ()
    blank: int = 0
    foot: tuple[Row, ...] = ()


@dataclass(frozen=True, slots=True)
class FormTicks:
    """Boxes to tick."""

    label: Text
    items: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class FormLines:
    """Empty ruled lines under a label."""

    label: Text
    count: int = 3


@dataclass(frozen=True, slots=True)
class FormNote:
    """Small print."""

    text: Text


@dataclass(frozen=True, slots=True)
class FormScale:
    """A line to mark between two words, on paper exactly as long as it says [mm]."""

    label: Text
    low: Text
    high: Text
    length_mm: float = 100.0


FormBlock: TypeAlias = FormFields | FormGrid | FormTicks | FormLines | FormNote | FormScale


@dataclass(frozen=True, slots=True)
class Form:
    """A sheet of paper; one form fills at most one page of A4 or Letter."""

    id: str
    title: Text
    blocks: tuple[FormBlock, ...]
    subtitle: Text = ""
    reference: Text = ""


@dataclass(frozen=True, slots=True)
class Part:
    """Sections under one heading; parts may hold parts, two deep."""

    id: str
    title: Text
    sections: tuple[Section, ...]
    about: Text = ""


Section: TypeAlias = (
    Prose
    | Notice
    | Notices
    | Figures
    | Table
    | Chart
    | Balance
    | Trace
    | Definitions
    | LinkList
    | SourceListing
    | Form
    | Part
)


@dataclass(frozen=True, slots=True)
class Page:
    """One page of the site, at `path` below its root.

    `lead` answers the page's question in words; `kind` says above the title
    what is shown; `nav` is the address of the menu entry that it belongs to.
    A `sheet` prints nothing but its forms.
    """

    path: str
    title: Text
    lead: Text
    sections: tuple[Section, ...]
    kind: Text = ""
    crumbs: tuple[Link, ...] = ()
    nav: str = ""
    aside: tuple[Term, ...] = ()
    contents: bool = False
    sheet: bool = False


@dataclass(frozen=True, slots=True)
class Site:
    """What every page shares; `banner` stands on top of each of them."""

    name: str
    nav: tuple[Link, ...] = ()
    banner: Text = ""
    colophon: tuple[Text, ...] = ()
    footer: tuple[Link, ...] = ()
    language: str = "en"
    decimal: str = "."
    group: str = ","


def walk(sections: Iterable[Section]) -> Iterator[Section]:
    """Yield every section, and those inside parts, in the order of the page."""
    for section in sections:
        yield section
        if isinstance(section, Part):
            yield from walk(section.sections)
