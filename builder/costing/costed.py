"""A kitchen computed: its records, every figure, and which row is whose."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from builder.costing.fill import Filler, Rows
from builder.engine.figures import Figures, compute
from builder.problems import Problem, Severity
from builder.records.chains import stages_of
from builder.records.content import Content
from builder.records.kinds import Cook, Cut
from builder.records.pricing import CurrentPrice


@dataclass(frozen=True, slots=True)
class Costed:
    """Everything that the pages read; nothing in it is rounded or worded yet."""

    content: Content
    figures: Figures
    rows: Rows
    prices: Mapping[str, CurrentPrice]


def cost(content: Content) -> Costed:
    """Compute every figure of checked records."""
    filler = Filler(content)
    book, rows = filler.fill()
    return Costed(content, compute(book), rows, filler.prices)


def check_figures(costed: Costed) -> Iterator[Problem]:
    """Problems that only the figures show: portions larger than a piece, doubtful statements."""
    yield from _check_portions(costed)
    owners: list[Cut | Cook] = [*costed.content.cuts.values(), *costed.content.cooks.values()]
    for owner in owners:
        yield from _check_stated(costed, owner)


def _check_portions(costed: Costed) -> Iterator[Problem]:
    for plate in costed.content.plates.values():
        row = costed.rows.plates[plate.id]
        if plate.portion is None or costed.figures.value("plate", "portions_per_piece", row) >= 1:
            continue
        servable = costed.figures.value("plate", "servable_weight", row)
        pieces = costed.figures.value("plate", "pieces", row)
        yield Problem(
            plate.portion.place,
            f"a portion of {plate.portion.text} is more than one piece gives",
            f"a servable piece of {plate.cook} weighs {servable / pieces:.3f} kg",
        )


def _check_stated(costed: Costed, owner: Cut | Cook) -> Iterator[Problem]:
    """A stated loss that the kitchen's own tests contradict."""
    for name, stage in stages_of(owner):
        row = costed.rows.stages.get((owner.path, name))
        if row is None or stage.stated is None or stage.stated_yield is None:
            continue
        low, high, measured = (
            costed.figures.value("stage", figure, row)
            for figure in ("yield_low", "yield_high", "measured_yield")
        )
        # Without an interval (one test, or none) neither comparison holds.
        if not (stage.stated_yield < low or stage.stated_yield > high):
            continue
        yield Problem(
            stage.stated.place,
            f"{name}: {stage.stated.text} is stated, but the tests give a loss of "
            f"{1 - measured:.1%} ({1 - high:.1%} to {1 - low:.1%}); the tests count",
            "correct the stated figure, or weigh again",
            Severity.WARNING,
            owner.path,
        )
