"""Every worked example of "Writing the files" is read, and together they make a kitchen."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from builder.build import compute_content
from builder.pages.worked import worked
from builder.records.kinds import RECORDS
from tests.kitchens import TODAY, write

PLACES = {
    "kitchen": ["kitchen.yaml"], "cuts": ["cuts/beef-cheek.yaml"],
    "cooks": ["cooks/beef-cheek-30h.yaml"],
    "pantry": ["pantry/bones.yaml", "pantry/red-sauce.yaml"],
    "plates": ["plates/beef-cheek-plate.yaml"], "swaps": ["swaps/cheek.yaml"],
    "services": ["services/friday.yaml"], "tastings": ["tastings/cheek.yaml"],
    "counts": ["counts/january.yaml"],
    "menus": ["menus/sunday.yaml", "menus/roll.yaml"],
    "buffets": ["buffets/counter.yaml", "buffets/sunday.yaml"],
    "prices": ["prices/quill.csv"], "sales": ["sales/september.csv"], "rules": ["rules/house.yaml"],
}  # fmt: skip


def test_every_folder_has_one() -> None:
    assert {kind.folder for kind in RECORDS} <= set(PLACES)


@pytest.mark.parametrize("customary", [False, True])
def test_the_worked_files_are_a_kitchen_without_an_error(tmp_path: Path, customary: bool) -> None:
    files = {
        place: text
        for folder, places in PLACES.items()
        for place, text in zip(places, worked(folder, customary=customary), strict=True)
    }
    # Swap and tasting stand two plates and two cooks beside each other.
    files["plates/beef-pie.yaml"] = files["plates/beef-cheek-plate.yaml"].replace("plate", "pie", 1)
    files["cooks/beef-cheek-24h.yaml"] = files["cooks/beef-cheek-30h.yaml"].replace("30 h", "24 h")
    files["kitchen.yaml"] += "authority: house\n"
    files["pantry/red-wine.yaml"] = "name: Red wine\nprice: 9.50/L\n"
    root = write(tmp_path, files)
    costed, problems = compute_content(root, date(2026, 10, 1), TODAY)
    assert [f"{p.place}: {p.message}" for p in problems if p.is_error] == []
    assert costed is not None
    assert costed.content.till["beef-cheek-plate", date(2026, 9, 1)].count == 32
    assert costed.heat.authority.rule_set is not None


@pytest.mark.parametrize("customary", [False, True])
def test_each_is_a_page_long(customary: bool) -> None:
    for folder in PLACES:
        lines = sum(text.count("\n") for text in worked(folder, customary=customary))
        assert 4 <= lines <= 30, folder
