"""Slips of the pen in a real kitchen are told at their line, and true values are not.

The slips are made up by hand (common practice, no published source): a decimal point lost, a
unit taken for another, a digit too many, a year that slipped.
"""

from __future__ import annotations

import csv
import re
import shutil
from collections.abc import Callable
from datetime import date
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.build import compute_content
from builder.problems import Problem
from builder.records.checks import check
from builder.records.content import load
from builder.records.proportion import check_proportion
from tests.golden import SITES
from tests.kitchens import PUBLISHED, write
from tests.records.made_up import made_up
from tests.site.sites import DEMO, STARTER

TODAY = date(2031, 5, 6)
SLIPS = list(csv.DictReader((Path(__file__).parent / "slips.csv").open(encoding="utf-8")))


Computed = Callable[[Path], list[Problem]]


def of_records(folder: Path) -> list[Problem]:
    """What is found without computing anything."""
    content, problems = load(folder, None, TODAY)
    return [*problems, *check(content)]


def of_figures(folder: Path) -> list[Problem]:
    return compute_content(folder, None, TODAY)[1]


@cache
def before(problems: Computed) -> frozenset[tuple[str, str]]:
    return frozenset((str(p.place), p.message) for p in problems(DEMO))


def kitchen_with(folder: Path, slip: dict[str, str]) -> int:
    """The demo with one slip; the number of the line that it is on."""
    shutil.copytree(DEMO, folder, dirs_exist_ok=True)
    target = folder / slip["file"]
    text = target.read_text(encoding="utf-8")
    assert text.count(slip["old"]) == 1, slip
    target.write_text(text.replace(slip["old"], slip["new"]), encoding="utf-8")
    return text[: text.index(slip["old"])].count("\n") + 1


def new_problems(folder: Path, problems: Computed = of_records) -> list[Problem]:
    known = before(problems)
    return [p for p in problems(folder) if (str(p.place), p.message) not in known]


def is_noticed(folder: Path, slip: dict[str, str]) -> bool:
    line = kitchen_with(folder, slip)
    return any(
        (p.place.file, p.place.line) == (slip["file"], line)
        for problems in (of_records, of_figures)
        for p in new_problems(folder, problems)
    )


def test_nearly_every_slip_is_noticed_at_its_line(tmp_path: Path) -> None:
    silent = [
        slip["new"] for n, slip in enumerate(SLIPS) if not is_noticed(tmp_path / str(n), slip)
    ]
    assert len(SLIPS) == 145
    assert len(silent) <= 0.05 * len(SLIPS), silent


@pytest.mark.parametrize("root", [DEMO, STARTER, PUBLISHED, *(site / "content" for site in SITES)])
def test_true_values_are_left_alone(root: Path) -> None:
    content, _ = load(root, None, TODAY)
    assert content is not None
    assert list(check_proportion(content)) == []


@pytest.mark.parametrize(
    ("file", "old", "new", "hint"),
    [
        ("plates/chuck-steak.yaml", "portion: 210 g", "portion: 210 kg", "did you mean 210 g?"),
        ("plates/chuck-steak.yaml", "mash: 200 g, ", "mash: 200 kg, ", "did you mean 200 g?"),
        ("plates/chuck-steak.yaml", "price: 34.50", "price: 3.45", "did you mean 34.50?"),
        ("cuts/beef-chuck-roll.yaml", "13.20/kg", "1320/kg", "did you mean 13.20/kg?"),
        ("cuts/beef-chuck-roll.yaml", "13.20/kg", "13.20/g", "did you mean 13.20/kg?"),
        ("cooks/chuck-roll-30h.yaml", "hands-on: 50 min", "hands-on: 50 h", "50 min?"),
        ("kitchen.yaml", "loaded wage: 24.50/h", "loaded wage: 245/h", "did you mean 24.50/h?"),
        ("cooks/duck-legs-24h.yaml", "for: 14 d", "for: 140 d", "did you mean 14 d?"),
        ("cooks/chuck-roll-30h.yaml", "for: 30 h\nform", "for: 140 d\nform", "did you mean 140 h?"),
        ("pantry/gratin.yaml", "potatoes: 4 kg", "potatoes: 50 kg", "did you mean 5.0 kg?"),
        ("pantry/bone-sauce.yaml", "{bone-stock: 6 L, ", "{bone-stock: 60 L, ", "mean 6.0 L?"),
        ("pantry/lamb-jus.yaml", "herbs: 20 g", "herbs: 20 kg", "did you mean 20 g?"),
        ("pantry/bean-stew.yaml", "of: {", "of: {butter: 10 kg, ", "make it without this"),
    ],
)
def test_the_hint_is_made_from_what_was_written(
    file: str, old: str, new: str, hint: str, tmp_path: Path
) -> None:
    kitchen_with(tmp_path, {"file": file, "old": old, "new": new})
    assert any(hint in p.hint for p in new_problems(tmp_path) if p.place.file == file)


