"""Pages, sheets and tables of data of what services order."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from builder.build import compute_content
from builder.language import written_in
from builder.pages.components import Form, FormGrid, Page, Table, walk
from builder.pages.cuts import cut_page
from builder.pages.data import data_files
from builder.pages.order_sheets import order_page
from builder.pages.pantry import item_page
from builder.pages.schedule import schedule_pages
from builder.pages.service_orders import keeping_words
from builder.pages.view import View
from tests.kitchens import TODAY, write
from tests.ordering.kitchens import BASE
from tests.ordering.test_orders import SINGLY
from tests.pages_data.kitchens import html_of, text_of

MONDAY = "day: monday\nat: 12:00\nplates: {pie: 2}\n"


def view_of(root: Path, **services: str) -> View:
    named = {f"services/{name}.yaml": text for name, text in services.items()}
    costed, problems = compute_content(write(root, {**BASE, **named}), None, TODAY)
    assert costed is not None, problems
    return View.of(costed, problems)


@pytest.fixture(scope="module")
def view(tmp_path_factory: pytest.TempPathFactory) -> View:
    return view_of(tmp_path_factory.mktemp("kitchen"))


def service_page(view: View, title: str = "Friday") -> Page:
    return next(page for page in schedule_pages(view) if page.title == title)


def words(page: Page) -> str:
    return text_of(html_of(page))


def cells(page: Page, name: str) -> list[list[str]]:
    found = next(s for s in walk(page.sections) if isinstance(s, Table) and s.id == name)
    return [[str(cell.text).replace("\xa0", " ") for cell in row.cells] for row in found.rows]


def test_the_page_of_a_service_says_what_to_order_and_what_is_left_over(view: View) -> None:
    page = service_page(view)
    rows = {row[0]: row[1:-1] for row in cells(page, "order-lines")}
    assert rows == {
        "Carrot": ["–", "$7.20", "At least 3.00 kg", "3.60 kg", "3.60 kg", "–", "–"],
        "Cream": ["1", "$30.00", "Crate of 6.00 L", "6.00 L", "3.60 L", "2.40 L", "$4.50"],
        "Flour": [
            "4", "$20.00", "Steps of 5.00 kg, at least 20.00 kg", "20.00 kg", "5.28 kg",
            "14.72 kg", "–",
        ],
        "Oyster": ["3", "$144.00", "Case of 24", "7.20 kg", "6.00 kg", "1.20 kg", "–"],
        "Shoulder": [
            "7", "$168.00", "Piece of about 2.00 kg", "14.00 kg", "12.80 kg", "1.20 kg", "–",
        ],
    }  # fmt: skip
    assert cells(page, "order-made") == [["Bread", "4.00 kg"]]
    text = words(page)
    assert "A piece costs what it weighs" in text
    assert "Deposits come back with the empties and are in no cost of a plate." in text
    assert "To pay today $373.70" in text


def test_what_does_not_keep_until_a_service_uses_it_is_said(view: View, tmp_path: Path) -> None:
    """Cream keeps 3 d; Friday 18:00 to Monday noon is 66 h, to the next Friday 7 d."""
    cream = view.costed.content.pantry["cream"]
    assert keeping_words(view, view.costed.services["friday"], cream) == (
        "keeps 3 days; no service uses it for 7 days"
    )
    assert "keeps 3 days; no service uses it for 7 days" in words(service_page(view))
    soon = view_of(tmp_path, monday=MONDAY)
    plans = soon.costed.services
    assert keeping_words(soon, plans["friday"], soon.costed.content.pantry["cream"]) == ""
    assert keeping_words(soon, plans["monday"], soon.costed.content.pantry["cream"]) != ""


def test_the_page_of_an_item_says_how_it_is_sold_and_what_services_order(view: View) -> None:
    cream = words(item_page(view, view.costed.content.pantry["cream"]))
    assert "Sold as Crate of 6.00 L" in cream
    assert "Deposit $4.50 a crate, comes back" in cream
    assert "What services order" in cream
    shoulder = cut_page(view, view.costed.content.cuts["shoulder"])
    assert cells(shoulder, "ordered") == [["Friday", "12.80 kg", "7", "14.00 kg", "1.20 kg"]]


def test_the_sheet_to_print_has_every_line_and_the_money_of_today(view: View) -> None:
    text = words(order_page(view, view.costed.services["friday"]))
    for line in ("1 × crate of 6.00 L", "7 × piece of about 2.00 kg", "4 × 5.00 kg"):
        assert line in text
    assert "The goods cost $369.20, deposits $4.50: $373.70 to pay today." in text


def test_a_long_order_goes_on_on_a_second_sheet_below_its_supplier(tmp_path: Path) -> None:
    """As many lines as a sheet holds, all of one supplier, and one more."""
    spices = {f"pantry/spice-{n}.yaml": "price: 8.00/kg\nsupplier: Long List\n" for n in range(40)}
    parts = ", ".join(f"spice-{n}: 10 g" for n in range(40))
    pie = BASE["plates/pie.yaml"].replace("with: {", f"with: {{{parts}, ")
    files = {**BASE, **spices, "plates/pie.yaml": pie}
    costed, problems = compute_content(write(tmp_path, files), None, TODAY)
    assert costed is not None, problems
    found = View.of(costed, problems)
    page = order_page(found, found.costed.services["friday"])
    forms = [form for form in page.sections if isinstance(form, Form)]
    grids = [block for form in forms for block in form.blocks if isinstance(block, FormGrid)]
    assert [len(grid.rows) <= 38 for grid in grids] == [True, True]
    assert [grid.rows[0].kind for grid in grids] == ["group", "group"]
    named = [[str(row.cells[0].text) for row in grid.rows if row.kind == "group"] for grid in grids]
    assert "Long List" in named[0]
    assert named[1][0] in named[0]
    lines = [row for grid in grids for row in grid.rows if row.kind != "group"]
    assert len(lines) == 45


def test_the_tables_of_data_hold_orders_lines_and_sub_recipes(view: View) -> None:
    files = dict(data_files(view))

    def rows(name: str) -> list[dict[str, str]]:
        return list(csv.DictReader(io.StringIO(files[f"data/{name}.csv"].decode())))

    [order] = rows("service_orders")
    assert order["id"] == "friday"
    assert float(order["paid_today"]) == pytest.approx(373.70)
    lines = {row["id"]: row for row in rows("order_lines")}
    assert set(lines) == {
        f"friday/{path}"
        for path in (
            "cuts/shoulder", "cuts/oyster", "pantry/cream", "pantry/flour", "pantry/carrot",
        )
    }  # fmt: skip
    cream = lines["friday/pantry/cream"]
    assert (cream["counted_in"], cream["sold_as"]) == ("L", "crate of 6 x 1 L")
    assert float(cream["left_over"]) == pytest.approx(2.4)
    [bread] = rows("service_recipes")
    assert bread["item"] == "bread"
    assert float(bread["amount_made"]) == pytest.approx(4.0)
    assert {row["id"]: row["deposit"] for row in rows("pantry")}["cream"] == "4.5"


def test_page_and_sheet_order_whole_pieces_of_what_is_priced_each(tmp_path: Path) -> None:
    costed, problems = compute_content(write(tmp_path, {**BASE, **SINGLY}), None, TODAY)
    assert costed is not None, problems
    found = View.of(costed, problems)
    rows = {row[0]: row[1:7] for row in cells(service_page(found), "order-lines")}
    assert rows["Scallop"] == ["49", "$102.90", "By the piece", "1.47 kg", "1.46 kg", "14 g"]
    assert [rows["Lemon"][n] for n in (0, 2, 3)] == ["7", "By the piece", "7 pieces"]
    sheet = words(order_page(found, found.costed.services["friday"]))
    assert "49 pieces" in sheet and "7 pieces" in sheet
    with written_in("fr"):
        assert "49 pièces" in words(order_page(found, found.costed.services["friday"]))
