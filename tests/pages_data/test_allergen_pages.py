"""Plates by allergens on pages and paper: every mark against the files, one sheet, no colour."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from playwright.sync_api import Browser

from builder.pages.allergen_matrix import MARKS, SHEET, allergen_pages
from builder.pages.allergens import sentences
from builder.pages.components import Form, FormGrid, Page
from builder.pages.plates import plate_page
from builder.pages.rendering import assets, render
from builder.pages.search import search_records
from builder.pages.swaps import swap_pages
from builder.pages.view import View
from builder.records.contained import contained
from tests.kitchens.small import SMALL
from tests.pages_data.kitchens import SITE, by_path, html_of, text_of, view_of
from tests.pages_data.opened import demo_view, table_of
from tests.site.opened import sheets_of
from tests.site.sites import DEMO


def text(page: Page) -> str:
    return re.sub(r"\s+", " ", text_of(html_of(page)))


def raw(path: str) -> dict[str, object]:
    """A demo file as any reader of YAML takes it."""
    found: dict[str, object] = yaml.load((DEMO / path).read_text("utf-8"), Loader=yaml.BaseLoader)
    return found


def stated(item: str) -> Iterator[object]:
    """What the files state of a pantry item and all below it: lists, none, or None for nothing."""
    found = raw(f"pantry/{item}.yaml")
    if "of" not in found or "allergens" in found:
        yield found.get("allergens")
    for below in found.get("of", {}):  # type: ignore[attr-defined]
        yield from stated(below)


def cuts_of(plate: str) -> Iterator[object]:
    """The cuts of all portions of a demo plate."""
    found = raw(f"plates/{plate}.yaml")
    portions: list[dict[str, object]] = found.get("portions", [found])  # type: ignore[assignment]
    for portion in portions:
        if "cook" in portion:
            yield raw(f"cooks/{portion['cook']}.yaml")["cut"]
        elif "cut" in portion:
            yield portion["cut"]


def cover_of(plate: str) -> Iterator[str]:
    """The items that come with a demo plate as every cover gets them."""
    cover: Any = raw("kitchen.yaml")["cover cost"]
    found = raw(f"plates/{plate}.yaml")
    if found["menu"] in cover["on"] and "cover cost" not in found:
        yield from cover["of"]


# Words of the demo that are kinds: of wheat and rye Annex II, item 1; of hazelnuts item 8.
WHOLE = {"wheat": "gluten", "rye": "gluten", "hazelnuts": "tree nuts", "anchovies": "fish"}


def test_every_mark_is_what_the_files_say() -> None:
    """The demo's YAML is read here by another reader and walked by calls."""
    rows = {
        (row["plate"], row["allergen"]): row["state"]
        for row in table_of(demo_view(), "plate_allergens")
    }
    plates = sorted(path.stem for path in (DEMO / "plates").glob("*.yaml"))
    assert len(rows) == len(plates) * 15
    for plate in plates:
        items = [*raw(f"plates/{plate}.yaml").get("with", {}), *cover_of(plate)]  # type: ignore[misc]
        said = [each for item in items for each in stated(item)]
        said += [raw(f"cuts/{cut}.yaml").get("allergens") for cut in cuts_of(plate)]
        inside = {WHOLE.get(word, word) for each in said if isinstance(each, list) for word in each}
        for (of, allergen), state in rows.items():
            if of == plate:
                assert (state == "contains") == (allergen in inside), (plate, allergen)
                assert (None in said) == (state == "not stated") or state in {
                    "contains",
                    "may contain",
                }


def test_the_sheet_says_what_the_table_says() -> None:
    (form,) = _forms(demo_view())
    (grid,) = (block for block in form.blocks if isinstance(block, FormGrid))
    names = [str(column.label).lower() for column in grid.columns[1:-1]]
    titles = {plate.title: plate.id for plate in demo_view().costed.content.plates.values()}
    words = {"no part states it": ""} | {state: state for state in MARKS}
    for row in table_of(demo_view(), "plate_allergens"):
        (cells,) = (r.cells for r in grid.rows if titles[str(r.cells[0].text)] == row["plate"])
        mark = str(cells[1 + names.index(row["allergen"])].text)
        assert mark == MARKS[words[row["state"]]]  # type: ignore[index]
    assert len(set(MARKS.values())) == 4


def _forms(view: View) -> list[Form]:
    page = by_path(allergen_pages(view))[SHEET]
    return [section for section in page.sections if isinstance(section, Form)]


MANY = {
    **SMALL,
    **{
        f"plates/plate-{n:03}.yaml": f"name: Slow chuck, bone sauce, mash and greens, number {n}\n"
        "menu: mains\ncook: chuck-30h\nportion: 180 g\nprice: 27.00\n"
        for n in range(90)
    },
}


