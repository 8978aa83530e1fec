"""Pages, search and data of set menus and covers: what is printed leads to its figure."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.build import compute_content
from builder.pages.components import Page, Table, walk
from builder.pages.data import data_files
from builder.pages.kitchen_page import kitchen_page
from builder.pages.menu import menu_page
from builder.pages.plates import plate_page
from builder.pages.search import search_records
from builder.pages.set_menus import set_menu_pages
from builder.pages.view import View
from tests.kitchens import TODAY, write
from tests.menus.kitchens import BASE
from tests.pages_data.kitchens import html_of, text_of


def view_of(root: Path, **files: str) -> View:
    named = {name.replace("__", "/") + ".yaml": text for name, text in files.items()}
    costed, problems = compute_content(write(root, {**BASE, **named}), None, TODAY)
    assert costed is not None, problems
    return View.of(costed, problems)


@pytest.fixture(scope="module")
def view(tmp_path_factory: pytest.TempPathFactory) -> View:
    return view_of(tmp_path_factory.mktemp("kitchen"))


def page_of(view: View, title: str) -> Page:
    return next(page for page in set_menu_pages(view) if page.title == title)


def words(page: Page) -> str:
    return text_of(html_of(page))


def table(page: Page, name: str) -> Table:
    return next(s for s in walk(page.sections) if isinstance(s, Table) and s.id == name)


def cells(found: Table) -> list[list[str]]:
    return [[str(cell.text) for cell in row.cells] for row in (*found.rows, *found.foot)]


def test_a_set_menu_leads_with_what_a_guest_leaves_and_holds_it_to_the_target(view: View) -> None:
    page = page_of(view, "Sunday")
    # 1.32 + 0.66 + 2.75 + 1.80 + 3.30 + 0.60 of 31.00 without tax.
    assert page.answer == (
        "A guest leaves $20.57 after $10.43 of food; food cost 33.6%, above the 30.0% aimed at."
    )
    text = words(page)
    assert "In equal parts, as the file does not say who takes which: Pie and Roast." in text
    assert "20.0% of the guests take none of it." in text


def test_what_a_guest_pays_is_one_amount_wherever_it_is_said(view: View) -> None:
    """One guest in five takes the starter for $5.00 more: the price alone is not what is paid."""
    page = page_of(view, "Sunday")
    paid = next(row for row in cells(table(page, "price-table")) if "pays on average" in row[0])[1]
    listed = next(p for p in set_menu_pages(view) if p.path == "set-menus.html")
    row = next(r for r in cells(table(listed, "list-of-set-menus")) if r[0] == "Sunday")
    facts = {term.term: term.text for term in page.aside}
    assert row[1] == paid != facts["Price a guest"]
    assert "A guest pays" not in facts


def test_every_amount_of_a_course_leads_to_its_figure_and_the_dearest_is_named(view: View) -> None:
    page = page_of(view, "Sunday")
    starter, main, cover, guest = cells(table(page, "courses"))
    assert starter[:3] == ["Starter", "80.0%", "$1.98"]
    assert "Soup" in starter[5]
    assert "Roast" in main[5]
    assert cover[2] == "$0.60"
    assert guest[2] == "$10.43"
    for name in ("courses", "course-1-plates", "course-2-plates", "price-table"):
        rows = table(page, name).rows
        assert all(cell.href for row in rows for cell in row.cells if cell.text.startswith("$"))
    # A supplement pays for the dearer starter: 3.30 less 5.00 without tax.
    assert [row[3] for row in cells(table(page, "course-1-plates"))] == ["$2.20", "−$1.70"]


def work_of(view: View) -> list[tuple[str, str]]:
    """The labour of Sunday's courses and of a guest, each with its note."""
    found = table(page_of(view, "Sunday"), "courses")
    column = [column.key for column in found.columns].index("work")
    every = [row.cells[column] for row in (*found.rows, *found.foot)]
    return [(str(cell.text), str(cell.note)) for cell in every if str(cell.text)]


