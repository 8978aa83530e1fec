"""A trial's files are read without a mistake, and its durations come from where they say."""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import date
from pathlib import Path
from shutil import copytree

import pytest

from builder.build import compute_content
from builder.costing.costed import Costed
from builder.costing.trial_files import trial_files
from builder.costing.trials import USUAL_HOURS, Likeness, long_enough
from builder.pages.trial_words import not_known
from builder.pages.view import View
from builder.starter import start
from tests.candidates.kitchens import CLOD, LISTED, figure, kitchen, trial
from tests.kitchens import read, write
from tests.kitchens.small import SMALL
from tests.site.sites import DEMO

CUSTOMARY = {
    "kitchen.yaml": "name: Invented diner\ncurrency: USD\nunits: us customary\nlocale: en_US\n"
    "targets: {food cost: 30 %}\nsections: [mains]\nloaded wage: 19/h\n",
    "cuts/strip.yaml": "species: beef\nprice: 9.90/lb\ntrim: {loss: 8 %}\n",
    "cooks/strip.yaml": "cut: strip\nhow: grill\nload: 10 lb\nloss: 16 %\npiece: {weight: 10 lb}\n",
    "plates/strip.yaml": "menu: mains\ncook: strip\nportion: 8 oz\nprice: 42.00\n",
    "prices/list.csv": "date,item,price,supplier,candidate,muscle\n"
    '2026-09-01,chuck-tender,3.90/lb,"Meats: by Q, Inc.",strip,supraspinatus\n',
}


def copied(root: Path, costed: Costed) -> None:
    """Write the files of every trial as a cook who has copied them would."""
    for each in costed.candidates.trials:
        for path, text in trial_files(each).items():
            target = root / path
            assert not target.exists(), path
            target.parent.mkdir(exist_ok=True)
            target.write_text(text, encoding="utf-8")


def demo(root: Path) -> Path:
    return Path(copytree(DEMO, root / "demo"))


def starter(root: Path) -> Path:
    start(root / "starter")
    return write(root / "starter", CLOD)


def customary(root: Path) -> Path:
    return write(root / "diner", CUSTOMARY)


@pytest.mark.parametrize("made", [demo, starter, customary])
def test_every_file_of_a_trial_is_read_without_an_error(
    made: Callable[[Path], Path], tmp_path: Path
) -> None:
    root = made(tmp_path)
    costed, _ = compute_content(root, date(2026, 10, 1), date(2026, 10, 1))
    assert costed is not None
    assert costed.candidates.trials
    copied(root, costed)
    after, problems = compute_content(root, date(2026, 10, 1), date(2026, 10, 1))
    assert after is not None, [f"{p.place} {p.message}" for p in problems if p.is_error]
    for each in costed.candidates.trials:
        cooks = [cook for cook in after.content.cooks.values() if cook.cut == each.cut.id]
        assert sorted(c.for_.value for c in cooks if c.for_) == list(each.hours)
        assert f"{each.cut.id}-durations" in after.tastings
    # Once written, what was only in a list is a cut with a file, and still a candidate.
    assert all(found.has_file for found in after.candidates.trials)
    assert len(after.candidates.trials) == len(costed.candidates.trials)


def test_durations_come_from_a_tasting_of_the_same_muscle(tmp_path: Path) -> None:
    """Of the demo's chuck durations 18 h was too firm and 60 h fell apart; the rest are tried."""
    costed, _ = compute_content(DEMO, None, date(2026, 10, 1))
    assert costed is not None
    found = trial(costed, "beef-under-blade")
    assert found.likeness is Likeness.MUSCLE
    assert found.tasting is not None
    assert found.tasting.id == "chuck-durations"
    assert 18 not in found.hours
    assert 60 not in found.hours
    assert len(found.hours) >= 3


def test_no_trial_follows_a_cook_that_fails_its_rules() -> None:
    """The demo's eye of round, in a bath of 53.5 °C, lies below the Food Code's first row."""
    costed, _ = compute_content(DEMO, None, date(2026, 10, 1))
    assert costed is not None
    likes = {each.like.id for each in costed.candidates.trials if each.like}
    assert "eye-of-round-18h" not in likes


def test_without_a_tasting_durations_are_common_practice(tmp_path: Path) -> None:
    found = trial(kitchen(tmp_path, LISTED), "under-blade")
    assert found.tasting is None
    assert found.hours == USUAL_HOURS["very tender"]


def test_no_duration_is_shorter_than_the_time_to_the_core(tmp_path: Path) -> None:
    thick = {"cuts/clod.yaml": CLOD["cuts/clod.yaml"].replace("65 mm", "110 mm")}
    costed = kitchen(tmp_path, thick)
    core = figure(costed, "clod", "time_to_core")
    assert core > 8
    assert min(trial(costed, "clod").hours) >= core
    assert long_enough((4.0, 8.0, 12.0), 30.0)[0] >= 30


def test_a_cut_that_has_come_onto_a_plate_is_no_candidate(tmp_path: Path) -> None:
    served = {
        "cooks/clod.yaml": "cut: clod\nhow: braise\nload: 5 kg\nloss: 30 %\n"
        "piece: {weight: 1 kg}\n",
        "plates/clod.yaml": "menu: mains\ncook: clod\nportion: 150 g\nprice: 22.00\n",
    }
    costed, problems = read(write(tmp_path, {**SMALL, **CLOD, **served}))
    assert costed is not None
    assert costed.candidates.trials == ()
    [warning] = [p for p in problems if "no candidate" in p.message]
    assert str(warning.place) == "cuts/clod.yaml:3:18"


def test_a_price_to_come_is_said_to_be_missing(tmp_path: Path) -> None:
    ahead = {"prices/list.csv": LISTED["prices/list.csv"].replace("2026-0", "2027-0")}
    costed = kitchen(tmp_path, ahead)
    assert math.isnan(figure(costed, "under-blade", "ap_price"))
    view = View.of(costed, [])
    assert "Its price on this day." in not_known(view, trial(costed, "under-blade"))


def test_without_a_cook_like_it_a_trial_is_written_in_the_kitchen_s_units(tmp_path: Path) -> None:
    """135 °F is 57.2 °C; 9 lb are 4.1 kg."""
    costed, _ = compute_content(customary(tmp_path), None, date(2026, 10, 1))
    assert costed is not None
    [each] = costed.candidates.trials
    text = "".join(trial_files(each).values())
    assert "at: 135 °F" in text
    assert "load: 9 lb" in text
    assert "°C" not in text and "kg" not in text


@pytest.mark.parametrize("units", ["metric", "us customary"])
def test_a_trial_of_poultry_meets_the_rules(units: str, tmp_path: Path) -> None:
    """Common practice of beef, 57 °C, lies below what the Food Code asks of poultry."""
    authority = f"authority: us-food-code-2017\nunits: {units}\n"
    files = {
        **CUSTOMARY,
        "kitchen.yaml": CUSTOMARY["kitchen.yaml"].replace("units: us customary\n", authority),
        "cuts/thigh.yaml": "species: poultry\nprice: 9.00/kg\ncandidate: {for: strip, "
        "shape: slab, thickness: 40 mm}\n",
    }
    write(tmp_path, files)
    costed, _ = compute_content(tmp_path, None, date(2026, 10, 1))
    assert costed is not None
    copied(tmp_path, costed)
    _, problems = compute_content(tmp_path, None, date(2026, 10, 1))
    assert not [p.message for p in problems if p.is_error]
    assert not [p.message for p in problems if "thigh" in p.record and "not meet" in p.message]
