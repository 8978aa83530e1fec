"""Further and uncooked portions on the sheets that are signed, ticked off and read side by side."""

from __future__ import annotations

from builder.pages.components import Form, FormGrid
from builder.pages.decision_sheets import decision_page
from builder.pages.log_sheets import prep_page
from builder.pages.schedule import schedule_pages
from builder.pages.swaps import swap_pages
from tests.pages_data.kitchens import KITCHEN, SMALL, by_path, view_of
from tests.pages_data.test_portion_pages import words

VIEW = view_of(
    {
        **SMALL,
        "kitchen.yaml": KITCHEN.replace("note:", "  grill: {kind: grill, holds: 5 kg}\nnote:"),
        "cuts/prawn.yaml": "species: other\nprice: 20/kg\nallergens: [crustaceans]\n",
        "cuts/oyster.yaml": "species: other\nprice: 1.40/each\neach: 84 g\ntrim: {loss: 85 %}\n",
        "cooks/prawns.yaml": "cut: prawn\nhow: grill\nfor: 5 min\nequipment: grill\nload: 2 kg\n"
        "piece: {weight: 50 g}\nloss: 20 %\n",
        "plates/both.yaml": "name: Both\nmenu: mains\nprice: 40\nforecast: 20\n"
        "portions: [[chuck-30h, 180 g], [prawns, 3 pieces], {cut: oyster, portion: 2 pieces}]\n",
        "plates/prawns.yaml": "name: Prawns\nmenu: mains\nprice: 30\ncook: prawns\n"
        "portion: 5 pieces\n",
        "plates/oysters.yaml": "name: Oysters\nmenu: starters\nprice: 24\ncut: oyster\n"
        "portion: 6 pieces\nforecast: 9\n",
        "swaps/both-for-prawns.yaml": "benchmark: prawns\nchallengers: [both]\n",
        "services/friday.yaml": "day: friday\nat: 18:00\n"
        "plates: {both: 12, prawns: 5, oysters: 4}\n",
    }
)
SWAP = VIEW.costed.content.swaps["both-for-prawns"]


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
        "Oyster is served without a cook.",
    ):
        assert text in said, text


def test_a_swap_page_has_the_caution_of_what_its_challenger_serves_raw() -> None:
    said = words(by_path(swap_pages(VIEW))["swaps/both-for-prawns.html"])
    assert "Oyster is served without a cook." in said
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
