"""The heat of a cook as figures: what is written of it, and what physics and the rule set give.

The columns are entered by `heat_rows.py`; a margin is a formula that goes on from them.
"""

from __future__ import annotations

from builder.cooking.cooling import judge_cooling, largest_cooling_thickness
from builder.cooking.pieces import core_times
from builder.cooking.verdicts import judge
from builder.engine.arith import Column, most
from builder.engine.tables import Table, formula
from builder.language import Deferred
from builder.money import capacity as _capacity  # noqa: F401 - figures of that room come first
from builder.yields.chain import BATCH

COOLING = Table("cooling", "One stage of cooling a cook, in one way")
COOLING.link("batch", BATCH)

_RULE = Deferred("the rule set in use; arithmetic on its rows")
_ENDS = (
    ("fast", "h down", "fast end"),
    ("typical", "h near", "typically"),
    ("slow", "h up", "slow end"),
)
_PIECE = ("thickness", "thickness_spread", "shape_factor")

BATCH.given("cook_temperature", "°C", "Temperature of the bath or the oven")
BATCH.given("core_target", "°C", "Core temperature that the file aims at")
BATCH.given("start_temperature", "°C", "Core temperature of a piece as it goes into the cook")
BATCH.given("thickness", "mm", "Smallest dimension of a piece")
BATCH.given("thickness_spread", "share", "How far pieces of a batch differ in thickness")
BATCH.given("shape_factor", "factor", "0 for a slab, 1 for a long cylinder, 2 for a sphere")
BATCH.given("chill_to", "°C", "Core temperature that the file chills to")
BATCH.given("chill_within", "h", "Time that the file gives the chilling")

_WARMING = ("cook_temperature", "start_temperature", *_PIECE)
_COOLED = ("cook_temperature", "core_target", *_PIECE)

BATCH.applied(
    "asked_core",
    "°C",
    "Core temperature that the clause asks for",
    judge,
    *("cook_hours", "core_target", *_WARMING),
)
BATCH.applied(
    "asked_hold",
    "h",
    "Time at that temperature or above that the clause asks for",
    judge,
    *("cook_hours", "core_target", *_WARMING),
)
BATCH.applied(
    "core_counted",
    "°C",
    "Core temperature that the times to the core count for: what the clause asks for, else what "
    "the file aims at, else half a degree Celsius short of the bath",
    judge,
    *("asked_core", "core_target", "cook_temperature"),
)
for _end, _unit, _words in _ENDS:
    BATCH.applied(
        f"time_to_core_{_end}",
        _unit,
        f"Time from the start until the core is at the temperature counted, {_words}",
        core_times,
        *("core_counted", *_WARMING),
        limit="cook_hours",
    )
BATCH.applied(
    "come_up_allowed",
    "h",
    "Time that the clause gives the core to come up; without one, the caution's 6 h",
    judge,
)
BATCH.applied(
    "come_up",
    "h up",
    "Time that the core takes up through the clause's temperatures, or from 10 to 54.4 °C where "
    "the rule set has no clause, slow end",
    core_times,
    *_WARMING,
    limit="come_up_allowed",
)
for _end, _unit, _words in _ENDS:
    BATCH.applied(
        f"chilled_{_end}",
        _unit,
        f"Time until the core is as cold as the file chills it, {_words}",
        core_times,
        *("chill_to", *_COOLED),
    )


@formula(BATCH, unit="h down", source=_RULE, limit="asked_hold")
def hold_fast(cook_hours: Column, time_to_core_fast: Column) -> Column:
    """Time that the core is held at the temperature counted, where it comes up fast."""
    return most(cook_hours - time_to_core_fast, 0.0)


@formula(BATCH, unit="h near", source=_RULE, limit="asked_hold")
def hold_typical(cook_hours: Column, time_to_core_typical: Column) -> Column:
    """Time that the core is held at the temperature counted, typically."""
    return most(cook_hours - time_to_core_typical, 0.0)


@formula(BATCH, unit="h down", source=_RULE, limit="asked_hold")
def hold_slow(cook_hours: Column, time_to_core_slow: Column) -> Column:
    """Time that the core is held at the temperature counted, slow end: what the verdict counts."""
    return most(cook_hours - time_to_core_slow, 0.0)


@formula(BATCH, unit="h down", source=_RULE)
def hold_margin(cook_hours: Column, time_to_core_slow: Column, asked_hold: Column) -> Column:
    """Time to spare beside the clause, slow end; below zero where the cook is too short."""
    return cook_hours - time_to_core_slow - asked_hold


COOLING.lookups("batch", BATCH, *_COOLED)
COOLING.applied("around_temperature", "°C", "Temperature of what cools", judge_cooling)
COOLING.applied("stage_from", "°C", "Core temperature that the stage begins at", judge_cooling)
COOLING.applied("stage_to", "°C", "Core temperature that the stage ends at", judge_cooling)
COOLING.applied("stage_allowed", "h", "Time that the clause gives the stage", judge_cooling)
for _end, _unit, _words in _ENDS:
    COOLING.applied(
        f"cooling_{_end}",
        _unit,
        f"Time that the core takes through the stage, {_words}",
        judge_cooling,
        *("around_temperature", "stage_from", "stage_to", *_COOLED),
        limit="stage_allowed" if _end == "slow" else "",
    )
COOLING.applied(
    "thickest",
    "mm down",
    "Thickest piece of this shape that keeps every stage",
    largest_cooling_thickness,
    *("around_temperature", "shape_factor", "thickness_spread", "core_target", "cook_temperature"),
)
