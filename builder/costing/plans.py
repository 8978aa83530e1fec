"""From a cook's record to what physics and rules ask about: surroundings, piece, food."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.cooking.foods import Cut as RuleCut
from builder.cooking.foods import Food, Form, Species
from builder.cooking.heating import SHAPES
from builder.cooking.pieces import (
    BLAST_CHILLER,
    COLD_ROOM,
    ICE_BATH,
    SIMMERING_LIQUID,
    STEAM_OVEN,
    WATER_BATH,
    CoreEstimate,
    Medium,
    Piece,
)
from builder.cooking.verdicts import CookPlan
from builder.language import Deferred, tr
from builder.records.kinds import Cook, Cut

# The factor that, above 30 mm, gives the published pasteurisation table [secondary].
BLOCK_FACTOR = 0.28
START_C = 5.0
SHORT_OF_THE_BATH_K = 0.5
# No core is hotter than this when an oven or a braise is done [our rule].
HOTTEST_CORE_C = 95.0
_HOTTEST_MEDIUM_C = 110.0
_LONGEST_MIN = 7 * 24 * 60.0

HOT_MEDIA: Mapping[str, Medium] = {
    "water bath": WATER_BATH,
    "steam oven": STEAM_OVEN,
    "steam": STEAM_OVEN,
    "simmering liquid": SIMMERING_LIQUID,
    "simmer": SIMMERING_LIQUID,
    "poach": SIMMERING_LIQUID,
}
COLD_MEDIA: Mapping[str, tuple[Medium, float]] = {
    Deferred("ice bath"): (ICE_BATH, 1.0),
    Deferred("blast chiller"): (BLAST_CHILLER, 0.0),
    Deferred("cold room"): (COLD_ROOM, 2.0),
}
"""What cools, and how cold it is [°C]: common practice, no published source."""


def piece_of(cook: Cook, start_c: float | None = None) -> Piece | None:
    """The piece as the model sees it, at its own start or another; None without a thickness."""
    piece = cook.piece
    if piece is None or piece.thickness is None:
        return None
    written = piece.starts_at.value if piece.starts_at else START_C
    return Piece(
        thickness_mm=piece.thickness.value,
        shape_factor=shape_factor(cook),
        start_c=written if start_c is None else start_c,
        thickness_share=piece.spread.value if piece.spread else 0.0,
    )


def shape_factor(cook: Cook) -> float:
    """0 slab, 1 long cylinder, 2 sphere; a block lies near the slab; a slab where none is said."""
    piece = cook.piece
    if piece is None or (piece.shape is None and piece.shape_factor is None):
        return 0.0
    if piece.shape_factor is not None:
        return piece.shape_factor.value
    return SHAPES.get(str(piece.shape), BLOCK_FACTOR)


def heating_of(cook: Cook) -> CoreEstimate | None:
    """The core's model; None where the way of cooking or the piece is not one that is modelled."""
    medium, piece = HOT_MEDIA.get(str(cook.how).lower()), piece_of(cook)
    if medium is None or piece is None or cook.at is None:
        return None
    if cook.at.value > _HOTTEST_MEDIUM_C or cook.at.value <= piece.start_c:
        return None
    return CoreEstimate(piece, medium, cook.at.value)


def core_at_the_end(cook: Cook) -> float:
    """The core [°C] that cooling starts from: as aimed at, else what is around the piece."""
    if cook.core is not None:
        return cook.core.value
    return min(cook.at.value if cook.at else HOTTEST_CORE_C, HOTTEST_CORE_C)


def nearly_there_c(cook: Cook, heating: CoreEstimate) -> float:
    """The core [°C] that a page looks at where no rule names one: as aimed at, or near the bath."""
    if cook.core is not None and cook.core.value < heating.medium_c:
        return cook.core.value
    return max(heating.medium_c - SHORT_OF_THE_BATH_K, heating.piece.start_c)


def cooling_of(cook: Cook, where: str) -> CoreEstimate | None:
    """The model of a cook that cools from its end; None without a thickness, or nothing to cool."""
    medium, around_c = COLD_MEDIA[where]
    piece = piece_of(cook, core_at_the_end(cook))
    if piece is None or piece.start_c <= around_c:
        return None
    return CoreEstimate(piece, medium, around_c)


