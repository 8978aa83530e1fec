"""What is written by a number where a weight counts, brought to it once all records are read.

A load or a weighing of `6 pieces` takes the weight of a piece from its own file; a portion of
`3 slices` takes what a slice is from its cook, or from its cut where nothing cooks it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.language import tr
from builder.problems import Problem
from builder.quantities import Dimension
from builder.records.fields import Measure
from builder.records.kinds import Cook, Cut
from builder.records.own_words import is_named
from builder.records.plates import Plate, Portion, pieces_of
from builder.records.sizes import Counted, is_sliced
from builder.records.stage_order import stages_of
from builder.records.stages import WeighingTest


def settle_counts(
    cuts: Mapping[str, Cut], cooks: Mapping[str, Cook], plates: Mapping[str, Plate]
) -> list[Problem]:
    """Weigh what was counted; what can't be is left out, and said."""
    problems: list[Problem] = []
    owners: list[Cut | Cook] = [*cuts.values(), *cooks.values()]
    for owner in owners:
        problems += _check_slices(owner)
        problems += _weigh(owner)
    for plate in plates.values():
        problems += _settle_portions(plate, cuts, cooks)
    return problems


def weight_of_one(source: Cut | Cook) -> Measure | None:
    """What one piece weighs as it is bought, or as it goes into the cook."""
    if isinstance(source, Cut):
        return source.each
    return source.piece.weight if source.piece else None


def says_no_weight(source: Cut | Cook) -> bool:
    """Whether no weight of one is written; not where it is and can't be read."""
    keys = {"each"} if isinstance(source, Cut) else {"piece", "piece.*"}
    return weight_of_one(source) is None and not keys & source.unread


def weight_hint(source: Cut | Cook) -> str:
    """Where and how the weight of one is written."""
    if isinstance(source, Cut):
        return tr("write what one weighs in {file}, such as each: 90 g", file=source.file)
    return tr("write its raw weight in {file}, such as piece: {{weight: 250 g}}", file=source.file)


def _weigh(owner: Cut | Cook) -> Iterator[Problem]:
    """Weigh the load and the tests; whole pieces go into a cut's first stage and into the cook."""
    if isinstance(owner, Cook) and isinstance(owner.load, Counted):
        yield from _no_weight(owner, owner.load)
        one = weight_of_one(owner)
        owner.__dict__["load"] = owner.load.weighing(one) if one else None
        owner.__dict__["unread"] = owner.unread | ({"load"} if one is None else set())
    whole = "cook" if isinstance(owner, Cook) else next((n for n, _ in stages_of(owner)), "")
    for name, stage in stages_of(owner):
        for test in [test for test in stage.tests if isinstance(test.in_, Counted)]:
            yield from _weigh_test(owner, stage.tests, test, name == whole)


def _weigh_test(
    owner: Cut | Cook, tests: list[WeighingTest], test: WeighingTest, whole: bool
) -> Iterator[Problem]:
    one, counted, at = weight_of_one(owner), test.in_, tests.index(test)
    if isinstance(counted, Counted) and one is not None and whole:
        tests[at] = test.model_copy(update={"in_": counted.weighing(one)})
        return
    del tests[at]
    owner.__dict__["unread"] = owner.unread | {"tests"}
    if isinstance(counted, Counted) and whole:
        yield from _no_weight(owner, counted)
    else:
        hint = tr("write what went in as a weight")
        yield Problem(counted.place, tr("no whole pieces go into this stage"), hint)


def _no_weight(owner: Cut | Cook, counted: Counted) -> Iterator[Problem]:
    if says_no_weight(owner):
        message = tr("{counted} has no weight behind it", counted=counted.counted)
        yield Problem(counted.place, message, weight_hint(owner))


