"""Slips that a practitioner sees at a glance, in the kitchens that `shankbook new` writes.

Each is a true value with its point moved or its unit taken for another; made up by hand (common
practice, no published source). `tests/records/sweep.py` tries all of that kind.
"""

from __future__ import annotations

import shutil
from functools import cache
from pathlib import Path

import pytest

from builder.problems import Problem
from builder.records.content import load
from builder.records.written import values_of
from tests.kitchens import TODAY, read
from tests.records.sweep import FACTORS, Slip, main, slips_of, written
from tests.site.sites import STARTER

CUSTOMARY_STARTER = STARTER.with_name("customary")
CHUCK, GRILL, TRIM = "cooks/chuck-roll-30h.yaml", "cooks/ribeye-grill.yaml", "cuts/chuck-roll.yaml"
KITCHEN, SAUCE, STEAK = "kitchen.yaml", "pantry/bone-sauce.yaml", "plates/ribeye-steak.yaml"
# What is changed, what is said, and the hint where one slip explains it.
METRIC = [
    (KITCHEN, "24.50/h", "245/h", "245/h is far outside what is usual here", "24.50/h"),
    (KITCHEN, "24.50/h", "2.45/h", "2.45/h is far outside what is usual here", "24.50/h"),
    (KITCHEN, "0.14/kWh", "1.4/kWh", "1.4/kWh is far outside", "0.14/kWh"),
    (KITCHEN, "0.14/kWh", "0.014/kWh", "0.014/kWh is far outside", "0.14/kWh"),
    (KITCHEN, "14.00", "1.40", "1.40 is little to aim at: the middle plate costs 32.00", "14.00"),
    (KITCHEN, "14.00", "53", "53 is more than any plate of the menu costs", ""),
    (KITCHEN, "50, 100", "500, 100", "100 comes after 500, and numbers of covers", ""),
    (KITCHEN, "0.2 kW", "2 kW", "2 kW is a great deal for a bath of 40 L", "0.2 kW"),
    (KITCHEN, "0.2 kW", "0.02 kW", "0.02 kW is little for a bath of 40 L", "0.2 kW"),
    (CHUCK, "30 h", "30 min", "30 min is short for a piece of 60 mm", "30 h"),
    (CHUCK, "35 min", "350 min", "350 min is a great deal of work for 7.38 kg", "35 min"),
    (CHUCK, "35 min", "3.5 min", "3.5 min is little work for 7.38 kg", "35 min"),
    (CHUCK, "3.60", "36", "36 is a great deal to spend on 7.38 kg", "3.60"),
    (CHUCK, "[0.95 kg", "[0.095 kg", "0.095 kg and 1.00 kg at", ""),
    (CHUCK, "[0.95 kg", "[0.95 g", "0.95 g and 1.00 kg at", ""),
    (TRIM, "[0.75 kg", "[0.075 kg", "0.075 kg and 0.78 kg at", ""),
    (GRILL, "12 min", "120 min", "120 min is far outside", "12 min"),
    (GRILL, "12 min", "1.2 min", "1.2 min is far outside", "12 min"),
    (GRILL, "5 kg", "50 kg", "50 kg is far outside", ""),
    (GRILL, "20 min", "200 min", "200 min is a great deal of work for 5 kg", "20 min"),
    (GRILL, "20 min", "2 min", "2 min is little work for 5 kg", "20 min"),
    (SAUCE, "40 min", "400 min", "400 min is a great deal of work for 1.2 kg", "40 min"),
    (SAUCE, "bones: 5 kg", "bones: 5 g", "5 g of bones is little for a recipe", "500 g"),
]
CUSTOMARY = [
    (GRILL, "11 lb 4 oz", "112.5 lb", "112.5 lb is far outside", ""),
    (CHUCK, "35 min", "350 min", "350 min is a great deal of work for 16 lb", "35 min"),
    (KITCHEN, "0.2 kW", "2 kW", "2 kW is a great deal for a bath of 10 gal", "0.2 kW"),
    (TRIM, "12, in: 18.5 lb, out: 15.5 lb, parts: {grind: [1.7 lb",
     "12, in: 18.5 lb, out: 15.5 lb, parts: {grind: [1.7 oz", "1.7 oz and 1.7 lb at", ""),
]  # fmt: skip
CASES = [(STARTER, *case) for case in METRIC] + [(CUSTOMARY_STARTER, *case) for case in CUSTOMARY]


