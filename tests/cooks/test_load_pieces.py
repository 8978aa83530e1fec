"""A load is off the weight of its pieces: what is printed of both is said to be so.

By hand: 9.6 kg are 4 pieces of 2.4 kg; 9.5 kg (3.96) count as 4 pieces of 2.375 kg. A piece
of 2.4 kg leaves 1.824 kg, 9 portions of 200 g; 4.16 of them 37.44.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cooks.kitchens import COOK, FILES, changed, costed, pages, problems

PLATE, COOK_PAGE = "plates/chuck-plate.html", "cooks/chuck-30h.html"
SHARED = "The load of 9.50 kg counts as 4 pieces of equal weight; at 2.40 kg each they would weigh"


def test_a_load_that_is_about_whole_pieces_says_so(tmp_path: Path) -> None:
    found = pages(costed(tmp_path, changed(COOK, ("load: 9.6 kg", "load: 9.5 kg"))))
    assert f"{SHARED} 9.60 kg." in found[PLATE][1]
    assert f"{SHARED} 9.60 kg." in found[COOK_PAGE][1]
    whole = pages(costed(tmp_path / "whole"))
    assert "of equal weight" not in whole[PLATE][1] + whole[COOK_PAGE][1]


@pytest.mark.parametrize(("load", "warned"), [("9.58 kg", False), ("9.5 kg", True)])
def test_a_load_that_is_hardly_off_its_pieces_says_nothing(
    load: str, warned: bool, tmp_path: Path
) -> None:
    """9.58 kg are 0.2 % below 4 pieces of 2.4 kg, 9.5 kg are 1 %."""
    found = pages(costed(tmp_path, changed(COOK, ("load: 9.6 kg", f"load: {load}"))))
    assert ("of equal weight" in found[COOK_PAGE][1]) is warned


@pytest.mark.parametrize(("load", "warned"), [("2.62 kg", True), ("2.44 kg", False)])
def test_a_piece_far_from_its_share_of_the_load_is_a_warning(
    load: str, warned: bool, tmp_path: Path
) -> None:
    found = problems(tmp_path, changed(COOK, ("load: 9.6 kg", f"load: {load}")))
    shared = [p for p in found if "1 piece of 2.62\xa0kg, not of 2.4 kg" in p.message]
    assert len(shared) == warned
    assert [p.hint for p in shared] == ["write load: 1 piece, or what one weighs"] * warned


def test_whole_portions_are_never_a_fraction(tmp_path: Path) -> None:
    found = pages(costed(tmp_path, changed(COOK, ("load: 9.6 kg", "load: 9.984 kg"))))
    assert "37.4" not in found[PLATE][1] + found[COOK_PAGE][1]
    assert "Portions of Chuck plate 37 " in found[COOK_PAGE][1]
    assert "beyond a whole portion is costed" in found[PLATE][1]


def test_portions_by_weight_stay_a_fraction(tmp_path: Path) -> None:
    by_weight = {**FILES, "kitchen.yaml": FILES["kitchen.yaml"] + "portions: by weight\n"}
    found = pages(costed(tmp_path, by_weight))
    assert "Portions of Chuck plate 36.48 " in found[COOK_PAGE][1]
