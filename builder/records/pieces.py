"""Thickness, weight and time of a piece against each other, and a load against its tests."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import median

from builder.language import tr
from builder.problems import Problem
from builder.quantities import convert
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cook
from builder.records.plans import MODELLED, Piece
from builder.records.sizes import Counted
from builder.records.slips import other_scale, slip
from builder.records.ways import BATH
from builder.records.written import Doubted, Value, far, is_far, warning

# Meat of all kinds weighs about this much [kg/m3], and heat spreads in it about so fast [m2/h]
# (0.14 mm2/s). Handbook values, from memory.
DENSITY, DIFFUSIVITY = 1060.0, 0.14e-6 * 3600
# The smallest dimension of a piece against the edge of a cube of the same weight: 1.08 for the
# shortest cylinder, 1.24 for a sphere, 0.15 for 20 mm steaks in a bag of 2 kg. Nothing below
# the third is cooked for an hour, nothing below the fourth at all, and no ball is as flat as the
# last.
ANGULAR, THICKEST, THINNEST, SHEET, BALL = 1.2, 1.4, 0.09, 0.06, 0.6
LONG_H = 1.0
# The time of a cook against the square of half the thickness (the Fourier number): a core has
# hardly begun to warm below the first, and nobody waits for more than the second. Common
# practice, no published source.
UNWARMED, ENDLESS = 0.15, 500.0
# Taken out of a bath before that, a slab's core is a quarter of the way below the bath; whoever
# means that says which core is wanted. From the series for a slab (1.27 exp(-2.47 Fo)).
HALF_WARMED = 0.6
LOAD = 6.0
# A test of a single piece says nothing of the load; pieces differ by so many times. Common
# practice, no published source.
ONE = 1.5
# A joint in the dry heat of an oven, from so much on [kg], is so thick at the least against the
# edge of its cube. Common practice, no published source.
JOINT, FLAT = 0.7, 0.35
# As a cube of its weight a piece is through after so long (the Fourier number) that nobody leaves
# it longer in the dry heat of an oven; 1.2 for a brisket of 5 kg in 16 h, 2.1 for an hour and a
# half of chicken wings. Common practice, no published source.
DRIED = 4.0
# Meat freezes a little below nothing, and a freezer holds it far below: what lies between is of
# neither [degrees Celsius]. Common practice, no published source.
FREEZING, FREEZER, CHILLED = -4.0, -12.0, 8.0


def check_pieces(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of a thickness, a weight, a time or a load that the cook's other figures belie."""
    for cook in content.cooks.values():
        if cook.piece is not None and cook.piece.thickness is not None:
            yield from _check_piece(cook, cook.piece, reported)
        elif cook.piece is not None:
            yield from _check_joint(cook, cook.piece, reported)
        yield from _check_start(content, cook)
        weighed = [test.in_.value for test in cook.tests if test.in_.place not in reported]
        if cook.load is not None and weighed and _goes_in(content, cook, cook.load):
            yield from _check_load(cook, cook.load, median(weighed), reported)


def _check_start(content: Content, cook: Cook) -> Iterator[Problem]:
    """A start between a cold room and a freezer, or frozen in a scale that nothing else is in."""
    start = cook.piece.starts_at if cook.piece else None
    if start is None or start.value >= FREEZING:
        return
    scales = [heat.text[-1] for each in content.cooks.values() if (heat := each.at)]
    alone = bool(scales) and start.text[-1] not in scales
    if start.value > FREEZER or alone:
        value = Value("cooks.piece.starts at", start, cook, cook.path)
        message = (
            tr("{start} is neither chilled nor as cold as a freezer", start=start.text)
            if start.value > FREEZER
            else tr(
                "{start} is frozen, and no other temperature of a cook is in this scale",
                start=start.text,
            )
        )
        yield from warning(value, message, other_scale(start, FREEZING, CHILLED))


def _goes_in(content: Content, cook: Cook, load: Measure) -> bool:
    """Whether a load is no more than its equipment holds, which is an error of its own."""
    gear = content.kitchen.equipment.get(cook.equipment) if cook.equipment else None
    return gear is None or gear.holds is None or load.value <= gear.holds.value


def _check_load(cook: Cook, load: Measure, tested: float, reported: Doubted) -> Iterator[Problem]:
    """The load against its tests; of a number of pieces it is the weight of one."""
    one = cook.piece.weight if cook.piece else None
    if one and not is_far(tested, one.value, ONE) and one.place not in reported:
        return
    if not isinstance(load, Counted) or one is None:
        value = Value("cooks.load", load, cook, cook.path)
        yield from far(value, tested, LOAD, tr("the weights of its tests"))
    elif one.value > 0 and load.value > 0 and one.place not in reported:
        value = Value("cooks.piece.weight", one, cook, cook.path)
        each = tested * one.value / load.value
        yield from far(value, each, LOAD, tr("its tests, each of {counted}", counted=load.counted))