@cache
def known(kitchen: Path) -> frozenset[tuple[str, str]]:
    return frozenset((str(p.place), p.message) for p in read(kitchen)[1])


def changed(kitchen: Path, folder: Path, file: str, old: str, new: str) -> list[Problem]:
    """What is reported of a starter with one value changed, beside what always is."""
    shutil.copytree(kitchen, folder)
    path = folder / file
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1, (file, old)
    path.write_text(text.replace(old, new), encoding="utf-8")
    return [p for p in read(folder)[1] if (str(p.place), p.message) not in known(kitchen)]


@pytest.mark.parametrize(("kitchen", "file", "old", "new", "words", "meant"), CASES)
def test_a_slip_is_reported_at_its_file(
    kitchen: Path, file: str, old: str, new: str, words: str, meant: str, tmp_path: Path
) -> None:
    problems = changed(kitchen, tmp_path / "kitchen", file, old, new)
    found = [p for p in problems if p.place.file == file and p.message.startswith(words)]
    assert len(found) == 1, problems
    assert "write checked: and the day" in found[0].hint
    assert not meant or f"did you mean {meant}?" in found[0].hint


def test_meat_that_is_next_to_nothing_of_its_plate_is_reported(tmp_path: Path) -> None:
    """Ribeye at 3.60 a kilogram, where chuck costs 13.50: 36.19 without tax, 1.75 of it food."""
    problems = changed(STARTER, tmp_path / "k", "cuts/ribeye.yaml", "36.00/kg", "3.60/kg")
    assert [p.message for p in problems if p.place.file == STEAK] == [
        "its food costs only 4.8% of what guests pay without tax"
    ]


def test_an_hour_costs_what_it_does_in_its_own_currency(tmp_path: Path) -> None:
    """Of a currency that no row names nothing is known but what the menu charges."""
    for currency, said in (("CAD", 1), ("NOK", 0)):
        folder = tmp_path / currency
        shutil.copytree(STARTER, folder)
        path = folder / KITCHEN
        text = path.read_text(encoding="utf-8").replace("CAD", currency)
        path.write_text(text.replace("24.50/h", "95.00/h"), encoding="utf-8")
        found = [p for p in read(folder)[1] if p.message.startswith("95.00/h is far outside")]
        assert len(found) == said, currency


@pytest.mark.parametrize("kitchen", [STARTER, CUSTOMARY_STARTER])
def test_the_starters_as_they_are_have_nothing_in_doubt(kitchen: Path) -> None:
    assert [p for p in read(kitchen)[1] if "checked:" in p.hint] == []


def test_a_wanted_core_below_the_bath_is_no_slip(tmp_path: Path) -> None:
    """Half an hour at 57 °C is enough for whoever wants the core at 30 °C, if nobody else."""
    old, new = "for: 30 h", "for: 30 min\ncore: 45 °C"
    problems = changed(STARTER, tmp_path / "k", CHUCK, old, new)
    assert not [p for p in problems if "its core stays far below" in p.message]


def test_the_sweep_tries_each_value_with_each_slip() -> None:
    """A weight has a slip of its unit beside those of its number."""
    content, _ = load(STARTER, None, TODAY)
    assert content is not None
    [load_of_grill] = [v for v in values_of(content) if v.key == "cooks.load"]
    line = "load: 5 kg"
    slips = list(slips_of(load_of_grill, line))
    assert [slip.kind for slip in slips] == [*FACTORS, "kg -> g"]
    assert slips[0] == Slip("cooks.load", "x10", slips[0].place, "5 kg", "load: 50 kg")
    assert slips[-1].line == "load: 5 g"
    assert [written(each) for each in (5.0, 200000.0, 0.00066)] == ["5", "200000", "0.00066"]


def test_the_sweep_prints_what_stays_silent(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A kitchen of one stated loss: a tenth of it is silent, and ten times of it is an error."""
    (tmp_path / "cuts").mkdir()
    (tmp_path / KITCHEN).write_text("name: X\ncurrency: USD\n", encoding="utf-8")
    (tmp_path / "cuts/round.yaml").write_text(
        "species: beef\nprice: 9/kg\ntrim: 12 %\n", encoding="utf-8"
    )
    main([str(tmp_path)])
    said = capsys.readouterr().out
    assert "cuts.trim.loss" in said
    assert "| trim: 1.2 %" in said
    assert "| trim: 120 %" not in said
    assert said.rstrip().endswith("slips are silent")
