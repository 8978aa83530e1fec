"""What a swap's page says of its break-evens, above all where there is none.

Which limit exists follows by hand from the sign of the saving and from which plate takes
more of the input that is moved.
"""

from __future__ import annotations

import re
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
from markupsafe import Markup

from builder.display.style import NBSP
from builder.pages.components import Figures, Page, Part, Row, Section, Table
from builder.pages.swaps import swap_pages
from builder.pages.view import View
from tests.kitchens import costed_from, write
from tests.pages_data.kitchens import html_of, text_of

KITCHEN = "name: Words\ncurrency: {currency}\nlocale: en_CA\nloaded wage: 20/h\n"
COOK = "cut: x\nhow: oven\nload: 5 kg\npiece: {weight: 5 kg}\nloss: 20 %\nhands-on: 1 h\n"
PLATE = """menu: mains
cook: {cook}
portion: {portion} g
price: {price}
hands-on: 0 min
sold: {{2026-09: 10}}
"""


def kitchen(**changed: str) -> dict[str, str]:
    """A large plate and a small one of one cook, and a swap of the small one for the large one."""
    files = {
        "kitchen.yaml": KITCHEN.format(currency="CAD"),
        "cuts/x.yaml": "species: beef\nprice: 10/kg\n",
        "cooks/a.yaml": COOK,
        "plates/large.yaml": PLATE.format(cook="a", portion=200, price=20),
        "plates/small.yaml": PLATE.format(cook="a", portion=160, price=20),
        "swaps/swap.yaml": "benchmark: large\nchallengers: [small]\n",
    }
    return {**files, **{f"{key.replace('__', '/')}.yaml": text for key, text in changed.items()}}


def page_of(files: Mapping[str, str]) -> Page:
    _, page = pages_of(files)
    return page


def pages_of(files: Mapping[str, str]) -> list[Page]:
    """The list of swaps and the page of each."""
    with tempfile.TemporaryDirectory() as folder:
        view = View.of(costed_from(write(Path(folder), files)), ())
    return list(swap_pages(view))


def tables(sections: tuple[Section, ...]) -> Iterator[Table]:
    for section in sections:
        if isinstance(section, Part):
            yield from tables(section.sections)
        elif isinstance(section, Table):
            yield section


def limits(page: Page) -> dict[str, tuple[str, str]]:
    """Each line of the first break-even table: where the saving is zero, and the words.

    Beside a limit of the margins the words are with the limit, before its interval.
    """
    table = next(found for found in tables(page.sections) if found.id.startswith("limits-"))
    return {str(row.cells[0].text): texts(row) for row in table.rows}


def texts(row: Row) -> tuple[str, str]:
    label, *_, limit = row.cells
    return str(limit.text), Markup(label.note or limit.note).striptags().replace(NBSP, " ")


NONE, BOTH = "–", "Cook loss, by weight on both plates"


def test_a_smaller_portion_of_one_cook_is_cheaper_whatever_moves() -> None:
    found = limits(page_of(kitchen()))
    assert found == {
        "AP price of its cut": (NONE, "no price can end the saving"),
        "Cook loss, by whole portions": (
            NONE,
            "both plates use this cook, so its loss moves both",
        ),
        BOTH: (NONE, "no loss can end the saving"),
        "Loaded wage": (NONE, "no wage can end the saving"),
    }


def test_a_larger_portion_of_one_cook_is_dearer_whatever_moves() -> None:
    found = limits(page_of(kitchen(swaps__swap="benchmark: small\nchallengers: [large]\n")))
    assert found["AP price of its cut"] == (NONE, "no price is low enough to save")
    assert found[BOTH] == (NONE, "no loss is small enough to save")
    assert found["Loaded wage"] == (NONE, "no wage is low enough to save")


def margins(page: Page) -> dict[str, tuple[str, str]]:
    """Each line of the first break-even table: where margins are equal, and why they never are."""
    table = next(found for found in tables(page.sections) if found.id.startswith("limits-"))
    cells = {str(row.cells[0].text): row.cells[2] for row in table.rows}
    return {label: (str(cell.text), Markup(cell.note).striptags()) for label, cell in cells.items()}


def test_margins_that_no_price_or_loss_makes_equal_say_so_beside_a_saving_that_ends() -> None:
    """By hand: sold for 8.00 less, and its meat costs 2.00, which is all that could be gained."""
    small = PLATE.format(cook="b", portion=160, price=12)
    cook, cut = COOK.replace("cut: x", "cut: y"), "species: beef\nprice: 10/kg\n"
    page = page_of(kitchen(cuts__y=cut, cooks__b=cook, plates__small=small))
    found = margins(page)
    assert found["AP price of its cut"] == (NONE, "never, whatever the price")
    assert found["Cook loss, by whole portions"] == (NONE, "never, whatever the loss")
    assert found[BOTH] == (NONE, "never, whatever the loss")


