"""A count as a view sees it, and its tables: by cut, by plate, by cook, and what was thrown."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import TypeAlias

from markupsafe import Markup

from builder.costing.count_rows import CountRows
from builder.display.words import listed
from builder.language import Deferred, clauses, tr
from builder.pages import withheld
from builder.pages.components import Cell, Column, Row, Table, Text
from builder.pages.figure_names import (
    CountFigure,
    MenuSaleFigure,
    OutputFigure,
    SaleFigure,
    UsageFigure,
    WasteFigure,
)
from builder.pages.parts import page_of, record_cell
from builder.pages.portions import source_note
from builder.pages.unknown import IN_DOUBT, plate_doubt, use_doubt
from builder.pages.view import FigureRow, View
from builder.records.counts import Count
from builder.records.kinds import Cook, Cut, Plate

CountRow: TypeAlias = FigureRow[CountFigure]
# In the order of the split; every step starts where the one before it ended.
PARTS: tuple[tuple[CountFigure, UsageFigure, str, str], ...] = (
    (
        "portion_effect",
        "portion_effect",
        Deferred("Portion"),
        Deferred("Portions weighed against portions stated."),
    ),
    (
        "yield_effect",
        "yield_effect",
        Deferred("Yield"),
        Deferred("Made over used against the yield of the tests."),
    ),
    (
        "thrown_effect",
        "thrown_effect",
        Deferred("Thrown away"),
        Deferred("As weighed, with a reason each."),
    ),
    (
        "unexplained",
        "unexplained",
        Deferred("Unexplained"),
        Deferred("Used, less what was sold, kept or thrown away."),
    ),
    (
        "price_effect",
        "price_effect",
        Deferred("Price"),
        Deferred("Paid against the price that plates are costed at."),
    ),
)


@dataclass(frozen=True, slots=True)
class Seen:
    """A count with its rows, as a view sees them."""

    view: View
    count: Count
    rows: CountRows

    @property
    def row(self) -> CountRow:
        """The count's own figures."""
        return FigureRow(self.view, "count", self.rows.row)

    def usages(self) -> dict[str, FigureRow[UsageFigure]]:
        """Figures of its cuts, by id."""
        return {name: FigureRow(self.view, "usage", row) for name, row in self.rows.usages.items()}

    def outputs(self) -> dict[str, FigureRow[OutputFigure]]:
        """Figures of its cooks, by id."""
        return {n: FigureRow(self.view, "output", row) for n, row in self.rows.outputs.items()}

    def sales(self) -> dict[str, FigureRow[SaleFigure]]:
        """Figures of its plates, by id."""
        return {name: FigureRow(self.view, "sale", row) for name, row in self.rows.sales.items()}

    def wastes(self) -> dict[tuple[str, str], FigureRow[WasteFigure]]:
        """Figures of what was thrown away, by the record's path and the reason."""
        return {key: FigureRow(self.view, "waste", row) for key, row in self.rows.wastes.items()}

    def menus(self) -> dict[str, FigureRow[MenuSaleFigure]]:
        """Figures of the guests of each set menu."""
        found = self.rows.menus.items()
        return {name: FigureRow(self.view, "menu_sale", row) for name, row in found}

    @property
    def last(self) -> date:
        """The last day."""
        end = self.count.end
        return end.day if end else self.view.costed.content.as_of

    @property
    def days(self) -> str:
        """The day, or the first and the last."""
        ends = [each.day for each in (self.count.start, self.count.end) if each]
        return self.view.style.days(ends[0], ends[-1])


def cuts_table(seen: Seen) -> Table:
    """Each cut: what was used, what accounts for it, and the parts of the difference."""
    columns = (
        Column("cut", tr("Cut")),
        Column("difference", tr("Difference"), numeric=True),
        Column("used", tr("Used"), numeric=True),
        Column(
            "explained", tr("Accounted for"), numeric=True, about=tr("sold, thrown away and kept")
        ),
        Column("theoretical", tr("Theoretical"), numeric=True),
        *(Column(figure, label, numeric=True) for _, figure, label, _ in PARTS),
        Column("actual", tr("Actual"), numeric=True),
    )
    cuts, cooks = seen.view.costed.content.cuts, seen.outputs()
    body = tuple(
        _cut_row(cuts[name], usage, tr(IN_DOUBT) if use_doubt(seen.view, cuts[name], cooks) else "")
        for name, usage in seen.usages().items()
    )
    about, caption = tr("Weights are as purchased."), tr("Cuts, as weighed")
    if not _is_without_costs(seen):
        about = tr("Weights are as purchased; costs are of the meat, less its by-products.")
        caption = tr("From theoretical to actual, cut by cut")
    return Table("by-cut", caption, columns, body, about=about)