def test_labour_of_a_course_that_nobody_states_is_not_nothing(tmp_path: Path) -> None:
    """The soup's 3 min are known and the salad's work is not; of the mains likewise."""
    part = "not known in full"
    # 60 % of 1.00; 50 % of 2.00; with 1.00 for the bread of the cover.
    assert work_of(view_of(tmp_path / "a")) == [("$0.60", part), ("$1.00", part), ("$2.60", part)]
    unpaid = BASE["kitchen.yaml"].replace("loaded wage: 20.00/h\n", "")
    nothing = [("not known", "")] * 3
    assert work_of(view_of(tmp_path / "b", kitchen=unpaid)) == nothing


def test_labour_of_the_cover_that_nobody_states_is_missing_from_the_guest_alone(
    tmp_path: Path,
) -> None:
    plates = {
        name.removesuffix(".yaml").replace("/", "__"): f"{text}hands-on: 3 min\n"
        for name, text in BASE.items()
        if name.startswith("plates/") and "hands-on" not in text
    }
    bread = BASE["pantry/bread.yaml"].replace("hands-on: 1 h\n", "")
    view = view_of(tmp_path, pantry__bread=bread, **plates)
    starter, main, guest = work_of(view)
    assert starter[1] == main[1] == ""
    assert guest[1] == "not known in full"


@pytest.mark.parametrize(
    ("tax", "said"),
    [
        ("tax: 10 %\n", " (with tax)"),
        ("tax: 10 %\nprices include tax: no\n", " (without tax)"),
        ("", ""),
    ],
)
def test_a_price_names_the_tax_where_a_rate_is_stated(tax: str, said: str, tmp_path: Path) -> None:
    kitchen = BASE["kitchen.yaml"].replace("tax: 10 %\n", tax)
    view = view_of(tmp_path, kitchen=kitchen)
    stew = plate_page(view, view.costed.content.plates["stew"])
    for page, label in ((stew, "Price on the menu"), (page_of(view, "Sunday"), "Price a guest")):
        assert cells(table(page, "price-table"))[0][0] == f"{label}{said}"


def test_allergens_are_those_that_any_choice_may_come_with(view: View) -> None:
    text = words(page_of(view, "Sunday"))
    assert "May come with gluten (wheat), eggs and milk." in text
    # The bread of the cover comes with the stew and the pie, not with the roast.
    assert "Every plate of the course" not in text
    assert "May contain sesame." in text
    combo = words(page_of(view, "Lunch"))
    assert "Contains eggs." in combo


def test_what_no_choice_avoids_is_said(tmp_path: Path) -> None:
    menu = BASE["menus/sunday.yaml"].replace("roast: equal", "")
    text = words(page_of(view_of(tmp_path, menus__sunday=menu), "Sunday"))
    assert "Every plate of the course main contains gluten (wheat) and milk." in text
    # What all mains contain is not said again as what a guest may come across.
    assert "contains gluten (wheat) and milk. May also come with eggs." in text
    assert "The other guests take Pie." in text


def test_lists_search_and_data_hold_every_menu(view: View) -> None:
    listed = next(iter(set_menu_pages(view)))
    assert [row[0] for row in cells(table(listed, "list-of-set-menus"))] == ["Lunch", "Sunday"]
    assert "1 of 2 set menus is above the 30.0% food cost aimed at." in listed.answer
    assert "Sunday" in words(menu_page(view))
    found = {title: (kind, path) for title, kind, path, _ in search_records(view)}
    assert found["Sunday"] == ("set menu", "menus/sunday.html")
    assert found["Lunch"] == ("combo", "menus/lunch.html")
    files = dict(data_files(view))
    menus = files["data/set_menus.csv"].decode()
    assert menus.splitlines()[0].startswith("id,name,as_of,guest_price,guests")
    assert len(menus.splitlines()) == 3
    assert "sunday/main/pie" in files["data/set_menu_plates.csv"].decode()
    assert "butter,butter,kg" in files["data/cover_items.csv"].decode()


