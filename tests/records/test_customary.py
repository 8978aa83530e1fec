"""What a kitchen that weighs in pounds reads in hints, search and sources."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from builder.pages.methods import method_pages
from builder.pages.search import _methods
from builder.pages.view import View
from tests.kitchens import read, write
from tests.kitchens.small import SMALL

CUSTOMARY = {**SMALL, "kitchen.yaml": SMALL["kitchen.yaml"].replace("metric", "us customary")}
COOK = "cooks/chuck-30h.yaml"
OF_COOK = "cut: chuck\nhow: water bath\nat: 57 °C\nfor: 30 h\nload: 7.10 kg\nloss: 24 %\n"


@pytest.mark.parametrize(
    ("old", "new", "hint"),
    [
        ("load: 7.10 kg", "load: 7.10", "units that fit: lb, oz, g, kg"),
        ("at: 57 °C", "at: 57", "units that fit: °F, °C"),
        ("load: 7.10 kg", "load:", "write a weight, for example 16 lb"),
        ("at: 57 °C", "at:", "write a temperature, for example 135 °F"),
        ("load: 7.10 kg", "load: 7,10 kg", "write 7.10 kg"),
        ("loss: 24 %", "remainder:", "write a price, for example 4.00/lb"),
    ],
)
def test_hints_name_pounds_first_and_keep_what_was_written(
    tmp_path: Path, old: str, new: str, hint: str
) -> None:
    """1.9 kg are 4.19 lb and 57 °C 134.6 °F, by the exact factors."""
    assert "us customary" in CUSTOMARY["kitchen.yaml"]
    written = OF_COOK.replace(old, new)
    _, problems = read(write(tmp_path, {**CUSTOMARY, COOK: written}))
    found = [p.hint for p in problems if p.place.file == COOK and p.is_error]
    assert hint in found


KITCHEN_OF = {
    "kitchen.yaml": "name: X\ncurrency: USD\nunits: {}\nloaded wage: 24/h\nenergy: 0.20/kWh\n",
    "pantry/bones.yaml": "price: 2/kg\n",
    "pantry/fat.yaml": "price: 2/kg\n",
    "pantry/wine.yaml": "price: 6/L\n",
    "pantry/sauce.yaml": (
        "of: {bones: 9 kg, fat: 1.4 kg, wine: 2 ml}\nmakes: 5 kg\nenergy: 120 kWh\n"
    ),
    "cuts/chuck.yaml": "species: beef\nprice: 13/kg\ntrim: 8 %\n",
    "cooks/roast.yaml": (
        "cut: chuck\nhow: oven\nfor: 2 h\nenergy: 90 kWh\nloss: 24 %\n"
        "tests:\n  - {date: 2026-01-14, in: 4 kg, out: 3 kg}\n"
        "  - {date: 2026-02-14, in: 5 kg, out: 4 kg}\n"
    ),
    "plates/roast.yaml": "menu: mains\ncook: roast\nportion: 7 oz\nprice: 30\n",
}


@pytest.mark.parametrize(
    ("units", "said", "not_said"),
    [
        ("metric", ["for 4.5 kg in 2 h", "a batch of 10.4 kg", "for 10.4 kg of"], ["lb", "oz"]),
        # 4.5 kg are 9 lb 14.7 oz and 10.4 kg 22 lb 14.8 oz, by the exact factor.
        (
            "us customary",
            ["for 9 lb 14.7 oz in 2 h", "a batch of 22 lb 14.8 oz", "for 22 lb 14.8 oz of"],
            [],
        ),
    ],
)
def test_warnings_speak_of_weights_in_the_kitchen_s_units(
    tmp_path: Path, units: str, said: list[str], not_said: list[str]
) -> None:
    files = {**KITCHEN_OF, "kitchen.yaml": KITCHEN_OF["kitchen.yaml"].format(units)}
    _, problems = read(write(tmp_path, files))
    messages = "; ".join(problem.message for problem in problems)
    assert [words for words in said if words not in messages] == []
    assert [words for words in not_said if f" {words}" in messages] == []


@pytest.mark.parametrize(
    ("units", "example"), [("metric", "quart: 975 g"), ("us customary", "2.15 lb")]
)
def test_an_example_is_in_the_kitchen_s_units_whatever_the_item_s_are(
    tmp_path: Path, units: str, example: str
) -> None:
    files = {
        "kitchen.yaml": KITCHEN_OF["kitchen.yaml"].format(units),
        "pantry/wine.yaml": "price: 6/lb\n",
        "pantry/stock.yaml": "of: {wine: 3 qt}\nmakes: 2 L\n",
    }
    _, problems = read(write(tmp_path, files))
    [hint] = [problem.hint for problem in problems if "such as" in problem.hint]
    assert example in hint


@pytest.mark.parametrize("degree", ["C°", "F°", "c °"])
def test_a_degree_written_in_another_way_is_hinted_as_it_is_read(
    tmp_path: Path, degree: str
) -> None:
    letter = next(each.upper() for each in degree if each.isalpha())
    _, problems = read(write(tmp_path, {**SMALL, COOK: OF_COOK.replace("°C", degree)}))
    [hint] = [problem.hint for problem in problems if problem.is_error]
    assert hint.startswith(f'did you mean "°{letter}"?')


def test_search_and_sources_name_figures_by_the_pound(tmp_path: Path) -> None:
    found, problems = read(write(tmp_path, CUSTOMARY))
    assert found is not None, problems
    view = View.of(found, [])
    titles = [title for title, *_ in _methods(view)]
    (sources,) = [page for page in method_pages(view) if page.path == "sources.html"]
    for words in ("\n".join(titles), json.dumps(sources.sections, default=str)):
        assert "per servable lb" in words
        assert "per servable kg" not in words
