"""What the search finds: records by name, numbers, supplier and ingredients, logs, methods."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from builder.data.allergens import other_names
from builder.data.synonyms import other_words, search_words
from builder.engine.methods import METHODS
from builder.engine.tables import in_words
from builder.language import current_language, labelled, tr
from builder.pages.decided import decided_words
from builder.pages.found_by import said
from builder.pages.free_pages import INDEX as NOTES
from builder.pages.free_pages import TITLE as NOTES_TITLE
from builder.pages.free_pages import folder_title, words_of
from builder.pages.kinds import KINDS, PAGES
from builder.pages.method_graph import MethodGraph, function_path
from builder.pages.parts import page_of
from builder.pages.search_states import to_do
from builder.pages.values import capital, in_mass_unit
from builder.pages.view import View
from builder.pages.whereabouts import method_path
from builder.pages.withheld import seen
from builder.records.base import Record
from builder.records.kinds import Swap

Found = tuple[str, str, str, str]
"""(title, kind, path in the site, further words)."""


def search_records(view: View) -> Iterator[Found]:
    """Every page that somebody may look for, with the words that lead to it, other words included.

    Of records that are equally near to what is asked the first kind comes first.
    """
    doing = to_do(view)
    for title, kind, path, of_record in _records(view):
        words = f"{of_record} {doing.get(path, '')}".strip()
        others = " ".join(other_words(f"{title} {words}", current_language()))
        yield title, kind, path, f"{words} {others}".strip()


def _records(view: View) -> Iterator[Found]:
    content = view.costed.content
    for kind in KINDS:
        for record in content.of(kind.record).values():
            what, by = kind.found(view, record)
            yield record.title, what, page_of(record), by
    yield from _notes(view)
    yield from _written_down(view)
    words = search_words(current_language()).pages
    own = {kind.path: kind.words for kind in KINDS}
    for title, path in ((tr("What to do"), "index.html"), *PAGES):
        every = f" {_every_allergen()}" if path == "allergens.html" else ""
        yield title, tr("page"), path, (words.get(path) or tr(own[path])) + every
    if content.till:
        yield tr("Sales"), tr("page"), "sales.html", words["sales.html"]
    yield from _methods(view)


def _notes(view: View) -> Iterator[Found]:
    """The free pages by all their words, and their list."""
    pages = view.costed.content.pages
    for page in pages.values():
        words = f"{folder_title(page)} {words_of(view, page)}".strip()
        yield page.title, tr("note"), f"{page.path}.html", words
    if pages:
        yield tr(NOTES_TITLE), tr("page"), NOTES, tr("free pages folders")


def _written_down(view: View) -> Iterator[Found]:
    """What was decided about records, each entry by itself: it leads to its part of the page."""
    content = view.costed.content
    for record in (*content.records(), content.kitchen):
        yield from seen(_logged, view, record) or ()
    for swap in content.swaps.values():
        yield from seen(_decisions, view, swap) or ()


def _logged(view: View, record: Record) -> list[Found]:
    as_of = view.costed.content.as_of
    path = f"{page_of(record)}#log"
    return [
        (str(each.what), tr("log"), path, f"{record.title} {each.why}")
        for each in record.log
        if each.date.day <= as_of
    ]


def _decisions(view: View, swap: Swap) -> list[Found]:
    plates = view.costed.content.plates
    found: list[Found] = []
    for name in swap.challengers:
        decision = swap.decision(name, view.costed.content.as_of)
        said = decided_words(view, swap, plates[name], plates[swap.benchmark])
        if decision is not None:
            words = f"{swap.title} {decision.why}"
            found.append((said, tr("decision"), f"{page_of(swap)}#decided", words))
    return found


def _methods(view: View) -> Iterator[Found]:
    """What a figure is: its name finds the page with its formula."""
    model = view.costed.figures.model
    nodes = MethodGraph(model, view.hidden).nodes
    titles = [capital(in_mass_unit(view.style, model.definition(node).label)) for node in nodes]
    often = Counter(titles)
    for node, title in zip(nodes, titles, strict=True):
        of = tr(in_words(node[0]))
        # Figures of several things may have one name.
        yield (
            labelled(title, of) if often[title] > 1 else title,
            tr("method"),
            method_path(node),
            "",
        )
    for each in METHODS.values():
        yield capital(each.title), tr("method"), function_path(each), ""


def _every_allergen() -> str:
    """Who asks what is free of an allergen is led to the matrix, not to what contains it."""
    names = other_names().items()
    return " ".join(word for name, words in names for word in (*said(name, tr(name)), *words))
