"""Energy against a handbook's tank table, a published oven formula, and heat by hand."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.cooking.energy import (
    SURFACE_SPREAD,
    Bath,
    Cover,
    Wall,
    bath_energy,
    bath_standing_loss,
    combination_oven_idle,
    gas_energy,
    heating_up_energy,
    open_water_loss,
    oven_energy,
    vapour_pressure_pa,
)
from builder.cooking.ranges import Range
from tests.cooking.published import rows

TANKS = rows("open_tank_heat_loss")


def celsius(row: Mapping[str, str]) -> float:
    return (float(row["water_F"]) - 32) / 1.8


@pytest.mark.parametrize("row", TANKS, ids=lambda row: row["water_F"])
def test_the_handbooks_surface_losses_lie_in_the_band(row: Mapping[str, str]) -> None:
    """Engineering handbook's open tank table [read]; first principles give 0.81 to 1.02 of it."""
    band = SURFACE_SPREAD * float(open_water_loss(celsius(row)))
    assert band.low <= float(row["surface_total_W_m2"]) <= band.high
    assert band.typical == pytest.approx(float(row["surface_total_W_m2"]), rel=0.16)


@pytest.mark.parametrize("row", TANKS, ids=lambda row: row["water_F"])
@pytest.mark.parametrize(
    ("wall", "column"),
    [(Wall.BARE, "bare_wall_W_m2"), (Wall.INSULATED, "wall_1in_insul_W_m2")],
)
def test_the_handbooks_wall_losses_lie_in_the_band(
    wall: Wall, column: str, row: Mapping[str, str]
) -> None:
    band = wall.value * (celsius(row) - 20)
    assert band.low <= float(row[column]) <= band.high


@pytest.mark.parametrize(
    ("water", "kilopascal"), [(20, 2.339), (60, 19.95), (80, 47.41), (95, 84.61)]
)
def test_vapour_pressure_by_steam_table(water: float, kilopascal: float) -> None:
    """Saturated steam tables [from memory]."""
    assert float(vapour_pressure_pa(water)) / 1000 == pytest.approx(kilopascal, rel=1e-3)


@pytest.mark.parametrize(
    ("cover", "wall", "kwh"),
    [
        (Cover.OPEN, Wall.BARE, 9.9),
        (Cover.BALLS, Wall.BARE, 4.8),
        (Cover.LID, Wall.BARE, 3.7),
    ],
)
def test_twenty_litres_for_a_day(cover: Cover, wall: Wall, kwh: float) -> None:
    """20 L at 57 °C for 24 h, computed before from the same table [computed]."""
    used = bath_energy(Bath(20, cover, wall), 57, 24).total_kwh
    assert used.low <= kwh <= used.high


def test_every_cover_and_wall_helps() -> None:
    losses = [
        bath_standing_loss(Bath(20, cover, wall), 57).typical
        for cover, wall in (
            (Cover.OPEN, Wall.BARE),
            (Cover.BALLS, Wall.BARE),
            (Cover.LID, Wall.BARE),
            (Cover.LID, Wall.INSULATED),
        )
    ]
    assert losses == sorted(losses, reverse=True)


def test_a_measured_standby_wins() -> None:
    used = bath_energy(Bath(40, Cover.OPEN, standby_kw=0.21), 57, 30)
    assert used.holding_kwh.typical == pytest.approx(6.3)
    assert used.holding_kwh.high == pytest.approx(6.93)
    assert used.basis == "measured standby"


def test_twenty_litres_from_ten_to_fifty_seven_degrees() -> None:
    """1 kcal warms 1 kg of water by 1 K: 20 x 47 kcal at 1.163 Wh each."""
    assert heating_up_energy(20, 10, 0, 5, 57).typical == pytest.approx(
        20 * 47 * 1.163e-3, rel=1e-3
    )


@pytest.mark.parametrize(
    ("pans", "steam", "kilowatt"), [(10, False, 1.2989), (10, True, 1.97), (20, False, 2.0989)]
)
def test_the_published_idle_rate_of_a_combination_oven(
    pans: int, steam: bool, kilowatt: float
) -> None:
    """ENERGY STAR commercial ovens v2.2 [read]: 0.080 P + 0.4989 and 0.133 P + 0.64 kW."""
    assert combination_oven_idle(pans, steam=steam) == pytest.approx(kilowatt)


def test_an_oven_idles_for_its_hours() -> None:
    used = oven_energy(1.3, 10, food_kg=20, food_c=5, to_c=65)
    assert used.holding_kwh == Range.around(1.3, 0.25) * 10
    assert used.heating_kwh.typical == pytest.approx(20 * 60 * 3.4 / 3600)


def test_gas_by_volume() -> None:
    assert gas_energy(3.0, Range.exactly(11.0)) == Range.exactly(33.0)


@given(st.floats(21, 90), st.floats(0.1, 5))
def test_hotter_water_loses_more(water: float, more: float) -> None:
    assert float(open_water_loss(water + more)) > float(open_water_loss(water))


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: open_water_loss(120), "water temperature 120 °C is outside 0 to 95 °C"),
        (lambda: Bath(0), "bath volume 0 L is outside 1 to 2000 L"),
        (lambda: bath_energy(Bath(20), 57, -1), "cooking time -1 h"),
        (lambda: bath_energy(Bath(20), 5, 1), "fill temperature 10 °C is outside 0 to 5 °C"),
        (lambda: gas_energy(-1), "gas volume -1 m³"),
        (lambda: oven_energy(-1, 3), "idle power -1 kW"),
        (lambda: combination_oven_idle(1), "oven size 1 pans is outside 3 to 40 pans"),
        (lambda: Range(2, 1, 3), "low <= typical <= high"),
    ],
)
def test_impossible_input_is_refused(call: object, message: str) -> None:
    assert callable(call)
    with pytest.raises(ValueError, match=message):
        call()
