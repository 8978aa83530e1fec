"""Steps against their own record: temperatures, and amounts of what the recipe has."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from builder.language import tr
from builder.problems import Place, Problem, did_you_mean
from builder.quantities import Dimension, written_like
from builder.records.amounts import UnitMismatchError, in_base
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cook, Cut, PantryItem, Plate
from builder.records.ranges import range_words
from builder.records.steps import Step

Stepped = Cook | PantryItem | Plate
"""A record that has steps."""
COLDEST_C, HOTTEST_C = -40.0, 500.0
# A step's temperature is the cook's own, written by another unit or rounded.
SAME_C = 0.6
# So near to the cook's own it is no sear and no chill: the cook itself is meant. Common practice,
# no published source.
NEAR_C = 10.0
# Sums may pass the recipe by what rounding the parts brings.
ROUNDING = 0.005


def check_steps(content: Content) -> Iterator[Problem]:
    """Steps that contradict their record or name what it has not."""
    for cook in content.cooks.values():
        yield from _check_own_temperature(cook)
        yield from _check_own_time(cook)
    for record in stepped_of(content):
        for step in record.steps:
            yield from _check_ranges(step)
        yield from _check_amounts(content, record)
    for item in content.pantry.values():
        if item.steps and not (item.of or "of" in item.unread):
            place = item.steps[0].what.place
            message = tr("{item} is bought, and steps say how something is made", item=item.title)
            yield Problem(place, message, tr("write of: and makes:, or take the steps out"))


def stepped_of(content: Content) -> Iterator[Stepped]:
    """Every record that may have steps."""
    yield from content.cooks.values()
    yield from content.pantry.values()
    yield from content.plates.values()


def _check_ranges(step: Step) -> Iterator[Problem]:
    if step.at and not COLDEST_C <= step.at.value <= HOTTEST_C:
        limits = range_words(step.at, COLDEST_C, HOTTEST_C, tr("-40 to 500 °C"))
        yield Problem(
            step.at.place, tr("a step at {at} is outside {limits}", at=step.at.text, limits=limits)
        )
    if step.for_ and step.for_.value <= 0:
        yield Problem(
            step.for_.place, tr("a step takes more than no time"), tr("or leave for: out")
        )


def _is_own(cook: Cook, at: Measure) -> bool:
    return cook.at is not None and abs(at.value - cook.at.value) <= SAME_C


def _others(cook: Cook) -> list[float]:
    """Temperatures [°C] that the file gives what comes after the cook, and the core."""
    after = (
        cook.core,
        cook.hold_at,
        cook.cool and cook.cool.to,
        cook.store and cook.store.at,
        cook.reheat and cook.reheat.at,
    )
    return [each.value for each in after if each]


def _check_own_temperature(cook: Cook) -> Iterator[Problem]:
    """The step that is the cook itself by its time, or by how near it comes, at another `at`."""
    if cook.at is None or any(step.at and _is_own(cook, step.at) for step in cook.steps):
        return
    known = _others(cook)
    for step in cook.steps:
        if step.at is None or any(abs(step.at.value - other) <= SAME_C for other in known):
            continue
        as_long = cook.for_ and step.for_ and abs(step.for_.value / cook.for_.value - 1) < ROUNDING
        if as_long or abs(step.at.value - cook.at.value) <= NEAR_C:
            message = tr(
                "this step is at {at}, and the cook is at {at2}", at=step.at.text, at2=cook.at.text
            )
            hint = tr("write {at} here, or fix at: ({place})", at=cook.at.text, place=cook.at.place)
            yield Problem(step.at.place, message, hint)
            return


def _check_own_time(cook: Cook) -> Iterator[Problem]:
    """Steps at the cook's own temperature that take another time than the cook."""
    own = [step.for_ for step in cook.steps if step.at and _is_own(cook, step.at)]
    times = [each for each in own if each]
    if cook.for_ is None or not times or len(times) < len(own):
        return
    possible = [sum(each.value for each in times), *(each.value for each in times)]
    if all(abs(hours / cook.for_.value - 1) >= ROUNDING for hours in possible):
        longest = max(times, key=lambda each: each.value)
        message = tr(
            "this step takes {longest}, and the cook takes {for_words}",
            longest=longest.text,
            for_words=cook.for_.text,
        )
        hint = tr(
            "write {for_words} here, or fix for: ({place})",
            for_words=cook.for_.text,
            place=cook.for_.place,
        )
        yield Problem(longest.place, message, hint)


# Amounts


Parts = Mapping[str, tuple[Cut | Cook | PantryItem, Measure | None]]
"""What a record's recipe has, by id: the record of each, and its amount where that is written."""


