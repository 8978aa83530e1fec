"""Equipment as the scarce thing: loads, portions, what a week's forecast takes, margin an hour.

Cooks of one temperature may share a bath at once; no figure here counts on it, because a
week's forecast does not say which cooks would be in the water together.
"""

from __future__ import annotations

from typing import Final

from builder.engine.arith import Column, either, known, least, most, or_else, whole, whole_up
from builder.engine.tables import Fold, formula
from builder.money import menu as _menu  # noqa: F401 - declares the weekly counts
from builder.money.kitchen import EQUIPMENT, KITCHEN, PROCESS
from builder.money.plates import PLATE
from builder.money.portions import PORTION
from builder.yields.chain import BATCH

PACKED: Final = (
    "loads put one by one where most hours are left: our bound, tried on loads by chance"
)

KITCHEN.given(
    "running_hours",
    "h",
    "Hours a week in which equipment may run, with nobody there too",
    168.0,
    "every hour of the week",
)
EQUIPMENT.link("kitchen", KITCHEN)
EQUIPMENT.given("how_many", "count", "How many of it there are, all alike", 1.0, "one")
EQUIPMENT.given("holds", "kg", "Raw weight that goes in at once")
EQUIPMENT.given("turn_round", "h", "Time between two loads", 0.0, "not stated")
EQUIPMENT.given("cleaning", "h", "Hours a week that cleaning keeps it idle", 0.0, "not stated")
EQUIPMENT.lookups("kitchen", KITCHEN, "running_hours")


@formula(EQUIPMENT, unit="h", source=PROCESS)
def available_hours(running_hours: Column, cleaning: Column) -> Column:
    """Hours of a week in which one of the equipment can cook."""
    return running_hours - cleaning


BATCH.lookups("equipment", EQUIPMENT, "holds", "turn_round", "available_hours", "how_many")
BATCH.given(
    "goes_in_by_number",
    "flag",
    "1 where the file says how many pieces lie side by side in a load",
    0.0,
    "it does not",
)


@formula(BATCH, unit="h", source=PROCESS)
def cycle_hours(cook_hours: Column, turn_round: Column) -> Column:
    """Hours for which one load keeps its equipment: the cook and the turn-round."""
    return cook_hours + turn_round


@formula(BATCH, unit="count", source=PROCESS)
def weekly_loads(available_hours: Column, cycle_hours: Column) -> Column:
    """Whole loads that one piece of equipment finishes in a week."""
    return whole(available_hours / cycle_hours)


@formula(BATCH, unit="count", source=PROCESS)
def pieces_at_once(goes_in_by_number: Column, pieces: Column) -> Column:
    """Pieces that lie side by side in a load; not known where a weight says what goes in."""
    return either(goes_in_by_number > 0, pieces, float("nan"))


@formula(BATCH, unit="count", source=PROCESS)
def pieces_a_load(pieces_at_once: Column, holds: Column, load: Column, pieces: Column) -> Column:
    """Whole pieces that one of the equipment holds at once; not known without a piece weight.

    No more than the cook's file puts in by number, whatever the equipment bears by weight.
    """
    return or_else(pieces_at_once, whole(holds / (load / pieces)))


@formula(BATCH, unit="factor", source=PROCESS)
def batches_a_load(holds: Column, load: Column) -> Column:
    """What one of the equipment holds at once, as a multiple of the batch, not yet whole pieces."""
    return holds / load


for _table in (PLATE, PORTION):
    _table.lookups(
        "batch", BATCH, "pieces_a_load", "batches_a_load", "weekly_loads", "cycle_hours", "how_many"
    )


@formula(PLATE, PORTION, unit="count", source=PROCESS)
def portions_a_load(
    pieces_a_load: Column,
    portions_per_piece: Column,
    batches_a_load: Column,
    portions_by_weight: Column,
) -> Column:
    """Whole portions from a full load of whole pieces; by weight without a piece weight."""
    return or_else(whole(pieces_a_load * portions_per_piece), batches_a_load * portions_by_weight)


@formula(PLATE, PORTION, unit="count down", source=PROCESS)
def portions_a_week(portions_a_load: Column, weekly_loads: Column, how_many: Column) -> Column:
    """Portions that all of the equipment gives in a week of this cook alone."""
    return portions_a_load * weekly_loads * how_many


@formula(PLATE, unit="money/h earned", source=PROCESS)
def margin_per_equipment_hour(
    portions_a_load: Column, contribution_margin: Column, cycle_hours: Column
) -> Column:
    """Contribution margin earned in each hour for which a load keeps the equipment."""
    return portions_a_load * contribution_margin / cycle_hours