def test_a_wage_that_makes_margins_equal_is_not_said_to_end_nothing() -> None:
    """Half the work and less meat, but a lower menu price: only a dear wage makes up for it."""
    small = PLATE.format(cook="b", portion=160, price=16)
    page = page_of(kitchen(cooks__b=COOK.replace("1 h", "30 min"), plates__small=small))
    assert limits(page)["Loaded wage"] == (NONE, "no wage can end the saving")
    assert margins(page)["Loaded wage"][0] != NONE


def test_a_plate_of_whole_portions_has_equal_margins_at_a_loss_by_weight_too() -> None:
    small = PLATE.format(cook="b", portion=160, price="19.80")
    page = page_of(kitchen(cooks__b=COOK, plates__small=small))
    assert margins(page)[BOTH][0] != NONE


def test_a_plate_without_a_piece_weight_meets_what_the_benchmark_costs_on_the_menu() -> None:
    """By hand: a batch costs 70. Large of 210 g is charged on 19 whole portions of 4 kg.

    Small of 160 g is charged by weight, so it costs as much where 5 kg leave 19 x 160 g, 60.8 %.
    """
    files = kitchen(
        cooks__b=COOK.replace("piece: {weight: 5 kg}\n", ""),
        plates__large=PLATE.format(cook="a", portion=210, price=20),
        plates__small=PLATE.format(cook="b", portion=160, price=20),
    )
    limit, words = limits(page_of(files))["Cook loss, by weight"]
    assert (limit, words) == ("39.2%", "19.2 points more than today's loss")


def test_a_plate_without_a_cut_says_so_and_has_no_cook_loss() -> None:
    page = page_of(kitchen(plates__small="menu: mains\nprice: 20\nhands-on: 15 min\n"))
    found = limits(page)
    assert found["AP price of its cut"] == (NONE, "no cut is on this plate")
    assert not any(label.startswith("Cook loss") for label in found)
    # 2.50 of meat and 3 min against 15 min: 0.2 h a plate for 2.50.
    assert found["Loaded wage"] == ("$12.50/h", "a plate takes 12 min more work")


def test_two_cooks_of_one_cut_that_take_as_much_of_it() -> None:
    """By hand: 3.00 of work against 1.00, so they meet at a wage of nothing, which nobody pays."""
    files = kitchen(
        cooks__b=COOK.replace("1 h", "3 h"),
        plates__small=PLATE.format(cook="b", portion=200, price=20),
    )
    found = limits(page_of(files))
    assert found["AP price of its cut"] == (NONE, "the price of its cut does not move the saving")
    assert found["Loaded wage"] == (
        NONE,
        "a plate takes 6 min more work; only below 1/20 of today's wage",
    )


def test_a_cut_that_costs_nothing_has_a_limit_all_the_same() -> None:
    """By hand: 2.50 of meat against none; 250 g as purchased a plate, so 2.50 / 0.25 a kilogram."""
    files = kitchen(
        cuts__gift="species: beef\nprice: 0/kg\n",
        cooks__b=COOK.replace("cut: x", "cut: gift"),
        plates__small=PLATE.format(cook="b", portion=200, price=20),
    )
    found = limits(page_of(files))
    assert found["AP price of its cut"] == ("$10.00/kg", "it costs nothing today")


@pytest.mark.parametrize(
    ("portion", "loss", "points"),
    [
        (160, "33.3%", "13.3"),
        # 34.17 %, never rounded up: at 34.2 % only 157.9 g are left.
        (158, "34.1%", "14.1"),
    ],
)
def test_the_last_portion_of_a_piece_has_to_be_there(portion: int, loss: str, points: str) -> None:
    """By hand: 240 g raw at 20 % loss leaves 192 g for 160 g; a loss of one third leaves 160 g."""
    piece = COOK.replace("weight: 5 kg", "weight: 240 g")
    files = kitchen(
        cooks__b=piece.replace("load: 5 kg", "load: 4.8 kg"),
        plates__small=PLATE.format(cook="b", portion=portion, price=20),
        cuts__x="species: beef\nprice: 1/kg\n",
    )
    limit, words = limits(page_of(files))["Cook loss, by whole portions"]
    assert limit == loss
    rest = "points more than today's loss; a piece must still give its one portion"
    assert words == f"{points} {rest}"


