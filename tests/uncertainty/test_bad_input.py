"""Odd and wrong spreads: a sentence at their line or on the page, never a number that is none."""

from __future__ import annotations

import math
import re
import warnings
from collections.abc import Mapping
from pathlib import Path

import pytest
from scipy import stats

from builder.costing.spread_checks import chance_of_spread
from builder.money.intervals import PLATE_INTERVALS, SWAP_INTERVALS
from builder.pages.rendering import render
from builder.pages.site import frame
from builder.pages.view import View
from builder.problems import Problem
from tests.kitchens import pages_but_methods, read, write
from tests.site.sites import text_of
from tests.uncertainty.denied import (
    BASE,
    COOK,
    CUT,
    DENIED,
    DENIED_ON_THE_PAGE,
    KITCHEN,
    LONG_GAP,
    PLATE,
    UNLIKE,
    listed,
    monthly,
    weighed,
)  # fmt: skip
from tests.uncertainty.drawn import ends

SOLD = "sold: {2026-06: 0, 2026-07: 0, 2026-08: 0, 2026-09: 200}\n"

# One month counted of one plate, four of another.
TWO_SOLD = {
    "plates/p.yaml": f"{PLATE}sold: {{2026-09: 200}}\n",
    "plates/q.yaml": (
        "menu: mains\ncook: g\nportion: 180 g\nprice: 29.00\n"
        "sold: {2026-06: 190, 2026-07: 260, 2026-08: 220, 2026-09: 190}\n"
    ),
    **monthly(10, 10.5, 10.2, 10.9),
}

