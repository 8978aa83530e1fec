"""The site of a reader who is not granted everything: which pages it has, and its front page."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TypeVar, cast

from builder.costing.model import MODEL
from builder.engine.methods import METHODS
from builder.language import Deferred, tr
from builder.pages.allergen_matrix import PLATE_SHEET, SHEET, allergen_pages
from builder.pages.allergens import LIST_PAGE
from builder.pages.components import Link, Page, Part, Site
from builder.pages.data import data_files, data_page
from builder.pages.day_sheets import day_pages
from builder.pages.decision_sheets import decision_page
from builder.pages.equipment import equipment_page
from builder.pages.forms import blank_form_pages, cooking_loss_page, yield_test_page
from builder.pages.free_pages import INDEX, free_pages
from builder.pages.granted import Granted
from builder.pages.home import home_page
from builder.pages.kinds import FRONT, KINDS, PAGES, SERVICES, TASTINGS, KindPages
from builder.pages.kitchen_page import kitchen_page, prices_page
from builder.pages.live import live_assets
from builder.pages.log_sheets import log_page, prep_page
from builder.pages.menu import menu_page
from builder.pages.method_graph import MethodGraph, function_path
from builder.pages.methods import method_pages
from builder.pages.order_sheets import order_page
from builder.pages.parts import form_path, links, page_of, part, present
from builder.pages.reader import Reader, settled
from builder.pages.rendering import search_data
from builder.pages.rules_page import rules_page
from builder.pages.sales import sales_pages
from builder.pages.schedule import schedule_pages
from builder.pages.search import search_records
from builder.pages.service_orders import order_path
from builder.pages.sheet_offers import Offer, sheet_offers
from builder.pages.site import ROBOTS, Batch, Group, chunked, frame, notices_page, plain_assets
from builder.pages.tasting_pieces import page_path, sheet_path, sheets_of
from builder.pages.tasting_sheets import ballot_page
from builder.pages.tastings import tasting_pages
from builder.pages.try_next import try_next_page
from builder.pages.values import capital
from builder.pages.view import View
from builder.pages.weekdays import day_path, weekdays
from builder.pages.whereabouts import method_path
from builder.pages.withheld import WITHHELD, WithheldError
from builder.reading.names import slug
from builder.records.base import Record
from builder.records.editions import FIGURES, GROUPS, NAMES, Edition
from builder.records.kinds import Cook, Cut, Plate

HOME = "index.html"
RESTS = Deferred("This edition leaves out what this page rests on.")
_COOKING = ("cooks", "cooking")
_LIVE = ("methods", "cuts", "cooks", "pantry", "plates")
R = TypeVar("R")
K = TypeVar("K", Cut, Cook)


def reader_of(name: str, edition: Edition) -> Reader:
    """Who reads an edition: kinds of record that name others are granted with these only.

    A group of figures that would give another away is not granted.
    """
    kinds = {str(kind) for kind in edition.records or ()}
    for kind, named in NAMES.items():
        if not kinds.issuperset(named):
            kinds.discard(kind)
    groups = settled(MODEL, frozenset(g for g in GROUPS if g in (edition.figures or ())))
    lacking = {name for name, needed in FIGURES.items() if not groups.issuperset(needed)}
    parts = frozenset(map(str, edition.with_ or ()))
    return Reader(name, groups - lacking, frozenset(kinds - lacking), parts)


class EditionSite:
    """Every page and file of a reader's site."""

    def __init__(self, view: View) -> None:
        self.view = view
        self._offers = list(_offers(view))
        self._paths = frozenset(path for offer in self._offers for path in offer.paths)
        self.is_live = view.grants(*_LIVE)
        self.granted = Granted(self.has_page, view.where.lists, self.is_live, self._hides)

    def has_page(self, path: str) -> bool:
        """Whether a page, or a file of data, is in the site."""
        if path.startswith(("data/", "assets/pictures/")):
            return path.startswith("assets/") or self.view.grants("data tables")
        return path in self._paths

    def _hides(self, figure: str) -> bool:
        table, name, _ = figure.split(".")
        return (table, name) in self.view.hidden

    def groups(self) -> list[Group]:
        """The pages in batches."""
        batches: list[Batch] = [self._batch(chunk) for chunk in chunked(self._offers)]
        return [
            Group(tr("edition {reader}", reader=self.view.reader.name), len(self._offers), batches)
        ]

    def _batch(self, offers: Sequence[Offer]) -> Batch:
        return lambda: (self.granted.page(page) for offer in offers for page in offer.make())

    def assets(self, cache: Path) -> Iterator[tuple[str, bytes]]:
        """Every file that is no page, one at a time."""
        view = self.view
        records = (
            found for found in search_records(view) if self.has_page(found[2].partition("#")[0])
        )
        yield "assets/search-data.js", search_data(records)
        if self.is_live:
            yield from live_assets(view)
        if view.grants("data tables"):
            yield from data_files(view)
        yield from plain_assets(view, cache)
        yield "robots.txt", ROBOTS

    def frame(self) -> Site:
        """What is around every page."""
        around = frame(self.view)
        return replace(
            around,
            nav=self._there(around.nav),
            footer=self._there(around.footer),
            feed="",
            noindex=True,
            live=self.is_live,
            guarded=WITHHELD,
        )

    def _there(self, links: Iterable[Link]) -> tuple[Link, ...]:
        return tuple(link for link in links if self.has_page(link.href.removeprefix("~/")))


