"""What a full plate cost leaves out, because nothing written says what it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from builder.costing.costed import Costed
from builder.display.words import listed
from builder.language import clauses, ntr, tr
from builder.records.covered import cover_items
from builder.records.equipment import gear_title
from builder.records.kinds import Cook, PantryItem, Plate


def left_out(costed: Costed, plate: Plate) -> dict[str, str]:
    """Each figure of a plate that is not known in full, and why; empty where all is known."""
    cooks = [costed.content.cooks[name] for name in plate.cooks]
    process = [(_energy(costed, cook), _equipment(costed, cook)) for cook in cooks]
    if not plate.cook:
        process.insert(0, ("", ""))  # nothing heats the main portion
    energy, equipment = process[0]
    further = (why for pair in process[1:] for why in pair if why)
    found = {
        "labour_cost": _labour(costed, plate, cooks),
        "energy_per_plate": energy,
        "equipment_per_plate": equipment,
        "accompaniments_known_process": _unknown_energy(costed, plate.with_),
        "further_process": clauses(dict.fromkeys(further)),
        "cover_process": _unknown_energy(costed, cover_items(costed.content, plate)),
    }
    return {figure: why for figure, why in found.items() if why}


def process_left_out(costed: Costed, record: Cook | PantryItem) -> str:
    """Why the process cost of a cook or an item is not known in full; empty where it is."""
    if isinstance(record, PantryItem):
        return _unknown_energy(costed, [record.id])
    return clauses((_energy(costed, record), _equipment(costed, record)))


def _labour(costed: Costed, plate: Plate, cooks: Iterable[Cook]) -> str:
    hours = costed.figures.value("plate", "labour_hours", costed.rows.plates[plate.id])
    unpaid = hours > 0 and costed.content.kitchen.loaded_wage is None
    timed: list[Cook | Plate | PantryItem] = [
        *cooks,
        plate,
        *_made(costed.content.pantry, [*plate.with_, *cover_items(costed.content, plate)]),
    ]
    silent = list(dict.fromkeys(each.title for each in timed if each.hands_on is None))
    untimed = ntr(
        "{silent} states no hands-on time",
        "{silent} state no hands-on time",
        len(silent),
        silent=listed(silent),
    )
    return clauses([tr("no wage is stated")] * unpaid + [untimed] * bool(silent))


def _energy(costed: Costed, cook: Cook) -> str:
    energy, price = (
        costed.figures.value("batch", name, costed.rows.cooks[cook.id])
        for name in ("batch_energy", "energy_price")
    )
    if not energy >= 0:
        return tr("nothing written says how much energy {cook} takes", cook=cook.title)
    return "" if price >= 0 else tr("no tariff is stated")


def _equipment(costed: Costed, cook: Cook) -> str:
    if cook.equipment is None:
        return tr("{cook} names no equipment", cook=cook.title)
    if cook.for_ is None:
        return tr("{cook} states no hours", cook=cook.title)
    row = costed.rows.equipment[cook.equipment]
    stated = costed.figures.value("equipment", "charge_per_hour", row) >= 0
    title = gear_title(costed.content.kitchen.equipment, cook.equipment)
    return "" if stated else tr("neither charge nor service life of {title} is stated", title=title)


def _unknown_energy(costed: Costed, names: Iterable[str]) -> str:
    unknown = made_without_energy(costed, names)
    return tr("the energy of {unknown} is not known", unknown=unknown) if unknown else ""


def made_without_energy(costed: Costed, names: Iterable[str]) -> str:
    """The titles of what is made among items, down to its own, whose energy has no known cost."""
    pantry, tariffs = costed.content.pantry, costed.content.kitchen
    unknown = (
        item.title
        for item in _made(pantry, names)
        if item.energy is None or (tariffs.gas if item.fuel == "gas" else tariffs.energy) is None
    )
    return listed(list(dict.fromkeys(unknown)))


def _made(pantry: Mapping[str, PantryItem], names: Iterable[str]) -> Iterator[PantryItem]:
    """What is made among items, and among what they are made of."""
    for name in names:
        item = pantry[name]
        if item.of:
            yield item
            yield from _made(pantry, item.of)
