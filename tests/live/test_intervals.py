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
from builder.costing.spreads import AP_PRICE, SOLD
from builder.costing.uncertainty import drawn_ends, drawn_plates
from builder.display.chances import count_down, money_a_month, money_a_year, money_an_hour
from builder.display.rounded_sizes import weight_down
from builder.engine.draws import Z_90, Spread, Spreads
from builder.engine.figures import Figures
from builder.engine.sensitivity import Reach, Sensitivity
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


def chance_expected(before: Figures, row: int, at: float) -> float:
    """How often a drawn margin change is above `at`: lines through what is known of its draws."""
    low, high, drawn = (
        before.value("swap", name, row)
        for name in ("margin_change_low", "margin_change_high", "chance_earns_more")
    )
    steep = 2 * Z_90 / (high - low)
    nothing = -norm.ppf(np.clip(drawn, 0.5 / 4000, 1 - 0.5 / 4000))
    if drawn == 1:
        nothing = min(nothing, -Z_90 - steep * low)
    if drawn == 0:
        nothing = max(nothing, Z_90 - steep * high)
    x, z = zip(*sorted([(low, -Z_90), (high, Z_90), (0.0, nothing)]), strict=True)
    side = 0 if at < x[1] else 1
    slope = (z[side + 1] - z[side]) / (x[side + 1] - x[side])
    return float(norm.sf(z[side] + slope * (at - x[side])))


NEVER_BELOW_NOTHING = {"money/kg", "money/h", "money up", "share", "share down"}


def both_ends(reach: Reach, plain: float) -> Reach:
    """A reach that has no value at one end goes twice as far as at the other."""
    low, high = np.isfinite((reach.low, reach.high))
    if low == high:
        return reach
    swing = 2 * (plain - reach.low if low else reach.high - plain)
    return replace(reach, low=0.0, high=swing)


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
            base, moved = (each.value(*target, row) for each in (before, now))
            widths = [
                combined_width(swing_of(both_ends(reach, plain)) for reach in one.of(target, row))
                for one, plain in ((was, base), (will, moved))
            ]
            drawn = before.value(target[0], f"{target[1]}_low", row)
            nodes.append((target[0], f"{target[1]}_low", row))
            end = moved + (drawn - base) * widths[1] / widths[0]
            unit = now.model.definition(target).unit
            expected.append(max(end, 0.0) if unit in NEVER_BELOW_NOTHING and moved >= 0 else end)
            if target[1] == "margin_change":
                nodes.append(("swap", "chance_earns_more", row))
                expected.append(chance_expected(before, row, base - moved * widths[0] / widths[1]))
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


CHANCES = {
    "chance_earns_more": ("swap", "margin_change", "margin_change"),
    "chance_food_cheaper": ("swap", "food_saving", "food_saving"),
    "chance_over_target": ("plate", "food_cost_over", "food_cost_share"),
}


@pytest.mark.parametrize("factor", [0.6, 0.85, 0.97, 1.02, 1.1, 1.5])
@pytest.mark.parametrize("moved", [AP_PRICE, ("plate", "menu_price")])
def test_a_chance_that_follows_agrees_with_its_interval(
    moved: tuple[str, str], factor: float, blank: Page
) -> None:
    """Wholly above nothing nine times in ten is at least 19 times in 20 above it, and so on."""
    view = view_of(KITCHENS["demo"])
    load(blank, view)
    figures = view.costed.figures
    column = figures.column(*moved)[:, 0]
    # Every other row, so that the two sides of swaps move apart.
    moves = [
        (f"{'.'.join(moved)}.{n}", float(column[n] * factor)) for n in range(0, len(column), 2)
    ]
    asked = [
        (chance, table, over, ranged, row)
        for chance, (table, over, ranged) in CHANCES.items()
        for row in np.flatnonzero(np.isfinite(figures.column(table, chance)[:, 0])).tolist()
    ]
    nodes = [
        (table, name, row)
        for chance, table, over, ranged, row in asked
        for name in (chance, over, ranged, f"{ranged}_low", f"{ranged}_high")
    ]
    found = np.array(blank.evaluate(FOLLOWED, [json.loads(json.dumps(moves)), nodes]), dtype=float)
    for (chance, over, ranged, *ends), what in zip(found.reshape(-1, 5), asked, strict=True):
        low, high = (end + over - ranged for end in ends)
        assert low <= high, what
        if low > 1e-9:
            assert chance >= 0.95 - 1e-6, what
        elif high < -1e-9:
            assert chance <= 0.05 + 1e-6, what
        elif low < -1e-9 and high > 1e-9:
            assert 0.05 - 1e-6 <= chance <= 0.95 + 1e-6, what


CLASS_MOVES = [
    (AP_PRICE, 1), (("plate", "menu_price"), 2), (("plate", "menu_price"), 1), (SOLD, 2),
]  # fmt: skip


