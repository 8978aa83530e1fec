"""What goes into a sub-recipe against what it makes: an ingredient far too heavy for its batch."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from builder.language import tr
from builder.problems import Problem
from builder.quantities import Dimension
from builder.records.amounts import in_mass
from builder.records.content import Content
from builder.records.fields import Id, Measure
from builder.records.kinds import PantryItem
from builder.records.slips import slip
from builder.records.written import Doubted, Value, rounded, times, warning

# How many times what is made one ingredient may weigh: solids dry to a fifth, what is poured is
# reduced to a tenth, and so is what is dried alone. Common practice, no published source.
SOLID, POURED = 7.0, 13.0
# What was likelier meant: sauces are reduced to a third, and a seasoning is a small part.
REDUCED, LITTLE = 3.0, 0.05
# The other ingredients make the batch by themselves from so much of its weight on, and with the
# doubtful one they weigh so many times of it. Common practice, no published source.
ALL_THERE, TOO_MUCH = 0.75, 1.65
# What neither boils away nor is trimmed or poured off.
LASTING = frozenset(("butter", "cheese", "flour", "honey", "margarine", "sugar"))
DENSITY = 1.0  # [kg/L] of what states none; from memory


# A recipe makes so many times of what goes into it where water is not written: a stock twice,
# rice and beans three times. From so many times on little is steeped in much, as for a tea, a
# brine or a stock of seaweed. Common practice, no published source.
WATERED, STEEPED = 3.2, 10.0
# Without dry goods the water is written, or it is that of a soup or a stock. Weighed, a batch
# makes so many times of what goes in at the most; poured, so many. Common practice, no
# published source.
WEIGHED, SOUP = 1.5, 2.0
# Bones flavour no more of a stock than this, by their weight and all that goes in with them.
# Common practice, no published source.
OF_BONES = 1.75
# What neither boils away nor is poured off is no larger part of a batch whose other ingredients
# would make it by themselves. Common practice, no published source.
MOST_LASTING = 0.75
# What is mostly poured, and is weighed by the litre so that no air counts, gains hardly anything.
MOSTLY_POURED = 1.2
# What takes up water that nobody writes: dry goods, by the words of their ids.
DRY = frozenset((
    "barley", "bean", "beans", "bulgur", "cannellini", "chickpea", "chickpeas", "couscous", "dal",
    "dried", "farro", "gelatin", "gelatine", "grain", "grains", "grits", "lentil", "lentils",
    "noodles", "oats", "pasta", "peas", "pinto", "pintos", "polenta", "powder", "pulses", "quinoa",
    "rice", "semolina", "starch", "tapioca", "tea",
))  # fmt: skip
# What is poured is measured by the spoon at the least: a share of the batch below which nobody
# would measure it. Common practice, no published source.
A_DROP = 0.0005
# An ingredient that is less than the first of its batch's weight and more than the second of
# its cost is in doubt, unless it is as dear as a spice [hours of work for a kilogram]. Common
# practice, no published source.
SMALL_PART, MOST_COST, SPICE, EVERYDAY = 1 / 6, 0.75, 12.0, 1.0
# Nobody puts more of a spice so dear into a batch [kg]. Common practice, no published source.
PINCH = 0.02


def check_batches(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of an ingredient that its recipe belies, by what it makes, holds besides and costs."""
    for recipe in content.pantry.values():
        weights, made = weights_of(content, recipe, reported)
        if recipe.makes is not None and made > 0 and weights:
            heaviest, *others = sorted(weights, key=lambda each: -weights[each])
            found = list(_check_heaviest(recipe, recipe.makes, heaviest, weights, made))
            yield from found or _check_lasting(recipe, recipe.makes, others, weights, made)
            if len(weights) == len(recipe.of):
                yield from _check_made(recipe, recipe.makes, weights, made)
        yield from _check_drops(recipe, weights)
        yield from _check_costs(content, recipe, weights, reported)


