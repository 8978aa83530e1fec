"""What a kitchen might do, ranked by the money a month at stake times the chance of it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from builder.costing.costed import Costed
from builder.costing.next_weighing import next_weighing
from builder.engine.methods import method
from builder.engine.sensitivity import Reach
from builder.records.kinds import Plate, Swap

Kind = Literal["swap", "stop", "reprice", "promote", "drop", "weigh", "fix", "plan"]
# Plates that sell fewer a month say too little to act on.
FEWEST_A_MONTH = 10.0


@dataclass(frozen=True, slots=True)
class Action:
    """Something to do, whose money [a month] comes with some chance; not known is NaN.

    A `plan` is a cook's, which a swap waits for until it meets the rules.

    `plate` is what is sold, repriced or made sure of, `swap` the swap that is made or taken back;
    `weigh` the input to weigh, and `narrower` the share that its next test takes off the
    interval; `doubt` is why what is written of the plate can't be trusted.
    """

    kind: Kind
    plate: Plate
    money: float
    chance: float
    swap: Swap | None = None
    weigh: Reach | None = None
    narrower: float = math.nan
    doubt: str = ""

    @property
    def worth(self) -> float:
        """What it is ranked by."""
        return worth_of_action(self.money, self.chance)


@method(
    unit="money",
    source="expected value; our rule of what counts as money at stake",
    title="what an action is worth",
)
def worth_of_action(money: float, chance: float) -> float:
    """Money a month at stake times the chance that it comes; actions are ranked by it.

    A swap counts the change of the margin after full cost a month, and the chance that it is a
    gain; one that is made and loses counts what going back brings, and the chance that it loses. A
    new price counts what the price to write brings more, if as many are sold, and the chance that
    the food cost is above the target. A plate that earns more than its section does on average
    keeps its price: its food is a large share, and it still earns well. A plate that earns and
    sells little counts what as many as its section's share would bring, one that does neither what
    its guests bring on the section's other plates; the chance is that of its class. A weighing
    counts what the next test takes off half the interval of a month's margin, which is as good as
    certain.

    What sells fewer than ten a month is not listed, for so few say too little, unless it is a swap
    that is made and loses. Nor are swaps that lose margin or that are decided on, nor what rests on
    a cost in doubt: to fix that comes first, the largest sales that rest on it before the others. A
    swap with a cook that does not meet the rules is listed as that cook's plan to fix, and counts
    what the swap would bring. Only a service whose first step begins by tomorrow comes before that.

    Of two that can't both be done the one that comes first is listed, and says what the other would
    bring: what a swap brings in, or back, is not dropped; what it takes off is not sold more of.

    Formula: money x chance.

    Parameters: money a month, at least 0; chance from 0 to 1, 1 where it is not known. Errors:
    none.

    >>> worth_of_action(100.0, 0.8), worth_of_action(100.0, math.nan)
    (80.0, 100.0)
    """
    return money * (1.0 if math.isnan(chance) else chance)


def ranked(actions: Iterable[Action]) -> list[Action]:
    """Actions that are worth something, the best first; ties in the order given.

    What is in doubt comes before the rest: other numbers wait for it.
    """
    worthy = (action for action in actions if action.worth > 0)
    return sorted(worthy, key=lambda action: (action.kind != "fix", -action.worth))


def new_prices(costed: Costed) -> Iterator[Action]:
    """Plates whose food cost is above the target: the price that the target asks for.

    One that earns more than its section does on average is none of them.
    """
    for plate in _sold(costed):
        over, earns, money, chance = of_plate(
            costed, plate, "food_cost_over", "earns_above", "reprice_a_month", "chance_over_target"
        )
        if over > 0 and not earns > 0:
            yield Action("reprice", plate, money, chance)


def swaps(
    costed: Costed, paying: Iterable[tuple[Swap, Plate]], kind: Kind = "swap"
) -> Iterator[Action]:
    """Swaps that earn more on costs that can be trusted, where enough are sold."""
    for swap, plate in paying:
        money, chance, count = of_swap(
            costed, swap, plate, "margin_change_a_month", "chance_earns_more", "swap_count"
        )
        if count * 52 / 12 >= FEWEST_A_MONTH:
            yield Action(kind, plate, money, chance, swap)


def weighings(costed: Costed) -> Iterator[Action]:
    """Of each stage the plate whose month its next test makes surer by the most money."""
    best: dict[tuple[object, int], Action] = {}
    if (known := costed.uncertainty) is None:
        return
    for plate in _sold(costed):
        row = costed.rows.plates[plate.id]
        reaches = known.plates.of(("plate", "contribution_margin"), row)
        found = next_weighing(reaches) if reaches else None
        low, high, count = of_plate(
            costed, plate, "contribution_margin_low", "contribution_margin_high", "monthly_count"
        )
        if found is None or not math.isfinite(high - low):
            continue
        money = found.narrower * (high - low) / 2 * count
        action = Action("weigh", plate, money, math.nan, None, found.reach, found.narrower)
        key = found.reach.node, found.reach.row
        if key not in best or best[key].worth < action.worth:
            best[key] = action
    yield from best.values()


def _sold(costed: Costed) -> Iterator[Plate]:
    """Plates with enough sold to act on, whose cost can be trusted."""
    for plate in costed.content.plates.values():
        count = costed.figures.value("plate", "monthly_count", costed.rows.plates[plate.id])
        if count >= FEWEST_A_MONTH and not costed.doubts.plates[plate.id]:
            yield plate


def of_plate(costed: Costed, plate: Plate, *names: str) -> Iterator[float]:
    """Values of a plate's figures."""
    row = costed.rows.plates[plate.id]
    yield from (costed.figures.value("plate", name, row) for name in names)


def of_swap(costed: Costed, swap: Swap, plate: Plate, *names: str) -> Iterator[float]:
    """Values of the figures of a swap's challenger."""
    row = costed.rows.swaps[swap.id, plate.id]
    yield from (costed.figures.value("swap", name, row) for name in names)
