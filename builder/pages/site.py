"""The whole site: every page in batches, the scripts, the search index, the data.

Pages are made when their batch is printed, so that a large kitchen never has all its
pages in memory at once, and several processes can share them out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TypeVar

from builder import __version__
from builder.language import Deferred, current_language, tr
from builder.pages.allergen_matrix import allergen_pages
from builder.pages.changes import changes_page
from builder.pages.charts.assets import chart_assets
from builder.pages.charts.notices import third_party
from builder.pages.components import Link, Page, Part, Site
from builder.pages.cooks import cook_page
from builder.pages.cuts import cut_page
from builder.pages.data import data_files, data_page
from builder.pages.day_sheets import day_pages
from builder.pages.decision_sheets import decision_page
from builder.pages.equipment import equipment_page
from builder.pages.feed import FEED, feed
from builder.pages.forms import blank_form_pages, cooking_loss_page, yield_test_page
from builder.pages.free_pages import NAV as NOTES
from builder.pages.free_pages import TITLE as NOTES_TITLE
from builder.pages.free_pages import free_pages
from builder.pages.home import home_page
from builder.pages.kinds import KINDS, NAVIGATION
from builder.pages.kitchen_page import kitchen_page, prices_page
from builder.pages.labels import label_pages, service_label_page
from builder.pages.live import live_assets
from builder.pages.log_sheets import log_page, prep_page
from builder.pages.menu import menu_page
from builder.pages.methods import method_pages
from builder.pages.order_sheets import order_page
from builder.pages.pantry import item_page
from builder.pages.parts import paragraph, part, picture_path
from builder.pages.plates import plate_page
from builder.pages.reference import reference_pages
from builder.pages.rendering import assets, search_data
from builder.pages.rules_page import rules_page
from builder.pages.sales import sales_pages
from builder.pages.search import search_records
from builder.pages.spec_sheets import spec_pages
from builder.pages.try_next import try_next_page
from builder.pages.view import View
from builder.reading.pictures import picture_of
from builder.records.notes import pictures_in

R = TypeVar("R")

Batch = Callable[[], Iterable[Page]]
"""Makes a few pages when it is called."""

# Pages of a batch: few enough to share out evenly, enough to be worth the post.
BATCH = 25

ROBOTS = b"User-agent: *\nDisallow: /\n"
CAUTION = Deferred(
    "Figures are arithmetic on what the kitchen has written down; food "
    "safety and allergens are decided by local code, the licensed authority "
    "and whoever is responsible in the kitchen."
)

NAV = (Link(Deferred("Menu"), "~/menu.html"), *(kind.link for kind in NAVIGATION))
FOOTER = (
    Link(Deferred("Kitchen"), "~/kitchen.html"),
    Link(Deferred("Prices"), "~/prices.html"),
    Link(Deferred("Equipment"), "~/equipment.html"),
    Link(Deferred("Allergens"), "~/allergens.html"),
    Link(Deferred("Rules"), "~/rules.html"),
    Link(Deferred("Methods"), "~/methods.html"),
    Link(Deferred("Writing the files"), "~/writing.html"),
    Link(Deferred("What changed"), "~/changes.html"),
    Link(Deferred("Tables to download"), "~/data.html"),
    Link(Deferred("Notices"), "~/notices.html"),
)


@dataclass(frozen=True, slots=True)
class Group:
    """Pages that are made together; `size` is how many there are about to be."""

    name: str
    size: int
    batches: list[Batch]


def page_groups(view: View) -> list[Group]:
    """Every page of the site, in a fixed order, in batches that make them when called.

    What is linked to comes before what links to it, as far as that goes, so that most
    links can be settled when they are met.
    """
    content = view.costed.content
    plates, cooks = list(content.plates.values()), list(content.cooks.values())
    cuts, items = list(content.cuts.values()), list(content.pantry.values())
    services = list(view.costed.services.values())
    parts: list[Batch] = [
        partial(method_pages, view),
        partial(reference_pages, view),
        *_batches(partial(item_page, view), items),
        *_batches(partial(cut_page, view), cuts),
    ]
    sheets: list[Batch] = [
        partial(blank_form_pages, view),
        *_batches(partial(yield_test_page, view), cuts),
        *_batches(partial(cooking_loss_page, view), cooks),
        *_batches(partial(log_page, view), cooks),
        *_batches(partial(prep_page, view), services),
        partial(day_pages, view),
        *_batches(partial(order_page, view), services),
        *_batches(partial(service_label_page, view), services),
        *_several(partial(label_pages, view), [*cooks, *items]),
        *_several(partial(spec_pages, view), [*cooks, *items, *plates]),
        *_batches(partial(decision_page, view), list(content.swaps.values())),
    ]
    return [
        Group(tr("methods, pantry, cuts"), len(items) + len(cuts), parts),
        Group(tr("cooks"), len(cooks), _batches(partial(cook_page, view), cooks)),
        Group(tr("plates"), len(plates), _batches(partial(plate_page, view), plates)),
        Group(tr("forms"), len(cuts) + 3 * len(cooks) + len(items) + len(content.swaps), sheets),
        Group(tr("lists, swaps, tastings"), len(content.swaps), _lists(view)),
    ]


def _lists(view: View) -> list[Batch]:
    lists = (
        home_page,
        menu_page,
        *(kind.list_page for kind in KINDS if kind.list_page),
        kitchen_page,
        prices_page,
        data_page,
        equipment_page,
        rules_page,
        try_next_page,
        changes_page,
    )
    several = (
        sales_pages,
        *(kind.pages for kind in KINDS if kind.pages),
        allergen_pages,
        free_pages,
    )
    return [
        # Alone in its batch, each: the menu of a large kitchen is a large page.
        *(partial(map, make, [view]) for make in lists),
        *(partial(pages, view) for pages in several),
        lambda: [notices_page()],
    ]


def _batches(make: Callable[[R], Page], records: Sequence[R]) -> list[Batch]:
    return [partial(map, make, chunk) for chunk in chunked(records)]


def _several(make: Callable[[R], Iterable[Page]], records: Sequence[R]) -> list[Batch]:
    """Batches of records that have several pages each, or none."""
    return [partial(_each, make, chunk) for chunk in chunked(records)]


def chunked(records: Sequence[R]) -> Iterator[Sequence[R]]:
    """Records as many at a time as a batch has."""
    return (records[start : start + BATCH] for start in range(0, len(records), BATCH))


def _each(make: Callable[[R], Iterable[Page]], records: Sequence[R]) -> Iterator[Page]:
    for record in records:
        yield from make(record)


def site_assets(view: View, cache: Path) -> Iterator[tuple[str, bytes]]:
    """Every file that is no page, one at a time: the search index, the data tables, the scripts."""
    yield "assets/search-data.js", search_data(search_records(view))
    yield from live_assets(view)
    yield from data_files(view)
    yield FEED, feed(view)
    yield from plain_assets(view, cache)


def plain_assets(view: View, cache: Path) -> Iterator[tuple[str, bytes]]:
    """Styles, scripts and pictures."""
    yield from assets().items()
    yield from chart_assets(cache).items()
    for file in dict.fromkeys(pictures_in(view.costed.content)):
        yield picture_path(file), picture_of(file).data


def site_pages(view: View) -> Iterator[Page]:
    """Every page as a view model."""
    for group in page_groups(view):
        for batch in group.batches:
            yield from batch()


def frame(view: View) -> Site:
    """What is around every page."""
    kitchen = view.costed.content.kitchen
    decimal, group = view.style.number_marks
    day = view.style.date(view.costed.content.as_of)
    return Site(
        name=str(kitchen.name),
        nav=(*NAV, Link(tr(NOTES_TITLE), NOTES)) if view.costed.content.pages else NAV,
        banner=str(kitchen.about or ""),
        colophon=(
            tr("Computed by shankbook {version} as of {day}.", version=__version__, day=day),
            tr(CAUTION),
        ),
        footer=FOOTER,
        feed=FEED,
        language=current_language(),
        decimal=decimal,
        group=group,
        periods=view.style.day_periods,
    )


def _own_notice() -> Part:
    """The tool itself: its pages' own scripts and styles come with the site."""
    return part(
        "shankbook",
        tr("The tool"),
        paragraph(
            tr(
                "Made by shankbook {version}. Its scripts and styles in this site are "
                "under the MIT licence, copyright the shankbook authors. Words, "
                "weighings and pictures are the kitchen's own; published figures name "
                "their source on the page where they are used.",
                version=__version__,
            )
        ),
    )


def notices_page() -> Page:
    """What the site was made by and carries: versions, and on what terms each may be used."""
    return Page(
        path="notices.html",
        title=tr("Notices"),
        lead=tr(
            "The pictures are drawn by scripts that others wrote; here is who, and on what terms."
        ),
        sections=(_own_notice(), *third_party()),
    )