def moist(cook: Cook) -> bool:
    """Whether the piece is in a sealed bag or in damp air: as written, else a bath's bag."""
    bagged = str(cook.how).lower() == "water bath"
    return bagged if cook.sealed is None else cook.sealed


def unstated(cook: Cook, cut: Cut, *, by_food: bool = True) -> str:
    """What a rule would have to know and the files do not say, in words; empty when all is said.

    `by_food` tells whether the rule set asks what was done to the piece; how the rules name
    it is left out here.
    """
    if cut.species == "other":
        return tr("the species of the cut is one that the rules do not name")
    if by_food and not cook.form:
        return tr("the file does not say what was done to the piece (form: intact, ground ...)")
    return (
        "" if cook.for_ else tr("the file does not say how long it cooks (for example for: 30 h)")
    )


def possible_foods(cook: Cook, cut: Cut) -> Iterator[Food]:
    """Every food that the piece may be to the rules, where the file leaves it open."""
    if cut.species == "other":
        return
    stated = frozenset(Form(str(form)) for form in cook.form or ())
    kinds = (RuleCut(str(cook.counts_as)),) if cook.counts_as else tuple(RuleCut)
    for forms in (stated,) if stated else (frozenset({form}) for form in Form):
        for kind in kinds:
            yield Food(Species(str(cut.species)), forms, kind, bool(cook.seared))


def missing_keys(cook: Cook, *, by_food: bool) -> tuple[str, ...]:
    """The keys that a verdict waits for, each with what may be written.

    `by_food` tells whether the rule set asks what the piece is.
    """
    piece = cook.piece.thickness if cook.piece else None
    modelled = str(cook.how).lower() in HOT_MEDIA
    keys = (
        (
            tr("form: (one or several of intact, ground, injected, tenderised, stuffed)"),
            cook.form or not by_food,
        ),
        (tr("counts as: (roast, steak or other)"), cook.counts_as or not by_food),
        (tr("for: (how long it cooks)"), cook.for_),
        (tr("at: (how hot the bath or oven is)"), cook.at or not modelled),
        (f"piece: {{thickness: ({tr('its smallest dimension')})}}", piece or not modelled),
    )
    return tuple(key for key, written in keys if not written)


def modelled(cook: Cook) -> bool:
    """Whether there is a model for this way of cooking, at this temperature."""
    hottest = cook.at is None or cook.at.value <= _HOTTEST_MEDIUM_C
    return str(cook.how).lower() in HOT_MEDIA and hottest


def unmodelled(cook: Cook) -> str:
    """Why the core of a cook has no model, in words, where it has none."""
    if str(cook.how).lower() in HOT_MEDIA:
        if cook.at is None:
            return tr("the file does not say how hot it cooks (for example at: 57 °C)")
        if cook.piece is None or cook.piece.thickness is None:
            return tr(
                "the file does not say how thick a piece is (for example piece: {thickness: 60 mm})"
            )
        if cook.at.value > _HOTTEST_MEDIUM_C:
            return tr("the core is not modelled in steam above 110 °C")
    return tr("the core is not modelled for this way of cooking")


def plan_of(cook: Cook, cut: Cut) -> CookPlan:
    """The cook as the rules see it; what is not stated is taken as beef and intact.

    An unstated plan is never judged by that (see `unstated`), only by the limits that
    forbid. Ovens above 110 °C stand at 110: no rule tells them apart.
    """
    at = cook.at.value if cook.at else _HOTTEST_MEDIUM_C
    minutes = cook.for_.value * 60 if cook.for_ else 1.0
    return CookPlan(
        food=_food(cook, cut),
        medium_c=min(max(at, 30.0), _HOTTEST_MEDIUM_C),
        time_min=min(max(minutes, 1.0), _LONGEST_MIN),
        moist=moist(cook),
        unmodelled=unmodelled(cook),
        core_c=cook.core.value if cook.core else None,
    )


def _food(cook: Cook, cut: Cut) -> Food:
    species = Species.BEEF if cut.species == "other" else Species(str(cut.species))
    forms = frozenset(Form(str(form)) for form in cook.form or ("intact",))
    kind = RuleCut(str(cook.counts_as)) if cook.counts_as else RuleCut.OTHER
    return Food(species, forms, kind, bool(cook.seared))