@pytest.mark.browser
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("kitchen", ["demo", "many"])
def test_a_sheet_takes_one_page(browser: Browser, tmp_path: Path, kitchen: str, paper: str) -> None:
    view = demo_view() if kitchen == "demo" else view_of(MANY)
    files = assets()
    found = [page for page in allergen_pages(view) if page.sheet]
    for path, data in files.items():
        (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / path).write_bytes(data)
    (tmp_path / "forms").mkdir(exist_ok=True)
    tab = browser.new_page()
    for page in found:
        (tmp_path / page.path).write_bytes(render(page, SITE))
        tab.goto((tmp_path / page.path).as_uri())
        printed = tab.pdf(format=paper)
        forms = sum(isinstance(section, Form) for section in page.sections)
        assert sheets_of(printed) == forms
        # Every sheet repeats the headings.
        assert tab.locator("thead").count() == forms
        assert (forms == 1) == (kitchen == "demo" and page.path == SHEET)
    tab.close()


def test_a_plate_says_what_is_not_stated() -> None:
    view = demo_view()
    page = text(plate_page(view, view.costed.content.plates["brisket-plate"]))
    assert "Contains gluten (rye and wheat), eggs, milk, celery, mustard and sulphites." in page
    assert "No allergens are stated for White beans, dried" in page


def test_none_is_said_only_where_every_part_is_stated() -> None:
    page = "Every part states its allergens, and none is named."
    for files, said in ((SMALL, False), (_all_stated(), True)):
        view = view_of(files)
        plate = view.costed.content.plates["ribeye-steak"]
        assert (page in text(plate_page(view, plate))) == said


def _all_stated() -> dict[str, str]:
    """The small kitchen with none under everything that is bought."""
    return {
        path: body + ("allergens: none\n" if _is_bought(path, body) else "")
        for path, body in SMALL.items()
    }


def _is_bought(path: str, body: str) -> bool:
    return path.startswith("cuts/") or (path.startswith("pantry/") and "of:" not in body)


SWAP = "swaps/chuck-for-ribeye.html"


def test_a_swap_says_what_is_gained_and_lost() -> None:
    files = _all_stated()
    steak, chuck = (f"plates/{name}.yaml" for name in ("ribeye-steak", "chuck-steak"))
    files[steak] += "allergens: [mustard, milk]\n"
    files[chuck] += "allergens: [celery, milk]\nmay contain: [sesame]\n"
    page = text(by_path(swap_pages(view_of(files)))[SWAP])
    titles = view_of(files).costed.content.plates
    new, old = titles["chuck-steak"].title, titles["ribeye-steak"].title
    assert f"New with {new}: celery. Gone with {new}: the mustard of {old}." in page
    assert "Gained celery Gone mustard In both milk May contain, not before sesame" in page
    files["cuts/chuck.yaml"] = SMALL["cuts/chuck.yaml"]
    page = text(by_path(swap_pages(view_of(files)))[SWAP])
    assert "as far as it is stated" in page
    assert "find out before it goes on the menu" in page


def test_search_finds_plates_by_allergen() -> None:
    found = {path: words for _, kind, path, words in search_records(demo_view()) if kind == "plate"}
    assert "hazelnuts" in found["plates/duck-leg-salad.html"]
    assert "tree nuts" in found["plates/duck-leg-salad.html"]
    assert "soy" not in found["plates/side-mash.html"].split()


def test_a_default_list_is_said_to_be_one() -> None:
    pages = by_path(allergen_pages(view_of(SMALL)))
    assert "kitchen.yaml names no list" in text(pages["allergens.html"])
    assert "kitchen.yaml names no list" not in text(
        by_path(allergen_pages(demo_view()))["allergens.html"]
    )


WORDS = {
    "[wheat, milk]": ("wheat (gluten) and milk", "gluten (wheat) and milk"),
    "[spelt]": ("wheat (gluten)", "gluten (wheat)"),
    "[rye, wheat]": ("gluten (rye) and wheat (gluten)", "gluten (rye and wheat)"),
    "[barley]": ("gluten (barley)", "gluten (barley)"),
    "[gluten]": ("gluten", "gluten"),
}


@pytest.mark.parametrize("stated", WORDS)
@pytest.mark.parametrize(("locale", "law"), [("en_US", 0), ("en_GB", 1)])
def test_an_allergen_leads_as_the_list_names_it_and_keeps_both_words(
    locale: str, law: int, stated: str
) -> None:
    """A law that lists wheat itself and one that lists gluten: the other word is never missing."""
    files = {
        **SMALL,
        "kitchen.yaml": f"{SMALL['kitchen.yaml']}\nlocale: {locale}\n",
        "pantry/rolls.yaml": f"name: Rolls\nprice: 5.00/kg\nallergens: {stated}\n",
        "pantry/oil.yaml": f"price: 5.00/L\nmay contain: {stated}\n",
    }
    content = view_of(files).costed.content
    words = WORDS[stated][law]
    assert next(sentences(contained(content, content.pantry["rolls"]))) == f"Contains {words}."
    assert next(sentences(contained(content, content.pantry["oil"]))) == f"May contain {words}."
