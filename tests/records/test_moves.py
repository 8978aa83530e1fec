"""Prices against the same item's last one, as a hurried hand writes them down."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from builder.records.content import load
from builder.records.proportion import check_proportion
from tests.kitchens import write

KITCHEN = "name: X\ncurrency: USD\nloaded wage: 24/h\n"


def hints(root: Path, *prices: str, cut: str = "species: beef\neach: 310 g\n") -> list[str]:
    """What the hints ask for an item with these prices, one a month, each after its line."""
    rows = (f"2026-0{month}-01,cut,{price}\n" for month, price in enumerate(prices, 1))
    files = {"kitchen.yaml": KITCHEN, "cuts/cut.yaml": cut}
    files["prices/list.csv"] = "date,item,price\n" + "".join(rows)
    content, problems = load(write(root, files), None, date(2026, 12, 1))
    assert content is not None, problems
    return [f"{p.place.line} {p.hint.partition('?')[0]}?" for p in check_proportion(content)]


@pytest.mark.parametrize(
    ("prices", "meant"),
    [
        (("13.90/kg", "14.80/lb"), "3 did you mean 14.80/kg?"),
        (("7.95/lb", "8.35/lb", "8.60/kg"), "4 did you mean 8.60/lb?"),
        (("39.50/kg", "14.20/kg"), "3 did you mean 41.20/kg?"),
        (("1.45/each", "1.55/kg"), "3 did you mean 1.55/each?"),
        (("13/kg", "13.20/lb", "13.40/kg", "13.60/kg"), "3 did you mean 13.20/kg?"),
    ],
)
def test_a_price_far_from_the_last_one_is_doubted(
    prices: tuple[str, ...], meant: str, tmp_path: Path
) -> None:
    assert hints(tmp_path, *prices) == [meant]


@pytest.mark.parametrize(
    "prices",
    [
        ("13.90/kg", "6.30/lb", "13.60/kg"),
        ("1.45/each", "4.90/kg"),
        ("5.75/kg", "9.90/kg", "5.60/kg"),
        ("6/kg", "11/kg", "19/kg"),
    ],
)
def test_prices_that_move_as_seasons_move_them_are_left_alone(
    prices: tuple[str, ...], tmp_path: Path
) -> None:
    assert hints(tmp_path, *prices) == []


def test_prices_by_units_that_nothing_brings_together_are_no_measure(tmp_path: Path) -> None:
    assert hints(tmp_path, "1.45/each", "9.90/kg", cut="species: beef\n") == []


def test_how_far_a_price_moved_is_written_out(tmp_path: Path) -> None:
    """By hand: 14.60/g is 14,600/kg, which is 1,050 times 13.90/kg to
    three figures."""
    rows = "2026-01-01,cut,13.40/kg\n2026-02-01,cut,13.90/kg\n2026-03-01,cut,14.60/g\n"
    rows = f"date,item,price\n{rows}"
    kitchen = "name: X\ncurrency: USD\n"
    files = {"kitchen.yaml": kitchen, "cuts/cut.yaml": "species: beef\n", "prices/list.csv": rows}
    content, problems = load(write(tmp_path, files), None, date(2026, 12, 1))
    assert content is not None, problems
    (message,) = (p.message for p in check_proportion(content) if p.place.line == 4)
    assert "1050 times" in message
