"""Actual against theoretical cost: a textbook's variances, and periods cooked on paper."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from builder.costing.costed import Costed
from tests.counts.periods import Period, periods
from tests.kitchens import costed_from, write
from tests.kitchens.small import SMALL

PARTS = ("portion_effect", "yield_effect", "thrown_effect", "unexplained", "price_effect")
PLAIN = {
    "kitchen.yaml": "name: Textbook\ncurrency: CAD\nportions: by weight\n",
    "cuts/cloth.yaml": "species: other\nprice: 30/kg\n",
    "cooks/cut.yaml": "cut: cloth\nhow: cut\nload: 20 kg\nloss: 0 %\n",
    "plates/jacket.yaml": "menu: mains\ncook: cut\nportion: 2 kg\nprice: 120\n",
}


def of(costed: Costed, table: str, figure: str, row: int = 0) -> float:
    return costed.figures.value(table, figure, row)


def counted(root: Path, count: str, files: dict[str, str] = PLAIN) -> Costed:
    return costed_from(write(root, {**files, "counts/w.yaml": count}))


def cooked(period: Period) -> Costed:
    with TemporaryDirectory() as folder:
        return costed_from(write(Path(folder), period.files()))


def test_a_textbooks_price_and_quantity_variances(tmp_path: Path) -> None:
    """Webb Company: Horngren, Datar & Rajan, Cost Accounting, ch. 7 [from memory].

    10 000 jackets at 2 square yards of $30; 22 200 square yards were used at $28. Price
    44 400 favourable, efficiency 66 000 unfavourable, 21 600 unfavourable in all.
    """
    count = (
        "date: 2026-09-30\nplates: {jacket: 10000}\n"
        "cuts: {cloth: {opening: 0 kg, bought: 22200 kg, paid: 621600, closing: 0 kg}}\n"
    )
    costed = counted(tmp_path, count)
    assert of(costed, "count", "price_effect") == pytest.approx(-44_400)
    assert of(costed, "count", "unexplained") == pytest.approx(66_000)
    assert of(costed, "count", "difference") == pytest.approx(21_600)
    assert of(costed, "count", "theoretical_food") == pytest.approx(600_000)
    assert of(costed, "count", "actual_food") == pytest.approx(621_600)


def test_portion_and_yield_by_hand(tmp_path: Path) -> None:
    """100 portions of 2 kg at 30: sold at 2.1 kg and a yield of 90 %, at the listed price.

    Portion 100 x 0.1 x 30 = 300; yield 210 / 0.9 - 210 = 23.333 kg, 700; all of 233.333 kg
    is explained.
    """
    count = (
        "date: 2026-09-30\nplates: {jacket: {sold: 100, weighed portions: [2.0 kg, 2.2 kg]}}\n"
        "cuts: {cloth: {used: 240 kg}}\n"
        "cooks: {cut: {used: 100 kg, made: 90 kg}}\n"
    )
    costed = counted(tmp_path, count)
    found = [of(costed, "count", part) for part in PARTS]
    assert found == pytest.approx([300, 700, 0, (240 - 210 / 0.9) * 30, 0])
    assert of(costed, "count", "actual_food") == pytest.approx(240 * 30)


@settings(max_examples=60, deadline=None)
@given(periods(), st.integers(0, 100))
def test_a_period_cooked_on_paper(period: Period, share: int) -> None:
    """Actual cost as paid, every part from its cause alone, and a sum to the last bit."""
    period = replace(period, grind=period.trim * share // 100)
    assume(period.sold > 0)
    # Near the edge a piece is counted as cut as usual: that has a test of its own.
    for loss in (period.loss, period.loss_now):
        fitting = period.servable(loss) / period.portion_now
        assume(math.floor(float(fitting) * 1.02) == math.floor(fitting))
    costed = cooked(period)
    found = {part: of(costed, "count", part) for part in PARTS}
    start = period.cost(period.loss, period.portion)
    portion = period.cost(period.loss, period.portion_now)
    made = period.cost(period.loss_now, period.portion_now)
    raw = period.raw_thrown * period.price / 1000
    per_gram = period.price / 1000 - period.credits(period.loss_now, period.portion_now) / (
        period.ap_piece
    )
    exact: dict[str, Fraction | float] = {
        "portion_effect": period.sold * (portion - start),
        "yield_effect": period.sold * (made - portion),
        "thrown_effect": period.thrown * made + raw,
        "unexplained": period.lost * per_gram,
        "price_effect": period.used * (period.paid - period.price) / 1000,
    }
    scale = float(period.used * max(period.price, period.paid)) / 1e5
    for part, cents in exact.items():
        assert found[part] == pytest.approx(float(cents) / 100, rel=1e-7, abs=1e-9 * scale), part
    actual, planned = of(costed, "usage", "actual_protein"), of(costed, "count", "difference")
    assert actual == pytest.approx(float(period.actual) / 100, rel=1e-7, abs=1e-9 * scale)
    assert sum(found.values()) == pytest.approx(planned, rel=1e-9, abs=1e-11 * scale)
    food = of(costed, "count", "actual_food") - of(costed, "count", "theoretical_food")
    assert food == pytest.approx(planned, rel=1e-9, abs=1e-9 * scale)


def test_a_period_as_costed_has_no_difference(tmp_path: Path) -> None:
    """Sold, used, made and weighed just as the menu is costed: nothing to explain."""
    count = (
        "date: 2026-09-30\nplates: {jacket: {sold: 30, weighed portions: [2 kg]}}\n"
        "cuts: {cloth: {opening: 5 kg, bought: 60 kg, paid: 1800, closing: 5 kg}}\n"
        "cooks: {cut: {used: 60 kg, made: 60 kg}}\n"
    )
    costed = counted(tmp_path, count)
    assert [of(costed, "count", part) for part in PARTS] == pytest.approx([0] * 5, abs=1e-9)


def test_a_cut_that_was_not_counted_has_nothing_unexplained(tmp_path: Path) -> None:
    """Its plates are taken as costed, but for the portions that were weighed."""
    count = (
        "date: 2026-09-30\n"
        "plates: {chuck-steak: {sold: 50, weighed portions: [200 g]}, ribeye-steak: 10}\n"
        "cuts: {ribeye: {used: 4 kg}}\n"
    )
    costed = counted(tmp_path, count, dict(SMALL))
    rows = costed.counts["w"].usages
    assert math.isnan(of(costed, "usage", "counted_use", rows["chuck"]))
    assert of(costed, "usage", "unexplained", rows["chuck"]) == 0
    portion = of(costed, "usage", "portion_effect", rows["chuck"])
    assert portion > 0
    assert of(costed, "usage", "difference", rows["chuck"]) == pytest.approx(portion)
    assert of(costed, "usage", "unexplained", rows["ribeye"]) != 0


def test_a_piece_is_cut_as_usual_until_the_portions_are_too_heavy(tmp_path: Path) -> None:
    """10 portions of 100 g of a piece of 1000 g: at 101 g still 10, at 103 g 9, at 90 g 11."""
    files = {
        "kitchen.yaml": "name: Whole\ncurrency: CAD\n",
        "cuts/c.yaml": "species: beef\nprice: 10/kg\n",
        "cooks/k.yaml": "cut: c\nhow: oven\nload: 2 kg\nloss: 0 %\npiece: {weight: 1 kg}\n",
        "plates/p.yaml": "menu: mains\ncook: k\nportion: 100 g\nprice: 12\n",
    }
    given_by = {}
    for grams in (90, 100, 101, 103):
        count = f"date: 2026-09-30\nplates: {{p: {{sold: 1, weighed portions: [{grams} g]}}}}\n"
        costed = counted(tmp_path, count, files)
        given_by[grams] = of(costed, "sale", "portions_as_weighed") / of(costed, "sale", "pieces")
    assert given_by == {90: 11, 100: 10, 101: 10, 103: 9}


def test_the_price_of_the_period_is_its_own_list(tmp_path: Path) -> None:
    """Nothing paid is written: the newest list by the period's end, not the one of today."""
    files = {
        **PLAIN,
        "prices/list.csv": "date,item,price\n2026-08-01,cloth,28/kg\n2026-09-20,cloth,31/kg\n",
    }
    count = "from: 2026-09-07\nto: 2026-09-13\nplates: {jacket: 10}\ncuts: {cloth: {used: 20 kg}}\n"
    costed = counted(tmp_path, count, files)
    assert of(costed, "usage", "counted_price") == 28
    assert of(costed, "count", "price_effect") == pytest.approx(20 * (28 - 31))
    assert of(costed, "count", "actual_food") == pytest.approx(560)
