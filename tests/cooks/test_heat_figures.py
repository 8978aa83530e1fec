"""The heat of a cook as figures: held to published rows and to a solver of its own.

The rows are those of the Food Code and of FSIS Appendix A and B, each with its status beside
the data; the solver is finite differences, which shares nothing with the builder's series.
"""

from __future__ import annotations

import csv
import io
import math
import re
from functools import partial
from pathlib import Path

import pytest
from scipy.optimize import brentq

from builder.costing.costed import Costed
from builder.pages.data import data_files
from builder.pages.rendering import render
from builder.pages.site import frame
from builder.pages.view import View
from tests.cooking.finite_differences import temperatures
from tests.cooking.published import rows
from tests.cooks.kitchens import COOK, FILES, KITCHEN, changed, costed
from tests.kitchens import pages_but_methods

CHILLED = "cool: {to: 4 °C, within: 6 h, in: ice bath}\n"
# Diffusivity [m²/s] and film [W/m²K] of lean meat in a water bath and in ice water.
PROPERTIES = {
    "slow": (1.11e-7, 95, 60),
    "typical": (1.25e-7, 150, 120),
    "fast": (1.45e-7, 300, 250),
}
GRILL = "cut: chuck\nhow: grill\nload: 5 kg\nloss: 18 %\n"
PUBLISHED = {float(row["degC"]): float(row["hold_seconds"]) for row in rows("food_code_roasts")}


def batch(kitchen: Costed, figure: str, cook: str = "chuck-30h") -> float:
    return kitchen.figures.value("batch", figure, kitchen.rows.cooks[cook])


def core(start_c: float, around_c: float, end: str, hours: float, *, cold: bool = False) -> float:
    """The core [°C] of the kitchen's 60 mm slab, by finite differences."""
    diffusivity, hot, ice = PROPERTIES[end]
    film = ice if cold else hot
    found = temperatures(0.03, 0, start_c, around_c, diffusivity, film, 0.48, hours * 60)
    return float(found[1][0])


@pytest.mark.parametrize("end", PROPERTIES)
def test_the_core_is_there_by_another_solver(end: str, tmp_path: Path) -> None:
    kitchen = costed(tmp_path)
    counted = batch(kitchen, "core_counted")
    hours = batch(kitchen, f"time_to_core_{end}")
    assert core(4, 57, end, hours) == pytest.approx(counted, abs=0.05)
    assert batch(kitchen, f"hold_{end}") == pytest.approx(30 - hours)


def test_what_the_clause_asks_is_a_published_row(tmp_path: Path) -> None:
    seen = set()
    for at in (55, 57, 60, 63, 66):
        kitchen = costed(tmp_path / str(at), changed(COOK, ("at: 57 °C", f"at: {at} °C")))
        asked = round(batch(kitchen, "asked_core"), 1)
        assert batch(kitchen, "asked_hold") * 3600 == pytest.approx(PUBLISHED[asked])
        assert batch(kitchen, "core_counted") == batch(kitchen, "asked_core")
        spare = 30 - batch(kitchen, "time_to_core_slow") - PUBLISHED[asked] / 3600
        assert batch(kitchen, "hold_margin") == pytest.approx(spare)
        seen.add(asked)
    assert len(seen) > 3


def test_a_cook_that_is_too_short_has_less_than_nothing_to_spare(tmp_path: Path) -> None:
    kitchen = costed(tmp_path, changed(COOK, ("for: 30 h", "for: 3 h")))
    asked = PUBLISHED[round(batch(kitchen, "asked_core"), 1)] / 3600
    held = max(3 - batch(kitchen, "time_to_core_slow"), 0)
    assert batch(kitchen, "hold_slow") == pytest.approx(held)
    assert batch(kitchen, "hold_margin") == pytest.approx(
        3 - batch(kitchen, "time_to_core_slow") - asked
    )
    assert batch(kitchen, "hold_margin") < 0


def test_cooling_is_timed_through_the_published_stages(tmp_path: Path) -> None:
    """57 °C to 70 °F within 2 h and to 41 °F within 6 h: Food Code 3-501.14(A) [read]."""
    kitchen = costed(tmp_path, changed(COOK, more=CHILLED))
    stages = kitchen.rows.cooling["chuck-30h"]
    value = kitchen.figures.value
    for row, to_f, allowed in zip(stages[:2], (70, 41), (2, 6), strict=True):
        to = (to_f - 32) / 1.8
        assert value("cooling", "stage_to", row) == pytest.approx(to)
        assert value("cooling", "stage_allowed", row) == pytest.approx(allowed)
        assert value("cooling", "around_temperature", row) == 1
        for end in PROPERTIES:
            hours = value("cooling", f"cooling_{end}", row)
            assert core(57, 1, end, hours, cold=True) == pytest.approx(to, abs=0.05)
    for end in PROPERTIES:
        hours = batch(kitchen, f"chilled_{end}")
        assert core(57, 1, end, hours, cold=True) == pytest.approx(4, abs=0.05)


@pytest.mark.parametrize("authority", ["us-food-code-2017", "us-fsis-appendix-a-1999-6.5-log"])
def test_the_core_comes_up_from_50_to_130_f_beside_6_h(authority: str, tmp_path: Path) -> None:
    """FSIS Appendix A's own clause [secondary]; elsewhere the caution that repeats it."""
    kitchen = costed(tmp_path, changed(KITCHEN, ("us-food-code-2017", authority)))
    assert batch(kitchen, "come_up_allowed") == pytest.approx(6)
    rising = partial(core, 4, 57, "slow")
    into, slow = (
        brentq(lambda hours, to=to: rising(hours) - to, 0.1, 6, xtol=1e-3)
        for to in (10, (130 - 32) / 1.8)
    )
    assert batch(kitchen, "come_up") == pytest.approx(slow - into, abs=0.01)


