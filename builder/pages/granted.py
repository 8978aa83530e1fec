"""The last look at a page before it is printed for a reader who is not granted everything.

What holds a withheld text drops out: a tile, a term, a sentence, a column of a table or, where
others of the column stay, a row. A way to a page that is not there becomes plain words, or goes
where it is one of a list. It works on the page's view model, never on printed HTML.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from builder.language import Deferred, tr
from builder.pages.components import (
    Balance,
    BalanceStage,
    Cell,
    Chart,
    Column,
    Copyable,
    Definitions,
    Figures,
    FigureTile,
    Form,
    FormBlock,
    FormFields,
    FormGrid,
    FormNote,
    FormTicks,
    Link,
    LinkList,
    Notice,
    Notices,
    Page,
    Part,
    Prose,
    Row,
    Section,
    SourceListing,
    StepLine,
    StepList,
    Table,
    Term,
    Text,
    Tries,
    TryLine,
)
from builder.pages.withheld import BARRED, WITHHELD

_SENTENCES = re.compile(r"(?<=[.!?])\s+")
_ANCHOR = re.compile(r'<a\s[^>]*?href="([^"]*)"[^>]*>(.*?)</a>', re.DOTALL)
TRY = Deferred("Try another value")
_NEUTRAL = ("", "–", "not known")


def _holds(*texts: object) -> bool:
    """Whether any of some texts is withheld, or holds what is."""
    return any(text is BARRED or (isinstance(text, str) and WITHHELD in text) for text in texts)


@dataclass(frozen=True, slots=True)
class Granted:
    """What of a site is there for its reader: pages by their path, files' lines, live figures."""

    has_page: Callable[[str], bool]
    lists_files: bool
    is_live: bool
    hides: Callable[[str], bool]
    places: frozenset[str] = frozenset()

    def page(self, page: Page) -> Page:
        """The page as its reader gets it."""
        places = frozenset(_ids(self.sections(page.sections)))
        here = replace(self, places=places)
        # Where nothing is left of the lead, what belonged to it leads.
        lead, *also = [*filter(None, map(here.words, (page.lead, *page.also))), ""]
        return replace(
            page,
            lead=lead,
            also=tuple(filter(None, also)),
            kind=here.words(page.kind),
            crumbs=tuple(each for each in page.crumbs if here._leads(each.href)),
            nav=page.nav if here._leads(page.nav) else "",
            aside=tuple(here._terms(page.aside)),
            sections=here.sections(page.sections),
        )

    # Words and ways

    def words(self, text: Text) -> Text:
        """The sentences that may be read, with ways that lead somewhere."""
        if _holds(text):
            kept = " ".join(each for each in _SENTENCES.split(text) if not _holds(each))
            text = Markup(kept) if isinstance(text, Markup) else kept
        return self._linked(text) if isinstance(text, Markup) else text

    def _linked(self, text: Markup) -> Markup:
        return Markup(_ANCHOR.sub(lambda m: m[0] if self._leads(m[1]) else m[2], text))

    def _leads(self, href: str) -> bool:
        """Whether an address leads somewhere."""
        if href.startswith("="):
            return self.is_live
        if href.startswith("#"):
            return href[1:] in self.places
        if href.startswith("~/"):
            return self.has_page(href[2:].partition("#")[0])
        return bool(href)

    def way(self, href: str) -> str:
        """An address that leads somewhere, else nothing.

        A place on another page is not looked for: only the page is.
        """
        if not self._leads(href):
            return ""
        return href.partition("#")[0] if href.startswith("~/") else href

    # Sections

    def sections(self, sections: Iterable[Section]) -> tuple[Section, ...]:
        """The sections that are left, none of them empty that was not so before."""
        kept = (self._section(section) for section in sections)
        return tuple(section for section in kept if section is not None)

    def _section(self, it: Section) -> Section | None:
        match it:
            case Part():
                return self._part(it)
            case Table():
                return self.table(it) or self._ways(it)
            case Chart():
                return self._chart(it)
            case Form():
                blocks = tuple(b for each in it.blocks if (b := self._block(each)) is not None)
                return replace(it, blocks=blocks, subtitle=self.words(it.subtitle))
            case Tries():
                return self._tries(it)
            case SourceListing() | Copyable():
                return it if self.lists_files else None
            case Balance():
                return self._balance(it)
            case Prose():
                return None if _holds(it.html) else Prose(self._linked(it.html))
            case _:
                return self._list(it)

    def _tries(self, it: Tries) -> Tries | None:
        left = tuple(line for line in it.lines if not self._hides_any(line))
        if not left or not self.is_live:
            return None
        return Tries(left, it.summary, self.table(it.table)) if it.table else Tries(left, tr(TRY))

    def _hides_any(self, line: TryLine) -> bool:
        return self.hides(line.figure) or bool(line.now and self.hides(line.now))

    def _list(self, it: Section) -> Section | None:
        match it:
            case Notice():
                return self._notice(it)
            case Notices(items=items):
                found = tuple(n for each in items if (n := self._notice(each)) is not None)
                return replace(it, items=found) if found else None
            case Figures(tiles=tiles):
                left = tuple(self._tiles(tiles))
                return replace(it, tiles=left) if left else None
            case Definitions(items=terms):
                told = tuple(self._terms(terms))
                return replace(it, items=told) if told else None
            case StepList(lines=steps):
                return replace(it, lines=tuple(map(self._step_line, steps)))
            case LinkList(items=links):
                ways = tuple(self._links(links))
                return replace(it, items=ways) if ways or not links else None
        raise TypeError(f"no reader is known of {type(it).__name__}")

    def _part(self, it: Part) -> Part | None:
        kept = self.sections(it.sections)
        if not kept or _holds(it.title):
            return None
        return replace(it, sections=kept, about=self.words(it.about))

    def _notice(self, it: Notice) -> Notice | None:
        text = self.words(it.text)
        place, hint = (it.place, it.hint) if self.lists_files else ("", "")
        way = self.way(it.href)
        return replace(it, text=text, place=place, hint=hint, href=way) if text else None

    def _tiles(self, tiles: Iterable[FigureTile]) -> Iterator[FigureTile]:
        for it in tiles:
            if not _holds(it.label, it.value):
                note = "" if _holds(it.note) else self.words(it.note)
                value, way = self.words(it.value), self.way(it.trace_href)
                yield replace(it, value=value, note=note, trace_href=way)

    def _terms(self, terms: Iterable[Term]) -> Iterator[Term]:
        for it in terms:
            if not _holds(it.term, it.text):
                note = "" if _holds(it.note) else self.words(it.note)
                yield replace(it, text=self.words(it.text), note=note, href=self.way(it.href))

    def _links(self, links: Iterable[Link]) -> Iterator[Link]:
        for it in links:
            if self._leads(it.href) and not _holds(it.text):
                about, figure = ("" if _holds(text) else self.words(text)
                                 for text in (it.about, it.figure))  # fmt: skip
                yield replace(it, about=about, figure=figure, href=self.way(it.href))

    def _step_line(self, it: StepLine) -> StepLine:
        facts = tuple(self.words(fact) for fact in it.facts if not _holds(fact))
        amounts = tuple((name, self.words(of)) for name, of in it.amounts if not _holds(of))
        return replace(it, facts=facts, amounts=amounts)

    def _balance(self, it: Balance) -> Balance | None:
        stages = tuple(map(self._stage, it.stages))
        if any(_holds(s.label, s.text, *(p.text for p in s.parts)) for s in stages):
            return None
        return replace(it, stages=stages, summary=self.words(it.summary))

    def _stage(self, it: BalanceStage) -> BalanceStage:
        return replace(it, href=self.way(it.href), note="" if _holds(it.note) else it.note)

    def _chart(self, it: Chart) -> Chart | Table | None:
        table = self.table(it.table) if it.table else None
        if _holds(it.title, *(value for row in it.rows for value in row.values())):
            return table
        live = it.live if self.is_live else {}
        beside = self.table(it.beside) if it.beside else None
        return replace(it, summary=self.words(it.summary), table=table, live=live, beside=beside)

    # Tables

    def table(self, it: Table) -> Table | None:
        """A table without columns and rows of what is withheld."""
        columns, rows, foot = self._grid(it.columns, it.rows, it.foot)
        if (it.rows and not rows) or (len(columns) < 2 <= len(it.columns)):
            return None
        caption, about = self.words(it.caption), self.words(it.about)
        return replace(it, columns=columns, rows=rows, foot=foot, caption=caption, about=about)

    def _ways(self, it: Table) -> LinkList | None:
        """What is left of a table of records of which all but the names is withheld."""
        firsts = [row.cells[0] for row in it.rows if row.kind == ""]
        links = [Link(cell.text, cell.href) for cell in firsts if cell.href.startswith("~/")]
        ways = tuple(self._links(links))
        return LinkList(ways, self.words(it.caption)) if ways else None

    def _grid(
        self, columns: Sequence[Column], rows: Sequence[Row], foot: Sequence[Row]
    ) -> tuple[tuple[Column, ...], tuple[Row, ...], tuple[Row, ...]]:
        whole = [row for row in rows if row.kind != "group"]
        left_out = {
            at for at in range(len(columns)) if _is_withheld([row.cells[at] for row in whole])
        }
        kept = tuple(column for at, column in enumerate(columns) if at not in left_out)
        left = tuple(self._rows(rows, left_out))
        return kept, left, tuple(self._rows(foot, left_out))

    def _rows(self, rows: Iterable[Row], left_out: set[int]) -> Iterator[Row]:
        for row in rows:
            cells = row.cells
            if row.kind != "group":
                cells = tuple(cell for at, cell in enumerate(cells) if at not in left_out)
            if not any(_holds(cell.text) for cell in cells):
                yield replace(row, cells=tuple(map(self._cell, cells)))

    def _cell(self, it: Cell) -> Cell:
        note = "" if _holds(it.note) else self.words(it.note)
        tries = it.tries if self.is_live else ""
        return replace(it, text=self.words(it.text), note=note, href=self.way(it.href), tries=tries)

    def _block(self, it: FormBlock) -> FormBlock | None:
        match it:
            case FormFields(items=items):
                fields = tuple(
                    replace(each, value=self.words(each.value))
                    for each in items
                    if not _holds(each.label, each.value, each.unit)
                )
                return replace(it, items=fields) if fields else None
            case FormGrid():
                columns, rows, foot = self._grid(it.columns, it.rows, it.foot)
                if (it.rows and not rows) or len(columns) < 2 <= len(it.columns):
                    return None
                return replace(it, columns=columns, rows=rows, foot=foot)
            case FormNote(text=text):
                words = self.words(text)
                return replace(it, text=words) if words else None
            case FormTicks(items=ticks):
                return replace(it, items=tuple(each for each in ticks if not _holds(each)))
            case Chart():
                chart = self._chart(it)
                return chart if isinstance(chart, Chart) else None
            case _:
                return it


def _is_withheld(cells: Sequence[Cell]) -> bool:
    """Whether a column is withheld: some of it is, and beside it no cell says anything."""
    return any(_holds(cell.text) for cell in cells) and all(
        _holds(cell.text) or cell.text in _NEUTRAL for cell in cells
    )


def _ids(sections: Iterable[Section]) -> Iterator[str]:
    for it in sections:
        if isinstance(it, Part):
            yield it.id
            yield from _ids(it.sections)
        elif isinstance(it, Table | Chart | Balance | Form):
            yield it.id
            table = it.table if isinstance(it, Chart) else it
            if isinstance(table, Table):
                yield from (row.anchor for row in table.rows if row.anchor)
