"""Inputs that are not known for sure as data: enough to draw the intervals anew, outside."""

from __future__ import annotations

import csv
import io
import math
from hashlib import blake2b

import numpy as np
import pytest
from scipy.stats import chi2, norm
from scipy.stats import t as student

from builder.engine.draws import SEED
from builder.money.intervals import DRAWS, interval_90
from builder.pages.data import data_files
from builder.pages.reference import reference_pages
from builder.pages.view import View
from tests.pages_data.kitchens import SMALL, by_path, html_of, text_of, view_of

LISTS = "date,item,price,supplier\n" + "".join(
    f"2026-0{month}-03,ribeye,{price}/kg,South Yard\n2026-0{month}-03,bones,{bones}/kg,South Yard\n"
    for month, price, bones in ((4, 38, 2.4), (5, 41, 2.5), (6, 39, 2.2), (7, 40.5, 2.5))
)
VIEW = view_of(
    {
        **SMALL,
        "kitchen.yaml": SMALL["kitchen.yaml"]
        + "planning horizon: 3 months\ngive or take: {loaded wage: 4 %}\n",
        "prices/south-yard.csv": LISTS,
    }
)
FILES = dict(data_files(VIEW))


def rows_of(name: str) -> dict[str, dict[str, str]]:
    """A table's rows by id, as another program reads them."""
    text = FILES[f"data/{name}.csv"].decode("utf-8")
    return {row["id"]: row for row in csv.DictReader(io.StringIO(text, newline=""))}


def ordered(seed: str, values: np.ndarray) -> np.ndarray:
    """The values in the order that the method page describes."""
    key = int.from_bytes(blake2b(f"shankbook 1 {seed}".encode(), digest_size=16).digest(), "big")
    return np.random.Generator(np.random.Philox(key=key)).permutation(values)


SHARES = (np.arange(4000) + 0.5) / 4000


def drawn(row: dict[str, str]) -> np.ndarray:
    """An input's draws, made from the published tables alone."""
    freedom = float(row["freedom"] or "inf")
    if row["spread_of"] == "logarithm":
        factors = (f for f in rows_of("spread_factors").values() if f["spread"] == row["id"])
        steps = sum(
            float(each["loading"]) * ordered(each["factor"], norm.ppf(SHARES)) for each in factors
        )
        widths = np.sqrt(chi2.isf(SHARES, freedom) / freedom)
        moved = float(row["plain"]) * np.exp(steps / ordered(row["seed_name"], widths))
    else:
        standard = norm.ppf(SHARES) if math.isinf(freedom) else student.ppf(SHARES, freedom)
        moved = float(row["plain"]) + float(row["scale"]) * ordered(row["seed_name"], standard)
    return np.clip(moved, float(row["least"] or "-inf"), float(row["most"] or "inf"))


def ends(values: np.ndarray) -> list[float]:
    """The 5 % and the 95 % quantile, the nearest draw."""
    return list(np.quantile(values, (0.05, 0.95), method="nearest"))


def figure(view: View, plate: str, name: str) -> float:
    """A figure of a plate."""
    return view.number("plate", name, view.costed.rows.plates[plate])


def test_a_price_that_its_list_moves_is_drawn_anew_from_the_files() -> None:
    """Nothing else about the grilled ribeye is unsure, so its food cost is a line in the price."""
    row = rows_of("spreads")["cut.ap_price/cuts/ribeye"]
    cost = figure(VIEW, "ribeye-steak", "food_cost")
    expected = [end * cost / float(row["plain"]) for end in ends(drawn(row))]
    found = [figure(VIEW, "ribeye-steak", f"food_cost_{end}") for end in ("low", "high")]
    np.testing.assert_allclose(found, expected, rtol=1e-9)


def test_the_stated_interval_of_the_wage_is_as_wide_as_its_draws() -> None:
    row = rows_of("spreads")["kitchen.loaded_wage/kitchen"]
    assert [float(row["low"]), float(row["high"])] == pytest.approx([24.5 * 0.96, 24.5 * 1.04])
    assert ends(drawn(row)) == pytest.approx([24.5 * 0.96, 24.5 * 1.04], rel=1e-4)
    assert (row["count"], row["freedom"], row["basis"]) == ("0", "", "as the kitchen states")


def test_every_end_is_that_of_its_distribution() -> None:
    for row in rows_of("spreads").values():
        freedom = float(row["freedom"] or "inf")
        reach = float(row["scale"]) * float(student.ppf(0.95, freedom))
        plain, least, most = (float(row[key] or math.inf) for key in ("plain", "least", "most"))
        up = plain * math.exp(reach) if row["spread_of"] == "logarithm" else plain + reach
        assert float(row["high"]) == pytest.approx(min(up, most)), row["id"]
        assert float(row["low"]) < plain < float(row["high"])
        assert least == math.inf or least < plain


def test_the_method_page_says_how_many_draws_and_with_which_seed() -> None:
    words = " ".join((interval_90.__doc__ or "").split())
    assert f'"{SEED}"' in words
    assert f"{DRAWS} times" in words
    assert f"{DRAWS} equally likely" in words


def test_the_page_on_writing_works_its_examples_out() -> None:
    """Ends by scipy's own normal and Student's t."""
    words = text_of(html_of(by_path(reference_pages(VIEW))["writing/how-sure.html"]))
    weights = [182, 176, 185, 179, 174, 184]
    reach = student.ppf(0.95, 5) * np.std(weights, ddof=1) / math.sqrt(6)
    assert f"the mean portion is {180 - reach:.0f} g to {180 + reach:.0f} g" in words
    steps = np.diff(np.log([12.40, 13.15, 12.90, 13.60]))
    scale = math.sqrt((steps**2).sum() / 184 * 3 * 365.25 / 12)
    low, high = (13.60 * math.exp(way * student.ppf(0.95, 3) * scale) for way in (-1, 1))
    # Of an interval of dollars no coin is known.
    assert f"${round(low, 1):.2f} to ${round(high, 1):.2f}, 9 times in 10" in words
    assert "2% to 4%, 9 times in 10" in words
