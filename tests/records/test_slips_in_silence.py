"""Slips that nothing reported: a supplier's smallest order, fish cooked for a night, names of gear.

The limits are common practice, no published source: fish in a bath is done within an hour, an
octopus takes half a day; a supplier's smallest order is a few packs.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.records.gear_words import spelt
from tests.kitchens import read, write

BATH = "kind: water bath, holds: 12 kg"
FILES = {
    "kitchen.yaml": f"name: A\ncurrency: CAD\nequipment: {{gear: {{{BATH}}}}}\n",
    "cuts/salmon.yaml": "species: fish\nprice: 22/kg\n"
    "sold as: {pack: case of 5 kg, minimum: 2 cases}\n",
    "pantry/lemons.yaml": "price: 4/kg\nsold as: {steps: 1 kg, minimum: 5 kg}\n",
    "cooks/fillet.yaml": "cut: salmon\nhow: grill\nfor: 12 min\nload: 4 kg\nloss: 10 %\n",
    "prices/sea.csv": "date,item,price,sold as,minimum\n"
    "2026-09-01,salmon,22/kg,case of 5 kg,2 cases\n",
}  # fmt: skip


def said(root: Path, path: str, old: str, new: str) -> list[str]:
    """What a change of one value brings, message and hint."""
    assert old in FILES[path]
    _, before = read(write(root / "before", FILES))
    _, after = read(write(root / "after", {**FILES, path: FILES[path].replace(old, new)}))
    known = {p.message for p in before}
    assert not any(p.is_error for p in after)
    return [f"{p.message}; {p.hint}" for p in after if p.message not in known]


@pytest.mark.parametrize(
    ("path", "old", "new", "hint"),
    [
        ("cuts/salmon.yaml", "2 cases", "200 cases", "did you mean 20 cases?"),
        ("prices/sea.csv", "2 cases", "200 cases", "did you mean 20 cases?"),
        ("pantry/lemons.yaml", "minimum: 5 kg", "minimum: 5000 kg", "did you mean 5000 g?"),
        ("cooks/fillet.yaml", "12 min", "12 h", "did you mean 12 min?"),
        ("cooks/fillet.yaml", "how: grill\nfor: 12 min", "how: steam\nfor: 12 h", "12 min?"),
        ("kitchen.yaml", "water bath", "water bth", 'did you mean "water bath"?'),
        ("kitchen.yaml", "water bath", "combi ovn", 'did you mean "combi oven"?'),
        ("kitchen.yaml", "water bath", "rnge", 'did you mean "range"?'),
        ("cooks/fillet.yaml", "how: grill", "how: gril l", ""),
        ("cooks/fillet.yaml", "how: grill", "how: grll", 'did you mean "grill"?'),
        ("cooks/fillet.yaml", "how: grill", "how: braize", 'did you mean "braise"?'),
    ],
)
def test_a_slip_is_a_warning_with_what_was_meant(
    path: str, old: str, new: str, hint: str, tmp_path: Path
) -> None:
    found = said(tmp_path, path, old, new)
    assert [each for each in found if hint in each] if hint else not found, found


@pytest.mark.parametrize(
    ("path", "old", "new"),
    [
        ("cuts/salmon.yaml", "2 cases", "24 cases"),
        ("pantry/lemons.yaml", "minimum: 5 kg", "minimum: 250 kg"),
        ("cooks/fillet.yaml", "12 min", "3 h"),
        ("cooks/fillet.yaml", "how: grill\nfor: 12 min", "how: cold smoke\nfor: 20 h"),
        ("cuts/salmon.yaml", "species: fish", "species: fish\nname: Octopus"),
        *(("kitchen.yaml", "water bath", kind) for kind in (
            "deck oven", "orange stove", "boiler", "toaster", "four mixte", "poêle", "Thermo 7",
            "tilting pan", "kiln", "yakitori", "parrilla", "Ofen", "vac pac", "walk-in")),
    ],
)  # fmt: skip
def test_what_may_be_right_is_not_doubted(path: str, old: str, new: str, tmp_path: Path) -> None:
    found = said(tmp_path, path, old, new)
    assert not [each for each in found if "far outside" in each or "slip of the pen" in each], found


def test_an_octopus_may_cook_for_half_a_day(tmp_path: Path) -> None:
    octopus = {"cuts/octopus.yaml": "species: fish\nprice: 19/kg\n"}
    cook = FILES["cooks/fillet.yaml"].replace("salmon", "octopus").replace("grill", "simmer")
    cook = cook.replace("12 min", "10 h")
    _, found = read(write(tmp_path, {**FILES, **octopus, "cooks/fillet.yaml": cook}))
    assert not [p for p in found if "far outside" in p.message]


@pytest.mark.parametrize("word", ["pan", "pot", "hob", "over-easy station", "steam oven", "wok"])
def test_a_word_that_is_known_or_the_kitchen_s_own_stays(word: str) -> None:
    assert spelt(word) == word
