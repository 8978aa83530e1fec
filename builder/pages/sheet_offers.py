"""Labels and spec sheets of a reader's site: which there are, by what is granted."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import partial

from builder.costing.services import ServicePlan
from builder.pages.components import Page
from builder.pages.labels import Labelled, label_pages, label_path, service_label_page
from builder.pages.spec_sheets import spec_pages
from builder.pages.steps import spec_path
from builder.pages.view import View
from builder.records.step_checks import stepped_of

_LABELS = ("allergens", "cooking")
_SPECS = ("steps", "cooking", "weights")


@dataclass(frozen=True, slots=True)
class Offer:
    """Pages that are made together, with their paths."""

    paths: tuple[str, ...]
    make: Callable[[], Iterable[Page]]


def sheet_offers(view: View) -> Iterator[Offer]:
    """Labels of cooks, sub-recipes and services, and spec sheets of what has steps."""
    for record in _labelled(view):
        yield Offer((label_path(record),), partial(label_pages, view, record))
    if view.grants("services", "weights", "work", *_LABELS):
        for plan in view.costed.services.values():
            yield Offer((label_path(plan.service),), partial(_of_service, view, plan))
    for stepped in stepped_of(view.costed.content) if view.grants(*_SPECS) else ():
        if stepped.steps:
            yield Offer((spec_path(stepped),), partial(spec_pages, view, stepped))


def _labelled(view: View) -> Iterator[Labelled]:
    content = view.costed.content
    if view.grants(*_LABELS):
        yield from content.cooks.values()
        yield from (item for item in content.pantry.values() if item.of)


def _of_service(view: View, plan: ServicePlan) -> Iterable[Page]:
    return [service_label_page(view, plan)]
