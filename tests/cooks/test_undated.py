"""A service's sheets have what its files say has to be done, with a start or without one."""

from __future__ import annotations

from pathlib import Path

from builder.costing.costed import Costed
from builder.pages.components import Form, FormGrid, FormTicks
from builder.pages.day_sheets import day_pages
from builder.pages.log_sheets import prep_page
from builder.pages.schedule import schedule_pages, starts_table
from builder.pages.view import View
from tests.kitchens import costed_from, write
from tests.pages_data.kitchens import html_of, text_of

# 40 covers of 150 g at 80 %, then 97 % and 98.5 %: 7.85 kg raw. 40 x 60 ml: 2.4 L, of which 0.4 L
# are at hand; 2 L take half of what 4 L of stock do.
FILES = {
    "kitchen.yaml": "name: Invented kitchen\ncurrency: CAD\n",
    "cuts/flank.yaml": "species: beef\nprice: 12.00/kg\nallergens: none\n",
    "cooks/flank-pan.yaml": (
        "cut: flank\nhow: pan\nfor: 10 min\nhands on: 15 min\nload: 10 kg\nyield: 80 %\n"
        "cure: {how: salted, loss: 0 %}\n"
        "finish: {how: glazed, loss: 3 %}\nrest: {for: 5 min}\ncarve: {loss: 1.5 %}\n"
    ),
    "pantry/bones.yaml": "price: 2.00/kg\nallergens: none\n",
    "pantry/bone-stock.yaml": "of: {bones: 4 kg}\nmakes: 4 L\nlitre: 1 kg\nallergens: none\n",
    "pantry/bone-sauce.yaml": ("of: {bone-stock: 4 L}\nmakes: 4 L\nlitre: 1 kg\nallergens: none\n"),
    "pantry/mash.yaml": "of: {bones: 1 kg}\nmakes: 1 kg\nallergens: none\n",
    "plates/flank.yaml": (
        "menu: mains\ncook: flank-pan\nportion: 150 g\nprice: 30.00\n"
        "with: {bone-sauce: 60 ml, mash: 100 g}\n"
    ),
    "services/friday.yaml": (
        "day: friday\nat: 18:00\nplates: {flank: 40}\non hand: {bone-sauce: 0.4 L, mash: 4 kg}\n"
    ),
}


def costed(root: Path, **changed: str) -> Costed:
    files = {**FILES, **{name.replace("__", "/") + ".yaml": text for name, text in changed.items()}}
    return costed_from(write(root, files))


def sheets_of(sheets: Costed) -> list[list[Form]]:
    """The prep sheet and the day's sheet."""
    view, plan = View.of(sheets, []), sheets.services["friday"]
    pages = [prep_page(view, plan)], day_pages(view)
    return [[f for page in each for f in page.sections if isinstance(f, Form)] for each in pages]


def ticked(forms: list[Form]) -> list[str]:
    """What is to be done at no given start."""
    ticks = [b for form in forms for b in form.blocks if isinstance(b, FormTicks)]
    found = [ticks for ticks in ticks if ticks.label == "To do, no start given"]
    return [str(item).replace("\xa0", " ") for each in found for item in each.items]


def loads(forms: list[Form]) -> set[str]:
    """What is written of the loads of a sheet."""
    grids = [b for form in forms for b in form.blocks if isinstance(b, FormGrid)]
    number = {column.key: n for n, column in enumerate(grids[0].columns)}["load"]
    return {str(r.cells[number].text).replace("\xa0", " ") for g in grids for r in g.rows} - {""}


def test_what_has_no_start_is_listed_beside_what_has(tmp_path: Path) -> None:
    kitchen = costed(tmp_path)
    for forms in sheets_of(kitchen):
        assert ticked(forms) == [
            "Bone sauce, 2.00 L",
            "Bone stock, 2.00 L",
            "Flank pan: cure, finish and carve",
        ]
    table = starts_table(View.of(kitchen, []), kitchen.services["friday"])
    found = [str(cell.text) for cell in table.rows[-1].cells[:3]]
    assert found == ["Not known", "Cure, finish and carve", "Flank pan"]


def test_a_load_is_listed_without_equipment(tmp_path: Path) -> None:
    assert [loads(forms) for forms in sheets_of(costed(tmp_path))] == [{"7.85 kg"}] * 2


def test_what_has_its_times_is_listed_once(tmp_path: Path) -> None:
    timed = (
        FILES["cooks/flank-pan.yaml"]
        .replace("salted", "salted, for: 2 h")
        .replace("glazed", "glazed, for: 5 min")
        .replace("carve: {", "carve: {for: 5 min, ")
    )
    for forms in sheets_of(costed(tmp_path, **{"cooks__flank-pan": timed})):
        assert ticked(forms) == ["Bone sauce, 2.00 L", "Bone stock, 2.00 L"]


def test_the_picture_claims_no_more_than_timed_steps(tmp_path: Path) -> None:
    view = View.of(costed(tmp_path), [])
    page = next(page for page in schedule_pages(view) if page.title == "Friday")
    assert "Every step" not in text_of(html_of(page))
