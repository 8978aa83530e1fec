"""What clashes is marked in the bars of the schedule and of a service, and said in their rows.

Starts are counted back by hand: supper on Friday at 18:00, an hour after the second cook is out.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from builder.pages.components import Chart, Page, Table, walk
from builder.pages.schedule import schedule_pages
from tests.kitchens import write
from tests.live.test_recomputed import view_of

COOK = (
    "name: {}\ncut: x\nhow: sous vide\nat: {}\nfor: {}\nload: 2 kg\nequipment: bath\nloss: 10 %\n"
)
PLATE = "name: {0}\nmenu: mains\ncook: {1}\nportion: 200 g\nprice: 30\n"
FILES: Mapping[str, str] = {
    "kitchen.yaml": "name: K\ncurrency: CAD\nlocale: en_GB\nas of: 2026-10-01\n"
    "equipment:\n  bath: {title: The bath, kind: water bath, holds: 20 kg}\n",
    "cuts/x.yaml": "name: Shank\nspecies: beef\nprice: 10/kg\n",
    "cooks/long.yaml": COOK.format("Long", "60 °C", "20 h"),
    "cooks/short.yaml": COOK.format("Short", "80 °C", "6 h"),
    "plates/a.yaml": PLATE.format("A", "long"),
    "plates/b.yaml": PLATE.format("B", "short"),
    "services/friday.yaml": "name: Supper\nday: Friday\nat: 18:00\nplates: {a: 10, b: 10}\n",
}
STRETCH = ("2026-10-02T12:00", "2026-10-02T18:00")


def pages(root: Path, **changes: str) -> list[Page]:
    files = {**FILES, **{name.replace("_", "/") + ".yaml": text for name, text in changes.items()}}
    return list(schedule_pages(view_of(write(root, files))))


def timelines(page: Page) -> list[Chart]:
    return [it for it in walk(page.sections) if isinstance(it, Chart) and it.kind == "timeline"]


def test_the_stretch_of_each_bar_that_clashes_is_marked(tmp_path: Path) -> None:
    """Six hours at 80 °C lie in twenty at 60 °C: both bars are marked over the same six."""
    for page in pages(tmp_path):
        (chart,) = timelines(page)
        marks = [row for row in chart.rows if row["role"] == "clash"]
        assert [(row["start"], row["end"]) for row in marks] == [STRETCH, STRETCH]
        assert {row["text"] for row in marks} == {"clash 1"}
        assert len({row["lane"] for row in marks}) == 2
        said = {str(row["task"]) for row in marks}
        assert said == {
            f"clash 1: with {other}, from Fri 12:00 to Fri 18:00" for other in ("Long", "Short")
        }


def test_the_row_of_a_booking_says_with_what_it_clashes(tmp_path: Path) -> None:
    (chart,) = timelines(pages(tmp_path)[0])
    assert isinstance(chart.table, Table)
    assert [column.key for column in chart.table.columns][-1] == "clash"
    said = {str(row.cells[1].text): str(row.cells[-1].text) for row in chart.table.rows}
    assert said["Long"] == "clash 1: with Short, from Fri 12:00 to Fri 18:00"


def test_a_load_that_clashes_with_nothing_but_the_room_says_so(tmp_path: Path) -> None:
    """20 portions of 200 g at a loss of 10 % are 4.4 kg, in a bath or two that hold 2 kg."""
    alone = {
        "holds": (FILES["kitchen.yaml"].replace("20 kg", "2 kg"), "more than it holds"),
        "number": (
            FILES["kitchen.yaml"].replace("holds: 20 kg", "holds: 2 kg, how many: 2"),
            "takes more than there are",
        ),
    }
    service = "name: Supper\nday: Friday\nat: 18:00\nplates: {a: 20}\n"
    for name, (kitchen, why) in alone.items():
        found = pages(tmp_path / name, kitchen=kitchen, services_friday=service)
        chart = timelines(found[0])[0]
        said = f"clash 1: {why}, from Thu 22:00 to Fri 18:00"
        assert isinstance(chart.table, Table)
        assert [str(row.cells[-1].text) for row in chart.table.rows] == [said]
        marks = [row for page in found for row in timelines(page)[0].rows if row["role"] == "clash"]
        assert [str(row["task"]) for row in marks] == [said, said]
        assert {str(row["kind"]) for row in marks} == {"clash: can't be done at once"}


def test_where_nothing_clashes_nothing_is_marked(tmp_path: Path) -> None:
    """Both at 60 °C share the bath."""
    same = COOK.format("Short", "60 °C", "6 h")
    for page in pages(tmp_path, cooks_short=same):
        (chart,) = timelines(page)
        assert {row["role"] for row in chart.rows} == {"step"}
        assert chart.table is not None
        assert all(column.key != "clash" for column in chart.table.columns)


def test_a_clash_with_another_service_names_it_and_comes_round_the_week(tmp_path: Path) -> None:
    """A cook that starts on Sunday at 22:00 for Monday meets the one until Monday at 2:00."""
    supper = "name: Late\nday: Monday\nat: 02:00\nplates: {b: 10}\n"
    lunch = "name: Lunch\nday: Monday\nat: 18:00\nplates: {a: 20}\n"
    week, *services = pages(tmp_path, services_friday=supper, services_lunch=lunch)
    (chart,) = timelines(week)
    marks = {str(row["task"]) for row in chart.rows if row["role"] == "clash"}
    assert marks == {
        "clash 1: with Long (Lunch), from Sun 22:00 to Mon 02:00",
        "clash 1: with Short (Late), from Sun 22:00 to Mon 02:00",
    }
    assert all(any(row["role"] == "clash" for row in timelines(s)[0].rows) for s in services)