@pytest.mark.parametrize("text", ["38 g", "25 g", "0.9 oz"])
def test_a_small_prawn_is_a_prawn(text: str, tmp_path: Path) -> None:
    """Prawns are sold from 3 or so to some 300 a kilogram; common practice, no published source."""
    kitchen_with(tmp_path, {"file": "cuts/prawn.yaml", "old": "each: 38 g", "new": f"each: {text}"})
    content, _ = load(tmp_path, None, TODAY)
    assert content is not None
    assert not [p for p in check_proportion(content) if p.place.file == "cuts/prawn.yaml"]


def test_a_record_that_was_checked_is_believed(tmp_path: Path) -> None:
    slip = {"file": "plates/chuck-steak.yaml", "old": "portion: 210 g", "new": "portion: 21 g"}
    kitchen_with(tmp_path, slip)
    [problem] = [p for p in new_problems(tmp_path) if p.place.file == slip["file"]]
    assert "checked:" in problem.hint
    target = tmp_path / slip["file"]
    target.write_text(target.read_text(encoding="utf-8") + "checked: 2026-09-30\n", "utf-8")
    assert not [p for p in new_problems(tmp_path) if p.place.file == slip["file"]]


def test_a_price_newer_than_the_check_is_not_believed(tmp_path: Path) -> None:
    shutil.copytree(DEMO, tmp_path, dirs_exist_ok=True)
    rows = tmp_path / "prices/harrow-lane-meats.csv"
    text = rows.read_text(encoding="utf-8")
    rows.write_text(text.replace("beef-chuck-roll,13.60/kg", "beef-chuck-roll,1360/kg"), "utf-8")
    cut = tmp_path / "cuts/beef-chuck-roll.yaml"
    for day, reported in (("2026-09-01", True), ("2026-09-30", False)):
        own = (DEMO / "cuts/beef-chuck-roll.yaml").read_text(encoding="utf-8")
        cut.write_text(f"{own}checked: {day}\n", encoding="utf-8")
        found = [
            p for p in new_problems(tmp_path) if p.place.file == "prices/harrow-lane-meats.csv"
        ]
        assert bool(found) is reported


@pytest.mark.parametrize(("currency", "scale"), [("JPY", 110), ("KRW", 1000), ("KWD", 0.22)])
def test_money_is_measured_by_the_kitchen_s_own_wage(
    currency: str, scale: float, tmp_path: Path
) -> None:
    """A kitchen whose every amount is so many times as large is as plausible as before."""
    places = 0 if scale > 1 else 2
    wage, price, plate = (f"{x * scale:.{places}f}" for x in (24, 13, 30))
    files = {
        "kitchen.yaml": f"name: X\ncurrency: {currency}\nloaded wage: {wage}/h\n",
        "cuts/shin.yaml": f"species: beef\nprice: {price}/kg\n",
        "plates/stew.yaml": f"menu: mains\nprice: {plate}\n",
    }
    content, problems = load(write(tmp_path, files), None, TODAY)
    assert content is not None, problems
    assert list(check_proportion(content)) == []