def _is_without_costs(seen: Seen) -> bool:
    """Whether the reader may not see what parts actual from theoretical cost."""
    return ("count", "difference") in seen.view.hidden


def _cut_row(cut: Cut, usage: FigureRow[UsageFigure], doubt: str) -> Row:
    return Row(
        (
            record_cell(cut),
            usage.cell("difference", note=doubt),
            _used_cell(usage),
            usage.cell("explained_use"),
            usage.cell("theoretical_protein", note=doubt),
            *(_part_cell(usage, figure, doubt) for _, figure, *_ in PARTS),
            usage.cell("actual_protein", note=doubt),
        )
    )


def _used_cell(usage: FigureRow[UsageFigure]) -> Cell:
    if not usage.known("counted_use"):
        return Cell("–", note=tr("not counted"))
    # What is used of a cut that nobody counted rests on what was sold.
    return usage.cell("counted_use" if usage.hides("used") else "used")


def _part_cell(usage: FigureRow[UsageFigure], figure: UsageFigure, doubt: str) -> Cell:
    """A part of the difference; what is unexplained is not known of a cut without a count."""
    counted = usage.known("counted_use") or figure != "unexplained"
    return usage.cell(figure, note=doubt) if counted else Cell("–")


def plates_table(seen: Seen) -> Table:
    """Each plate: what was sold, and what its portions and yields cost."""
    columns = (
        Column("plate", tr("Plate")),
        # Money is next to the name: what a phone can't show is further on.
        Column("theoretical", tr("Theoretical food"), numeric=True),
        Column("portion", tr("Portion"), numeric=True),
        Column("yield", tr("Yield"), numeric=True),
        Column("sold", tr("Sold"), numeric=True),
        Column("stated", tr("Portion stated"), numeric=True),
        Column("weighed", tr("Weighed"), numeric=True),
    )
    sales, plates = seen.sales(), seen.view.costed.content.plates
    body = tuple(
        _plate_row(seen.view, plates[name], sales[str(name)], len(counted.weighed_portions))
        for name, counted in seen.count.plates.items()
    )
    if _is_without_costs(seen):
        return Table("by-plate", tr("Plates, as weighed"), columns, body)
    about = tr(
        "What was thrown away, the price and what is unexplained belong to a cut, not to a plate."
    )
    several = [plates[name].title for name in seen.count.plates if plates[name].further]
    if several:
        about += " " + tr(
            "Portion and yield are of the main portion; the further ones of {several} are in the "
            "parts of their cuts.",
            several=listed(several),
        )
    return Table(
        "by-plate", tr("From theoretical to actual, plate by plate"), columns, body, about=about
    )


def _plate_row(view: View, plate: Plate, sale: FigureRow[SaleFigure], weighed: int) -> Row:
    mean = (
        sale.cell("weighed_portion", note=tr("mean of {weighed}", weighed=weighed))
        if weighed
        else Cell("–")
    )
    doubt = tr(IN_DOUBT) if plate_doubt(view, plate) else ""
    lighter = _fewer(sale, "portions_as_weighed", "whole_portions")
    poorer = _fewer(sale, "portions_as_made", "portions_as_weighed")
    return Row(
        (
            record_cell(plate),
            sale.cell("theoretical_food", note=doubt),
            sale.cell("portion_effect", note=clauses((doubt, lighter))),
            sale.cell("yield_effect", note=clauses((doubt, poorer))),
            sale.cell("plates_sold", note=withheld.seen(_sold_note, sale) or ""),
            sale.cell("portion"),
            mean,
        )
    )


def _sold_note(sale: FigureRow[SaleFigure]) -> Text:
    """How many of the plates guests of set menus are expected to have taken."""
    if not sale.number("taken_by_guests") > 0:
        return ""
    return Markup(tr("{} by guests of set menus")).format(sale.traced("taken_by_guests"))


