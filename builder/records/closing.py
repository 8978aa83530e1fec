"""Fat or cream by which a recipe weighs more than it makes, where a slip would close it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.language import tr
from builder.problems import Problem
from builder.quantities import Dimension
from builder.records.batches import LASTING, weights_of
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import PantryItem
from builder.records.slips import other_amounts
from builder.records.written import Doubted, Value, rounded, warning

# Of a batch that is weighed, the other ingredients make this much by themselves; with what is in
# doubt all weigh so many times of it, and with what was meant instead about as much, or a quarter
# more, which an oven takes. Common practice, no published source.
BY_THEMSELVES, TOO_MUCH, CLOSED = 0.6, 1.5, (0.85, 1.25)
# Cream is reduced in a sauce, hardly in what is weighed.
KEPT = LASTING | {"cream"}


def check_closing(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of the amount of fat or cream without whose slip the recipe would close."""
    for recipe in content.pantry.values():
        weights, made = weights_of(content, recipe, reported)
        if recipe.makes and recipe.makes.dimension is Dimension.MASS and made > 0:
            for name, amount in recipe.of.items():
                if KEPT.intersection(str(name).split("-")) and str(name) in weights:
                    yield from _check(recipe, str(name), amount, weights, made)


def _check(
    recipe: PantryItem, name: str, amount: Measure, weights: Mapping[str, float], made: float
) -> Iterator[Problem]:
    total, own = sum(weights.values()), weights[name]
    others = total - own
    if others < BY_THEMSELVES * made or total < TOO_MUCH * made or min(weights.values()) <= 0:
        return
    low, high = (limit * made for limit in CLOSED)
    closing = [(others + own * times, words) for words, times in other_amounts(amount)]
    # The mildest slip that closes it.
    _, words = max((each for each in closing if low <= each[0] <= high), default=(0.0, ""))
    if words:
        value = Value("pantry.of", amount, recipe, recipe.path, item=name)
        message = tr(
            "with {amount} all that goes in weighs {ratio} times what {recipe} makes",
            amount=amount.text,
            ratio=rounded(total / made, 2),
            recipe=recipe.title,
        )
        yield from warning(value, message, tr("did you mean {words}?", words=words))
