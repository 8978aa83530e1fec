"""The kitchen's own free pages, and the page that lists them by folder."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby

from markdown_it.token import Token
from markupsafe import Markup

from builder.language import Deferred, ntr, tr
from builder.pages.components import Link, LinkList, Page, Part, Prose, Text
from builder.pages.parts import present
from builder.pages.prose import html_of, tokens_shown
from builder.pages.remarks import mentioned_on
from builder.pages.view import View
from builder.reading.names import slug
from builder.records.base import title_of
from builder.records.free_pages import FreePage

INDEX = "notes.html"
TITLE = Deferred("Notes")
NAV = f"~/{INDEX}"
# A first paragraph of so many words leads the page; a longer one stays where it is written.
_LEADS = 24


def free_pages(view: View) -> Iterator[Page]:
    """The list of free pages, then each of them; nothing where none is written."""
    pages = view.costed.content.pages
    if pages:
        yield _index(list(pages.values()))
    for page in pages.values():
        yield _page(view, page)


def words_of(view: View, page: FreePage) -> str:
    """The words of a free page, each once, for the search."""
    tokens = tokens_shown(view, page.body, 2)
    texts = (each.content for block in tokens for each in block.children or ())
    return " ".join(dict.fromkeys(re.findall(r"[\w'’-]+", " ".join(texts))))


def folder_title(page: FreePage) -> str:
    """The folder of a page as words; empty at the top."""
    return ", ".join(title_of(name) for name in page.folder.split("/") if name)


def _index(pages: Sequence[FreePage]) -> Page:
    found = sorted(pages, key=lambda each: (each.folder, each.title.casefold()))
    grouped = [(title, list(each)) for title, each in groupby(found, key=folder_title)]
    count = sum(bool(title) for title, _ in grouped)
    folders = (
        tr(", in {folders}", folders=ntr("{count} folder", "{count} folders", count))
        if count
        else ""
    )
    return Page(
        path=INDEX,
        title=tr(TITLE),
        lead=tr(
            "{pages} in the kitchen's own words{folders}.",
            pages=ntr("{count} page", "{count} pages", len(pages)),
            folders=folders,
        ),
        nav=NAV,
        sections=tuple(_listed(title, each) for title, each in grouped),
    )


def _listed(title: str, pages: Sequence[FreePage]) -> LinkList | Part:
    found = LinkList(tuple(Link(each.title, f"~/{each.path}.html") for each in pages), title)
    return Part(f"in-{slug(pages[0].folder)}", title, (found,), open=True) if title else found


def _page(view: View, page: FreePage) -> Page:
    lead, rest = _lead(tokens_shown(view, page.body, 2))
    return Page(
        path=f"{page.path}.html",
        title=page.title,
        lead=lead,
        kind=folder_title(page) or "Note",
        crumbs=(Link(tr(TITLE), NAV),),
        nav=NAV,
        sections=present(
            view.notices(page.path),
            Prose(html_of(rest)) if rest else None,
            mentioned_on(view, page),
        ),
    )


def _lead(tokens: list[Token]) -> tuple[Text, list[Token]]:
    """What leads a page, and what is left: its first paragraph, where that is short words."""
    if not tokens:
        return tr("Nothing is written on this page yet."), tokens
    if tokens[0].type == "paragraph_open":
        inline = tokens[1]
        shows = any(each.type == "image" for each in inline.children or ())
        if not shows and len(inline.content.split()) <= _LEADS:
            html = str(html_of([inline])).strip()
            return Markup(html), tokens[3:]
    return tr("A page in the kitchen's own words."), tokens
