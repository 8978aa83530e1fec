"""Orders of a service against arithmetic by hand and two published examples."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.costing.costed import Costed
from tests.kitchens import costed_from, write
from tests.moving import with_row
from tests.ordering.kitchens import BASE


@pytest.fixture(scope="module")
def costed(tmp_path_factory: pytest.TempPathFactory) -> Costed:
    return costed_from(write(tmp_path_factory.mktemp("kitchen"), BASE))


def row_of(costed: Costed, name: str, service: str = "friday") -> int:
    rows = costed.orders[service]
    return {**rows.cuts, **rows.items}[name]


def line(costed: Costed, name: str, figure: str, service: str = "friday") -> float:
    return costed.figures.value("order_line", figure, row_of(costed, name, service))


def order(costed: Costed, figure: str, service: str = "friday") -> float:
    return costed.figures.value("service_order", figure, costed.orders[service].row)


# What is needed, how it comes (size, how many), and its price, all by hand:
# shoulder 24 x 0.2 kg + 16 x 0.1 kg = 6.4 kg servable, half of what is bought: 12.8 kg.
# cream 24 x 0.05 + 16 x 0.1 = 2.8 L, and 40 covers x 0.1 kg of bread = 4 kg with 0.8 L.
# flour 16 x 0.08 = 1.28 kg, and 4 kg in the bread. carrot 24 x 0.12 kg / 0.8 = 3.6 kg.
# oysters 10 x 6 at 100 g.
BY_HAND = {
    "shoulder": (12.8, 2.0, 7, 14.0, 12.00),
    "cream": (3.6, 6.0, 1, 6.0, 5.00),
    "flour": (5.28, 5.0, 4, 20.0, 1.00),
    "carrot": (3.6, None, None, 3.6, 2.00),
    "oyster": (6.0, 2.4, 3, 7.2, 20.00),
}


@pytest.mark.parametrize("name", BY_HAND)
def test_plates_are_added_up_and_then_rounded_up_once(costed: Costed, name: str) -> None:
    needed, size, packs, ordered, price = BY_HAND[name]
    assert line(costed, name, "amount_needed") == pytest.approx(needed)
    assert line(costed, name, "step_size") == pytest.approx(size, nan_ok=True) or size is None
    assert line(costed, name, "packs_ordered") == packs or packs is None
    assert line(costed, name, "amount_ordered") == pytest.approx(ordered)
    assert line(costed, name, "left_over") == pytest.approx(ordered - needed)
    assert line(costed, name, "line_cost") == pytest.approx(ordered * price)
    assert line(costed, name, "left_over_cost") == pytest.approx((ordered - needed) * price)


def test_what_the_order_costs_today_names_the_deposits_apart(costed: Costed) -> None:
    """14 x 12 + 6 x 5 + 20 x 1 + 3.6 x 2 + 3 x 48 = 369.20; one crate's deposit is 4.50."""
    assert order(costed, "goods_cost") == pytest.approx(369.20)
    assert order(costed, "deposits_paid") == pytest.approx(4.50)
    assert order(costed, "paid_today") == pytest.approx(373.70)
    left = 1.2 * 12 + 2.4 * 5 + 14.72 * 1 + 0 + 1.2 * 20
    assert order(costed, "goods_left_over") == pytest.approx(left)


def test_a_portion_costs_what_it_uses_without_the_rest_of_the_pack_and_its_deposit(
    costed: Costed, tmp_path: Path
) -> None:
    """A roast: 0.2 kg at 24.00, 0.05 L at 5.00, 0.15 kg at 2.00, 0.1 kg of bread at 2.00."""
    row = costed.rows.plates["roast"]
    assert costed.figures.value("plate", "food_cost", row) == pytest.approx(
        4.80 + 0.25 + 0.30 + 0.20
    )
    loose = {
        path: text.replace("30.00/crate", "5.00/L").replace(
            "sold as: {pack: crate of 6 x 1 L, deposit: 4.50}\n", ""
        )
        for path, text in BASE.items()
    }
    other = costed_from(write(tmp_path, loose))
    assert other.figures.value("plate", "food_cost", row) == pytest.approx(5.55)
    assert line(other, "cream", "amount_ordered") == pytest.approx(3.6)


def test_a_price_by_the_pack_is_its_amount_over_what_is_in_it(costed: Costed) -> None:
    row = costed.rows.pantry["cream"]
    assert costed.figures.value("pantry", "purchase_price", row) == pytest.approx(30.00 / 6)
    assert costed.figures.value("cut", "ap_price", costed.rows.cuts["oyster"]) == pytest.approx(
        48.00 / 2.4
    )


