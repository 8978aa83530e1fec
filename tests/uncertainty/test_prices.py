"""How often real prices stayed within the interval that their own past gave them.

Five monthly average prices of the United States Bureau of Labor Statistics (public domain; read in
a mirror): chuck roast, round roast, stewing beef, sirloin steak and pork chops, dollars a pound,
2011 to 2023, in data/bls_average_prices.csv. One of them has a gap of most of a year.
`python -m tests.uncertainty.test_prices` writes the table of what was covered anew.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest

from builder.costing.price_moves import MONTH_DAYS, PriceMoves
from builder.engine.draws import Basis, Spread, drawn, together
from builder.money.intervals import DRAWS
from builder.problems import Place
from builder.records.content import Content, PriceRow, load
from builder.records.pricing import current_prices
from builder.records.tolerances import Horizon
from tests.kitchens import write

HERE = Path(__file__).parent
COVERAGE = HERE / "data" / "prices_covered.txt"
HORIZONS = (1, 3, 6, 12)
# What a list remembers: as much as a kitchen of two years has, or all that there is.
MEMORIES = {"two years": 24, "all": 600}
Series = dict[str, dict[date, float]]


@cache
def series() -> Series:
    """The prices by series and month, without the months that have none."""
    with (HERE / "data" / "bls_average_prices.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    names = [name for name in rows[0] if name != "date"]
    return {
        name: {date.fromisoformat(row["date"]): float(row[name]) for row in rows if row[name]}
        for name in names
    }


@cache
def content() -> Content:
    """A kitchen that buys each of the five from one supplier."""
    prices = "".join(
        f"{day},{name.lower()},{price}/lb,market\n"
        for name, listed in series().items()
        for day, price in listed.items()
    )
    cuts = {f"cuts/{name.lower()}.yaml": "species: beef\n" for name in series()}
    files = {"kitchen.yaml": "name: X\ncurrency: USD\n", **cuts}
    files["prices/bls.csv"] = f"date,item,price,supplier\n{prices}"
    with TemporaryDirectory() as folder:
        found, problems = load(write(Path(folder), files), None, date(2023, 12, 1))
    assert found is not None
    assert not [problem for problem in problems if problem.is_error]
    return found


def months_apart(one: date, other: date) -> int:
    return (other.year - one.year) * 12 + other.month - one.month


def later(day: date, months: int) -> date:
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, 1)


def moves(day: date, months: int, memory: int) -> PriceMoves:
    """What the lists up to a day say of so many months ahead."""
    whole = content()
    kitchen = whole.kitchen.model_copy(
        update={"planning_horizon": Horizon(months * MONTH_DAYS, Place("x"), "x")}
    )
    rows = tuple(r for r in whole.prices if 0 <= months_apart(r.date.day, day) <= memory)
    then = replace(whole, kitchen=kitchen, as_of=day, prices=rows)
    return PriceMoves(then, current_prices(then))


Outcome = tuple[str, date, int]
"""A series, the month that it was foretold for, and -1, 0 or 1: below, within or above."""


@cache
def outcomes(months: int, memory: int) -> tuple[Outcome, ...]:
    """Every origin of the last ten years whose month ahead has a price."""
    return tuple(_outcomes(months, memory))


def _outcomes(months: int, memory: int) -> Iterator[Outcome]:
    last = max(max(listed) for listed in series().values())
    for back in range(120, months - 1, -1):
        origin = later(last, -back)
        found = moves(origin, months, memory)
        for name, listed in series().items():
            target = later(origin, months)
            if origin not in listed or target not in listed:
                continue
            spread = found.spread(name.lower(), listed[origin])
            assert spread is not None
            low, high = spread.ends
            yield name, target, (listed[target] > high) - (listed[target] < low)


def of_few_changes(
    name: str, day: date, months: int, slip: Callable[[PriceRow], PriceRow] = lambda row: row
) -> Spread | None:
    """What two years of the other four, and two changes of its own, say of a price."""
    whole = content()
    rows = tuple(
        slip(row)
        for row in whole.prices
        if 0 <= months_apart(row.date.day, day) <= (2 if row.item == name.lower() else 24)
    )
    horizon = Horizon(months * MONTH_DAYS, Place("x"), "x")
    kitchen = whole.kitchen.model_copy(update={"planning_horizon": horizon})
    then = replace(whole, kitchen=kitchen, as_of=day, prices=rows)
    return PriceMoves(then, current_prices(then)).spread(name.lower(), series()[name][day])


def foretold_by_others(months: int) -> Iterator[bool]:
    """Whether each price, every fourth month of ten years, stayed within what the others say."""
    last = max(max(listed) for listed in series().values())
    for back in range(120, months - 1, -4):
        origin = later(last, -back)
        target = later(origin, months)
        for name, listed in series().items():
            if origin in listed and target in listed:
                found = of_few_changes(name, origin, months)
                # One with a month that has no price, and so with one change, is foretold as well.
                if found is not None:
                    assert found.basis is Basis.LIKE_PRICES
                    yield found.ends[0] <= listed[target] <= found.ends[1]


@pytest.mark.parametrize("months", HORIZONS)
def test_prices_of_few_changes_are_covered_by_what_the_others_say(months: int) -> None:
    found = list(foretold_by_others(months))
    assert len(found) > 100
    assert 0.82 <= sum(found) / len(found) <= 0.97


@pytest.mark.parametrize("name", series())
def test_one_list_that_halves_leaves_the_other_prices_as_sure_as_they_were(name: str) -> None:
    """A month of another series at half its price: two changes fewer behind the spread."""
    day = date(2023, 11, 1)
    wrong = next(each for each in series() if each != name)

    def slip(row: PriceRow) -> PriceRow:
        if row.item != wrong.lower() or row.date.day != date(2023, 5, 1):
            return row
        return row.model_copy(update={"price": replace(row.price, value=row.price.value / 2)})

    before, after = of_few_changes(name, day, 3), of_few_changes(name, day, 3, slip)
    assert before is not None
    assert after is not None
    assert after.count == before.count - 2
    assert after.scale == pytest.approx(before.scale, rel=0.05)


def held(found: Sequence[Outcome]) -> float:
    return sum(side == 0 for *_, side in found) / len(found)


def table() -> str:
    """What was covered, as it is committed."""
    lines = ["months ahead | list remembers | intervals | held | price above | price below"]
    for months in HORIZONS:
        for words, memory in MEMORIES.items():
            found = outcomes(months, memory)
            shares = [sum(side == each for *_, side in found) / len(found) for each in (0, 1, -1)]
            cells = " | ".join(f"{share:.1%}" for share in shares)
            lines.append(f"{months} | {words} | {len(found)} | {cells}")
    lines.append(f"all, the last year only | all | {len(last_year())} | {held(last_year()):.1%}")
    return "\n".join(lines) + "\n"


def last_year() -> list[Outcome]:
    return [each for months in HORIZONS for each in outcomes(months, 600) if each[1].year == 2023]


@pytest.mark.parametrize("memory", MEMORIES.values())
@pytest.mark.parametrize("months", HORIZONS)
def test_ten_years_of_prices_stayed_within_about_nine_intervals_in_ten(
    months: int, memory: int
) -> None:
    assert 0.84 <= held(outcomes(months, memory)) <= 0.96


@pytest.mark.parametrize("name", series())
@pytest.mark.parametrize("months", HORIZONS)
def test_no_series_is_covered_far_less_than_it_says(name: str, months: int) -> None:
    """Each alone over ten years, in which a pandemic's jump counts for several months ahead."""
    found = [each for each in outcomes(months, 24) if each[0] == name]
    assert 0.8 <= held(found) <= 0.99