def test_a_kitchen_without_set_menus_says_how_to_write_one(tmp_path: Path) -> None:
    files = {path: text for path, text in BASE.items() if not path.startswith("menus/")}
    costed, problems = compute_content(write(tmp_path, files), None, TODAY)
    assert costed is not None, problems
    [page] = set_menu_pages(View.of(costed, problems))
    assert "a file under menus/" in page.answer


def test_a_plate_shows_its_garnish_and_its_cover_and_one_without_shows_neither(view: View) -> None:
    plates = view.costed.content.plates
    pie = [row[0] for row in cells(table(plate_page(view, plates["pie"]), "cost-lines"))]
    assert pie[2:5] == [
        "Garnish that is not listed",
        "Seasoning allowance",
        "Cover: bread, condiments",
    ]
    soup = [row[0] for row in cells(table(plate_page(view, plates["soup"]), "cost-lines"))]
    assert "Garnish that is not listed" not in soup
    assert "Cover: bread, condiments" not in soup


def test_the_kitchen_s_page_shows_what_a_cover_costs_and_who_bears_it(view: View) -> None:
    page = kitchen_page(view)
    assert [row[3] for row in cells(table(page, "cover-items"))] == ["$0.40", "$0.20", "$0.60"]
    text = words(page)
    assert "It comes with the plates of mains." in text
    assert "Stew" in text
    assert "Roast" not in text.split("Plates that it comes with")[-1].split("Equipment")[0]


def test_a_plate_in_doubt_puts_its_menu_in_doubt(tmp_path: Path) -> None:
    found = view_of(tmp_path, pantry__leek="price: 0.00/each\nallergens: none\n")
    page = page_of(found, "Sunday")
    assert page.answer.startswith("The cost of Sunday is in doubt: the food on Soup costs nothing")
    assert "in doubt" in words(page)


def test_what_a_plate_takes_nothing_of_is_not_held(tmp_path: Path) -> None:
    """Bread and butter come with mains only; a pie writes a seasoning of its own."""
    kitchen = f"{BASE['kitchen.yaml']}give or take: {{loaded wage: 5 %}}\n"
    view = view_of(tmp_path, kitchen=kitchen)

    def held(path: str) -> str:
        plate = view.costed.content.plates[path]
        return words(plate_page(view, plate)).partition("Held at what is written")[2]

    soup, stew, pie, roast = map(held, ("soup", "stew", "pie", "roast"))
    assert "the price of Leek " in soup
    assert "the prices of Beef, Butter and Flour " in stew
    assert "the price of Beef " in roast
    assert ["the amounts of the cover" in each for each in (soup, stew, roast)] == [0, 1, 0]
    assert ["the seasoning allowance" in each for each in (stew, pie)] == [1, 0]


def test_a_cover_in_money_is_held_only_where_it_is_borne(tmp_path: Path) -> None:
    money = "cover cost: {money: 0.60, on: [mains]}\ngive or take: {loaded wage: 5 %}\n"
    kitchen = BASE["kitchen.yaml"].partition("cover cost")[0] + money
    view = view_of(tmp_path, kitchen=kitchen)
    found = [
        "the cover cost" in words(plate_page(view, view.costed.content.plates[name]))
        for name in ("soup", "stew")
    ]
    assert found == [False, True]


def test_a_set_menu_that_is_dearer_than_its_plates_says_so(tmp_path: Path) -> None:
    """Lunch's plates are 24.20 on their own."""
    dear = {"menus__lunch": "price: 27.00\nplates: [soup, salad]\n"}
    said = "below zero: a guest pays more than for the plates on their own"
    assert said in words(page_of(view_of(tmp_path / "dear", **dear), "Lunch"))
    assert said not in words(page_of(view_of(tmp_path / "cheap"), "Lunch"))
