"""What menus, counters, buffets, services, the till and decisions write, against what is beside it.

The kitchen is made up; each slip is a true value with its point moved or its unit mistaken.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.problems import Problem
from tests.kitchens import read, write

FILES = {
    "kitchen.yaml": (
        "name: X\ncurrency: EUR\nlocale: en_IE\nloaded wage: 19.80/h\ntax: 13.5 %\n"
        "sections: [starters, mains]\n"
        "till: {columns: {date: Day, plate: Dish, count: Sold, price: Taken}, price is: row}\n"
        "equipment: {bath: {kind: water bath, volume: 30 L, holds: 9 kg}}\n"
    ),
    # A round fish loses its head and frame; of a fillet only the pin bones come out.
    "cuts/hake.yaml": "species: fish\nprice: 9.40/kg\ntrim: 44 %\n",
    "cuts/trout.yaml": "species: fish\nprice: 14.00/kg\ntrim: {how: pin-boned, loss: 3 %}\n",
    "cuts/oyster.yaml": "species: other\nprice: 0.90/each\neach: 90 g\n",
    "cooks/steam.yaml": "cut: hake\nhow: steam\nload: 4 kg\nloss: 10 %\n",
    "pantry/mash.yaml": "price: 2.20/kg\n",
    "pantry/ale.yaml": "price: 54.00/keg\nsold as: {pack: keg of 30 L, deposit: 60.00}\n",
    "plates/hake.yaml": "menu: mains\ncook: steam\nportion: 170 g\nprice: 27.00\n",
    "plates/oysters.yaml": "menu: starters\ncut: oyster\nportion: 6 pieces\nprice: 16.00\n",
    "menus/shore.yaml": (
        "price: 40.00\ncourses: {first: {oysters: [40 %, 4.00]}, main: {hake: 90 %}}\n"
    ),
    "buffets/counter.yaml": (
        "price: 48.00/kg\ncooks: {steam: 1 kg}\nleft: 7 %\nleft worth: 4.00/kg\n"
    ),
    "buffets/table.yaml": "price: 26.00\ncooks: {steam: 130 g}\nitems: {mash: 160 g}\n",
    "services/friday.yaml": (
        "day: Friday\nat: 18:00\nplates: {hake: 20}\non hand: {hake: 2 kg}\n"
        "besides: {mash: 500 g}\n"
    ),
    "swaps/hake.yaml": (
        "benchmark: oysters\nchallengers: [hake]\n"
        "decided: {date: 2026-09-03, who: MK, why: it sells, margin change: 1.10, "
        "food saved: -0.80}\n"
    ),
    "sales/week.csv": (
        "Day,Dish,Sold,Taken\n2026-09-04,hake,31,837.00\n2026-09-11,hake,34,918.00\n"
        "2026-09-18,hake,2,0.00\n2026-09-25,hake,12,324.00\n"
    ),
}


OYSTERS = FILES["plates/oysters.yaml"]


def doubted(root: Path, file: str = "", old: str = "", new: str = "") -> list[Problem]:
    """What is in doubt in the kitchen, one value of it changed."""
    files = dict(FILES)
    if file:
        assert files[file].count(old) == 1
        files[file] = files[file].replace(old, new)
    costed, problems = read(write(root, files))
    assert costed is not None, [str(p) for p in problems if p.is_error]
    return [p for p in problems if "checked:" in p.hint]


def test_nothing_is_doubted_of_true_values(tmp_path: Path) -> None:
    assert doubted(tmp_path) == []


@pytest.mark.parametrize(
    ("file", "old", "new", "line", "said", "meant"),
    [
        (
            "menus/shore.yaml",
            "4.00]",
            "40.0]",
            2,
            "is more than the price of Oysters on its own",
            "4.00",
        ),
        ("buffets/counter.yaml", "48.00/kg", "4.80/kg", 1, "its food costs 4", "48.00/kg"),
        ("buffets/table.yaml", "price: 26.00", "price: 2.60", 1, "its food costs ", ""),
        ("buffets/counter.yaml", "worth: 4.00", "worth: 60.0", 4, "more than the 48.00/kg", ""),
        ("buffets/table.yaml", "130 g", "1.30 kg", 2, "much of one dish for one", "0.130 kg"),
        ("buffets/table.yaml", "160 g", "1600 g", 3, "much of one dish for one", "160.0 g"),
        ("services/friday.yaml", "hake: 2 kg", "hake: 2000 kg", 4, "far outside", "2000 g"),
        ("services/friday.yaml", "500 g", "500 kg", 5, "far outside", "500 g"),
        ("swaps/hake.yaml", "1.10", "110", 3, "more than any of these plates costs", "1.10"),
        ("swaps/hake.yaml", "-0.80", "-80", 3, "more than any of these plates costs", ""),
        ("cuts/oyster.yaml", "90 g", "900 g", 3, "6 pieces of 900 g each", "90.0 g"),
        ("pantry/ale.yaml", "60.00", "6000", 2, "is 110 times what is in the pack", "6.00"),
        ("sales/week.csv", "31,837.00", "31,83.70", 2, "83.70 for 31 is 1/10 of its price", ""),
        ("sales/week.csv", "31,837.00", "-31,837.00", 2, "31 taken back, of 48 sold", ""),
        ("sales/week.csv", "34,918", "340,918", 3, "918.00 for 340 is 1/10 of its price", ""),
    ],
)
def test_what_no_guest_pays_or_eats_is_doubted(
    file: str, old: str, new: str, line: int, said: str, meant: str, tmp_path: Path
) -> None:
    found = [p for p in doubted(tmp_path, file, old, new) if p.place.file == file]
    assert [p.place.line for p in found] == [line]
    assert said in found[0].message
    assert not meant or f"did you mean {meant}?" in found[0].hint


def test_a_swap_s_forecast_is_held_against_a_forecast_or_one_month_of_its_benchmark(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    swap = FILES["swaps/hake.yaml"]
    for known in ("forecast: 20\n", "sold: {2026-08: 90}\n"):
        monkeypatch.setitem(FILES, "plates/oysters.yaml", f"{OYSTERS}{known}")
        for count, said in ((60, 0), (2000, 1)):
            written = f"{swap}forecast: {count}\n"
            folder = tmp_path / f"{known[0]}{count}"
            found = doubted(folder, "swaps/hake.yaml", swap, written)
            assert sum(p.place.line == 4 for p in found) == said


def test_a_price_that_all_rows_of_the_till_have_is_not_doubted_row_by_row(tmp_path: Path) -> None:
    """A dish that is sold for a fraction of today's price, week after week, is no slip."""
    rows = FILES["sales/week.csv"]
    cheap = rows.replace("837.00", "62.00").replace("918.00", "68.00").replace("324.00", "24.00")
    assert doubted(tmp_path, "sales/week.csv", rows, cheap) == []


