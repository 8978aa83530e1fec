"""Slips that a name, another plate of a swap or another figure of the kitchen belies.

The kitchens are the starters; each slip changes one value of them, or of a few files beside.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from builder.problems import Problem
from tests.kitchens import TODAY, read, write
from tests.records.sweep import swept
from tests.site.sites import STARTER

CUSTOMARY = STARTER.with_name("customary")
# Of so many slips tried on a starter this many stay silent, nearly all of them twice or half of
# what may as well be right.
SILENT = {STARTER: (385, 67), CUSTOMARY: (384, 65)}
LONG, GRILL, SAUCE = (
    "cooks/chuck-roll-30h.yaml",
    "cooks/ribeye-grill.yaml",
    "pantry/bone-sauce.yaml",
)
PLATE, STEAK, KITCHEN = "plates/chuck-steak.yaml", "plates/ribeye-steak.yaml", "kitchen.yaml"
CASES = (
    (LONG, "for: 30 h", "for: 3 h", "did you mean 30 h?"),
    (LONG, "for: 30 h", "for: 66 h", "the name"),
    (LONG, "starts at: 4 °C", "starts at: 4 °F", "did you mean 4 °C?"),
    (LONG, "bags: 3.60", "bags: 13.60", "a great deal to spend"),
    (LONG, "loss: 3 %", "loss: 11.4 %", "a sear dries the surface alone"),
    (LONG, "juices: [1.00 kg, 0.60/kg]", "juices: [1.00 kg, 0.27/kg]", "far apart"),
    (LONG, "juices: [1.00 kg", "juices: [0.45 kg", "unaccounted for"),
    (GRILL, "load: 5 kg", "load: 19 kg", "steaks at once"),
    (STEAK, "portion: 200 g", "portion: 90 g", "gives 2.3 portions"),
    (STEAK, "price: 38.00", "price: 17.20", "whose role the plate would take"),
    (STEAK, "hands-on: 3 min", "hands-on: 30 min", "finishing and plating"),
    (STEAK, "forecast: 60", "forecast: 6", "8.3 weeks"),
    (PLATE, "price: 26.00", "price: 57.30", "whose role the plate would take"),
    (PLATE, "portion: 180 g", "portion: 681 g", "whose role the plate would take"),
    (PLATE, "bone-sauce: 60 ml", "bone-sauce: 227 ml", "what dresses a bowl"),
    (SAUCE, "bones: 5 kg", "bones: 0.5 kg", "all that goes into it"),
    (SAUCE, "butter: 100 g", "butter: 1000 g", "did you mean 100.0 g?"),
    (SAUCE, "hands-on: 40 min", "hands-on: 151 min", "a great deal of work"),
    ("pantry/butter.yaml", "11.00/kg", "41.60/kg", "the dearest cut costs"),
    (STEAK, "forecast: 60", "forecast: 1701", "times the most that buying is shown for"),
    (KITCHEN, "volume: 40 L", "volume: 151.4 L", "much for equipment"),
    (LONG, "starts at: 4 °C", "starts at: 15.14 °C", "comes out of the cold"),
    (KITCHEN, "tax: 5 %", "tax: 18.9 %", "provincial sales taxes"),
    (KITCHEN, "food cost: 30 %", "food cost: 13.6 %", "less than any plate has"),
    (KITCHEN, "margin: 14.00", "margin: 30.90", "much to aim at"),
    (KITCHEN, "covers: [50, 100]", "covers: [50, 1000]", "8.3 weeks"),
    (KITCHEN, "holds: 12 kg", "holds: 26.5 kg", "is little for equipment"),
    (KITCHEN, "standby: 0.2 kW", "standby: 0.76 kW", "only keeps warm"),
)


def doubts(folder: Path) -> list[Problem]:
    return [problem for problem in read(folder)[1] if "checked:" in problem.hint]


@pytest.mark.parametrize(("path", "old", "new", "said"), CASES, ids=lambda each: each[:20])
def test_a_slip_that_the_kitchen_belies_is_reported(
    path: str, old: str, new: str, said: str, tmp_path: Path
) -> None:
    folder = Path(shutil.copytree(STARTER, tmp_path / "kitchen"))
    text = (folder / path).read_text(encoding="utf-8")
    assert text.count(old) == 1
    (folder / path).write_text(text.replace(old, new), encoding="utf-8")
    found = doubts(folder)
    assert any(said in f"{problem.message} {problem.hint}" for problem in found), found


@pytest.mark.parametrize("kitchen", [STARTER, CUSTOMARY], ids=["metric", "customary"])
def test_no_more_slips_than_before_stay_silent(kitchen: Path) -> None:
    tried, most = SILENT[kitchen]
    silent = [unnoticed for _, unnoticed in swept(kitchen, TODAY)]
    assert len(silent) == tried
    assert sum(silent) <= most


BATH = (
    "cut: chuck\nhow: water bath\nat: 57 °C\nfor: {}\nform: intact\npiece: {{thickness: {} mm}}\n"
)
SIBLINGS = {
    "kitchen.yaml": "name: X\ncurrency: USD\n",
    "cuts/chuck.yaml": "species: beef\nprice: 13.60/kg\n",
    "cooks/weekday.yaml": BATH.format("24 h", 60),
    "cooks/weekend.yaml": BATH.format("48 h", 60),
}


@pytest.mark.parametrize(
    ("time", "thickness", "count"), [("3 h", 60, 1), ("12 h", 60, 0), ("3 h", 25, 0)]
)
def test_a_cook_far_shorter_than_its_cut_s_others_is_reported(
    time: str, thickness: int, count: int, tmp_path: Path
) -> None:
    files = {**SIBLINGS, "cooks/dinner.yaml": BATH.format(time, thickness)}
    found = [p for p in doubts(write(tmp_path, files)) if "go on for 36 h" in p.message]
    assert len(found) == count


@pytest.mark.parametrize(
    ("name", "count"),
    [("chuck-3h-24h", 0), ("chuck-48h", 1), ("chuck 24 h at 57 °C", 0), ("chuck 75 °C", 1)],
)
def test_a_name_that_gives_one_time_or_heat_is_held_to_it(
    name: str, count: int, tmp_path: Path
) -> None:
    files = {**SIBLINGS, "cooks/weekday.yaml": BATH.format("24 h", 60) + f"name: {name}\n"}
    found = [p for p in doubts(write(tmp_path, files)) if "the name" in p.message]
    assert len(found) == count