def weights_of(
    content: Content, recipe: PantryItem, reported: Doubted
) -> tuple[dict[str, float], float]:
    """The weights [kg] of a recipe's ingredients by id, and of what it states to make; 0 where
    it is not known.
    """
    makes = recipe.makes if recipe.makes and recipe.makes.place not in reported else None
    weights = {
        str(name): weight_of(content.pantry[name], amount)
        for name, amount in recipe.of.items()
        if name in content.pantry
        and amount.place not in reported
        and not sizes_of(content.pantry[name]) & reported
    }
    return weights, weight_of(recipe, makes) if makes else 0.0


def sizes_of(item: PantryItem) -> Doubted:
    """The places of what one of it weighs, or a volume of it."""
    return {size.place for size in (item.each, item.litre, item.quart) if size}


def _check_made(
    recipe: PantryItem, makes: Measure, weights: Mapping[str, float], made: float
) -> Iterator[Problem]:
    """More than any water that is not written could make of the ingredients."""
    total, poured = sum(weights.values()), makes.dimension is Dimension.VOLUME
    wet = sum(weights[str(n)] for n, a in recipe.of.items() if a.dimension is Dimension.VOLUME)
    dry = any(not DRY.isdisjoint(str(name).split("-")) for name in recipe.of)
    # A note may say what else goes in.
    most = WATERED if dry or recipe.note else SOUP if poured else WEIGHED
    if poured and not dry and not recipe.note and _bones(recipe):
        most = OF_BONES
    if poured and wet > total / 2 and in_mass(recipe, makes) and not (dry or recipe.note):
        most = MOSTLY_POURED
    if total > 0 and made > most * total:
        found = _few_bones(recipe, makes, weights, made)
        yield from found
        if found or (poured and made > STEEPED * total):
            return
        value = Value("pantry.makes", makes, recipe, recipe.path)
        message = tr(
            "{makes} is {times} the weight of all that goes into it",
            makes=makes.text,
            times=times(made / total, 2),
        )
        yield from warning(value, message, slip(makes, total / made))


def _bones(recipe: PantryItem) -> list[Id]:
    return [name for name in recipe.of if "bones" in str(name).split("-")]


def _few_bones(
    recipe: PantryItem, makes: Measure, weights: Mapping[str, float], made: float
) -> list[Problem]:
    """Bones that weigh less than what flavours their stock: theirs is the likelier slip."""
    bones = [name for name in _bones(recipe) if weights.get(str(name), 0) > 0]
    if len(bones) != 1 or weights[str(bones[0])] > sum(weights.values()) / 2:
        return []
    amount = recipe.of[bones[0]]
    value = Value("pantry.of", amount, recipe, recipe.path, item=str(bones[0]))
    message = tr(
        "{amount} of bones is little for a recipe that makes {makes}",
        amount=amount.text,
        makes=makes.text,
    )
    return list(warning(value, message, slip(amount, made / weights[str(bones[0])])))


def _check_drops(recipe: PantryItem, weights: dict[str, float]) -> Iterator[Problem]:
    """An ingredient that is poured, and next to nothing of the batch."""
    for name, amount in recipe.of.items():
        weight, total = weights.get(str(name), 0.0), sum(weights.values())
        if amount.dimension is Dimension.VOLUME and 0 < weight < A_DROP * total:
            value = Value("pantry.of", amount, recipe, recipe.path, item=str(name))
            message = tr(
                "{amount} is next to nothing of a batch of {rounded} kg",
                amount=amount.text,
                rounded=rounded(total),
            )
            yield from warning(value, message, slip(amount, 0.1 * total / weight))


