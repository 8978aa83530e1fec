"""Sub-recipes nested deeper than calls can be, circles in them, and which price counts.

What a nest costs follows by hand: each recipe leaves 99 % of the one below.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path

import pytest

from builder.costing.costed import Costed
from builder.costing.dear import check_dear
from builder.costing.left_out import made_without_energy
from builder.costing.long_work import check_long_work
from builder.problems import Place
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


def ladder(levels: int) -> dict[str, str]:
    """Two recipes a level, each of both below: two ways to a level's, four to the next ..."""
    below = {
        f"pantry/{side}{n}.yaml": f"of: {{a{n - 1}: 1 kg, b{n - 1}: 1 kg}}\nyield: 99 %\n"
        for n in range(1, levels)
        for side in "ab"
    }
    return {f"pantry/{side}0.yaml": "price: 1.00/kg\n" for side in "ab"} | below


def calls(work: Callable[[], object]) -> int:
    """How many calls of Python's functions some work takes."""
    count = 0

    def counted(frame: object, event: str, argument: object) -> None:
        nonlocal count
        count += event == "call"

    sys.setprofile(counted)
    try:
        work()
    finally:
        sys.setprofile(None)
    return count


def on_a_plate(root: Path, item: str, recipes: Mapping[str, str]) -> Costed:
    plate = f"menu: mains\nprice: 20.00\nhands on: 5 min\nwith: {{{item}: 100 g}}\n"
    return costed_from(write(root, {**SMALL, **recipes, "plates/nested.yaml": plate}))


def look_inside(costed: Costed) -> None:
    """All that looks at what is in the sub-recipes of a plate."""
    content, figures, rows = costed.content, costed.figures, costed.rows
    assert not list(check_long_work(content, figures, rows, ()))
    assert made_without_energy(costed, content.plates["nested"].with_)
    list(check_dear(content, costed.doubts, [Place("other.yaml")]))


def test_what_is_on_a_plate_may_be_nested_as_deeply(tmp_path: Path) -> None:
    look_inside(on_a_plate(tmp_path, f"n{DEEP - 1}", nest(DEEP)))


def test_what_goes_in_several_ways_is_looked_at_once(tmp_path: Path) -> None:
    """Twice the levels take twice the work, and not as much again for every way."""
    few, many = (
        calls(partial(look_inside, on_a_plate(tmp_path / str(n), f"a{n - 1}", ladder(n))))
        for n in (7, 14)
    )
    assert few < many < 4 * few


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
