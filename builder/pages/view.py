"""The eye of the pages: a computed kitchen, how it writes numbers, where things stand."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache, partial

from builder.costing.costed import Costed
from builder.costing.wording import style_of
from builder.display.style import Style
from builder.engine.model import Node
from builder.engine.tables import FigureDef, Given, Lookup
from builder.language import labelled, ntr, tr
from builder.money.scaling import SCALED
from builder.pages.asked import Asked
from builder.pages.components import Cell, FigureTile, Notice, Notices, Text, Tone
from builder.pages.figure_rows import (
    AccompanimentRow,
    BatchRow,
    ByproductRow,
    CandidateRow,
    CoolingRow,
    CoverItemRow,
    CutRow,
    EquipmentRow,
    F,
    FigureRow,
    IngredientRow,
    KitchenRow,
    OrderRow,
    PantryRow,
    PartRow,
    PlateRow,
    ScaledAmountRow,
    SectionRow,
    StageRow,
    StepRow,
    SwapRow,
    TakingRow,
    TestRow,
)
from builder.pages.item_units import item_row
from builder.pages.link_words import no_link
from builder.pages.reader import OWNER, Reader, reads_files, reads_warning
from builder.pages.seen_kitchen import costed_for
from builder.pages.short_sentences import AFTER_RULE, in_short
from builder.pages.values import as_read, capital, in_mass_unit, shown
from builder.pages.whereabouts import Whereabouts
from builder.pages.widths import Widths
from builder.pages.withheld import NOT_HERE, WITHHELD, WithheldError
from builder.problems import Place, Problem
from builder.quantities import Dimension
from builder.records.amounts import base_dimension
from builder.records.chains import ORDER, Link
from builder.records.kinds import Cook, Cut, PantryItem, Plate, Swap
from builder.records.uses import Uses, grouped
from builder.tasting.findings import FINDING

__all__ = [
    "AccompanimentRow", "BatchRow", "ByproductRow", "CandidateRow", "CoolingRow", "CoverItemRow",
    "CutRow", "EquipmentRow", "F", "FigureRow", "IngredientRow", "KitchenRow", "OrderRow",
    "PantryRow", "PartRow", "PlateRow", "ScaledAmountRow", "SectionRow", "StageRow", "StepRow",
    "SwapRow", "TakingRow", "TestRow", "View",
]  # fmt: skip
_BASE = {Dimension.MASS: "kg", Dimension.VOLUME: "L", Dimension.COUNT: "each"}


@dataclass(frozen=True, slots=True, weakref_slot=True, eq=False)
class View:
    """What every page builder is given."""

    costed: Costed
    style: Style
    where: Whereabouts
    problems: tuple[Problem, ...]
    units: tuple[str, ...]
    shown: Callable[[str, float, str, float | None], Text]
    uses: Uses
    by_record: Mapping[str, Sequence[Problem]]
    reader: Reader = OWNER
    hidden: Collection[Node] = field(default=frozenset())
    widths: Widths = field(init=False)
    _asked: dict[Node, Asked] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        object.__setattr__(self, "widths", Widths(self.costed.figures))

    @classmethod
    def of(cls, costed: Costed, problems: Iterable[Problem], reader: Reader = OWNER) -> View:
        """Look at a computed kitchen with its own locale, currency and units.

        A reader who is not granted everything looks at one in which the rest is barred.
        """
        hidden = reader.hidden(costed.figures.model)
        pantry = costed.content.pantry.values()
        if not reader.is_owner:
            costed = costed_for(costed, reader)
        style = style_of(costed.content.kitchen)
        units = tuple(_BASE[base_dimension(item)] for item in pantry)
        # A page says the same value in its tables and in its trace: recent texts are kept.
        kept = lru_cache(maxsize=1 << 13)(partial(shown, style))
        reported = tuple(problem for problem in problems if reads_warning(reader, problem))
        # Sorted out once: asking every page for its own would look at all of them each time.
        by_record = grouped(
            (record, problem) for problem in reported for record in (problem.record, *problem.also)
        )
        uses = Uses.of(costed.content)
        elsewhere = "" if reader.is_owner else tr(NOT_HERE)
        where = Whereabouts(costed, lists=reads_files(reader), elsewhere=elsewhere)
        return cls(costed, style, where, reported, units, kept, uses, by_record, reader, hidden)

    def grants(self, *names: str) -> bool:
        """Whether groups of figures, kinds of record and parts are all granted to the reader."""
        reader = self.reader
        return all(
            name in reader.groups or name in reader.kinds or name in reader.parts for name in names
        )

    def figures_of(self, table: str) -> list[FigureDef]:
        """The figures of a table that the reader may see, in order of declaration."""
        model = self.costed.figures.model
        figures = model.tables[table].figures
        return [each for name, each in figures.items() if self.reader.sees(model, (table, name))]

    @property
    def kitchen(self) -> KitchenRow:
        """The kitchen's own figures."""
        return FigureRow(self, "kitchen", 0)

    def cut(self, cut: Cut) -> CutRow:
        """A cut's figures."""
        return FigureRow(self, "cut", self.costed.rows.cuts[cut.id])

    def batch(self, cook: Cook) -> BatchRow:
        """The figures of one batch of a cook."""
        return FigureRow(self, "batch", self.costed.rows.cooks[cook.id])

    def item(self, item: PantryItem) -> PantryRow:
        """A pantry item's figures."""
        return FigureRow(self, "pantry", self.costed.rows.pantry[item.id])

    def plate(self, plate: Plate) -> PlateRow:
        """A plate's figures."""
        return FigureRow(self, "plate", self.costed.rows.plates[plate.id])

    def lines(self, item: PantryItem) -> dict[str, IngredientRow]:
        """The figures of a sub-recipe's ingredients, by item."""
        return self._by_name("ingredient", self.costed.rows.lines[item.id])

    def cover(self) -> dict[str, CoverItemRow]:
        """The figures of what every cover gets, by item."""
        return self._by_name("cover_item", self.costed.rows.cover)

    def sides(self, plate: Plate) -> dict[str, AccompanimentRow]:
        """The figures of a plate's accompaniments, by item."""
        return self._by_name("accompaniment", self.costed.rows.sides[plate.id])

    def coolings(self, cook: Cook) -> list[CoolingRow]:
        """The figures of a cook's stages of cooling, way by way."""
        return [FigureRow(self, "cooling", row) for row in self.costed.rows.cooling[cook.id]]

    def orders(self, plate: Plate) -> list[OrderRow]:
        """The figures of a plate's orders, by rising number of portions."""
        return [FigureRow(self, "order", row) for row in self.costed.rows.orders.get(plate.id, ())]

    def equipment(self, name: str) -> EquipmentRow:
        """The figures of a piece of equipment."""
        return FigureRow(self, "equipment", self.costed.rows.equipment[name])

    def section(self, name: str) -> SectionRow:
        """The figures of a section of the menu."""
        return FigureRow(self, "section", self.costed.rows.sections[name])

    def taking(self, row: int) -> TakingRow:
        """The figures of a plate's month at the till."""
        return FigureRow(self, "taking", row)

    def swap(self, swap: Swap, challenger: str) -> SwapRow:
        """The figures of one challenger of a swap."""
        return FigureRow(self, "swap", self.costed.rows.swaps[swap.id, str(challenger)])

    def candidate(self, cut: Cut) -> CandidateRow:
        """The figures of a candidate."""
        return FigureRow(self, "candidate", self.costed.candidates.rows[cut.id])

    def stage(self, path: str, name: str) -> StageRow:
        """The figures of a stage of a cut or cook, by its owner's path."""
        return FigureRow(self, "stage", self.costed.rows.stages[path, name])

    def steps(self, cook: Cook) -> list[tuple[Link, StepRow]]:
        """The stages that a batch of a cook goes through, each with its figures there."""
        steps = self.costed.rows.steps[cook.id]
        return [(link, FigureRow(self, "step", row)) for link, row in steps]

    def tests(self, stage: StageRow) -> list[TestRow]:
        """The figures of a stage's tests."""
        return [FigureRow(self, "test", row) for row in self.costed.rows.tests[stage.row]]

    def byproducts(self, stage: StageRow) -> dict[str, ByproductRow]:
        """The figures of a stage's by-products, by name."""
        return self._by_name("byproduct", self.costed.rows.byproducts[stage.row])

    def parts(self, test: TestRow) -> dict[str, PartRow]:
        """The figures of what a test weighed apart, by name."""
        return self._by_name("part", self.costed.rows.parts[test.row])

    def _by_name(self, table: str, rows: Mapping[str, int]) -> dict[str, FigureRow[F]]:
        return {name: FigureRow(self, table, row) for name, row in rows.items()}

    def number(self, table: str, figure: str, row: int) -> float:
        """A figure's value as computed; NaN where it is not known."""
        return self.costed.figures.value(table, figure, row)

    def as_read(self, table: str, figure: str, row: int) -> float:
        """A figure's value to the last place that pages print: what verdicts compare."""
        unit = self.definition(table, figure).unit
        width = self.width(table, figure, row)
        return as_read(self.style, unit, self.number(table, figure, row), width)

    def width(self, table: str, figure: str, row: int) -> float:
        """How wide the interval is of a figure, or of what it rests on; NaN without one.

        One that rests on what the reader may not see is none: digits would tell of it.
        """
        try:
            return self.widths((table, figure), row)
        except WithheldError:
            return math.nan

    def definition(self, table: str, figure: str) -> FigureDef:
        """A figure's definition."""
        return self.costed.figures.model.definition((table, figure))

    def asked(self, table: str, figure: str) -> Asked:
        """A figure as this view writes it."""
        node = (table, figure)
        if node not in self._asked:
            self._asked[node] = Asked(self, node)
        return self._asked[node]

    def text(self, table: str, figure: str, row: int) -> Text:
        """A figure as text in its unit, no finer than its interval is wide where it has one."""
        return self.asked(table, figure).text(row)

    def per(self, table: str, row: int) -> str:
        """The unit that a row's item is priced by, or what its test is counted in."""
        if table == FINDING.name:
            return self.costed.findings.rows[row].unit
        if table == SCALED.name:
            return self.costed.rows.scaling.units[row]
        item = item_row(self.costed.figures, table, row)
        return "kg" if item < 0 else self.units[item]

    def href(self, table: str, figure: str, row: int) -> str:
        """The reference to a figure, through lookups to where it is made.

        Empty for a lookup that has no row to look in. A page makes of it a link to the
        figure's method, which opens the figure itself where scripts run.
        """
        return self.asked(table, figure).href(row)

    def cell(self, table: str, figure: str, row: int, *, tone: Tone = "", note: Text = "") -> Cell:
        """A table cell: text, sort value, and the reference to its figure."""
        return self.asked(table, figure).cell(row, tone, note)

    def label(self, table: str, figure: str) -> str:
        """A figure's name, in the unit that the kitchen weighs in."""
        return in_mass_unit(self.style, self.definition(table, figure).label)

    def tile(
        self,
        table: str,
        figure: str,
        row: int,
        *,
        label: Text = "",
        tone: Tone = "",
        note: Text = "",
    ) -> FigureTile:
        """A key figure with the reference to it."""
        if (table, figure) in self.hidden:
            return FigureTile(WITHHELD, WITHHELD)
        known = math.isfinite(self.number(table, figure, row))
        return FigureTile(
            label=label or capital(self.label(table, figure)),
            value=self.text(table, figure, row),
            trace_href=self.href(table, figure, row) if known else "",
            tone=tone,
            note=note,
        )

    def origin(self, node: Node, row: int) -> tuple[Text, str]:
        """Where a given value was written, as text and as a way to the line; else nothing.

        A lookup that has no row to look in says which link is missing.
        """
        how = self.definition(*node).how
        if isinstance(how, Lookup):
            return no_link(how.link), ""
        if not isinstance(how, Given):
            return "", ""
        if not self.where.lists:
            return "", ""
        origin = self.costed.figures.origin(node, row)
        place = origin.place
        if place is None:
            return tr(origin.reason), ""
        href = self.where.line_href(place.file, place.line)
        words = str(place) if not origin.reason else f"{place}: {tr(origin.reason)}"
        return words, href

    def notices(
        self, record: str, said: Collection[tuple[Place, str]] = (), most: int | None = None
    ) -> Notices | None:
        """The warnings of a record, but those `said` (place, hint) in its lead; None where none.

        Of more than `most` the rest is counted.
        """
        found = [p for p in self.by_record.get(record, ()) if (p.place, p.hint) not in said]
        if not found:
            return None
        own = (self.own(p) if p.record == record else self.reported(p) for p in found[:most])
        rest = len(found) - (len(found) if most is None else most)
        more = ntr(
            "{count} more, on the page that it concerns.",
            "{count} more, each on the page that it concerns.",
            rest,
        )
        return Notices((*own, *[Notice(more, "warning")] * (rest > 0)))

    def reported(self, problem: Problem) -> Notice:
        """A warning away from its own page, so its record is named."""
        title = self.where.title(f"{problem.record}.html")
        notice = self.notice(problem)
        owner, colon, rest = notice.text.partition(": ")
        reported = rest if colon and owner.rstrip().casefold() == title.casefold() else notice.text
        if problem.record.startswith("cooks/") and AFTER_RULE.search(reported):
            reported = " ".join(in_short(reported))
        stage, colon, _ = reported.partition(": ")
        if colon and stage.rstrip() in map(tr, ORDER):
            return replace(notice, text=f"{title}, {reported}")
        return replace(notice, text=labelled(title, reported) if title else capital(reported))

    def own(self, problem: Problem) -> Notice:
        """A warning on its record's page, as a sentence of its own."""
        notice = self.notice(problem)
        return replace(notice, text=capital(notice.text))

    def notice(self, problem: Problem) -> Notice:
        """A problem as the page shows it, with the way to its line."""
        place = problem.place
        href = self.where.line_href(place.file, place.line) if place.line else ""
        return Notice(problem.message, "warning", str(place), problem.hint, href)