def parts_of_recipe(content: Content, record: Stepped) -> Parts:
    """What the steps of a record may name; what is no record is reported where it is written."""
    if isinstance(record, Cook):
        return (
            {str(record.cut): (content.cuts[record.cut], None)} if _has_cut(content, record) else {}
        )
    written = record.with_ if isinstance(record, Plate) else record.of
    found: dict[str, tuple[Cut | Cook | PantryItem, Measure | None]] = {}
    for portion in record.served if isinstance(record, Plate) else ():
        source: Cook | Cut | None = (
            content.cooks.get(portion.cook) if portion.cook else content.cuts.get(str(portion.cut))
        )
        if source is not None:
            found[source.id] = (source, portion.portion)
    for key, amount in written.items():
        if key in content.pantry:
            found[str(key)] = (content.pantry[key], amount)
    return found


def _has_cut(content: Content, cook: Cook) -> bool:
    return cook.cut in content.cuts


def _named_by(record: Stepped) -> set[str]:
    """The ids that the recipe names, whether there are such records or not."""
    if isinstance(record, Cook):
        return {str(record.cut)}
    if isinstance(record, PantryItem):
        return set(map(str, record.of))
    return set(map(str, (*record.with_, *record.cooks, *record.raw_cuts)))


def _recipe_unread(record: Stepped) -> bool:
    keys = {"cut", "of", "with_", "portion", "portions", "cook", "steps"}
    return not record.unread.isdisjoint(keys)


def _check_amounts(content: Content, record: Stepped) -> Iterator[Problem]:
    if _recipe_unread(record):
        return
    parts = parts_of_recipe(content, record)
    named: dict[str, list[Measure]] = {}
    lost = _named_by(record) - set(parts)
    for step in record.steps:
        for name, amount in step.amounts.items():
            if name not in parts and lost:
                continue  # the recipe names what is no record: reported there, and first to mend
            if name not in parts:
                yield _not_in_recipe(content, record, name.place, str(name), parts)
                continue
            if problem := _misfit(parts[name][0], name, amount):
                yield problem
            else:
                named.setdefault(str(name), []).append(amount)
    for part, amounts in named.items():
        yield from _check_sum(part, amounts, parts[part])


def _not_in_recipe(
    content: Content, record: Stepped, place: Place, name: str, parts: Parts
) -> Problem:
    where = "with" if isinstance(record, Plate) else "of"
    hint = did_you_mean(name, parts) or (
        tr("it has {parts}", parts=", ".join(parts))
        if parts
        else tr("write it under {where}: first", where=where)
    )
    if name in content.pantry and isinstance(record, Cook):
        hint = tr(
            "a cook's steps give amounts of its cut, {cut}; write others in words", cut=record.cut
        )
    elif name in content.pantry:
        hint = tr(
            "write it under {where}: too, so that it is costed and its allergens are known",
            where=where,
        )
    return Problem(place, tr('{record} has no "{name}"', record=record.title, name=name), hint)


def _misfit(part: Cut | Cook | PantryItem, name: str, amount: Measure) -> Problem | None:
    """An amount that does not fit how its item is counted; a cut and a cook go by weight."""
    if amount.value <= 0:
        return Problem(amount.place, tr("nothing of {name} goes in", name=name), tr("take it out"))
    if isinstance(part, PantryItem):
        try:
            in_base(part, amount)
        except UnitMismatchError as error:
            message = tr(
                "{amount} does not fit how {name} is priced", amount=amount.text, name=name
            )
            return Problem(amount.place, message, str(error))
        return None
    if amount.dimension is not Dimension.MASS:
        message = tr("{amount} of {name} is no weight", amount=amount.text, name=name)
        return Problem(
            amount.place, message, tr("write a weight here, and pieces in the step's words")
        )
    return None


def _check_sum(
    name: str, amounts: Sequence[Measure], part: tuple[Cut | Cook | PantryItem, Measure | None]
) -> Iterator[Problem]:
    """Amounts of one part in all steps that are more than the recipe has of it."""
    source, recipe = part
    if recipe is None:
        return
    if isinstance(source, PantryItem):
        try:
            whole, taken = in_base(source, recipe), sum(in_base(source, each) for each in amounts)
        except UnitMismatchError:
            return  # reported where it is written
    elif recipe.dimension is Dimension.MASS:
        whole, taken = recipe.value, sum(each.value for each in amounts)
    else:
        return  # what a piece weighs follows from its figures
    if taken > whole * (1 + ROUNDING):
        last = amounts[-1]
        in_all = tr(
            "the steps take {written_like}",
            written_like=written_like(recipe.text, recipe.value * taken / whole),
        )
        one = tr("this step takes {last}", last=last.text) if len(amounts) == 1 else in_all
        message = tr(
            "{one} of {name}, and the recipe has {recipe}", one=one, name=name, recipe=recipe.text
        )
        yield Problem(
            last.place, message, tr("take less, or fix the recipe ({place})", place=recipe.place)
        )
