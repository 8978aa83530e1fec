"""Stock at hand and what is used besides: taken off, or added, before the order is rounded."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.costing.costed import Costed
from builder.pages.components import Table, walk
from builder.pages.data import data_files
from builder.pages.order_sheets import order_page
from builder.pages.schedule import schedule_pages
from builder.pages.view import View
from tests.kitchens import costed_from, read, write
from tests.moving import with_row
from tests.ordering.kitchens import BASE
from tests.pages_data.kitchens import html_of, text_of
from tests.records.mistakes import Mistake
from tests.records.test_mistakes import check_one_error, name

SERVICE = "services/friday.yaml"
FILES = {
    **BASE,
    SERVICE: BASE[SERVICE]
    + "on hand: {shoulder: 2 kg, cream: 1 L, bread: 1 kg, flour: 30 kg, oyster: 5 each}\n"
    + "besides: {carrot: 1 kg}\n",
}


@pytest.fixture(scope="module")
def costed(tmp_path_factory: pytest.TempPathFactory) -> Costed:
    return costed_from(write(tmp_path_factory.mktemp("kitchen"), FILES))


def line(costed: Costed, item: str, figure: str) -> float:
    rows = costed.orders["friday"]
    return costed.figures.value("order_line", figure, {**rows.cuts, **rows.items}[item])


# Needed, at hand and ordered, by hand. Bread: 4 kg less 1 kg at hand, so 3 kg of it take 3 kg of
# flour and 0.6 L of cream. Cream 2.8 L of plates and 0.6 L, one crate of 6 L. Flour 1.28 + 3 kg,
# of which there is more than enough: no smallest order. Carrot (2.88 + 1) / 0.8. Oysters: 6 kg
# less 5 of 100 g, three cases of 2.4 kg. Shoulder: 12.8 kg less 2 kg, six pieces of 2 kg.
BY_HAND = {
    "shoulder": (12.8, 2.0, 12.0),
    "cream": (3.4, 1.0, 6.0),
    "flour": (4.28, 4.28, 0.0),
    "carrot": (4.85, 0.0, 4.85),
    "oyster": (6.0, 0.5, 7.2),
}


@pytest.mark.parametrize("item", BY_HAND)
def test_stock_is_taken_off_before_the_order_is_rounded(costed: Costed, item: str) -> None:
    needed, stock, ordered = BY_HAND[item]
    assert line(costed, item, "amount_needed") == pytest.approx(needed)
    assert line(costed, item, "from_stock") == pytest.approx(stock)
    assert line(costed, item, "amount_short") == pytest.approx(needed - stock, abs=1e-12)
    assert line(costed, item, "amount_ordered") == pytest.approx(ordered, abs=1e-12)
    left = ordered - (needed - stock)
    assert line(costed, item, "left_over") == pytest.approx(left, abs=1e-12)


def test_a_sub_recipe_at_hand_is_made_less(costed: Costed) -> None:
    row = costed.orders["friday"].made["bread"]
    found = [
        costed.figures.value("preparation", figure, row)
        for figure in ("amount_wanted", "on_hand", "amount_made")
    ]
    assert found == pytest.approx([4.0, 1.0, 3.0])


def test_more_stock_than_is_needed_orders_nothing_and_never_less(costed: Costed) -> None:
    row = costed.orders["friday"].items["cream"]
    for stock in (3.4, 3.5, 400.0):
        moved = with_row(costed.figures, ("order_line", "on_hand"), row, [stock])
        assert moved.value("order_line", "amount_ordered", row) == 0
        assert moved.value("order_line", "left_over", row) == 0
        assert moved.value("order_line", "from_stock", row) == pytest.approx(3.4)


def test_the_page_and_the_sheet_say_what_comes_from_stock(costed: Costed) -> None:
    view = View.of(costed, [])
    page = next(page for page in schedule_pages(view) if page.title == "Friday")
    [found] = [s for s in walk(page.sections) if isinstance(s, Table) and s.id == "order-lines"]
    number = [column.key for column in found.columns].index("stock")
    stock = {str(r.cells[0].text): text_of(str(r.cells[number].text)) for r in found.rows}
    assert {key: text.replace("\xa0", " ") for key, text in stock.items()} == {
        "Shoulder": "2.00 kg", "Cream": "1.00 L", "Flour": "4.28 kg", "Carrot": "–",
        "Oyster": "500 g",
    }  # fmt: skip
    assert "Stock at hand is taken off what is needed before" in found.about
    sheet = text_of(html_of(order_page(view, costed.services["friday"])))
    # There is more than enough flour: nothing is ordered, not 0 steps of it.
    assert "none" in sheet
    assert "0 ×" not in sheet.replace("10 ×", "")
    assert "From stock" in sheet


def test_without_stock_no_column_says_so(tmp_path: Path) -> None:
    view = View.of(costed_from(write(tmp_path, BASE)), [])
    shown = text_of(html_of(order_page(view, view.costed.services["friday"])))
    assert "From stock" not in shown


def test_a_line_is_in_doubt_where_its_cook_is(tmp_path: Path) -> None:
    """A cook that nobody weighed makes what is bought for it doubtful; bread is not."""
    cook = "cooks/shoulder-roast.yaml"
    files = {**FILES, cook: FILES[cook].replace("yield: 66.66666666666667 %\n", "")}
    view = View.of(costed_from(write(tmp_path, files)), [])
    table = dict(data_files(view))["data/order_lines.csv"].decode().splitlines()
    assert table[0].split(",")[-1] == "in_doubt"
    doubts = {row.split(",")[0]: row.rpartition(",")[2] for row in table[1:]}
    assert doubts["friday/cuts/shoulder"]
    assert not doubts["friday/pantry/flour"]


MISTAKES = [
    Mistake(SERVICE, "cream: 1 L", "§creem: 1 L", 'no cut and no pantry item "creem"', '"cream"'),
    Mistake(SERVICE, "cream: 1 L", "cream: §1 kg", "does not fit how cream is priced", "litre"),
    Mistake(SERVICE, "cream: 1 L", "cream: §1", '"1" has no unit'),
    Mistake(SERVICE, "shoulder: 2 kg", "shoulder: §2 L", "does not fit", "by weight"),
    Mistake(SERVICE, "{carrot: 1 kg}", "{§salt: 1 kg}", 'no pantry item "salt"', "pantry/salt"),
    Mistake(SERVICE, "{carrot: 1 kg}", "{carrot: §-1 kg}", "-1 kg"),
]


@pytest.mark.parametrize("mistake", MISTAKES, ids=name)
def test_a_mistake_is_one_error_at_its_place(mistake: Mistake, tmp_path: Path) -> None:
    check_one_error(mistake, FILES, tmp_path)


def test_stock_that_no_plate_takes_is_a_warning(tmp_path: Path) -> None:
    files = {**FILES, "pantry/salt.yaml": "price: 2.00/kg\nallergens: none\n"}
    files[SERVICE] = FILES[SERVICE].replace("cream: 1 L", "cream: 1 L, salt: 1 kg")
    _, problems = read(write(tmp_path, files))
    [found] = [each for each in problems if "salt" in each.message]
    assert not found.is_error
    assert found.message == "no plate of this service takes salt, so nothing is taken off for it"


def test_just_enough_of_what_has_a_smallest_order_orders_nothing(costed: Costed) -> None:
    """4.28 kg of flour are taken; with exactly that at hand no 20 kg are due."""
    row = costed.orders["friday"].items["flour"]
    for stock, ordered in ((4.28, 0.0), (4.27, 20.0)):
        moved = with_row(costed.figures, ("order_line", "on_hand"), row, [stock])
        assert moved.value("order_line", "amount_ordered", row) == ordered
