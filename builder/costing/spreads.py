"""Which inputs are not known for sure, how far each may lie off, and what is behind that."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from statistics import fmean, stdev

from builder.costing.buffet_rows import BuffetRows
from builder.costing.filled_rows import Rows
from builder.costing.pooling import Variance, pooled
from builder.costing.price_moves import Change, PriceMoves
from builder.data import cooking_yields
from builder.engine.draws import Z_90, Basis, Spread
from builder.engine.figures import Figures
from builder.engine.model import Node
from builder.quantities import Dimension
from builder.records.chains import kind_of_stage, stages_of
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Buffet, Cook, Cut, Plate
from builder.records.pricing import CurrentPrice
from builder.records.stages import Stage

YIELD: Node = ("stage", "assumed_yield")
AP_PRICE: Node = ("cut", "ap_price")
PANTRY_PRICE: Node = ("pantry", "purchase_price")
PORTION: Node = ("plate", "stated_portion")
FURTHER_PORTION: Node = ("portion", "stated_portion")
SOLD: Node = ("plate", "sold")
COVER_AMOUNT: Node = ("cover_item", "quantity")
LEFT: Node = ("buffet", "left_share")
_MOST_LEFT = 0.99  # what is sold is never nothing

# Yields, portions and prices are drawn down to a tenth of their plain value, for a cost has no
# meaning without them; work, tariffs and counts to nothing.
_LEAST = 0.1
# A standard error below this is none but for rounding.
_AGREE = 1e-9
# Months that a count's spread needs.
_FEWEST_MONTHS = 3

Found = Iterator[tuple[Node, int, Spread]]
Jumps = Mapping[tuple[Node, int], Change]
"""Prices that moved by a half up or a third down within a list that their spread counts."""
Sure = Mapping[tuple[Node, int], Basis]
"""Inputs whose spread is nothing, by figure and row, with what says so."""


def spreads_of(
    content: Content, figures: Figures, rows: Rows, prices: Mapping[str, CurrentPrice]
) -> tuple[dict[Node, dict[int, Spread]], Sure, Jumps]:
    """Every input with a spread, by figure and row; those that are sure; and prices that jumped."""
    found: dict[Node, dict[int, Spread]] = defaultdict(dict)
    sure: dict[tuple[Node, int], Basis] = {}
    filler = _Spreads(content, figures, rows, PriceMoves(content, prices))
    for node, row, spread in filler.all():
        if spread.scale > 0 and math.isfinite(spread.center):
            found[node][row] = spread
        elif spread.scale == 0:
            sure[node, row] = spread.basis
    return dict(found), sure, filler.jumps


class _Spreads:
    """The spreads of one kitchen, kind by kind."""

    def __init__(self, content: Content, figures: Figures, rows: Rows, moves: PriceMoves) -> None:
        self.content, self.figures, self.rows, self.moves = content, figures, rows, moves
        self.like = _like_stages(content, figures, rows)
        self.jumps: dict[tuple[Node, int], Change] = {}

    def all(self) -> Found:
        """Every spread with its figure and row."""
        yield from self._kitchen()
        for cut in self.content.cuts.values():
            row = self.rows.cuts[cut.id]
            stated = cut.give_or_take.price if cut.give_or_take else None
            yield from self._price(AP_PRICE, row, cut.id, stated)
            yield from self._stages(cut)
        for cook in self.content.cooks.values():
            yield from self._stages(cook)
            yield from self._cook(cook)
        for item in self.content.pantry.values():
            row, own = self.rows.pantry[item.id], item.give_or_take
            yield from self._price(PANTRY_PRICE, row, item.id, own.price if own else None)
            yield from self._work(("pantry", "recipe_hands_on"), row, own.hands_on if own else None)
        for plate in self.content.plates.values():
            yield from self._plate(plate)
            yield from self._factors(plate)
        for buffet in self.content.buffets.values():
            yield from self._left(buffet)

    def _kitchen(self) -> Found:
        stated = self.content.kitchen.give_or_take
        if stated is None:
            return
        for name, measure in (
            ("loaded_wage", stated.loaded_wage),
            ("electricity_price", stated.energy),
            ("gas_price", stated.gas),
            ("kitchen_garnish_share", stated.garnish),
            ("kitchen_garnish", stated.garnish),
            ("stated_cover_cost", stated.cover_cost),
        ):
            yield from self._stated(("kitchen", name), 0, measure)
        for row in self.rows.cover.values():
            yield from self._stated(COVER_AMOUNT, row, stated.cover_cost)

    def _factors(self, plate: Plate) -> Found:
        """A plate's own garnish and cover cost, as it gives or takes them, else as the kitchen."""
        row, own = self.rows.plates[plate.id], plate.give_or_take
        all_plates = self.content.kitchen.give_or_take
        garnish = (own and own.garnish) or (all_plates and all_plates.garnish) or None
        cover = (own and own.cover_cost) or (all_plates and all_plates.cover_cost) or None
        for name, measure in (
            ("plate_garnish_share", garnish),
            ("plate_garnish", garnish),
            ("plate_cover", cover),
        ):
            yield from self._stated(("plate", name), row, measure)

    def _left(self, buffet: Buffet) -> Found:
        """What is left of a buffet, in points of what is put out."""
        stated = buffet.give_or_take.left if buffet.give_or_take else None
        row = self.rows.of(BuffetRows)[buffet.id].row
        value = self.figures.value(*LEFT, row)
        if stated is not None and value > 0:
            scale = stated.value / Z_90
            yield LEFT, row, Spread(value, scale, Basis.STATED, low=0.0, high=_MOST_LEFT)

    def _price(self, node: Node, row: int, item: str, stated: Measure | None) -> Found:
        if stated is not None:
            yield from self._stated(node, row, stated)
            return
        spread = self.moves.spread(item, self.figures.value(*node, row))
        if spread is not None:
            yield node, row, spread
            if jump := self.moves.jump(item):
                self.jumps[node, row] = jump

    def _stages(self, owner: Cut | Cook) -> Found:
        for name, stage in stages_of(owner):
            row = self.rows.stages.get((owner.path, name))
            if row is not None and (spread := self._yield(owner, name, stage, row)) is not None:
                yield YIELD, row, spread

    def _yield(self, owner: Cut | Cook, name: str, stage: Stage, row: int) -> Spread | None:
        tests, center, error, highest = (
            self.figures.value("stage", figure, row)
            for figure in ("tests_count", "stage_yield", "yield_standard_error", "highest_yield")
        )
        # A cure may take up weight; nothing else leaves more than went in.
        high = math.inf if highest > 1 or center > 1 else 1.0

        def spread(scale: float, basis: Basis, freedom: float, count: int) -> Spread:
            return Spread(
                center, scale, basis, freedom, low=center * _LEAST, high=high, count=count,
                stands_in="stage_yield",
            )  # fmt: skip

        own = _own_variance(tests, error)
        found = pooled(own, self.like.get(kind_of_stage(owner, name), Variance()) - own)
        if tests >= 1 and found.squares > 0:
            basis = Basis.TESTS if found == own else Basis.POOLED if own.squares else Basis.LIKE
            return spread(math.sqrt(found.mean / tests), basis, found.freedom, int(tests))
        if stage.give_or_take and stage.give_or_take.loss:
            return spread(stage.give_or_take.loss.value / Z_90, Basis.STATED, math.inf, int(tests))
        if tests >= 1:
            return spread(0.0, Basis.TESTS, tests - 1, int(tests)) if tests >= 2 else None
        table = stage.published.table if stage.published and stage.stated is None else None
        published = cooking_yields().get(table) if table else None
        if published is None or published.deviation is None:
            return None
        freedom = max(published.samples - 1, 1)
        return spread(published.deviation, Basis.PUBLISHED, freedom, published.samples)

    def _cook(self, cook: Cook) -> Found:
        row, stated = self.rows.cooks[cook.id], cook.give_or_take
        yield from self._work(("batch", "hands_on"), row, stated.hands_on if stated else None)
        if cook.energy is not None:
            yield from self._stated(
                ("batch", "measured_energy"), row, stated.energy if stated else None
            )
        low, typical, high = (
            self.figures.value("batch", f"modelled_energy{end}", row)
            for end in ("_low", "", "_high")
        )
        if high > low:
            scale = (high - low) / 2 / Z_90
            yield ("batch", "modelled_energy"), row, Spread(typical, scale, Basis.MODEL, low=0.0)

    def _plate(self, plate: Plate) -> Found:
        row, stated = self.rows.plates[plate.id], plate.give_or_take
        kitchen = self.content.kitchen.give_or_take
        yield from self._work(("plate", "plating"), row, stated.hands_on if stated else None)
        if (portion := plate.portion_weight) is not None:
            given = (stated.portion if stated else None) or (kitchen.portion if kitchen else None)
            weights = [portion.value for portion in plate.weighed_portions]
            weighed = weighed_spread(portion.value, weights)
            if weighed is not None and (weighed.scale > 0 or given is None):
                yield PORTION, row, weighed
            else:
                yield from self._stated(PORTION, row, given)
        for further in self.rows.further[plate.id]:
            if further.portion.weight is not None:
                given = kitchen.portion if kitchen else None
                yield from self._stated(FURTHER_PORTION, further.row, given)
        if stated and stated.count:
            yield from self._stated(("plate", "forecast"), row, stated.count)
            yield from self._stated(SOLD, row, stated.count)
        else:
            spread = months_spread(self.figures.value(*SOLD, row), plate)
            if spread is not None:
                yield SOLD, row, spread

    def _work(self, node: Node, row: int, stated: Measure | None) -> Found:
        kitchen = self.content.kitchen.give_or_take
        yield from self._stated(node, row, stated or (kitchen.hands_on if kitchen else None))

    def _stated(self, node: Node, row: int, stated: Measure | None) -> Found:
        """What the kitchen gives or takes: an amount, or a share of the value."""
        value = self.figures.value(*node, row)
        if stated is None or not value > 0:
            return
        share = stated.dimension is Dimension.RATIO
        reach = stated.value * value if share else stated.value
        low = value * _LEAST if node in {PORTION, FURTHER_PORTION, AP_PRICE, PANTRY_PRICE} else 0.0
        yield node, row, Spread(value, reach / Z_90, Basis.STATED, low=low)


