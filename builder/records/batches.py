"""What goes into a sub-recipe against what it makes: an ingredient far too heavy for its batch."""

from __future__ import annotations

from collections.abc import Iterator

from builder.problems import Problem
from builder.quantities import Dimension
from builder.records.amounts import in_mass
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import PantryItem
from builder.records.slips import slip
from builder.records.written import Doubted, Value, warning

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


def check_batches(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of an ingredient that what the recipe makes belies, the heaviest one of each."""
    for recipe in content.pantry.values():
        made = _weight(recipe, recipe.makes) if recipe.makes else 0.0
        sound = recipe.makes is not None and recipe.makes.place not in reported
        if recipe.makes is None or not sound or made <= 0:
            continue
        weights = {
            str(name): _weight(content.pantry[name], amount)
            for name, amount in recipe.of.items()
            if name in content.pantry and amount.place not in reported
        }
        for name in sorted(weights, key=lambda each: -weights[each])[:1]:
            yield from _check_heaviest(recipe, recipe.makes, name, weights, made)


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
    amount = next(amount for key, amount in recipe.of.items() if key == name)
    value = Value("pantry.of", amount, recipe, recipe.path, item=name)
    meant = max((REDUCED if poured else 1.0) * made - rest, made * LITTLE)
    hint = slip(amount, meant / heaviest) if far else "the other ingredients make it without this"
    message = f"{amount.text} is too heavy for a recipe that makes {makes.text}"
    yield from warning(value, message, hint)


def _weight(item: PantryItem, amount: Measure) -> float:
    """The weight [kg], of a volume without a density as that of water; 0 where it is not known."""
    mass = in_mass(item, amount)
    poured = amount.value * DENSITY if amount.dimension is Dimension.VOLUME else 0.0
    return poured if mass is None else mass
