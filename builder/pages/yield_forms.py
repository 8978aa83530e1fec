"""The butcher's yield test on paper: one stage of a cut, weighed and valued."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from builder.language import Deferred, labelled, tr
from builder.pages.components import (
    Cell,
    Column,
    Form,
    FormBlock,
    FormField,
    FormFields,
    FormGrid,
    FormLines,
    FormNote,
    FormTicks,
    Row,
)
from builder.pages.form_pieces import (
    chunks,
    fields,
    line,
    mass_unit,
    of,
    portions,
    price_unit,
    sheet_key,
    value,
)
from builder.pages.stages import basis
from builder.pages.unknown import IN_DOUBT
from builder.pages.values import capital
from builder.pages.view import View
from builder.reading.names import slug
from builder.records.chains import stages_of
from builder.records.kinds import Cut
from builder.records.stages import Stage

TITLE = Deferred("Butcher's yield test")
# Rows of parts and plates that one page holds beside the rest; of parts alone.
_ROOM = 8
_MOST_PARTS = 13
_BALANCE = Deferred("In = usable + parts + loss; weigh everything, the bin included. ")
_ONE = Deferred(
    "Weights and worth are those of the test, prices are today's. Money is written no finer "
    "than it is known."
)
_POOLED = Deferred(
    "Weights are those of all tests together, worth and prices are today's. Money is written no "
    "finer than it is known."
)
# What stands beside a sheet of one test of several.
_SERVED = Deferred(" Portions as served are costed by all tests together.")
_TICKS = FormTicks(
    Deferred("Before you weigh"),
    (Deferred("Scale at zero"), Deferred("Trays weighed empty"), Deferred("Surface dried")),
)


@dataclass(frozen=True, slots=True)
class _Names:
    """The figures that a sheet prints, in the order of the form."""

    table: str
    totals: tuple[str, str, str, str]
    loss: tuple[str, str]
    usable: tuple[str, str, str, str]
    factor: str
    part_table: str
    part: tuple[str, str, str, str]

    @property
    def of_first_stage(self) -> _Names:
        """Those of what goes in as purchased: its price is the cut's, as fine as that is known."""
        weight, _, cost, parts = self.totals
        return replace(self, totals=(weight, "ap_price", cost, parts))


_TEST = _Names(
    "test",
    ("weight_in", "price_into_stage", "test_cost", "parts_value"),
    ("loss_weight", "loss_ratio"),
    ("weight_out", "test_yield", "test_cost_per_usable_kg", "usable_value"),
    "test_cost_factor",
    "part",
    ("weight", "part_share", "worth", "part_value"),
)
_STAGE = _Names(
    "stage",
    ("tested_in", "price_into_stage", "tested_cost", "tested_credits"),
    ("tested_loss", "loss_share"),
    ("tested_out", "measured_yield", "cost_per_usable_kg", "tested_usable_value"),
    "cost_factor_per_usable_kg",
    "byproduct",
    ("tested_weight", "byproduct_share_of_in", "byproduct_worth", "tested_credit"),
)


def yield_tests(view: View, cut: Cut) -> Iterator[Form]:
    """For each stage in the cut's file all tests together, then a sheet for each test.

    The portions stand on every sheet where they have room, else on sheets of their own.
    """
    stages = list(stages_of(cut))
    served = tuple(portions(view, (*view.uses.cooks_of_cut.get(cut.id, ()), cut)))
    rows = view.costed.rows
    parts = max(
        (len(rows.byproducts[rows.stages[cut.path, name]]) for name, _ in stages), default=0
    )
    fits = parts + sum(len(grid.rows) for grid in served) <= _ROOM
    beside = served if fits else ()
    first = stages[0][0] if stages else ""
    for name, stage in stages:
        names = (_STAGE, _TEST)
        if name == first:
            names = (_STAGE.of_first_stage, _TEST.of_first_stage)
        yield from _stage_sheets(view, cut, name, stage, names, beside)
    if not any(stage.tests for _, stage in stages):
        yield open_yield_test(view, cut)
    for number, grid in enumerate(() if fits else served, 1):
        key = sheet_key("portions", number)
        yield _form(view, cut, key, tr("What it comes to on the plate"), "", (grid,))


