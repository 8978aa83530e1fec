"""Services whose equipment does not say what it holds: loads as the cook's file has them."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.costing.clashes import check_services
from builder.costing.costed import Costed
from builder.pages.log_sheets import prep_page
from builder.pages.schedule import schedule_pages
from builder.pages.view import View
from builder.problems import Problem
from tests.kitchens import costed_from, write
from tests.pages_data.kitchens import html_of, text_of

# 40 covers of 150 g at a yield of 80 %: 7.5 kg raw, three loads of 2.5 kg.
FILES = {
    "kitchen.yaml": (
        "name: Invented kitchen\ncurrency: CAD\nloaded wage: 20.00/h\n"
        "equipment:\n  stove: {kind: range}\n"
    ),
    "cuts/flank.yaml": "species: beef\nprice: 12.00/kg\nallergens: none\n",
    "cooks/flank-pan.yaml": (
        "cut: flank\nhow: pan\nequipment: stove\nfor: 10 min\nload: 2.5 kg\nyield: 80 %\n"
    ),
    "plates/flank.yaml": "menu: mains\ncook: flank-pan\nportion: 150 g\nprice: 30.00\n",
    "services/friday.yaml": "day: friday\nat: 18:00\nplates: {flank: 40}\n",
}


def of(root: Path, **changed: str) -> Costed:
    files = {**FILES, **{name.replace("__", "/") + ".yaml": text for name, text in changed.items()}}
    return costed_from(write(root, files))


def words(costed: Costed) -> tuple[str, str]:
    """The service's page and its prep sheet."""
    view = View.of(costed, [])
    page = next(page for page in schedule_pages(view) if page.title == "Friday")
    sheet = prep_page(view, costed.services["friday"])
    shown = [
        " ".join(text_of(html_of(each)).split()).replace("\xa0", " ") for each in (page, sheet)
    ]
    return shown[0], shown[1]


@pytest.mark.parametrize(
    ("covers", "loads"), [("13", 1), ("14", 2), ("26", 2), ("27", 3), ("40", 3), ("41", 4)]
)
def test_a_load_is_no_larger_than_the_cooks_own(covers: str, loads: int, tmp_path: Path) -> None:
    """A load gives 13.33 portions: 2.5 kg x 0.8 / 0.15 kg."""
    service = FILES["services/friday.yaml"].replace("40", covers)
    [planned] = of(tmp_path, services__friday=service).services["friday"].cooks
    assert planned.loads == loads


def test_the_page_and_the_sheet_say_how_many_and_what_is_not_known(tmp_path: Path) -> None:
    for text in words(of(tmp_path)):
        assert "7.50 kg, in 3 loads of up to 2.50 kg" in text
        assert "What Stove holds is not written (holds: in kitchen.yaml)." in text
        assert "Loads of Flank pan are no larger than in its own file" in text
        assert "the times are of one load" in text


def test_two_cooks_have_files_of_their_own(tmp_path: Path) -> None:
    costed = of(
        tmp_path,
        plates__other="menu: mains\ncook: other\nportion: 150 g\nprice: 30.00\n",
        cooks__other=FILES["cooks/flank-pan.yaml"],
        services__friday="day: friday\nat: 18:00\nplates: {flank: 40, other: 40}\n",
    )
    for text in words(costed):
        assert "Loads of Flank pan and Other are no larger than in their own files" in text


def test_where_the_kitchen_says_what_it_holds_nothing_is_said(tmp_path: Path) -> None:
    held = FILES["kitchen.yaml"].replace("{kind: range}", "{kind: range, holds: 8 kg}")
    costed = of(tmp_path, kitchen=held)
    assert [planned.loads for planned in costed.services["friday"].cooks] == [0]
    assert all("loads of up to" not in text for text in words(costed))


def test_one_load_is_enough_for_a_few(tmp_path: Path) -> None:
    service = FILES["services/friday.yaml"].replace("40", "12")
    for text in words(of(tmp_path, services__friday=service)):
        assert "loads of up to" not in text
        assert "is not written" not in text


def test_a_cook_without_equipment_is_no_different(tmp_path: Path) -> None:
    cook = FILES["cooks/flank-pan.yaml"].replace("equipment: stove\n", "")
    page, _ = words(of(tmp_path, **{"cooks__flank-pan": cook}))
    assert "What the equipment holds is not written" in page


