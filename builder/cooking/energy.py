"""What a cook draws from the mains: heating up, standing losses, ovens, gas.

Every figure is a `Range`: covers, walls and unmeasured idling are assumptions, so a
kitchen's own measured standby wattage goes before all of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

import numpy as np
from numpy.typing import ArrayLike

from builder.cooking.heating import COLDEST_START_C
from builder.cooking.ranges import Floats, Range, require_within
from builder.cooking.thawing import COLDEST_FROZEN_C, melting_kj_kg
from builder.engine.methods import method

WATER_KJ_KGK = 4.186
# Raw meat, more fat at the low end [from memory].
MEAT_KJ_KGK = Range(2.9, 3.4, 3.6)
SATURATION = (
    (-7.85951783, 1.0),
    (1.84408259, 1.5),
    (-11.7866497, 3.0),
    (22.6807411, 3.5),
    (-15.9618719, 4.0),
    (1.80122502, 7.5),
)
STEFAN_BOLTZMANN = 5.670374e-8
# Long-wave emissivity of water [from memory].
WATER_EMISSIVITY = 0.95
# Draught and humidity: the spread holds every value of a handbook's open-tank table.
SURFACE_SPREAD = Range(0.95, 1.05, 1.3)
# What a measured standby may be off by: meter, lid habits, room.
MEASURED_SHARE = 0.1


class Cover(Enum):
    """What lies on the water; the value is the part of the open loss that is left.

    Common practice, no published source.
    """

    OPEN = Range(1, 1, 1)
    BALLS = Range(0.12, 0.2, 0.4)
    LID = Range(0.03, 0.08, 0.2)


class Wall(Enum):
    """The tank's wall; the value is its loss coefficient [W/m²K].

    Bare and with 25 mm of insulation, from an engineering handbook's open-tank table [read].
    """

    BARE = Range(11.5, 12.4, 13)
    INSULATED = Range(2.3, 2.5, 3.2)


def vapour_pressure_pa(water_c: ArrayLike) -> Floats:
    """Return the saturation pressure of water [Pa] at a temperature [°C].

    Wagner & Pruss 1993, the IAPWS saturation line [from memory].
    """
    kelvin = np.asarray(water_c, dtype=np.float64) + 273.15
    left = 1 - kelvin / 647.096
    powers = sum(a * left**n for a, n in SATURATION)
    return np.asarray(22.064e6 * np.exp(647.096 / kelvin * powers), dtype=np.float64)


@method(
    unit="W/m²",
    source="natural convection from a horizontal plate, Nu = 0.15 Ra^(1/3), and the "
    "analogy of heat and mass transfer, Incropera et al. [from memory]",
)
def open_water_loss(water_c: ArrayLike, room_c: float = 20.0, humidity: float = 0.5) -> Floats:
    """Heat lost by a square metre of open, still water: evaporation, convection, radiation.

    Formula: hc = 1.63 dTv^(1/3), dTv the difference of virtual temperatures; evaporation
    hc / (rho cp Le^(2/3)) x vapour density difference x heat of vaporisation; convection
    hc dT; radiation e sigma (Tw^4 - Tr^4).
    Parameters: temperatures of the water and of the room [°C]; humidity of the room.
    Returns: loss [W/m²]; 0 for water no warmer than the room.
    Valid range: water 0 to 95 °C; room 0 to 45 °C; humidity 0 to 1.
    Errors: ValueError outside the range, naming it and the unit.
    Departs from the source: no draught, and no boiling.

    >>> round(float(open_water_loss(60.0)), -1)
    2370.0
    """
    water = require_within("water temperature", water_c, 0, 95, "°C")
    require_within("room temperature", room_c, 0, 45, "°C")
    require_within("humidity", humidity, 0, 1, "(1)")
    tw, tr = water + 273.15, room_c + 273.15
    ew, er = vapour_pressure_pa(water), humidity * vapour_pressure_pa(room_c)
    virtual = tw / (1 - 0.378 * ew / 101325) - tr / (1 - 0.378 * er / 101325)
    film = 1.63 * np.maximum(virtual, 0) ** (1 / 3)
    vapour = ew / (461.5 * tw) - er / (461.5 * tr)
    air = 101325 / (287.05 * (tw + tr) / 2) * 1007 * 0.9
    evaporation = film / air * np.maximum(vapour, 0) * (2.501e6 - 2361 * water)
    radiation = WATER_EMISSIVITY * STEFAN_BOLTZMANN * (tw**4 - tr**4)
    total = evaporation + film * (water - room_c) + radiation
    return np.where(water > room_c, total, 0.0)


@dataclass(frozen=True, slots=True)
class Bath:
    """A water bath: volume [L], open surface and side walls [m²], cover, wall.

    Areas left out are those of a square tank half as deep as it is wide, its floor on a
    bench. `standby_kw` [kW], measured at the cook's temperature, goes before the modelled
    losses.
    """

    volume_l: float
    cover: Cover = Cover.OPEN
    wall: Wall = Wall.BARE
    surface_m2: float | None = None
    wall_m2: float | None = None
    standby_kw: float | None = None

    def __post_init__(self) -> None:
        require_within("bath volume", self.volume_l, 1, 2000, "L")
        if self.surface_m2 is not None:
            require_within("water surface", self.surface_m2, 0.005, 10, "m²")
        if self.wall_m2 is not None:
            require_within("wall area", self.wall_m2, 0.01, 50, "m²")
        if self.standby_kw is not None:
            require_within("measured standby", self.standby_kw, 0, 30, "kW")

    @property
    def areas_m2(self) -> tuple[float, float]:
        """Open surface and side walls [m²]."""
        square = (2 * self.volume_l / 1000) ** (2 / 3)
        surface = square if self.surface_m2 is None else self.surface_m2
        return surface, 2 * square if self.wall_m2 is None else self.wall_m2


@dataclass(frozen=True, slots=True)
class EnergyUse:
    """The energy of one batch [kWh]: bringing it up, and holding it."""

    heating_kwh: Range
    holding_kwh: Range
    basis: str

    @property
    def total_kwh(self) -> Range:
        """All of it [kWh]."""
        return self.heating_kwh + self.holding_kwh


@method(
    unit="kW",
    source="engineering handbook's open-tank table [read] for surface and walls; covers: "
    "common practice, no published source",
)
def bath_standing_loss(bath: Bath, water_c: float, room_c: float = 20.0) -> Range:
    """Power that a bath at temperature loses to the kitchen.

    Formula: measured standby ± 10 %; without one, surface x open-water loss x cover +
    wall area x wall coefficient x (water - room).
    Parameters: the bath; temperatures of the water and of the room [°C].
    Returns: [kW], low, typical, high.
    Valid range: water 0 to 95 °C; room 0 to 45 °C.
    Errors: ValueError outside the range, naming it and the unit.

    >>> bath_standing_loss(Bath(20, standby_kw=0.2), 57).typical
    0.2
    """
    surface_flux = float(open_water_loss(water_c, room_c))
    if bath.standby_kw is not None:
        return Range.around(bath.standby_kw, MEASURED_SHARE)
    surface_m2, wall_m2 = bath.areas_m2
    surface = SURFACE_SPREAD * bath.cover.value * (surface_m2 * surface_flux / 1000)
    return surface + bath.wall.value * (wall_m2 * max(water_c - room_c, 0.0) / 1000)


def food_kwh(food_kg: float, food_c: float, to_c: float) -> Range:
    """Return the heat [kWh] that food takes up from one temperature to another, melting its ice.

    >>> round(food_kwh(1800, 0, 10).typical), food_kwh(1, 20, 10).typical
    (17, 0.0)
    """
    require_within("food", food_kg, 0, 2000, "kg")
    require_within("food temperature", food_c, COLDEST_FROZEN_C, 110, "°C")
    warmed = MEAT_KJ_KGK * max(to_c - max(food_c, COLDEST_START_C), 0.0)
    return (warmed + melting_kj_kg(food_c)) * (food_kg / 3600)


@method(unit="kWh", source="specific heat of water and meat [from memory]")
def heating_up_energy(
    water_l: float, fill_c: float, food_kg: float, food_c: float, to_c: float
) -> Range:
    """Energy that brings water and food to temperature.

    Formula: 4.186 x water x (to - fill) + 3.4 (2.9 to 3.6) x food x (to - food), over 3600;
    food below -1 °C first takes 207 (165 to 234) kJ/kg x its share of ice, and 1.9 for each K.
    Parameters: water [L] and the temperature that it is filled at [°C]; food [kg] and its
    temperature [°C]; temperature that both are brought to [°C].
    Returns: [kWh], low, typical, high.
    Valid range: water 0 to 2000 L; food 0 to 2000 kg from -30 °C; to 0 to 110 °C, no colder
    than either.
    Errors: ValueError outside the range, naming it and the unit.

    >>> round(heating_up_energy(20, 10, 0, 5, 57).typical, 2)
    1.09
    """
    require_within("water", water_l, 0, 2000, "L")
    require_within("cooking temperature", to_c, 0, 110, "°C")
    require_within("fill temperature", fill_c, 0, to_c, "°C")
    require_within("food temperature", food_c, COLDEST_FROZEN_C, to_c, "°C")
    water = Range.exactly(WATER_KJ_KGK * water_l * (to_c - fill_c) / 3600)
    return water + food_kwh(food_kg, food_c, to_c)


def bath_energy(
    bath: Bath,
    water_c: float,
    hours: float,
    *,
    food_kg: float = 0.0,
    food_c: float = 5.0,
    fill_c: float = 10.0,
    room_c: float = 20.0,
) -> EnergyUse:
    """Return the energy of a cook of so many hours in a bath filled at `fill_c` [°C]."""
    require_within("cooking time", hours, 0, 24 * 7, "h")
    basis = "modelled losses" if bath.standby_kw is None else "measured standby"
    standing = bath_standing_loss(bath, water_c, room_c) * hours
    return EnergyUse(
        heating_up_energy(bath.volume_l, fill_c, food_kg, food_c, water_c), standing, basis
    )


@method(
    unit="kW",
    source="ENERGY STAR Program Requirements for Commercial Ovens, version 2.2 [read]",
)
def combination_oven_idle(pans: int, *, steam: bool = False) -> float:
    """The most that an electric combination oven of that programme may draw while idle.

    Formula: 0.080 P + 0.4989 in convection, 0.133 P + 0.64 in steam, P pans.
    Parameters: how many pans the oven holds; whether it steams.
    Returns: [kW].
    Valid range: 3 to 40 pans.
    Errors: ValueError outside the range.

    >>> round(combination_oven_idle(10), 3)
    1.299
    """
    require_within("oven size", pans, 3, 40, "pans")
    return 0.133 * pans + 0.64 if steam else 0.080 * pans + 0.4989


def oven_energy(
    idle_kw: float, hours: float, *, food_kg: float = 0.0, food_c: float = 5.0, to_c: float = 5.0
) -> EnergyUse:
    """Return the energy of an oven's cook: its idle wattage ± 25 % and the food's own heat.

    idle_kw [kW], hours [h], food_kg [kg] from food_c to to_c [°C]. Water that the food loses
    as steam is not counted. The ± 25 % is an assumption.
    """
    require_within("idle power", idle_kw, 0, 60, "kW")
    require_within("cooking time", hours, 0, 24 * 7, "h")
    return EnergyUse(
        food_kwh(food_kg, food_c, to_c), Range.around(idle_kw, 0.25) * hours, "idle wattage"
    )


NATURAL_GAS_KWH_M3 = Range(9.8, 10.6, 11.6)
"""Gross heat of combustion of natural gas [kWh/m³], from memory."""


@method(unit="kWh", source="gross heat of combustion of natural gas [from memory]")
def gas_energy(volume_m3: float, calorific_kwh_m3: Range | None = None) -> Range:
    """Energy in a metered volume of gas.

    Formula: volume x calorific value, which the supplier's bill states; without it
    10.6 (9.8 to 11.6) kWh/m³, natural gas.
    Parameters: gas [m³]; its calorific value [kWh/m³].
    Returns: [kWh], low, typical, high.
    Valid range: volume 0 to 10000 m³; calorific value 3 to 40 kWh/m³.
    Errors: ValueError outside the range, naming it and the unit.

    >>> gas_energy(2.0).typical
    21.2
    """
    require_within("gas volume", volume_m3, 0, 10000, "m³")
    per_m3 = calorific_kwh_m3 or NATURAL_GAS_KWH_M3
    require_within("calorific value", [per_m3.low, per_m3.high], 3, 40, "kWh/m³")
    return per_m3 * volume_m3
