"""What records are found by: what one is called in the search, and the words beside its title."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import tr
from builder.pages.found_once import contained_in
from builder.pages.parts import gear_name
from builder.pages.search_states import plate_states, swap_states
from builder.pages.service_orders import supplier_of
from builder.pages.view import View
from builder.pages.ways import species_words, way_words
from builder.records.contained import Holder
from builder.records.counts import Count
from builder.records.fields import Measure
from builder.records.kinds import Cook, Cut, PantryItem, Plate, Service, Swap, Tasting
from builder.records.method_names import method_name
from builder.records.portions import cut_of
from builder.records.step_checks import Stepped
from builder.rounding import nearest_whole

Found = tuple[str, str]


def cut_found(view: View, cut: Cut) -> Found:
    """A cut by its number, species and supplier."""
    return tr("cut"), " ".join([str(cut.imps or ""), *_species(cut), supplier_of(view, cut)])


def plate_found(view: View, plate: Plate) -> Found:
    """A plate by its section, class, sides, cuts, suppliers, allergens and steps."""
    content = view.costed.content
    sides = [content.pantry[name].title for name in plate.with_]
    cooks = [content.cooks[name] for name in plate.cooks]
    cuts = [cut_of(content, portion) for portion in plate.served]
    named = [str(plate.menu), *sides, *(each.title for each in (*cooks, *cuts))]
    named += dict.fromkeys(supplier_of(view, cut) for cut in cuts)
    named += [plate_states(view, plate), *_allergen_words(view, plate), *_step_words(plate)]
    return tr("plate"), " ".join(filter(None, named))


def swap_found(view: View, swap: Swap) -> Found:
    """A swap by its plates, and by whether they earn more or less."""
    plates = view.costed.content.plates
    named = [plates[name].title for name in (swap.benchmark, *swap.challengers)]
    return tr("swap"), " ".join([*named, swap_states(view, swap)])


def tasting_found(view: View, tasting: Tasting) -> Found:
    """A tasting by its test, samples, attributes and question."""
    served = view.costed.tastings[tasting.id].samples
    words = [
        str(tasting.test),
        method_name(tasting.test),
        *(sample.title for sample in served),
        *tasting.attributes,
    ]
    return tr("tasting"), " ".join([*words, str(tasting.question or "")])


def cook_found(view: View, cook: Cook) -> Found:
    """A cook by its cut, way, temperature, equipment and steps."""
    cut = view.costed.content.cuts[cook.cut]
    at = cook.at if view.grants("cooking") else None
    words = [cut.title, *said(str(cook.how), way_words(cook.how)), *_temperature_words(view, at)]
    if cook.equipment and view.grants("cooking"):
        words.append(gear_name(view, cook.equipment))
    return tr("cook"), " ".join([*words, *_step_words(cook)])


def item_found(view: View, item: PantryItem) -> Found:
    """A pantry item by its supplier, ingredients, allergens and steps."""
    content = view.costed.content
    made_of = [content.pantry[name].title for name in item.of]
    words = [supplier_of(view, item), *made_of, *_allergen_words(view, item)]
    kind = tr("sub-recipe") if item.of else tr("pantry item")
    return kind, " ".join([*words, *_step_words(item)])


def service_found(view: View, service: Service) -> Found:
    """A service by its day and plates."""
    served = " ".join(view.costed.content.plates[plate].title for plate in service.plates)
    return tr("service"), f"{service.day} {served}"


def count_found(view: View, count: Count) -> Found:
    """A count by its plates."""
    plates = view.costed.content.plates
    return tr("count"), " ".join(plates[plate].title for plate in count.plates)


def said(written: str, said: str) -> tuple[str, ...]:
    """A word of the files, and what the pages say for it where that is another."""
    return tuple(dict.fromkeys((written, said)))


def _species(cut: Cut) -> tuple[str, ...]:
    return said(str(cut.species), species_words(str(cut.species)))


def _allergen_words(view: View, record: Holder) -> Iterator[str]:
    """The allergens and kinds that a record contains or may contain, each once."""
    if not view.grants("allergens"):
        return
    found = contained_in(view, record)
    kinds = (*found.contains, *found.may)
    names = dict.fromkeys(word for kind in kinds for word in kind if word)
    yield from (word for name in names for word in said(name, tr(name)))


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
    yield f"{nearest_whole(at.value)}c {nearest_whole(at.value * 9 / 5 + 32)}f"