def _stage_sheets(
    view: View,
    cut: Cut,
    name: str,
    stage: Stage,
    names: tuple[_Names, _Names],
    beside: tuple[FormBlock, ...],
) -> Iterator[Form]:
    of_all, of_one = names
    rows = view.costed.rows
    row = rows.stages[cut.path, name]
    count, doubt = len(stage.tests), tr(IN_DOUBT) if view.costed.doubts.of_cut(cut) else ""
    if count > 1:
        sheets = _sheets(view, of_all, row, rows.byproducts[row], doubt)
        rests_on = basis(view, view.stage(cut.path, name), stage)
        about = tr(
            "{name}: all tests together; {rests_on}", name=capital(tr(name)), rests_on=rests_on
        )
        end = (*beside, FormNote(tr(_BALANCE) + tr(_POOLED)))
        weighed = [test.date.day for test in stage.tests]
        days = view.style.days(min(weighed), max(weighed))
        yield from _forms(view, cut, f"{slug(name)}-all", about, days, sheets, end)
    for number, (test, written) in enumerate(zip(rows.tests[row], stage.tests, strict=True), 1):
        sheets = _sheets(view, of_one, test, rows.parts[test], doubt)
        about = tr(
            "{name}: test {number} of {count}", name=capital(tr(name)), number=number, count=count
        )
        day = view.style.date(written.date.day)
        remark = FormNote(str(written.note)) if written.note else FormLines(tr("Remarks"), 2)
        rests = tr(_SERVED) if beside and count > 1 else ""
        end = (*beside, remark, FormNote(tr(_BALANCE) + tr(_ONE) + rests))
        yield from _forms(view, cut, f"{slug(name)}-{number}", about, day, sheets, end)


def _forms(
    view: View,
    cut: Cut,
    key: str,
    about: str,
    day: str,
    sheets: Sequence[tuple[FormBlock, ...]],
    end: tuple[FormBlock, ...],
) -> Iterator[Form]:
    """The sheets of one breakdown; what ends it is on the last."""
    for number, blocks in enumerate(sheets, 1):
        last = number == len(sheets)
        which = (
            tr(
                "{about}; sheet {number} of {sheets}",
                about=about,
                number=number,
                sheets=len(sheets),
            )
            if len(sheets) > 1
            else about
        )
        block = (*blocks, *end) if last else blocks
        yield _form(view, cut, sheet_key(key, number), which, day, block)


def _form(
    view: View, cut: Cut | None, key: str, about: str, day: str, blocks: tuple[FormBlock, ...]
) -> Form:
    head = FormFields(tuple(_head(view, cut, day)))
    title = labelled(tr(TITLE), cut.title) if cut else tr(TITLE)
    return Form(key, title, (head, *blocks), about, cut.file if cut else "")


def _head(view: View, cut: Cut | None, day: str) -> Iterator[FormField]:
    current = view.costed.prices.get(cut.id) if cut else None
    price = value(view, ("cut", "ap_price", view.costed.rows.cuts[cut.id])) if cut else ""
    yield FormField(tr("Item"), cut.title if cut else "")
    yield FormField("IMPS", str(cut.imps or "") if cut else "", width="quarter")
    yield FormField(tr("Date"), day, width="quarter")
    yield FormField(tr("Supplier"), current.supplier if current else "")
    yield FormField(tr("AP price"), price, "" if price else price_unit(view), "quarter")
    yield FormField(tr("Tested by"), width="quarter")


def _columns(view: View, *, open_: bool) -> tuple[Column, ...]:
    """The breakdown's columns; on an open sheet they name the units to write in."""
    return (
        Column("part", tr("Part")),
        Column("weight", tr("Weight"), True, mass_unit(view) if open_ else ""),
        Column("ratio", tr("Ratio to total"), True, "%" if open_ else ""),
        Column("worth", tr("Value per unit"), True, price_unit(view) if open_ else ""),
        Column("value", tr("Total value"), True, view.style.currency if open_ else ""),
    )


