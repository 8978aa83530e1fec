"""Counters that sell by weight and buffets, against arithmetic by hand, and their mistakes."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from pathlib import Path

import pytest

from builder.build import compute_content
from builder.costing.buffet_rows import BuffetRows
from builder.costing.costed import Costed
from builder.pages.buffets import buffet_pages
from builder.pages.components import Table, walk
from builder.pages.data import data_files
from builder.pages.equipment import equipment_page
from builder.pages.search import search_records
from builder.pages.view import View
from tests.kitchens import TODAY, costed_from, read, write
from tests.menus.test_pages import words
from tests.records.mistakes import Mistake
from tests.records.test_mistakes import made, name

COUNTER, PARTY = "buffets/counter.yaml", "buffets/party.yaml"
# 10 kg of beef at 8.00 leave 8 kg to serve: 10.00 a kilogram; 2 h at 20.00 on 8 kg: 5.00.
BASE: Mapping[str, str] = {
    "kitchen.yaml": (
        "name: Invented kitchen\ncurrency: CAD\ntax: 10 %\nloaded wage: 20.00/h\n"
        "targets: {food cost: 30 %}\nseasoning: 10 %\n"
    ),
    "cuts/beef.yaml": "species: beef\nprice: 8.00/kg\nallergens: none\n",
    "cooks/roast.yaml": "cut: beef\nhow: oven\nload: 10 kg\nyield: 80 %\nhands-on: 2 h\n",
    "pantry/slaw.yaml": "price: 4.00/kg\nallergens: [eggs]\n",
    "pantry/bun.yaml": "price: 0.50/each\neach: 50 g\nallergens: [wheat]\n",
    "plates/roast.yaml": "menu: mains\ncook: roast\nportion: 200 g\nprice: 22.00\n",
    COUNTER: (
        "name: Roast by weight\nprice: 44.00/kg\ncooks: {roast: 1 kg}\nleft: 20 %\n"
        "left worth: 5.00/kg\nsells: 12 kg\n"
    ),
    PARTY: (
        "name: Party\nprice: 16.50\ncooks: {roast: 200 g}\n"
        "items: {slaw: 250 g, bun: 1 each}\nleft: 10 %\nguests: 40\n"
    ),
}


@pytest.fixture(scope="module")
def costed(tmp_path_factory: pytest.TempPathFactory) -> Costed:
    return costed_from(write(tmp_path_factory.mktemp("kitchen"), BASE))


def value(costed: Costed, buffet: str, figure: str) -> float:
    return costed.figures.value("buffet", figure, costed.rows.of(BuffetRows)[buffet].row)


def test_a_kilogram_sold_pays_for_what_is_left(costed: Costed) -> None:
    """1 kg put out costs 11.00 with seasoning; 200 g are left, worth 1.00: 10.00 on 800 g sold."""
    expected = {
        "food_cost": 10.00,
        "taken_weight": 0.8,
        "left_cost": 0.2 * 11.00 - 1.00,
        "cost_per_kg_sold": 12.50,
        "full_cost_per_kg_sold": 15.00 / 0.8,
        "price_per_kg_ex_tax": 40.00,
        "margin_per_kg": 27.50,
        "food_cost_share": 12.50 / 40.00,
        "week_margin": 12 * 27.50,
        "price_per_kg_for_food_cost": 12.50 / 0.30 * 1.1,
    }
    for figure, by_hand in expected.items():
        assert value(costed, "counter", figure) == pytest.approx(by_hand), figure


def test_a_guest_of_a_buffet_costs_all_that_is_put_out(costed: Costed) -> None:
    """200 g of roast 2.00, 250 g of slaw 1.00, a bun 0.50: 3.85 with seasoning; 450 g eaten."""
    expected = {
        "put_out": 0.5,
        "food_cost": 3.85,
        "taken_weight": 0.45,
        "left_cost": 0.385,
        "dishes_labour": 1.00,
        "price_ex_tax": 15.00,
        "contribution_margin": 11.15,
        "food_cost_share": 3.85 / 15.00,
        "cost_per_kg_sold": 3.85 / 0.45,
        "week_margin": 40 * 11.15,
        "price_for_food_cost": 3.85 / 0.30 * 1.1,
    }
    for figure, by_hand in expected.items():
        assert value(costed, "party", figure) == pytest.approx(by_hand), figure


def test_a_mix_by_weight_costs_the_same_however_much_of_it_is_written(tmp_path: Path) -> None:
    files = dict(BASE)
    files[COUNTER] = "price: 30.00/kg\ncooks: {roast: 300 g}\nitems: {slaw: 100 g}\n"
    files["buffets/more.yaml"] = "price: 30.00/kg\ncooks: {roast: 3 kg}\nitems: {slaw: 1 kg}\n"
    found = costed_from(write(tmp_path, files))
    per_kg = [value(found, each, "cost_per_kg_sold") for each in ("counter", "more")]
    assert per_kg == pytest.approx([1.1 * (0.75 * 10 + 0.25 * 4)] * 2)


def test_pages_lists_search_and_data_hold_both(costed: Costed) -> None:
    view = View.of(costed, ())
    listed, counter, party = buffet_pages(view)
    start, end = counter.answer.split("; food cost 31.")
    assert start == "Roast by weight: food for $12.50/kg sold leaves $27.50/kg"
    assert end.endswith("above the 30.0% aimed at. 20.0% of what is put out is left.")
    assert party.answer.startswith("A guest leaves $11.15 after $3.85 of food")
    assert "Contains gluten (wheat) and eggs." in words(party)
    assert "Roast by weight" in words(listed)
    found = {title: (kind, path) for title, kind, path, _ in search_records(view)}
    assert found["Roast by weight"] == ("sold by weight", "buffets/counter.html")
    assert found["Party"] == ("buffet", "buffets/party.html")
    dishes = dict(data_files(view))["data/buffet_dishes.csv"].decode()
    assert "party/items/bun,party,,bun,each" in dishes


MISTAKES = [
    Mistake(COUNTER, "roast: 1 kg", "§rost: 1 kg", 'no cook "rost"', '"roast"'),
    Mistake(COUNTER, "roast: 1 kg", "roast: §0 kg", "weighs something"),
    Mistake(COUNTER, "roast: 1 kg", "roast: §1 each", "1 each"),
    Mistake(COUNTER, "44.00/kg", "§44.00/L", "44.00/L"),
    Mistake(COUNTER, "44.00/kg", "§0.00/kg", "more than nothing"),
    Mistake(COUNTER, "left: 20 %", "left: §100 %", "nothing is sold"),
    Mistake(COUNTER, "left: 20 %", "left: §20", '"20" has no unit', "%"),
    Mistake(COUNTER, "sells: 12 kg", "guests: §12", "counts no guests", "sells:"),
    Mistake(PARTY, "guests: 40", "sells: §40 kg", "counts guests", "guests:"),
    Mistake(PARTY, "slaw: 250 g", "§slow: 250 g", 'no pantry item "slow"', '"slaw"'),
    Mistake(PARTY, "slaw: 250 g", "slaw: §250 ml", "does not fit how slaw is priced"),
    Mistake("pantry/bun.yaml", "each: 50 g\n", "", "has no weight", "each: 120 g"),
]  # fmt: skip


@pytest.mark.parametrize("mistake", MISTAKES, ids=name)
def test_a_mistake_is_one_error_at_its_place(mistake: Mistake, tmp_path: Path) -> None:
    text, place = made(mistake, BASE[mistake.file])
    computed, problems = read(write(tmp_path, {**BASE, mistake.file: text}))
    assert computed is None
    [error] = [problem for problem in problems if problem.is_error]
    if mistake.file != "pantry/bun.yaml":
        assert str(error.place) == place
    assert mistake.message in error.message
    assert mistake.hint in error.hint


def test_slips_are_doubted_and_a_kitchen_without_any_says_how(tmp_path: Path) -> None:
    files = {**BASE, COUNTER: BASE[COUNTER].replace("44.00/kg", "4400/kg")}
    computed, problems = read(write(tmp_path / "slip", files))
    assert computed is not None
    assert any("4400/kg is far outside" in problem.message for problem in problems)
    none = {path: text for path, text in BASE.items() if not path.startswith("buffets/")}
    computed, problems = compute_content(write(tmp_path / "none", none), None, TODAY)
    assert computed is not None, problems
    [page] = buffet_pages(View.of(computed, problems))
    assert "a file under buffets/" in page.answer


def test_process_that_nobody_wrote_down_is_not_nothing(tmp_path: Path) -> None:
    """A made dip without energy; a roast whose energy and equipment nothing states."""
    files = {
        **BASE,
        "pantry/dip.yaml": "of: {slaw: 1 kg}\nmakes: 1 kg\nhands-on: 5 min\n",
        PARTY: BASE[PARTY].replace("bun: 1 each", "bun: 1 each, dip: 50 g"),
    }
    view = View.of(costed_from(write(tmp_path, files)), ())
    (page,) = (page for page in buffet_pages(view) if page.title == "Party")
    (table,) = (s for s in walk(page.sections) if isinstance(s, Table) and s.id == "put-out")
    process = {str(row.cells[0].text): row.cells[4] for row in (*table.rows, *table.foot)}
    assert str(process["Dip"].text) == "not known"
    # What is bought takes no process, which is known.
    assert "0.00" in str(process["Slaw"].text)
    assert str(process["All that is put out"].text) == "not known"
    assert "the energy of Dip is not known" in str(table.about)
    assert "no equipment is named for Roast" in str(table.about)


def test_labour_that_nobody_states_is_not_nothing(tmp_path: Path) -> None:
    """A roast of 2 h a batch beside a made dip without its time, with a wage and without."""
    files = {
        **BASE,
        "pantry/dip.yaml": "of: {slaw: 1 kg}\nmakes: 1 kg\n",
        PARTY: BASE[PARTY].replace("bun: 1 each", "bun: 1 each, dip: 50 g"),
    }
    labour, about = _labour_column(tmp_path / "paid", files)
    assert labour["Dip"] == ("not known", "")
    # What is bought takes no work, which is known; 200 g of 8 kg take a fortieth of 40.00.
    assert labour["Slaw"] == ("$0.00", "")
    assert labour["Roast"] == ("$1.00", "")
    assert labour["All that is put out"] == ("$1.00", "not known in full")
    assert "Labour is not known in full: no hands-on time is stated for Dip." in about
    (row,) = _rows(costed_from(tmp_path / "paid"), "party")
    assert row["in_doubt"] == "labour and energy and supplies not known in full"
    unpaid = {**files, "kitchen.yaml": BASE["kitchen.yaml"].replace("loaded wage: 20.00/h\n", "")}
    labour, about = _labour_column(tmp_path / "unpaid", unpaid)
    assert {name: text for name, (text, _) in labour.items()} == {
        "Roast": "not known", "Slaw": "$0.00", "Bun": "$0.00", "Dip": "not known",
        "All that is put out": "not known",
    }  # fmt: skip
    assert "no wage is stated" in about


def _rows(costed: Costed, buffet: str) -> list[dict[str, str]]:
    """The rows of a buffet in the data."""
    table = dict(data_files(View.of(costed, ())))["data/buffets.csv"].decode()
    return [row for row in csv.DictReader(table.splitlines()) if row["id"] == buffet]


def _labour_column(
    folder: Path, files: Mapping[str, str]
) -> tuple[dict[str, tuple[str, str]], str]:
    """The labour of what the party puts out, each with its note, and what the table says of it."""
    view = View.of(costed_from(write(folder, files)), ())
    (page,) = (page for page in buffet_pages(view) if page.title == "Party")
    (table,) = (s for s in walk(page.sections) if isinstance(s, Table) and s.id == "put-out")
    cells = {str(row.cells[0].text): row.cells[3] for row in (*table.rows, *table.foot)}
    return {who: (str(c.text), str(c.note)) for who, c in cells.items()}, str(table.about)


def test_hours_of_equipment_say_that_buffets_are_not_in_them(tmp_path: Path) -> None:
    """The pages of a kitchen with a counter and a party, and of the same without them."""
    said = "What counters and buffets put out is in no count."
    gear = f"{BASE['kitchen.yaml']}equipment: {{oven: {{kind: oven, holds: 20 kg}}}}\n"
    files = {**BASE, "kitchen.yaml": gear}
    bare = {path: text for path, text in files.items() if not path.startswith("buffets/")}
    assert said in words(equipment_page(View.of(costed_from(write(tmp_path / "a", files)), ())))
    assert said not in words(equipment_page(View.of(costed_from(write(tmp_path / "b", bare)), ())))
