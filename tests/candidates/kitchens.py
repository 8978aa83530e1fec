"""The small invented kitchen with candidates, and how their figures are read."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from builder.costing.costed import Costed
from builder.costing.trials import Trial
from tests.kitchens import costed_from, write
from tests.kitchens.small import SMALL

CLOD = {
    "cuts/clod.yaml": """\
species: beef
muscle: triceps brachii
candidate: {for: ribeye-steak, shape: slab, thickness: 65 mm}
price: 12.00/kg
trim: {loss: 10 %}
"""
}
LISTED = {
    "prices/list.csv": """\
date,item,price,supplier,candidate,muscle
2026-06-01,under-blade,18.00/kg,Invented Meats,,
2026-07-01,under-blade,18.40/kg,Invented Meats,,
2026-08-01,under-blade,18.10/kg,Invented Meats,,
2026-09-01,under-blade,19.00/kg,Invented Meats,ribeye-steak,serratus ventralis
"""
}


def kitchen(root: Path, *more: Mapping[str, str]) -> Costed:
    """The small kitchen with more files."""
    files = dict(SMALL)
    for each in more:
        files.update(each)
    return costed_from(write(root, files))


def figure(costed: Costed, cut: str, name: str) -> float:
    """A figure of a candidate."""
    return costed.figures.value("candidate", name, costed.candidates.rows[cut])


def trial(costed: Costed, cut: str) -> Trial:
    """What a candidate is tried with."""
    [found] = [each for each in costed.candidates.trials if each.cut.id == cut]
    return found
