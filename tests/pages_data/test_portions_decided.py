"""Further and uncooked portions on the sheets that are signed, ticked off and read side by side."""

from __future__ import annotations

import re

from builder.pages.components import Form, FormGrid
from builder.pages.decision_sheets import decision_page
from builder.pages.equipment import equipment_page
from builder.pages.forms import yield_test_page
from builder.pages.log_sheets import prep_page
from builder.pages.plates import plate_page
from builder.pages.schedule import schedule_pages
from builder.pages.swaps import swap_pages
from tests.pages_data.kitchens import KITCHEN, SMALL, by_path, view_of
from tests.pages_data.test_portion_pages import words

FILES = {
    **SMALL,
    "kitchen.yaml": KITCHEN.replace("note:", "  grill: {kind: grill, holds: 5 kg}\nnote:"),
    "cuts/prawn.yaml": "species: other\nprice: 20/kg\nallergens: [crustaceans]\n",
    "cuts/oyster.yaml": "species: other\nprice: 1.40/each\neach: 84 g\ntrim: {loss: 85 %}\n",
    "cooks/prawns.yaml": "cut: prawn\nhow: grill\nfor: 5 min\nequipment: grill\nload: 2 kg\n"
    "piece: {weight: 50 g}\nloss: 20 %\n",
    "plates/both.yaml": "name: Both\nmenu: mains\nprice: 40\nforecast: 20\n"
    "portions: [[chuck-30h, 180 g], [prawns, 3 pieces], {cut: oyster, portion: 2 pieces}]\n",
    "plates/prawns.yaml": "name: Prawns\nmenu: mains\nprice: 30\ncook: prawns\nportion: 5 pieces\n",
    "plates/oysters.yaml": "name: Oysters\nmenu: starters\nprice: 24\ncut: oyster\n"
    "portion: 6 pieces\nforecast: 9\n",
    "swaps/both-for-prawns.yaml": "benchmark: prawns\nchallengers: [both]\n",
    "services/friday.yaml": "day: friday\nat: 18:00\nplates: {both: 12, prawns: 5, oysters: 4}\n",
    "swaps/raw-for-both.yaml": "benchmark: both\nchallengers: [oysters]\n",
}
VIEW = view_of(FILES)
MANY = view_of(
    {
        **FILES,
        "plates/four.yaml": FILES["plates/both.yaml"]
        .replace("Both", "Four")
        .replace("{cut: oyster", "[ribeye-grill, 100 g], {cut: oyster"),
        "swaps/four-for-both.yaml": "benchmark: both\nchallengers: [four]\n",
    }
)
MAIN_COOKED = (
    "plates/both.yaml", "plates/prawns.yaml", "plates/chuck-steak.yaml",
    "plates/ribeye-steak.yaml", "swaps/both-for-prawns.yaml", "swaps/raw-for-both.yaml",
    "swaps/chuck-for-ribeye.yaml", "services/friday.yaml", "tastings/chuck-or-ribeye.yaml",
)  # fmt: skip
SWAP = VIEW.costed.content.swaps["both-for-prawns"]
BOTH = VIEW.costed.content.plates["both"]


def _sheet() -> Form:
    (form,) = (each for each in decision_page(VIEW, SWAP).sections if isinstance(each, Form))
    return form


def test_a_decision_names_what_every_portion_rests_on_each_once() -> None:
    sources = next(b for b in _sheet().blocks if isinstance(b, FormGrid) and b.caption == "Sources")
    named = [row.cells[0].text for row in sources.rows]
    assert named == [
        "Prawn: AP price",
        "Prawns: yield of cook",
        'Chuck roll, "neck off" & tied: AP price',
        'Chuck roll, "neck off" & tied: yield of trim',
        "Chuck 30h: yield of cook",
        "Oyster: AP price",
        "Oyster: yield of trim",
        "Loaded wage",
    ]
    assert all(row.cells[-1].text.strip(", ") == row.cells[-1].text for row in sources.rows)
    assert all(row.cells[-1].text for row in sources.rows)


def test_a_decision_names_every_equipment_portion_and_what_is_raw() -> None:
    said = words(decision_page(VIEW, SWAP))
    for text in (
        "Bath 40: ",
        "Grill: ",
        "180 g with 3 pieces Prawns and 2 pieces Oyster",
        "Further portions",
        "Oyster: served without a cook.",
    ):
        assert text in said, text


