"""Energy read from a meter against weight and time, and a bath's water against its load."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from statistics import median

from builder.language import Deferred, tr
from builder.problems import Problem
from builder.records.batches import weights_of
from builder.records.content import Content
from builder.records.fields import Measure
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
# Meat takes up so much heat at the least [kWh for a kilogram and a degree]: 3.0 kJ, and lean meat
# 3.5. It starts no warmer than a kitchen is [degrees Celsius]. Handbook values, from memory.
HEAT, BENCH = 3.0 / 3600, 20.0
# What a batch uses is mostly so many times what its meat takes up. Common practice, no published
# source.
OF_HEAT = 4.0
# Gas in kilowatt-hours [kWh/L], natural gas, from memory; that of a bottle gives so many times as
# much.
KWH_PER_L, BOTTLED = 0.0106, 2.5
# From so many times on litres are likelier cubic metres than a lost point.
LITRES_A_STEP = 50.0
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
    metered, time = cook.energy or cook.gas, cook.for_
    if metered is None or time is None or {metered.place, time.place} & reported:
        return
    weighed = [test.in_.value for test in cook.tests] + ([cook.load.value] if cook.load else [])
    if weighed:
        yield from _against_weight(cook, metered, time, weighed, reported)
    gear = content.kitchen.equipment.get(cook.equipment) if cook.equipment else None
    standby = gear.measured_standby if gear else None
    if not cook.energy or standby is None or standby.place in reported:
        return
    if metered.value < standby.value * time.value:
        message = tr(
            "{energy} is less than standing idle at {standby} takes in {time}",
            energy=metered.text,
            standby=standby.text,
            time=time.text,
        )
        value = Value("cooks.energy", metered, cook, cook.path)
        yield from warning(value, message, tr("one of the three may be a slip"))


def _against_weight(
    cook: Cook, metered: Measure, time: Measure, weighed: Sequence[float], reported: Doubted
) -> Iterator[Problem]:
    """Far more than a batch of these weights [kg] draws, or less than its meat itself takes up."""
    key, kwh = ("energy", metered.value) if cook.energy else ("gas", metered.value * KWH_PER_L)
    value = Value(f"cooks.{key}", metered, cook, cook.path)
    per_kg, draws = (BATH_KWH_PER_KG, BATH_KW) if cook.how == BATH else (KWH_PER_KG, KW)
    most = per_kg * max(weighed) + draws * time.value
    of = cook.load.text if cook.load else tr("{rounded} kg", rounded=rounded(median(weighed)))
    to = cook.core or (cook.at if cook.how == BATH else None)
    if kwh > most:
        message = tr(
            "{energy} is a great deal for {of} in {time}",
            energy=metered.text,
            of=of,
            time=time.text,
        )
        yield from warning(value, message, slip(metered, most * USUAL / kwh))
    elif to is not None and to.place not in reported and kwh > 0:
        start = cook.piece.starts_at if cook.piece else None
        least = HEAT * min(weighed) * (to.value - (start.value if start else BENCH))
        if kwh * (BOTTLED if cook.gas else 1.0) < least:
            message = tr(
                "{energy} is less than warming {of} to {to} takes",
                energy=metered.text,
                of=of,
                to=to.text,
            )
            yield from warning(value, message, _meant(metered, OF_HEAT * least / kwh))


def _meant(measure: Measure, factor: float) -> str:
    """Of gas in litres that its meter counts in cubic metres, else by the point or the unit.

    >>> from builder.problems import Place
    >>> from builder.quantities import Dimension
    >>> _meant(Measure(4.1, Place("a"), "4.1 L", Dimension.VOLUME), 240)
    'did you mean 4.1 m3?'
    """
    if measure.text.endswith("L") and factor > LITRES_A_STEP:
        return tr("did you mean {words}?", words=f"{measure.text.removesuffix('L')}m3")
    return slip(measure, factor)


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
