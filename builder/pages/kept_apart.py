"""What is kept out of the site while a blind tasting is ahead: its key and its tray map."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.costing.tasting_results import TastingResult
from builder.language import Deferred, tr
from builder.pages.components import Link, LinkList, Page, Site
from builder.pages.rendering import assets, render, search_data
from builder.pages.tasting_pieces import has_sheets, session_is_over
from builder.pages.tasting_sheets import key_pages
from builder.pages.view import View

INDEX = "index.html"
_LEAD = Deferred(
    "Kept out of the site until the session is over: its day has passed, or "
    "there are answers. Print them in the kitchen, and show them to no "
    "taster."
)


def has_keys_apart(view: View) -> bool:
    """Whether a blind tasting is ahead that has sheets."""
    return any(_is_apart(view, result) for result in view.costed.tastings.values())


def _is_apart(view: View, result: TastingResult) -> bool:
    return has_sheets(view, result) and not session_is_over(view, result)


def files_apart(view: View, around: Site) -> dict[str, bytes]:
    """The files of the folder beside the site, by path; an index alone where nothing is ahead."""
    site = replace(around, nav=(), footer=(), banner="", feed="")
    pages = list(_pages(view))
    index = Page(
        path=INDEX,
        title=tr("Keys of blind tastings"),
        lead=tr(_LEAD) if pages else tr("No blind tasting is ahead; every key is in the site."),
        sections=(LinkList(tuple(Link(page.title, f"~/{page.path}") for page in pages)),)
        * bool(pages),
    )
    records = [(str(page.title), str(page.kind), page.path, "") for page in pages]
    return {
        **{page.path: render(page, site) for page in (index, *pages)},
        "assets/search-data.js": search_data(records),
        **assets(),
    }


def _pages(view: View) -> Iterator[Page]:
    for result in view.costed.tastings.values():
        if _is_apart(view, result):
            for page in key_pages(view, result):
                yield replace(
                    page, crumbs=(Link(tr("Keys of blind tastings"), f"~/{INDEX}"),), nav=""
                )