def test_what_is_written_has_its_place_and_what_is_taken_its_reason(tmp_path: Path) -> None:
    kitchen = costed(tmp_path)
    row = kitchen.rows.cooks["chuck-30h"]
    places = {
        figure: str(kitchen.figures.origin(("batch", figure), row).place)
        for figure in ("cook_temperature", "thickness", "start_temperature", "shape_factor")
    }
    assert {place.rpartition(":")[0] for place in places.values()} == {f"{COOK}:3", f"{COOK}:7"}
    assert kitchen.figures.origin(("batch", "thickness_spread"), row).reason == (
        "no spread is written"
    )
    asked = kitchen.figures.origin(("batch", "asked_hold"), row).reason
    assert asked.startswith("3-401.11(B): ")
    made = kitchen.figures.made_from(("batch", "time_to_core_slow"), row)
    assert (("batch", "thickness"), row) in made


def test_what_is_not_modelled_is_empty(tmp_path: Path) -> None:
    kitchen = costed(tmp_path, {**FILES, "cooks/grilled.yaml": GRILL})
    table = list(csv.DictReader(io.StringIO(data(kitchen, "cooks"))))
    (grilled,) = (row for row in table if row["id"] == "grilled")
    (bagged,) = (row for row in table if row["id"] == "chuck-30h")
    empty = [name for name in grilled if re.match("time_to_core|hold_|come_up|chilled|core_", name)]
    assert len(empty) == 14
    assert {grilled[name] for name in empty} == {""}
    assert float(bagged["time_to_core_slow"]) == batch(kitchen, "time_to_core_slow")
    assert bagged["verdict"] == "meets"


def test_without_an_authority_the_core_still_has_its_times(tmp_path: Path) -> None:
    files = changed(KITCHEN, ("authority: us-food-code-2017\n", ""))
    kitchen = costed(tmp_path, {**files, COOK: changed(COOK, more=CHILLED)[COOK]})
    assert batch(kitchen, "core_counted") == 56.5
    hours = batch(kitchen, "time_to_core_slow")
    assert core(4, 57, "slow", hours) == pytest.approx(56.5, abs=0.05)
    assert math.isnan(batch(kitchen, "asked_hold"))
    assert math.isnan(batch(kitchen, "hold_margin"))
    assert kitchen.rows.cooling["chuck-30h"] == []
    assert core(57, 1, "slow", batch(kitchen, "chilled_slow"), cold=True) == pytest.approx(
        4, abs=0.05
    )


def test_stages_of_cooling_go_out_as_data(tmp_path: Path) -> None:
    kitchen = costed(tmp_path, changed(COOK, more=CHILLED))
    table = list(csv.DictReader(io.StringIO(data(kitchen, "cooling"))))
    assert [row["id"] for row in table] == [
        f"chuck-30h/{where}/{stage}" for where in ("ice-bath", "blast-chiller") for stage in (1, 2)
    ]
    for row in table:
        kept = float(row["cooling_slow"]) <= float(row["stage_allowed"])
        assert row["verdict"] == ("meets" if kept else "does not meet")


def data(kitchen: Costed, table: str) -> str:
    return dict(data_files(View.of(kitchen, ())))[f"data/{table}.csv"].decode()


ON_PAGES = {
    "cooks/chuck-30h.html": {
        *("batch.cook_temperature", "batch.cook_hours", "batch.thickness"),
        *(f"batch.time_to_core_{end}" for end in PROPERTIES),
        *("batch.hold_slow", "batch.asked_hold", "batch.hold_margin"),
        *("batch.chill_to", "batch.chill_within", "batch.chilled_slow"),
        *("cooling.cooling_slow", "cooling.cooling_typical"),
        *("cooling.stage_allowed", "cooling.thickest"),
    },
    "cooks.html": {"batch.cook_temperature", "batch.cook_hours", "batch.hold_margin"},
    "forms/chuck-30h-log.html": {"batch.cook_temperature", "batch.cook_hours"},
    "forms/chuck-30h-cooking-loss.html": {"batch.cook_temperature", "batch.cook_hours"},
    "equipment.html": {"batch.cook_temperature"},
}
# What is written as the rule prints it, or both ends at once.
OTHER_WORDS = {"batch.asked_hold", "batch.chilled_slow"}
_LINK = re.compile(r"<a href=[^>]*methods/(\w+)-([\w-]+)\.html#(\d+)>(.*?)</a>")


@pytest.mark.parametrize("units", ["", "units: us customary\n"])
def test_numbers_on_pages_lead_to_their_figures(units: str, tmp_path: Path) -> None:
    files = {**changed(KITCHEN, more=units), COOK: changed(COOK, more=CHILLED)[COOK]}
    view = View.of(costed(tmp_path, files), ())
    pages = {page.path: page for page in pages_but_methods(view) if page.path in ON_PAGES}
    site = frame(view)
    for path, expected in ON_PAGES.items():
        found = set()
        for table, slug, row, text in _LINK.findall(render(pages[path], site).decode()):
            figure = slug.replace("-", "_")
            found.add(f"{table}.{figure}")
            if table in {"batch", "cooling"} and f"{table}.{figure}" not in OTHER_WORDS:
                assert text == view.text(table, figure, int(row)), (path, figure)
        assert expected <= found, path