def test_the_last_year_held_out_is_covered() -> None:
    assert 0.8 <= held(last_year()) < 1


def test_the_table_of_what_was_covered_is_that_of_today() -> None:
    print(table())
    assert COVERAGE.read_text(encoding="utf-8") == table()


def test_two_series_are_drawn_as_they_moved_together() -> None:
    """Chuck and round over two years: the correlation of their changes about nothing."""
    one, other = "APU0000703213", "APU0000703311"
    day = date(2023, 11, 1)
    steps = {
        name: np.diff(
            np.log([price for at, price in series()[name].items() if at >= later(day, -24)])
        )
        for name in (one, other)
    }
    expected = float(
        steps[one] @ steps[other] / math.sqrt((steps[one] ** 2).sum() * (steps[other] ** 2).sum())
    )
    found = moves(day, 3, 24)
    spreads = [found.spread(name.lower(), series()[name][day]) for name in (one, other)]
    known = [spread for spread in spreads if isinstance(spread, Spread)]
    assert together(known) == pytest.approx(expected, rel=1e-9)
    logs = [np.log(drawn(spread, "unused", DRAWS)) for spread in known]
    by_chance = 3 * (1 - expected**2) / math.sqrt(DRAWS) * 1.2
    assert float(np.corrcoef(logs)[0, 1]) == pytest.approx(expected, abs=by_chance)
    assert abs(expected) > 0.2


if __name__ == "__main__":
    COVERAGE.write_text(table(), encoding="utf-8")
