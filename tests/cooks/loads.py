"""Loads and hours reckoned one cook at a time, to hold the declared figures against."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, inf

from builder.cooking.ranges import require_within

WEEK_H = 168.0
# 12.0 kg / 2.4 kg comes out a hair under 5 in binary; a whole piece is not lost to that.
HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class Load:
    """One full load of one piece of equipment.

    holds_kg [kg] what fits in at once; piece_kg [kg] a raw piece; portions_per_piece, whole;
    cook_h [h] from cold start to out; turn_round_h [h] emptying, cleaning, refilling, heating.
    """

    holds_kg: float
    piece_kg: float
    portions_per_piece: int
    cook_h: float
    turn_round_h: float = 0.0

    def __post_init__(self) -> None:
        require_within("load", self.holds_kg, 0.1, 2000, "kg")
        require_within("piece", self.piece_kg, 0.01, 200, "kg")
        require_within("portions a piece", self.portions_per_piece, 0, 10000, "portions")
        require_within("cooking time", self.cook_h, 0.01, WEEK_H, "h")
        require_within("turn-round", self.turn_round_h, 0, WEEK_H, "h")

    @property
    def cycle_h(self) -> float:
        """Hours for which one load keeps the equipment [h]."""
        return self.cook_h + self.turn_round_h


def portions_a_load(load: Load) -> int:
    """Whole portions from a full load of whole pieces.

    Formula: floor(holds / piece) x portions a piece.
    Parameters: load, with holds [kg] and piece [kg].
    Returns: [portions], 0 when not even one piece fits.
    Valid range: as `Load`.
    Errors: ValueError outside the range, by `Load`.

    >>> portions_a_load(Load(12, 2.4, 9, 30))
    45
    """
    return floor(load.holds_kg / load.piece_kg + HAIR) * load.portions_per_piece


def loads_a_week(load: Load, *, open_h: float = WEEK_H, weekly_cleaning_h: float = 0.0) -> int:
    """Whole loads that one piece of equipment finishes in a week.

    Formula: floor((open - weekly cleaning) / (cook + turn-round)).
    Parameters: load; open_h [h] in which it may run, with nobody there too; weekly_cleaning_h [h].
    Returns: [loads a week].
    Valid range: open 0 to 168 h; cleaning 0 to open.
    Errors: ValueError outside the range, naming it and the unit.
    Departs from practice: a load may end at any hour; a kitchen that is staffed in the day
    only turns round fewer.

    >>> loads_a_week(Load(12, 2.4, 9, 30, 1.5), weekly_cleaning_h=3)
    5
    """
    require_within("hours open", open_h, 0, WEEK_H, "h")
    require_within("weekly cleaning", weekly_cleaning_h, 0, open_h, "h")
    return floor((open_h - weekly_cleaning_h) / load.cycle_h + HAIR)


def equipment_needed(portions_a_week: float, load: Load, loads: int) -> float:
    """Pieces of equipment of one kind that a week's forecast needs.

    Formula: ceil(forecast / (portions a load x loads a week)).
    Parameters: portions_a_week [portions]; load; loads [loads a week] of one piece of equipment.
    Returns: [1], whole; infinite when one makes no portion at all.
    Valid range: forecast 0 to 1e6 portions; loads 0 to 10000.
    Errors: ValueError outside the range, naming it and the unit.

    >>> equipment_needed(400, Load(12, 2.4, 9, 30, 1.5), 5)
    2.0
    """
    require_within("forecast", portions_a_week, 0, 1e6, "portions")
    require_within("loads a week", loads, 0, 10000, "loads")
    made = portions_a_load(load) * loads
    if not portions_a_week:
        return 0.0
    return float(ceil(portions_a_week / made - HAIR)) if made else inf


def margin_per_equipment_hour(load: Load, margin_a_portion: float) -> float:
    """Contribution margin earned in each hour for which a load keeps the equipment.

    Formula: portions a load x margin a portion / (cook + turn-round).
    Parameters: load; margin_a_portion [money], may be negative.
    Returns: [money/h].
    Valid range: margin -1e6 to 1e6.
    Errors: ValueError outside the range.

    >>> margin_per_equipment_hour(Load(12, 2.4, 9, 28, 2), 14.0)
    21.0
    """
    require_within("margin a portion", margin_a_portion, -1e6, 1e6, "money")
    return portions_a_load(load) * margin_a_portion / load.cycle_h
