"""The kinds of record as readers meet them: each is said here once.

The site, its editions, the search and the tables to download read what a kind has: a list page, the
pages of its records, what the search calls and finds one by, and tables of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from builder.language import Deferred
from builder.pages.buffets import buffet_found, buffet_pages
from builder.pages.components import Link, Page
from builder.pages.cooks import cook_list_page, cook_page
from builder.pages.counts import count_pages
from builder.pages.cuts import cut_list_page, cut_page
from builder.pages.found_by import (
    cook_found,
    count_found,
    cut_found,
    item_found,
    plate_found,
    service_found,
    swap_found,
    tasting_found,
)
from builder.pages.menu_data import BUFFET_RESOURCES, MENU_RESOURCES
from builder.pages.pantry import item_page, pantry_list_page
from builder.pages.plates import plate_page
from builder.pages.resource import Resource
from builder.pages.schedule import schedule_pages
from builder.pages.set_menus import menu_found, set_menu_pages
from builder.pages.swaps import swap_pages
from builder.pages.tastings import tasting_pages
from builder.pages.view import View
from builder.records.base import Record
from builder.records.kinds import (
    Buffet,
    Cook,
    Count,
    Cut,
    PantryItem,
    Plate,
    Service,
    SetMenu,
    Swap,
    Tasting,
)


@dataclass(frozen=True, slots=True)
class KindPages:
    """The pages of a kind of record: `pages` makes all of them, or `page` one after the other.

    `title` and `path` are those of its list page, which `list_page` makes beside `page`; plates
    have none. `found` gives what the search calls a record, and the words beside its title that
    find it; `words` find the list page. `resources` are tables that whoever is granted the kind
    may download; further groups are said by the table.
    """

    record: type[Record]
    title: str
    path: str
    found: Callable[[View, Any], tuple[str, str]]
    pages: Callable[[View], Iterable[Page]] | None = None
    list_page: Callable[[View], Page] | None = None
    page: Callable[[View, Any], Page] | None = None
    words: str = ""
    resources: tuple[Resource, ...] = ()

    @property
    def link(self) -> Link:
        """The way to its list page."""
        return Link(self.title, f"~/{self.path}")


CUTS = KindPages(
    Cut, Deferred("Cuts"), "cuts.html", cut_found, list_page=cut_list_page, page=cut_page
)
PLATES = KindPages(Plate, "", "", plate_found, page=plate_page)
MENUS = KindPages(
    SetMenu, Deferred("Set menus"), "set-menus.html", menu_found, set_menu_pages,
    resources=MENU_RESOURCES,
)  # fmt: skip
BUFFETS = KindPages(
    Buffet, Deferred("Counters and buffets"), "buffets.html", buffet_found, buffet_pages,
    resources=BUFFET_RESOURCES,
)  # fmt: skip
SWAPS = KindPages(Swap, Deferred("Swaps"), "swaps.html", swap_found, swap_pages)
TASTINGS = KindPages(Tasting, Deferred("Tastings"), "tastings.html", tasting_found, tasting_pages)
COOKS = KindPages(
    Cook, Deferred("Cooks"), "cooks.html", cook_found, list_page=cook_list_page, page=cook_page
)
PANTRY = KindPages(
    PantryItem, Deferred("Pantry"), "pantry.html", item_found,
    list_page=pantry_list_page, page=item_page,
)  # fmt: skip
SERVICES = KindPages(Service, Deferred("Schedule"), "schedule.html", service_found, schedule_pages)
COUNTS = KindPages(Count, Deferred("Counts"), "counts.html", count_found, count_pages)

KINDS = (CUTS, PLATES, MENUS, BUFFETS, SWAPS, TASTINGS, COOKS, PANTRY, SERVICES, COUNTS)
"""Every kind; of records that the search finds equally near the first kind comes first."""
NAVIGATION = (SWAPS, TASTINGS, CUTS, COOKS, PANTRY, SERVICES, COUNTS)
"""The kinds that every page leads to, after the menu."""
FRONT = (MENUS, BUFFETS, COOKS, CUTS, PANTRY, SWAPS, TASTINGS, COUNTS)
"""The kinds whose records the front page of an edition lists, after the plates."""
PAGES = (
    (Deferred("Menu"), "menu.html"),
    *((kind.title, kind.path) for kind in (MENUS, BUFFETS, SWAPS, CUTS)),
    (Deferred("Which cut to try next"), "try-next.html"),
    *((kind.title, kind.path) for kind in (COOKS, PANTRY, TASTINGS)),
    (Deferred("Kitchen"), "kitchen.html"),
    (Deferred("Prices"), "prices.html"),
    (Deferred("Allergens"), "allergens.html"),
    (Deferred("Plates by allergen, to print"), "forms/allergens.html"),
    *((kind.title, kind.path) for kind in (SERVICES, COUNTS)),
    (Deferred("Equipment"), "equipment.html"),
    (Deferred("Rules"), "rules.html"),
    (Deferred("Methods"), "methods.html"),
    (Deferred("Sources"), "sources.html"),
    (Deferred("Butcher's yield test, blank"), "forms/blank-yield-test.html"),
    (Deferred("Cooking loss test, blank"), "forms/blank-cooking-loss.html"),
    (Deferred("Writing the files"), "writing.html"),
    (Deferred("What changed"), "changes.html"),
    (Deferred("Tables to download"), "data.html"),
    (Deferred("Notices"), "notices.html"),
)
"""The pages that are no record's, as the search and the front page of an edition list them."""
