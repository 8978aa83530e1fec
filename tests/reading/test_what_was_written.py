"""Hints that are made from what was written, and one slip said once, at its own place."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.problems import Problem
from builder.reading.csv_text import parse_csv
from builder.reading.yaml_text import parse_yaml
from tests.kitchens import read, write

KITCHEN = "name: X\ncurrency: USD\n"
COLUMNS = ["date", "item", "price"]


@pytest.mark.parametrize(
    ("text", "place", "hint"),
    [
        ("name: X\nspecies beef\n", "2:1", "write species: beef"),
        ("plates:\n  steak 28\n  chop: 3\n", "2:3", "write steak: 28"),
        ("name: X\nhands on 40 min\n", "2:1", "write hands on: 40 min"),
        ("targets: {food cost 30 %}\n", "1:11", "write food cost: 30 %"),
        ("tax: 5 %\ntax: 6 %\n", "2:1", "delete one of the two"),
        ("# nothing yet\n", "", "delete it"),
    ],
)
def test_a_hint_writes_the_line_as_it_should_be(text: str, place: str, hint: str) -> None:
    [problem] = parse_yaml("k.yaml", text.encode())[1]
    assert str(problem.place) == ":".join(filter(None, ("k.yaml", place)))
    assert hint in problem.hint


def problems_of(text: str) -> list[Problem]:
    return parse_csv("p.csv", text.encode(), COLUMNS, [])[1]


def test_a_row_parted_by_another_sign_is_written_again() -> None:
    [problem] = problems_of("date,item,price\n2026-09-01;beef;13/kg\n2026-09-02,beef,13/kg\n")
    assert str(problem.place) == "p.csv:2:1"
    assert problem.message == "this row has 1 cell, the header 3"
    assert 'parted by "," here: write 2026-09-01,beef,13/kg' in problem.hint


def test_a_header_parted_by_another_sign_is_said_once() -> None:
    rows = "".join(f"2026-09-0{day},beef,13/kg\n" for day in range(1, 9))
    [problem] = problems_of(f"date;item;price\n{rows}")
    assert str(problem.place) == "p.csv:1:1"
    assert problem.hint == "write date,item,price"


def test_a_missing_column_says_what_to_do() -> None:
    [problem] = problems_of("date,item\n2026-09-01,beef\n")
    assert "add it to the first row" in problem.hint


ORDERED = "till: {columns: {plate: item, date: day, count: qty}, dates: day/month/year}\n"


def test_a_day_in_another_order_is_quoted_as_it_is_written(tmp_path: Path) -> None:
    sales = "day;item;qty\n2026-06-09;Steak;8\n"
    found = read(write(tmp_path, {"kitchen.yaml": KITCHEN + ORDERED, "sales/m.csv": sales}))[1]
    [problem] = [p for p in found if p.place.file == "sales/m.csv" and "a date" in p.message]
    assert problem.message == '"2026-06-09" is not a date'
    assert "write it as day/month/year" in problem.hint


@pytest.mark.parametrize(
    ("line", "hint"),
    [
        ("of: [flour 5 kg, milk 600 ml]", "write {flour: 5 kg, milk: 600 ml}"),
        ("of: flour 5 kg", "write {flour: 5 kg}"),
        ("of: flour", "write each as name: value, such as {beef-bones: 2 kg, onion: 300 g}"),
    ],
)
def test_a_list_for_names_with_values_is_written_again(
    line: str, hint: str, tmp_path: Path
) -> None:
    files = {"kitchen.yaml": KITCHEN, "pantry/dough.yaml": f"{line}\nmakes: 5 kg\n"}
    found = [p for p in read(write(tmp_path, files))[1] if p.place.file == "pantry/dough.yaml"]
    assert [p.hint for p in found if "names with values" in p.message] == [hint]


COOK = "cut: rib\nhow: oven\nat: 140 °C\nfor: 3 h\n"


@pytest.mark.parametrize(
    ("file", "text", "hint"),
    [
        ("services/friday.yaml", "day: Friday\nat: 18:00\nplates: {steak: '16, 1 d'}\n",
         "write [16, 1 d]"),
        ("cooks/roast.yaml", COOK + "tests: [{date: 2026-01-05, in: 5 kg, out: 4 kg, "
         "parts: {juices: 0.74 kg 7.90/kg}}]\n", "write [0.74 kg, 7.90/kg]"),
        ("cooks/roast.yaml", COOK.replace("3 h", "30 hours and 20 minutes"),
         "write 30 hours 20 minutes"),
        ("cooks/roast.yaml", COOK + "consumables: 4.20\n",
         "write each as name: value, such as {bags: 4.20}"),
        ("cooks/roast.yaml", "how: oven\n",
         "id of the cut that is cooked, such as cut: beef-chuck-roll"),
    ],
)  # fmt: skip
def test_a_hint_is_what_was_written_in_the_form_that_is_read(
    file: str, text: str, hint: str, tmp_path: Path
) -> None:
    found = read(write(tmp_path, {"kitchen.yaml": KITCHEN, file: text}))[1]
    assert hint in [p.hint for p in found if p.place.file == file]


def test_one_value_in_a_list_is_written_without_it(tmp_path: Path) -> None:
    files = {"kitchen.yaml": KITCHEN, "cooks/roast.yaml": "cut: [rib]\nhow: oven\n"}
    found = read(write(tmp_path, files))[1]
    assert [p.hint for p in found if "single value" in p.message] == ["write rib"]
