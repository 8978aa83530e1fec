"""Plates to sell more of or to drop, swaps to stop, doubts to mend, services that are due.

Every amount is worked out by hand beside its check. That a plate's guests go to its section's
other plates alike is our rule, no published source.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from pathlib import Path

import numpy as np
import pytest

from builder.costing.actions import new_prices, ranked
from builder.costing.costed import Costed
from builder.costing.due import due_services
from builder.costing.menu_actions import drops, fixes, promotions, stops
from builder.money.actions import price_to_write
from builder.pages.components import Table
from builder.pages.home import home_page
from builder.pages.menu import menu_page
from builder.pages.plates import plate_page
from builder.pages.swaps import swap_pages
from tests.kitchens import read, write
from tests.live.test_recomputed import view_of
from tests.pages_data.kitchens import html_of, text_of
from tests.site.sites import DEMO

# Food at 10 a kilogram, nothing lost. September has 30 days; a twelfth of 48 weeks has 28.
DAYS = ("Friday", "Monday", "Thursday")
PLATE = "name: {}\nmenu: mains\ncook: a\nportion: {} g\nprice: {}\nsold: {{2026-09: {}}}\n"
FILES: Mapping[str, str] = {
    "kitchen.yaml": "name: K\ncurrency: CAD\nweeks open: 48\nas of: 2026-10-01\n"
    "portions: by weight\n",
    "cuts/x.yaml": "name: Shank\nspecies: beef\nprice: 10/kg\n",
    "cooks/a.yaml": "name: Braise\ncut: x\nhow: oven\nload: 4 kg\nloss: 0 %\n",
    # Margins 8, 4, 14, 2; 100, 120, 20, 40 sold: 1,640 over 280 is a line of 5.86.
    "plates/both.yaml": PLATE.format("Both", 200, 10, 100),
    "plates/sells.yaml": PLATE.format("Sells", 200, 6, 120),
    "plates/earns.yaml": PLATE.format("Earns", 200, 16, 20),
    "plates/neither.yaml": PLATE.format("Neither", 200, 4, 40),
}  # fmt: skip


def kitchen(root: Path, files: Mapping[str, str] | None = None) -> Costed:
    costed, problems = read(write(root, {**FILES, **(files or {})}))
    assert costed is not None, problems
    return costed


def test_a_plate_that_earns_is_worth_what_its_share_would_bring(tmp_path: Path) -> None:
    """A share of 70 % / 4 of 280 is 49 plates, 29 more in 30 days.

    The others earn 1,360 / 260 = 5.23.
    """
    (found,) = promotions(kitchen(tmp_path))
    assert found.plate.id == "earns"
    assert found.money == pytest.approx(29 * 28 / 30 * (14 - 1360 / 260))


def test_a_plate_that_does_neither_is_worth_what_its_guests_would_bring(tmp_path: Path) -> None:
    """Its 40 guests in 30 days would leave 1,560 / 240 = 6.50 each instead of 2.00."""
    (found,) = drops(kitchen(tmp_path))
    assert found.plate.id == "neither"
    assert found.money == pytest.approx(40 * 28 / 30 * (1560 / 240 - 2))


def test_a_raise_and_a_drop_are_of_the_same_month(tmp_path: Path) -> None:
    """28 days of 40 plates in 30 are 37 and a third; 10 a week as forecast are 40."""
    page = text_of(html_of(home_page(view_of(write(tmp_path / "sold", FILES)))))
    assert "Drop Neither" in page
    assert "its 37 guests a month would take another of its section" in page
    assert "sold 20 in Sep 2026, where 49 would be its share" in page
    assert "that of a twelfth of the weeks open a year, if as many are sold" in page
    (found,) = drops(
        kitchen(
            tmp_path / "forecast",
            {"plates/neither.yaml": FILES["plates/neither.yaml"] + "forecast: 10\n"},
        )
    )
    assert found.money == pytest.approx(40 * (1560 / 240 - 2))


def test_a_small_sum_is_written_as_its_rows_are(tmp_path: Path) -> None:
    """By hand: 12 x 28 / 30 guests who leave 1,280 / 220 = 5.82 instead of 2.00 are 42.76."""
    files = {**FILES, "plates/neither.yaml": PLATE.format("Neither", 200, 4, 12)}
    del files["plates/earns.yaml"]
    page = text_of(html_of(home_page(view_of(write(tmp_path, files)))))
    (worth,) = re.findall(r"worth about \$([\d.,]+) a month", page)
    assert worth == "43"


def test_a_plate_that_reads_as_earning_no_less_is_not_dropped(tmp_path: Path) -> None:
    """By hand: 7.87 - 2.01 = 5.86 a plate, the others 1,320 / 225 = 5.867; a piece may give none.

    Known to a tenth both are written 5.90, so that it does not read as earning less.
    """
    files = {
        **FILES,
        "kitchen.yaml": FILES["kitchen.yaml"].replace("by weight", "whole"),
        "cooks/b.yaml": FILES["cooks/a.yaml"].replace("4 kg", "4.02 kg")
        + "piece: {weight: 201 g}\n",
        "plates/neither.yaml": PLATE.format("Neither", 200, "7.87", 40).replace(
            "cook: a", "cook: b"
        )
        + "give or take: {portion: 10 g}\n",
        "plates/both.yaml": PLATE.format("Both", 200, 10, 105),
    }
    del files["plates/earns.yaml"]
    view = view_of(write(tmp_path, files))
    row = view.plate(view.costed.content.plates["neither"])
    (found,) = drops(view.costed)
    assert found.money > 0
    assert row.number("contribution_margin") < row.number("others_margin")
    assert row.as_read("contribution_margin") == row.as_read("others_margin")
    assert "Drop Neither" not in text_of(html_of(home_page(view)))


def test_the_others_of_a_section_are_rounded_as_the_margin_beside_them() -> None:
    """A margin whose interval is wider than 1.00 has two digits of it, so no single cents; nor
    have the others where they earn more, as they do where a plate is dropped.
    """
    view = view_of(DEMO)
    wide = [
        row.text("others_margin")
        for row in map(view.plate, view.costed.content.plates.values())
        if view.number("plate", "contribution_margin_high", row.row)
        - view.number("plate", "contribution_margin_low", row.row) > 1.1
        and row.number("others_margin") > row.number("contribution_margin")
    ]  # fmt: skip
    assert wide
    assert [text for text in wide if not text.endswith("0")] == []


def test_a_set_menu_that_has_the_plate_to_drop_is_named(tmp_path: Path) -> None:
    menu = {"menus/lunch.yaml": "name: Lunch for two\nprice: 18.00\nplates: [both, neither]\n"}
    words = "Lunch for two would need another plate in its place"
    kitchen(tmp_path / "with", menu)
    assert words in text_of(html_of(home_page(view_of(tmp_path / "with"))))
    kitchen(tmp_path / "without")
    page = text_of(html_of(home_page(view_of(tmp_path / "without"))))
    assert "Drop Neither" in page
    assert words not in page


def test_a_plate_that_hardly_sold_is_not_dropped(tmp_path: Path) -> None:
    few = {"plates/neither.yaml": PLATE.format("Neither", 200, 4, 9)}
    assert not list(drops(kitchen(tmp_path, few)))


def test_a_plate_that_hardly_sold_is_not_to_be_sold_more_of(tmp_path: Path) -> None:
    """Nine guests a month say nothing of the 49 that would be its share, whatever it earns."""
    few = {"plates/earns.yaml": PLATE.format("Earns", 200, 90, 9)}
    assert not list(promotions(kitchen(tmp_path, few)))


def test_a_plate_that_earns_most_keeps_its_price(tmp_path: Path) -> None:
    """By hand: 12 of 36 and 6 of 15 are 33 % and 40 % food; the section earns 15.56 a plate.

    300 x 24, 400 x 9 and 200 x 16 over 900 plates. The first earns 24, whatever its share; the
    other is raised to 6 / 30 % = 20, 5 x 400 plates in 30 days.
    """
    asked = FILES["kitchen.yaml"] + "targets: {food cost: 30 %}\n"
    files = {
        "kitchen.yaml": asked,
        "cuts/x.yaml": FILES["cuts/x.yaml"].replace("10/kg", "20/kg"),
        "plates/both.yaml": PLATE.format("Star", 600, 36, 300),
        "plates/sells.yaml": PLATE.format("Plough", 300, 15, 400),
        "plates/earns.yaml": PLATE.format("Fair", 200, 20, 200),
    }
    root = write(tmp_path, {**FILES, **files})
    (root / "plates/neither.yaml").unlink()
    costed, problems = read(root)
    assert costed is not None, problems
    (found,) = new_prices(costed)
    assert found.plate.title == "Plough"
    assert found.money == pytest.approx(5 * 400 * 28 / 30)
    view = view_of(root)
    home, menu = (text_of(html_of(page)) for page in (home_page(view), menu_page(view)))
    over = home.partition("Food cost above its target")[2]
    assert over.index("Plough") < over.index("Star $24.00 its section: $15.56")
    assert "Raise Star" not in home
    assert "raise to $20.00" in menu
    assert "raise to $40.00" not in menu


def test_a_swap_that_earns_more_by_its_price_is_listed_and_one_that_only_saves_is_not(
    tmp_path: Path,
) -> None:
    """By hand: 40 - 3, 44 - 3.5 and 30 - 1 leave 37, 40.5 and 29 a plate."""
    files = {
        "plates/both.yaml": PLATE.format("Bench", 300, 40, 200),
        "plates/earns.yaml": PLATE.format("Dear", 350, 44, 20),
        "plates/sells.yaml": PLATE.format("Cheap", 100, 30, 50),
        "swaps/a.yaml": "benchmark: both\nchallengers: [sells]\n",
        "swaps/b.yaml": "benchmark: both\nchallengers: [earns]\n",
    }
    home = text_of(html_of(home_page(view_of(write(tmp_path, {**FILES, **files})))))
    assert "Swap Bench for Dear" in home
    assert "$3.50 more margin a plate; its food costs $0.50 more" in home
    assert "Cheap instead of Bench" not in home
    assert "Swap Bench for Cheap" not in home
    listed, *_ = swap_pages(view_of(tmp_path))
    (table,) = (part for part in listed.sections if isinstance(part, Table))
    assert [str(row.cells[0].note) for row in table.rows] == [
        "Dear instead of Bench",
        "Cheap instead of Bench",
    ]


def test_a_section_of_one_plate_asks_for_nothing(tmp_path: Path) -> None:
    root = write(tmp_path, FILES)
    for name in ("both", "sells", "neither"):
        (root / f"plates/{name}.yaml").unlink()
    costed, problems = read(root)
    assert costed is not None, problems
    assert not [*promotions(costed), *drops(costed)]


def test_a_swap_that_was_made_and_loses_is_stopped(tmp_path: Path) -> None:
    """Sells earns 4.00 where Both earned 8.00: 4.00 x 50 a week x 4 weeks a month."""
    swap = "benchmark: both\nchallengers: [sells]\nforecast: 50\n"
    made = "decided: {date: 2026-09-03, who: JB, why: cheaper}\n"
    (found,) = stops(kitchen(tmp_path / "made", {"swaps/s.yaml": swap + made}))
    assert found.money == pytest.approx(4 * 50 * 4)
    assert not list(stops(kitchen(tmp_path / "open", {"swaps/s.yaml": swap})))
    refused = made.replace("}", ", taken: no}")
    assert not list(stops(kitchen(tmp_path / "refused", {"swaps/s.yaml": swap + refused})))
    earns = swap.replace("both", "sells").replace("[sells]", "[both]") + made
    assert not list(stops(kitchen(tmp_path / "earns", {"swaps/s.yaml": earns})))


def test_what_was_sold_since_is_what_going_back_is_worth(tmp_path: Path) -> None:
    """120 in the 30 days of September, not the 50 a week that were forecast."""
    swap = "benchmark: both\nchallengers: [sells]\nforecast: 50\n"
    made = "decided: {date: 2026-08-31, who: JB, why: cheaper}\n"
    (found,) = stops(kitchen(tmp_path, {"swaps/s.yaml": swap + made}))
    assert found.money == pytest.approx(4 * 120 / (30 / 7) * 48 / 12)


def test_what_is_in_doubt_comes_first_and_is_ranked_for_nothing_else(tmp_path: Path) -> None:
    """A cook of no known loss: its three plates sell for 10 x 100 + 6 x 120 + 16 x 20 a month."""
    late = {
        "cooks/b.yaml": "name: Roast\ncut: x\nhow: oven\nload: 4 kg\nloss: 0 %\n",
        "cooks/a.yaml": FILES["cooks/a.yaml"].replace("loss: 0 %\n", ""),
        "plates/neither.yaml": FILES["plates/neither.yaml"].replace("cook: a", "cook: b"),
    }
    costed = kitchen(tmp_path, late)
    actions = ranked([*fixes(costed), *promotions(costed), *drops(costed)])
    assert [action.kind for action in actions] == ["fix"]
    weeks = 7 / 30 * 48 / 12
    assert actions[0].money == pytest.approx((1000 + 720 + 320) * weeks)
    page = text_of(html_of(home_page(view_of(tmp_path))))
    assert "Fix what is written for Both" in page


def test_a_service_is_due_the_day_before_its_first_step(tmp_path: Path) -> None:
    """1 October 2026 is a Thursday; a cook of 20 h for Friday at 18:00 starts on Thursday."""
    cook = FILES["cooks/a.yaml"] + "for: 20 h\n"
    service = "name: {0}\nday: {0}\nat: 18:00\nplates: {{both: 10}}\n"
    files = {
        "cooks/a.yaml": cook,
        **{
            f"services/{day.lower()}.yaml": service.format(day)
            for day in ("Friday", "Monday", "Thursday")
        },
    }
    found = list(due_services(kitchen(tmp_path, files)))
    # Thursday's began on Wednesday, Monday's begins on Sunday.
    assert [each.plan.service.name for each in found] == ["Friday"]
    assert found[0].start.date() == date(2026, 10, 1)
    assert found[0].served.date() == date(2026, 10, 2)
    page = text_of(html_of(home_page(view_of(tmp_path))))
    assert "Order for Friday, served Fri 6:00 p.m." in page


@pytest.mark.parametrize(
    ("endings", "asked", "written"),
    [
        ((0.50, 0.95), 13.00, 13.50),
        ((0.50, 0.95), 13.51, 13.95),
        ((0.50, 0.95), 13.96, 14.50),
        ((0.50, 0.95), 13.95, 13.95),
        ((0.0,), 13.01, 14.00),
        ((4.0, 9.0), 30.0, 34.0),
        ((4.0, 9.0), 34.5, 39.0),
        ((80.0,), 1281.0, 1380.0),
    ],
)
def test_a_price_is_written_with_the_kitchens_endings(
    endings: tuple[float, ...], asked: float, written: float
) -> None:
    one, now, width, coins = (np.array([[x]]) for x in (asked, 1.0, np.nan, 100.0))
    assert price_to_write(one, now, width, coins, endings)[0, 0] == pytest.approx(written)
    enough = np.array([[asked]])
    assert np.isnan(price_to_write(one, enough, width, coins, endings)[0, 0])


@pytest.mark.parametrize("endings", [(), (0.0, 0.5)])
@pytest.mark.parametrize("asked", [float("inf"), float("nan")])
def test_no_price_is_written_where_none_would_do(asked: float, endings: tuple[float, ...]) -> None:
    one, now, width, coins = (np.array([[x]]) for x in (asked, 20.0, np.nan, 100.0))
    assert np.isnan(price_to_write(one, now, width, coins, endings)[0, 0])


def test_the_first_page_writes_the_price_with_its_ending(tmp_path: Path) -> None:
    """Food of 2.00 at 30 % asks for 6.67: 6.95, which is 0.95 more than today, 120 a month."""
    asked = FILES["kitchen.yaml"] + "targets: {food cost: 30 %}\nprice endings: [.50, .95]\n"
    view = view_of(write(tmp_path, {**FILES, "kitchen.yaml": asked}))
    row = view.plate(view.costed.content.plates["sells"])
    assert row.number("price_to_write") == pytest.approx(6.95)
    assert row.number("reprice_a_month") == pytest.approx(0.95 * row.number("monthly_count"))
    assert "Raise Sells to $6.95" in text_of(html_of(home_page(view)))
    plate = view.costed.content.plates["sells"]
    said = text_of(html_of(plate_page(view, plate)))
    assert re.search(r"food cost\s+\$6\.67\s.*price endings\s+\$6\.95", said, re.DOTALL)
    free = view_of(write(tmp_path / "free", {**FILES, "kitchen.yaml": asked.split("price e")[0]}))
    assert "price endings" not in text_of(html_of(plate_page(free, plate)))


@pytest.mark.parametrize(
    ("allowance", "less"),
    [("", 0.175), ("seasoning: 10 %\ngarnish: 5 %\n", 1.75 / 1.1 / 1.05 / 10)],
)
def test_a_smaller_portion_does_instead(tmp_path: Path, allowance: str, less: float) -> None:
    """Food of 25 % of 7.00 is 1.75, at 10 a kilogram 175 g; allowances are shares of it."""
    asked = FILES["kitchen.yaml"] + "targets: {food cost: 25 %}\n" + allowance
    dear = "plates/sells.yaml", PLATE.format("Dear", 200, 7, 120)
    view = view_of(write(tmp_path / "now", {**FILES, "kitchen.yaml": asked, dear[0]: dear[1]}))
    row = view.plate(view.costed.content.plates["sells"])
    assert row.number("portion_for_food_cost") == pytest.approx(less)
    then = dear[1].replace("200 g", f"{less * 1000:.6f} g")
    view = view_of(write(tmp_path / "then", {**FILES, "kitchen.yaml": asked, dear[0]: then}))
    row = view.plate(view.costed.content.plates["sells"])
    assert row.number("food_cost_share") == pytest.approx(0.25)


def test_a_piece_is_cut_into_more_portions_instead(tmp_path: Path) -> None:
    """A piece of 1 kg gives 4 portions of 250 g at 2.50, 31 % of 8.00; 30 % asks for 5."""
    files = {
        **FILES,
        "kitchen.yaml": FILES["kitchen.yaml"].replace("portions: by weight\n", "")
        + "targets: {food cost: 30 %}\n",
        "cooks/a.yaml": FILES["cooks/a.yaml"] + "piece: {weight: 1 kg}\n",
        "plates/sells.yaml": PLATE.format("Dear", 250, 8, 120),
    }
    view = view_of(write(tmp_path, files))
    row = view.plate(view.costed.content.plates["sells"])
    assert row.numbers("portions_for_food_cost", "portion_for_food_cost") == pytest.approx((5, 0.2))
    page = text_of(html_of(home_page(view)))
    assert "; or cut a piece into 5 portions, not 4" in page


@pytest.mark.parametrize(("at", "more"), [("50 °C", False), ("60 °C", True)])
def test_nothing_is_sold_more_whose_cook_is_to_be_put_right_first(
    tmp_path: Path, at: str, more: bool
) -> None:
    """A roast of 50 °C for a day lies below every published table; one of 60 °C is in it."""
    files = {
        **FILES,
        "kitchen.yaml": FILES["kitchen.yaml"] + "authority: us-food-code-2017\n",
        "cooks/b.yaml": f"name: Bath\ncut: x\nhow: water bath\nat: {at}\nfor: 24 h\nform: intact\n"
        "counts as: roast\npiece: {shape: slab, thickness: 50 mm, starts at: 4 °C, weight: 2 kg}\n"
        "load: 4 kg\nloss: 0 %\n",
        "plates/earns.yaml": FILES["plates/earns.yaml"].replace("cook: a", "cook: b"),
    }
    view = view_of(write(tmp_path, files))
    home, menu = (text_of(html_of(page)) for page in (home_page(view), menu_page(view)))
    assert ("Sell more of Earns" in home) is more
    assert ("sell more of it" in menu) is more
    assert ("fix its cook first" in menu) is not more
