"""What a kitchen might do about plates that sell or earn little, swaps that lose, and doubts."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator

from builder.costing.actions import FEWEST_A_MONTH, Action, of_plate, of_swap
from builder.costing.costed import Costed
from builder.records.kinds import Plate, Swap


def promotions(costed: Costed) -> Iterator[Action]:
    """Plates that earn more than their section and sell less than it asks of each.

    What hardly sold shows no guests who want it, however much it earns.
    """
    for plate in _trusted(costed):
        money, chance, sold = of_plate(costed, plate, "promote_a_month", "class_chance", "sold")
        if math.isfinite(money) and sold >= FEWEST_A_MONTH:
            yield Action("promote", plate, money, chance)


def drops(costed: Costed) -> Iterator[Action]:
    """Plates that neither sell nor earn, with enough sold to say so."""
    for plate in _trusted(costed):
        money, chance, sold = of_plate(costed, plate, "drop_a_month", "class_chance", "sold")
        if math.isfinite(money) and sold >= FEWEST_A_MONTH:
            yield Action("drop", plate, money, chance)


def stops(costed: Costed) -> Iterator[Action]:
    """Swaps that were decided on and taken, and lose margin today."""
    for swap, plate in _taken(costed):
        money, chance = of_swap(costed, swap, plate, "stop_a_month", "chance_earns_more")
        trusted = not any(costed.doubts.plates[name] for name in (plate.id, swap.benchmark))
        if money > 0 and trusted:
            yield Action("stop", plate, money, 1 - chance, swap)


def _taken(costed: Costed) -> Iterator[tuple[Swap, Plate]]:
    for swap in costed.content.swaps.values():
        for name in swap.challengers:
            decision = swap.decision(name, costed.content.as_of)
            if decision is not None and decision.taken:
                yield swap, costed.content.plates[name]


def fixes(costed: Costed) -> Iterator[Action]:
    """What keeps costs of plates from being trusted, with the sales a month that rest on it.

    One for each reason, on the plate that sells the most.
    """
    resting: dict[str, list[tuple[float, Plate]]] = defaultdict(list)
    for plate in costed.content.plates.values():
        if reason := costed.doubts.plates[plate.id]:
            price, count = of_plate(costed, plate, "price_ex_tax", "monthly_count")
            resting[reason].append((price * count, plate))
    for reason, plates in resting.items():
        known = [(sales, plate) for sales, plate in plates if sales > 0]
        if known:
            most = max(known, key=lambda pair: pair[0])[1]
            yield Action("fix", most, math.fsum(each for each, _ in known), math.nan, doubt=reason)


def _trusted(costed: Costed) -> Iterator[Plate]:
    """Plates of sections all of whose costs can be trusted: the dividing lines rest on them."""
    doubted = {
        str(plate.menu)
        for plate in costed.content.plates.values()
        if costed.doubts.plates[plate.id]
    }
    for plate in costed.content.plates.values():
        if str(plate.menu) not in doubted:
            yield plate
