"""What both sides share cancels; the same kitchen gives the same draws; anybody can draw them."""

from __future__ import annotations

import math
import os
from collections.abc import Mapping
from hashlib import blake2b
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from builder.costing.costed import Costed
from builder.engine import sampling
from builder.engine.draws import SEED
from builder.money.intervals import DRAWS, chance_above_nothing
from tests.uncertainty.drawn import Values, costed, draws_of, ends

LISTED = "date,item,price,supplier\n" + "".join(
    f"2026-0{month}-01,chuck,{price}/kg,market\n2026-0{month}-01,flank,{price + 4}/kg,market\n"
    for month, price in enumerate((11.0, 12.1, 11.6, 12.4, 12.0), start=4)
)
KITCHEN = (
    "name: X\ncurrency: CAD\nloaded wage: 24.00/h\nplanning horizon: 2 months\n"
    "give or take: {loaded wage: 8 %}\n"
)
PLATE = (
    "menu: mains\ncook: {}\nportion: 180 g\nprice: 27.00\nhands on: 6 min\nforecast: 50\n"
    "with: {{mash: 200 g}}\n"
)
TESTS = "".join(
    f"  - {{date: 2026-09-0{n}, in: {into} g, out: {out} g}}\n"
    for n, (into, out) in enumerate([(8420, 6010), (9050, 6600), (4100, 2890)], start=1)
)
SMALL: Mapping[str, str] = {
    "kitchen.yaml": KITCHEN,
    "prices/list.csv": LISTED,
    "cuts/chuck.yaml": "species: beef\n",
    "cuts/flank.yaml": "species: beef\ntrim: {loss: 10 %, give or take: 2 %}\n",
    "cooks/long.yaml": f"cut: chuck\nhow: braise\nload: 8 kg\ntests:\n{TESTS}",
    "cooks/short.yaml": "cut: chuck\nhow: grill\nload: 8 kg\nloss: 20 %\n",
    "cooks/flank.yaml": "cut: flank\nhow: grill\nload: 8 kg\nloss: 18 %\n",
    "pantry/mash.yaml": "price: 2.00/kg\ngive or take: {price: 6 %}\n",
    "plates/long.yaml": PLATE.format("long"),
    "plates/short.yaml": PLATE.format("short"),
    "plates/flank.yaml": PLATE.format("flank"),
    "swaps/s.yaml": "benchmark: flank\nchallengers: [long, short]\nforecast: 50\n",
}


def summary(kitchen: Costed) -> dict[str, tuple[float, ...]]:
    """Every interval and chance by whose they are."""
    figures = kitchen.figures
    return {
        f"{table} {figures.identity(table, row)} {name}": (figures.value(table, name, row),)
        for table in ("plate", "swap")
        for row in range(figures.size(table))
        for name in figures.model.tables[table].figures
        if name.endswith(("_low", "_high")) or "chance" in name
    }


def same(one: Mapping[str, tuple[float, ...]], other: Mapping[str, tuple[float, ...]]) -> bool:
    return one.keys() <= other.keys() and all(
        np.array(values).tobytes() == np.array(other[name]).tobytes()
        for name, values in one.items()
    )


def test_a_plate_swapped_for_its_own_copy_saves_nothing_in_every_draw() -> None:
    files = {**SMALL, "plates/copy.yaml": PLATE.format("long")}
    files["swaps/s.yaml"] = "benchmark: copy\nchallengers: [long]\nforecast: 50\n"
    made = costed(files)
    for figure in ("food_saving", "saving", "margin_change"):
        assert not draws_of(made, ("swap", figure))["swap", figure].any()
        assert all(math.isnan(end) for end in ends(made, "swap", figure))
    assert math.isnan(made.figures.value("swap", "chance_earns_more", 0))
    # The plates themselves are far from sure.
    low, high = ends(made, "plate", "prime_cost")
    assert high - low > 0.5


def test_a_wage_for_equal_work_does_not_move_the_saving() -> None:
    files = {p: t for p, t in SMALL.items() if not p.startswith("prices/")}
    files["cuts/chuck.yaml"] = "species: beef\nprice: 12.00/kg\n"
    files["cuts/flank.yaml"] = "species: beef\nprice: 16.00/kg\n"
    files["cooks/long.yaml"] = "cut: chuck\nhow: braise\nload: 8 kg\nloss: 30 %\n"
    made = costed(files)
    low, high = ends(made, "plate", "prime_cost")
    assert high - low > 0.2
    saving = draws_of(made, ("swap", "saving"))["swap", "saving"]
    assert float(np.ptp(saving, axis=1).max()) < 1e-12
    # With a minute more on one side the wage no longer cancels.
    files["plates/long.yaml"] = PLATE.format("long").replace("6 min", "7 min")
    saving = draws_of(costed(files), ("swap", "saving"))["swap", "saving"]
    assert float(np.ptp(saving[0])) == pytest.approx(0.2, rel=1)