def _check_piece(cook: Cook, piece: Piece, reported: Doubted) -> Iterator[Problem]:
    thickness, weight, time = piece.thickness, piece.weight, cook.for_
    if thickness is None or thickness.value <= 0 or thickness.place in reported:
        return
    across = convert(thickness.value, "m")
    if weight is not None and weight.value > 0 and weight.place not in reported:
        found = list(_against_weight(cook, piece, thickness, weight))
        yield from found
        if found:
            return
    if time is not None and time.place not in reported and cook.how in MODELLED:
        number = time.value * DIFFUSIVITY / (across / 2) ** 2
        yield from _against_time(cook, thickness, time, number)


def _check_joint(cook: Cook, piece: Piece, reported: Doubted) -> Iterator[Problem]:
    """The time of a joint whose thickness nobody measured."""
    weight, time = piece.weight, cook.for_
    if weight is None or time is None or {weight.place, time.place} & reported:
        return
    if weight.value >= JOINT and {"oven", "braise", "roast"} & set(cook.how.lower().split()):
        thick = FLAT * (weight.value / DENSITY) ** (1 / 3)
        if 0 < time.value * DIFFUSIVITY / (thick / 2) ** 2 < UNWARMED:
            value = Value("cooks.for", time, cook, cook.path)
            message = tr(
                "{time} hardly begins to warm a piece of {weight}",
                time=time.text,
                weight=weight.text,
            )
            yield from warning(value, message, slip(time, 60.0) if "min" in time.text else "")
    edge = (max(weight.value, 0.0) / DENSITY) ** (1 / 3)
    dry = {"oven", "roast", "smoke"} & set(cook.how.lower().split())
    if dry and edge > 0 and time.value * DIFFUSIVITY / (edge / 2) ** 2 > DRIED:
        value = Value("cooks.piece.weight", weight, cook, cook.path)
        message = tr(
            "{time} in dry heat is very long for a piece of {weight}",
            time=time.text,
            weight=weight.text,
        )
        yield from warning(value, message, slip(weight, 10.0))


def _against_weight(
    cook: Cook, piece: Piece, thickness: Measure, weight: Measure
) -> Iterator[Problem]:
    """The thickness against the edge of a cube of the piece's weight.

    A decimal point moves a thickness by ten, and the edge by 2.15 only: five times the edge is a
    slip of the thickness.
    """
    ratio = convert(thickness.value, "m") / (weight.value / DENSITY) ** (1 / 3)
    flat = piece.shape_factor is None
    thickest = ANGULAR if piece.shape in {"slab", "block", "cylinder"} else THICKEST
    is_long = cook.for_ is not None and cook.for_.value >= LONG_H
    thinnest = BALL if piece.shape == "sphere" else THINNEST if is_long else SHEET
    if thickest < ratio < 5:
        value, factor = Value("cooks.piece.weight", weight, cook, cook.path), 10.0
        message = tr(
            "a piece of {weight} can't be {thickness} thick",
            weight=weight.text,
            thickness=thickness.text,
        )
    elif ratio > thickest or (flat and ratio < thinnest):
        value = Value("cooks.piece.thickness", thickness, cook, cook.path)
        message = tr(
            "{thickness} is out of proportion to a piece of {weight}",
            thickness=thickness.text,
            weight=weight.text,
        )
        factor = 0.1 if ratio > 1 else 10.0
    else:
        return
    yield from warning(value, message, slip(value.measure, factor))


def _against_time(
    cook: Cook, thickness: Measure, time: Measure, number: float
) -> Iterator[Problem]:
    """The Fourier number of the cook."""
    if 0 < number < UNWARMED:
        value = Value("cooks.for", time, cook, cook.path)
        message = tr(
            "{time} hardly begins to warm a piece of {thickness}",
            time=time.text,
            thickness=thickness.text,
        )
        yield from warning(value, message, slip(time, 60.0) if "min" in time.text else "")
    elif number < HALF_WARMED and cook.how == BATH and cook.core is None and _is_slab(cook):
        value = Value("cooks.for", time, cook, cook.path)
        message = tr(
            "{time} is short for a piece of {thickness}: its core stays far below the bath",
            time=time.text,
            thickness=thickness.text,
        )
        yield from warning(value, message, slip(time, 60.0) if "min" in time.text else "")
    elif number > ENDLESS:
        value = Value("cooks.piece.thickness", thickness, cook, cook.path)
        message = tr(
            "{time} is very long for a piece of {thickness}",
            time=time.text,
            thickness=thickness.text,
        )
        yield from warning(value, message, slip(thickness, 10.0))


def _is_slab(cook: Cook) -> bool:
    return cook.piece is not None and cook.piece.shape in {None, "slab"}
