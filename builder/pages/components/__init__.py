"""The view models of the components that every page is made of.

Everything here is already decided: rounded, formatted, worded. A string is
escaped when it is printed unless it is `Markup`. An address (`href`) is one of

    "#anchor"            a place on the same page
    "~/cuts/chuck.html"  a file of this site; `~/` becomes the way to its root
    "https://..."        elsewhere

A page is a list of sections; a section is any class named in `Section`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TypeAlias

from builder.pages.components.listings import (
    SourceListing,
)
from builder.pages.components.pictures import (
    Balance,
    BalanceKind,
    BalancePart,
    BalanceStage,
    Chart,
    Live,
    LiveTerm,
    Value,
)
from builder.pages.components.sheets import (
    Form,
    FormBlock,
    FormField,
    FormFields,
    FormGrid,
    FormLabels,
    FormLines,
    FormNote,
    FormScale,
    FormTicks,
    PaperLabel,
)
from builder.pages.components.steps import StepLine, StepList
from builder.pages.components.tables import (
    Cell,
    Column,
    Row,
    RowKind,
    Table,
)
from builder.pages.components.tries import Tries, TryLine
from builder.pages.components.words import (
    Copyable,
    Definitions,
    Figures,
    FigureTile,
    Link,
    LinkList,
    Notice,
    Notices,
    Prose,
    Term,
    Text,
    Tone,
)

__all__ = [
    "Balance",
    "BalanceKind",
    "BalancePart",
    "BalanceStage",
    "Cell",
    "Chart",
    "Column",
    "Copyable",
    "Definitions",
    "FigureTile",
    "Figures",
    "Form",
    "FormBlock",
    "FormField",
    "FormFields",
    "FormGrid",
    "FormLabels",
    "FormLines",
    "FormNote",
    "FormScale",
    "FormTicks",
    "Link",
    "LinkList",
    "Live",
    "LiveTerm",
    "Notice",
    "Notices",
    "Page",
    "PaperLabel",
    "Part",
    "Prose",
    "Row",
    "RowKind",
    "Section",
    "Site",
    "SourceListing",
    "StepLine",
    "StepList",
    "Table",
    "Term",
    "Text",
    "Tone",
    "Tries",
    "TryLine",
    "Value",
    "walk",
]


@dataclass(frozen=True, slots=True)
class Part:
    """Sections under one heading, folded away unless `open`; parts may hold parts, two deep.

    With `pair` its picture and its table stand side by side where a screen has room for both.
    """

    id: str
    title: Text
    sections: tuple[Section, ...]
    about: Text = ""
    open: bool = False
    pair: bool = False


Section: TypeAlias = (
    Prose
    | Notice
    | Notices
    | Figures
    | Table
    | Chart
    | Balance
    | Definitions
    | LinkList
    | Copyable
    | SourceListing
    | Form
    | StepList
    | Tries
    | Part
)


@dataclass(frozen=True, slots=True)
class Page:
    """One page of the site, at `path` below its root.

    `lead` answers the page's question in one sentence of about twenty words, `also` says in
    paragraphs below it, more quietly, what belongs to that; `kind` says above the title what is
    shown; `nav` is the address of the menu entry that it belongs to. A `sheet` prints nothing but
    its forms, which show what is written unless it `follows` what is tried. With `alarm` the lead
    says what fails.
    """

    path: str
    title: Text
    lead: Text
    sections: tuple[Section, ...]
    kind: Text = ""
    crumbs: tuple[Link, ...] = ()
    nav: str = ""
    aside: tuple[Term, ...] = ()
    sheet: bool = False
    follows: bool = False
    also: tuple[Text, ...] = ()
    alarm: bool = False

    @property
    def answer(self) -> str:
        """The lead and what belongs to it."""
        return " ".join((self.lead, *self.also))


@dataclass(frozen=True, slots=True)
class Site:
    """What every page shares; `banner` is on top of each of them.

    `noindex`: search engines are asked to keep away; `live`: figures can be moved and opened;
    `guarded`: a text that no page may hold, where its reader is not granted everything.
    """

    name: str
    nav: tuple[Link, ...] = ()
    banner: Text = ""
    colophon: tuple[Text, ...] = ()
    footer: tuple[Link, ...] = ()
    language: str = "en"
    decimal: str = "."
    group: str = ","
    noindex: bool = False
    live: bool = True
    guarded: str = ""
    # The words for before and after noon where clocks have twelve hours.
    periods: tuple[str, str] | None = None
    feed: str = ""


def walk(sections: Iterable[Section]) -> Iterator[Section]:
    """Yield every section, those inside parts and pictures on sheets, in the order of the page."""
    for section in sections:
        yield section
        if isinstance(section, Part):
            yield from walk(section.sections)
        elif isinstance(section, Form):
            yield from (block for block in section.blocks if isinstance(block, Chart))
