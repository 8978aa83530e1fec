"""The cooking loss test on paper: what one load of a cook leaves to serve, and its cost."""

from __future__ import annotations

from collections.abc import Iterator

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
    Row,
)
from builder.pages.form_pieces import (
    fields,
    line,
    mass_unit,
    noted_row,
    of,
    portions,
    price_unit,
    sheet_key,
    value,
)
from builder.pages.stages import basis, spread_words
from builder.pages.unknown import IN_DOUBT, chain_doubts, cook_note, loss_note
from builder.pages.values import capital
from builder.pages.view import StageRow, View
from builder.pages.ways import way_words
from builder.reading.names import slug
from builder.records.chains import stages_of
from builder.records.kinds import Cook
from builder.records.stages import Stage

TITLE = Deferred("Cooking loss test")
_MOST_TESTS = 16
# Rows of stages and plates that one page holds beside the rest.
_ROOM = 9
_NOTE = Deferred(
    "Ratios are to the weight as purchased. Net cost = AP cost − value of "
    "by-products; cost per servable unit = net cost ÷ servable weight; cost "
    "factor = that ÷ AP price."
)
# Of what is printed: what is written by hand is as fine as whoever writes.
_FINENESS = Deferred("Money is written no finer than it is known.")
_LINES = (
    Deferred("As purchased (AP)"),
    Deferred("Trimmed, into the cook"),
    Deferred("Cooked"),
    Deferred("Bones, trim and other by-products"),
    Deferred("Lost in all"),
    Deferred("Servable (EP)"),
)


def cooking_losses(view: View, cook: Cook) -> Iterator[Form]:
    """The batch as the kitchen costs it, then the weighings of each stage in the cook's file.

    The portions stand on the first sheet where they have room, else on sheets of their own.
    """
    served = tuple(portions(view, [cook]))
    stages = len(view.costed.rows.steps[cook.id])
    fits = stages + sum(len(grid.rows) for grid in served) <= _ROOM
    yield _batch_form(view, cook, served if fits else ())
    head = FormFields(tuple(_head(view, cook)))
    for number, grid in enumerate(() if fits else served, 1):
        key = sheet_key("portions", number)
        yield Form(key, labelled(tr(TITLE), cook.title), (head, grid), reference=cook.file)
    for name, stage in stages_of(cook):
        if stage.tests:
            yield _tests_form(view, cook, name, stage)


def _batch_form(view: View, cook: Cook, beside: tuple[FormBlock, ...]) -> Form:
    row = view.costed.rows.cooks[cook.id]
    costs = ("ap_cost", "credits", "net_cost", "cost_per_servable_kg", "cost_factor_per_kg")
    ap_cost, credits, net_cost, per_unit, factor = of("batch", row, *costs)
    blocks: tuple[FormBlock, ...] = (
        FormFields(tuple(_head(view, cook))),
        FormGrid(tr("Weights of one load"), _weight_columns(""), tuple(_weights(view, cook, row))),
        FormGrid(tr("Stage by stage"), _STEP_COLUMNS, tuple(_steps(view, cook))),
        FormFields(
            fields(
                view,
                (tr("AP cost"), ap_cost),
                (tr("Value of by-products"), credits),
                (tr("Net cost"), net_cost),
                (tr("Pieces"), ("batch", "pieces", row)),
                (tr("Cost per servable unit"), per_unit),
                (tr("Cost factor per unit"), factor),
                doubt=cook_note(view, cook),
                but=(tr("AP cost"), tr("Value of by-products"), tr("Pieces")),
            )
        ),
        *beside,
        FormNote(f"{tr(_NOTE)} {tr(_FINENESS)}"),
    )
    weighed = any(stage.tests for _, stage in stages_of(cook))
    about = (
        tr("One load as the kitchen's figures have it, all tests together.")
        if weighed
        else tr("One load as the kitchen's figures have it; nobody weighed this cook.")
    )
    return Form("batch", labelled(tr(TITLE), cook.title), blocks, about, cook.file)


def _head(view: View, cook: Cook | None) -> Iterator[FormField]:
    cut = view.costed.content.cuts[cook.cut] if cook else None
    row = view.costed.rows.cooks[cook.id] if cook else -1
    at = value(view, ("batch", "cook_temperature", row)) if cook else ""
    hours = value(view, ("batch", "cook_hours", row)) if cook else ""
    price = value(view, ("cut", "ap_price", view.costed.rows.cuts[cut.id])) if cut else ""
    yield FormField(tr("Item"), cut.title if cut else "")
    yield FormField("IMPS", str(cut.imps or "") if cut else "", width="quarter")
    yield FormField(tr("AP price"), price, "" if price else price_unit(view), "quarter")
    yield FormField(tr("How cooked"), way_words(cook.how) if cook else "")
    yield FormField(tr("Temperature"), at, width="quarter")
    yield FormField(tr("For"), hours, width="quarter")


def _weight_columns(unit: str) -> tuple[Column, ...]:
    return (
        Column("what", tr("Weight of")),
        Column("weight", tr("Weight"), True, unit),
        Column("ratio", tr("Ratio to total"), True, "%" if unit else ""),
    )


