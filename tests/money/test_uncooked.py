"""Portions of a cut without a cook, by hand: what is bought, less what its trimming loses."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from builder.costing.costed import Costed
from builder.pages.view import View
from builder.pages.warned import plate_warnings
from builder.records.contained import contained
from tests.kitchens import costed_from, read, write

FILES = {
    "kitchen.yaml": "name: K\ncurrency: CAD\nas of: 2026-10-01\nloaded wage: 24/h\n"
    "authority: us-food-code-2017\nportions: whole\ncovers: [10]\n"
    "equipment: {pot: {kind: oven, holds: 6 kg}}\n",
    "cuts/oyster.yaml": "species: other\nprice: 1.50/each\neach: 80 g\ntrim: {loss: 85 %}\n"
    "allergens: [molluscs]\n",
    "cuts/fillet.yaml": "species: beef\nprice: 30/kg\n"
    "trim: {loss: 25 %, parts: {chain: [10 %, 6/kg]}}\n"
    "allergens: none\n",
    "cooks/braise.yaml": "cut: fillet\nhow: braise\nload: 2 kg\npiece: {weight: 1 kg}\nfor: 3 h\n"
    "equipment: pot\nloss: 20 %\n",
    "plates/oysters.yaml": "menu: starters\ncut: oyster\nportion: 6 pieces\n"
    "price: 24\nforecast: 20\n",
    "plates/tartare.yaml": "menu: starters\ncut: fillet\nportion: 150 g\n"
    "price: 26\nhands on: 6 min\n",
    "plates/braised.yaml": "menu: mains\ncook: braise\nportion: 200 g\nprice: 30\n",
}


def kitchen(folder: Path, **changed: str) -> Costed:
    return costed_from(write(folder, {**FILES, **changed}))


def plate(costed: Costed, name: str, figure: str) -> float:
    return costed.figures.value("plate", figure, costed.rows.plates[name])


def test_six_oysters_cost_six_oysters(tmp_path: Path) -> None:
    costed = kitchen(tmp_path)
    assert plate(costed, "oysters", "food_cost") == pytest.approx(6 * 1.50)
    assert plate(costed, "oysters", "full_cost") == pytest.approx(9)  # nobody states any work
    assert plate(costed, "oysters", "portion") == pytest.approx(6 * 0.08 * 0.15)
    [order] = costed.rows.orders["oysters"]
    assert costed.figures.value("order", "pieces_to_cook", order) == 60
    assert costed.figures.value("order", "quantity_to_buy_whole", order) == pytest.approx(4.8)


def test_a_weight_takes_its_trim_and_gets_its_credit(tmp_path: Path) -> None:
    """A kilogram at 30.00 leaves 750 g and gives back 100 g at 6.00: 29.40 for five portions."""
    costed = kitchen(tmp_path)
    assert plate(costed, "tartare", "protein_cost") == pytest.approx(29.40 / 5)
    assert plate(costed, "tartare", "labour_cost") == pytest.approx(2.40)
    assert plate(costed, "tartare", "full_cost") == pytest.approx(29.40 / 5 + 2.40)


def test_nothing_is_cooked_or_booked(tmp_path: Path) -> None:
    service = "day: Friday\nat: 18:00\nplates: {oysters: 8, braised: 6}\n"
    costed = kitchen(tmp_path, **{"services/friday.yaml": service})
    assert [planned.cook.id for planned in costed.services["friday"].cooks] == ["braise"]
    pot = costed.rows.equipment["pot"]
    assert costed.figures.value("equipment", "hours_booked", pot) == 0
    assert plate(costed, "oysters", "process_per_plate") == 0


def test_it_stands_beside_a_cook_in_one_list(tmp_path: Path) -> None:
    both = "menu: mains\nportions: [[braise, 200 g], {cut: oyster, portion: 2 pieces}]\nprice: 40\n"
    costed = kitchen(tmp_path, **{"plates/both.yaml": both})
    assert plate(costed, "both", "further_food") == pytest.approx(3)
    found = contained(costed.content, costed.content.plates["both"])
    assert ("molluscs", "") in found.contains
    assert plate(costed, "both", "full_cost") == pytest.approx(
        plate(costed, "braised", "full_cost") + 3
    )


def test_a_swap_moves_its_price_and_no_loss_of_a_cook(tmp_path: Path) -> None:
    """Both use the fillet: five portions of a kg against 0.75 kg x 0.8 in three of 200 g."""
    costed = kitchen(tmp_path, **{"swaps/raw.yaml": "benchmark: braised\nchallengers: [tartare]\n"})
    row = costed.rows.swaps["raw", "tartare"]
    for figure in ("break_even_cook_loss", "break_even_cook_loss_whole", "portions_to_break_even"):
        assert np.isnan(costed.figures.value("swap", figure, row))
    ap_of_braised = 1 / 0.75 / 4  # a piece of 1 kg gives four portions
    assert costed.figures.value("swap", "price_slope", row) == pytest.approx(1 / 5 - ap_of_braised)


@pytest.mark.parametrize(
    ("authority", "words"),
    [
        ("us-food-code-2017", "asks for a consumer advisory"),
        ("uk-core-equivalents", "where local code asks for it"),
    ],
)
def test_the_usual_caution(authority: str, words: str, tmp_path: Path) -> None:
    text = FILES["kitchen.yaml"].replace("us-food-code-2017", authority)
    view = View.of(kitchen(tmp_path, **{"kitchen.yaml": text}), ())
    notices = plate_warnings(view, view.costed.content.plates["tartare"])
    assert notices is not None
    [notice] = notices.items
    assert str(notice.text).startswith("Fillet: served without a cook.")
    assert words in notice.text
    assert ("3-603.11" in notice.text) == authority.startswith("us")


# What stands on the plate instead of the cut and its portion, the place, the message.
MISTAKES = [
    ("cut: oister\nportion: 6 pieces", "plates/oysters.yaml:2:6", 'there is no cut "oister"'),
    ("cut: fillet\nportion: 2 pieces", "plates/oysters.yaml:3:10",
     "2 pieces has no weight behind it"),
    ("cut: oyster\ncook: braise\nportion: 90 g", "plates/oysters.yaml:2:6",
     "a portion is of a cook or of a cut"),
    ("portions: [{portion: 90 g}]", "plates/oysters.yaml:2:12",
     "a portion is of a cook or of a cut"),
    ("cut: oyster", "plates/oysters.yaml", "a plate with a cut needs its portion"),
]  # fmt: skip


@pytest.mark.parametrize(("written", "place", "message"), MISTAKES)
def test_mistakes_are_named_at_their_place(
    written: str, place: str, message: str, tmp_path: Path
) -> None:
    files = {**FILES, "plates/oysters.yaml": f"menu: starters\n{written}\nprice: 24\n"}
    _, problems = read(write(tmp_path, files))
    [error] = [each for each in problems if each.is_error]
    assert str(error.place).startswith(place)
    assert error.message == message


def test_a_portion_of_what_loses_most_in_trim_is_no_mistake(tmp_path: Path) -> None:
    """200 g of meat from a shell that keeps 15 % takes 1.33 kg: there is no batch to exceed."""
    text = "menu: starters\ncut: oyster\nportion: 200 g\nprice: 60\n"
    _, problems = read(write(tmp_path, {**FILES, "plates/meat.yaml": text}))
    assert not [each for each in problems if each.is_error]
    costed = kitchen(tmp_path, **{"plates/meat.yaml": text})
    assert plate(costed, "meat", "ap_weight_per_portion") == pytest.approx(0.2 / 0.15)
    assert plate(costed, "meat", "protein_cost") == pytest.approx(0.2 / 0.15 * 1.5 / 0.08)


def test_pieces_of_different_things_are_no_slip_of_one_another(tmp_path: Path) -> None:
    """Half a joint beside three plates of six: pieces are served as they come."""
    plates = {f"plates/six-{n}.yaml": FILES["plates/oysters.yaml"] for n in range(3)}
    half = FILES["plates/braised.yaml"].replace("200 g", "1/2 piece")
    _, problems = read(write(tmp_path, {**FILES, **plates, "plates/braised.yaml": half}))
    assert not [each for each in problems if "portions" in each.message]