# What is written, and what is said of it: at a line, or on the page of the plate or the swap.
WARNED: dict[str, tuple[dict[str, str], str, str]] = {
    **DENIED,
    "one test": ({"cooks/k.yaml": COOK + weighed(UNLIKE[0])}, "cooks/k.yaml:5", "one test only"),
    "one test, and like stages": (
        {
            "cooks/k.yaml": COOK + weighed(UNLIKE[0]),
            "cooks/m.yaml": COOK + weighed(*UNLIKE),
        },
        "cooks/k.yaml:5",
        "cook: one test only; its interval comes from like stages in this kitchen",
    ),
    "one test, and what is given": (
        {"cooks/k.yaml": f"{COOK}{weighed(UNLIKE[0])}give or take: {{loss: 3 %}}\n"},
        "cooks/k.yaml:5", "cook: one test only; its interval is what the kitchen gives or takes",
    ),
    "work that may be nothing": (
        {"cooks/k.yaml": f"{COOK}loss: 30 %\nhands-on: 1 h\ngive or take: {{hands on: 3 h}}\n"},
        "cooks/k.yaml:6", "3 h is given or taken of hands on: 1 h, so it may be nothing",
    ),
    "plating that may be nothing": (
        {"plates/p.yaml": f"{PLATE}hands-on: 2 min\ngive or take: {{hands on: 4 min}}\n"},
        "plates/p.yaml:6", "4 min is given or taken of hands on: 2 min, so it may be nothing",
    ),
    "a test denied by another": (
        {"cooks/k.yaml": COOK + weighed(("8 kg", "7.9 kg"), ("8 kg", "1 kg"))},
        "cooks/k.yaml:6", "the other tests of it give 99%",
    ),
    "a gap of a year": (
        listed(LONG_GAP), "prices/l.csv:5", "C: no price between Mar 1, 2025 and Sep 1, 2026",
    ),
    "a price ten times as high": (
        monthly(10, 10, 10, 100, 10, 10, 10, 10), "prices/l.csv:5", "100/kg is 10 times",
    ),
    "the last price ten times as high": (
        monthly(10, 10, 10, 10, 10, 10, 10, 100), "prices/l.csv:9", "100/kg is 10 times",
    ),
    "portions far from what is written": (
        {"plates/p.yaml": f"{PLATE}weighed portions: [220 g, 222 g, 218 g]\n"},
        "plates/p.yaml:3", "180 g is written, but 3 weighed portions weigh 220 g in the mean",
    ),
    "one portion": (
        {"plates/p.yaml": f"{PLATE}weighed portions: [180 g]\n"},
        "plates/p.yaml:5", "180 g: one weighed portion gives no spread",
    ),
    "a yield near nothing": (
        {"cooks/k.yaml": f"{COOK}loss: 97 %\ngive or take: {{loss: 60 %}}\n"},
        "cooks/k.yaml:5", "60 % is far outside what is usual here",
    ),
    "a yield near one": (
        {"cooks/k.yaml": f"{COOK}loss: 6 %\ngive or take: {{loss: 60 %}}\n"},
        "cooks/k.yaml:5", "60 % is far outside what is usual here",
    ),
    "a portion that may be nothing": (
        {"plates/p.yaml": f"{PLATE}give or take: {{portion: 300 g}}\n"},
        "plates/p.yaml:5", "300 g is far outside what is usual here",
    ),
    "a wage that may be nothing": (
        {"kitchen.yaml": f"{KITCHEN}give or take: {{loaded wage: 100 %}}\n"},
        "kitchen.yaml:4", "100 % is far outside what is usual here",
    ),
}  # fmt: skip
ON_THE_PAGE: dict[str, tuple[dict[str, str], str, str]] = {
    **DENIED_ON_THE_PAGE,
    "tests that agree": (
        {"cooks/k.yaml": COOK + weighed(UNLIKE[0], UNLIKE[0])},
        "plates/p.html", "Held at what is written, as the tests agree: the yield of cook.",
    ),
    "one test and what is given": (
        {"cooks/k.yaml": f"{COOK}{weighed(UNLIKE[0])}give or take: {{loss: 3 %}}\n"},
        "plates/p.html", "72.0% to 78.0%",
    ),
    "a steady list": (
        monthly(*[10.0] * 8), "plates/p.html",
        "Held at what is written, as its list never moved: the price of C.",
    ),
    "a price that halves": (
        monthly(10, 10.5, 10.2, 5.1), "plates/p.html",
        "fell by half on May 1, 2026; its spread counts that change",
    ),
    "a price that halves, on its own page": (
        monthly(10, 10.5, 10.2, 5.1), "cuts/c.html",
        "fell by half on May 1, 2026; its spread counts that change",
    ),
    "another price that halves, among all listed": (
        {
            **monthly(10, 10.5, 10.2, 10.4, 5.1),
            "cuts/d.yaml": CUT,
            "prices/d.csv": "date,item,price\n2026-02-01,d,8/kg\n2026-05-01,d,8.1/kg\n",
        },
        "cuts/d.html", "its spread is that of all listed prices, without large changes in the "
        "price of C",
    ),
    "a price that doubles": (
        monthly(5, 5.1, 10.2, 10.1), "cuts/c.html",
        "doubled on Apr 1, 2026; its spread counts that change",
    ),
    "tests that agree, and like stages": (
        {
            "cooks/k.yaml": COOK + weighed(UNLIKE[0], UNLIKE[0]),
            "cooks/m.yaml": COOK + weighed(*UNLIKE),
        },
        "plates/p.html", "2 tests alike; spread of like stages in this kitchen",
    ),
    "tests that agree, on their own page": (
        {
            "cooks/k.yaml": COOK + weighed(UNLIKE[0], UNLIKE[0]),
            "cooks/m.yaml": COOK + weighed(*UNLIKE),
        },
        "cooks/k.html", "2 tests alike, so their interval is of no width by itself; its interval "
        "comes from like stages in this kitchen",
    ),
    "tests that agree, and what is given": (
        {"cooks/k.yaml": (
            f"{COOK}{weighed(UNLIKE[0], UNLIKE[0])}give or take: {{loss: 3 %}}\n"
        )},
        "plates/p.html", "2 tests alike; what the kitchen gives or takes",
    ),
    "one test, on its own page": (
        {
            "cooks/k.yaml": COOK + weighed(UNLIKE[0]),
            "cooks/m.yaml": COOK + weighed(*UNLIKE),
        },
        "cooks/k.html", "one test only; its interval comes from like stages in this kitchen",
    ),
    "everything that is held": (
        {
            "kitchen.yaml": f"{KITCHEN}energy: 0.14/kWh\ngas: 0.06/kWh\nseasoning: 2 %\n",
            "cooks/k.yaml": (
                f"{COOK}loss: 30 %\nhands-on: 1 h\nenergy: 6 kWh\nconsumables: {{bags: 2.00}}\n"
            ),
            "pantry/mash.yaml": "of: {potato: 2 kg}\nmakes: 1.8 kg\nhands-on: 20 min\n",
            "pantry/potato.yaml": "price: 1.50/kg\nyield: 85 %\n",
            "plates/p.yaml": (
                f"{PLATE}hands-on: 2 min\nwith: {{mash: 200 g}}\ngive or take: {{portion: 5 g}}\n"
            ),
        },
        "plates/p.html",
        "Held at what is written, as too little says how far off: the yield of cook, which nobody "
        "weighed the price of C the price of Potato the amounts of its sides the "
        "usable share of pantry items what sub-recipes make the seasoning allowance the work "
        "on the batch the work to plate the work on sub-recipes the wage the energy of a "
        "batch the electricity tariff the consumables",
    ),
    "a year from months": (
        {"plates/p.yaml": (
            f"{PLATE}sold: {{2026-06: 190, 2026-07: 260, 2026-08: 220, 2026-09: 200}}\n"
        ), **monthly(10, 10.5, 10.2, 10.9)},
        "swaps/s.html", "its interval lets the whole year sell as far off as one month may",
    ),
    "nothing given or taken": (
        {"cooks/k.yaml": f"{COOK}loss: 30 %\ngive or take: {{loss: 0 %}}\n"},
        "plates/p.html",
        "Held at what is written, as the kitchen gives or takes nothing: the yield of cook",
    ),
    "portions alike, and what is given": (
        {"plates/p.yaml": f"{PLATE}weighed portions: [180 g, 180 g]\ngive or take: 5 g\n".replace(
            "5 g", "{portion: 5 g}")},
        "plates/p.html", "175 g to 185 g",
    ),
    "one month sold": (
        {"plates/p.yaml": f"{PLATE}sold: {{2026-09: 200}}\n"},
        "swaps/s.html", "the wage the plates sold Allergens",
    ),
    "a swap's own forecast": (
        {"swaps/s.yaml": "benchmark: p\nchallengers: [q]\nforecast: 25\n"},
        "swaps/s.html", "the wage the plates forecast Allergens",
    ),
    "one month sold, and a class": (
        TWO_SOLD, "plates/p.html",
        "Chances of classes take what was sold of P as counted: too few months are counted",
    ),
    "one month sold, and the menu's classes": (
        TWO_SOLD, "menu.html", "Chances of classes take what was sold of P as counted",
    ),
    "months with nothing sold": (
        {"plates/p.yaml": PLATE + SOLD}, "swaps/s.html", "the portion the wage Allergens",
    ),
    "a piece without a whole portion": (
        {"cooks/k.yaml": (
            f"{COOK}piece: {{weight: 300 g}}\nloss: 35 %\ngive or take: {{loss: 8 %}}\n"
        )},
        "plates/p.html",
        "K: yield of cook may be from 57% to 73%: at 57% a piece gives no whole portion, "
        "so the full plate cost is at least $3.60 and has no upper end.",
    ),
    "what moves it most, beside what leaves no portion": (
        {
            "cooks/k.yaml": (
                f"{COOK}piece: {{weight: 300 g}}\nloss: 35 %\ngive or take: {{loss: 8 %}}\n"
            ),
            "kitchen.yaml": f"{KITCHEN}give or take: {{loaded wage: 10 %}}\n",
            "plates/p.yaml": f"{PLATE}hands-on: 5 min\n",
        },
        "plates/p.html",
        "Of the inputs that always leave a whole portion, Loaded wage moves it most, from $",
    ),
    "a portion that may be nothing, counted whole": (
        {
            "cooks/k.yaml": f"{COOK}piece: {{weight: 1500 g}}\nloss: 35 %\n",
            "plates/p.yaml": f"{PLATE}give or take: {{portion: 300 g}}\n",
        },
        "plates/p.html", "P: portion moves it most, from $0.30",
    ),
    "a cost without an upper end, beside it": (
        {"cooks/k.yaml": (
            f"{COOK}piece: {{weight: 300 g}}\nloss: 35 %\ngive or take: {{loss: 8 %}}\n"
        )},
        "plates/p.html",
        "at least $3.60, 19 times in 20; no upper end, for a piece may give no whole portion",
    ),
}  # fmt: skip
REFUSED: dict[str, tuple[dict[str, str], str, str]] = {
    "more than all": (
        {"cooks/k.yaml": f"{COOK}loss: 30 %\ngive or take: {{loss: 150 %}}\n"},
        "cooks/k.yaml:5:22", "at most 100 %",
    ),
    "below nothing": (
        {"cooks/k.yaml": f"{COOK}loss: 30 %\ngive or take: {{loss: -3 %}}\n"},
        "cooks/k.yaml:5:22", "only a temperature may be below 0",
    ),
    "no unit": (
        {"cooks/k.yaml": f"{COOK}loss: 30 %\ngive or take: {{loss: 3}}\n"},
        "cooks/k.yaml:5:22", "units that fit: %",
    ),
    "a weight of a loss": (
        {"cooks/k.yaml": f"{COOK}loss: 30 %\ngive or take: {{loss: 3 g}}\n"},
        "cooks/k.yaml:5:22", "units that fit: %",
    ),
    "a time of a portion": (
        {"plates/p.yaml": f"{PLATE}give or take: {{portion: 5 min}}\n"},
        "plates/p.yaml:5:25", "units that fit: kg, g, lb, oz, %",
    ),
    "a portion of nothing": (
        {"plates/p.yaml": f"{PLATE}weighed portions: [180 g, 0 g]\n"},
        "plates/p.yaml:5:27", "take it out",
    ),
    "no time ahead": (
        {"kitchen.yaml": f"{KITCHEN}planning horizon: 0 days\n"},
        "kitchen.yaml:4:19", "from 1 day to 12 months",
    ),
    "soon": (
        {"kitchen.yaml": f"{KITCHEN}planning horizon: soon\n"},
        "kitchen.yaml:4:19", "such as 90 days, 6 weeks or 3 months",
    ),
    "years ahead": (
        {"kitchen.yaml": f"{KITCHEN}planning horizon: 20 months\n"},
        "kitchen.yaml:4:19", "from 1 day to 12 months",
    ),
}  # fmt: skip