# Which pages there are


def _offers(view: View) -> Iterator[Offer]:
    """Every page that is granted; of methods and lists first, then what leads to them."""
    content = view.costed.content
    offers = [
        *_method_offers(view),
        *(offer for kind in KINDS for offer in _kind_offers(view, kind)),
        *_allergen_offers(view),
        *_form_offers(view),
        *_money_offers(view),
        *(_whole_offers(view) if view.reader.sees_records else ()),
    ]
    if view.grants(*_COOKING):
        offers.append(_whole(view, rules_page, "rules.html", tr("Rules")))
    if view.grants(*_COOKING, "weights", "work", "sales"):
        offers.append(_whole(view, equipment_page, "equipment.html", tr("Equipment")))
    if content.pages:
        paths = (INDEX, *(f"{path}.html" for path in content.pages))
        offers.append(Offer(paths, lambda: free_pages(view)))
    if view.grants("data tables"):
        offers.append(_whole(view, data_page, "data.html", tr("Tables to download")))
    offers.append(Offer(("notices.html",), lambda: [notices_page()]))
    there = frozenset(path for offer in offers for path in offer.paths)
    yield from offers
    if view.reader.sees_records:
        yield _whole(view, home_page, HOME, str(content.kitchen.name))
    else:
        yield Offer((HOME,), lambda: [_home(view, there)])


def _kind_offers(view: View, kind: KindPages) -> Iterator[Offer]:
    """The pages of a kind, for whoever is granted it; of some there is less or more."""
    needs, records = (kind.record.folder,), view.costed.content.of(kind.record)
    if kind is TASTINGS:
        return _tasting_offers(view)
    if kind is SERVICES:
        return _service_offers(view)
    if kind.pages:
        return _several(view, needs, kind.pages, kind.path, records)
    assert kind.page
    return _each(view, needs, kind.list_page, kind.path, kind.page, records)


def _whole(view: View, make: Callable[[View], Page], path: str, title: str) -> Offer:
    return Offer((path,), lambda: [_made(lambda: make(view), path, title)])


def _made(make: Callable[[], Page], path: str, title: str) -> Page:
    """A page, or its title alone where even its first sentence rests on what is withheld."""
    try:
        return make()
    except WithheldError:
        return Page(path=path, title=title, lead=tr(RESTS), sections=())


def _each(
    view: View,
    needs: tuple[str, ...],
    make_list: Callable[[View], Page] | None,
    path: str,
    make: Callable[[View, R], Page],
    records: Mapping[str, R],
    page: Callable[[R], str] | None = None,
) -> Iterator[Offer]:
    """A list page where there is one, and a page for each record."""
    if not view.grants(*needs):
        return
    if make_list is not None:
        yield _whole(view, make_list, path, capital(path.removesuffix(".html")))
    for record in records.values():
        place = page(record) if page else page_of(cast(Record, record))
        yield Offer((place,), partial(_of, view, make, record, place))


def _several(
    view: View,
    needs: tuple[str, ...],
    make: Callable[[View], Iterable[Page]],
    path: str,
    records: Mapping[str, Record],
) -> Iterator[Offer]:
    """A list page and the pages of its records, that are made together."""
    if view.grants(*needs):
        yield Offer((path, *map(page_of, records.values())), lambda: make(view))


def _of(view: View, make: Callable[[View, R], Page], record: R, path: str) -> Iterable[Page]:
    return [_made(lambda: make(view, record), path, str(getattr(record, "title", "")))]


def _method_offers(view: View) -> Iterator[Offer]:
    if view.grants(*_LIVE):
        graph = MethodGraph(view.costed.figures.model, view.hidden)
        paths = (
            *(method_path(node) for node in graph.nodes),
            *(function_path(method) for method in METHODS.values()),
        )
        yield Offer((*paths, "methods.html", "sources.html"), lambda: method_pages(view))


def _whole_offers(view: View) -> Iterator[Offer]:
    """What weighs costs and answers against each other."""
    content = view.costed.content
    for make, path, title in (
        (kitchen_page, "kitchen.html", "Kitchen"),
        (prices_page, "prices.html", "Prices"),
        (try_next_page, "try-next.html", tr("Which cut to try next")),
    ):
        yield _whole(view, make, path, title)
    if view.grants("forms"):
        yield from _each(
            view, (), None, "", decision_page, content.swaps,
            lambda swap: form_path(swap.id, "decision"),
        )  # fmt: skip


