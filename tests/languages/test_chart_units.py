"""What the axes of pictures count is said in the language of the pages."""

from __future__ import annotations

import re
import shutil
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from builder.build import compute_content
from builder.language import written, written_in
from builder.pages.components import Chart, Value, walk
from builder.pages.view import View
from builder.records.kitchen_head import language_for
from tests.kitchens import pages_but_methods
from tests.site.sites import DEMO

# Units, currencies and what the kitchen named itself, the same in every language.
SAME = re.compile(r"[A-Z]{3}(?: ?/ ?kg)?|°C|kg|%")


@cache
def charts(root: Path) -> dict[tuple[str, str], Chart]:
    """Every picture, by page and id, with its words in the kitchen's language."""
    costed, problems = compute_content(root, None, date(2026, 10, 1))
    assert costed is not None, problems
    with written_in(language_for(costed.content.kitchen)):
        return {
            (page.path, chart.id): replace(chart, rows=tuple(map(said, chart.rows)))
            for page in pages_but_methods(View.of(costed, problems))
            for chart in walk(page.sections)
            if isinstance(chart, Chart)
        }


def said(row: Mapping[str, Value]) -> dict[str, Value]:
    """A row as it is written into a page."""
    return {key: written(value) if isinstance(value, str) else value for key, value in row.items()}


def units(root: Path) -> dict[tuple[str, str, str], str]:
    """The words of every axis, by page, picture and axis."""
    found = charts(root).items()
    return {(*key, axis): unit for key, chart in found for axis, unit in chart.units.items()}


@pytest.fixture(scope="module")
def french(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = tmp_path_factory.mktemp("fr") / "content"
    shutil.copytree(DEMO, root)
    kitchen = root / "kitchen.yaml"
    text = kitchen.read_text(encoding="utf-8")
    kitchen.write_text(text.replace("locale: en_CA", "locale: fr_CA"), encoding="utf-8")
    return root


def test_no_axis_of_a_french_kitchen_is_in_english(french: Path) -> None:
    english, found = units(DEMO), units(french)
    assert len(found) > 100
    same = {unit for key, unit in found.items() if unit == english.get(key)}
    assert {unit for unit in same if not SAME.fullmatch(unit)} == set()


def test_the_classes_of_a_french_menu_are_those_that_its_picture_knows(french: Path) -> None:
    """Else no plate has a shape or a colour, and only its name is drawn."""
    scatters = [each for each in charts(french).values() if each.kind == "margin-scatter"]
    assert len(scatters) == 5
    for chart in scatters:
        known = {chart.units[name] for name in ("both", "sells", "earns", "neither")}
        assert "se vend et rapporte" in known
        assert {row["class"] for row in chart.rows if row["role"] == "plate"} <= known
