"""Ends of a swap's limits where a piece may give no whole portion: open on the side that it is."""

from __future__ import annotations

import math

import numpy as np
import pytest
from markupsafe import Markup

from builder.display.style import NBSP
from builder.engine.sampling import drawn_targets
from builder.money.intervals import DRAWS
from tests.money.test_swap_words import KITCHEN, PLATE, kitchen, page_of
from tests.uncertainty.drawn import costed, ends, known

# 201.5 g a piece is left for a portion of 200 g.
BARELY = """cut: y
how: pan
load: 2.4 kg
piece: {weight: 240 g}
hands-on: 18 min
tests:
  - {date: 2026-05-05, in: 2.40 kg, out: 2.02 kg}
  - {date: 2026-08-20, in: 2.45 kg, out: 2.05 kg}
  - {date: 2026-09-28, in: 2.38 kg, out: 2.00 kg}
"""
FILES = kitchen(
    kitchen=KITCHEN.format(currency="CAD") + "portions: whole\ngive or take: {portion: 5 g}\n",
    cuts__y="species: beef\nprice: 16/kg\n",
    cooks__barely=BARELY,
    plates__large=PLATE.format(cook="barely", portion=200, price=20),
    plates__small=PLATE.format(cook="a", portion=160, price=20).replace("0 min", "9 min"),
)
LIMITS = ("break_even_ap_price", "break_even_wage", "equal_margin_ap_price", "equal_margin_wage")


def test_where_the_benchmark_gives_no_portion_any_price_or_wage_would_pay() -> None:
    kitchen = costed(FILES)
    for name in ("margin_change", *LIMITS):
        low, high = ends(kitchen, "swap", name)
        assert math.isfinite(low), name
        assert not math.isfinite(high), name
    low, high = ends(kitchen, "swap", "price_for_equal_margin")
    assert math.isfinite(high)
    assert not math.isfinite(low)


def test_an_end_of_the_menu_price_is_that_of_the_margin_change() -> None:
    """The same draw gives both; the price is rounded up to the cent."""
    kitchen = costed(FILES)
    least, _ = ends(kitchen, "swap", "margin_change")
    _, most = ends(kitchen, "swap", "price_for_equal_margin")
    assert most == pytest.approx(20 - least, abs=0.0101)


def test_a_draw_has_no_limit_only_where_no_value_would_do() -> None:
    kitchen = costed(FILES)
    targets = [("swap", name) for name in ("saving", "break_even_ap_price", "break_even_wage")]
    for node in targets[1:]:
        for block in drawn_targets(
            kitchen.figures, known(kitchen).spreads, [targets[0], node], np.arange(1), DRAWS,
            lambda _, found: dict(found),
        ):  # fmt: skip
            gained, limit = block[targets[0]], block[node]
            assert (np.isinf(gained) == np.isinf(limit)).all()
            assert not np.isnan(limit).any()


def test_words_of_such_a_menu_price_have_an_upper_end_alone() -> None:
    dearer = {**FILES, "plates/large.yaml": PLATE.format(cook="barely", portion=200, price=32)}
    said = " ".join(Markup(text).striptags() for text in page_of(dearer).also).replace(NBSP, " ")
    assert " (at most $" in said and "19 times in 20) it would earn as much." in said


def test_a_benchmark_of_another_cut_is_not_moved_by_its_price() -> None:
    """However much of its own it takes, which may be without end."""
    figures = costed(FILES).figures
    assert figures.value("swap", "same_cut", 0) == 0
    assert figures.value("swap", "benchmark_price_slope", 0) == 0