def pages(root: Path, files: Mapping[str, str]) -> tuple[dict[str, str], list[Problem]]:
    """Texts of the kitchen's pages, made without a warning; checked to hold no number that is none,
    and no cost whose interval goes below nothing."""
    with warnings.catch_warnings():
        warnings.simplefilter("error", RuntimeWarning)
        costed, problems = read(write(root, {**BASE, **files}))
        assert costed is not None, problems
        view = View.of(costed, problems)
        found = {
            page.path: render(page, frame(view)).decode()
            for page in pages_but_methods(view)
            if page.path.startswith(("plates/", "swaps/", "cuts/", "cooks/", "index", "menu"))
        }
    for path, markup in found.items():
        assert not re.search(r"\b(NaN|nan|Infinity|inf|None)\b", text_of(markup)), path
        assert not re.search(r"[:,\[](NaN|-?Infinity)\b", markup), path
    for figure in PLATE_INTERVALS:
        for row in range(costed.figures.size("plate")):
            low, high = ends(costed, "plate", figure, row)
            known = costed.figures.value("plate", figure, row)
            assert math.isnan(low) or math.isnan(known) or low <= known
            assert math.isnan(low) or "margin" in figure or low >= 0
            assert math.isnan(high) or math.isnan(known) or high >= known
    for figure in SWAP_INTERVALS:
        low, high = ends(costed, "swap", figure)
        assert not low > high
    return {path: text_of(markup) for path, markup in found.items()}, problems


