"""What becomes of a batch: the picture and the table of its stages."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import tr
from builder.pages.components import (
    Balance,
    BalanceKind,
    BalancePart,
    BalanceStage,
    Cell,
    Column,
    Part,
    Row,
    Table,
)
from builder.pages.figure_names import StepFigure
from builder.pages.load_pieces import equal_parts
from builder.pages.parts import (
    part,
)
from builder.pages.stages import basis
from builder.pages.unknown import IN_DOUBT, chain_doubts, credit_note
from builder.pages.values import capital, in_mass_unit
from builder.pages.view import StepRow, View
from builder.pages.ways import way_words
from builder.records.chains import Link as ChainLink
from builder.records.kinds import Cook


def weights_part(view: View, cook: Cook) -> Part:
    """What becomes of a batch, stage by stage: a picture, a table, what a load gives."""
    steps = view.steps(cook)
    return part(
        "weights",
        tr("The chain of weights"),
        _balance(view, cook, steps),
        _stage_table(view, cook, steps),
        about=tr("In = out + by-products + loss at every stage.") + equal_parts(view, cook),
    )


def _balance(view: View, cook: Cook, steps: list[tuple[ChainLink, StepRow]]) -> Balance:
    batch = view.batch(cook)
    whole = batch.number("ap_weight")
    stages = tuple(_balance_stage(view, link, row, whole) for link, row in steps)
    summary = tr(
        "{ap_weight} as purchased, {servable_weight} to serve: {overall_yield}.",
        ap_weight=batch.text("ap_weight"),
        servable_weight=batch.text("servable_weight"),
        overall_yield=batch.text("overall_yield"),
    )
    return Balance("balance", tr("What becomes of a batch, stage by stage"), summary, stages)


def _balance_stage(view: View, link: ChainLink, row: StepRow, whole: float) -> BalanceStage:
    kinds: tuple[tuple[str, StepFigure, BalanceKind], ...] = (
        (tr("out"), "step_weight_out", "out"),
        (tr("by-products"), "step_byproducts", "by-product"),
        (tr("loss"), "step_loss", "loss"),
    )
    parts = []
    for label, figure, kind in kinds:
        weight = row.number(figure)
        if kind == "loss" and weight < -1e-9:
            gained = view.style.weight(-weight)
            parts.append(BalancePart(tr("taken up"), gained, 0.0, "gain"))
        elif weight > 1e-9:
            text = row.text(figure)
            parts.append(BalancePart(label, text, weight / whole, kind))
    return BalanceStage(
        label=capital(tr(link.name)),
        text=row.text("step_weight_in"),
        parts=tuple(parts),
        href=row.href("step_weight_in"),
        note=basis(view, view.stage(*link.key), link.stage),
    )


def _stage_table(view: View, cook: Cook, steps: list[tuple[ChainLink, StepRow]]) -> Table:
    columns = (
        Column("stage", tr("Stage")),
        # Money is next to the name: what a phone can't show is further on.
        Column("cost", in_mass_unit(view.style, tr("A kg out costs")), numeric=True),
        Column("credit", tr("Credit"), numeric=True),
        Column("in", tr("In"), numeric=True),
        Column("out", tr("Out"), numeric=True),
        Column("parts", tr("By-products"), numeric=True),
        Column("loss", tr("Loss"), numeric=True),
        Column("yield", tr("Yield"), numeric=True),
    )
    body = tuple(
        Row((Cell(capital(tr(link.name)), note=way_words(str(link.stage.how or ""))), *cells))
        for (link, _), cells in zip(steps, _stage_cells(view, cook, steps), strict=True)
    )
    return Table("stages", tr("A batch, stage by stage"), columns, body)


def _stage_cells(
    view: View, cook: Cook, steps: list[tuple[ChainLink, StepRow]]
) -> Iterator[tuple[Cell, ...]]:
    for (_, row), doubt in zip(steps, chain_doubts(view, cook), strict=True):
        in_, out, cost = (tr(IN_DOUBT) if each else "" for each in doubt)
        credited = not row.hides("step_credit") and row.number("step_credit") > 0
        credit = in_ or (cost and credit_note(view, cook))
        yield (
            row.cell("cost_per_kg_out", note=cost),
            row.cell("step_credit", note=credit if credited else ""),
            row.cell("step_weight_in", note=in_),
            row.cell("step_weight_out", note=out),
            row.cell("step_byproducts", note=in_),
            row.cell("step_loss", note=out),
            row.cell("stage_yield", note="" if doubt.came_in else out),
        )
