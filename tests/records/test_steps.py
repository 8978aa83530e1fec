"""Steps and keeping times that contradict their record are reported at their line."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

import pytest

from builder.build import compute_content
from builder.problems import Problem
from tests.kitchens import write
from tests.pages_data.kitchens import SMALL

DAY = date(2026, 10, 1)
COOK, PLATE, SAUCE = "cooks/chuck-30h.yaml", "plates/chuck-steak.yaml", "pantry/sauce.yaml"
BARE: Mapping[str, str] = {**SMALL, COOK: SMALL[COOK].partition("store:")[0]}


def problems(folder: Path, file: str, text: str) -> list[Problem]:
    """What is wrong with a kitchen where one file goes on with `text`."""
    found = compute_content(write(folder, {**BARE, file: BARE[file] + text}), None, DAY)[1]
    return [problem for problem in found if problem.is_error]


# The mark is where the mistake is.
MISTAKES = {
    "another temperature, as long": (
        COOK,
        "steps:\n  - {what: Bath, at: §80 °C, for: 30 h}\n",
        "this step is at 80 °C, and the cook is at 57 °C",
        "write 57 °C here",
    ),
    "another temperature, near": (
        COOK,
        "steps:\n  - {what: Bath, at: §59 °C}\n",
        "this step is at 59 °C, and the cook is at 57 °C",
        "write 57 °C here",
    ),
    "another time": (
        COOK,
        "steps:\n  - {what: Bath, at: 57 °C, for: §3 h}\n",
        "this step takes 3 h, and the cook takes 30 h",
        "write 30 h here",
    ),
    "what a cook has not": (
        COOK,
        "steps: [{what: Bag, amounts: {§bones: 1 kg}}]\n",
        'Chuck 30h has no "bones"',
        "its cut, chuck-roll",
    ),
    "more than a batch": (
        COOK,
        "steps: [{what: Bag, amounts: {chuck-roll: §71 kg}}]\n",
        "this step takes 71 kg, and a batch is 8.",
        "fix load:",
    ),
    "a misspelt part": (
        SAUCE,
        "steps: [{what: Boil, amounts: {§stok: 1 L}}]\n",
        'Sauce has no "stok"',
        'did you mean "stock"?',
    ),
    "what is not costed": (
        SAUCE,
        "steps: [{what: Boil, amounts: {§bones: 1 kg}}]\n",
        'Sauce has no "bones"',
        "so that it is costed and its allergens are known",
    ),
    "more in all than the recipe": (
        SAUCE,
        "steps: [{what: A, amounts: {stock: 1.5 L}}, {what: B, amounts: {stock: §900 ml}}]\n",
        "the steps take 2.4 L of stock, and the recipe has 2 L",
        "(pantry/sauce.yaml:1:13)",
    ),
    "more than a plate": (
        PLATE,
        "steps: [{what: Slice, amounts: {chuck-30h: §200 g}}]\n",
        "this step takes 200 g of chuck-30h, and the recipe has 180 g",
        "(plates/chuck-steak.yaml:4:10)",
    ),
    "a volume of meat": (
        PLATE,
        "steps: [{what: Slice, amounts: {chuck-30h: §20 ml}}]\n",
        "20 ml of chuck-30h is no weight",
        "write a weight",
    ),
    "steps of what is bought": (
        "pantry/bones.yaml",
        "steps: [§Chop]\n",
        "Bones is bought",
        "of: and makes:",
    ),
    "no steps": (PLATE, "steps: §[]\n", "no step is in this list", "write one"),
    "a picture that is not there": (
        PLATE,
        "steps: [{what: Slice, picture: [§pictures/none.png, Slices]}]\n",
        'there is no picture "pictures/none.png"',
        "pictures/none.png",
    ),
    "a picture without words": (
        PLATE,
        "steps: [{what: Slice, picture: §pictures/none.png}]\n",
        '"shows" is missing',
        "who can't see it",
    ),
    "a source of nothing": (
        COOK,
        "hold source: §the head chef\n",
        "a source, and nothing is held hot",
        "write hold at:",
    ),
    "time for its other word": (
        PLATE,
        "steps: [{what: Slice, §time: 2 min}]\n",
        'unknown key "time"',
        'did you mean "for"?',
    ),
}


@pytest.mark.parametrize("name", MISTAKES)
def test_a_mistake_is_reported_at_its_place(name: str, tmp_path: Path) -> None:
    file, text, message, hint = MISTAKES[name]
    before, _, _ = (BARE[file] + text).partition("§")
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    [problem] = problems(tmp_path, file, text.replace("§", ""))
    assert str(problem.place) == f"{file}:{line}:{column}"
    assert message in problem.message
    assert hint in problem.hint


@pytest.mark.parametrize(
    "steps",
    [
        "steps: [Season, {what: Bath, at: 57 °C, for: 30 h}, {what: Sear, at: 250 °C}]\n",
        "steps: [{what: Bath, at: 134.6 °F}, {what: Chill, at: 3 °C, for: 30 h}]\n",
        "steps: [{what: Bath, at: 57 °C, for: 20 h}, {what: Turn, at: 57 °C, for: 10 h}]\n",
        "steps: [{what: Trim, amounts: {chuck-roll: 8.4 kg}}, {what: Bag, amounts: "
        "{chuck-roll: 7.1 kg}}]\n",
    ],
)
def test_what_agrees_is_believed(steps: str, tmp_path: Path) -> None:
    assert problems(tmp_path, COOK, steps) == []


def test_a_sub_recipe_is_held_against_the_clause_unless_somebody_says_so(tmp_path: Path) -> None:
    """US model Food Code 3-501.17: day 7 is the last, the day of preparation being day 1."""
    kitchen = BARE["kitchen.yaml"] + "authority: us-food-code-2017\n"
    for number, (store, warned) in enumerate(
        {
            "{at: 3 °C, for: 6 d}": False,
            "{at: 3 °C, for: 7 d}": True,
            "{at: 6 °C, for: 1 d}": True,
            "{at: 3 °C, for: 21 d, source: the head chef}": False,
        }.items()
    ):
        files = {**BARE, "kitchen.yaml": kitchen, SAUCE: BARE[SAUCE] + f"store: {store}\n"}
        _, found = compute_content(write(tmp_path / str(number), files), None, DAY)
        told = [p.message for p in found if p.record == "pantry/sauce" and "3-501.17" in p.message]
        assert bool(told) is warned, store


def test_a_step_waits_for_a_recipe_whose_key_is_misspelt(tmp_path: Path) -> None:
    """The cook that `cok` names may be the one of the step."""
    text = BARE[PLATE].replace("cook:", "cok:", 1)
    steps = "steps: [{what: Slice, amounts: {chuck-30h: 100 g}}]\n"
    found = compute_content(write(tmp_path, {**BARE, PLATE: text + steps}), None, DAY)[1]
    assert [p.message for p in found if p.is_error] == ['unknown key "cok"']
