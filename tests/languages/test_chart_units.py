"""What the axes of pictures count is said in the language of the pages."""

from __future__ import annotations

import re
import shutil
from datetime import date
from pathlib import Path

from builder.build import compute_content
from builder.language import written_in
from builder.pages.components import Chart, walk
from builder.pages.view import View
from builder.records.kitchen_head import language_for
from tests.kitchens import pages_but_methods
from tests.site.sites import DEMO

# Units, currencies and what the kitchen named itself, the same in every language.
SAME = re.compile(r"[A-Z]{3}(?: ?/ ?kg)?|°C|kg|%")


def units(root: Path) -> dict[tuple[str, str, str], str]:
    """The words of every axis, by page, picture and axis."""
    costed, problems = compute_content(root, None, date(2026, 10, 1))
    assert costed is not None, problems
    with written_in(language_for(costed.content.kitchen)):
        return {
            (page.path, chart.id, axis): unit
            for page in pages_but_methods(View.of(costed, problems))
            for chart in walk(page.sections)
            if isinstance(chart, Chart)
            for axis, unit in (chart.units or {}).items()
        }


def test_no_axis_of_a_french_kitchen_is_in_english(tmp_path: Path) -> None:
    shutil.copytree(DEMO, tmp_path / "fr")
    kitchen = tmp_path / "fr" / "kitchen.yaml"
    text = kitchen.read_text(encoding="utf-8")
    kitchen.write_text(text.replace("locale: en_CA", "locale: fr_CA"), encoding="utf-8")
    english, french = units(DEMO), units(tmp_path / "fr")
    assert len(french) > 100
    same = {unit for key, unit in french.items() if unit == english.get(key)}
    assert {unit for unit in same if not SAME.fullmatch(unit)} == set()
