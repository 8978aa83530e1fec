"""Costs that can't be trusted: below nothing, nothing at all, more than guests pay, not weighed.

A by-product that is worth more than the cut makes every cost that rests on it a doubtful
one. The warning is given once, and shows on every page whose answer hangs on it.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator

from builder.costing.filled_rows import Rows
from builder.costing.wording import style_of
from builder.display.numerals import as_read
from builder.engine.figures import Figures
from builder.language import tr
from builder.problems import Place, Problem, Severity
from builder.records.chains import Link as ChainLink
from builder.records.chains import chain, stages_of
from builder.records.content import Content
from builder.records.kinds import Cook, Cut, Plate
from builder.records.plates import Portion
from builder.records.portions import source_of
from builder.records.stages import Stage
from builder.records.uses import MENU, Uses, swaps_of
from builder.records.written import believed


class Doubts:
    """Which cuts, cooks and plates have a cost that can't be trusted, and why.

    An amount counts as it is read in the kitchen's coins. Reasons are clauses without a full
    stop; empty where there is no doubt.
    """

    def __init__(self, content: Content, figures: Figures, rows: Rows) -> None:
        self._content, self._figures, self._rows = content, figures, rows
        self._style = style_of(content.kitchen)
        self.below_nothing = {cook.id: self._of_cook(cook) for cook in content.cooks.values()}
        self.cooks = {
            cook.id: self.below_nothing[cook.id] or self._not_weighed(cook) or self._unknown(cook)
            for cook in content.cooks.values()
        }
        self.plates = {plate.id: self._of_plate(plate) for plate in content.plates.values()}

    def loss(self, cook: Cook) -> str:
        """Why the weights of a cook can't be trusted; a doubtful worth leaves them as they are."""
        return "" if self.below_nothing[cook.id] else self.cooks[cook.id]

    def _money(self, table: str, figure: str, row: int) -> float:
        return as_read(self._figures.value(table, figure, row), self._style.places)

    def _of_cook(self, cook: Cook) -> str:
        if self._money("batch", "net_cost", self._rows.cooks[cook.id]) >= 0:
            return ""
        return tr(
            "the by-products of {cook} are counted as worth more than its meat costs",
            cook=cook.title,
        )

    def _not_weighed(self, cook: Cook) -> str:
        """A stage that was weighed only after the day counts as no loss."""
        for owner in (self._content.cuts[cook.cut], cook):
            for stage in self._content.unweighed.get(owner.path, ()):
                return tr(
                    "the {stage} of {owner} {by_the_day}",
                    stage=stage,
                    owner=owner.title,
                    by_the_day=self._by_the_day(),
                )
        return ""

    def _by_the_day(self) -> str:
        day = self._style.date(self._content.as_of)
        return tr("was not weighed by {day}, so no loss is counted", day=day)

    def _unknown(self, cook: Cook) -> str:
        """A stage of the cook's chain with no figure at all; what loses nothing says 0 %."""
        missing = (link for link in chain(self._content, cook) if not link.stage.has_figure)
        return next((_not_known(link.name, link.owner) for link in missing), "")

    def not_known(self, link: ChainLink) -> bool:
        """Whether a stage counts as no loss for want of a figure, or of one by the day."""
        later = link.name in self._content.unweighed.get(link.owner.path, ())
        return later or not link.stage.has_figure

    def _of_plate(self, plate: Plate) -> str:
        reasons = [*(self.cooks[cook] for cook in plate.cooks), *map(self._of_raw, plate.raw_cuts)]
        if reason := next(filter(None, reasons), ""):
            return reason
        if cook := self._left_over_pays(plate):
            return tr(
                "what is left over of {cook} is counted as worth more than its meat costs",
                cook=cook,
            )
        if self.costs_nothing(plate):
            return tr("the food on {plate} costs nothing", plate=plate.title)
        share = self.too_dear(plate)
        what = tr("{share} of what guests pay without tax", share=self._style.percent(share))
        return tr("the food on {plate} costs {what}", plate=plate.title, what=what) if share else ""

    def _left_over_pays(self, plate: Plate) -> str:
        """The title of a cook whose portion on the plate costs less than nothing."""
        for portion, table, row in self._rows.portions(plate):
            if self._money(table, "protein_cost", row) < 0:
                return source_of(self._content, portion).title
        return ""

    def of_portion(self, portion: Portion) -> str:
        """Why what a portion of a cook, or of a cut without one, costs can't be trusted."""
        source = source_of(self._content, portion)
        return self.cooks[source.id] if isinstance(source, Cook) else self._of_raw(source.id)

    def _of_raw(self, name: str) -> str:
        """Why what a cut without a cook costs on a plate can't be trusted."""
        cut = self._content.cuts[name]
        return (
            tr("of {cut}, {reason}", cut=cut.title, reason=reason)
            if (reason := self.of_cut(cut))
            else ""
        )

    def too_dear(self, plate: Plate) -> float:
        """The food's share of a price below it, where nobody checked the file; 0 for others."""
        share = self.share(plate)
        doubtful = 1 < share < math.inf and not believed(plate, None)
        return share if doubtful else 0.0

    def share(self, plate: Plate) -> float:
        """The food's share of what guests pay without tax."""
        return self._figures.value("plate", "food_cost_share", self._rows.plates[plate.id])

    def share_of_sides(self, plate: Plate, names: Collection[str]) -> float:
        """The share of what guests pay without tax that these of its sides cost."""
        sides = self._rows.sides[plate.id]
        food = sum(self._figures.value("accompaniment", "food", sides[name]) for name in names)
        paid = self._figures.value("plate", "price_ex_tax", self._rows.plates[plate.id])
        return food / paid if food and paid else 0.0

    def of_cut(self, cut: Cut) -> str:
        """Why what a usable kilogram of the cut costs is doubtful, before any cook."""
        reasons = (self.of_stage(cut, name, stage) for name, stage in stages_of(cut))
        return next(filter(None, reasons), "")

    def of_stage(self, owner: Cut | Cook, name: str, stage: Stage) -> str:
        """Why the figures of one stage can't be trusted, its worth or its weights."""
        row = self._rows.stages[owner.path, name]
        if self._money("stage", "cost_per_usable_kg", row) < 0:
            return tr("the by-products of its {name} are worth more than the cut costs", name=name)
        if name in self._content.unweighed.get(owner.path, ()):
            return tr("its {name} {by_the_day}", name=name, by_the_day=self._by_the_day())
        return "" if stage.has_figure else _not_known(name, owner)

    def costs_nothing(self, plate: Plate) -> bool:
        """Whether the food on a plate reads as nothing."""
        return self._money("plate", "food_cost", self._rows.plates[plate.id]) == 0


