"""What to do first: money a month times its chance, in a kitchen where the order is known.

Every amount is worked out by hand beside its check; expected value is the outside rule.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import numpy as np
import pytest

from builder.costing.actions import Action, new_prices, ranked, swaps, weighings, worth_of_action
from builder.costing.costed import Costed
from builder.costing.due import due_services
from builder.money.actions import lost_sales_of_raise
from builder.pages.home import _answer, home_page
from builder.pages.home_actions import actions_table
from builder.pages.home_rows import action_row
from builder.pages.worth_doing import actions
from tests.kitchens import read, write
from tests.live.test_recomputed import KITCHENS, view_of
from tests.pages_data.kitchens import html_of, text_of

PLATE = "name: {}\nmenu: mains\ncook: {}\nportion: {} g\nprice: {}\nforecast: {}\n"
# 10 a kilogram, nothing lost: a portion of 200 g costs 2.00, without tax and seasoning.
FILES: Mapping[str, str] = {
    "kitchen.yaml": "name: Words\ncurrency: CAD\nweeks open: 48\ntargets: {food cost: 25 %}\n"
    "portions: by weight\n",
    "cuts/x.yaml": "name: Shank\nspecies: beef\nprice: 10/kg\n",
    "cooks/a.yaml": "name: Braise\ncut: x\nhow: oven\nload: 4 kg\nloss: 0 %\n",
    "plates/few.yaml": PLATE.format("Few", "a", 200, 4, 2),
    "plates/cheap.yaml": PLATE.format("Cheap", "a", 200, 5, 10),
    "plates/dear.yaml": PLATE.format("Dear", "a", 200, 7, 60),
    "plates/within.yaml": PLATE.format("Within", "a", 200, 9, 60),
    "plates/small.yaml": PLATE.format("Small", "a", 100, 9, 60),
    "swaps/swap.yaml": "benchmark: within\nchallengers: [small]\n",
}  # fmt: skip


def kitchen(root: Path, files: Mapping[str, str] | None = None) -> Costed:
    costed, problems = read(write(root, {**FILES, **(files or {})}))
    assert costed is not None, problems
    return costed


def test_a_new_price_is_worth_its_rise_times_the_plates_of_a_month(tmp_path: Path) -> None:
    """The target asks for 2.00 / 0.25 = 8.00; 48 weeks a year are 4 a month."""
    found = ranked(new_prices(kitchen(tmp_path)))
    # Dear: 1.00 x 60 x 4; Cheap: 3.00 x 10 x 4; Few sells 8 a month, fewer than are ranked.
    assert [(each.plate.id, round(each.worth, 6)) for each in found] == [
        ("dear", 240.0),
        ("cheap", 120.0),
    ]


def test_a_swap_is_worth_the_margin_that_it_brings(tmp_path: Path) -> None:
    """Small saves 1.00 of food at the same price: 1.00 x 60 x 4."""
    costed = kitchen(tmp_path)
    swap = costed.content.swaps["swap"]
    small = costed.content.plates["small"]
    [action] = ranked(swaps(costed, [(swap, small)]))
    assert action.worth == pytest.approx(240)


def test_a_swap_that_loses_margin_is_not_worth_doing(tmp_path: Path) -> None:
    cheaper = FILES["plates/small.yaml"].replace("price: 9", "price: 7.50")
    costed = kitchen(tmp_path, {"plates/small.yaml": cheaper})
    swap = costed.content.swaps["swap"]
    assert not ranked(swaps(costed, [(swap, costed.content.plates["small"])]))


def test_a_chance_can_turn_the_order() -> None:
    costed_plate = object()
    sure = Action("reprice", costed_plate, 100.0, 1.0)  # type: ignore[arg-type]
    unsure = Action("swap", costed_plate, 150.0, 0.6)  # type: ignore[arg-type]
    assert ranked([unsure, sure]) == [sure, unsure]
    assert worth_of_action(150.0, 0.6) == pytest.approx(90.0)


def test_the_weighing_that_comes_first_is_of_the_plate_that_sells(tmp_path: Path) -> None:
    """Two plates of like stages and like tests: the one that sells six times as many."""
    tests = (
        "tests:\n  - {date: 2026-08-01, in: 4 kg, out: 3.0 kg}\n"
        "  - {date: 2026-08-02, in: 4 kg, out: 3.2 kg}\n"
    )
    cook = "cut: x\nhow: oven\nload: 4 kg\n" + tests
    costed = kitchen(
        tmp_path,
        {
            "cooks/a.yaml": "name: Braise\n" + cook,
            "cooks/b.yaml": "name: Roast\n" + cook,
            "plates/few.yaml": PLATE.format("Few", "b", 200, 9, 10),
        },
    )
    found = ranked(weighings(costed))
    assert [each.weigh and costed.figures.identity(*_at(each)).owner for each in found] == [
        "cooks/a",
        "cooks/b",
    ]
    # As many of the same plate a month: 60 against 10 a week.
    assert found[0].worth / found[1].worth == pytest.approx(6.0, rel=0.15)


def _at(action: Action) -> tuple[str, int]:
    assert action.weigh is not None
    return action.weigh.node[0], action.weigh.row


AMOUNT = re.compile(r"\d[\d,]*(?:\.\d+)?")


def number(text: object) -> float:
    return float(AMOUNT.findall(str(text))[0].replace(",", ""))


@pytest.mark.parametrize("name", ["demo", "customary"])
def test_the_sum_on_the_first_page_is_that_of_its_rows_as_printed(name: str) -> None:
    view = view_of(KITCHENS[name])
    found = actions(view)
    printed: dict[str, list[float]] = {}
    for row in actions_table(view, found).rows:
        do, month, *_ = (str(cell.text) for cell in row.cells)
        if not do.startswith(("Weigh", "Order", "Fix")):
            # "Raise A to 9.00" and "Swap A for B" are about the guests of A.
            plate = re.sub(r"^(Raise|Swap) (.*?) (to|for) .*", r"\2", do)
            plate = re.sub(r"^(Drop|Sell more of) ", "", plate)
            printed.setdefault(plate, []).append(number(month))
    lead = home_page(view).answer
    if printed:
        rows, paying = (len(actions_table(view, found).rows), sum(map(len, printed.values())))
        said = re.match(r"(\d+) things to do(?:; (\d+) of them (?:is|are)|,) worth about", lead)
        assert said is not None
        assert [int(each) for each in said.groups() if each] == [rows, paying][
            : 1 + (rows > paying)
        ]
        worth = AMOUNT.findall(lead[said.end() :])[0]
        # Of what rules each other out the sum has the largest; "about" is three digits.
        assert number(worth) == float(f"{sum(map(max, printed.values())):.3g}")


def test_a_raise_says_how_many_guests_it_may_lose(tmp_path: Path) -> None:
    """Dear earns 5.00 at 7.00 and 6.00 at 8.00: five sixths of its guests earn as much.

    Break-even sales change, from memory of Nagle & Müller, The Strategy and Tactics of Pricing:
    a margin of 4.50 that becomes 4.00 needs 12.5 % more sales, so one of 4.00 that becomes 4.50
    may lose a ninth of them.
    """
    found = lost_sales_of_raise(np.array([[0.50], [5.0]]), np.array([[4.00], [-1.0]]))
    assert found[0, 0] == pytest.approx(1 / 9)
    assert np.isnan(found[1, 0])
    view = view_of(write(tmp_path, FILES))
    row = view.plate(view.costed.content.plates["dear"])
    assert row.number("reprice_lost_sales") == pytest.approx(1 / 6)
    page = text_of(html_of(home_page(view)))
    assert "now $7.00; food cost 28.6% against 25.0%; still pays if up to 16% fewer" in page


def test_lines_on_one_plate_rule_each_other_out(tmp_path: Path) -> None:
    """Large: 80 % food cost is raised from 10 to 32, 22 x 60 x 4; or swapped, 7.00 x 60 x 4."""
    plates = {
        "plates/large.yaml": PLATE.format("Large", "a", 800, 10, 60),
        "plates/small.yaml": PLATE.format("Small", "a", 100, 10, 60),
        "swaps/swap.yaml": "benchmark: large\nchallengers: [small]\n",
    }
    few = {f"plates/{name}.yaml": "" for name in ("cheap", "dear", "within", "few")}
    root = write(tmp_path, {**FILES, **plates, **few})
    for name in few:
        (root / name).unlink()
    view = view_of(root)
    page = text_of(html_of(home_page(view)))
    assert "2 things to do, worth about $5,280 a month if all of it works out." in page
    assert "Where several lines are about one plate (Large), the sum counts the largest" in page


def test_what_was_decided_is_no_longer_to_do() -> None:
    """Legs were decided on in June; ribeye against chuck is open."""
    found = [each.swap and each.swap.id for each in actions(view_of(KITCHENS["demo"]))]
    assert "chuck-for-ribeye" in found
    assert "duck-leg-for-breast" not in found


def test_what_brings_no_money_is_counted_as_something_to_do() -> None:
    view = view_of(KITCHENS["customary"])
    found = [action for action in actions(view) if action.kind == "weigh"][:1]
    assert found
    due = len(list(due_services(view.costed)))
    assert _answer(view, found, [])[0].startswith(f"{1 + due} thing")
    assert _answer(view, [], [])[0].startswith(f"{due} thing") == bool(due)


def test_the_first_page_counts_the_rows_that_it_lists() -> None:
    """Rows that bring no money, weighings say, are counted apart from those that do."""
    view = view_of(KITCHENS["demo"])
    all_of_them = actions(view)
    weigh = [each for each in all_of_them if each.kind == "weigh"]
    paying = [each for each in all_of_them if each.kind not in ("weigh", "fix")][:3]
    found = [*paying, *weigh[:2]]
    assert len(found) == 5
    listed = len(actions_table(view, found).rows)
    lead = _answer(view, found, [])[0]
    assert lead.startswith(f"{listed} things to do; {len(paying)} of them are worth about $")
    one = [*paying[:1], *weigh[:1]]
    listed = len(actions_table(view, one).rows)
    assert _answer(view, one, [])[0].startswith(f"{listed} things to do; 1 of them is worth about")


def test_a_weighing_says_what_its_next_test_narrows() -> None:
    view = view_of(KITCHENS["demo"])
    weigh = [action_row(view, each) for each in actions(view) if each.kind == "weigh"]
    assert weigh
    for row in weigh:
        money, sure, why = (str(cell.text) for cell in row.cells[1:])
        # An estimate: a share to whole per cent of a width that is known to two digits.
        assert len(re.sub(r"\D", "", money).strip("0")) <= 2, money
        share = sure.removesuffix(" narrower")
        assert re.fullmatch(
            r"one more test should narrow the margin of .*, "
            rf"now \S+ to \S+ a plate, by about {share}",
            why,
        )
