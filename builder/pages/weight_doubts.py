"""Doubts for readers who are not granted every group of figures: of weights, or none at all."""

from __future__ import annotations

from typing import Any

from builder.costing.doubts import Doubts
from builder.engine.figures import Figures
from builder.records.chains import Link as ChainLink
from builder.records.content import Content
from builder.records.kinds import Cook, Cut
from builder.records.stages import Stage


class WeightDoubts(Doubts):
    """Doubts of weights alone: those of money are left out."""

    def __init__(self, content: Content, figures: Figures, rows: Any) -> None:
        super().__init__(content, figures, rows)
        self.below_nothing = dict.fromkeys(self.below_nothing, "")
        self.cooks = {
            cook.id: self._not_weighed(cook) or self._unknown(cook)
            for cook in content.cooks.values()
        }
        self.plates = {
            plate.id: next(filter(None, (self.cooks[cook] for cook in plate.cooks)), "")
            for plate in content.plates.values()
        }

    def _money(self, table: str, figure: str, row: int) -> float:
        del table, figure, row
        return 1.0


class NoDoubts(WeightDoubts):
    """Where no figure is shown that could be in doubt."""

    def __init__(self, content: Content) -> None:
        self.below_nothing = dict.fromkeys(content.cooks, "")
        self.cooks, self.plates = self.below_nothing, dict.fromkeys(content.plates, "")

    def not_known(self, link: ChainLink) -> bool:
        """Nothing is said of a stage."""
        del link
        return False

    def of_cut(self, cut: Cut) -> str:
        """Nothing is said of a cut."""
        del cut
        return ""

    def of_stage(self, owner: Cut | Cook, name: str, stage: Stage) -> str:
        """Nothing is said of a stage."""
        del owner, name, stage
        return ""