def test_one_of_several_that_earns_more_is_spoken_of_as_one() -> None:
    files = kitchen(
        plates__huge=PLATE.format(cook="a", portion=240, price=20),
        swaps__swap="benchmark: large\nchallengers: [small, huge]\n",
    )
    with tempfile.TemporaryDirectory() as folder:
        listed, _ = swap_pages(View.of(costed_from(write(Path(folder), files)), ()))
    lead = "1 of 2 challengers earns more a plate than the benchmark it would replace"
    assert str(listed.lead).startswith(lead)


def test_what_was_sold_is_not_held_where_a_forecast_counts() -> None:
    files = kitchen(cuts__x="species: beef\nprice: 10/kg\ngive or take: {price: 5 %}\n")
    sold = text_of(html_of(page_of(files))).partition("Held at what is written")[2]
    assert "the plates sold" in sold
    assert "the plates forecast" not in sold
    files["plates/large.yaml"] += "forecast: 12\n"
    held = text_of(html_of(page_of(files))).partition("Held at what is written")[2]
    assert "the plates forecast" in held
    assert "the plates sold" not in held


@pytest.mark.parametrize(("off", "unsure"), [("5 %", False), ("80 %", True)])
def test_what_may_never_be_paid_for_is_not_said_to_be(off: str, unsure: bool) -> None:
    """By hand: 40 g less meat at 12.50 a kg save 0.50, for 0.45 less on the menu."""
    files = kitchen(
        kitchen=KITCHEN.format(currency="CAD")
        + "equipment: {pot: {kind: oven, holds: 9 kg, price: 900.00, service life: 9000}}\n",
        cuts__x=f"species: beef\nprice: 10/kg\ngive or take: {{price: {off}}}\n",
        plates__small=PLATE.format(cook="a", portion=160, price="19.40"),
        swaps__swap="benchmark: large\nchallengers: [small]\nbuys: [pot]\n",
    )
    words = text_of(html_of(page_of(files)))
    assert "The margin gained pays for the equipment in" in words
    assert ("as written: it may never pay for it" in words) is unsure


@pytest.mark.parametrize(
    ("there", "weeks"), [("", "in 32.1 weeks"), ("how many: 2, ", "in 64.3 weeks")]
)
def test_all_of_the_equipment_that_is_bought_is_paid_for(there: str, weeks: str) -> None:
    """By hand: the small plate costs 0.70 less, 28.00 a week of 40 plates; 900.00 a pot."""
    pot = f"equipment: {{pot: {{kind: oven, {there}holds: 9 kg, price: 900.00}}}}\n"
    files = kitchen(
        kitchen=KITCHEN.format(currency="CAD") + pot,
        swaps__swap="benchmark: large\nchallengers: [small]\nbuys: [pot]\nforecast: 40\n",
    )
    words = text_of(html_of(page_of(files))).replace("\xa0", " ")
    assert weeks in words


def test_a_limit_by_weight_says_that_it_is_of_both_plates() -> None:
    """By whole portions margins are equal at more than today's loss, by weight at less.

    By hand: 1 kg costs 14.00 with its work and leaves 800 g. By weight 500 g cost 8.75 and 300 g
    5.25, so 3.50 less for 4.00 less on the menu: a smaller loss is needed. By whole portions, one a
    piece and two, it is 14.00 and 7.00: 7.00 less, so that more may be lost.
    """
    piece = COOK.replace("weight: 5 kg", "weight: 1 kg")
    page = page_of(
        kitchen(
            cooks__a=piece,
            cooks__b=piece,
            cuts__x="species: beef\nprice: 10/kg\n",
            plates__large=PLATE.format(cook="a", portion=500, price=20),
            plates__small=PLATE.format(cook="b", portion=300, price=16),
        )
    )
    found = margins(page)
    whole, by_weight = (
        float(found[name][0].rstrip("%")) for name in ("Cook loss, by whole portions", BOTH)
    )
    assert by_weight < 20 < whole
    said = (
        "By weight both plates cost what their portions weigh, so that limit may lie on the other"
    )
    assert any(said in str(table.about) for table in tables(page.sections))