def _sheets(
    view: View, names: _Names, row: int, parts: dict[str, int], doubt: str
) -> list[tuple[FormBlock, ...]]:
    """The breakdown of a test, or of all tests, with what it comes to; longer than a page, cut.

    `doubt` is said of what usable weight is worth.
    """
    labels = (
        tr("Weight in"),
        tr("Price into the stage"),
        tr("Total cost"),
        tr("Value of by-products"),
    )
    head = FormFields(fields(view, *zip(labels, of(names.table, row, *names.totals), strict=True)))
    columns = _columns(view, open_=False)
    *before, last = [
        tuple(
            line(view, part.capitalize(), *of(names.part_table, n, *names.part)) for part, n in some
        )
        for some in chunks(parts.items(), _MOST_PARTS)
    ]
    end = FormGrid(tr("Breakdown"), columns, last, foot=_foot(view, names, row))
    cut = [(FormGrid(tr("Breakdown, to be continued"), columns, rows),) for rows in before]
    first, *others = [*cut, (end, _results(view, names, row, doubt))]
    return [(head, *first), *others]


def _foot(view: View, names: _Names, row: int) -> tuple[Row, ...]:
    """Loss, usable weight and total under the parts."""
    weight_in, _, cost, _ = of(names.table, row, *names.totals)
    return (
        line(view, tr("Loss in cutting"), *of(names.table, row, *names.loss), "", ""),
        line(view, tr("Usable weight"), *of(names.table, row, *names.usable)),
        line(view, tr("Total"), weight_in, view.style.percent(1.0), "", cost, total=True),
    )


def _results(view: View, names: _Names, row: int, doubt: str) -> FormFields:
    weight, _, per_unit, worth = of(names.table, row, *names.usable)
    several = names.table == _STAGE.table and view.number("stage", "tests_count", row) > 1
    means = (
        (tr("Mean of the yields"), "mean_test_yield"),
        (tr("Their spread (SD)"), "test_yield_spread"),
    )
    return FormFields(
        fields(
            view,
            (tr("Usable weight"), weight),
            (tr("Value of usable weight"), worth),
            (tr("Cost per usable unit"), per_unit),
            (tr("Cost factor per unit"), (names.table, names.factor, row)),
            *((label, ("stage", figure, row)) for label, figure in (means if several else ())),
            doubt=doubt,
            but=(tr("Usable weight"), *(label for label, _ in means)),
        )
    )


def open_yield_test(view: View, cut: Cut | None = None) -> Form:
    """A sheet to write on, blank or with the cut's name and price."""
    mass, money = mass_unit(view), view.style.currency
    ends = (tr("Loss in cutting"), tr("Usable weight"), tr("Total"))
    foot = tuple(Row((Cell(end), *(Cell("") for _ in range(4)))) for end in ends)
    blocks = (
        FormFields(
            (
                FormField(tr("Weight in"), "", mass, "quarter"),
                FormField(tr("Price into the stage"), "", price_unit(view), "quarter"),
                FormField(tr("Total cost"), "", money, "quarter"),
                FormField(tr("Stage"), width="quarter"),
            )
        ),
        FormGrid(tr("Breakdown"), _columns(view, open_=True), blank=8, foot=foot),
        FormFields(
            (
                FormField(tr("Cost per usable unit"), "", price_unit(view), "quarter"),
                FormField(tr("Cost factor per unit"), width="quarter"),
                FormField(tr("Portion size"), width="quarter"),
                FormField(tr("Portion cost"), "", money, "quarter"),
            )
        ),
        _TICKS,
        FormLines(tr("Remarks"), 2),
        FormNote(
            tr(_BALANCE)
            + tr(
                "Value of the usable weight = total cost − value of the other parts; "
                "cost factor = cost per usable unit ÷ AP price."
            )
        ),
    )
    return _form(
        view, cut, "open", tr("Weigh, write, and copy it into the cut's file."), "", blocks
    )
