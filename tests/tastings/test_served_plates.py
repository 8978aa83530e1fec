"""A tasting says nothing of a plate that it did not serve, nor of its cut."""

from __future__ import annotations

import re

import pytest

from builder.pages.components import Chart, Part, walk
from builder.pages.tasting_evidence import plate_evidence, swap_evidence
from tests.tastings.kitchens import PLACE, TRIANGLE, computed

OTHER = {
    "cuts/pork.yaml": "species: pork\nprice: 6.00/kg\n",
    "cooks/pork-oven.yaml": "cut: pork\nhow: oven\nload: 5 kg\npiece: {weight: 5 kg}\nloss: 30 %\n",
    "plates/pork-plate.yaml": "menu: mains\ncook: pork-oven\nportion: 200 g\nprice: 20.00\n",
}
SWAP = "benchmark: ribeye-steak\nchallengers: [{plates}]\ntasting: trial\n"


def words(found: Part | None) -> str:
    return re.sub(r"<[^>]*>", "", str(found))


@pytest.mark.parametrize(
    ("plates", "served"),
    [("pork-plate", False), ("steak", True), ("pork-plate, steak", True)],
)
def test_a_swap_with_a_tasting_of_something_else(plates: str, served: bool) -> None:
    files = {**OTHER, PLACE: TRIANGLE, "swaps/to-pork.yaml": SWAP.format(plates=plates)}
    view, problems = computed(files)
    assert view is not None
    told = [problem for problem in problems if "serves nothing of" in problem.message]
    assert [(str(problem.place), problem.is_error) for problem in told] == (
        [] if served else [("swaps/to-pork.yaml:3:10", False)]
    )
    found = swap_evidence(view, view.costed.content.swaps["to-pork"])
    assert found is not None
    assert any(isinstance(section, Chart) for section in walk([found])) is served
    assert ("8 correct" in words(found)) is served
    assert ("No tasting of Pork plate yet." in words(found)) is not served
    assert plate_evidence(view, view.costed.content.plates["pork-plate"]) is None
    assert (plate_evidence(view, view.costed.content.plates["steak"]) is not None) is (
        "steak" in plates
    )


@pytest.mark.parametrize(("samples", "doubted"), [("", True), ("{plate: steak}", False)])
def test_a_tasting_of_cooks_tells_two_plates_of_one_cook_not_apart(
    samples: str, *, doubted: bool
) -> None:
    served = TRIANGLE.replace("chuck-24h", samples) if samples else TRIANGLE
    files = {
        **OTHER,
        "plates/twin.yaml": "menu: mains\ncook: chuck-24h\nportion: 180 g\nprice: 25.00\n",
        "plates/steak.yaml": "menu: mains\ncook: chuck-24h\nportion: 200 g\nprice: 30.00\n",
        PLACE: served,
        "swaps/twins.yaml": "benchmark: steak\nchallengers: [twin]\ntasting: trial\n",
    }
    view, problems = computed(files)
    assert view is not None
    told = [problem for problem in problems if "they are of one cook" in problem.message]
    assert [problem.record for problem in told] == (["swaps/twins"] if doubted else [])


@pytest.mark.parametrize(("plate", "served"), [("pork-plate", False), ("steak", True)])
def test_a_plate_whose_evidence_is_of_something_else(plate: str, served: bool) -> None:
    files = {**OTHER, PLACE: TRIANGLE}
    text = {**files, **OTHER}.get(f"plates/{plate}.yaml")
    text = text or "menu: mains\ncook: chuck-24h\nportion: 200 g\nprice: 30.00\n"
    view, problems = computed({**files, f"plates/{plate}.yaml": f"{text}evidence: trial\n"})
    assert view is not None
    assert any("serves nothing of" in problem.message for problem in problems) is not served
    assert (plate_evidence(view, view.costed.content.plates[plate]) is not None) is served


def test_a_whole_plate_that_was_served() -> None:
    """A sample may be a plate: it and its cut count as served."""
    served = TRIANGLE.replace("chuck-24h", "{plate: steak}").replace("chuck-36h", "ribeye-grill")
    files = {**OTHER, PLACE: served, "swaps/a.yaml": SWAP.format(plates="steak")}
    _, problems = computed(files)
    assert not [p for p in problems if "serves nothing of" in p.message]
