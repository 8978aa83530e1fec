"""What one of a thing weighs, against what is served of it and the pieces that are cooked."""

from __future__ import annotations

import math
from collections.abc import Iterator
from statistics import median

from builder.data import plausible_ranges
from builder.language import tr
from builder.problems import Problem
from builder.quantities import Dimension
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cook, Cut
from builder.records.slips import slip
from builder.records.written import Doubted, Value, rounded, warning

# One that is bought weighs so many times a piece of it that is cooked: a joint is cut into a
# few. A bag of several pieces may count as one. Common practice, no published source.
PIECES = 8.0
# So many of one thing on one plate are counted out; fewer weigh too much each.
SEVERAL = 3.0
# What is cooked for one plate weighs so many times as raw, bones and all, at the most what it
# does once it is served. Common practice, no published source.
RAW = 2.0
# What is served as it is bought, shell and all, weighs no more than this on one plate [kg]: a
# platter of two dozen oysters. Common practice, no published source.
IN_SHELL = 3.0
# A steak, cooked one by one, of so much at the most [kg] is for one plate or for two: the part of
# a portion that may be left or lack. Common practice, no published source.
STEAK, LEFT, TWO = 0.6, 0.25, 2.0
ONE_BY_ONE = frozenset(("grill", "pan"))


def check_helpings(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of a weight of one, or of a number on a plate, that no plate bears."""
    for cut in content.cuts.values():
        yield from _pieces(content, cut, reported)
    yield from _sides(content, reported)
    yield from _served(content, reported)
    yield from _uncooked(content, reported)
    yield from _steaks(content, reported)


def _served(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Pieces on a plate by the weight of one as it goes into the cook."""
    most = RAW * max(r.high for r in plausible_ranges()["plates.portion"] if r.unit == "kg")
    doubted: set[str] = set()
    for plate in content.plates.values():
        for portion in plate.served:
            cook = content.cooks.get(str(portion.cook)) if portion.pieces else None
            weight = cook.piece.weight if cook and cook.piece else None
            if cook is None or weight is None or portion.pieces is None or cook.id in doubted:
                continue
            if {weight.place, portion.pieces.place} & reported:
                continue
            if portion.pieces.value * weight.value > most:
                doubted.add(cook.id)
                value = Value("cooks.piece.weight", weight, cook, cook.path)
                served = tr(
                    "{pieces} of {weight} each", pieces=portion.pieces.text, weight=weight.text
                )
                message = tr(
                    "{plate}: {served}, which is much for one plate",
                    plate=plate.title,
                    served=served,
                )
                yield from warning(value, message, slip(weight, 0.1))


def _uncooked(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Pieces on a plate by the weight of one as it is bought, where nothing cooks it."""
    doubted: set[str] = set()
    for plate in content.plates.values():
        for portion in plate.served:
            cut, number = content.cuts.get(str(portion.cut)), portion.pieces
            if cut is None or cut.each is None or number is None or cut.id in doubted:
                continue
            if {
                cut.each.place,
                number.place,
            } & reported or number.value * cut.each.value <= IN_SHELL:
                continue
            doubted.add(cut.id)
            value = Value("cuts.each", cut.each, cut, cut.path)
            message = tr(
                "{plate}: {served}, which is much for one plate",
                plate=plate.title,
                served=tr("{pieces} of {weight} each", pieces=number.text, weight=cut.each.text),
            )
            yield from warning(value, message, slip(cut.each, 0.1))


def _steaks(content: Content, reported: Doubted) -> Iterator[Problem]:
    """A steak that is neither one portion nor two, which leaves part of one."""
    for plate in content.plates.values():
        for portion in plate.served if len(plate.served) == 1 else ():
            cook = content.cooks.get(str(portion.cook))
            weight = cook.piece.weight if cook and cook.piece else None
            if cook is None or weight is None or not _is_weighed(portion.portion):
                continue
            if {weight.place, portion.portion.place} & reported or not _is_steak(cook, weight):
                continue
            number = _kept(cook) * weight.value / portion.portion.value
            if 1 + LEFT < number < TWO - LEFT or number > TWO + LEFT / 2:
                value = Value("plates.portion", portion.portion, plate, plate.path)
                message = tr(
                    "a steak of {weight} raw gives {number} portions of {portion}",
                    weight=weight.text,
                    number=rounded(number, 2),
                    portion=portion.portion.text,
                )
                yield from warning(value, message, tr("one of them may be a slip"))


def _is_weighed(portion: Measure) -> bool:
    return portion.dimension is Dimension.MASS and portion.value > 0


def _is_steak(cook: Cook, weight: Measure) -> bool:
    """Whether each piece goes on the fire by itself, and none of it is carved away."""
    one_by_one = ONE_BY_ONE & set(cook.how.lower().replace(",", " ").split()[:1])
    return (
        bool(one_by_one)
        and str(cook.counts_as) == "steak"
        and weight.value <= STEAK
        and cook.carve is None
        and cook.portion_cut is None
    )


def _kept(cook: Cook) -> float:
    """Which part of a piece's weight is left of it once it is cooked; NaN where nothing says."""
    stated = cook.stated_yield
    tested = [test.out.value / test.in_.value for test in cook.tests if test.in_.value > 0]
    return stated if stated is not None else median(tested) if tested else math.nan


def _pieces(content: Content, cut: Cut, reported: Doubted) -> Iterator[Problem]:
    """The weight of one that is cooked as it is bought, against the pieces of its cooks."""
    each = cut.each
    pieces = [
        cook.piece.weight
        for cook in content.cooks.values()
        if cook.cut == cut.id and cook.piece and cook.piece.weight and cook.portion_cut is None
    ]
    sound = [piece for piece in pieces if piece.value > 0 and piece.place not in reported]
    if each is None or each.place in reported or cut.portion_cut is not None or not sound:
        return
    heaviest = max(sound, key=lambda piece: piece.value)
    if each.value > PIECES * heaviest.value:
        value = Value("cuts.each", each, cut, cut.path)
        message = tr(
            "{each} each, and no piece that is cooked weighs more than {heaviest}",
            each=each.text,
            heaviest=heaviest.text,
        )
        yield from warning(value, message, slip(each, heaviest.value / each.value))


def _sides(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Things on a plate that are counted, by their weight."""
    most = max(limits.high for limits in plausible_ranges()["plates.with"] if limits.unit == "kg")
    for plate in content.plates.values():
        for name, amount in plate.with_.items():
            item = content.pantry.get(name)
            if item is None or item.each is None or amount.dimension is not Dimension.COUNT:
                continue
            weight = amount.value * item.each.value
            if weight <= most or {amount.place, item.each.place} & reported:
                continue
            if amount.value > SEVERAL:
                value = Value("plates.with", amount, plate, plate.path, item=str(name))
                hint = ""
            else:
                value = Value("pantry.each", item.each, item, item.path)
                hint = slip(item.each, 0.1 * most / item.each.value)
            message = tr(
                "{amount} of {item} at {each} is much for one plate",
                amount=amount.text,
                item=item.title,
                each=item.each.text,
            )
            yield from warning(value, message, hint)