def _weights(view: View, cook: Cook, row: int) -> Iterator[Row]:
    purchased, trimmed, cooked, by_products, lost, servable = _LINES
    yield line(view, purchased, ("batch", "ap_weight", row), view.style.percent(1.0))
    yield line(view, trimmed, *of("batch", row, "load", "yield_to_load"))
    note = loss_note(view, cook)
    doubts = chain_doubts(view, cook)
    for (link, step), doubt in zip(view.costed.rows.steps[cook.id], doubts, strict=True):
        if link.name == "cook":
            found = line(view, cooked, *of("step", step, "step_weight_out", "share_through"))
            yield noted_row(found, tr(IN_DOUBT) if doubt.goes_on else "")
    yield line(view, by_products, *of("batch", row, "byproducts_weight", "byproducts_ratio"))
    yield noted_row(line(view, lost, *of("batch", row, "losses_weight", "losses_ratio")), note)
    served = line(view, servable, *of("batch", row, "servable_weight", "overall_yield"), total=True)
    yield noted_row(served, note)


_STEP_COLUMNS = (
    Column("stage", Deferred("Stage")),
    Column("in", Deferred("In"), True),
    Column("out", Deferred("Out"), True),
    Column("parts", Deferred("By-products"), True),
    Column("lost", Deferred("Lost"), True),
    Column("ratio", Deferred("Ratio to total"), True),
    Column("cost", Deferred("Cost per unit"), True),
)
_STEP_FIGURES = (
    "step_weight_in",
    "step_weight_out",
    "step_byproducts",
    "step_loss",
    "share_through",
    "cost_per_kg_out",
)


def _steps(view: View, cook: Cook) -> Iterator[Row]:
    doubts = chain_doubts(view, cook)
    for (link, row), doubt in zip(view.costed.rows.steps[cook.id], doubts, strict=True):
        found = line(view, capital(tr(link.name)), *of("step", row, *_STEP_FIGURES))
        in_, out, cost = (tr(IN_DOUBT) if each else "" for each in doubt)
        yield noted_row(found, in_, out, in_, out, out, cost)


# Weighings


_TEST_COLUMNS = (
    Column("date", Deferred("Date")),
    Column("in", Deferred("In"), True),
    Column("out", Deferred("Out"), True),
    Column("parts", Deferred("By-products"), True),
    Column("lost", Deferred("Lost"), True),
    Column("loss", Deferred("Loss"), True),
    Column("yield", Deferred("Yield"), True),
)
_TEST_FIGURES = (
    "weight_in",
    "weight_out",
    "parts_weight",
    "loss_weight",
    "loss_ratio",
    "test_yield",
)
_POOLED_FIGURES = (
    "tested_in",
    "tested_out",
    "tested_parts",
    "tested_loss",
    "loss_share",
    "measured_yield",
)


def _tests_form(view: View, cook: Cook, name: str, stage: Stage) -> Form:
    row = view.stage(cook.path, name)
    tests = list(zip(view.tests(row), stage.tests, strict=True))[-_MOST_TESTS:]
    body = tuple(
        line(view, view.style.date(written.date.day), *of("test", test.row, *_TEST_FIGURES))
        for test, written in tests
    )
    foot = (
        *_mean_line(view, row),
        line(view, tr("All together"), *of("stage", row.row, *_POOLED_FIGURES), total=True),
    )
    left_out = len(stage.tests) - len(tests)
    rests_on = capital(basis(view, row, stage, with_means=True))
    older = tr(
        " {left_out} older tests count in the last line but are not shown.", left_out=left_out
    ) * bool(left_out)
    return Form(
        f"tests-{slug(name)}",
        tr("Weighings: {cook}, {name}", cook=cook.title, name=name),
        (
            FormFields(tuple(_head(view, cook))),
            FormGrid(tr("Tests"), _TEST_COLUMNS, body, foot=foot),
            FormLines(tr("Remarks"), 2),
            FormNote(f"{rests_on}.{older}"),
        ),
        reference=cook.file,
    )


def _mean_line(view: View, row: StageRow) -> Iterator[Row]:
    """The mean of the yields with its spread under several tests."""
    if spread := spread_words(row):
        mean = ("stage", "mean_test_yield", row.row)
        yield line(view, tr("Mean of the yields, {spread}", spread=spread), *[""] * 5, mean)


def open_cooking_loss(view: View) -> Form:
    """A sheet to write on."""
    mass, money = mass_unit(view), view.style.currency
    rows = tuple(Row((Cell(what), Cell(""), Cell(""))) for what in _LINES)
    blocks: tuple[FormBlock, ...] = (
        FormFields(tuple(_head(view, None))),
        FormFields(
            (
                FormField(tr("Equipment")),
                FormField(tr("Date"), width="quarter"),
                FormField(tr("Tested by"), width="quarter"),
                FormField(tr("Core when it came out")),
                FormField(tr("Went in at"), width="quarter"),
                FormField(tr("Came out at"), width="quarter"),
            )
        ),
        FormGrid(tr("Weights"), _weight_columns(mass), rows),
        FormFields(
            (
                FormField(tr("AP cost"), "", money, "quarter"),
                FormField(tr("Value of by-products"), "", money, "quarter"),
                FormField(tr("Net cost"), "", money, "quarter"),
                FormField(tr("Cost per servable unit"), "", price_unit(view), "quarter"),
                FormField(tr("Cost factor per unit"), width="quarter"),
                FormField(tr("Portion size"), width="quarter"),
                FormField(tr("Portion cost"), "", money, "quarter"),
                FormField(tr("Cost factor per portion"), width="quarter"),
            )
        ),
        FormLines(tr("Remarks"), 3),
        FormNote(tr(_NOTE)),
    )
    return Form("open", tr(TITLE), blocks, tr("Weigh, write, and copy it into the cook's file."))
