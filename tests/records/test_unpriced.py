"""A day before a first listed price leaves out what has no price yet; the rest publishes."""

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
    "cuts/old.yaml": "species: beef\nprice: 10/kg\nnote: Like [[cuts/new]], [[cooks/old]].\n",
    "cuts/new.yaml": "name: New cut\nspecies: beef\n",
    "cooks/old.yaml": "cut: old\nhow: oven\nload: 4 kg\nloss: 20 %\n",
    "cooks/new.yaml": "cut: new\nhow: oven\ntests:\n"
    "  - {date: 2026-09-03, in: 4 kg, out: 3 kg}\n  - {date: 2026-09-05, in: 4 kg, out: 3 kg}\n",
    "pantry/roots.yaml": "name: Roots\n",
    "pantry/mash.yaml": "of: {roots: 1 kg}\nyield: 90 %\n",
    "pantry/pie.yaml": "of: {mash: 1 kg}\nyield: 90 %\n",
    "plates/old.yaml": "menu: mains\ncook: old\nportion: 200 g\nprice: 15\nevidence: ranked\n",
    "plates/new.yaml": "menu: mains\ncook: new\nportion: 200 g\nprice: 15\n",
    "plates/side.yaml": "menu: sides\nwith: {pie: 200 g}\nprice: 15\n",
    "plates/other.yaml": "menu: mains\ncook: old\nportion: 100 g\nprice: 9\n",
    "swaps/both.yaml": "benchmark: old\nchallengers: [new, other]\ntasting: ranked\n",
    "swaps/gone.yaml": "benchmark: new\nchallengers: [old]\n",
    "swaps/none.yaml": "benchmark: old\nchallengers: [new, side]\n",
    "services/friday.yaml": "day: friday\nat: 18:00\nplates: {new: 10, old: 20}\n",
    "services/sunday.yaml": "day: sunday\nat: 18:00\nplates: {new: 10, side: 20}\n",
    "tastings/ranked.yaml": "test: ranks\nsamples: {a: new, b: old}\ntasters: 3\n"
    "ranks: {T1: [a, b], T2: [a, b], T3: [b, a]}\n",
    "tastings/old.yaml": "test: ranks\nsamples: {a: old, b: {plate: old}}\ntasters: 2\n"
    "ranks: {T1: [a, b], T2: [a, b]}\n",
    "prices/list.csv": "date,item,price\n2026-09-01,new,11/kg\n2026-07-01,roots,2/kg\n"
    "2026-05-01,new,0.00/kg\n2026-08-01,roots,3/kg\n",
}


def on(root: Path, day: date, **changed: str) -> tuple[Costed | None, list[Problem]]:
    files = {**FILES, **{f"{key.replace('__', '/')}.yaml": text for key, text in changed.items()}}
    return compute_content(write(root, files), day, TODAY)


def left_out(problems: list[Problem]) -> list[str]:
    return [f"{p.place}: {p.message}" for p in problems if "left out" in p.message]


def test_on_the_day_of_every_price_all_is_there(tmp_path: Path) -> None:
    costed, problems = on(tmp_path, TODAY)
    assert costed is not None
    assert left_out(problems) == []
    assert len(list(costed.content.records())) == len(FILES) - 2


def test_a_cut_without_a_price_yet_is_left_out_with_what_rests_on_it(tmp_path: Path) -> None:
    costed, problems = on(tmp_path, date(2026, 8, 31))
    assert costed is not None, problems
    assert left_out(problems) == [
        "prices/list.csv:2:16: New cut has no price before Sep 1, 2026 and is left out, with "
        "1 cook, 1 plate, 1 swap and 1 tasting that can't be costed without it"
    ]
    content = costed.content
    assert set(content.cuts) == set(content.cooks) == {"old"}
    assert set(content.plates) == {"old", "side", "other"}
    # A swap goes on with the challengers that remain, a service with its other plates.
    assert {name: list(swap.challengers) for name, swap in content.swaps.items()} == {
        "both": ["other"],
        "none": ["side"],
    }
    assert {name: list(s.plates) for name, s in content.services.items()} == {
        "friday": ["old"],
        "sunday": ["side"],
    }
    assert set(content.tastings) == {"old"}
    assert content.plates["old"].evidence is None
    assert content.swaps["both"].tasting is None


def test_an_item_takes_everything_made_of_it_along(tmp_path: Path) -> None:
    costed, problems = on(tmp_path, date(2026, 6, 1))
    assert costed is not None, problems
    assert [line.partition(" that")[0] for line in left_out(problems)] == [
        "prices/list.csv:2:16: New cut has no price before Sep 1, 2026 and is left out, with "
        "1 cook, 1 plate, 2 swaps, 1 service and 1 tasting",
        "prices/list.csv:3:18: Roots has no price before Jul 1, 2026 and is left out, with "
        "2 pantry items, 1 plate, 1 swap and 1 service",
    ]
    assert set(costed.content.pantry) == set()
    assert set(costed.content.plates) == {"old", "other"}
    assert set(costed.content.swaps) == {"both"}
    assert set(costed.content.services) == {"friday"}


def test_the_rest_is_published_and_says_what_is_missing(tmp_path: Path) -> None:
    """Every link of the site leads somewhere, also from a note that names what is left out."""
    root = write(tmp_path / "content", FILES)
    outcome = build(root, tmp_path / "site", date(2026, 6, 1), TODAY, cache=tmp_path / "cache")
    assert outcome.report is not None
    costed, problems = on(tmp_path / "again", date(2026, 6, 1))
    assert costed is not None
    words = {path: text for path, (_, text) in pages(costed, problems).items()}
    for page in ("index.html", "menu.html", "prices.html"):
        assert "New cut has no price before Sep 1, 2026" in words[page], page
    assert "Like New cut , Old" in words["cuts/old.html"].replace("New cut,", "New cut ,")
    assert "cuts/new.html" not in words


@pytest.mark.parametrize("day", [date(2026, 8, 31), date(2026, 6, 1)])
def test_a_cut_without_any_price_is_an_error_all_the_same(day: date, tmp_path: Path) -> None:
    costed, problems = on(tmp_path, day, cuts__third="species: beef\n")
    assert costed is None
    assert [p.message for p in problems if p.is_error] == ["this cut has no price"]


def test_a_day_before_everything_publishes_nothing(tmp_path: Path) -> None:
    """An empty site in place of the real one would help nobody."""
    day = date(2026, 6, 1)
    costed, problems = on(
        tmp_path,
        day,
        cuts__old="species: beef\n",
        plates__extra="menu: mains\nwith: {roots: 200 g}\nprice: 5\n",
    )
    assert costed is None  # no price at all for the old cut
    with_later = FILES["prices/list.csv"] + "2026-09-15,old,10/kg\n"
    files = {**FILES, "cuts/old.yaml": "species: beef\n", "prices/list.csv": with_later}
    costed, problems = compute_content(write(tmp_path / "later", files), day, TODAY)
    assert costed is None
    [error] = [p for p in problems if p.is_error]
    assert str(error.place) == "prices/list.csv:3:18"
    assert (
        error.message == "no plate can be costed by Jun 1, 2026: the first price is of Jul 1, 2026"
    )
    assert "from 2026-09-15 on everything has a price" in error.hint
    assert left_out(problems) == []
