"""The parts of a move, by hand; each expected number follows from the kitchen's few inputs."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from builder.costing.history import CAUSE_OF, INSTEAD, TARGETS, Cause, Entry
from builder.costing.model import MODEL
from builder.engine.tables import Entered
from tests.changes.kitchens import BEFORE, Files, edited, entry

Parts = dict[Cause, float]
Edits = tuple[tuple[str, str, str], ...]


def parts(found: Entry, figure: str, plate: str = "plates/dear") -> Parts:
    """The parts of one figure's move, none where it did not move."""
    for move in found.moves:
        if (move.plate, move.figure) == (plate, figure):
            assert move.before is not None and move.stations[-1][1] == move.after
            values = [move.before, *(value for _, value in move.stations)]
            steps = [after - before for before, after in pairwise(values)]
            return dict(zip((cause for cause, _ in move.stations), steps, strict=True))
    return {}


PRICE = ("cuts/x.yaml", "10/kg", "12/kg")
LOSS = ("cooks/a.yaml", "20 %", "36 %")
PORTION = ("plates/dear.yaml", "200 g", "160 g")
SIDE = ("plates/dear.yaml", "cook: a", "cook: a\nwith: {salsa: 50 g}")
WAGE = ("kitchen.yaml", "20/h", "30/h")
WORK = ("cooks/a.yaml", "1 h", "2 h")
TARIFF = ("kitchen.yaml", "0.20", "0.30")
MENU = ("plates/dear.yaml", "price: 20", "price: 22")

# edits, parts of food cost, of full cost, of the contribution margin
SPLITS: list[tuple[str, Edits, Parts, Parts, Parts]] = [
    # 5 kg cost 60: 3.00 each.
    ("price", (PRICE,), {Cause.PRICE: 0.5}, {Cause.PRICE: 0.5}, {Cause.PRICE: -0.5}),
    # 3.2 kg are 16 portions: food 50/16, work 20/16, energy 2/16.
    (
        "yield",
        (LOSS,),
        {Cause.YIELD: 0.625},
        {Cause.YIELD: 0.625 + 0.25 + 0.025},
        {Cause.YIELD: -0.625},
    ),
    # 25 portions: food 50/25, work 20/25, energy 2/25.
    (
        "portion",
        (PORTION,),
        {Cause.PORTION: -0.5},
        {Cause.PORTION: -0.5 - 0.2 - 0.02},
        {Cause.PORTION: 0.5},
    ),
    # 50 g at 8 a kilogram.
    ("recipe", (SIDE,), {Cause.RECIPE: 0.4}, {Cause.RECIPE: 0.4}, {Cause.RECIPE: -0.4}),
    ("wage", (WAGE,), {}, {Cause.WAGE: 0.5}, {}),
    ("work", (WORK,), {}, {Cause.WORK: 1.0}, {}),
    ("energy", (TARIFF,), {}, {Cause.ENERGY: 0.05}, {}),
    ("menu price", (MENU,), {}, {}, {Cause.MENU_PRICE: 2.0}),
    # First the price over 20 portions (60/20), then the yield at the new price (60/16).
    (
        "price and yield",
        (PRICE, LOSS),
        {Cause.PRICE: 0.5, Cause.YIELD: 0.75},
        {Cause.PRICE: 0.5, Cause.YIELD: 0.75 + 0.25 + 0.025},
        {Cause.PRICE: -0.5, Cause.YIELD: -0.75},
    ),
    # 30 an hour over 20 portions, then two hours of it.
    ("wage and work", (WAGE, WORK), {}, {Cause.WAGE: 0.5, Cause.WORK: 1.5}, {}),
    # 25 portions first (20/25), then 30 an hour over 25.
    (
        "portion and wage",
        (PORTION, WAGE),
        {Cause.PORTION: -0.5},
        {Cause.PORTION: -0.72, Cause.WAGE: 0.4},
        {Cause.PORTION: 0.5},
    ),
]


@pytest.mark.parametrize(
    ("edits", "food", "full", "margin"), [s[1:] for s in SPLITS], ids=[s[0] for s in SPLITS]
)
def test_parts_by_hand(
    edits: Edits, food: Parts, full: Parts, margin: Parts, tmp_path: Path
) -> None:
    found = entry(tmp_path, edited(*edits))
    for figure, expected in zip(TARGETS, (food, full, margin), strict=True):
        assert parts(found, figure) == pytest.approx(expected)


def test_an_item_that_went_is_a_part_of_the_recipe_beside_the_price(tmp_path: Path) -> None:
    before = edited(SIDE)
    found = entry(tmp_path, edited(PRICE), before)
    assert parts(found, "food_cost") == pytest.approx({Cause.RECIPE: -0.4, Cause.PRICE: 0.5})