@pytest.mark.parametrize("case", WARNED)
def test_a_doubtful_spread_is_warned_of_at_its_line(case: str, tmp_path: Path) -> None:
    files, place, words = WARNED[case]
    _, problems = pages(tmp_path, files)
    found = [p for p in problems if words in p.message.replace("\N{NO-BREAK SPACE}", " ")]
    assert len(found) == 1, [f"{p.place} {p.message}" for p in problems]
    assert str(found[0].place).startswith(f"{place}:")
    assert found[0].hint
    assert not found[0].is_error


@pytest.mark.parametrize("case", ON_THE_PAGE)
def test_the_page_says_what_an_odd_spread_comes_to(case: str, tmp_path: Path) -> None:
    files, path, words = ON_THE_PAGE[case]
    found, _ = pages(tmp_path, files)
    assert words in found[path].replace("\N{NO-BREAK SPACE}", " "), found[path]


@pytest.mark.parametrize("case", REFUSED)
def test_what_can_t_be_is_refused_at_its_place(case: str, tmp_path: Path) -> None:
    files, place, hint = REFUSED[case]
    costed, problems = read(write(tmp_path, {**BASE, **files}))
    assert costed is None
    [error] = [problem for problem in problems if problem.is_error]
    assert str(error.place) == place
    assert hint in error.hint


