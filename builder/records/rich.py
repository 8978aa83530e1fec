"""Butter and cream on one plate, through every recipe: more of it than a guest could eat."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from builder.language import tr
from builder.problems import Problem
from builder.records.batches import sizes_of, weight_of, weights_of
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import PantryItem, Plate
from builder.records.slips import slip
from builder.records.written import Doubted, Value, rounded, warning

# Most of it that one plate holds [kg], by the words of ids, and what it usually holds: butter
# sauces and mash take 60 g, gratins and creams 150 g. Common practice, no published source.
MOST = {"butter": 0.1, "margarine": 0.1, "cream": 0.25}
USUAL = 0.3
# Recipes lie in recipes no deeper.
DEEP = 9


@dataclass(frozen=True, slots=True)
class _Rich:
    """So much butter or cream [kg], and the amount that brings most of it."""

    kind: str
    weight: float
    most: Value

    def times(self, ratio: float) -> _Rich:
        return replace(self, weight=self.weight * ratio)


def check_rich(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of the amount behind a plate with too much butter or cream."""
    for plate in content.plates.values():
        for found in _summed(_on_plate(content, plate, reported)):
            if found.weight > MOST[found.kind]:
                measure, grams = found.most.measure, rounded(1000 * found.weight, 2)
                message = tr(
                    "{measure} of {kind} puts {grams} g of it on {plate}",
                    measure=measure.text,
                    kind=found.kind,
                    grams=grams,
                    plate=plate.title,
                )
                hint = slip(measure, USUAL * MOST[found.kind] / found.weight)
                yield from warning(found.most, message, hint)


def _on_plate(content: Content, plate: Plate, reported: Doubted) -> Iterator[_Rich]:
    for name, amount in plate.with_.items():
        item = content.pantry.get(name)
        if item is not None and amount.place not in reported:
            value = Value("plates.with", amount, plate, plate.path, item=str(name))
            yield from _in(content, item, value, reported, DEEP)


def _in(
    content: Content, item: PantryItem, amount: Value, reported: Doubted, depth: int
) -> Iterator[_Rich]:
    """What so much of an item holds, if it is butter or cream or made of it."""
    if sizes_of(item) & reported:
        return
    if not item.of:
        kinds = [word for word in str(item.id).split("-") if word in MOST]
        weight = weight_of(item, amount.measure)
        yield from (_Rich(kind, weight, amount) for kind in kinds[-1:])
        return
    share = _share(content, item, amount.measure, reported)
    for name, part in item.of.items() if depth and share else ():
        inner = content.pantry.get(name)
        if inner is not None and part.place not in reported:
            value = Value("pantry.of", part, item, item.path, item=str(name))
            found = _in(content, inner, value, reported, depth - 1)
            yield from (each.times(share) for each in found)


def _share(content: Content, recipe: PantryItem, amount: Measure, reported: Doubted) -> float:
    """Which part of a batch an amount is; 0 where it is not known."""
    makes = recipe.makes
    if makes is not None and makes.place in reported:
        return 0.0
    if makes is not None and makes.dimension is amount.dimension:
        return amount.value / makes.value if makes.value else 0.0
    weights, made = weights_of(content, recipe, reported)
    if makes is None and recipe.yield_ is not None:
        made = sum(weights.values()) * recipe.yield_.value
    return weight_of(recipe, amount) / made if made > 0 else 0.0


def _summed(found: Iterator[_Rich]) -> Iterator[_Rich]:
    """Each kind together, with the amount that brings most of it."""
    kinds: dict[str, list[_Rich]] = {}
    for each in found:
        kinds.setdefault(each.kind, []).append(each)
    summed: Mapping[str, float] = {k: sum(each.weight for each in f) for k, f in kinds.items()}
    for kind, parts in kinds.items():
        yield replace(max(parts, key=lambda each: each.weight), weight=summed[kind])
