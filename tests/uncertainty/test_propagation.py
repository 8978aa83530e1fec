"""Draws sent through a chain of weights, against closed forms and another library.

Sources: Goodman, On the Exact Variance of Products, J. Am. Stat. Assoc. 55 (1960) [from
memory]; the ratio of two normal variables, Hinkley, Biometrika 56 (1969) [from memory];
`uncertainties` for first-order propagation with shared inputs.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy import stats
from uncertainties import ufloat  # type: ignore[import-untyped]

from builder.costing.next_weighing import combined_width, swing_of
from builder.costing.spreads import AP_PRICE
from builder.engine.draws import Z_90
from builder.money.intervals import DRAWS
from tests.uncertainty.drawn import costed, draws_of, ends, known, spreads

PRICE, PORTION = 9.0, 0.1
# Three standard deviations of a share of 5 % among the draws.
TAIL = 3 * math.sqrt(0.05 * 0.95 / DRAWS)


def chain(name: str, losses: list[float], within: float) -> dict[str, str]:
    """A chain of stated losses [%], each give or take so many points; a price held fixed."""
    stages = dict(zip(("trim", "cook", "carve"), losses, strict=False))
    cook = stages.pop("cook")
    give = f"give or take: {within} %"
    return {
        f"cuts/{name}.yaml": f"species: beef\nprice: {PRICE}/kg\n",
        f"cooks/{name}.yaml": (
            f"cut: {name}\nhow: braise\nload: 8 kg\n"
            f"loss: {cook} %\ngive or take: {{loss: {within} %}}\n"
            + "".join(f"{stage}: {{loss: {x} %, {give}}}\n" for stage, x in stages.items())
        ),
        f"plates/{name}.yaml": f"menu: mains\ncook: {name}\nportion: 100 g\nprice: 30.00\n",
    }


@pytest.mark.parametrize("losses", [[55.0, 50.0], [55.0, 50.0, 45.0]])
def test_a_product_of_yields_has_the_exact_variance_not_the_delta_one(losses: list[float]) -> None:
    """Forty chains alike, so that the chance of single draws averages out."""
    within = 16.4
    files = [chain(f"c{n}", losses, within) for n in range(40)]
    made = costed({path: text for each in files for path, text in each.items()})
    node = ("batch", "overall_yield")
    found = float(draws_of(made, node)[node].var(axis=1).mean())
    means = 1 - np.array(losses) / 100
    squares = np.full(len(losses), (within / 100 / Z_90) ** 2)
    exact = np.prod(means**2 + squares) - np.prod(means**2)
    delta = np.prod(means) ** 2 * np.sum(squares / means**2)
    assert found == pytest.approx(exact, rel=0.01)
    assert abs(found - delta) > 2 * abs(found - exact)


def test_a_cost_of_a_lognormal_price_has_its_exact_quantiles() -> None:
    """The logarithm of a price is Student's t, scaled as worked out here; twenty cuts alike."""
    listed = {"08-03": 9.0, "08-10": 9.9, "08-20": 9.5, "08-31": 10.4, "09-07": 10.0, "09-17": 9.0}
    files, rows = dict[str, str](), "date,item,price,supplier\n"
    for name in (f"c{n}" for n in range(20)):
        files |= chain(name, [0.0, 0.0], 0.0)
        files[f"cuts/{name}.yaml"] = f"species: beef\nsupplier: {name}\n"
        files[f"cooks/{name}.yaml"] = f"cut: {name}\nhow: braise\nload: 8 kg\nloss: 30 %\n"
        rows += "".join(f"2026-{day},{name},{price}/kg,{name}\n" for day, price in listed.items())
    made = costed({**files, "prices/list.csv": rows})
    steps = np.diff(np.log(list(listed.values())))
    scale = math.sqrt((steps**2).sum() / 45 * 365.25 / 12)
    reach = stats.t.ppf(0.95, len(steps)) * scale
    found = np.log([ends(made, "plate", "food_cost", row) for row in range(20)]).mean(axis=0)
    middle = math.log(PRICE * PORTION / 0.7)
    # A sum over several lists is not stratified: one interval's ends lie off by 2 % by chance.
    assert found - middle == pytest.approx([-reach, reach], rel=0.02)