@pytest.mark.parametrize(
    ("owner", "old", "new", "hint"),
    [
        ("cuts/c.yaml", "price: 12.00/kg\n", "price: 12.00/kg\ngive or take: {price: 80 %}\n", "8"),
        ("cooks/k.yaml", "30 %\n", "30 %\ngive or take: {loss: 80 %}\n", "did you mean 8.0 %?"),
        ("plates/p.yaml", "27.00\n", "27.00\ngive or take: {portion: 5 kg}\n", "mean 5 g?"),
    ],
)
def test_a_slip_in_a_spread_is_noticed(
    owner: str, old: str, new: str, hint: str, tmp_path: Path
) -> None:
    files = {**BASE, owner: BASE[owner].replace(old, new)}
    _, problems = read(write(tmp_path, files))
    [found] = [p for p in problems if "far outside what is usual" in p.message]
    line = files[owner].splitlines().index(new.splitlines()[-1]) + 1
    assert (found.place.file, found.place.line) == (owner, line)
    assert hint in found.hint


@pytest.mark.parametrize("checked", ["", "checked: 2026-09-30\n"])
def test_a_usual_or_checked_spread_is_left_alone(checked: str, tmp_path: Path) -> None:
    given = 1 if checked else 5
    cook = f"{COOK}{weighed(*UNLIKE)}give or take: {{loss: {given} %}}\n{checked}"
    _, problems = pages(tmp_path, {"cooks/k.yaml": cook})
    assert not [p for p in problems if "given or taken" in p.message]


def test_a_spread_is_judged_by_chi_square() -> None:
    for found, stated, freedom in ((2.0, 1.3, 4.0), (0.5, 1.0, 9.0), (1.0, 1.0, 2.0)):
        ratio = freedom * (found / stated) ** 2
        tail = min(stats.chi2.cdf(ratio, freedom), stats.chi2.sf(ratio, freedom))
        assert chance_of_spread(found, stated, freedom) == pytest.approx(2 * tail, rel=1e-9)
