"""Two means of several tests: of all weights together, which counts, and of the tests' yields.

Held to the statistics module of Python on exact fractions, and to a case worked out by hand.
"""

from __future__ import annotations

import statistics
from fractions import Fraction
from math import isnan, sqrt
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.pages.methods import method_pages
from builder.pages.view import View
from tests.cooks.kitchens import COOK, changed, pages
from tests.cooks.kitchens import costed as kitchen_of
from tests.yields.exact import Weighing, weighings
from tests.yields.test_chain import costed, one_stage, value

TESTS = """\
tests:
  - {date: 2026-09-01, in: 10 kg, out: 7 kg}
  - {date: 2026-09-02, in: 2 kg, out: 1.6 kg}
  - {date: 2026-09-03, in: 4 kg, out: 3 kg}
"""


@settings(max_examples=40, deadline=None)
@given(st.lists(weighings(), min_size=2, max_size=6))
def test_the_mean_and_spread_are_those_of_exact_fractions(tests: list[Weighing]) -> None:
    figures = costed(one_stage(tests)).figures
    yields = [Fraction(test.out, test.into) for test in tests]
    assert value(figures, "stage", "mean_test_yield") == pytest.approx(
        float(statistics.mean(yields)), rel=1e-12
    )
    assert value(figures, "stage", "test_yield_spread") == pytest.approx(
        sqrt(statistics.variance(yields)), rel=1e-6, abs=1e-9
    )


def test_the_ratio_of_sums_counts_and_the_mean_differs_from_it(tmp_path: Path) -> None:
    """By hand: 11.6 of 16 kg are 72.5 %; 70, 80 and 75 % are 75 %, 5 points about it."""
    files = changed(COOK, ("loss: 24 %\n", TESTS))
    kitchen = kitchen_of(tmp_path, files)
    row = kitchen.rows.stages["cooks/chuck-30h", "cook"]
    found = {
        name: kitchen.figures.value("stage", name, row)
        for name in ("stage_yield", "mean_test_yield", "test_yield_spread")
    }
    assert found == {
        "stage_yield": pytest.approx(0.725),
        "mean_test_yield": pytest.approx(0.75),
        "test_yield_spread": pytest.approx(0.05),
    }
    site = pages(kitchen)
    for path in ("cooks/chuck-30h.html", "forms/chuck-30h-cooking-loss.html"):
        words = site[path][1]
        assert "Mean of the yields" in words
        assert "standard deviation 5.0%" in words
        assert "72.5%" in words
        assert "75.0%" in words
    methods = {page.path for page in method_pages(View.of(kitchen, ()))}
    assert {"methods/stage-mean-test-yield.html", "methods/stage-test-yield-spread.html"} < methods


def test_the_yield_test_of_a_cut_prints_both(tmp_path: Path) -> None:
    cut = "species: beef\nprice: 13.60/kg\ntrim:\n" + "".join(
        f"  {line}\n" for line in TESTS.splitlines()
    )
    site = pages(kitchen_of(tmp_path, {**changed(COOK), "cuts/chuck.yaml": cut}))
    words = site["forms/chuck-yield-test.html"][1]
    assert words.count("Mean of the yields") == 1  # on the sheet of all tests together
    assert "75.0%" in words
    assert "Mean of the yields" in site["cuts/chuck.html"][1]


def test_one_test_has_neither_a_spread_nor_a_second_mean(tmp_path: Path) -> None:
    one = "\n".join(TESTS.splitlines()[:2]) + "\n"
    kitchen = kitchen_of(tmp_path, changed(COOK, ("loss: 24 %\n", one)))
    row = kitchen.rows.stages["cooks/chuck-30h", "cook"]
    assert isnan(kitchen.figures.value("stage", "test_yield_spread", row))
    for path in ("cooks/chuck-30h.html", "forms/chuck-30h-cooking-loss.html"):
        assert "Mean of the yields" not in pages(kitchen)[path][1]
