"""A small kitchen with tastings written as text, and what is said of them."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from builder.build import compute_content
from builder.costing.tasting_results import TastingResult
from builder.pages.view import View
from builder.problems import Problem

ROOT = Path(__file__).parent.parent.parent / "content"
TODAY = date(2026, 10, 1)
PLACE = "tastings/trial.yaml"
ROWS = "tastings/trial.csv"

BATH = "cut: chuck\nhow: water bath\nat: 57 °C\nload: 7 kg\npiece: {weight: 7 kg}\n"
KITCHEN: Mapping[str, str] = {
    "kitchen.yaml": "name: Ferrystone Kitchen\ncurrency: CAD\nas of: 2026-10-01\n",
    "cuts/chuck.yaml": "species: beef\nprice: 13.60/kg\n",
    "cuts/ribeye.yaml": "species: beef\nprice: 40/kg\n",
    "cooks/chuck-24h.yaml": f"for: 24 h\nloss: 20 %\n{BATH}",
    "cooks/chuck-36h.yaml": f"for: 36 h\nloss: 22 %\n{BATH}",
    "cooks/ribeye-grill.yaml": (
        "cut: ribeye\nhow: grill\nload: 5 kg\npiece: {weight: 5 kg}\nloss: 18 %\n"
    ),
    "pantry/butter.yaml": "price: 9/kg\nallergens: [milk]\n",
    "plates/steak.yaml": (
        "menu: mains\ncook: chuck-24h\nportion: 200 g\nwith: {butter: 10 g}\nprice: 30.00\n"
    ),
    "plates/ribeye-steak.yaml": "menu: mains\ncook: ribeye-grill\nportion: 200 g\nprice: 44.00\n",
}  # fmt: skip
SCORES = """test: scores
samples: {ribeye: ribeye-grill, short: chuck-24h, long: chuck-36h}
benchmark: ribeye
tasters: [T1, T2, T3]
attributes: {tenderness: 9-point, texture: [too firm, right, falling apart]}
margin: 10 %
scores:
  T1: {ribeye: [7, right], short: [5, too firm], long: [8, right]}
  T2: {ribeye: [6, right], short: [5, right], long: [7, 1]}
  T3: {ribeye: [8, 0], short: [6, -1], long: [8, falling apart]}
"""
TRIANGLE = """test: triangle
samples: {short: chuck-24h, long: chuck-36h}
tasters: 12
correct: 8
"""


def computed(files: Mapping[str, str]) -> tuple[View | None, list[Problem]]:
    """A kitchen with these files too, computed, and all its problems."""
    with TemporaryDirectory() as folder:
        for name, text in {**KITCHEN, **files}.items():
            path = Path(folder) / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        costed, problems = compute_content(Path(folder), None, TODAY)
    return (View.of(costed, problems) if costed else None), problems


def trial(yaml: str, rows: str = "") -> tuple[View | None, list[Problem]]:
    """The small kitchen with one tasting."""
    return computed({PLACE: yaml, **({ROWS: rows} if rows else {})})


def result_of(yaml: str, rows: str = "") -> TastingResult:
    """The result of one tasting without a mistake."""
    view, problems = trial(yaml, rows)
    assert view is not None, [str(p) for p in problems]
    return view.costed.tastings["trial"]


@cache
def demo() -> View:
    """The demo kitchen, computed once."""
    costed, problems = compute_content(ROOT, None, TODAY)
    assert costed is not None
    return View.of(costed, problems)
