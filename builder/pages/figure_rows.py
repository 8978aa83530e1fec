"""One row of a table of figures as a view sees it, and the rows of each table by name."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Generic, TypeAlias, TypeVar

from builder.frozen import frozen
from builder.pages.anchors import anchor
from builder.pages.components import Cell, FigureTile, Text, Tone
from builder.pages.figure_names import (
    AccompanimentFigure,
    BatchFigure,
    ByproductFigure,
    CandidateFigure,
    CoolingFigure,
    CoverItemFigure,
    CutFigure,
    EquipmentFigure,
    IngredientFigure,
    KitchenFigure,
    OrderFigure,
    PantryFigure,
    PartFigure,
    PlateFigure,
    ScaledFigure,
    SectionFigure,
    StageFigure,
    StepFigure,
    SwapFigure,
    TakingFigure,
    TestFigure,
)
from builder.pages.withheld import WITHHELD

if TYPE_CHECKING:
    from builder.pages.view import View  # for types alone, as a view makes its rows (PLC0415)

F = TypeVar("F", bound=str)


@frozen
class FigureRow(Generic[F]):
    """One row of a table, seen by a kitchen's view; `F` are the names of its figures."""

    view: View
    table: str
    row: int

    def number(self, figure: F) -> float:
        """A figure's value as computed; NaN where it is not known."""
        return self.view.number(self.table, figure, self.row)

    def known(self, figure: F) -> bool:
        """Whether a figure has a value, and a finite one."""
        return math.isfinite(self.number(figure))

    def as_read(self, figure: F) -> float:
        """A figure's value to the last place that pages print: what verdicts compare."""
        return self.view.as_read(self.table, figure, self.row)

    def text(self, figure: F) -> Text:
        """A figure as text in its unit."""
        return self.view.text(self.table, figure, self.row)

    def texts(self, *figures: F) -> tuple[Text, ...]:
        """Several figures as texts."""
        return tuple(self.text(figure) for figure in figures)

    def numbers(self, *figures: F) -> tuple[float, ...]:
        """Several figures' values."""
        return tuple(self.number(figure) for figure in figures)

    def href(self, figure: F) -> str:
        """The reference to a figure, through lookups to where it is made."""
        return self.view.href(self.table, figure, self.row)

    def hides(self, figure: F) -> bool:
        """Whether the reader may not see a figure."""
        return (self.table, figure) in self.view.hidden

    def traced(self, figure: F, words: str = "") -> str:
        """A figure in a sentence, or words for it, that lead to its trace; empty if not known."""
        if self.hides(figure):
            return WITHHELD
        if not self.known(figure):
            return ""
        return anchor(self.href(figure), words or self.text(figure))

    def name(self, figure: F) -> str:
        """A figure of this row as the page's scripts call it."""
        return f"{self.table}.{figure}.{self.row}"

    def cell(self, figure: F, *, tone: Tone = "", note: Text = "") -> Cell:
        """A table cell: text, sort value, and the reference to its figure."""
        return self.view.cell(self.table, figure, self.row, tone=tone, note=note)

    def cells(self, *figures: F) -> tuple[Cell, ...]:
        """Table cells of several figures."""
        return tuple(self.cell(figure) for figure in figures)

    def tile(self, figure: F, *, label: Text = "", tone: Tone = "", note: Text = "") -> FigureTile:
        """A key figure with the reference to it."""
        return self.view.tile(self.table, figure, self.row, label=label, tone=tone, note=note)


CoverItemRow: TypeAlias = FigureRow[CoverItemFigure]
AccompanimentRow: TypeAlias = FigureRow[AccompanimentFigure]
CandidateRow: TypeAlias = FigureRow[CandidateFigure]
CoolingRow: TypeAlias = FigureRow[CoolingFigure]
IngredientRow: TypeAlias = FigureRow[IngredientFigure]
BatchRow: TypeAlias = FigureRow[BatchFigure]
ByproductRow: TypeAlias = FigureRow[ByproductFigure]
CutRow: TypeAlias = FigureRow[CutFigure]
EquipmentRow: TypeAlias = FigureRow[EquipmentFigure]
KitchenRow: TypeAlias = FigureRow[KitchenFigure]
OrderRow: TypeAlias = FigureRow[OrderFigure]
PantryRow: TypeAlias = FigureRow[PantryFigure]
PartRow: TypeAlias = FigureRow[PartFigure]
PlateRow: TypeAlias = FigureRow[PlateFigure]
ScaledAmountRow: TypeAlias = FigureRow[ScaledFigure]
TakingRow: TypeAlias = FigureRow[TakingFigure]
SectionRow: TypeAlias = FigureRow[SectionFigure]
StageRow: TypeAlias = FigureRow[StageFigure]
StepRow: TypeAlias = FigureRow[StepFigure]
SwapRow: TypeAlias = FigureRow[SwapFigure]
TestRow: TypeAlias = FigureRow[TestFigure]