def _own_variance(tests: float, error: float) -> Variance:
    """What a stage's tests say of how far one test lies off; no squares where they agree."""
    if not tests >= 2:
        return Variance()
    return Variance((tests - 1) * tests * error**2 if error > _AGREE else 0.0, tests - 1)


def _like_stages(content: Content, figures: Figures, rows: Rows) -> dict[str, Variance]:
    """By kind of stage the variance of one test's yield, pooled over its stages."""
    found: dict[str, Variance] = defaultdict(Variance)
    for owner in content.weighed:
        for name, _ in stages_of(owner):
            row = rows.stages.get((owner.path, name), -1)
            if row >= 0:
                tests, error = (
                    figures.value("stage", figure, row)
                    for figure in ("tests_count", "yield_standard_error")
                )
                found[kind_of_stage(owner, name)] += _own_variance(tests, error)
    return dict(found)


def weighed_spread(written: float, weights: Sequence[float]) -> Spread | None:
    """The mean of weighed portions [kg] about what is written: their spread over the root of n.

    None with fewer than two.
    """
    n = len(weights)
    if n < 2:
        return None
    error = stdev(weights) / math.sqrt(n)
    return Spread(written, error, Basis.WEIGHED, n - 1.0, low=written * _LEAST, count=n)


def months_spread(sold: float, plate: Plate) -> Spread | None:
    """What another month may sell of `sold` a month: the spread among those counted, as a share.

    None with fewer than three, or where none was sold.
    """
    counts = [count.value for count in plate.sold.values()]
    if len(counts) < _FEWEST_MONTHS or not (sold > 0 and sum(counts) > 0):
        return None
    n = len(counts)
    scale = sold * stdev(counts) / fmean(counts) * math.sqrt(1 + 1 / n)
    return Spread(sold, scale, Basis.MONTHS, n - 1.0, low=0.0, count=n)
