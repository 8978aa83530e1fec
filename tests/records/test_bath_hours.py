"""A lone cook in a bath whose hours are not those of its kind of cut."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.kitchens import read, write

FILES = {
    "kitchen.yaml": "name: A\ncurrency: CAD\nequipment: {bath: {kind: water bath, holds: 12 kg}}\n",
    "cuts/chuck-roll.yaml": "species: beef\nprice: 13.00/kg\n",
    "cooks/soft.yaml": (
        "cut: chuck-roll\nhow: water bath\nat: 57 °C\nfor: 30 h\nequipment: bath\nload: 8 kg\n"
        "loss: 25 %\npiece: {shape: slab, thickness: 60 mm, weight: 2 kg}\n"
    ),
    "plates/steak.yaml": "menu: mains\ncook: soft\nportion: 180 g\nprice: 28.00\n",
}

BEEF = "species: beef"


def said(root: Path, *changes: tuple[str, str]) -> list[str]:
    cook, cut = FILES["cooks/soft.yaml"], FILES["cuts/chuck-roll.yaml"]
    for old, new in changes:
        assert old in cook + cut
        cook, cut = cook.replace(old, new), cut.replace(old, new)
    name = "cuts/chuck-roll.yaml"
    _, problems = read(write(root, {**FILES, "cooks/soft.yaml": cook, name: cut}))
    return [f"{p.message} {p.hint}" for p in problems if "in a water bath" in p.message]


@pytest.mark.parametrize(
    ("changes", "hint"),
    [
        ((("30 h", "3 h"),), "did you mean 30 h?"),
        ((("30 h", "3 h"), (BEEF, f"name: Brisket\n{BEEF}")), "did you mean 30 h?"),
        ((("30 h", "20 h"), (BEEF, f"name: Tenderloin\n{BEEF}")), "did you mean 2 h?"),
    ],
)
def test_a_time_that_no_such_cut_takes_is_doubted(
    changes: tuple[tuple[str, str], ...], hint: str, tmp_path: Path
) -> None:
    [found] = said(tmp_path, *changes)
    assert "for Chuck roll" in found or "for Brisket" in found or "for Tenderloin" in found
    assert hint in found and "write checked:" in found


@pytest.mark.parametrize(
    "changes",
    [
        (),
        (("30 h", "8 h"),),
        (("30 h", "3 h"), ("60 mm", "35 mm")),  # steaks of it
        (("30 h", "3 h"), ("57 °C", "80 °C")),  # a braise's heat
        (("30 h", "3 h"), ("loss: 25 %", "loss: 25 %\nform: ground")),
        (("30 h", "3 h"), (BEEF, f"name: Chuck eye\n{BEEF}")),
        (("30 h", "3 h"), (BEEF, f"name: Flat iron\n{BEEF}")),
        (("30 h", "3 h"), ("loss: 25 %", "loss: 25 %\nchecked: 2026-09-30")),
    ],
)
def test_what_may_be_right_is_not_doubted(
    changes: tuple[tuple[str, str], ...], tmp_path: Path
) -> None:
    assert said(tmp_path, *changes) == []


@pytest.mark.parametrize(
    ("changes", "reason", "no_reason"),
    [
        (
            (("30 h", "100 h"), (BEEF, "name: Pork shoulder\nspecies: pork")),
            "gave way long before",
            "takes half a day",
        ),
        (
            (("30 h", "10 min"), ("thickness: 60 mm, ", ""), (BEEF, f"name: Rib eye\n{BEEF}")),
            "takes longer than that to warm",
            "goes soft",
        ),
    ],
)
def test_the_reason_is_of_the_end_at_which_the_hours_lie(
    changes: tuple[tuple[str, str], ...], reason: str, no_reason: str, tmp_path: Path
) -> None:
    """A tender cut's ten minutes are no long bath, and a week is no short one."""
    [found] = said(tmp_path, *changes)
    assert reason in found and no_reason not in found


def test_a_question_ends_its_sentence(tmp_path: Path) -> None:
    [found] = said(tmp_path, ("30 h", "3 h"))
    assert "did you mean 30 h? If it is right, write checked:" in found