def test_another_cook_is_another_recipe(tmp_path: Path) -> None:
    """The same cut cooked with more loss: 16 portions of it, as for the yield."""
    before = {**BEFORE, "cooks/b.yaml": BEFORE["cooks/a.yaml"].replace("20 %", "36 %")}
    found = entry(
        tmp_path, edited(("plates/dear.yaml", "cook: a", "cook: b"), files=before), before
    )
    assert parts(found, "food_cost") == pytest.approx({Cause.RECIPE: 0.625})


TRIM = "trim:\n  tests:\n    - {date: 2026-01-12, in: 10 kg, out: 8 kg}\n"
KEPT = TRIM.replace("out: 8 kg", "out: 7 kg, parts: {mince: [1 kg, 5/kg]}")


@pytest.mark.parametrize(
    ("before", "after", "moved"),
    [
        # Of 5 kg in the oven 6.25 kg were bought: 62.50 over 20 portions.
        ("", TRIM, 0.625),
        # 5/0.7 kg bought at 10, of which a tenth at 5 comes back.
        (TRIM, KEPT, (50 / 0.7 - 5 / 0.7 * 0.1 * 5 - 62.5) / 20),
        (KEPT, KEPT.replace("1 kg, 5/kg", "2 kg, 5/kg"), -5 / 0.7 * 0.1 * 5 / 20),
    ],
    ids=["first weighing", "a by-product comes", "more of a by-product"],
)
def test_weighings_are_yields(before: str, after: str, moved: float, tmp_path: Path) -> None:
    cut = BEFORE["cuts/x.yaml"]
    files = [{**BEFORE, "cuts/x.yaml": cut + more} for more in (before, after)]
    found = entry(tmp_path, files[1], files[0])
    assert parts(found, "food_cost") == pytest.approx({Cause.YIELD: moved})


def test_a_worth_is_a_price(tmp_path: Path) -> None:
    cut = BEFORE["cuts/x.yaml"] + KEPT
    found = entry(
        tmp_path,
        {**BEFORE, "cuts/x.yaml": cut.replace("5/kg", "6/kg")},
        {**BEFORE, "cuts/x.yaml": cut},
    )
    # A tenth of 5/0.7 kg is worth 1 more a kilogram, over 20 portions.
    assert parts(found, "food_cost") == pytest.approx({Cause.PRICE: -5 / 0.7 * 0.1 / 20})


def renamed(files: Files, old: str, new: str) -> dict[str, str]:
    """A kitchen with a file under another name."""
    return {path.replace(old, new): text for path, text in files.items()}


def test_a_renamed_item_moves_nothing(tmp_path: Path) -> None:
    before = edited(SIDE)
    after = edited(
        ("plates/dear.yaml", "salsa", "green-salsa"),
        files=renamed(before, "salsa.yaml", "green-salsa.yaml"),
    )
    found = entry(tmp_path, after, before)
    assert found.moves == ()
    (record,) = found.records
    assert (record.what, record.path) == ("renamed", "pantry/green-salsa")
    assert (record.before, record.title) == ("Salsa", "Green salsa")


def test_a_price_is_followed_through_a_new_name(tmp_path: Path) -> None:
    after = edited(("cooks/a.yaml", "cut: x", "cut: z"), PORTION, WAGE)
    found = entry(tmp_path, renamed(after, "cuts/x", "cuts/z"))
    assert parts(found, "food_cost") == pytest.approx({Cause.PORTION: -0.5})


def test_another_title_is_another_name(tmp_path: Path) -> None:
    after = {**BEFORE, "plates/other.yaml": f"name: Supper\n{BEFORE['plates/other.yaml']}"}
    (record,) = entry(tmp_path, after).records
    assert (record.what, record.before, record.title) == ("renamed", "Other", "Supper")


def test_records_that_come_and_go(tmp_path: Path) -> None:
    after = {path: text for path, text in BEFORE.items() if path != "plates/other.yaml"}
    found = entry(tmp_path, {**after, "pantry/oil.yaml": "price: 5/kg\n"})
    assert {(each.what, each.path) for each in found.records} == {
        ("added", "pantry/oil"),
        ("removed", "plates/other"),
    }
    assert found.moves == ()


def test_every_input_behind_a_cost_has_a_group() -> None:
    nodes = MODEL.upstream([("plate", figure) for figure in TARGETS])
    inputs = {node for node in nodes if isinstance(MODEL.definition(node).how, Entered)}
    weighed = {node for node in inputs if node[0] in {"stage", "test", "part", "byproduct"}}
    assert inputs - weighed == set(CAUSE_OF) - set(INSTEAD)