# With any of these the menu says more of a plate than its name.
_ON_MENU = ("menu prices", "sales", "food cost", "margins")


def _money_offers(view: View) -> Iterator[Offer]:
    """The menu as far as its money may be seen, and what the till took."""
    if view.grants("plates") and any(map(view.grants, _ON_MENU)):
        yield _whole(view, menu_page, "menu.html", tr("Menu"))
    if view.costed.content.till:
        yield Offer(("sales.html",), lambda: sales_pages(view))


def _tasting_offers(view: View) -> Iterator[Offer]:
    """Tastings with their sheets, or the ballots alone, for whoever hands them out."""
    if view.grants("tastings"):
        yield Offer(tuple(_tasting_paths(view)), lambda: tasting_pages(view))
    elif view.grants("tasting sheets", "allergens", "plates"):
        yield from _each(
            view, (), None, "", ballot_page, view.costed.tastings,
            lambda result: sheet_path(result, "ballots"),
        )  # fmt: skip


def _tasting_paths(view: View) -> Iterator[str]:
    yield "tastings.html"
    for result in view.costed.tastings.values():
        yield page_path(result)
        yield from (sheet_path(result, sheet) for sheet in sheets_of(view, result))


def _service_offers(view: View) -> Iterator[Offer]:
    if view.grants("services", "weights", "cooking", "work"):
        services = [page_of(plan.service) for plan in view.costed.services.values()]
        yield Offer(("schedule.html", *services), lambda: schedule_pages(view))


def _allergen_offers(view: View) -> Iterator[Offer]:
    if view.grants("plates", "allergens"):
        yield Offer((LIST_PAGE, SHEET, PLATE_SHEET), lambda: allergen_pages(view))


def _form_offers(view: View) -> Iterator[Offer]:
    content = view.costed.content
    if view.grants("forms"):
        blank = "forms/blank-yield-test.html", "forms/blank-cooking-loss.html"
        yield Offer(blank, lambda: blank_form_pages(view))
        yield from _forms(view, ("cuts", "weights"), yield_test_page, content.cuts, "yield-test")
        needs = ("cooks", "weights", "cooking")
        yield from _forms(view, needs, cooking_loss_page, content.cooks, "cooking-loss")
        yield from _forms(view, _COOKING, log_page, content.cooks, "log")
        yield from sheet_offers(view)
        if view.grants("services", "weights", "cooking", "work"):
            yield from _each(
                view, (), None, "", prep_page, view.costed.services,
                lambda plan: form_path(plan.service.id, "prep"),
            )  # fmt: skip
            yield Offer(tuple(map(day_path, weekdays(view))), lambda: day_pages(view))
            yield from _each(
                view, (), None, "", order_page, view.costed.services,
                lambda plan: order_path(plan.service),
            )  # fmt: skip


def _forms(
    view: View,
    needs: tuple[str, ...],
    make: Callable[[View, K], Page],
    records: Mapping[str, K],
    what: str,
) -> Iterator[Offer]:
    return _each(view, needs, None, "", make, records, lambda record: form_path(record.id, what))


# The front page


def _home(view: View, there: Collection[str]) -> Page:
    """What there is, by kind, with the plates by their section of the menu."""
    content = view.costed.content
    day = view.style.date(content.as_of)
    found: list[tuple[str, Sequence[Record]]] = [
        *((tr("Plates: ") + section, plates) for section, plates in _sections(view).items()),
        *((kind.title, list(content.of(kind.record).values())) for kind in FRONT),
    ]
    lists = (
        Part(
            slug(title), title, (links(title, [Link(r.title, f"~/{page_of(r)}") for r in records]),)
        )
        for title, records in found
        if records and page_of(next(iter(records))) in there
    )
    sheets = [
        Link(
            tr("Ballots: {tasting}", tasting=result.tasting.title),
            f"~/{sheet_path(result, 'ballots')}",
        )
        for result in view.costed.tastings.values()
        if sheet_path(result, "ballots") in there
    ]
    pages = [Link(title, f"~/{path}") for title, path in PAGES if path in there]
    return Page(
        path=HOME,
        title=str(content.kitchen.name),
        lead=tr(
            "The edition {reader}, as of {day}. What it was not granted is not in it.",
            reader=view.reader.name,
            day=day,
        ),
        kind=tr("Kitchen wiki"),
        sections=present(
            links(tr("Pages"), pages),
            part("ballots", tr("Ballots to hand out"), links(tr("Ballots"), sheets))
            if sheets
            else None,
            *lists,
        ),
    )


def _sections(view: View) -> Mapping[str, list[Plate]]:
    found: dict[str, list[Plate]] = {}
    for plate in view.costed.content.plates.values():
        found.setdefault(str(plate.menu), []).append(plate)
    return found