def _not_known(stage: str, owner: Cut | Cook) -> str:
    return tr(
        "the loss at the {stage} of {owner} is not known, so none is counted",
        stage=stage,
        owner=owner.title,
    )


# What a warning of a doubtful cost rests on.
_OF_COSTS = ("cuts", "cooks", "pantry", "plates", "weights", "prices", "food cost")


def check_doubts(
    content: Content, figures: Figures, rows: Rows, doubts: Doubts
) -> Iterator[Problem]:
    """Warn once of every doubtful cost, on every page that rests on it."""
    uses = Uses.of(content)
    for cook in content.cooks.values():
        cost = figures.value("batch", "cost_per_servable_kg", rows.cooks[cook.id])
        yield from _check_cook(content, doubts, uses, cook, cost)
    for cut in content.cuts.values():
        reported = any(doubts.cooks[cook.id] for cook in uses.cooks_of_cut.get(cut.id, ()))
        reported = reported or cut.path in content.unweighed
        if not reported and (reason := doubts.of_cut(cut)):
            yield _warning(cut, reason, tr("look at their worth"))
    for plate in content.plates.values():
        if doubts.costs_nothing(plate) and (plate.served or plate.with_):
            also = (MENU, *swaps_of(content, [plate]))
            hint = tr("look at the prices of what is on it")
            yield _warning(plate, tr("the food on this plate costs nothing"), hint, also)


def _check_cook(
    content: Content, doubts: Doubts, uses: Uses, cook: Cook, cost: float
) -> Iterator[Problem]:
    """By-products that pay for more than the cut; left-overs worth more than what is served.

    `cost` [money/kg] is that of servable weight.
    """
    plates = [p for p in uses.plates_of_cook.get(cook.id, ()) if doubts.plates[p.id]]
    also = (*(plate.path for plate in plates), *swaps_of(content, plates))
    also += (MENU,) if plates else ()
    if doubts.below_nothing[cook.id]:
        message = tr("the by-products are worth more than the whole batch costs")
        hint = tr("look at their worth")
        yield _warning(cook, message, hint, (content.cuts[cook.cut].path, *also))
    elif cook.remainder is not None and cook.remainder.value > cost:
        message = tr("what is left over is worth more than a servable kilogram costs")
        hint = tr("look at its worth")
        place, path = cook.remainder.place, cook.path
        yield Problem(place, message, hint, Severity.WARNING, path, also, _OF_COSTS)


def _warning(
    owner: Cut | Cook | Plate, message: str, hint: str, also: tuple[str, ...] = ()
) -> Problem:
    place = Place(owner.file)
    return Problem(place, message, hint, Severity.WARNING, owner.path, also, _OF_COSTS)
