"""Work and consumables of a batch against the weight that they are spent on."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import median

from builder.language import tr
from builder.problems import Problem
from builder.quantities import Dimension
from builder.records.batches import weight_of
from builder.records.content import Content
from builder.records.kinds import Cook, PantryItem
from builder.records.slips import slip
from builder.records.written import Doubted, Value, rounded, warning

# Minutes of active work for a kilogram that is cooked: from joints that only go into an oven to
# boned quails, and what is usual. A load below the first weight [kg] takes its minutes whatever
# it weighs, and few large joints above the second take hardly any. Common practice, no published
# source.
OF_LOAD, USUAL, LEAST_LOAD, LARGE = (0.5, 38.0), 6.0, 3.0, 15.0
# The same for a kilogram that a sub-recipe makes: up to filled pasta made by hand.
OF_MADE, USUAL_MADE, LEAST_MADE = 150.0, 20.0, 1.0
# Of what is poured, for a kilogram: sauces are skimmed and sieved, not shaped one by one. Common
# practice, no published source.
OF_POURED = 90.0
# Bags, wood and gas for a kilogram cooked [hours of the kitchen's wage], and what is usual.
# Common practice, no published source.
SPENT, USUAL_SPENT = 0.12, 0.015
# The same of bags alone: one of a few grams of plastic for a kilogram, or a few small ones.
# Common practice, no published source.
BAGS = 0.06


def check_work(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of work and consumables that the weight of a batch belies."""
    for cook in content.cooks.values():
        load = _load(cook, reported)
        if load >= LEAST_LOAD:
            yield from _of_cook(cook, load, reported)
            yield from _spent(content, cook, load, reported)
    for recipe in content.pantry.values():
        yield from _of_recipe(recipe, reported)


def _load(cook: Cook, reported: Doubted) -> float:
    """What goes into a cook at once [kg]; 0 where that is not known or in doubt."""
    weighed = [test.in_.value for test in cook.tests if test.in_.place not in reported]
    if cook.load is None:
        return median(weighed) if weighed else 0.0
    return 0.0 if cook.load.place in reported else cook.load.value


def _of_cook(cook: Cook, load: float, reported: Doubted) -> Iterator[Problem]:
    work = cook.hands_on
    if work is None or work.value <= 0 or work.place in reported:
        return
    minutes = work.value * 60 / load
    if minutes > OF_LOAD[1] or (minutes < OF_LOAD[0] and load < LARGE):
        yield from _unlike(Value("cooks.hands on", work, cook, cook.path), minutes, load, USUAL)


def _of_recipe(recipe: PantryItem, reported: Doubted) -> Iterator[Problem]:
    work, makes = recipe.hands_on, recipe.makes
    if work is None or makes is None or {work.place, makes.place} & reported:
        return
    made = weight_of(recipe, makes)
    most = OF_POURED if makes.dimension is Dimension.VOLUME else OF_MADE
    if made >= LEAST_MADE and work.value * 60 / made > most:
        value = Value("pantry.hands on", work, recipe, recipe.path)
        yield from _unlike(value, work.value * 60 / made, made, USUAL_MADE)


def _unlike(value: Value, minutes: float, weight: float, usual: float) -> Iterator[Problem]:
    size = tr("little") if minutes < usual else tr("a great deal of")
    message = tr(
        "{measure} is {size} work for {rounded} kg",
        measure=value.measure.text,
        size=size,
        rounded=rounded(weight),
    )
    yield from warning(value, message, slip(value.measure, usual / minutes))


def _spent(content: Content, cook: Cook, load: float, reported: Doubted) -> Iterator[Problem]:
    wage = content.kitchen.loaded_wage
    if wage is None or wage.value <= 0 or wage.place in reported:
        return
    for name, cost in cook.consumables.items():
        hours = cost.value / wage.value / load
        most = BAGS if "bag" in str(name).lower() else SPENT
        if hours > most and cost.place not in reported:
            value = Value("cooks.consumables", cost, cook, cook.path, item=str(name))
            message = tr(
                "{cost} is a great deal to spend on {rounded} kg",
                cost=cost.text,
                rounded=rounded(load),
            )
            yield from warning(value, message, slip(cost, USUAL_SPENT / hours))