def _check_slices(source: Cut | Cook) -> Iterator[Problem]:
    """Slices of nothing, and one that weighs more than the piece it is cut from."""
    slices, one = source.slices, weight_of_one(source)
    if slices is None:
        return
    if slices.value <= 0:
        yield Problem(slices.place, tr("a slice is more than nothing"), tr("such as slices: 28 g"))
    elif slices.dimension is Dimension.COUNT and says_no_weight(source):
        message = tr("what gives {slices} slices has no weight", slices=slices.text)
        yield Problem(slices.place, message, weight_hint(source))
    elif slices.dimension is Dimension.MASS and one and slices.value > one.value:
        message = tr(
            "a slice of {slices} is heavier than the piece of {one}",
            slices=slices.text,
            one=one.text,
        )
        yield Problem(
            slices.place, message, tr("write what one slice weighs, or how many there are")
        )


def _settle_portions(
    plate: Plate, cuts: Mapping[str, Cut], cooks: Mapping[str, Cook]
) -> Iterator[Problem]:
    """Bring the slices of a plate to a weight or to a share of a piece, the others to pieces."""
    if not any(isinstance(portion.portion, Counted) for portion in plate.served):
        return
    kept: list[Portion] = []
    for portion in plate.served:
        source = cooks.get(str(portion.cook)) if portion.cook else cuts.get(str(portion.cut))
        size: Measure | None = portion.portion
        if isinstance(size, Counted):
            yield from _misnamed(source, size)
            yield from _no_slices(source, size)
            size = _settled(source, size)
        if size is not None:
            kept.append(portion.model_copy(update={"portion": size}))
    yield from _weighed_by_the_piece(plate, kept)
    _put(plate, kept)


def _settled(source: Cut | Cook | None, size: Counted) -> Counted | None:
    """The size of a portion; None where it is of slices that nobody knows the size of."""
    if not is_sliced(size):
        return size
    slices = source.slices if source else None
    if slices is None or slices.value <= 0:
        return None
    weighs = slices.dimension is Dimension.MASS
    return size.weighing(slices) if weighs else size.out_of(slices.value)


def _no_slices(source: Cut | Cook | None, size: Counted) -> Iterator[Problem]:
    if source and is_sliced(size) and source.slices is None and "slices" not in source.unread:
        message = tr(
            "{size} of {source}: what a slice weighs is not known",
            size=size.text,
            source=source.title,
        )
        hint = tr(
            "write one's weight, or how many a piece gives, in {file} as slices:", file=source.file
        )
        yield Problem(size.place, message, hint)


def _misnamed(source: Cut | Cook | None, size: Counted) -> Iterator[Problem]:
    """A word that is another cook's, not this one's."""
    if source is None or is_sliced(size) or "piece" in source.unread:
        return
    named = source.piece.name if isinstance(source, Cook) and source.piece else None
    if named is None or not is_named(size.word, named):
        number = size.counted.removesuffix(size.word).strip()
        called = (
            tr("is called {named}", named=named)
            if named
            else tr("is not called {word}", word=size.word)
        )
        hint = tr(
            "write {number} {piece}",
            number=number,
            piece="piece" if size.value <= 1 else "pieces",
        )
        yield Problem(
            size.place, tr("a piece of {source} {called}", source=source.title, called=called), hint
        )


def _weighed_by_the_piece(plate: Plate, kept: list[Portion]) -> Iterator[Problem]:
    """Weights beside a main portion that slices make a share of a piece."""
    main = kept[0].portion if kept else None
    given = plate.give_or_take.portion if plate.give_or_take else None
    weighed = next(iter((*plate.weighed_portions, *([given] if given else ()))), None)
    settled = isinstance(main, Counted) and not main.unsettled
    if main is not None and weighed is not None and settled and pieces_of(main):
        message = tr("a portion of {main} weighs what they weigh", main=main.text)
        hint = tr("write what a slice weighs, such as slices: 28 g, or take this out")
        yield Problem(weighed.place, message, hint)


def _put(plate: Plate, kept: list[Portion]) -> None:
    first = kept[0] if kept else None
    names = ("cook", "cut", "portion")
    if len(kept) < len(plate.served):
        plate.__dict__["unread"] = plate.unread | {*names, "portions"}
    plate.__dict__.update({name: getattr(first, name) if first else None for name in names})
    if plate.portions:
        plate.__dict__["portions"] = kept
