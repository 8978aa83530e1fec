"""The browser computes what the builder computes, and writes it the same way.

The reference is the builder's own engine, which is held to published values elsewhere.
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from functools import cache, partial
from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Browser, Page

from builder.build import compute_content
from builder.costing.model import MODEL
from builder.display.style import Style
from builder.engine.arith import Column
from builder.engine.figures import Figures
from builder.engine.tables import Given
from builder.language import language_of, written_in
from builder.pages.rendering import TEMPLATES
from builder.pages.values import shown
from builder.pages.view import View
from tests.golden import HERE as GOLDEN
from tests.kitchens import PUBLISHED
from tests.live.engine import Node, computed, differs, every_figure, load, moved
from tests.site.sites import DEMO, STARTER

DAY = date(2031, 5, 6)
KITCHENS: Mapping[str, Path] = {
    "demo": DEMO,
    "starter": STARTER,
    "published": PUBLISHED,
    "customary": GOLDEN / "customary" / "content",
}
# Digits in other groups, a comma for the point, the sign behind the number, and no decimals.
LOCALES = (
    ("de_DE", "EUR", "metric"),
    ("en_IN", "INR", "metric"),
    ("fr_CA", "CAD", "metric"),
    ("ja_JP", "JPY", "metric"),
    ("en_US", "USD", "us customary"),
)


@cache
def view_of(root: Path) -> View:
    costed, problems = compute_content(root, None, DAY)
    assert costed is not None, problems
    return View.of(costed, problems)


@pytest.fixture
def blank(browser: Browser) -> Page:
    """A page that nothing else has used."""
    return browser.new_page()


@pytest.mark.parametrize("name", KITCHENS)
def test_every_figure_is_the_builder_s_own_and_written_alike(name: str, blank: Page) -> None:
    view = view_of(KITCHENS[name])
    load(blank, view)
    nodes = every_figure(view)
    wrong = [
        (node, value, text)
        for node, (value, text) in zip(nodes, computed(blank, nodes), strict=True)
        if differs(value, view.number(*node)) or text != str(view.text(*node))
    ]
    assert len(nodes) > 400
    assert wrong == []


@pytest.mark.parametrize(("locale", "currency", "units"), LOCALES)
def test_every_text_is_written_alike_in_every_locale(
    locale: str, currency: str, units: str, blank: Page
) -> None:
    style = Style.of(locale, currency, units)
    view = replace(view_of(DEMO), style=style, shown=partial(shown, style))
    with written_in(language_of("", locale)):
        load(blank, view)
        nodes = every_figure(view)
        wrong = [
            (node, text, str(view.text(*node)))
            for node, (_, text) in zip(nodes, computed(blank, nodes), strict=True)
            if text != str(view.text(*node))
        ]
    assert wrong == []


# Numbers that rounding, grouping and the choice of a unit can go wrong at.
AWKWARD = (
    *(0.0, 5e-324, 1e-7, 0.0005, 0.00949, 0.9995, 0.99949999, 0.005, 0.015, 0.025, 1.005, 2.675),
    *(0.45359237, 4.5359237, 45.359237, 0.125, 99.995, 999.995, 1234.5, 1e6 + 0.5, 12345678.905),
    *(1 / 3, 2 / 3, 1e15, 1e21),
    # Halves: of a percentage, of a minute, and in inches, pounds and ounces.
    *(0.625, 0.145, 2.5, 2.5 / 60, 28.575, 22.225, 9.525, 0.0354368798, 1 / 0.45359237),
)
PER = {"tested": ("points", "points apart", "ranks", "share", "h", "")}


@pytest.mark.parametrize(("locale", "currency", "units"), LOCALES)
def test_awkward_numbers_are_written_alike(
    locale: str, currency: str, units: str, blank: Page
) -> None:
    style, language = Style.of(locale, currency, units), language_of("", locale)
    with written_in(language):
        load(blank, replace(view_of(STARTER), style=style))
    rules = {d.unit for t in MODEL.tables.values() for d in t.figures.values()}
    asked = [
        (unit, sign * x, per)
        for unit in sorted(rules)
        for x in AWKWARD
        for sign in (1, -1)
        for per in PER.get(unit, ("kg", "L", "each") if "unit" in unit else ("kg",))
    ]
    written = blank.evaluate(
        "(asked) => asked.map(([unit, x, per]) => Live.numbers.shown(unit, x, per))", asked
    )
    with written_in(language):
        wrong = [
            (each, text, str(shown(style, *each)))
            for each, text in zip(asked, written, strict=True)
            if text != str(shown(style, *each))
        ]
    assert wrong == []


def test_an_estimate_is_never_written_across_its_limit(blank: Page) -> None:
    style = Style.of("en_CA", "CAD", "metric")
    load(blank, replace(view_of(STARTER), style=style))
    asked = [
        (unit, minutes / 60, "kg", limit / 60)
        for unit in ("h up", "h down", "h near")
        for minutes in (0.1, 1.95, 14.5, 58.0, 112.0, 118.0, 121.0, 253.0, 719.9, 2000.5)
        for limit in (minutes, 0.999 * minutes, 1.001 * minutes, 112.0, 360.0)
    ]
    written = blank.evaluate(
        "(asked) => asked.map((each) => Live.numbers.shown(...each))", [list(a) for a in asked]
    )
    assert written == [str(shown(style, *each)) for each in asked]
    assert shown(style, "h down", 118 / 60, "kg", 112 / 60) == "about 115\N{NO-BREAK SPACE}min"


def moves_of(view: View, node: tuple[str, str], draws: int) -> Column:
    """Values for one input in all its rows: none, half, twice, and random ones in between."""
    now = view.costed.figures.column(*node)
    base = np.where(np.isfinite(now) & (now > 0), now, 1.0)
    dice = np.random.default_rng(zlib.crc32(".".join(node).encode()))
    factors = dice.uniform(0.5, 2.0, size=(len(now), draws))
    factors[:, : min(draws, 3)] = (0.0, 0.5, 2.0)[: min(draws, 3)]
    return np.asarray(base * factors)


@pytest.mark.parametrize(("name", "draws"), [("starter", 20), ("customary", 20), ("demo", 2)])
def test_every_moved_input_gives_what_the_builder_gives(name: str, draws: int, blank: Page) -> None:
    view = view_of(KITCHENS[name])
    load(blank, view)
    figures, wrong, seen = view.costed.figures, [], 0
    for table in figures.model.tables.values():
        for given in (f for f in table.figures.values() if isinstance(f.how, Given)):
            node = (table.name, given.name)
            if not figures.size(table.name):
                continue
            column = moves_of(view, node, draws)
            after = figures.moved({node: column})
            nodes = [
                (t, f, row)
                for t, f in sorted(figures.model.downstream([node]))
                for row in range(figures.size(t))
            ]
            moves = [
                [(f"{node[0]}.{node[1]}.{row}", value) for row, value in enumerate(column[:, draw])]
                for draw in range(draws)
            ]
            for draw, found in enumerate(moved(blank, moves, nodes)):
                seen += len(found)
                wrong += [
                    (node, draw, n, value, expected)
                    for n, value in zip(nodes, found, strict=True)
                    if differs(value, expected := at(after, n, draw))
                ]
    assert seen > 10_000
    assert wrong == []


def at(figures: Figures, node: Node, draw: int) -> float:
    """One draw of a figure; a column that does not move has a single one."""
    column = figures.column(node[0], node[1])
    return float(column[node[2], min(draw, column.shape[1] - 1)])


def test_no_script_written_by_hand_names_a_figure() -> None:
    """What is computed comes out of the formulas: no script knows a table's figures."""
    names = {f.name for t in MODEL.tables.values() for f in t.figures.values() if "_" in f.name}
    for script in ("live.js", "panel.js", "figures.js", "numbers.js", "charts.js"):
        words = set(re.findall(r"\w+", (TEMPLATES / "assets" / script).read_text(encoding="utf-8")))
        assert not words & names, script