@pytest.mark.parametrize(
    ("rows", "needed", "packs", "price"),
    [
        ("2026-09-01,cream,42.00/case,case of 12 L,,", 12.0, 1, 3.5),
        ("2026-09-01,cream,31.00/crate,,,5.00", 6.0, 1, 31 / 6),
        ("2026-09-01,cream,42.00 per case of 10 L,,,", 6.0, 1, 4.2),
        ("2026-09-01,cream,5.20/L,steps of 500 ml,2 L,", 4.0, 8, 5.2),
        ("2026-09-01,cream,33.00/crate,,2 crates,", 12.0, 2, 5.5),
    ],
)
def test_a_row_of_a_price_list_says_how_it_is_sold_over_the_file(
    rows: str, needed: float, packs: int, price: float, tmp_path: Path
) -> None:
    """The second column of answers is what is ordered; without its own way the file's counts."""
    files = {
        **BASE,
        "prices/list.csv": f"date,item,price,sold as,minimum,deposit\n{rows}\n",
        "pantry/cream.yaml": BASE["pantry/cream.yaml"].replace("price: 30.00/crate\n", ""),
    }
    found = costed_from(write(tmp_path, files))
    assert line(found, "cream", "amount_ordered") == pytest.approx(needed)
    assert line(found, "cream", "packs_ordered") == packs
    assert line(found, "cream", "price_paid") == pytest.approx(price)


def test_a_pack_that_is_moved_is_rounded_up_anew(
    costed: Costed,
) -> None:
    row = row_of(costed, "cream")
    sold = costed.rows.pantry["cream"]
    moved = with_row(costed.figures, ("pantry", "sold_in"), sold, [6.0, 2.0, 0.4])
    assert list(moved.column("order_line", "amount_ordered")[row]) == pytest.approx([6.0, 4.0, 3.6])


@pytest.mark.parametrize(
    ("servings", "per_100", "cans"),
    [(460, 3.0 * 2, 28)],
)
def test_cans_of_the_published_example(
    servings: int, per_100: float, cans: int, tmp_path: Path
) -> None:
    """460 half-cups of corn, 3.0 No. 10 cans for 100 quarter-cups: 27.6 cans needed, so 28 bought.

    USDA Food Buying Guide for Child Nutrition Programs, training example of its standardized
    formula [secondary: a slide of a training course].
    """
    files = {
        **BASE,
        "pantry/corn.yaml": "price: 9.00/each\nsold as: steps of 1 each\nallergens: none\n",
        "plates/corn.yaml": (
            f"menu: starters\nwith: {{corn: {per_100 / 100:g} each}}\nprice: 5.00\n"
        ),
        "services/lunch.yaml": f"day: monday\nat: 12:00\nplates: {{corn: {servings}}}\n",
    }
    found = costed_from(write(tmp_path, files))
    assert line(found, "corn", "amount_needed", "lunch") == pytest.approx(27.6)
    assert line(found, "corn", "packs_ordered", "lunch") == cans


def test_juice_of_the_published_example(tmp_path: Path) -> None:
    """6 fl oz for each of 200 guests, a case of 12 cans of 0.75 gal at 22.94: 23.90 of juice used.

    Lecture notes for MTH 81, chapter 9 [read: the page of the worked example], which rounds cents
    up. The cost by use is theirs; that two cases are bought for it is arithmetic, 9.375 gal of 9.
    """
    files = {
        **BASE,
        "pantry/juice.yaml": "price: 22.94/case\nsold as: case of 12 x 0.75 gal\nallergens: none\n",
        "plates/juice.yaml": "menu: starters\nwith: {juice: 6 fl oz}\nprice: 1.00\n",
        "services/event.yaml": "day: monday\nat: 12:00\nplates: {juice: 200}\n",
    }
    found = costed_from(write(tmp_path, {k: v.replace("0.75", "¾") for k, v in files.items()}))
    each = found.figures.value("plate", "food_cost", found.rows.plates["juice"])
    assert round(each, 4) == 0.1195
    assert round(200 * each + 0.005, 2) == 23.90
    assert line(found, "juice", "packs_ordered", "event") == 2
    assert order(found, "goods_cost", "event") == pytest.approx(2 * 22.94)


def test_what_a_plate_alone_buys_is_rounded_up_to_what_is_sold(costed: Costed) -> None:
    """A roast of 0.2 kg takes 0.4 kg of shoulder: 50 covers 20 kg, ten pieces of 2 kg."""
    found = [
        costed.figures.value("order", "quantity_as_sold", row)
        for row in costed.rows.orders["roast"]
    ]
    assert found == pytest.approx([20.0, 40.0, 72.0])
    assert costed.figures.value("order", "quantity_as_sold", costed.rows.orders["pie"][0]) == 10.0


