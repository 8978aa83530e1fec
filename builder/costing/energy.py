"""From a cook's record and its equipment to the energy of a batch, with its reason in words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from builder.cooking.energy import (
    NATURAL_GAS_KWH_M3,
    Bath,
    Cover,
    EnergyUse,
    Wall,
    bath_energy,
    combination_oven_idle,
    gas_energy,
    oven_energy,
)
from builder.cooking.ranges import Range
from builder.costing.plans import START_C, core_at_the_end
from builder.costing.wording import style_of
from builder.display.scales import UnitSystem
from builder.display.style import NBSP, per_unit
from builder.language import tr
from builder.problems import Place
from builder.records.fields import Measure
from builder.records.kinds import Cook, Equipment
from builder.records.kitchen import Kitchen

ROOM_C, FILL_C = 20.0, 10.0
_LITRES_PER_M3 = 1000.0
_LONGEST_H = 168.0
_BATH_C = (30.0, 95.0)

COVERS: Mapping[str, tuple[Cover, Wall]] = {
    "open": (Cover.OPEN, Wall.BARE),
    "lid": (Cover.LID, Wall.BARE),
    "balls": (Cover.BALLS, Wall.BARE),
    "insulated": (Cover.LID, Wall.INSULATED),
}


@dataclass(frozen=True, slots=True)
class Modelled:
    """The energy of a batch [kWh] as estimated, what it rests on, and the line behind it."""

    kwh: Range
    reason: str
    place: Place | None


# Kitchens have few baths and few temperatures, and thousands of cooks.
_bath_energy = lru_cache(maxsize=4096)(bath_energy)


def modelled_energy(
    kitchen: Kitchen, gear: Equipment | None, cook: Cook, load_kg: float
) -> Modelled | None:
    """Estimate the energy of a batch; None where the files say too little for it."""
    if cook.gas is not None:
        return _gas(kitchen, cook)
    if gear is None or cook.at is None or cook.for_ is None:
        return None
    if not (0 < cook.for_.value <= _LONGEST_H and 0 <= load_kg <= 2000):
        return None
    kind = str(gear.kind).lower()
    if kind == "water bath":
        return _bath(kitchen, gear, cook, load_kg)
    return _oven(kitchen, gear, cook, load_kg) if "oven" in kind else None


def _gas(kitchen: Kitchen, cook: Cook) -> Modelled | None:
    if cook.gas is None:
        return None
    say = style_of(kitchen)
    unit, places = ("ft³", 3) if say.units is UnitSystem.US_CUSTOMARY else ("m³", 1)
    litres = per_unit(unit)
    heat = NATURAL_GAS_KWH_M3 * (litres / _LITRES_PER_M3)
    reason = tr(
        "{gas} of gas at {typical} ({low} to {high}) kWh/{unit}",
        gas=f"{say.number(cook.gas.value / litres, trim=True)}{NBSP}{unit}",
        typical=say.number(heat.typical, places),
        low=say.number(heat.low, places),
        high=say.number(heat.high, places),
        unit=unit,
    )
    return Modelled(gas_energy(cook.gas.value / _LITRES_PER_M3), reason, cook.gas.place)


def _bath(kitchen: Kitchen, gear: Equipment, cook: Cook, load_kg: float) -> Modelled | None:
    at, hours = cook.at, cook.for_
    if at is None or hours is None or gear.volume is None:
        return None
    if not _BATH_C[0] <= at.value <= _BATH_C[1]:
        return None
    start = min(_start_c(cook), at.value)
    fill = min(kitchen.fill_water.value if kitchen.fill_water else FILL_C, at.value)
    room = kitchen.room.value if kitchen.room else ROOM_C
    used = _bath_energy(
        _as_bath(gear), at.value, hours.value,
        food_kg=load_kg, food_c=start, fill_c=fill, room_c=room,
    )  # fmt: skip
    say = style_of(kitchen)
    litres = say.volume_as_bought(gear.volume.value)
    water = tr("{litres} of water from {fill}", litres=litres, fill=say.temperature(fill))
    food = tr("{load_kg} from {start}", load_kg=say.weight(load_kg), start=say.temperature(start))
    heated = tr("{water} and {food} to {at}", water=water, food=food, at=say.temperature(at.value))
    return Modelled(
        used.total_kwh,
        tr("{heated}, then {held}", heated=heated, held=_held(kitchen, gear, used)),
        hours.place,
    )


def _held(kitchen: Kitchen, gear: Equipment, used: EnergyUse) -> str:
    """How the bath is held at temperature, in words."""
    if gear.measured_standby is not None:
        said = _standby(kitchen, gear.measured_standby)
        return tr(
            "{said} of measured standby ± {value}",
            said=said,
            value=style_of(kitchen).percent(0.1, 0),
        )
    lost = style_of(kitchen).energy(used.holding_kwh.typical)
    return tr("modelled losses, {cover_words} ({lost})", cover_words=cover_words(gear), lost=lost)


def _standby(kitchen: Kitchen, drawn: Measure) -> str:
    return style_of(kitchen).power(drawn.value)


def cover_words(gear: Equipment) -> str:
    """What lies on the water, in words."""
    words = {
        "open": tr("open"),
        "lid": tr("with a lid"),
        "balls": tr("with floating balls"),
        "insulated": tr("insulated, with a lid"),
    }
    return words[_cover(gear)]


def _cover(gear: Equipment) -> str:
    return str(gear.cover or ("lid" if gear.covered else "open"))


def _as_bath(gear: Equipment) -> Bath:
    cover, wall = COVERS[_cover(gear)]
    standby = gear.measured_standby.value if gear.measured_standby else None
    litres = gear.volume.value if gear.volume else 0.0
    return Bath(litres, cover, wall, standby_kw=standby)


def _start_c(cook: Cook) -> float:
    started = cook.piece.starts_at if cook.piece else None
    return started.value if started else START_C


def _oven(kitchen: Kitchen, gear: Equipment, cook: Cook, load_kg: float) -> Modelled | None:
    idle = _idle(kitchen, gear, cook)
    if idle is None or cook.for_ is None:
        return None
    kw, words = idle
    start = _start_c(cook)
    end = max(core_at_the_end(cook), start)
    used = oven_energy(kw, cook.for_.value, food_kg=load_kg, food_c=start, to_c=end)
    say = style_of(kitchen)
    food = tr(
        "{load_kg} from {start} to {end}",
        load_kg=say.weight(load_kg),
        start=say.temperature(start),
        end=say.temperature(end),
    )
    reason = tr("{words} ± {value}, and {food}", words=words, value=say.percent(0.25, 0), food=food)
    return Modelled(used.total_kwh, reason, cook.for_.place)


def _idle(kitchen: Kitchen, gear: Equipment, cook: Cook) -> tuple[float, str] | None:
    if gear.measured_standby is not None:
        said = _standby(kitchen, gear.measured_standby)
        return gear.measured_standby.value, tr("{said} of measured standby", said=said)
    if gear.pans is None or gear.fuel == "gas":
        return None
    kw = combination_oven_idle(int(gear.pans.value), steam="steam" in str(cook.how).lower())
    said = style_of(kitchen).power(kw)
    return kw, tr(
        "{said}, the most that an oven of {pans} pans may idle at", said=said, pans=gear.pans.text
    )