def test_two_cooks_of_one_cut_share_its_price_draws() -> None:
    made = costed({p: t.replace("with: {mash: 200 g}\n", "") for p, t in SMALL.items()})
    cost = draws_of(made, ("plate", "food_cost"))["plate", "food_cost"]
    rows = made.rows.plates
    # One of them has a yield that is known for sure; the other's quotient is its own yield's.
    shared = cost[rows["short"]] / cost[rows["long"]]
    yields = draws_of(made, ("batch", "overall_yield"))["batch", "overall_yield"]
    quotient = yields[made.rows.cooks["long"]] / yields[made.rows.cooks["short"]]
    np.testing.assert_allclose(shared, quotient, rtol=1e-12)


UNRELATED = {
    "cuts/goose.yaml": "species: poultry\nprice: 9.00/kg\ngive or take: {price: 10 %}\n",
    "cooks/goose.yaml": "cut: goose\nhow: oven\nload: 8 kg\nloss: 33 %\n",
    "pantry/beans.yaml": "price: 3.00/kg\ngive or take: {price: 9 %}\n",
    "plates/goose.yaml": PLATE.replace("menu: mains", "menu: feast").format("goose"),
    "plates/beans.yaml": "menu: sides\nwith: {beans: 200 g}\nprice: 6.00\n",
}


@settings(max_examples=12, deadline=None)
@given(st.integers(0, 2**32), st.sets(st.sampled_from(sorted(UNRELATED)), min_size=1))
def test_other_records_and_another_order_change_no_interval(seed: int, some: set[str]) -> None:
    if "plates/goose.yaml" in some:
        some |= {"cuts/goose.yaml", "cooks/goose.yaml"}
    if "cooks/goose.yaml" in some:
        some.add("cuts/goose.yaml")
    if "plates/beans.yaml" in some:
        some.add("pantry/beans.yaml")
    chance = Random(seed)
    header, *rows = LISTED.splitlines()
    chance.shuffle(rows)
    listed = "\n".join([header, *rows]) + "\n"
    files = list({**SMALL, "prices/list.csv": listed, **{p: UNRELATED[p] for p in some}}.items())
    chance.shuffle(files)
    assert same(summary(costed(SMALL)), summary(costed(dict(files))))


@pytest.mark.parametrize(("cores", "rows"), [(1, 64), (4, 1), (4, 2), (None, 3)])
def test_threads_and_blocks_change_no_byte(
    cores: int | None, rows: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = summary(costed(SMALL))
    monkeypatch.setattr(os, "cpu_count", lambda: cores)
    monkeypatch.setattr(sampling, "BLOCK_ROWS", rows)
    after = summary(costed(SMALL))
    assert same(before, after)
    assert any(math.isfinite(value) for values in after.values() for value in values)


def permuted(name: str, strata: Values) -> Values:
    """As documented: a permutation by Philox, keyed with the first words and the input's name."""
    digest = blake2b(f"{SEED} {name}".encode(), digest_size=16).digest()
    generator = np.random.Generator(np.random.Philox(key=int.from_bytes(digest, "big")))
    return generator.permutation(strata)


def test_an_interval_can_be_drawn_again_outside() -> None:
    """One plate's food cost with nothing of the builder but the first words of the seed."""
    assert SEED == "shankbook 1"
    made = costed(SMALL)
    share = (np.arange(DRAWS) + 0.5) / DRAWS
    into, out = np.array([[8420, 9050, 4100], [6010, 6600, 2890]], dtype=float)
    ratio = out.sum() / into.sum()
    error = math.sqrt(3 / 2 * ((out - ratio * into) ** 2).sum()) / into.sum()
    yields = ratio + error * permuted("stage.assumed_yield cooks/long#cook", stats.t.ppf(share, 2))
    prices = np.log([11.0, 12.1, 11.6, 12.4, 12.0])
    days = np.array([30, 31, 30, 31])
    ahead = 2 * 365.25 / 12
    moved = sum(
        step * math.sqrt(ahead / days.sum()) * permuted(f"list market 2026-0{m}-01", normal)
        for m, step in enumerate(np.diff(prices), start=5)
        for normal in [stats.norm.ppf(share)]
    )
    width = permuted("market width", np.sqrt(stats.chi2.isf(share, 4) / 4))
    price = 12.0 * np.exp(moved / width)
    mash = 2.0 + 2.0 * 0.06 / stats.norm.ppf(0.95) * permuted(
        "pantry.purchase_price pantry/mash#", stats.norm.ppf(share)
    )
    cost = 0.18 * np.clip(price, 1.2, 120) / np.clip(yields, ratio / 10, 1) + 0.2 * mash
    expected = np.quantile(cost, (0.05, 0.95), method="nearest")
    row = made.rows.plates["long"]
    assert ends(made, "plate", "food_cost", row) == pytest.approx(tuple(expected), rel=1e-9)


def test_a_draw_without_an_end_says_nothing_of_which_earns_more() -> None:
    """By hand: of 40 draws one is endless; of the 39 with a value 13 are above nothing."""
    draws = np.array([[1.0] * 13 + [-1.0] * 26 + [np.inf]])
    assert chance_above_nothing(draws).tolist() == pytest.approx([13 / 39])
    many = np.array([[1.0] * 30 + [np.inf] * 10])
    assert chance_above_nothing(many).tolist() == [1.0]
    most = np.array([[1.0] * 19 + [np.inf] * 21])
    assert np.isnan(chance_above_nothing(most)).all()
