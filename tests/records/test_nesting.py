"""Sub-recipes nested deeper than calls can be, circles in them, and which price counts.

What a nest costs follows by hand: each recipe leaves 99 % of the one below.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from tests.kitchens import costed_from, read, write
from tests.kitchens.small import SMALL

DEEP = 1200


def nest(depth: int) -> dict[str, str]:
    """A bought item and recipes made of each other in a row."""
    recipes = {
        f"pantry/n{n}.yaml": f"of: {{n{n - 1}: 1 kg}}\nyield: 99 %\n" for n in range(1, depth)
    }
    return {"pantry/n0.yaml": "price: 1.00/kg\n", **recipes}


def test_a_nest_deeper_than_calls_can_be(tmp_path: Path) -> None:
    costed = costed_from(write(tmp_path, {**SMALL, **nest(DEEP)}))
    row = costed.rows.pantry[f"n{DEEP - 1}"]
    cost = costed.figures.value("pantry", "food_per_unit", row)
    assert cost == pytest.approx(1 / 0.99 ** (DEEP - 1), rel=1e-9)


@pytest.mark.parametrize(
    ("files", "reported"),
    [
        (
            {"pantry/a.yaml": "of: {a: 1 kg}\nyield: 90 %\n"},
            ["pantry/a.yaml:1:6 made of itself: a -> a"],
        ),
        (
            {
                "pantry/a.yaml": "of: {salt: 1 kg, b: 1 kg, c: 1 kg}\nyield: 90 %\n",
                "pantry/b.yaml": "of: {c: 1 kg, a: 1 kg}\nyield: 90 %\n",
                "pantry/c.yaml": "of: {b: 1 kg}\nyield: 90 %\n",
            },
            [
                "pantry/b.yaml:1:15 made of itself: a -> b -> a",
                "pantry/c.yaml:1:6 made of itself: b -> c -> b",
            ],
        ),
        ({**nest(DEEP), "pantry/n0.yaml": f"of: {{n{DEEP - 1}: 1 kg}}\nyield: 90 %\n"}, None),
    ],
)
def test_each_circle_is_reported_once(
    files: Mapping[str, str], reported: list[str] | None, tmp_path: Path
) -> None:
    costed, problems = read(write(tmp_path, {**SMALL, **files}))
    assert costed is None
    found = [f"{problem.place} {problem.message}" for problem in problems]
    assert found == (reported or found[:1])


def test_a_price_still_to_come_is_no_price(tmp_path: Path) -> None:
    files = {"pantry/pepper.yaml": "{}\n", "prices/p.csv": "date,item,price\n"}
    late, early = ("2026-12-01,pepper,9.00/kg\n", "2026-09-01,pepper,9.00/kg\n")
    _, problems = read(
        write(tmp_path / "late", {**SMALL, **files, "prices/p.csv": files["prices/p.csv"] + late})
    )
    assert [problem.message for problem in problems] == [
        "Pepper has no price before Dec 1, 2026 and is left out"
    ]
    costed_from(
        write(tmp_path / "early", {**SMALL, **files, "prices/p.csv": files["prices/p.csv"] + early})
    )


LISTS = """\
date,item,price,supplier
2026-09-01,pepper,9.00/kg,West
2026-09-01,pepper,8.00/kg,East
2026-08-01,pepper,7.00/kg,East
"""


@pytest.mark.parametrize(
    ("supplier", "counts", "warned"),
    [("", 9.0, 1), ("supplier: East\n", 8.0, 0), ("supplier: West\n", 9.0, 0)],
)
def test_two_prices_of_one_day(supplier: str, counts: float, warned: int, tmp_path: Path) -> None:
    files = {"pantry/pepper.yaml": f"name: Pepper\n{supplier}", "prices/p.csv": LISTS}
    costed, problems = read(write(tmp_path, {**SMALL, **files}))
    assert costed is not None
    row = costed.rows.pantry["pepper"]
    assert costed.figures.value("pantry", "purchase_price", row) == counts
    reported = [p for p in problems if "has a price of that day, too" in p.message]
    assert [str(p.place) for p in reported] == ["prices/p.csv:3:19"] * warned
    assert all(p.record == "pantry/pepper" for p in reported)
