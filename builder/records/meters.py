"""Energy read from a meter against weight and time, and a bath's water against its load."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import median

from builder.language import Deferred, tr
from builder.problems import Problem
from builder.records.batches import weights_of
from builder.records.content import Content
from builder.records.kinds import Cook, Equipment, PantryItem
from builder.records.slips import slip
from builder.records.ways import BATH
from builder.records.written import Doubted, Value, rounded, warning

# The most that a batch draws: a kilogram brought to the boil and dried out by half with a gas
# flame takes about 2.5 kWh, and large equipment goes on drawing several kilowatts. What it
# usually draws of that. Common practice, no published source.
KWH_PER_KG, KW, USUAL = 4.0, 8.0, 0.15
# A bath of water draws no more than its heater, and a kilogram in it takes a fraction.
BATH_KWH_PER_KG, BATH_KW = 0.5, 2.0
# Litres of a bath for a kilogram that it holds: meat takes up a litre, and water has to flow
# round all of it; usual is three to four. Common practice, no published source.
LITRES_PER_KG, USUAL_LITRES = (1.6, 11.0), 3.5
# What a bath at temperature loses for a litre of it [W]: a large one under its lid, a small open
# one; usual is five. Common practice, no published source.
WATTS_PER_L, USUAL_WATTS = (0.7, 40.0), 5.0
# Under a lid hardly any water evaporates, which is most of what an open bath loses: so much at
# the most for a litre [W], from so many litres on. Common practice, no published source.
LIDDED_WATTS, NO_POT = 15.0, 15.0
_LITTLE = Deferred("{volume} is little for equipment that holds {holds}")
_MUCH = Deferred("{volume} is much for equipment that holds {holds}")


def check_meters(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of energy out of proportion to what is cooked or to what idle equipment draws."""
    for cook in content.cooks.values():
        yield from _cook(content, cook, reported)
    for recipe in content.pantry.values():
        yield from _recipe(content, recipe, reported)
    for gear in content.kitchen.equipment.values():
        yield from _bath(content, gear, reported)
        yield from _standby(content, gear, reported)


def _cook(content: Content, cook: Cook, reported: Doubted) -> Iterator[Problem]:
    energy, time = cook.energy, cook.for_
    if energy is None or time is None or {energy.place, time.place} & reported:
        return
    value = Value("cooks.energy", energy, cook, cook.path)
    weighed = [test.in_.value for test in cook.tests] + ([cook.load.value] if cook.load else [])
    per_kg, draws = (BATH_KWH_PER_KG, BATH_KW) if cook.how == BATH else (KWH_PER_KG, KW)
    most = per_kg * max(weighed, default=0.0) + draws * time.value
    if weighed and energy.value > most:
        of = cook.load.text if cook.load else tr("{rounded} kg", rounded=rounded(median(weighed)))
        message = tr(
            "{energy} is a great deal for {of} in {time}", energy=energy.text, of=of, time=time.text
        )
        yield from warning(value, message, slip(energy, most * USUAL / energy.value))
    gear = content.kitchen.equipment.get(cook.equipment) if cook.equipment else None
    standby = gear.measured_standby if gear else None
    if standby and standby.place not in reported and energy.value < standby.value * time.value:
        message = tr(
            "{energy} is less than standing idle at {standby} takes in {time}",
            energy=energy.text,
            standby=standby.text,
            time=time.text,
        )
        yield from warning(value, message, tr("one of the three may be a slip"))


def _recipe(content: Content, recipe: PantryItem, reported: Doubted) -> Iterator[Problem]:
    energy = recipe.energy
    if energy is None or energy.place in reported:
        return
    weights, made = weights_of(content, recipe, reported)
    most = KWH_PER_KG * (sum(weights.values()) + made)
    if weights and energy.value > most:
        value = Value("pantry.energy", energy, recipe, recipe.path)
        message = tr(
            "{energy} is a great deal for {rounded} kg of ingredients",
            energy=energy.text,
            rounded=rounded(sum(weights.values())),
        )
        yield from warning(value, message, slip(energy, most * USUAL / energy.value))


def _bath(content: Content, gear: Equipment, reported: Doubted) -> Iterator[Problem]:
    volume, holds = gear.volume, gear.holds
    if volume is None or holds is None or {volume.place, holds.place} & reported:
        return
    litres = volume.value / holds.value if holds.value > 0 else 0.0
    if litres and not LITRES_PER_KG[0] <= litres <= LITRES_PER_KG[1]:
        value = Value("kitchen.equipment.volume", volume, gear, content.kitchen.path)
        size = _LITTLE if litres < LITRES_PER_KG[0] else _MUCH
        message = tr(size, volume=volume.text, holds=holds.text)
        yield from warning(value, message, slip(volume, USUAL_LITRES / litres))


def _standby(content: Content, gear: Equipment, reported: Doubted) -> Iterator[Problem]:
    volume, draws = gear.volume, gear.measured_standby
    if gear.kind != BATH or volume is None or draws is None or volume.value <= 0:
        return
    if {volume.place, draws.place} & reported:
        return
    watts = draws.value * 1000 / volume.value
    lidded = gear.cover not in {None, "open"} or gear.covered
    most = LIDDED_WATTS if lidded and volume.value >= NO_POT else WATTS_PER_L[1]
    if watts and not WATTS_PER_L[0] <= watts <= most:
        value = Value("kitchen.equipment.measured standby", draws, gear, content.kitchen.path)
        size = tr("little") if watts < WATTS_PER_L[0] else tr("a great deal")
        message = tr(
            "{draws} is {size} for a bath of {volume} that only keeps warm",
            draws=draws.text,
            size=size,
            volume=volume.text,
        )
        yield from warning(value, message, slip(draws, USUAL_WATTS / watts))
