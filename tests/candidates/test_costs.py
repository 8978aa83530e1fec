"""What candidates cost: by hand, and against figures that others have published."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from scipy.stats import t

from builder.data import cooking_yields
from builder.data.muscles import GRADES, muscles
from tests.candidates.kitchens import CLOD, LISTED, figure, kitchen, trial
from tests.kitchens import costed_from, write

HERE = Path(__file__).parent
SHOULDER = 0.6628
"""Shoulder pot roast, boneless, braised: USDA Table of Cooking Yields, Release 2, 2014."""


def test_a_portion_by_hand(tmp_path: Path) -> None:
    """Each line in the order in which a cook would reckon it, from what the files say."""
    costed = kitchen(tmp_path, CLOD)
    found = trial(costed, "clod")
    assert (found.like and found.like.id, found.hours) == ("chuck-30h", (8, 12, 24))
    trimmed = 12.00 / 0.90
    servable_share = SHOULDER * 0.97  # the sear of the kitchen's own long cook loses 3 %
    raw = 0.220 / servable_share
    meat = 1.02 * raw * trimmed
    # The long cook: 35 min of work, bags for 3.20, a bath of 1150 over 6000 h at 0.21 kW.
    load = (7.10 + 7.51) / 2
    work = raw / load * 35 / 60 * 24.50
    process = raw / load * (3.20 + 12 * (1150 / 6000 + 0.21 * 0.14))
    assert figure(costed, "clod", "meat_cost") == pytest.approx(meat, rel=1e-9)
    assert figure(costed, "clod", "work_cost") == pytest.approx(work, rel=1e-9)
    assert figure(costed, "clod", "process_cost") == pytest.approx(process, rel=1e-9)
    assert figure(costed, "clod", "portion_cost") == pytest.approx(meat + work + process, rel=1e-9)
    assert figure(costed, "clod", "bath_hours_per_portion") == pytest.approx(raw / load * 12)


def test_a_saving_leaves_sides_and_plating_as_they_are(tmp_path: Path) -> None:
    """Ribeye by hand: 4.5 kg, one piece, 17 % cook loss, 20 min of work, 16 whole portions."""
    costed = kitchen(tmp_path, CLOD)
    ap_kg = 4.5 / 0.91
    meat = ap_kg * (41.00 - 0.04 * 7.90) / (4.5 * 0.83 // 0.220)
    work = 20 / 60 * 24.50 / (4.5 * 0.83 // 0.220)
    expected = 1.02 * meat + work
    assert figure(costed, "clod", "benchmark_portion_cost") == pytest.approx(expected, rel=1e-9)
    saving = expected - figure(costed, "clod", "portion_cost")
    assert figure(costed, "clod", "portion_saving") == pytest.approx(saving, rel=1e-9)


def test_the_price_that_saves_nothing_put_back_saves_nothing(tmp_path: Path) -> None:
    limit = figure(kitchen(tmp_path / "a", CLOD), "clod", "ap_price_that_saves_nothing")
    dear = {"cuts/clod.yaml": CLOD["cuts/clod.yaml"].replace("12.00", f"{limit:.6f}")}
    saving = figure(kitchen(tmp_path / "b", CLOD, dear), "clod", "portion_saving")
    assert saving == pytest.approx(0.0, abs=1e-5)


def test_the_range_of_a_lone_spread_is_its_own(tmp_path: Path) -> None:
    """Only the published yield of 71 samples (SD 6.13 points) moves the cost: its t is known."""
    costed = kitchen(tmp_path, CLOD)
    meat, rest = (
        figure(costed, "clod", "meat_cost") * SHOULDER,
        figure(costed, "clod", "portion_cost") - figure(costed, "clod", "meat_cost"),
    )
    for end, share in (("low", 0.95), ("high", 0.05)):
        drawn = SHOULDER + 0.0613 * t.ppf(share, 70)
        expected = meat / drawn + rest * SHOULDER / drawn
        found = figure(costed, "clod", f"portion_cost_{end}")
        assert found == pytest.approx(expected, rel=2e-3)


def test_pot_roast_per_cooked_pound_as_from_two_public_tables(tmp_path: Path) -> None:
    """BLS, November 2023: 7.612 a lb over the yield of under-blade pot roast, 64 %: 11.894.

    Sirloin steak the same way: 14.416 a cooked lb.
    """
    files = {
        "kitchen.yaml": "name: Public tables\ncurrency: USD\n",
        "cuts/sirloin.yaml": "species: beef\nprice: 11.533/lb\n",
        "cooks/sirloin.yaml": "cut: sirloin\nhow: grill\nload: 1 lb\npublished: usda 13930\n",
        "plates/sirloin.yaml": "menu: mains\ncook: sirloin\nportion: 8 oz\nprice: 30.00\n",
        "cuts/blade.yaml": "species: beef\nmuscle: serratus ventralis\ncandidate: sirloin\n"
        "price: 7.612/lb\ntrim: {loss: 0 %}\n",
    }
    costed = costed_from(write(tmp_path, files))
    pound = 0.45359237
    assert figure(costed, "blade", "cost_per_servable_kg") * pound == pytest.approx(
        11.894, abs=5e-4
    )
    # The steak: 14.416 a cooked lb; half a pound of each.
    assert figure(costed, "blade", "portion_saving") == pytest.approx(
        (14.416 - 11.894) / 2, abs=1e-3
    )


def test_candidates_at_wholesale_prices_save_as_price_over_yield_says(tmp_path: Path) -> None:
    """Rows of a boxed-beef report against ribeye: the order of savings by price over yield."""
    with (HERE / "boxed_beef.csv").open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    files = {
        "kitchen.yaml": "name: Boxed beef\ncurrency: USD\n",
        "cuts/ribeye.yaml": "species: beef\nprice: 7.8431/lb\n",
        "cooks/ribeye.yaml": "cut: ribeye\nhow: roast\nload: 10 lb\npublished: usda 23198\n",
        "plates/ribeye.yaml": "menu: mains\ncook: ribeye\nportion: 10 oz\nprice: 60.00\n",
        **{
            f"cuts/{row['id']}.yaml": f"species: beef\nmuscle: {row['muscle']}\n"
            f"candidate: ribeye\nprice: {float(row['wavg_cwt']) / 100}/lb\ntrim: {{loss: 0 %}}\n"
            for row in rows
        },
    }
    costed = costed_from(write(tmp_path, files))
    expected = {
        row["id"]: 10 / 16 * (7.8431 / 0.758 - float(row["wavg_cwt"]) / float(row["yield_pct"]))
        for row in rows
    }
    for cut, saving in expected.items():
        assert figure(costed, cut, "portion_saving") == pytest.approx(saving, abs=1e-6)
    assert len({round(saving, 6) for saving in expected.values()}) == len(rows)


def test_a_cut_that_nobody_trimmed_is_trimmed_like_the_others(tmp_path: Path) -> None:
    """Chuck leaves (7.10 + 7.51) of (8.42 + 9.05) kg, ribeye 91 %: their mean stands in."""
    costed = kitchen(tmp_path, LISTED)
    chuck = (7.10 + 7.51) / (8.42 + 9.05)
    assert figure(costed, "under-blade", "trim_left") == pytest.approx((chuck + 0.91) / 2)
    assert figure(costed, "under-blade", "ap_price") == 19.00
    assert costed.uncertainty is not None
    [spread] = costed.uncertainty.spreads["candidate", "stand_in_trim"].values()
    # One more cut beside two: their deviation times the root of one and a half.
    assert spread.scale == pytest.approx(np.std([chuck, 0.91], ddof=1) * math.sqrt(1.5))


def test_a_listed_price_moves_as_its_list_did(tmp_path: Path) -> None:
    costed = kitchen(tmp_path, LISTED)
    assert costed.uncertainty is not None
    [spread] = costed.uncertainty.spreads["candidate", "listed_price"].values()
    steps = np.diff(np.log([18.00, 18.40, 18.10, 19.00]))
    expected = math.sqrt((steps**2).sum() / 92 * 365.25 / 12)
    assert (spread.count, spread.relative) == (3, True)
    assert spread.scale == pytest.approx(expected, rel=1e-12)


PUBLISHED = {
    "very tender": ("psoas major", "infraspinatus", "serratus ventralis"),
    "tender": (
        "longissimus lumborum", "longissimus thoracis", "triceps brachii", "gluteus medius",
    ),
    "intermediate": (
        "semitendinosus", "biceps femoris", "semimembranosus", "supraspinatus", "gastrocnemius",
    ),
    "tough": ("trapezius", "brachialis", "extensor carpi radialis"),
}  # fmt: skip
"""Belew et al. 2003, Meat Science: muscles by class of shear force [abstract read; in part for the
last class]."""
LIMITS = {"very tender": (0, 3.2), "tender": (3.2, 3.9), "intermediate": (3.9, 4.6),
          "tough": (4.6, math.inf)}  # fmt: skip


def test_muscles_are_graded_as_published() -> None:
    assert tuple(PUBLISHED) == GRADES
    found = {
        grade: tuple(m.name for m in muscles().values() if m.grade == grade) for grade in GRADES
    }
    assert found == PUBLISHED
    for muscle in muscles().values():
        first = muscle.shear_forces[0]
        low, high = LIMITS[muscle.grade]
        assert (0 if math.isnan(first.low) else first.low) == low
        assert (math.inf if math.isnan(first.high) else first.high) == high
        assert all(force.source and "read" in force.status for force in muscle.shear_forces)
        assert muscle.cooking_yield in cooking_yields()


def test_later_figures_of_a_muscle_are_kept_beside_its_class() -> None:
    """Shackelford et al. 1997, J Anim Sci 75:2411; Searls et al. 2005, 83:2835 [abstracts read]."""
    eye, tender = (muscles()[name].shear_forces[1] for name in ("semitendinosus", "supraspinatus"))
    assert (eye.low, eye.high) == (3.9, 5.1)
    assert tender.low == tender.high == 5.43
