"""What a full plate cost leaves out, because nothing written says what it is."""

from __future__ import annotations

from collections.abc import Iterable

from builder.costing.costed import Costed
from builder.display.words import listed
from builder.language import clauses, tr
from builder.records.covered import cover_items, menu_cover_items
from builder.records.equipment import gear_title
from builder.records.kinds import Cook, PantryItem, Plate, SetMenu
from builder.records.untimed import made, untimed, untimed_of_plate


def left_out(costed: Costed, plate: Plate, *, cover: bool = True) -> dict[str, str]:
    """Each figure of a plate that is not known in full, and why; empty where all is known.

    cover: whether what comes with the kitchen's cover is the plate's, as it is on its own.
    """
    covers = cover_items(costed.content, plate) if cover else {}
    cooks = [costed.content.cooks[name] for name in plate.cooks]
    process = [(_energy(costed, cook), _equipment(costed, cook)) for cook in cooks]
    if not plate.cook:
        process.insert(0, ("", ""))  # nothing heats the main portion
    energy, equipment = process[0]
    further = (why for pair in process[1:] for why in pair if why)
    found = {
        "labour_cost": _labour(costed, plate, cover=cover),
        "energy_per_plate": energy,
        "equipment_per_plate": equipment,
        "accompaniments_known_process": _unknown_energy(costed, plate.with_),
        "further_process": clauses(dict.fromkeys(further)),
        "cover_process": _unknown_energy(costed, covers),
    }
    return {figure: why for figure, why in found.items() if why}


def cover_left_out(costed: Costed, menu: SetMenu) -> dict[str, str]:
    """The same of the cover that a guest of a set menu gets once."""
    items = menu_cover_items(costed.content, menu)
    hours = costed.figures.value("set_menu", "cover_hours", costed.rows.menus[menu.id].row)
    found = {
        "labour_cost": _no_labour(costed, hours, untimed(made(costed.content, items))),
        "cover_process": _unknown_energy(costed, items),
    }
    return {figure: why for figure, why in found.items() if why}


def process_left_out(costed: Costed, record: Cook | PantryItem) -> str:
    """Why the process cost of a cook or an item is not known in full; empty where it is."""
    if isinstance(record, PantryItem):
        return _unknown_energy(costed, [record.id])
    return clauses((_energy(costed, record), _equipment(costed, record)))


def labour_left_out(costed: Costed, record: Cook | PantryItem) -> str:
    """Why the labour in a cook or an item is not known in full; empty where it is."""
    if isinstance(record, Cook):
        work = costed.figures.value("batch", "hands_on", costed.rows.cooks[record.id])
        return _no_labour(costed, work, untimed([record]))
    row = costed.rows.pantry[record.id]
    hours = costed.figures.value("pantry", "hours_per_unit", row)
    return _no_labour(costed, hours, untimed(made(costed.content, [record.id])))


def _labour(costed: Costed, plate: Plate, *, cover: bool) -> str:
    row, value = costed.rows.plates[plate.id], costed.figures.value
    hours = value("plate", "labour_hours", row)
    own = hours if cover else hours - value("plate", "cover_hours", row)
    return _no_labour(costed, own, untimed_of_plate(costed.content, plate, cover=cover))


def _no_labour(costed: Costed, hours: float, silent: str) -> str:
    """Why work of some hours has no cost or, where some of it is stated nowhere, not all of it."""
    unpaid = hours > 0 and costed.content.kitchen.loaded_wage is None
    return clauses([tr("no wage is stated")] * unpaid + [silent] * bool(silent))


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
        return tr("no equipment is named for {cook}", cook=cook.title)
    if cook.for_ is None:
        return tr("no hours are stated for {cook}", cook=cook.title)
    row = costed.rows.equipment[cook.equipment]
    stated = costed.figures.value("equipment", "charge_per_hour", row) >= 0
    title = gear_title(costed.content.kitchen.equipment, cook.equipment)
    return "" if stated else tr("neither charge nor service life of {title} is stated", title=title)


def _unknown_energy(costed: Costed, names: Iterable[str]) -> str:
    unknown = made_without_energy(costed, names)
    return tr("the energy of {unknown} is not known", unknown=unknown) if unknown else ""


def made_without_energy(costed: Costed, names: Iterable[str]) -> str:
    """The titles of what is made among items, down to its own, whose energy has no known cost."""
    tariffs = costed.content.kitchen
    unknown = (
        item.title
        for item in made(costed.content, names)
        if item.energy is None or (tariffs.gas if item.fuel == "gas" else tariffs.energy) is None
    )
    return listed(list(dict.fromkeys(unknown)))