@pytest.mark.parametrize("factor", [0.7, 0.9, 1.1, 1.3])
@pytest.mark.parametrize(("moved", "every"), CLASS_MOVES)
def test_the_chance_of_a_class_is_near_what_is_drawn_anew(
    moved: tuple[str, str], every: int, factor: float, blank: Page
) -> None:
    """Of all plates, those near a border too, within one in twenty of a new Monte Carlo run."""
    view = view_of(KITCHENS["demo"])
    load(blank, view)
    before, known = view.costed.figures, view.costed.uncertainty
    assert known is not None
    column = before.column(*moved).copy()
    column[::every] *= factor
    now = before.moved({moved: column})
    spreads = about(known.spreads, moved, now)
    anew = drawn_plates(now, spreads, before)[0]["plate", "class_chance"]
    rows = np.flatnonzero(np.isfinite(before.column("plate", "class_chance")[:, 0])).tolist()
    moves = [
        (f"{'.'.join(moved)}.{n}", float(x)) for n, x in enumerate(column[:, 0]) if np.isfinite(x)
    ]
    found = blank.evaluate(
        FOLLOWED, [json.loads(json.dumps(moves)), [("plate", "class_chance", row) for row in rows]]
    )
    np.testing.assert_allclose(found, anew[rows, 0], atol=0.05)
    assert np.abs(np.array(found) - before.column("plate", "class_chance")[rows, 0]).max() > 0.05


def about(spreads: Spreads, moved: tuple[str, str], now: Figures) -> Spreads:
    """Spreads about the new values of one input, as wide as the page takes them: as before."""

    def scaled(spread: Spread, value: float) -> Spread:
        factor = value / spread.center
        return replace(
            spread,
            center=value,
            low=spread.low * factor,
            high=spread.high * factor,
        )

    rows = {row: scaled(s, now.value(*moved, row)) for row, s in spreads.get(moved, {}).items()}
    return {**spreads, moved: rows}


def test_a_price_tried_far_from_its_list_keeps_an_interval(blank: Page) -> None:
    """Thirty times as dear, a price is still known to the same share of itself, not cut."""
    view = view_of(KITCHENS["demo"])
    load(blank, view)
    known = view.costed.uncertainty
    assert known is not None
    factor = 30.0
    prices = view.costed.figures.column(*AP_PRICE) * factor
    now = view.costed.figures.moved({AP_PRICE: prices})
    scaled = {
        node: {
            row: replace(s, center=s.center * factor, low=s.low * factor, high=s.high * factor)
            if node == AP_PRICE
            else s
            for row, s in rows.items()
        }
        for node, rows in known.spreads.items()
    }
    target = ("plate", "food_cost")
    was, will = known.plates, Sensitivity(now, scaled, [target])
    rows = np.flatnonzero(np.isfinite(view.costed.figures.column("plate", "food_cost_high")[:, 0]))
    moves = [(f"cut.ap_price.{n}", float(x)) for n, x in enumerate(prices[:, 0])]
    nodes = [("plate", "food_cost_high", row) for row in rows.tolist()]
    found = blank.evaluate(FOLLOWED, [json.loads(json.dumps(moves)), nodes])
    for row, high in zip(rows.tolist(), found, strict=True):
        widths = [combined_width(map(swing_of, one.of(target, row))) for one in (was, will)]
        base, moved = (each.value(*target, row) for each in (view.costed.figures, now))
        drawn = view.number("plate", "food_cost_high", row)
        assert high == pytest.approx(moved + (drawn - base) * widths[1] / widths[0], rel=1e-6)


def test_a_month_and_a_year_are_written_as_the_builder_writes_it(blank: Page) -> None:
    """Three figures, its interval, and the year beside it: 500 amounts drawn by a seed."""
    view = view_of(KITCHENS["demo"])
    load(blank, view)
    dice = np.random.default_rng(12)
    amounts = dice.choice((-1, 1), 500) * 10 ** dice.uniform(-1, 4.5, 500)
    others = amounts + np.abs(amounts) * 10 ** dice.uniform(-2, 1, 500)
    pairs = list(zip(amounts.tolist(), others.tolist(), strict=True))
    script = """(pairs) => pairs.map(([x, end]) => ["month", "year", "week", "h earned"].map((of) =>
      Live.numbers.shown(`money/${of} near`, x, "", end)))"""
    found = blank.evaluate(script, pairs)
    ways = money_a_month, money_a_year, money_a_year, money_an_hour
    assert found == [[way(view.style, x, end) for way in ways] for x, end in pairs]
    counts = np.abs(amounts).tolist()
    script = """(counts) => counts.map((x) => Live.numbers.shown("count down", x))"""
    assert blank.evaluate(script, counts) == [count_down(view.style, x) for x in counts]


@pytest.mark.parametrize("name", ["demo", "customary"])
def test_the_most_that_a_weight_may_be_is_written_as_the_builder_writes_it(
    blank: Page, name: str
) -> None:
    """600 weights drawn by a seed, and round ones, which rounding alone must not lower."""
    view = view_of(KITCHENS[name])
    load(blank, view)
    drawn = 10 ** np.random.default_rng(3).uniform(-4, 4, 600)
    weights = [*drawn.tolist(), 0.168, 0.2, 1.0, 45.0]
    found = blank.evaluate(
        """(sizes) => sizes.map((x) => Live.numbers.shown("kg down", x))""", weights
    )
    assert found == [weight_down(view.style, x) for x in weights]
