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


def test_search_and_sources_name_figures_by_the_pound(tmp_path: Path) -> None:
    found, problems = read(write(tmp_path, CUSTOMARY))
    assert found is not None, problems
    view = View.of(found, [])
    titles = [title for title, *_ in _methods(view)]
    (sources,) = [page for page in method_pages(view) if page.path == "sources.html"]
    for words in ("\n".join(titles), json.dumps(sources.sections, default=str)):
        assert "per servable lb" in words
        assert "per servable kg" not in words
