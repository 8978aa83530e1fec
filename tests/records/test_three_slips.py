"""Hours that nothing bears at its heat, a drop of stock on a plate, cream that fits in no mash."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.kitchens import read, write

FILES = {
    "kitchen.yaml": "name: A\ncurrency: CAD\nequipment: {oven: {kind: oven, holds: 12 kg}}\n",
    "cuts/shoulder.yaml": "species: lamb\nprice: 12.60/kg\ntrim: 14 %\n",
    "cooks/roast.yaml": "cut: shoulder\nhow: oven\nat: 200 °C\nfor: 4 h\nform: intact\n"
    "counts as: roast\nload: 8 kg\npiece: {weight: 2 kg}\nequipment: oven\nloss: 30 %\n",
    "pantry/veal-stock.yaml": "price: 3.10/L\n",
    "pantry/potatoes.yaml": "price: 1.40/kg\nyield: 86 %\n",
    "pantry/cream.yaml": "price: 4.60/L\nlitre: 1 kg\n",
    "pantry/mash.yaml": "of: {potatoes: 4.6 kg, cream: 1 L}\nmakes: 5.4 kg\n",
    "plates/lamb.yaml": "menu: mains\ncook: roast\nportion: 220 g\nprice: 29.00\n"
    "with: {veal-stock: 60 ml, mash: 180 g}\n",
}


def said(root: Path, path: str, old: str, new: str) -> list[str]:
    """What a change of one value brings, message and hint."""
    assert old in FILES[path]
    _, before = read(write(root / "before", FILES))
    _, after = read(write(root / "after", {**FILES, path: FILES[path].replace(old, new)}))
    known = {p.message for p in before}
    return [f"{p.message}; {p.hint}" for p in after if p.message not in known]


@pytest.mark.parametrize(
    ("path", "old", "new", "message", "hint"),
    [
        ("cooks/roast.yaml", "4 h", "14 h", "14 h is long at 200 °C", "did you mean 14 min?"),
        ("cooks/roast.yaml", "4 h", "6.5 h", "6.5 h is long at 200 °C", ""),
        ("plates/lamb.yaml", "60 ml", "6 ml", "6 ml is far outside", ""),
        ("pantry/mash.yaml", "1 L", "10 L", "with 10 L all that goes in", "did you mean 1.0 L?"),
        ("pantry/mash.yaml", "1 L", "1 gal", "with 1 gal all that goes in", "did you mean 1 qt?"),
    ],
)
def test_a_slip_is_told(
    path: str, old: str, new: str, message: str, hint: str, tmp_path: Path
) -> None:
    (found,) = said(tmp_path, path, old, new)
    assert found.startswith(message)
    assert hint in found


@pytest.mark.parametrize(
    ("path", "old", "new"),
    [
        ("cooks/roast.yaml", "4 h", "5 h 30 min"),
        ("cooks/roast.yaml", "at: 200 °C\nfor: 4 h", "at: 150 °C\nfor: 11 h"),
        ("cooks/roast.yaml", "at: 200 °C\nfor: 4 h", "at: 110 °C\nfor: 18 h"),
        ("plates/lamb.yaml", "60 ml", "20 ml"),
        ("pantry/mash.yaml", "1 L", "2 L"),
    ],
)
def test_what_is_rare_is_left_alone(path: str, old: str, new: str, tmp_path: Path) -> None:
    assert said(tmp_path, path, old, new) == []


def test_bringing_back_and_steps_are_held_to_it(tmp_path: Path) -> None:
    more = "load: 8 kg\ncool: {to: 4 °C, within: 6 h}\nreheat: {at: 200 °C, for: 9 h}\n"
    found = said(tmp_path, "cooks/roast.yaml", "load: 8 kg\n", more)
    assert [each for each in found if each.startswith("9 h is long at 200 °C")]