def menus_table(seen: Seen) -> Table | None:
    """The guests of each set menu, what they paid, and their covers."""
    columns = (
        Column("menu", tr("Set menu")),
        Column("guests", tr("Guests"), numeric=True),
        Column("paid", tr("Sales ex tax"), numeric=True),
        Column("covers", tr("Food of their covers"), numeric=True),
    )
    menus = seen.view.costed.content.menus
    body = tuple(
        Row(
            (
                Cell(menus[name].title, href=f"~/{page_of(menus[name])}"),
                *row.cells("guests_served", "guest_sales", "guest_covers"),
            )
        )
        for name, row in seen.menus().items()
    )
    about = tr(
        "Who took what is not counted: plates are taken to be as the menu's "
        "shares expect, on top of those sold on their own."
    )
    return Table("by-menu", tr("Guests of set menus"), columns, body, about=about) if body else None


def _fewer(sale: FigureRow[SaleFigure], now: SaleFigure, before: SaleFigure) -> str:
    """Where whole portions are counted and heavier or poorer ones change how many a piece gives."""
    if not sale.number("counts_pieces") > 0:
        return ""
    gives, gave = (sale.number(each) / sale.number("pieces") for each in (now, before))
    return (
        tr("a piece gives {gives:.0f}, not {gave:.0f}", gives=gives, gave=gave)
        if gives != gave
        else ""
    )


def cooks_table(seen: Seen) -> Table:
    """Each cook: what went in and came out, and what became of it."""
    columns: dict[OutputFigure, Column] = {
        "raw_used": Column("in", tr("In, raw"), numeric=True),
        "made": Column("out", tr("Out, to serve"), numeric=True),
        "counted_yield": Column("yield", tr("Yield"), numeric=True),
        "standard_yield": Column("costed", tr("Yield costed"), numeric=True),
        "weight_served": Column("sold", tr("Sold"), numeric=True),
        "left": Column("left", tr("Left"), numeric=True),
        "thrown_weight": Column("thrown", tr("Thrown"), numeric=True),
        "cooked_not_found": Column("missing", tr("Not found"), numeric=True),
    }
    cooks = seen.view.costed.content.cooks
    body = tuple(
        Row((record_cell(cooks[name]), *_output_cells(seen, name, output, list(columns))))
        for name, output in seen.outputs().items()
    )
    about = tr(
        "Not found: there at the start or made, but neither sold, left nor "
        "thrown away; what is left of a piece after its whole portions is in it. "
        "Below zero, more went out than is known to have been there."
    )
    return Table(
        "by-cook", tr("Cooks"), (Column("cook", tr("Cook")), *columns.values()), body, about=about
    )


def _output_cells(
    seen: Seen, name: str, output: FigureRow[OutputFigure], figures: list[OutputFigure]
) -> Iterator[Cell]:
    """A cook's figures; a dash for what is left and thrown where its count says nothing of it."""
    found = next((each for cook, each in seen.count.cooks.items() if cook == name), None)
    written = {"left": found and found.left, "thrown_weight": found and found.thrown}
    for figure in figures:
        yield output.cell(figure) if written.get(figure, True) else Cell("–")


def thrown_table(seen: Seen) -> Table:
    """What was thrown away and why, the dearest first, or the heaviest."""
    columns = (
        Column("what", tr("What")),
        Column("cost", tr("Cost"), numeric=True),
        Column("weight", tr("Weight"), numeric=True),
        Column("why", tr("Why")),
    )
    body = tuple(
        Row(
            (
                record_cell(owner := _owner(seen, path)),
                waste.cell("cost_of_thrown", note=source_note(seen.view, owner)),
                waste.cell("thrown_weight"),
                Cell(reason),
            )
        )
        for (path, reason), waste in sorted(seen.wastes().items(), key=_most_first)
    )
    hidden = any(waste.hides("cost_of_thrown") for waste in seen.wastes().values())
    first = (
        tr("Thrown away, the heaviest first") if hidden else tr("Thrown away, the dearest first")
    )
    return Table("thrown-rows", first, columns, body)


def _most_first(each: tuple[tuple[str, str], FigureRow[WasteFigure]]) -> float:
    _, waste = each
    hidden = waste.hides("cost_of_thrown")
    return -waste.number("thrown_weight" if hidden else "cost_of_thrown")


def _owner(seen: Seen, path: str) -> Cook | Cut:
    folder, _, name = path.partition("/")
    content = seen.view.costed.content
    return content.cuts[name] if folder == "cuts" else content.cooks[name]
