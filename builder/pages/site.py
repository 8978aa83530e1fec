"""The whole site: every page, the scripts, the search index, one file at a time.

Pages are made and printed one after the other, so that a large kitchen never has
all its pages in memory at once.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from builder import __version__
from builder.pages.charts.assets import chart_assets
from builder.pages.charts.notices import third_party
from builder.pages.components import Link, Page, Site
from builder.pages.cooks import cook_pages
from builder.pages.cuts import cut_pages
from builder.pages.data import data_files, data_page
from builder.pages.equipment import equipment_page
from builder.pages.forms import form_pages
from builder.pages.home import home_page
from builder.pages.kitchen_page import kitchen_page, prices_page
from builder.pages.log_sheets import log_pages
from builder.pages.menu import menu_page
from builder.pages.methods import method_pages
from builder.pages.pantry import pantry_pages
from builder.pages.plates import plate_pages
from builder.pages.reference import reference_pages
from builder.pages.rendering import assets, render, search_data
from builder.pages.rules_page import rules_page
from builder.pages.schedule import schedule_pages
from builder.pages.search import search_records
from builder.pages.swaps import swap_pages
from builder.pages.tastings import tasting_pages
from builder.pages.view import View

CAUTION = (
    "Figures are arithmetic on what the kitchen has written down; food safety and allergens are "
    "decided by local code, the licensed authority and whoever is responsible in the kitchen."
)

NAV = (
    Link("Menu", "~/menu.html"),
    Link("Swaps", "~/swaps.html"),
    Link("Tastings", "~/tastings.html"),
    Link("Cuts", "~/cuts.html"),
    Link("Cooks", "~/cooks.html"),
    Link("Pantry", "~/pantry.html"),
    Link("Schedule", "~/schedule.html"),
)
FOOTER = (
    Link("Kitchen", "~/kitchen.html"),
    Link("Prices", "~/prices.html"),
    Link("Equipment", "~/equipment.html"),
    Link("Rules", "~/rules.html"),
    Link("Methods", "~/methods.html"),
    Link("How to write files", "~/writing.html"),
    Link("Data tables", "~/data.html"),
    Link("Notices", "~/notices.html"),
)


@dataclass(frozen=True, slots=True)
class Group:
    """Files that are made together; `size` is how many there are about to be."""

    name: str
    size: int
    files: Iterable[tuple[str, bytes]]


def site_groups(view: View, cache: Path) -> Iterator[Group]:
    """Every file of the site, in a fixed order, each made when it is asked for."""
    site = frame(view)
    content = view.costed.content
    for name, size, pages in (
        ("plates", len(content.plates), plate_pages(view)),
        ("cooks", len(content.cooks), cook_pages(view)),
        ("forms", 2 * len(content.cooks) + len(content.cuts), _sheets(view)),
        ("other pages", len(content.cuts) + len(content.pantry), _other_pages(view)),
    ):
        yield Group(name, size, ((page.path, render(page, site)) for page in pages))
    files = _assets(view, cache)
    yield Group("scripts and data", len(files), files.items())


def _assets(view: View, cache: Path) -> dict[str, bytes]:
    return {
        "assets/search-data.js": search_data(search_records(view)),
        **data_files(view),
        **assets(),
        **chart_assets(cache),
    }


def site_pages(view: View) -> Iterator[Page]:
    """Every page as a view model."""
    yield from plate_pages(view)
    yield from cook_pages(view)
    yield from _sheets(view)
    yield from _other_pages(view)


def _sheets(view: View) -> Iterator[Page]:
    yield from form_pages(view)
    yield from log_pages(view)


def _other_pages(view: View) -> Iterator[Page]:
    yield home_page(view)
    yield menu_page(view)
    yield from swap_pages(view)
    yield from tasting_pages(view)
    yield from cut_pages(view)
    yield from pantry_pages(view)
    yield kitchen_page(view)
    yield prices_page(view)
    yield data_page(view)
    yield equipment_page(view)
    yield rules_page(view)
    yield from schedule_pages(view)
    yield from method_pages(view)
    yield from reference_pages(view)
    yield _notices_page()


def frame(view: View) -> Site:
    """What stands around every page."""
    kitchen = view.costed.content.kitchen
    decimal, group = view.style.number_marks
    day = view.style.date(view.costed.content.as_of)
    return Site(
        name=str(kitchen.name),
        nav=NAV,
        banner=str(kitchen.about or ""),
        colophon=(
            f"Computed by shankbook {__version__} as of {day}.",
            CAUTION,
        ),
        footer=FOOTER,
        language="en",
        decimal=decimal,
        group=group,
    )


def _notices_page() -> Page:
    return Page(
        path="notices.html",
        title="Notices",
        lead="The pictures are drawn by scripts that others wrote; here is who, and on what terms.",
        sections=third_party(),
    )
