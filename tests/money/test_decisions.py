"""What a decision on a swap promised, beside what was sold since: by hand from the files."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from builder.costing.costed import Costed
from builder.pages.components import Page, walk
from builder.pages.view import View
from tests.kitchens import costed_from, pages_but_methods, write
from tests.kitchens.small import SMALL
from tests.pages_data.kitchens import html_of, text_of

SWAP = "swaps/braise-for-chuck.yaml"
FIGURES = "margin change: -0.50, food saved: 1.20, forecast: 30"


def decided(root: Path, day: str, more: str, files: dict[str, str] | None = None) -> Costed:
    """The small kitchen, in which the braise was decided on; it sold 150 in September."""
    text = f"decided: {{date: {day}, who: JB, why: one bath fewer{more}}}\n"
    return costed_from(write(root, {**SMALL, **(files or {}), SWAP: SMALL[SWAP] + text}))


def value(costed: Costed, figure: str) -> float:
    return costed.figures.value("swap", figure, costed.rows.swaps["braise-for-chuck", "braise"])


def page_of(costed: Costed) -> Page:
    view = View.of(costed, ())
    (page,) = [
        each for each in pages_but_methods(view) if each.path == SWAP.replace(".yaml", ".html")
    ]
    return page


def test_a_decision_is_held_against_what_was_sold_since(tmp_path: Path) -> None:
    costed = decided(tmp_path, "2026-08-31", f", {FIGURES}")
    # 150 plates in the 30 days of September; promised were 30 a week at -0.50 each.
    assert value(costed, "sold_since") == 150
    assert value(costed, "sold_a_week_since") == pytest.approx(150 / (30 / 7))
    assert value(costed, "promised_since") == pytest.approx(-0.50 * 30 * 30 / 7)
    assert value(costed, "earned_since") == pytest.approx(150 * value(costed, "margin_change"))


@pytest.mark.parametrize("day", ["2026-09-02", "2026-09-30"])
def test_part_of_a_month_is_not_counted(tmp_path: Path, day: str) -> None:
    assert math.isnan(value(decided(tmp_path, day, f", {FIGURES}"), "sold_since"))


def test_counted_periods_stand_in_where_no_whole_month_was_sold(tmp_path: Path) -> None:
    counts = {
        "counts/a.yaml": "from: 2026-09-07\nto: 2026-09-13\nplates: {braise: 40}\n",
        "counts/b.yaml": "date: 2026-09-12\nplates: {braise: 9}\n",  # within the week before
        "counts/c.yaml": "from: 2026-08-24\nto: 2026-09-06\nplates: {braise: 70}\n",  # too early
        "counts/d.yaml": "date: 2026-09-16\nplates: {braise: 6}\n",
    }
    costed = decided(tmp_path, "2026-09-02", f", {FIGURES}", counts)
    assert value(costed, "sold_since") == 46
    assert value(costed, "weeks_since") == pytest.approx(8 / 7)


def test_the_page_says_who_decided_what_and_why(tmp_path: Path) -> None:
    page = page_of(decided(tmp_path, "2026-08-31", f", {FIGURES}"))
    text = text_of(html_of(page))
    assert "JB decided on Aug 31, 2026: Braise instead of Chuck steak." in text
    assert "Why: one bath fewer" in text
    assert "Plates a week 30 35" in text
    assert any("Decided on Aug 31, 2026" in str(also) for also in page.also)


def test_the_page_says_that_the_benchmark_sells_on(tmp_path: Path) -> None:
    """Sold after the decision says it, a month that began before it does not."""
    steak = SMALL["plates/chuck-steak.yaml"]
    for months, words in (
        ("{2026-08: 61, 2026-09: 46}", "Still served: Chuck steak, 46 sold since."),
        ("{2026-08: 61}", ""),
        ("{2026-08: 61, 2026-09: 0}", ""),
    ):
        changed = {"plates/chuck-steak.yaml": re.sub("sold: .*", f"sold: {months}", steak)}
        page = page_of(decided(tmp_path, "2026-08-31", f", {FIGURES}", changed))
        also = " ".join(map(str, page.also))
        for text in (text_of(html_of(page)), also):
            assert words in text
            assert ("Still served: " in text) == bool(words)


def test_a_swap_that_was_not_taken_counts_no_sales(tmp_path: Path) -> None:
    costed = decided(tmp_path, "2026-08-31", f", taken: no, {FIGURES}")
    assert math.isnan(value(costed, "sold_since"))
    text = text_of(html_of(page_of(costed)))
    assert "keep Chuck steak; no swap for Braise." in text
    assert "Sold since" not in text


def test_a_decision_without_figures_compares_nothing(tmp_path: Path) -> None:
    text = text_of(html_of(page_of(decided(tmp_path, "2026-08-31", ""))))
    assert "The decision states no figure to compare with today's." in text


def test_without_a_decision_there_is_no_part(tmp_path: Path) -> None:
    page = page_of(costed_from(write(tmp_path, SMALL)))
    assert "decided" not in {getattr(section, "id", "") for section in walk(page.sections)}
