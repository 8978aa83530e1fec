"""The services' steps as data: what the pages print, elapsed hours, and loads by hand."""

from __future__ import annotations

import math
from collections import defaultdict
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from builder.pages.data import RESOURCES, data_files
from builder.pages.schedule import starts_table
from tests.pages_data.kitchens import view_of
from tests.pages_data.opened import Rows, demo_view, number, table_of

FIVE_MINUTES = timedelta(minutes=5)


def test_steps_are_the_lines_of_the_service_pages() -> None:
    view = demo_view()
    titles = {cook["id"]: cook["name"] for cook in table_of(view, "cooks")}
    called = {gear["id"]: gear["title"] for gear in table_of(view, "equipment")}
    lines = table_of(view, "schedule_steps")
    assert len(lines) > 20
    for plan in view.costed.services.values():
        rows = [row.cells for row in starts_table(view, plan).rows]
        # What has no start is no line of the schedule.
        shown = [cells for cells in rows if cells[0].text != "Not known"]
        found = [line for line in lines if line["service"] == plan.service.id]
        assert [cells[1].text for cells in shown] == [line["step"].capitalize() for line in found]
        for cells, line in zip(shown, found, strict=True):
            start = datetime.fromisoformat(line["start"])
            assert view.style.day_and_time(start) == cells[0].text
            assert cells[2].text == titles.get(line["cook"], "Staff")
            assert cells[3].text == view.style.duration(number(line["hours"]))
            assert cells[4].text == called.get(line["equipment"], "–")
            loads = bool(line["raw_weight"])
            assert (cells[5].text != "–") == loads
            job = view.costed.rows.services.jobs[plan.service.id, line["id"].partition("/")[2]]
            assert cells[3].href == f"=job.hours.{job}"
            assert cells[5].href.rpartition(".")[0] == ("=loading.raw_weight" if loads else "")


def test_steps_follow_each_other_up_to_the_service() -> None:
    chains: dict[str, Rows] = defaultdict(list)
    for line in table_of(demo_view(), "schedule_steps"):
        chains[line["id"].rpartition("/")[0]].append(line)
    for steps in chains.values():
        for step, later in zip(steps, [*steps[1:], None], strict=True):
            start, end, served = (
                datetime.fromisoformat(step[name]) for name in ("start", "end", "served")
            )
            assert start.utcoffset() is not None
            asked = timedelta(hours=number(step["hours"]))
            assert timedelta(0) <= end - start - asked < FIVE_MINUTES
            following = datetime.fromisoformat(later["start"]) if later else served
            assert end == following


def test_what_goes_in_is_counted_by_hand() -> None:
    """Pieces for all covers of a cook, rounded up once; a piece weighs load over pieces."""
    view = demo_view()
    plates = {plate["id"]: plate for plate in table_of(view, "plates")}
    cooks = {cook["id"]: cook for cook in table_of(view, "cooks")}
    loaded = [line for line in table_of(view, "schedule_steps") if line["step"] == "cook"]
    for line in loaded:
        covers = {
            str(plate): serving.covers.value
            for plate, serving in view.costed.content.services[line["service"]].plates.items()
        }
        wanted = math.fsum(
            covers[plate] / number(plates[plate]["portions_per_piece"])
            for plate in line["plates"].split(", ")
        )
        cook = cooks[line["cook"]]
        assert number(line["pieces_to_cook"]) == math.ceil(wanted - 1e-9)
        weight = number(line["pieces_to_cook"]) * number(cook["load"]) / number(cook["pieces"])
        assert number(line["raw_weight"]) == pytest.approx(weight)
    assert len(loaded) > 8


NECK = {
    "cuts/neck.yaml": "species: lamb\nprice: 9/kg\n",
    "cooks/neck.yaml": (
        "cut: neck\nhow: oven\nload: 4 kg\npiece: {weight: 1 kg}\nloss: 25 %\nfor: 12 h\n"
        "hands-on: 8 min\n"
    ),
    "plates/neck.yaml": "menu: mains\ncook: neck\nportion: 150 g\nprice: 20\n",
    "plates/bun.yaml": "menu: mains\ncook: neck\nportion: 75 g\nprice: 12\n",
    "services/lunch.yaml": "day: Sunday\nat: 12:00\nplates: {neck: 11, bun: 8}\n",
}


def test_a_night_in_which_the_clocks_change_by_hand() -> None:
    """In Toronto clocks went back at 06:00 UTC of 2026-11-01: IANA time zone database.

    Noon is 17:00 UTC; twelve hours before is 05:00 UTC, when the clock still shows 01:00 at
    four hours behind. 8 min of work begin on the clock's five minutes, 10 min before. Five
    portions of 150 g a piece and ten of 75 g: 11 / 5 + 8 / 10 = 3 pieces.
    """
    kitchen = "name: S\ncurrency: CAD\nas of: 2026-10-28\ntime zone: America/Toronto\n"
    before, cook = table_of(view_of({"kitchen.yaml": kitchen, **NECK}), "schedule_steps")
    assert (before["start"], before["hours"]) == ("2026-11-01T00:50:00-04:00", repr(8 / 60))
    assert (cook["start"], cook["end"]) == (
        "2026-11-01T01:00:00-04:00", "2026-11-01T12:00:00-05:00",
    )  # fmt: skip
    assert datetime.fromisoformat(cook["end"]).astimezone(UTC).hour == 17
    assert (before["pieces_to_cook"], before["hands_on"]) == ("", "yes")
    assert (cook["pieces_to_cook"], cook["raw_weight"], cook["hands_on"]) == ("3.0", "3.0", "no")
    assert (cook["id"], cook["plates"]) == ("lunch/neck/cook", "neck, bun")


def test_without_a_time_zone_or_a_piece_the_cells_say_only_what_is_known() -> None:
    files = {**NECK, "kitchen.yaml": "name: S\ncurrency: CAD\nas of: 2026-10-28\n"}
    files["cooks/neck.yaml"] = files["cooks/neck.yaml"].replace("piece: {weight: 1 kg}\n", "")
    _, cook = table_of(view_of(files), "schedule_steps")
    assert cook["start"] == "2026-11-01T00:00:00"
    assert (cook["pieces_to_cook"], cook["equipment"]) == ("", "")
    # 11 x 150 g and 8 x 75 g are 2.25 kg, three quarters of what went in.
    assert number(cook["raw_weight"]) == pytest.approx(2.25 / 0.75)


def test_every_key_of_the_demo_leads_somewhere_and_the_reference_reader_finds_no_fault(
    tmp_path: Any,
) -> None:
    tables = {resource.name: table_of(demo_view(), resource.name) for resource in RESOURCES}
    ids = {name: [row["id"] for row in rows] for name, rows in tables.items()}
    for resource in RESOURCES:
        assert len(set(ids[resource.name])) == len(ids[resource.name])
        for field in resource.fields:
            if field.refers:
                named = {row[field.name] for row in tables[resource.name]} - {""}
                assert named <= set(ids[field.refers]), (resource.name, field.name)
    frictionless = pytest.importorskip("frictionless", reason="the reference reader is optional")
    for path, data in data_files(demo_view()):
        (tmp_path / path).parent.mkdir(exist_ok=True)
        (tmp_path / path).write_bytes(data)
    report = frictionless.validate(str(tmp_path / "data/datapackage.json"))
    assert report.valid, report.flatten(["type", "message"])