def test_a_swap_page_has_the_caution_of_what_its_challenger_serves_raw() -> None:
    said = words(by_path(swap_pages(VIEW))["swaps/both-for-prawns.html"])
    assert "Oyster: served without a cook." in said
    assert "Oyster" not in words(by_path(swap_pages(VIEW))["swaps/chuck-for-ribeye.html"])


def test_a_prep_sheet_has_every_portion_and_the_pieces_to_open() -> None:
    """12 plates of two oysters and 4 of six are 48 of 84 g: 4.03 kg."""
    said = words(prep_page(VIEW, VIEW.costed.services["friday"]))
    assert "12 × Both: 180 g Chuck 30h, 3 pieces Prawns and 2 pieces Oyster" in said
    assert "5 × Prawns, 5 pieces" in said
    assert "Oyster: served without a cook 48 pieces, 4.03 kg" in said
    assert "Raw animal food can make guests ill" in said


def test_what_is_served_has_the_pieces_beside_the_weight() -> None:
    said = words(by_path(schedule_pages(VIEW))["services/friday.html"])
    assert "Prawns 5 200 g 5 pieces" in said


def test_what_is_uncooked_has_no_batch_and_no_heat_that_could_be_unknown() -> None:
    said = words(plate_page(VIEW, VIEW.costed.content.plates["both"]))
    assert "Oyster 168 g 2 pieces" not in said  # 84 g as bought leave 12.6 g
    assert "Oyster 25 g 2 pieces 168 g – $2.80 – – –" in said


def test_a_swap_has_the_trim_of_an_uncooked_cut_and_every_portion() -> None:
    said = words(by_path(swap_pages(VIEW))["swaps/raw-for-both.html"])
    assert "Yield: trim 84.7% 15.0%" in said  # 14.00 of 16.52 kg
    assert "180 g with 3 pieces Prawns and 2 pieces Oyster 76 g 6 pieces" in said


def test_prices_beyond_a_few_are_those_of_cuts() -> None:
    many = by_path(swap_pages(MANY))["swaps/four-for-both.html"]
    assert "the prices of 4 cuts" in words(many)
    assert "pantry items" not in words(many)


def test_the_week_rests_on_the_forecast_of_a_plate_whose_main_portion_is_raw() -> None:
    files = {name: text for name, text in FILES.items() if name not in MAIN_COOKED}
    files["plates/tower.yaml"] = FILES["plates/both.yaml"].replace(
        "[[chuck-30h, 180 g], [prawns, 3 pieces], {cut: oyster, portion: 2 pieces}]",
        "[{cut: oyster, portion: 2 pieces}, [prawns, 3 pieces]]",
    )
    assert "Nothing is over-booked in a week's forecast" in words(equipment_page(view_of(files)))


def test_a_doubt_about_a_further_portion_marks_its_cost() -> None:
    """By-products worth more than the prawns: what they cost on the plate can't be trusted."""
    path = "cooks/prawns.yaml"
    parts = FILES[path].replace("loss: 20 %", "loss: 30 %\nparts: {heads: [20 %, 500/kg]}")
    view = view_of({**FILES, path: parts})
    said = words(plate_page(view, view.costed.content.plates["both"]))
    assert re.search(r"Further portions −?\$[\d.]+ ?in doubt", said)
    assert not re.search(r"Further portions \$[\d.]+ ?in doubt", words(plate_page(VIEW, BOTH)))


def test_a_yield_test_has_the_portions_that_no_cook_makes() -> None:
    """Two oysters of 84 g at 1.40 leave 25 g; six leave 76 g."""
    path = "cuts/oyster.yaml"
    tests = "trim: {tests: [{date: 2026-09-04, in: 2 kg, out: 0.3 kg}]}"
    view = view_of({**FILES, path: FILES[path].replace("trim: {loss: 85 %}", tests)})
    said = words(yield_test_page(view, view.costed.content.cuts["oyster"]))
    assert "Both 25 g $2.80" in said
    assert "Oysters 76 g $8.40" in said


def test_pieces_to_buy_for_a_further_portion_name_the_plates_that_share_its_cook() -> None:
    said = words(plate_page(VIEW, BOTH))
    bought = said[said.index("How much to buy for Prawns") :]
    assert "cooked with Prawns, they are rounded once." in bought