@pytest.mark.parametrize(
    ("price", "earns"),
    [
        # 3.50 - 2.80 = 0.70 saved a plate; what the menu gives up is beside it.
        ("20", "Small: $0.70 more margin a plate than Large, "),
        ("19", "Small: $0.30 less margin a plate than Large, "),
        ("21", "Small: $1.70 more margin a plate than Large, "),
    ],
)
def test_what_the_owner_gets_leads_and_the_price_that_would_bring_it(
    price: str, earns: str
) -> None:
    page = page_of(kitchen(plates__small=PLATE.format(cook="a", portion=160, price=price)))
    assert page.answer.startswith(earns)
    assert ("At a menu price of $19.30 it would earn as much." in page.answer) is (price == "19")


def test_a_challenger_in_doubt_does_not_lead_one_that_is_known() -> None:
    """A cook of which nobody wrote the loss leaves most, so that its plate seems to earn most."""
    files = kitchen(
        cooks__b=COOK.replace("loss: 20 %\n", ""),
        plates__small=PLATE.format(cook="a", portion=160, price=20),
        plates__unsure=PLATE.format(cook="b", portion=160, price=20),
        swaps__swap="benchmark: large\nchallengers: [unsure, small]\n",
    )
    page = page_of(files)
    assert page.lead.startswith("Small: $0.70 more margin a plate than Large")
    assert any(
        text.startswith("The margin of Unsure against Large is in doubt") for text in page.also
    )


@pytest.mark.parametrize(
    ("currency", "says"),
    [
        (
            "JPY",
            "Small: as much margin a plate as Large. By less than a coin a plate it earns "
            "JP¥1 more a year",
        ),
        ("KWD", "Small: KWD0.004 more margin a plate than Large"),
    ],
)
def test_a_saving_below_the_smallest_coin_is_none(currency: str, says: str) -> None:
    """200 g and 199.75 g of meat at 12.50 a servable kilogram and 3 min of work: 0.004."""
    small = PLATE.format(cook="a", portion="199.75", price=20)
    by_weight = KITCHEN.format(currency=currency) + "portions: by weight\n"
    page = page_of(kitchen(kitchen=by_weight, plates__small=small))
    assert page.answer.startswith(says)


@pytest.mark.parametrize(
    ("files", "lead", "note"),
    [
        ({}, " a year at the count of Sep 2026", "at the count of Sep 2026"),
        (
            {"plates__large": "forecast: 7\n"},
            " a year at the forecast count",
            "at the forecast count",
        ),
        (
            {"swaps__swap": "forecast: 7\n"},
            " a year at the forecast count",
            "at the forecast count",
        ),
    ],
)
def test_a_saving_a_year_names_the_count_that_it_rests_on(
    files: Mapping[str, str], lead: str, note: str
) -> None:
    plain = kitchen()
    more = {key: plain[f"{key.replace('__', '/')}.yaml"] + text for key, text in files.items()}
    page = page_of(kitchen(**more))
    assert lead in page.answer
    assert note_of(page, "Margin change a month") == note


def test_a_saving_without_any_count_says_so() -> None:
    uncounted = {
        f"plates__{name}": PLATE.split("sold", maxsplit=1)[0].format(
            cook="a", portion=size, price=20
        )
        for name, size in (("large", 200), ("small", 160))
    }
    page = page_of(kitchen(**uncounted))
    assert "a year" not in page.answer
    words = "no forecast is written and no sales are counted"
    assert note_of(page, "Margin change a month") == words


def note_of(page: Page, label: str) -> str:
    parts = [s for p in page.sections if isinstance(p, Part) for s in p.sections]
    found = [t for s in parts if isinstance(s, Figures) for t in s.tiles if t.label == label]
    return str(found[0].note)


@pytest.mark.parametrize(("backed", "named"), [("", ["B and A"]), ("a", ["B"]), ("ab", [])])
def test_a_chance_that_takes_a_loss_as_written_says_so(backed: str, named: list[str]) -> None:
    """How far a stated loss may be off is not known unless the file says it."""
    off = "give or take: {loss: 2 %}\n"
    files = kitchen(
        cuts__x="species: beef\nprice: 10/kg\ngive or take: {price: 5 %}\n",
        cooks__a=f"name: A\n{COOK}{off if 'a' in backed else ''}",
        cooks__b=f"name: B\n{COOK}{off if 'b' in backed else ''}",
        plates__small=PLATE.format(cook="b", portion=160, price=20),
    )
    page = page_of(files)
    said = " ".join(map(str, page.also))
    assert "it earns more than the benchmark" in said
    assert re.findall(r"That takes the cook loss of (.*?) as written, for nothing", said) == named
    [listed] = [table for table in tables(pages_of(files)[0].sections) if table.id == "swaps"]
    assert any(cell.note == "a cook loss as written" for cell in listed.rows[0].cells) == bool(
        named
    )
