"""A sub-recipe with a yield is made by weight: every ingredient needs one."""

from __future__ import annotations

from math import nan
from pathlib import Path

import pytest

from builder.pages.waterfalls import Bar, waterfall
from tests.kitchens import read, write
from tests.kitchens.small import SMALL

MASH = "pantry/mash.yaml"


@pytest.mark.parametrize(
    ("price", "amount", "hint"),
    [
        ("7.20/L", "200 ml", "litre: 1.02 kg"),
        ("7.20/qt", "1 cup", "quart: 975 g"),
        ("0.40/each", "4 each", "each: 120 g"),
        ("free/each", "4 each", "each: 120 g"),
    ],
)
def test_an_ingredient_without_a_weight_is_an_error_at_its_line(
    price: str, amount: str, hint: str, tmp_path: Path
) -> None:
    mash = f"yield: 97 %\nof:\n  potato: 3 kg\n  other: {amount}\n"
    files = {**SMALL, "pantry/other.yaml": f"price: {price}\n", MASH: mash}
    _, problems = read(write(tmp_path, files))
    [error] = [problem for problem in problems if problem.is_error]
    assert (error.place.file, error.place.line) == (MASH, 4)
    assert f"{amount} of other has no weight" in error.message
    assert error.hint == f"write in pantry/other.yaml what one weighs, such as {hint}"
    weighed = {**files, "pantry/other.yaml": f"price: {price}\n{hint}\n"}
    assert not any(p.is_error for p in read(write(tmp_path / "weighed", weighed))[1])
    measured = {**files, MASH: mash.replace("yield: 97 %", "makes: 3 kg")}
    assert not any(p.is_error for p in read(write(tmp_path / "measured", measured))[1])


def test_ingredients_that_weigh_nothing_make_nothing(tmp_path: Path) -> None:
    files = {**SMALL, MASH: "of: {potato: 0 kg}\nyield: 97 %\n"}
    [error] = [problem for problem in read(write(tmp_path, files))[1] if problem.is_error]
    assert (error.place.file, error.place.line) == (MASH, 1)
    assert "weigh nothing" in error.message


def test_a_bar_without_a_value_is_not_drawn() -> None:
    bars = [
        Bar("a", 2.0, "2.00", ((1.0, "a"),), total=True),
        Bar("b", nan, "", ((1.0, "b"),)),
        Bar("c", 1.0, "+1.00", ((1.0, "c"),)),
    ]
    drawn = waterfall("w", "t", "s", "CAD", bars, listed=True)
    assert [(row["step"], row["start"], row["end"]) for row in drawn.rows] == [
        ("a", 0.0, 2.0),
        ("c", 2.0, 3.0),
    ]
    assert set(drawn.live) == {0, 1}
    assert drawn.table is not None
    assert len(drawn.table.rows) == 3
