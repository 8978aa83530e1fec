"""Two plates that cost and earn the same, and limits that no kitchen can meet.

Which limit exists follows by hand from who takes more of the input that is moved.
"""

from __future__ import annotations

import pytest
from markupsafe import Markup

from tests.money.test_swap_words import (
    COOK,
    KITCHEN,
    PLATE,
    kitchen,
    limits,
    margins,
    page_of,
    pages_of,
    tables,
)

MOVES_BOTH = "both plates use this cook, so its loss moves both"


def test_of_two_plates_that_are_one_no_limit_is_said_to_end_or_begin_a_saving() -> None:
    page = page_of(kitchen(plates__small=PLATE.format(cook="a", portion=200, price=20)))
    assert page.answer.startswith("Small: as much margin a plate as Large. Its food costs as much.")
    [limits] = [table for table in tables(page.sections) if table.id == "limits-small"]
    said = {
        str(row.cells[0].text): [Markup(cell.note).striptags() for cell in row.cells]
        for row in limits.rows
    }
    assert len(said) == 4
    for notes in said.values():
        assert not any("never" in note or "no loss" in note for note in notes), notes
    assert [notes[0] for name, notes in said.items() if "loss" in name] == [MOVES_BOTH] * 2


def test_of_two_plates_that_are_one_none_earns_more() -> None:
    listed, _ = pages_of(kitchen(plates__small=PLATE.format(cook="a", portion=200, price=20)))
    assert listed.lead.startswith("0 of 1 challenger")
    assert "still earn" not in listed.answer


@pytest.mark.parametrize(
    ("hands_on", "said"),
    [
        # 0.50 of meat saved over 2 s of work: 900 an hour, 45 times today's; over 6 min: 5.
        ("2 s", ("–", "only above 20 times today's wage")),
        ("6 min", ("$5.00/h", "")),
    ],
)
def test_a_wage_that_nobody_pays_is_no_limit(hands_on: str, said: tuple[str, str]) -> None:
    small = PLATE.format(cook="a", portion=160, price=20).replace("0 min", hands_on)
    cook = COOK.replace("1 h", "0 min")
    assert margins(page_of(kitchen(cooks__a=cook, plates__small=small)))["Loaded wage"] == said


def test_equal_plates_meet_at_today_s_price() -> None:
    files = kitchen(
        cuts__y="species: beef\nprice: 10/kg\n",
        cooks__b=COOK.replace("cut: x", "cut: y"),
        plates__small=PLATE.format(cook="b", portion=200, price=20),
    )
    said = limits(page_of(files))["AP price of its cut"]
    assert said == ("$10.00/kg", "today's price, as far as is shown")


@pytest.mark.parametrize(("portion", "said"), [("199.75", "more"), ("200.25", "less"), ("200", "")])
def test_what_reads_as_nothing_a_plate_is_said_for_a_year(portion: str, said: str) -> None:
    """By hand: 0.25 g of meat at 12.50 a servable kilogram is 0.003125, and its part of an hour's
    work 0.00125; 500 a week are 26,000 a year: 114."""
    by_weight = KITCHEN.format(currency="CAD") + "portions: by weight\n"
    small = PLATE.format(cook="a", portion=portion, price=20)
    swap = "benchmark: large\nchallengers: [small]\nforecast: 500\n"
    page = page_of(kitchen(kitchen=by_weight, plates__small=small, swaps__swap=swap))
    assert page.lead == "Small: as much margin a plate as Large."
    coins = f"By less than a coin a plate it earns $114 {said} a year at the forecast count. "
    assert (coins in page.answer) is bool(said)
    assert ("less than a coin" in page.answer) is bool(said)
