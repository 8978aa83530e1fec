"""What a build says in a kitchen with a decimal comma: its numbers and days, the file's as written.

How the locale writes them comes from the CLDR, through babel.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.problems import Problem
from tests.kitchens import read, write
from tests.records.doubts import WARNINGS
from tests.records.mistakes import MISTAKES, Mistake
from tests.records.test_mistakes import BASE, made, name

GERMAN = BASE["kitchen.yaml"].replace("units: metric", "units: metric\nlocale: de_DE")
QUOTED = re.compile(r'"[^"]*"')
DAY = re.compile(r"(?<![\w/.-])\d{4}-\d\d(?:-\d\d)?\b")
# A number with a decimal point that is no clause, no version and no day.
POINT = re.compile(r"(?<![\w.,-])\d+\.\d{1,2}(?![\d\w.-])")


def said(root: Path, files: dict[str, str]) -> list[Problem]:
    return read(write(root, {**BASE, "kitchen.yaml": GERMAN, **files}))[1]


@pytest.mark.parametrize("mistake", [*MISTAKES, *WARNINGS], ids=name)
def test_numbers_and_days_that_no_file_writes_are_the_locale_s(
    mistake: Mistake, tmp_path: Path
) -> None:
    changed, _ = made(mistake, GERMAN if mistake.file == "kitchen.yaml" else BASE[mistake.file])
    for problem in said(tmp_path, {mistake.file: changed}):
        text = changed if problem.place.file == mistake.file else BASE[problem.place.file]
        words = QUOTED.sub("", problem.message)
        line = text.splitlines()[problem.place.line - 1] if problem.place.line else ""
        for day in DAY.findall(words):
            assert line[problem.place.column - 1 :].startswith(day), words
        for number in POINT.findall(words):
            assert number in text, words


LATE = "trim:\n  tests:\n    - {date: 2026-12-24, in: 8.42 kg, out: 8.50 kg}\n"
WRONG = {"cuts/shin.yaml": f"species: beef\nprice: 12.50/kg\n{LATE}"}


def test_a_kitchen_with_errors_is_told_in_its_locale(tmp_path: Path) -> None:
    messages = [p.message for p in said(tmp_path, WRONG) if p.place.file == "cuts/shin.yaml"]
    assert "does not balance: out is 0,08 kg more than in" in messages
    assert "2026-12-24 comes after 1 Oct 2026, the day of the build" in messages


@pytest.mark.parametrize(
    ("old", "new"), [("currency: CAD", "currency: doubloons"), ("tax: 5 %", "tax: much")]
)
def test_a_kitchen_file_with_an_error_still_names_its_locale(
    old: str, new: str, tmp_path: Path
) -> None:
    problems = said(tmp_path, {**WRONG, "kitchen.yaml": GERMAN.replace(old, new)})
    assert any(p.place.file == "kitchen.yaml" and p.is_error for p in problems)
    assert "does not balance: out is 0,08 kg more than in" in [p.message for p in problems]


def test_a_locale_that_is_none_leaves_messages_as_they_are(tmp_path: Path) -> None:
    kitchen = GERMAN.replace("de_DE", "xx_YY")
    problems = said(tmp_path, {**WRONG, "kitchen.yaml": kitchen})
    assert "does not balance: out is 0.08 kg more than in" in [p.message for p in problems]


def test_a_value_is_quoted_as_it_is_written(tmp_path: Path) -> None:
    files = {"prices/list.csv": "date,item,price\n2026-09-01,ribeye,1360.50/kg\n"}
    [warning] = [p for p in said(tmp_path, files) if p.place.file == "prices/list.csv"]
    assert warning.message.startswith("1360.50/kg is ")


def test_a_limit_of_reading_is_grouped_as_the_locale_does(tmp_path: Path) -> None:
    files = {"notes/long.md": "x" * 20_000_000}
    [found] = [p for p in said(tmp_path, files) if "bytes" in p.message]
    assert "20.000.000 bytes" in found.message


def test_a_name_with_a_measure_in_it_stays_in_the_messages_of_other_files(tmp_path: Path) -> None:
    """The bath is called so in kitchen.yaml; that two cooks want it is said of a service."""
    cook = "cut: shin\nhow: water bath\nat: {} °C\nfor: 30 h\nequipment: bath\nload: 2 kg\n"
    plate = "menu: mains\ncook: {}\nportion: 200 g\nprice: 30.00\nforecast: 100\n"
    files = {
        "kitchen.yaml": "name: Invented kitchen\ncurrency: USD\nlocale: en_US\n"
        "units: us customary\nequipment:\n"
        "  bath: {title: Bath of 20 L, kind: water bath, volume: 20 L, holds: 3 kg}\n",
        "cuts/shin.yaml": "species: beef\nprice: 12.50/kg\n",
        "services/friday.yaml": "day: Friday\nat: 18:00\nplates: {warm: 10, hot: 10}\n",
    }
    for plated, at in (("warm", 57), ("hot", 75)):
        files[f"cooks/{plated}.yaml"] = cook.format(at) + "loss: 20 %\n"
        files[f"plates/{plated}.yaml"] = plate.format(plated)
    wanted = [p.message for p in read(write(tmp_path, files))[1] if "is wanted at" in p.message]
    assert [words.partition(" is ")[0] for words in wanted] == ["Bath of 20 L"]
    assert "134.6\N{NO-BREAK SPACE}°F, for Friday" in wanted[0]
