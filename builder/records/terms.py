"""What the kitchen itself must say, so that work, energy and targets mean something."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import tr
from builder.problems import Place, Problem, Severity
from builder.records.content import Content
from builder.records.kinds import Cook, PantryItem, Plate
from builder.records.kitchen import Kitchen


def check_terms(content: Content) -> Iterator[Problem]:
    """Targets that no price can meet; work and energy that nothing is charged for."""
    kitchen = content.kitchen
    target = kitchen.targets.food_cost if kitchen.targets else None
    if target is not None and target.value <= 0:
        yield Problem(
            target.place,
            tr("no price makes food cost nothing"),
            tr("above 0 %, such as food cost: 30 %"),
        )
    if kitchen.loaded_wage is None and _works(content):
        hint = tr("write loaded wage:, such as loaded wage: 24.50/h")
        yield _uncharged(kitchen, tr("work is timed, but no wage is stated"), hint, _WORK)
    used = set(_fuels(content))
    if kitchen.energy is None and "electricity" in used:
        hint = tr("write energy:, such as energy: 0.14/kWh")
        yield _uncharged(kitchen, tr("electricity is used, but has no tariff"), hint, _FUEL)
    if kitchen.gas is None and "gas" in used:
        hint = tr("write gas:, such as gas: 0.052/kWh")
        yield _uncharged(kitchen, tr("gas is used, but has no tariff"), hint, _FUEL)


# What such a warning rests on.
_WORK = ("cooks", "pantry", "plates", "work", "labour")
_FUEL = ("cooks", "pantry", "cooking", "prices")


def _uncharged(kitchen: Kitchen, what: str, hint: str, needs: tuple[str, ...]) -> Problem:
    place = Place(kitchen.file)
    message = tr("{what}: its cost is not known and left out", what=what)
    return Problem(place, message, hint, Severity.WARNING, kitchen.path, needs=needs)


def _works(content: Content) -> bool:
    timed: list[Cook | PantryItem | Plate] = [
        *content.cooks.values(), *content.pantry.values(), *content.plates.values(),
    ]  # fmt: skip
    return any(record.hands_on is not None for record in timed)


def _fuels(content: Content) -> Iterator[str]:
    """What the cooks and the sub-recipes burn, where their energy is known."""
    for cook in content.cooks.values():
        yield from _fuel_of(content.kitchen, cook)
    for item in content.pantry.values():
        if item.energy is not None:
            yield str(item.fuel or "electricity")


def _fuel_of(kitchen: Kitchen, cook: Cook) -> Iterator[str]:
    gear = kitchen.equipment.get(cook.equipment) if cook.equipment else None
    if cook.gas is not None:
        yield "gas"
    elif cook.energy is not None or (gear and gear.measured_standby is not None):
        yield str((gear and gear.fuel) or "electricity")
