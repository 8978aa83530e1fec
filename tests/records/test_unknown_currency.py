"""A currency that can't be read hides no letter in a price, and makes no price a false error."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cooks.kitchens import FILES, problems

CUT, PLATE = "cuts/chuck.yaml", "plates/chuck-plate.yaml"


def refused(root: Path, path: str, old: str, new: str) -> list[str]:
    """The errors outside of kitchen.yaml, with a price changed and a currency that is none."""
    assert old in FILES[path]
    kitchen = FILES["kitchen.yaml"].replace("currency: CAD", "currency: CAX")
    files = {**FILES, "kitchen.yaml": kitchen, path: FILES[path].replace(old, new)}
    found = [p for p in problems(root, files) if p.is_error]
    assert any("is no currency" in p.message for p in found)
    return [p.message for p in found if p.place.file != "kitchen.yaml"]


@pytest.mark.parametrize(
    ("path", "old", "new"),
    [
        (CUT, "13.60/kg", "13.6O/kg"),
        (CUT, "13.60/kg", "3O.00/kg"),
        (CUT, "13.60/kg", "3O/kg"),
        (CUT, "13.60/kg", "1OO/kg"),
        (PLATE, "27.00", "2O.00"),
        (PLATE, "27.00", "2I.00"),
    ],
)
def test_a_letter_in_a_price_is_told_in_the_same_round(
    path: str, old: str, new: str, tmp_path: Path
) -> None:
    assert refused(tmp_path, path, old, new) == [f'"{new}" has a letter where a digit belongs']


@pytest.mark.parametrize(
    "price", ["$27.00", "27.00 €", "CAD 27", "27 CHF", "R27", "27 zł", "US$27", "£27", "27 kr"]
)
def test_a_true_price_in_any_currency_is_no_error(price: str, tmp_path: Path) -> None:
    assert refused(tmp_path, PLATE, "27.00", price) == []
