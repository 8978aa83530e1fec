"""What-ifs, traces and draws on a whole kitchen."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from builder.costing.costed import Costed
from builder.costing.model import MODEL
from builder.engine.figures import TraceStep
from builder.engine.model import Node
from builder.engine.tables import Applied, Fold, Formula, Given, Lookup, Running, Total
from tests.kitchens import costed_from, write
from tests.kitchens.small import SMALL
from tests.moving import with_row


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Costed:
    return costed_from(write(tmp_path_factory.mktemp("small"), SMALL))


# A file, what stands in it, what shall stand there, and the input that moves by it.
EDITS: list[tuple[str, str, str, Node, float]] = [
    ("cuts/chuck.yaml", "13.60/kg", "15.10/kg", ("cut", "ap_price"), 15.10),
    ("kitchen.yaml", "24.50/h", "31.00/h", ("kitchen", "loaded_wage"), 31.0),
    ("kitchen.yaml", "tax: 5 %", "tax: 12 %", ("kitchen", "tax_rate"), 0.12),
    ("cuts/chuck.yaml", "out: 7.51 kg", "out: 7.11 kg", ("test", "weight_out"), 7.11),
    ("cooks/chuck-30h.yaml", "for: 30 h", "for: 48 h", ("batch", "cook_hours"), 48.0),
    ("cooks/ribeye-grill.yaml", "loss: 17 %", "loss: 23 %", ("stage", "stated_yield"), 0.77),
    ("pantry/stock.yaml", "bones: 4 kg", "bones: 6 kg", ("ingredient", "quantity"), 6.0),
    ("pantry/bones.yaml", "2.40/kg", "3.90/kg", ("pantry", "purchase_price"), 3.90),
    (
        "plates/chuck-steak.yaml",
        "portion: 180 g",
        "portion: 210 g",
        ("plate", "stated_portion"),
        0.21,
    ),
    ("plates/braise.yaml", "2026-09: 150", "2026-09: 15", ("plate", "sold"), 15.0),
    ("swaps/braise-for-chuck.yaml", "forecast: 80", "forecast: 8", ("swap", "swap_forecast"), 8.0),
]


def moved_row(costed: Costed, node: Node, before: float) -> int:
    """The one row whose input has the old value."""
    [row] = np.flatnonzero(np.isclose(costed.figures.column(*node)[:, 0], before, rtol=1e-12))
    return int(row)


@pytest.mark.parametrize(("file", "old", "new", "node", "value"), EDITS)
def test_moving_an_input_is_writing_it_in_its_file(
    file: str, old: str, new: str, node: Node, value: float, small: Costed, tmp_path: Path
) -> None:
    """Every figure of the moved kitchen equals that of a clean computation of the edited files."""
    assert SMALL[file].count(old) == 1
    edited = costed_from(write(tmp_path, {**SMALL, file: SMALL[file].replace(old, new)}))
    row = moved_row(edited, node, value)
    moved = with_row(small.figures, node, row, [value])
    # A line's own weight is a second input that the file moves too.
    if node == ("ingredient", "quantity"):
        moved = with_row(moved, ("ingredient", "quantity_mass"), row, [value])
    # What a method gave stays: only the builder has the method.
    computed = [n for n in MODEL.needs if not isinstance(MODEL.definition(n).how, Applied)]
    for other in computed:
        np.testing.assert_allclose(
            moved.column(*other), edited.figures.column(*other), rtol=1e-12, err_msg=str(other)
        )


@pytest.mark.parametrize("node", [edit[3] for edit in EDITS])
def test_only_what_lies_downstream_is_computed_again(node: Node, small: Costed) -> None:
    moved = small.figures.moved({node: small.figures.column(*node) * 1.25})
    downstream = MODEL.downstream([node])
    assert downstream
    for other in MODEL.needs:
        same = moved.column(*other) is small.figures.column(*other)
        assert same is (other != node and other not in downstream), other


def test_what_changes_lies_downstream(small: Costed) -> None:
    """The other way round: nothing outside the computed set would have changed."""
    given = [node for node in MODEL.needs if isinstance(MODEL.definition(node).how, Given)]
    for node in given:
        everything = {other: small.figures.column(*other) for other in given}
        everything[node] = everything[node] * 1.25
        full = small.figures.moved(everything)
        allowed = MODEL.downstream([node]) | {node}
        for other in MODEL.needs.keys() - allowed:
            np.testing.assert_array_equal(full.column(*other), small.figures.column(*other))


def test_the_figures_moved_from_stay_as_they_were(small: Costed) -> None:
    before = {node: small.figures.column(*node).copy() for node in MODEL.needs}
    with_row(small.figures, ("cut", "ap_price"), 0, [1.0, 2.0])
    for node, values in before.items():
        np.testing.assert_array_equal(small.figures.column(*node), values)


def test_a_computed_figure_is_not_moved(small: Costed) -> None:
    with pytest.raises(ValueError, match=r"plate\.food_cost is computed"):
        small.figures.moved({("plate", "food_cost"): np.zeros((4, 1))})


def test_draws_of_a_whole_kitchen_are_separate_what_ifs(small: Costed) -> None:
    prices = [9.0, 13.6, 22.0]
    node = ("cut", "ap_price")
    together = with_row(small.figures, node, 0, prices)
    for draw, price in enumerate(prices):
        alone = with_row(small.figures, node, 0, [price])
        for other in MODEL.downstream([node]):
            wide, narrow = together.column(*other), alone.column(*other)
            assert wide.shape[1] in {1, len(prices)}
            np.testing.assert_array_equal(
                np.broadcast_to(wide, (len(wide), len(prices)))[:, draw], narrow[:, 0]
            )


def test_two_inputs_with_draws_move_together(small: Costed) -> None:
    wage = np.array([[20.0, 30.0]])
    price = small.figures.column("cut", "ap_price") * np.array([[1.0, 2.0]])
    moved = small.figures.moved({("kitchen", "loaded_wage"): wage, ("cut", "ap_price"): price})
    first = small.figures.moved({("kitchen", "loaded_wage"): wage[:, :1]})
    np.testing.assert_array_equal(
        moved.column("swap", "saving")[:, 0], first.column("swap", "saving")[:, 0]
    )
    assert moved.column("swap", "saving").shape[1] == 2


def folded(fold: Fold, values: list[float]) -> float:
    """A fold in plain Python."""
    match fold:
        case Fold.SUM:
            return math.fsum(values)
        case Fold.PRODUCT:
            return math.prod(values)
        case Fold.COUNT:
            return float(sum(not math.isnan(value) for value in values))
        case Fold.LEAST:
            return min((v for v in values if not math.isnan(v)), default=math.nan)
        case Fold.MOST:
            return max((v for v in values if not math.isnan(v)), default=math.nan)


def again(step: TraceStep, values: list[float], linked: bool) -> float:
    """A value made once more from what its trace says that it is made from."""
    match step.definition.how:
        case Given() | Applied():
            assert step.origin is not None
            return step.value
        case Formula(body=body):
            with np.errstate(all="ignore"):
                return float(body(*(np.array([[value]]) for value in values))[0, 0])
        case Lookup(missing=missing):
            return values[0] if values else missing
        case Running() if not linked:
            return math.nan
        case Total(fold=fold) | Running(fold=fold):
            return folded(fold, values)


def is_linked(costed: Costed, step: TraceStep) -> bool:
    """Whether a row belongs to the group that a running fold goes through."""
    how, (table, _) = step.definition.how, step.node
    return not isinstance(how, Running) or costed.figures.linked(table, how.link, step.row) >= 0


def test_every_value_is_what_its_trace_makes_of_it(small: Costed) -> None:
    figures, looked_at = small.figures, 0
    for node in MODEL.needs:
        for row in range(figures.size(node[0])):
            step = figures.explain(node, row)
            made_from = [figures.value(*other, its_row) for other, its_row in step.made_from]
            value = again(step, made_from, is_linked(small, step))
            assert value == pytest.approx(step.value, rel=1e-12, abs=1e-12, nan_ok=True), node
            looked_at += 1
    assert looked_at == sum(figures.size(table) for table, _ in MODEL.needs)


def test_every_trace_ends_at_inputs_with_a_place_or_a_reason(small: Costed) -> None:
    waiting = [(("swap", "saving_a_year"), row) for row in range(small.figures.size("swap"))]
    seen: set[tuple[Node, int]] = set()
    places = set()
    while waiting:
        at = waiting.pop()
        if at in seen:
            continue
        seen.add(at)
        step = small.figures.explain(*at)
        waiting.extend(step.made_from)
        if step.origin is not None:
            assert step.origin.place is not None or step.origin.reason
            if step.origin.place is not None:
                places.add(step.origin.place.file)
    assert {"kitchen.yaml", "cuts/chuck.yaml", "cooks/chuck-30h.yaml", "pantry/wine.yaml"} <= places
