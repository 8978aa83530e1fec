"""Sections, orders, limits and the kitchen as data: summed again, and put back where they act."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Callable, Sequence
from html import unescape

import pytest
import yaml

from builder.engine.figures import Figures
from builder.pages.components import Cell, Table
from builder.pages.menu import menu_page
from builder.pages.swap_limits import limits
from builder.pages.view import View
from builder.records.chains import Phase
from tests.kitchens.small import SMALL
from tests.moving import with_row
from tests.pages_data.kitchens import view_of
from tests.pages_data.opened import Rows, demo_view, number, table_of
from tests.site.sites import DEMO

CLASSES = {
    (True, True): "sells and earns",
    (True, False): "sells, earns little",
    (False, True): "earns, sells little",
    (False, False): "neither",
}


def sums(plates: Rows, figure: str) -> float:
    """What was sold of some plates, times a figure of each."""
    counted = [(number(plate["sold"]), number(plate[figure])) for plate in plates]
    return math.fsum(sold * value for sold, value in counted if not math.isnan(sold * value))


def test_sections_are_the_sums_of_their_plates() -> None:
    plates, sections = table_of(demo_view(), "plates"), table_of(demo_view(), "menu_sections")
    assert {plate["menu"] for plate in plates} == {section["id"] for section in sections}
    for section in sections:
        own = [plate for plate in plates if plate["menu"] == section["id"]]
        sold = math.fsum(number(plate["sold"]) for plate in own if plate["sold"])
        sales, food, margin = (
            sums(own, name) for name in ("price_ex_tax", "food_cost", "contribution_margin")
        )
        expected = {
            "plates": len(own),
            "items": sum(bool(plate["sold"]) for plate in own),
            "section_sold": sold,
            "section_sales": sales,
            "section_food": food,
            "section_margin": margin,
            "section_food_share": food / sales,
            "dividing_margin": margin / sold,
            "dividing_mix": 0.7 / sum(bool(plate["sold"]) for plate in own),
        }
        assert {name: number(section[name]) for name in expected} == pytest.approx(expected)


def class_by_hand(plate: dict[str, str], own: Rows) -> str:
    """Popular above 70 % of an even share; earning above the mean of all that was sold."""
    counted = [other for other in own if other["sold"]]
    sold = sum(number(other["sold"]) for other in counted)
    if not plate["sold"] or sold == number(plate["sold"]):
        return ""
    mean = sums(counted, "contribution_margin") / sold
    cents = (math.floor(100 * x + 0.5) for x in (number(plate["contribution_margin"]), mean))
    margin, line = cents
    return CLASSES[number(plate["sold"]) / sold > 0.7 / len(counted), margin > line]


def test_classes_are_those_of_the_counts_and_sections_count_them() -> None:
    plates = table_of(demo_view(), "plates")
    columns = ("plates_both", "plates_selling", "plates_earning", "plates_neither")
    for section in table_of(demo_view(), "menu_sections"):
        own = [plate for plate in plates if plate["menu"] == section["id"]]
        found = [plate["menu_class"] for plate in own]
        assert found == [class_by_hand(plate, own) for plate in own]
        counts = [number(section[column]) for column in columns]
        assert counts == [Counter(found)[words] for words in CLASSES.values()]
    assert len({plate["menu_class"] for plate in plates}) >= 4


def test_a_plate_without_a_count_has_no_class_and_is_counted_in_none() -> None:
    view = view_of({
        "kitchen.yaml": "name: Small\ncurrency: CAD\n",
        "pantry/oats.yaml": "price: 2/kg\n",
        **{
            f"plates/{name}.yaml": f"menu: lunch\nwith: {{oats: 100 g}}\nprice: {price}\n{sold}"
            for name, price, sold in (
                ("gruel", 5, "sold: {2026-09: 10}\n"),
                ("porridge", 9, "sold: {2026-09: 90}\n"),
                ("new-porridge", 9, ""),
            )
        },
    })  # fmt: skip
    classes = {plate["id"]: plate["menu_class"] for plate in table_of(view, "plates")}
    # 90 of 100 is above 0.7 / 2, 10 is not; the mean margin lies between the two.
    assert classes == {"gruel": "neither", "porridge": "sells and earns", "new-porridge": ""}
    (section,) = table_of(view, "menu_sections")
    assert (section["plates"], section["items"]) == ("3.0", "2.0")
    assert (section["plates_both"], section["plates_neither"]) == ("1.0", "1.0")
    assert (section["plates_selling"], section["plates_earning"]) == ("0.0", "0.0")


def test_the_menu_page_says_the_same_class() -> None:
    view = demo_view()
    [table] = [found for found in menu_page(view).sections if isinstance(found, Table)]
    place = [column.key for column in table.columns].index("class")
    shown = {row.cells[0].text: row.cells[place].sort for row in table.rows}
    assert shown == {plate["name"]: plate["menu_class"] for plate in table_of(view, "plates")}


def test_the_kitchen_is_its_file_and_the_sum_of_its_sections() -> None:
    (kitchen,) = table_of(demo_view(), "kitchen")
    written = yaml.safe_load((DEMO / "kitchen.yaml").read_text(encoding="utf-8"))
    texts = {"name": "name", "currency": "currency", "locale": "locale", "units": "units",
             "time_zone": "time zone", "rule_set": "authority"}  # fmt: skip
    assert {column: kitchen[column] for column in texts} == {
        column: written[key] for column, key in texts.items()
    }
    numbers = {"loaded_wage": "loaded wage", "electricity_price": "energy", "gas_price": "gas",
               "room": "room", "fill_water": "fill water"}  # fmt: skip
    for column, key in numbers.items():
        assert number(kitchen[column]) == float(written[key].split("/")[0].split(" ")[0])
    assert number(kitchen["tax_rate"]) == float(written["tax"].split()[0]) / 100
    assert number(kitchen["weeks_open"]) == written["weeks open"]
    sections = table_of(demo_view(), "menu_sections")
    for name in ("sold", "sales", "food", "margin"):
        whole = math.fsum(number(section[f"section_{name}"]) for section in sections)
        assert number(kitchen[f"menu_{name}"]) == pytest.approx(whole)
    assert {section["month"] for section in sections} == {kitchen["month"]} == {"2026-09"}


def test_a_kitchen_that_states_little_has_empty_cells() -> None:
    view = view_of({"kitchen.yaml": "name: Small\ncurrency: CAD\n"})
    (kitchen,) = table_of(view, "kitchen")
    unknown = ("loaded_wage", "gas_price", "room", "time_zone", "rule_set", "month")
    assert [kitchen[name] for name in unknown] == [""] * len(unknown)
    assert table_of(view, "menu_sections") == table_of(view, "orders") == []


def test_orders_by_hand() -> None:
    """A piece of 1 kg leaves 750 g, five portions of 150 g; 800 g are left of a kilogram bought.

    By weight 21 portions take 21 x 0.15 / (0.8 x 0.75) = 5.25 kg; in whole pieces 5, which
    are 5 kg trimmed and 6.25 kg bought.
    """
    view = view_of({
        "kitchen.yaml": "name: Small\ncurrency: CAD\ncovers: [20, 21]\n",
        "cuts/neck.yaml": "species: lamb\nprice: 9/kg\ntrim: {loss: 20 %}\n",
        "cooks/neck.yaml": "cut: neck\nhow: oven\nload: 4 kg\npiece: {weight: 1 kg}\nloss: 25 %\n",
        "plates/neck.yaml": "menu: mains\ncook: neck\nportion: 150 g\nprice: 20\n",
        "pantry/oats.yaml": "price: 2/kg\n",
        "plates/oats.yaml": "menu: mains\nwith: {oats: 50 g}\nprice: 4\n",
    })  # fmt: skip
    columns = ("covers", "quantity_to_buy", "pieces_to_cook", "quantity_to_buy_whole")
    orders = table_of(view, "orders")
    assert [(order["id"], order["plate"]) for order in orders] == [
        ("neck/1", "neck"), ("neck/2", "neck"),
    ]  # fmt: skip
    assert [[number(order[column]) for column in columns] for order in orders] == [
        pytest.approx([20, 5.0, 4, 5.0]), pytest.approx([21, 5.25, 5, 6.25]),
    ]  # fmt: skip


# Limits


def moved_to(view: View, line: dict[str, str], by: float = 1.0) -> Figures:
    """The kitchen with one input of a swap at its limit, or at a multiple of it."""
    figures, rows = view.costed.figures, view.costed.rows
    plate_id = line["id"].split("/")[1]
    plate = view.costed.content.plates[plate_id]
    limit = number(line["limit"]) * by
    match line["input"]:
        case "Loaded wage":
            return with_row(figures, ("kitchen", "loaded_wage"), 0, [limit])
        case name if name.startswith("AP price of "):
            cut = view.costed.content.cooks[str(plate.cook)].cut
            return with_row(figures, ("cut", "ap_price"), rows.cuts[cut], [limit])
        case name if name.startswith("Cook loss"):
            steps = rows.steps[str(plate.cook)]
            step = next(row for link, row in steps if link.phase is Phase.COOK)
            stage = figures.linked("step", "stage", step)
            return with_row(figures, ("stage", "assumed_yield"), stage, [1 - limit])
    raise AssertionError(line["input"])


def saved(figures: Figures, view: View, line: dict[str, str]) -> float:
    """What a swap saves a plate, on the basis of a limit."""
    swap, challenger, _ = line["id"].split("/")
    figure = "saving_beside_loss" if line["basis"] == "by weight" else "saving"
    return figures.value("swap", figure, view.costed.rows.swaps[swap, challenger])


KITCHENS: dict[str, Callable[[], View]] = {"demo": demo_view, "small": lambda: view_of(SMALL)}


@pytest.mark.parametrize("kitchen", KITCHENS)
def test_a_limit_put_back_leaves_no_saving_and_saves_on_the_side_that_is_reported(
    kitchen: str,
) -> None:
    view, tried = KITCHENS[kitchen](), Counter[str]()
    for line in table_of(view, "swap_limits"):
        if not line["limit"]:
            assert line["saves"] == ""
            continue
        at = saved(moved_to(view, line), view, line)
        if line["basis"] == "by whole portions":
            assert line["saves"] == "below"
            assert at > -1e-9  # a step of the staircase may end above nothing
        else:
            assert at == pytest.approx(0, abs=1e-9)
        inside, outside = (0.999, 1.001) if line["saves"] == "below" else (1.001, 0.999)
        assert saved(moved_to(view, line, outside), view, line) < 0
        if line["basis"] != "by whole portions":
            assert saved(moved_to(view, line, inside), view, line) > 0
        # Of a challenger of several cuts a limit names the one that it moves.
        moved = re.sub(r"^(AP price|Cook loss) of .*?(?= by |$)", r"\1", line["input"])
        tried[f"{moved} {line['basis']}".strip()] += 1
    assert len(tried) == 4 and min(tried.values()) >= 1


def words_of(note: str) -> str:
    return unescape(re.sub("<[^>]+>", "", note))


def _unpaid(cells: Sequence[Cell]) -> bool:
    return words_of(cells[-1].note).endswith("today's wage")


@pytest.mark.parametrize("kitchen", KITCHENS)
def test_limits_are_the_lines_of_the_page_and_the_columns_of_the_swaps(kitchen: str) -> None:
    view = KITCHENS[kitchen]()
    lines, swaps = table_of(view, "swap_limits"), table_of(view, "swaps")
    by_swap, seen = {swap["id"]: swap for swap in swaps}, Counter[str]()
    for swap, challenger in view.costed.rows.swaps:
        plate = view.costed.content.plates[challenger]
        row = view.swap(view.costed.content.swaps[swap], challenger)
        cells_of = [line.cells for line in limits(view, plate, row, "").rows]
        page = [
            # Of which plates a loss is, the page alone says beside its basis.
            (
                cells[0].text.removesuffix(" on both plates"),
                cells[1].sort,
                cells[-1].sort,
            )
            for cells in cells_of
        ]
        found = [line for line in lines if line["swap"] == f"{swap}/{challenger}"]
        for cells, line in zip(cells_of, found, strict=True):
            # With the limit where the margins' limit has words of its own, before the interval.
            note = words_of(cells[0].note or cells[-1].note)
            assert note.startswith(line["words"].removeprefix("'"))
        assert page == [
            (
                ", ".join(filter(None, (line["input"], line["basis"]))),
                float(line["now"]) if line["now"] else None,
                # A wage that nobody pays is a number in the data, a dash on the page.
                float(line["limit"]) if line["limit"] and not _unpaid(cells) else None,
            )
            for line, cells in zip(found, cells_of, strict=True)
        ]
        for line in found:
            column = line["id"].rpartition("/")[2]
            equal = column.replace("break_even", "equal_margin")
            for end in ("", "_low", "_high"):
                assert line[f"limit{end}"] == by_swap[line["swap"]][f"{column}{end}"]
                assert line[f"equal_margin{end}"] in {by_swap[line["swap"]][f"{equal}{end}"], ""}
                seen[f"equal_margin{end}"] += line[f"equal_margin{end}"] != ""
            money = not line["input"].startswith("Cook loss")
            assert line["unit"].startswith("CAD/") if money else line["unit"] == "share of 1"
    assert kitchen != "demo" or all(seen[f"equal_margin{end}"] for end in ("", "_low", "_high"))


def test_an_input_is_quoted_as_it_is_written() -> None:
    lines = {line["id"]: line["written"] for line in table_of(demo_view(), "swap_limits")}
    swap = "duck-leg-for-breast/duck-leg-plate"
    assert lines[f"{swap}/break_even_ap_price"] == "4.70/each"
    assert lines[f"{swap}/break_even_wage"] == "24.50/h"
    assert lines[f"{swap}/break_even_cook_loss"] == ""