def test_a_cost_is_the_ratio_of_a_price_and_a_yield_as_hinkley_has_it() -> None:
    files = chain("c", [0.0, 40.0], 12.0)
    files["cuts/c.yaml"] += "give or take: {price: 30 %}\n"
    files["cooks/c.yaml"] = (
        "cut: c\nhow: braise\nload: 8 kg\nloss: 40 %\ngive or take: {loss: 12 %}\n"
    )
    low, high = ends(costed(files), "plate", "food_cost")

    def below(cost: float) -> float:
        """P(price / yield < q) = P(price - q yield < 0), for a yield above nothing."""
        q = cost / PORTION
        spread = math.hypot(0.3 * PRICE, q * 0.12) / Z_90
        return float(stats.norm.cdf((q * 0.6 - PRICE) / spread))

    assert below(low) == pytest.approx(0.05, abs=TAIL)
    assert below(high) == pytest.approx(0.95, abs=TAIL)


COOK = "cut: chuck\nhow: {}\nload: 8 kg\nloss: {} %\ngive or take: {{loss: 1 %}}\n"
SHARED = {
    "kitchen.yaml": (
        "name: X\ncurrency: CAD\nloaded wage: 24.00/h\ngive or take: {loaded wage: 5 %}\n"
    ),
    "cuts/chuck.yaml": (
        "species: beef\nprice: 12.00/kg\ngive or take: {price: 4 %}\n"
        "trim: {loss: 15 %, give or take: 1 %}\n"
    ),
    "cooks/long.yaml": COOK.format("braise", 25),
    "cooks/short.yaml": COOK.format("grill", 20),
    "pantry/mash.yaml": "price: 2.00/kg\ngive or take: {price: 6 %}\n",
    "plates/long.yaml": (
        "menu: mains\ncook: long\nportion: 180 g\nwith: {mash: 200 g}\nprice: 27.00\n"
        "hands on: 6 min\ngive or take: {portion: 4 g}\nforecast: 50\n"
    ),
    "plates/short.yaml": (
        "menu: mains\ncook: short\nportion: 210 g\nwith: {mash: 200 g}\nprice: 31.00\n"
        "hands on: 3 min\nforecast: 50\n"
    ),
    "swaps/s.yaml": "benchmark: short\nchallengers: [long]\nforecast: 50\n",
}  # fmt: skip


def test_small_spreads_agree_with_another_library() -> None:
    """Figures and their standard deviations, inputs that both plates share counted once."""
    made = costed(SHARED)
    price, trim = ufloat(12, 0.04 * 12 / Z_90), ufloat(0.85, 0.01 / Z_90)
    long, short = ufloat(0.75, 0.01 / Z_90), ufloat(0.80, 0.01 / Z_90)
    mash, wage = ufloat(2, 0.12 / Z_90), ufloat(24, 1.2 / Z_90)
    portion = ufloat(0.18, 0.004 / Z_90)
    food = [price / trim / long * portion + 0.2 * mash, price / trim / short * 0.21 + 0.2 * mash]
    prime = [food[0] + wage * 0.1, food[1] + wage * 0.05]
    draws = draws_of(made, ("plate", "food_cost"), ("plate", "prime_cost"))
    for row, name in enumerate(("long", "short")):
        assert made.rows.plates[name] == row
        for figure, expected in (("food_cost", food[row]), ("prime_cost", prime[row])):
            values = draws["plate", figure][row]
            assert values.mean() == pytest.approx(expected.n, rel=1e-3)
            assert values.std() == pytest.approx(expected.s, rel=0.03), (name, figure)
    saving = draws_of(made, ("swap", "food_saving"))["swap", "food_saving"][0]
    expected = food[1] - food[0]
    assert saving.mean() == pytest.approx(expected.n, abs=0.05 * expected.s)
    assert saving.std() == pytest.approx(expected.s, rel=0.03)
    # Drawn apart, the two would differ by far more than they do.
    assert saving.std() < 0.8 * math.hypot(food[0].s, food[1].s)


@pytest.mark.parametrize("target", [("plate", "prime_cost"), ("swap", "food_saving")])
def test_the_combined_width_is_that_of_the_draws_where_all_is_nearly_linear(
    target: tuple[str, str],
) -> None:
    made = costed(SHARED)
    sensitivity = known(made).plates if target[0] == "plate" else known(made).swaps
    width = combined_width(map(swing_of, sensitivity.of(target, 0)))
    low, high = ends(made, *target)
    assert width == pytest.approx(high - low, rel=0.04)


def test_a_stated_price_wins_over_nothing() -> None:
    """Its 90 % interval is what is written: 12.00 give or take 4 %."""
    [spread] = spreads(costed(SHARED), AP_PRICE).values()
    assert spread.ends == pytest.approx((11.52, 12.48))
