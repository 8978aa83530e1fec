"""What the search finds: every record by its name, numbers, supplier and ingredients; methods."""

from __future__ import annotations

from collections.abc import Iterator

from builder.pages.method_graph import MethodGraph
from builder.pages.parts import page_of
from builder.pages.values import capital, in_mass_unit
from builder.pages.view import View
from builder.pages.whereabouts import method_path
from builder.records.kinds import Cook, Cut, PantryItem, Plate, Swap, Tasting

Found = tuple[str, str, str, str]
"""(title, kind, path in the site, further words)."""


PAGES = (
    ("Menu", "menu.html", "plates margin popularity"),
    ("Swaps", "swaps.html", "challenger benchmark saving"),
    ("Cuts", "cuts.html", "as purchased yield trim"),
    ("Which cut to try next", "try-next.html", "candidate challenger muscle tenderness trial"),
    ("Cooks", "cooks.html", "loss hours temperature"),
    ("Pantry", "pantry.html", "ingredients sub-recipes"),
    ("Tastings", "tastings.html", "panel ballots tasters duration verdict"),
    ("Kitchen", "kitchen.html", "wage energy tax equipment targets"),
    ("Prices", "prices.html", "supplier list"),
    ("Schedule", "schedule.html", "service back-schedule start timeline"),
    ("Equipment", "equipment.html", "bath oven capacity hours booked"),
    ("Rules", "rules.html", "authority rule set code hold temperature"),
    ("Methods", "methods.html", "formula source"),
    ("Sources", "sources.html", "references literature published"),
    ("Butcher's yield test, blank", "forms/blank-yield-test.html", "form print weigh"),
    ("Cooking loss test, blank", "forms/blank-cooking-loss.html", "form print weigh"),
    ("Writing the files", "writing.html", "how to write YAML keys units"),
    ("Tables to download", "data.html", "CSV data"),
    ("Notices", "notices.html", "licence"),
)


def search_records(view: View) -> Iterator[Found]:
    """Every page that somebody may look for, with the words that lead to it.

    Of records that are equally near to what is asked the first kind comes first.
    """
    content = view.costed.content
    for cut in content.cuts.values():
        yield cut.title, "cut", page_of(cut), _cut_words(view, cut)
    for plate in content.plates.values():
        yield plate.title, "plate", page_of(plate), _plate_words(view, plate)
    for swap in content.swaps.values():
        yield swap.title, "swap", page_of(swap), _swap_words(view, swap)
    for tasting in content.tastings.values():
        yield tasting.title, "tasting", page_of(tasting), _tasting_words(view, tasting)
    for cook in content.cooks.values():
        yield cook.title, "cook", page_of(cook), _cook_words(view, cook)
    for item in content.pantry.values():
        kind = "sub-recipe" if item.of else "pantry item"
        yield item.title, kind, page_of(item), _item_words(view, item)
    for service in content.services.values():
        served = " ".join(content.plates[plate].title for plate in service.plates)
        yield service.title, "service", page_of(service), f"{service.day} {served}"
    yield from ((title, "page", path, words) for title, path, words in PAGES)
    yield from _methods(view)


def _methods(view: View) -> Iterator[Found]:
    """What a figure is: its name finds the page with its formula."""
    model = view.costed.figures.model
    for node in MethodGraph(model).nodes:
        title = capital(in_mass_unit(view.style, model.definition(node).label))
        yield title, "method", method_path(node), ""


def _swap_words(view: View, swap: Swap) -> str:
    plates = view.costed.content.plates
    return " ".join(plates[name].title for name in (swap.benchmark, *swap.challengers))


def _plate_words(view: View, plate: Plate) -> str:
    content = view.costed.content
    sides = [content.pantry[name].title for name in plate.with_]
    cook = content.cooks.get(plate.cook) if plate.cook else None
    cut = content.cuts[cook.cut] if cook else None
    return " ".join([str(plate.menu), *sides, cook.title if cook else "", cut.title if cut else ""])


def _tasting_words(view: View, tasting: Tasting) -> str:
    served = view.costed.tastings[tasting.id].samples
    words = [str(tasting.test), *(sample.title for sample in served), *tasting.attributes]
    return " ".join([*words, str(tasting.question or "")])


def _cut_words(view: View, cut: Cut) -> str:
    current = view.costed.prices.get(cut.id)
    return " ".join([str(cut.imps or ""), str(cut.species), current.supplier if current else ""])


def _cook_words(view: View, cook: Cook) -> str:
    cut = view.costed.content.cuts[cook.cut]
    at = view.style.temperature(cook.at.value) if cook.at else ""
    return " ".join([cut.title, str(cook.how), at])


def _item_words(view: View, item: PantryItem) -> str:
    current = view.costed.prices.get(item.id)
    content = view.costed.content
    made_of = [content.pantry[name].title for name in item.of]
    return " ".join([current.supplier if current else "", *made_of, *map(str, item.allergens)])
