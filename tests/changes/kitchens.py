"""A kitchen small enough to be computed by hand, and what one build of it says of another."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from builder.costing.costed import Costed
from builder.costing.history import Entry, History
from builder.costing.moves import with_history
from tests.kitchens import costed_from, write

Files = Mapping[str, str]

COOK = (
    "cut: x\nhow: oven\nload: 5 kg\npiece: {weight: 5 kg}\nloss: 20 %\nhands-on: 1 h\n"
    "energy: 10 kWh\n"
)
PLATE = """menu: mains
cook: a
portion: 200 g
price: 20
hands-on: 0 min
sold: {2026-09: 10}
"""
# 5 kg at 10 leave 4 kg: 20 portions of 2.50; an hour at 20 makes 1.00 each, 10 kWh at 0.20 0.10.
BEFORE: Files = {
    "kitchen.yaml": (
        "name: Ferrystone Kitchen\ncurrency: CAD\nlocale: en_CA\nloaded wage: 20/h\n"
        "energy: 0.20/kWh\n"
    ),
    "cuts/x.yaml": "species: beef\nprice: 10/kg\n",
    "pantry/salsa.yaml": "price: 8/kg\n",
    "cooks/a.yaml": COOK,
    "plates/dear.yaml": PLATE,
    "plates/other.yaml": PLATE.replace("price: 20", "price: 15"),
}


def edited(*edits: tuple[str, str, str], files: Files = BEFORE) -> dict[str, str]:
    """The kitchen after edits of a file, each a text and what is written in its place."""
    found = dict(files)
    for path, old, new in edits:
        assert old in found[path]
        found[path] = found[path].replace(old, new)
    return found


def built(root: Path, files: Files, before: History | None = None) -> Costed:
    """A build of a kitchen after another."""
    return with_history(costed_from(write(root, files)), before or History())


def pair(root: Path, files: Files, before: Files = BEFORE) -> Costed:
    """A kitchen built after an earlier state of it."""
    return built(root / "after", files, built(root / "before", before).history)


def entry(root: Path, files: Files, before: Files = BEFORE) -> Entry:
    """What the second of two builds says."""
    (found,) = pair(root, files, before).history.entries
    return found