@settings(max_examples=40)
@given(seed=st.integers(0, 10**9))
def test_made_up_kitchens_of_usual_values_are_left_alone(seed: int) -> None:
    assert doubts(made_up(seed)) == []


SLIPPED = st.sampled_from([0.001, 0.01, 0.1, 10, 100, 1000])


@settings(max_examples=40)
@given(seed=st.integers(0, 10**9), which=st.integers(0, 10**6), factor=SLIPPED)
def test_of_a_history_exactly_the_slipped_price_is_named(
    seed: int, which: int, factor: float
) -> None:
    files = made_up(seed)
    rows = files["prices/list.csv"].splitlines()
    line = 1 + which % (len(rows) - 1)
    day, cut, price = rows[line].split(",")
    amount, unit = price.split("/")
    rows[line] = f"{day},{cut},{float(amount) * factor:.6f}/{unit}"
    files["prices/list.csv"] = "\n".join(rows) + "\n"
    assert doubts(files) == [("prices/list.csv", line + 1)]


@settings(max_examples=30)
@given(
    seed=st.integers(0, 10**9),
    month=st.sampled_from(["2026-05", "2026-06", "2026-07", "2026-08", "2026-09"]),
    factor=st.sampled_from([20, 100, 1000]),
)
def test_of_the_months_exactly_the_slipped_one_is_named(seed: int, month: str, factor: int) -> None:
    files = made_up(seed)
    path = "plates/plate-0-0.yaml"
    sold = re.search(rf"{month}: (\d+)", files[path])
    assert sold is not None
    files[path] = files[path].replace(sold[0], f"{month}: {int(sold[1]) * factor}")
    line = files[path][: files[path].index("sold:")].count("\n") + 1
    assert doubts(files) == [(path, line)]


@pytest.mark.parametrize("slipped", ["cuts/chuck.yaml", "prices/list.csv"])
def test_of_two_prices_the_one_is_named_that_is_unlike_other_cuts(slipped: str) -> None:
    files = {
        "kitchen.yaml": "name: X\ncurrency: USD\nloaded wage: 24/h\n",
        "cuts/chuck.yaml": "species: beef\nprice: 13/kg\n",
        "cuts/rib.yaml": "species: beef\nprice: 30/kg\n",
        "cuts/shin.yaml": "species: beef\nprice: 9/kg\n",
        "prices/list.csv": "date,item,price\n2026-09-01,chuck,13/kg\n",
    }
    assert doubts(files) == []
    files[slipped] = files[slipped].replace("13/kg", "130/kg")
    assert doubts(files) == [(slipped, 2)]


@pytest.mark.parametrize("line", [2, 3])
def test_of_two_prices_the_one_is_named_that_no_kitchen_pays(line: int) -> None:
    rows = ["date,item,price", "2026-09-01,chuck,13/kg", "2026-10-01,chuck,13/kg"]
    rows[line - 1] = rows[line - 1].replace("13/kg", "1300/kg")
    files = {
        "kitchen.yaml": "name: X\ncurrency: USD\nloaded wage: 24/h\n",
        "cuts/chuck.yaml": "species: beef\n",
        "prices/list.csv": "\n".join(rows) + "\n",
    }
    assert doubts(files) == [("prices/list.csv", line)]


def test_short_and_long_cooks_of_a_bath_are_no_measure_for_each_other() -> None:
    files = {"kitchen.yaml": "name: X\ncurrency: USD\n", "cuts/cut.yaml": "species: beef\n"}
    for number, hours in enumerate(["48 h", "36 h", "30 h", "72 h", "60 h", "24 h"]):
        files[f"cuts/cut-{number}.yaml"] = "species: beef\n"
        files[f"cooks/long-{number}.yaml"] = bath(f"cut-{number}", hours, "70 mm", "1.5 kg")
    for number, time in enumerate(["30 min", "45 min", "1 h", "2 h"]):
        files[f"cooks/short-{number}.yaml"] = bath("cut", time, "25 mm", "220 g")
    assert doubts(files) == []


