"""What the search finds: records by name, numbers, supplier and ingredients, logs, methods."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from builder.data.allergens import other_names
from builder.data.synonyms import other_words, search_words
from builder.engine.methods import METHODS
from builder.engine.tables import in_words
from builder.language import Deferred, current_language, labelled, tr
from builder.pages.decided import decided_words
from builder.pages.found_once import contained_in
from builder.pages.free_pages import INDEX as NOTES
from builder.pages.free_pages import TITLE as NOTES_TITLE
from builder.pages.free_pages import folder_title, words_of
from builder.pages.method_graph import MethodGraph, function_path
from builder.pages.parts import gear_name, page_of
from builder.pages.remarks import Noted
from builder.pages.search_states import plate_states, swap_states, to_do
from builder.pages.values import capital, in_mass_unit
from builder.pages.view import View
from builder.pages.ways import species_words, way_words
from builder.pages.whereabouts import method_path
from builder.pages.withheld import seen
from builder.records.contained import Holder
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Buffet, Cook, Cut, PantryItem, Plate, Swap, Tasting
from builder.records.method_names import method_name
from builder.records.portions import cut_of
from builder.records.step_checks import Stepped
from builder.rounding import nearest

Found = tuple[str, str, str, str]
"""(title, kind, path in the site, further words)."""


PAGES = (
    (Deferred("Menu"), "menu.html"),
    (Deferred("Set menus"), "set-menus.html"),
    (Deferred("Counters and buffets"), "buffets.html"),
    (Deferred("Swaps"), "swaps.html"),
    (Deferred("Cuts"), "cuts.html"),
    (Deferred("Which cut to try next"), "try-next.html"),
    (Deferred("Cooks"), "cooks.html"),
    (Deferred("Pantry"), "pantry.html"),
    (Deferred("Tastings"), "tastings.html"),
    (Deferred("Kitchen"), "kitchen.html"),
    (Deferred("Prices"), "prices.html"),
    (Deferred("Allergens"), "allergens.html"),
    (Deferred("Plates by allergen, to print"), "forms/allergens.html"),
    (Deferred("Schedule"), "schedule.html"),
    (Deferred("Counts"), "counts.html"),
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
    for cut in content.cuts.values():
        yield cut.title, tr("cut"), page_of(cut), _cut_words(view, cut)
    for plate in content.plates.values():
        yield plate.title, tr("plate"), page_of(plate), _plate_words(view, plate)
    for menu in content.menus.values():
        served = " ".join(content.plates[plate].title for plate in menu.plate_ids)
        yield menu.title, tr("set menu") if menu.courses else tr("combo"), page_of(menu), served
    for buffet in content.buffets.values():
        kind = tr("sold by weight") if buffet.by_weight else tr("buffet")
        yield buffet.title, kind, page_of(buffet), _put_out(content, buffet)
    for swap in content.swaps.values():
        yield swap.title, tr("swap"), page_of(swap), _swap_words(view, swap)
    for tasting in content.tastings.values():
        yield tasting.title, tr("tasting"), page_of(tasting), _tasting_words(view, tasting)
    for cook in content.cooks.values():
        yield cook.title, tr("cook"), page_of(cook), _cook_words(view, cook)
    for item in content.pantry.values():
        kind = tr("sub-recipe") if item.of else tr("pantry item")
        yield item.title, kind, page_of(item), _item_words(view, item)
    for service in content.services.values():
        served = " ".join(content.plates[plate].title for plate in service.plates)
        yield service.title, tr("service"), page_of(service), f"{service.day} {served}"
    for count in content.counts.values():
        counted = " ".join(content.plates[plate].title for plate in count.plates)
        yield count.title, tr("count"), page_of(count), counted
    yield from _notes(view)
    yield from _written_down(view)
    words = search_words(current_language()).pages
    for title, path in ((tr("What to do"), "index.html"), *PAGES):
        every = f" {_every_allergen()}" if path == "allergens.html" else ""
        yield title, tr("page"), path, words[path] + every
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
        if isinstance(record, Noted):
            yield from seen(_logged, view, record) or ()
    for swap in content.swaps.values():
        yield from seen(_decisions, view, swap) or ()


def _logged(view: View, record: Noted) -> list[Found]:
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


def _swap_words(view: View, swap: Swap) -> str:
    plates = view.costed.content.plates
    named = [plates[name].title for name in (swap.benchmark, *swap.challengers)]
    return " ".join([*named, swap_states(view, swap)])


def _plate_words(view: View, plate: Plate) -> str:
    content = view.costed.content
    sides = [content.pantry[name].title for name in plate.with_]
    cooks = [content.cooks[name] for name in plate.cooks]
    cuts = [cut_of(content, portion) for portion in plate.served]
    named = [str(plate.menu), *sides, *(each.title for each in (*cooks, *cuts))]
    named += dict.fromkeys(_supplier(view, cut) for cut in cuts)
    named += [plate_states(view, plate), *_allergen_words(view, plate), *_step_words(plate)]
    return " ".join(filter(None, named))


def _every_allergen() -> str:
    """Who asks what is free of an allergen is led to the matrix, not to what contains it."""
    names = other_names().items()
    return " ".join(word for name, words in names for word in (*_said(name, tr(name)), *words))


def _said(written: str, said: str) -> tuple[str, ...]:
    """A word of the files, and what the pages say for it where that is another."""
    return tuple(dict.fromkeys((written, said)))


def _put_out(content: Content, buffet: Buffet) -> str:
    dishes = [content.cooks[name].title for name in buffet.cooks]
    return " ".join([*dishes, *(content.pantry[name].title for name in buffet.items)])


def _supplier(view: View, record: Cut | PantryItem) -> str:
    if not view.grants("suppliers"):
        return ""
    current = view.costed.prices.get(record.id)
    return current.supplier if current else ""


def _allergen_words(view: View, record: Holder) -> Iterator[str]:
    """The allergens and kinds that a record contains or may contain, each once."""
    if not view.grants("allergens"):
        return
    found = contained_in(view, record)
    kinds = (*found.contains, *found.may)
    names = dict.fromkeys(word for kind in kinds for word in kind if word)
    yield from (word for name in names for word in _said(name, tr(name)))


def _tasting_words(view: View, tasting: Tasting) -> str:
    served = view.costed.tastings[tasting.id].samples
    words = [
        str(tasting.test),
        method_name(tasting.test),
        *(sample.title for sample in served),
        *tasting.attributes,
    ]
    return " ".join([*words, str(tasting.question or "")])


def _cut_words(view: View, cut: Cut) -> str:
    return " ".join([str(cut.imps or ""), *_species(cut), _supplier(view, cut)])


def _species(cut: Cut) -> tuple[str, ...]:
    return _said(str(cut.species), species_words(str(cut.species)))


def _cook_words(view: View, cook: Cook) -> str:
    cut = view.costed.content.cuts[cook.cut]
    at = cook.at if view.grants("cooking") else None
    words = [cut.title, *_said(str(cook.how), way_words(cook.how)), *_temperature_words(view, at)]
    if cook.equipment and view.grants("cooking"):
        words.append(gear_name(view, cook.equipment))
    return " ".join([*words, *_step_words(cook)])


def _step_words(record: Stepped) -> Iterator[str]:
    """What is done step by step, and what to look out for."""
    for step in record.steps:
        yield str(step.what)
        if step.caution:
            yield str(step.caution)


def _temperature_words(view: View, at: Measure | None) -> Iterator[str]:
    """A temperature as the pages write it, as the file does where it has another unit, and as
    people type it in either."""
    if at is None:
        return
    yield (written := view.style.temperature(at.value))
    if at.text[-1:].upper() != written[-1:]:
        yield at.text
    yield f"{nearest(at.value)}c {nearest(at.value * 9 / 5 + 32)}f"


def _item_words(view: View, item: PantryItem) -> str:
    content = view.costed.content
    made_of = [content.pantry[name].title for name in item.of]
    words = [_supplier(view, item), *made_of, *_allergen_words(view, item)]
    return " ".join([*words, *_step_words(item)])
