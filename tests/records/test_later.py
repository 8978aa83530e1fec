"""A day in the past leaves out what came after it, names it, and publishes the rest."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

import pytest

from builder.build import build, compute_content
from builder.costing.costed import Costed
from builder.problems import Problem
from tests.cooks.kitchens import pages
from tests.kitchens import TODAY, write

FILES: Mapping[str, str] = {
    "kitchen.yaml": "name: Words\ncurrency: CAD\nlocale: en_CA\n",
    "cuts/chuck.yaml": "species: beef\nprice: 10/kg\ntrim:\n  yield: 80 %\n  tests:\n"
    "    - {date: 2026-08-03, in: 4 kg, out: 3.4 kg}\n"
    "    - {date: 2026-09-03, in: 4 kg, out: 3 kg}\n",
    "cooks/chuck.yaml": "cut: chuck\nhow: oven\ntests:\n"
    "  - {date: 2026-09-03, in: 4 kg, out: 3 kg}\n  - {date: 2026-09-05, in: 5 kg, out: 4 kg}\n",
    "plates/chuck.yaml": "menu: mains\ncook: chuck\nportion: 200 g\nprice: 15\n"
    "sold: {2026-07: 300, 2026-08: 310, 2026-09: 320}\nevidence: ranked\n",
    "plates/small.yaml": "menu: mains\ncook: chuck\nportion: 100 g\nprice: 9\n",
    "swaps/both.yaml": "benchmark: chuck\nchallengers: [small]\ntasting: ranked\n",
    "tastings/ranked.yaml": "test: ranks\ndate: 2026-09-20\n"
    "samples: {a: chuck, b: {plate: chuck}}\ntasters: 2\nranks: {T1: [a, b], T2: [a, b]}\n",
    "tastings/planned.yaml": "test: ranks\ndate: 2026-11-20\n"
    "samples: {a: chuck, b: {plate: chuck}}\ntasters: 2\n",
}
DAY = date(2026, 8, 15)


def on(root: Path, day: date | None, today: date = TODAY) -> tuple[Costed | None, list[Problem]]:
    return compute_content(write(root, FILES), day, today)


def left_out(problems: list[Problem]) -> list[str]:
    return [f"{p.place}: {p.message}" for p in problems if "left out" in p.message]


def test_what_came_after_the_day_is_named_and_left_out(tmp_path: Path) -> None:
    costed, problems = on(tmp_path, DAY)
    assert costed is not None, problems
    end = "after Aug 15, 2026, the day of the build, and"
    assert left_out(problems) == [
        f"cooks/chuck.yaml:4:12: Chuck, cook: the weighings of Sep 3, 2026 and Sep 5, 2026 come "
        f"{end} are left out; the stage is counted as no loss",
        f"cuts/chuck.yaml:7:14: Chuck, trim: the weighing of Sep 3, 2026 comes {end} is left out",
        f"plates/chuck.yaml:5:36: Chuck: the count of Sep 2026 comes {end} is left out",
        f"tastings/ranked.yaml:2:7: Ranked: the tasting of Sep 20, 2026 comes {end} is left out",
    ]
    # What was weighed, if later, is not told to be weighed.
    assert not [p.message for p in problems if "nothing weighed" in p.message]
    figures, rows = costed.figures, costed.rows
    # 3.4 of 4 kg by the one weighing of the day; the cook has none, and loses nothing.
    assert figures.value("batch", "overall_yield", rows.cooks["chuck"]) == pytest.approx(0.85)
    assert costed.menu_month == date(2026, 8, 1)
    assert figures.value("plate", "sold", rows.plates["chuck"]) == 310
    assert set(costed.content.tastings) == {"planned"}


def test_the_rest_is_published_and_its_pages_name_what_is_missing(tmp_path: Path) -> None:
    root = write(tmp_path / "content", FILES)
    outcome = build(root, tmp_path / "site", DAY, TODAY, cache=tmp_path / "cache")
    assert outcome.report is not None
    costed, problems = on(tmp_path / "again", DAY)
    assert costed is not None
    words = {path: text for path, (_, text) in pages(costed, problems).items()}
    for page in ("cuts/chuck", "cooks/chuck", "plates/chuck", "plates/small", "swaps/both", "menu"):
        assert "trim: the weighing of Sep 3, 2026 comes after" in words[f"{page}.html"], page
    assert "the tasting of Sep 20, 2026 comes after" in words["plates/chuck.html"]


def test_a_cost_without_its_weighings_is_in_doubt_wherever_it_is_read(tmp_path: Path) -> None:
    costed, problems = on(tmp_path, DAY)
    assert costed is not None
    words = {path: text for path, (_, text) in pages(costed, problems).items()}
    why = "the cook of Chuck was not weighed by Aug 15, 2026, so no loss is counted"
    assert f"What it costs is in doubt: {why}" in words["cooks/chuck.html"]
    assert "what it costs servable is in doubt" in words["cuts/chuck.html"]
    assert f"The cost of Chuck is in doubt: {why}" in words["plates/chuck.html"]
    assert "What 2 plates cost is in doubt." in words["menu.html"]
    assert f"is in doubt: {why}" in words["swaps/both.html"]


def test_a_day_before_every_price_calls_no_plate_within_its_target(tmp_path: Path) -> None:
    price = "date,item,price\n2026-09-01,chuck,10/kg\n"
    files = {path: text.replace("price: 10/kg\n", "") for path, text in FILES.items()}
    files |= {"prices/list.csv": price, "cuts/neck.yaml": "species: beef\nprice: 5/kg\n"}
    costed, problems = compute_content(write(tmp_path, files), DAY, TODAY)
    assert costed is not None, problems
    assert not costed.content.plates
    home = pages(costed, problems)["index.html"][1]
    assert "Every plate is within" not in home
    assert "No plate has all its prices on this day." in home
    assert "No swap has all its prices on this day." in home


def test_on_a_later_day_nothing_is_left_out(tmp_path: Path) -> None:
    costed, problems = on(tmp_path, None)
    assert costed is not None
    assert left_out(problems) == []
    assert set(costed.content.tastings) == {"planned", "ranked"}


@pytest.mark.parametrize("day", [None, DAY])
def test_a_day_after_today_is_still_an_error(tmp_path: Path, day: date | None) -> None:
    """Nobody can have weighed, sold or tasted tomorrow, whichever day is computed."""
    costed, problems = on(tmp_path, day, date(2026, 8, 20))
    assert costed is None
    errors = [p.message for p in problems if p.is_error]
    assert len(errors) == 5, errors


def test_the_day_that_the_kitchen_names_counts_as_come(tmp_path: Path) -> None:
    """The clock of the machine may be behind the kitchen's own `as of`."""
    kitchen = FILES["kitchen.yaml"] + "as of: 2026-10-01\n"
    root = write(tmp_path, {**FILES, "kitchen.yaml": kitchen})
    costed, problems = compute_content(root, DAY, date(2026, 1, 1))
    assert costed is not None, problems
    assert len(left_out(problems)) == 4