# 25 covers of 3 pieces, 30 of which lie side by side on a grill that bears 75 by weight.
GRILLED = {
    "kitchen": FILES["kitchen.yaml"].replace("{kind: range}", "{kind: range, holds: 5 kg}"),
    "cooks__flank-pan": (
        "cut: flank\nhow: grill\nequipment: stove\nfor: 3 min\npiece: {weight: 60 g}\n"
        "load: 30 pieces\nyield: 85 %\n"
    ),
    "plates__flank": (
        "menu: mains\ncook: flank-pan\nportion: 3 pieces\nprice: 30.00\nforecast: 50\n"
    ),
    "services__friday": "day: friday\nat: 18:00\nplates: {flank: 25}\n",
}


def warnings(costed: Costed) -> list[Problem]:
    return list(check_services(costed.content, costed.services))


def test_pieces_lie_side_by_side_whatever_the_equipment_bears(tmp_path: Path) -> None:
    """75 pieces by loads of 30 are three, the last half full; three times 3 min are 9 min."""
    costed = of(tmp_path, **GRILLED)
    [planned] = costed.services["friday"].cooks
    assert (planned.pieces, planned.loads, planned.at_once) == (75, 3, 30)
    for text in words(costed):
        assert "75 pieces, 4.50 kg, in 3 loads of up to 30 pieces" in text
        assert "times are of one load" not in text  # a warning of the plan says so
        assert "holds is not written" not in text
    [found] = warnings(costed)
    assert str(found.place) == "services/friday.yaml:3:17"
    assert found.message == (
        "Flank pan: 75 pieces are asked for, of which 30 go in at once, so it takes 3 loads; the "
        "plan has the time of one"
    )
    assert found.hint.replace("\xa0", " ").startswith(
        "start the first one earlier: 3 loads of 3 min take 9 min; where more go in at once"
    )


@pytest.mark.parametrize(
    ("was", "now"),
    [
        ("services__friday: 25", "10"),  # thirty pieces are one load
        ("cooks__flank-pan: 3 min", "14 h"),  # a long cook's load is a batch
        ("cooks__flank-pan: 30 pieces", "1.8 kg"),  # what goes in is a weight
        ("cooks__flank-pan: how: grill", "how: water bath"),
    ],
)
def test_other_loads_go_by_what_the_equipment_holds(was: str, now: str, tmp_path: Path) -> None:
    name, _, text = was.partition(": ")
    costed = of(tmp_path, **{**GRILLED, name: GRILLED[name].replace(text, now)})
    [planned] = costed.services["friday"].cooks
    assert planned.loads in {0, 1}
    assert not [p.message for p in warnings(costed) if "loads" in p.message]


def test_a_week_s_loads_hold_no_more_pieces_either(tmp_path: Path) -> None:
    """30 pieces are 10 portions, though 83 would be borne."""
    costed = of(tmp_path, **GRILLED)
    assert costed.figures.value("plate", "portions_a_load", 0) == 10
    assert costed.figures.value("plate", "loads_for_forecast", 0) == 5


def test_a_hint_counts_loads_by_whole_pieces(tmp_path: Path) -> None:
    """7 pieces of 2 kg into what holds 5 kg: 14 kg would be 3 loads, of whole pieces it is 4.

    Two pieces stay, so 5 of them are moved: with 9 kg moved a half one would not fit.
    """
    cook = (
        "cut: flank\nhow: oven\nequipment: stove\nfor: 2 h\npiece: {weight: 2 kg}\n"
        "load: 4 kg\nyield: 100 %\n"
    )
    plate = "menu: mains\ncook: flank-pan\nportion: 1 piece\nprice: 30.00\n"
    costed = of(
        tmp_path,
        kitchen=GRILLED["kitchen"],
        plates__flank=plate,
        services__friday=GRILLED["services__friday"].replace("25", "7"),
        **{"cooks__flank-pan": cook},
    )  # fmt: skip
    [found] = warnings(costed)
    hint = found.hint.replace("\xa0", " ")
    assert hint == "cook in 4 loads, or move 10.00 kg to other equipment"