@pytest.mark.parametrize(
    ("file", "old", "new", "where"),
    [
        ("kitchen.yaml", "holds: 9 kg", "holds: 90 kg", "among the keys of this equipment"),
        ("plates/hake.yaml", "portion: 170 g", "portion: 17 g", "in this file"),
        ("prices/list.csv", "2026-09-08,hake,9.40", "2026-09-08,hake,94.0", "in cuts/hake.yaml"),
        ("sales/week.csv", "31,837.00", "31,83.70", "in kitchen.yaml"),
    ],
)
def test_a_hint_names_the_file_that_can_say_checked(
    file: str, old: str, new: str, where: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    prices = "".join(f"2026-0{month}-08,hake,9.40/kg\n" for month in (6, 7, 8, 9))
    monkeypatch.setitem(FILES, "prices/list.csv", f"date,item,price\n{prices}")
    found = [p for p in doubted(tmp_path, file, old, new) if p.place.file == file]
    assert f"write checked: and the day {where}" in found[0].hint


def test_a_question_ends_its_sentence_in_a_hint(tmp_path: Path) -> None:
    (found,) = doubted(tmp_path, "buffets/counter.yaml", "48.00/kg", "4.80/kg")
    assert "did you mean 48.00/kg? Look at the price and at what is put out; if" in found.hint


def test_covers_in_one_service_are_no_inches(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    plate = FILES["plates/hake.yaml"]
    monkeypatch.setitem(FILES, "plates/hake.yaml", f"{plate}forecast: 20\n")
    found = doubted(tmp_path, "services/friday.yaml", "hake: 20}", "hake: 200}")
    assert any(p.message.startswith("200 in one service is 10 times") for p in found)


@pytest.mark.parametrize(("at", "count"), [("58 °C", 1), ("65 °C", 0), ("85 °C", 0)])
def test_what_is_reheated_comes_to_what_it_is_held_at(
    at: str, count: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    held = (
        "hold at: 65 °C\ncool: {to: 4 °C, within: 2 h}\n"
        f"reheat: {{at: {at}, for: 50 min, in: steam oven}}\n"
    )
    monkeypatch.setitem(FILES, "cooks/steam.yaml", FILES["cooks/steam.yaml"] + held)
    _, problems = read(write(tmp_path, FILES))
    found = [p for p in problems if "never comes to the 65 °C that it is held at" in p.message]
    assert [str(p.place) for p in found] == ["cooks/steam.yaml:7:14"] * count