def _check_costs(
    content: Content, recipe: PantryItem, weights: dict[str, float], reported: Doubted
) -> Iterator[Problem]:
    """A small part of a batch that is nearly all of its cost, bought and no spice."""
    wage = content.kitchen.loaded_wage
    per_kg = {name: _price_per_kg(content.pantry[name], reported) for name in weights}
    if wage is None or wage.place in reported or len(weights) < 2 or None in per_kg.values():
        return
    costs = {name: weights[name] * (per_kg[name] or 0.0) for name in weights}
    total, cost = sum(weights.values()), sum(costs.values())
    for name, price in per_kg.items():
        hours = (price or 0.0) / wage.value if wage.value > 0 else 0.0
        is_small = weights[name] < SMALL_PART * total and costs[name] > MOST_COST * cost
        paid = content.pantry[name].price
        if is_small and paid and hours >= SPICE and weights[name] > PINCH:
            amount = next(each for key, each in recipe.of.items() if key == name)
            value = Value("pantry.of", amount, recipe, recipe.path, item=name)
            share = costs[name] / cost
            message = tr(
                "{amount} of {pantry} is {share:.0%} of what {recipe} costs",
                amount=amount.text,
                pantry=content.pantry[name].title,
                share=share,
                recipe=recipe.title,
            )
            yield from warning(value, message, slip(amount, 0.01))
        if is_small and paid and EVERYDAY < hours < SPICE:
            value = Value("pantry.price", paid, content.pantry[name], content.pantry[name].path)
            message = tr(
                "{paid} makes it {costs:.0%} of what {recipe} costs, and it is "
                "{weights:.0%} of its weight",
                paid=paid.text,
                costs=costs[name] / cost,
                recipe=recipe.title,
                weights=weights[name] / total,
            )
            hint = slip(paid, (cost - costs[name]) / costs[name] / 2)
            yield from warning(value, message, hint)


def _price_per_kg(item: PantryItem, reported: Doubted) -> float | None:
    """What a kilogram is bought for; None where it is made, not known or in doubt."""
    if item.price is None or item.price.place in reported or item.price.dimension is None:
        return None
    one = weight_of(item, replace(item.price, value=1.0))
    return item.price.value / one if one > 0 else None


def _check_heaviest(
    recipe: PantryItem, makes: Measure, name: str, weights: dict[str, float], made: float
) -> Iterator[Problem]:
    """`weights` [kg] of the ingredients by id, `made` [kg] what they make."""
    heaviest, rest = weights[name], sum(weights.values()) - weights[name]
    poured = makes.dimension is Dimension.VOLUME or len(weights) == 1
    far = heaviest > (POURED if poured else SOLID) * made
    complete = rest >= ALL_THERE * made and heaviest + rest > TOO_MUCH * made
    if not far and not (complete and not LASTING.isdisjoint(name.split("-"))):
        return
    # What is reduced to a third still weighs less than this without the heaviest.
    if far and rest > (REDUCED * 1.35 if poured else TOO_MUCH) * made:
        value = Value("pantry.makes", makes, recipe, recipe.path)
        message = tr(
            "{makes} is little for the {rounded} kg that go into it",
            makes=makes.text,
            rounded=rounded(heaviest + rest),
        )
        yield from warning(value, message, slip(makes, (heaviest + rest) / made))
        return
    meant = max((REDUCED if poured else 1.0) * made - rest, made * LITTLE)
    amount = _amount_of(recipe, name)
    hint = (
        slip(amount, meant / heaviest) if far else tr("the other ingredients make it without this")
    )
    yield from _too_heavy(recipe, makes, name, hint)


def _check_lasting(
    recipe: PantryItem,
    makes: Measure,
    names: Sequence[str],
    weights: Mapping[str, float],
    made: float,
) -> Iterator[Problem]:
    """Butter and the like beside a heavier ingredient: `weights` and `made` [kg]."""
    for name in names:
        rest = sum(weights.values()) - weights[name]
        lasts = not LASTING.isdisjoint(name.split("-"))
        if lasts and rest >= ALL_THERE * made and weights[name] > MOST_LASTING * made:
            amount = _amount_of(recipe, name)
            yield from _too_heavy(recipe, makes, name, slip(amount, 0.1 * made / weights[name]))


def _amount_of(recipe: PantryItem, name: str) -> Measure:
    return next(amount for key, amount in recipe.of.items() if key == name)


def _too_heavy(recipe: PantryItem, makes: Measure, name: str, hint: str) -> Iterator[Problem]:
    amount = _amount_of(recipe, name)
    value = Value("pantry.of", amount, recipe, recipe.path, item=name)
    message = tr(
        "{amount} is too heavy for a recipe that makes {makes}",
        amount=amount.text,
        makes=makes.text,
    )
    yield from warning(value, message, hint)


def weight_of(item: PantryItem, amount: Measure) -> float:
    """The weight [kg], of a volume without a density as that of water; 0 where it is not known."""
    mass = in_mass(item, amount)
    poured = amount.value * DENSITY if amount.dimension is Dimension.VOLUME else 0.0
    return poured if mass is None else mass