@formula(PLATE, PORTION, unit="factor", source=PROCESS)
def loads_for_forecast(plates_to_make: Column, portions_a_load: Column) -> Column:
    """Full loads that a week of the plate takes, not yet whole; not known without a count."""
    return plates_to_make / portions_a_load


@formula(PLATE, PORTION, unit="factor", source=PROCESS)
def loads_counted(loads_for_forecast: Column) -> Column:
    """Full loads that a week of the plate takes, as far as known: nothing without a count."""
    return or_else(loads_for_forecast, 0.0)


BATCH.total(
    "loads_shared", PLATE, "loads_counted", "batch", "Loads that a week of all plates takes"
)
BATCH.total(
    "largest_loads",
    PLATE,
    "loads_for_forecast",
    "batch",
    "Loads that a week of the plate that takes most of them takes",
    fold=Fold.MOST,
)


BATCH.total("plates_of_cook", PLATE, "count_whole", "batch", "Plates of this cook", fold=Fold.COUNT)
BATCH.total(
    "further_loads",
    PORTION,
    "loads_counted",
    "batch",
    "Loads that a week of all plates takes on which it is a further portion",
)
BATCH.total(
    "largest_further_loads",
    PORTION,
    "loads_for_forecast",
    "batch",
    "Loads that a week of the one of these that takes most of them takes",
    fold=Fold.MOST,
)
BATCH.total(
    "further_portions",
    PORTION,
    "count_whole",
    "batch",
    "Plates on which it is a further portion",
    fold=Fold.COUNT,
)


@formula(BATCH, unit="count", source=PROCESS)
def loads_needed(
    loads_shared: Column,
    pieces: Column,
    largest_loads: Column,
    plates_of_cook: Column,
    further_loads: Column,
    largest_further_loads: Column,
    further_portions: Column,
) -> Column:
    """Whole loads a week of this cook; unrounded without a piece weight, not known without a count.

    The largest plate's loads are known where those of any plate are. A cook that no plate uses
    takes none.
    """
    loads = loads_shared + further_loads
    none = plates_of_cook + further_portions < 1
    return either(
        known(largest_loads) | known(largest_further_loads) | none,
        either(known(pieces), whole_up(loads), loads),
        largest_loads,
    )


@formula(BATCH, unit="h", source=PROCESS)
def booked_hours(loads_needed: Column, cycle_hours: Column) -> Column:
    """Hours of a week for which the plates counted keep the equipment."""
    return loads_needed * cycle_hours


@formula(BATCH, unit="h", source=PROCESS)
def hours_taken(loads_needed: Column, booked_hours: Column) -> Column:
    """Hours that a week of the cook adds: none without a load, else as booked."""
    return either(loads_needed > 0, booked_hours, 0.0)


@formula(BATCH, unit="h", source=PROCESS)
def cycle_counted(loads_needed: Column, cycle_hours: Column) -> Column:
    """Hours of one load of a cook of which a week has any; none else."""
    return either(loads_needed > 0, cycle_hours, 0.0)


@formula(BATCH, unit="factor", source=PROCESS)
def equipment_share(loads_needed: Column, weekly_loads: Column) -> Column:
    """Pieces of equipment that this cook takes, not yet whole: loads over loads a week."""
    return or_else(loads_needed / weekly_loads, 0.0)


EQUIPMENT.total(
    "hours_booked",
    BATCH,
    "hours_taken",
    "equipment",
    "Hours of a week that the plates counted take",
)
EQUIPMENT.total(
    "longest_cycle",
    BATCH,
    "cycle_counted",
    "equipment",
    "Hours of the longest load of a week",
    fold=Fold.MOST,
)
EQUIPMENT.total(
    "shares", BATCH, "equipment_share", "equipment", "Pieces of equipment taken, not yet whole"
)


@formula(EQUIPMENT, unit="share", source=PROCESS)
def use(hours_booked: Column, available_hours: Column, how_many: Column) -> Column:
    """Hours booked as a share of the hours in which all of it can cook."""
    return hours_booked / (available_hours * how_many)


@formula(EQUIPMENT, unit="count", source=PACKED)
def equipment_needed(
    shares: Column, hours_booked: Column, available_hours: Column, longest_cycle: Column
) -> Column:
    """Pieces of equipment of this kind that hold a week's loads: one if it has all hours booked.

    Shares count every cook by its own whole loads, which leaves out the hours that are over. Loads
    put one by one where most hours are left fit once all but the longest of them would fit in the
    hours that each piece has beside it.
    """
    longest = or_else(longest_cycle, 0.0)
    packed = whole_up((hours_booked - longest) / (available_hours - longest))
    by_share = whole_up(shares)
    return least(by_share, either(available_hours > longest, most(packed, 1.0), by_share))