def bath(cut: str, hours: str, thickness: str, weight: str) -> str:
    piece = f"piece: {{thickness: {thickness}, weight: {weight}}}"
    return f"cut: {cut}\nhow: water bath\nat: 57 °C\nfor: {hours}\n{piece}\nloss: 20 %\n"


@pytest.mark.parametrize(
    ("key", "stated"),
    [
        ("trim: {loss: 3 %, how: boned}", "trim: {loss: 30 %, how: boned}"),
        ("trim: {yield: 97 %, how: bone out}", "trim: {yield: 70 %, how: bone out}"),
    ],
)
def test_bones_that_come_out_weigh_something(key: str, stated: str) -> None:
    kitchen = "name: X\ncurrency: USD\n"
    for text, found in ((key, [("cuts/leg.yaml", 2)]), (stated, [])):
        files = {"kitchen.yaml": kitchen, "cuts/leg.yaml": f"species: lamb\n{text}\n"}
        assert doubts(files) == found


# Recipes as kitchens make them: reduced, dried, drained, clarified (common practice, no
# published source).
RECIPES = [
    ("{bones: 20 kg, onions: 3 kg}", "2 L"),
    ("{wine: 3 L, onions: 300 g}", "600 ml"),
    ("{tomatoes: 10 kg}", "900 g"),
    ("{onions: 5 kg, butter: 200 g}", "1.5 kg"),
    ("{wine: 400 ml, butter: 1 kg, onions: 100 g}", "1.1 kg"),
    ("{butter: 2 kg}", "1.5 kg"),
    ("{tomatoes: 3 kg, onions: 3 kg, wine: 500 ml}", "3.5 kg"),
    ("{onions: 2 kg, wine: 2 L, sugar: 400 g}", "2 kg"),
    ("{butter: 4 kg, flour: 6 kg, wine: 3 L}", "12 kg"),
]


@pytest.mark.parametrize(("of", "makes"), RECIPES)
def test_recipes_that_are_reduced_dried_or_drained_are_left_alone(of: str, makes: str) -> None:
    items = "bones", "onions", "wine", "tomatoes", "butter", "sugar", "flour"
    files = {f"pantry/{item}.yaml": "price: 5/kg\n" for item in items}
    files["pantry/wine.yaml"] = "price: 5/L\n"
    files["kitchen.yaml"] = "name: X\ncurrency: USD\n"
    files["pantry/made.yaml"] = f"of: {of}\nmakes: {makes}\n"
    assert doubts(files) == []


def doubts(files: dict[str, str]) -> list[tuple[str, int]]:
    """Where a kitchen's values are out of proportion."""
    with TemporaryDirectory() as folder:
        content, problems = load(write(Path(folder), files), None, TODAY)
    assert content is not None
    assert not [problem for problem in problems if problem.is_error]
    return [(p.place.file, p.place.line) for p in check_proportion(content)]


@pytest.mark.parametrize(
    ("file", "old", "new", "meant"),
    [
        ("cooks/duck-legs-24h.yaml", "weight: 250 g", "weight: 20 g", ""),
        ("plates/short-rib-plate.yaml", "forecast: 70", "forecast: 30000", "did you mean 30? "),
    ],
)
def test_a_hint_is_a_value_of_the_key_s_own_kind_or_none(
    file: str, old: str, new: str, meant: str, tmp_path: Path
) -> None:
    kitchen_with(tmp_path, {"file": file, "old": old, "new": new})
    [problem] = [p for p in new_problems(tmp_path) if p.place.file == file]
    assert problem.hint.lower().partition("if it is right")[0] == meant
