"""While something is tried, a page's intervals and chances follow by the slopes of its formulas."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from playwright.sync_api import Page
from scipy.stats import norm

from builder.costing.next_weighing import combined_width, swing_of
from builder.costing.spreads import AP_PRICE
from builder.costing.uncertainty import drawn_ends
from builder.engine.draws import Z_90, Spreads
from builder.engine.figures import Figures
from builder.engine.sensitivity import Sensitivity
from builder.money.intervals import SWAP_INTERVALS
from builder.pages.view import View
from tests.live.engine import load
from tests.live.test_recomputed import KITCHENS, view_of

FOLLOWED = """([move, nodes]) => {
  const values = new Figures.Values(Live.book, new Map(move));
  return nodes.map(([table, figure, row]) => values.value(table, figure, row));
}"""
DEARER = 1.2


@pytest.fixture
def blank(browser: Any) -> Page:
    page: Page = browser.new_page()
    return page


def dearer(view: View) -> tuple[Figures, Spreads, list[tuple[str, float]]]:
    """Every cut a fifth dearer: figures, spreads about the new prices, and the page's moves."""
    known = view.costed.uncertainty
    assert known is not None
    prices = view.costed.figures.column(*AP_PRICE) * DEARER
    moved = view.costed.figures.moved({AP_PRICE: prices})
    spreads = {
        node: {
            row: replace(s, center=s.center * DEARER) if node == AP_PRICE else s
            for row, s in rows.items()
        }
        for node, rows in known.spreads.items()
    }
    return moved, spreads, [(f"cut.ap_price.{n}", float(x)) for n, x in enumerate(prices[:, 0])]


@pytest.mark.parametrize("name", ["demo", "customary"])
def test_ends_and_chances_follow_by_first_order_propagation(name: str, blank: Page) -> None:
    """The page against the builder's own slopes at the moved prices."""
    view = view_of(KITCHENS[name])
    load(blank, view)
    before = view.costed.figures
    now, spreads, moves = dearer(view)
    known = view.costed.uncertainty
    assert known is not None
    nodes, expected = [], []
    for target, was in [
        *((("swap", figure), known.swaps) for figure in SWAP_INTERVALS),
        *((("plate", figure), known.plates) for figure in ("food_cost", "contribution_margin")),
    ]:
        will = Sensitivity(now, spreads, [target])
        for row in np.flatnonzero(
            np.isfinite(before.column(target[0], f"{target[1]}_low")[:, 0])
        ).tolist():
            widths = [combined_width(map(swing_of, one.of(target, row))) for one in (was, will)]
            base, moved = (each.value(*target, row) for each in (before, now))
            drawn = before.value(target[0], f"{target[1]}_low", row)
            nodes.append((target[0], f"{target[1]}_low", row))
            expected.append(moved + (drawn - base) * widths[1] / widths[0])
            if target[1] == "margin_change":
                chance = before.value("swap", "chance_earns_more", row)
                z = norm.ppf(np.clip(chance, 0.5 / 4000, 1 - 0.5 / 4000))
                nodes.append(("swap", "chance_earns_more", row))
                shift = moved / widths[1] - base / widths[0]
                expected.append(norm.cdf(z + 2 * Z_90 * shift))
    assert nodes
    found = blank.evaluate(FOLLOWED, [json.loads(json.dumps(moves)), nodes])
    np.testing.assert_allclose(np.array(found, dtype=float), expected, rtol=1e-6, atol=2e-6)


def test_what_follows_is_near_what_is_drawn_anew(blank: Page) -> None:
    """First-order propagation against a new Monte Carlo run at the moved prices."""
    view = view_of(KITCHENS["demo"])
    load(blank, view)
    now, spreads, moves = dearer(view)
    drawn = drawn_ends(now, spreads, "swap", ("saving",))
    rows = [
        row for row in range(now.size("swap")) if np.isfinite(drawn["swap", "saving_low"][row, 0])
    ]
    nodes = [("swap", f"saving_{end}", row) for row in rows for end in ("low", "high")]
    found = np.reshape(blank.evaluate(FOLLOWED, [json.loads(json.dumps(moves)), nodes]), (-1, 2))
    anew = np.stack([drawn["swap", f"saving_{end}"][rows, 0] for end in ("low", "high")], axis=1)
    width = anew[:, 1] - anew[:, 0]
    off = np.abs(found - anew).max(axis=1) / width
    # Whole portions jump, which no slope follows; half of the swaps are within a tenth.
    assert np.median(off) < 0.1
    assert off.max() < 0.5