@pytest.mark.parametrize(
    ("sold_as", "bought"),
    [
        ("{piece: about 2 kg, minimum: 30 kg}", [30.0, 40.0, 72.0]),
        ("{steps: 7 kg, minimum: 30 kg}", [35.0, 42.0, 77.0]),
        ("case of 20 kg", [20.0, 40.0, 80.0]),
    ],
)
def test_what_a_plate_alone_buys_is_at_least_the_smallest_order(
    tmp_path: Path, sold_as: str, bought: list[float]
) -> None:
    """20, 40 and 72 kg are needed; 30 kg is the least that is sold, in whole steps."""
    file = "cuts/shoulder.yaml"
    written = "".join(
        line for line in BASE[file].splitlines(True) if not line.startswith("sold as")
    )
    found = costed_from(write(tmp_path, {**BASE, file: f"{written}sold as: {sold_as}\n"}))
    orders = found.rows.orders["roast"]
    assert [found.figures.value("order", "quantity_as_sold", row) for row in orders] == (
        pytest.approx(bought)
    )


# A scallop weighs 30 g and 5 of 8 of it is served; 8 of 10 of a lemon are used.
SINGLY = {
    "cuts/scallop.yaml": (
        "species: other\nprice: 2.10/each\neach: 30 g\ntrim: {loss: 37.5 %}\n"
        "allergens: [molluscs]\n"
    ),
    "pantry/lemon.yaml": "price: 0.40/each\nyield: 80 %\nallergens: none\n",
    "plates/scallops.yaml": (
        "menu: starters\ncut: scallop\nportion: 91 g\nwith: {lemon: 0.5 each}\nprice: 24.00\n"
    ),
    "services/friday.yaml": "day: friday\nat: 18:00\nplates: {scallops: 10}\n",
}


def test_what_is_priced_each_is_ordered_in_whole_pieces(tmp_path: Path) -> None:
    """10 x 91 g over 5/8 is 1.456 kg, 48.5 scallops: 49 at 2.10; 6.25 lemons: 7 at 0.40."""
    found = costed_from(write(tmp_path, {**BASE, **SINGLY}))
    assert line(found, "scallop", "amount_needed") == pytest.approx(1.456)
    assert line(found, "scallop", "packs_ordered") == 49
    assert line(found, "scallop", "amount_ordered") == pytest.approx(49 * 0.03)
    assert line(found, "scallop", "line_cost") == pytest.approx(49 * 2.10)
    assert line(found, "lemon", "packs_ordered") == 7
    assert line(found, "lemon", "line_cost") == pytest.approx(7 * 0.40)
    row = found.rows.plates["scallops"]
    assert found.figures.value("plate", "food_cost", row) == pytest.approx(
        1.456 / 0.03 * 2.10 / 10 + 0.25 / 0.4 * 0.40
    )


def test_a_list_that_prices_each_is_ordered_in_whole_pieces_too(tmp_path: Path) -> None:
    """By the kilogram in the file, each in the list: 49 whole ones of 1.456 kg."""
    files = {
        **BASE,
        **SINGLY,
        "cuts/scallop.yaml": SINGLY["cuts/scallop.yaml"].replace("2.10/each", "70.00/kg"),
        "prices/list.csv": "date,item,price\n2026-09-01,scallop,2.40/each\n",
    }
    found = costed_from(write(tmp_path, files))
    assert line(found, "scallop", "packs_ordered") == 49
    assert line(found, "scallop", "line_cost") == pytest.approx(49 * 2.40)


def test_the_printed_lines_of_an_order_add_up_to_its_printed_sum(tmp_path: Path) -> None:
    """Three lines of 1.004 each are 1.00 on a bill, and three of these are 3.00, not 3.01."""
    files = {
        "kitchen.yaml": "name: Invented kitchen\ncurrency: CAD\n",
        **{f"pantry/{name}.yaml": "price: 10.04/kg\nallergens: none\n" for name in "abc"},
        "plates/p.yaml": "menu: mains\nwith: {a: 100 g, b: 100 g, c: 100 g}\nprice: 20.00\n",
        "services/s.yaml": "day: friday\nat: 18:00\nplates: {p: 1}\n",
    }
    found = costed_from(write(tmp_path, files))
    costs = [line(found, name, "line_cost", "s") for name in "abc"]
    assert costs == pytest.approx([1.004] * 3, rel=1e-12)
    assert [line(found, name, "line_billed", "s") for name in "abc"] == [1.0, 1.0, 1.0]
    assert order(found, "goods_cost", "s") == pytest.approx(3.012, rel=1e-12)
    assert order(found, "goods_billed", "s") == pytest.approx(3.0)
    assert order(found, "billed_today", "s") == pytest.approx(3.0)
