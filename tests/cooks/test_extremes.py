"""Numbers and dates at the ends of what the files may hold: an answer or a problem, never a crash.

Services, cooks, equipment and days are varied at once; every page that prints them is made.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.build import compute_content
from builder.cli import main
from builder.cooking.schedule import Booking, taken_at_once
from builder.pages.equipment import equipment_page
from builder.pages.log_sheets import log_page, prep_page
from builder.pages.schedule import schedule_pages
from builder.pages.view import View
from builder.quantities.dates import FIRST_YEAR, LAST_YEAR
from tests.cooks.kitchens import BATH, COOK, FILES, KITCHEN
from tests.kitchens import TODAY, write

TODAY_AT = datetime(2026, 10, 1)
SERVICE, PLATE = "services/friday.yaml", "plates/chuck-plate.yaml"
CHILLED = "cool: {to: 3 °C, within: 2 h, in: ice bath}\nreheat: {at: 80 °C, for: 90 min}\n"

# Each key's least and most, and what lies outside of it; one key at a time leaves its range.
ENDS = {
    "covers": (["1", "7", "70000000", "999999999"], ["0"]),
    "forecast": (["0", "400", "999999999"], []),
    "how many": (["1", "2", "100"], ["0", "70000000"]),
    "turn-round": (["0 h", "1 s", "168 h"], ["8784 h"]),
    "hands-on": (["0 h", "1 s", "168 h", "8784 h"], []),
    "for": (["1 min", "30 h", "7 d"], ["0 h", "8784 h"]),
    "ahead": (["0 h", "1 s", "14 d"], ["366 d"]),
    "step": (["0 h", "1 s", "28 d", "8784 h"], []),
    "holds": (["9.6 kg", "2000 kg"], ["0 kg", "1 g", "9000 kg"]),
    "weight": (["0.001 g", "1 g", "2.4 kg", "9.6 kg"], ["0 kg", "9000 kg"]),
    "portion": (["0.001 g", "200 g", "2 kg"], ["0 kg", "9000 kg"]),
    "at": (["55 °C", "95 °C"], ["-270 °C", "301 °C", "5000 °C"]),
    "day": (["1900-01-01", "2026-10-01", "2199-12-31"], ["0001-01-01", "9999-12-31"]),
}


@st.composite
def kitchens(draw: st.DrawFn) -> dict[str, str]:
    """A kitchen with a service, each number from the ends of its key's range."""
    take = {key: draw(st.sampled_from(inside)) for key, (inside, _) in ENDS.items()}
    if draw(st.booleans()):
        key = draw(st.sampled_from([key for key, (_, outside) in ENDS.items() if outside]))
        take[key] = draw(st.sampled_from(ENDS[key][1]))
    bath = BATH.replace("holds: 12 kg", f"holds: {take['holds']}, how many: {take['how many']}")
    bath = bath.replace("turn-round: 1 h", f"turn-round: {take['turn-round']}")
    cook = FILES[COOK].replace("57 °C", take["at"]).replace("30 h", take["for"])
    cook = cook.replace("weight: 2.4 kg", f"weight: {take['weight']}")
    kitchen = FILES[KITCHEN].replace(BATH, bath).replace("2026-10-01", take["day"])
    kitchen += draw(st.sampled_from(["", "time zone: America/Toronto\n"]))
    kitchen += draw(st.sampled_from(["", "staffed: {mon-fri: 07:00-23:00, sat: 18:00-02:00}\n"]))
    plate = FILES[PLATE].replace("400", take["forecast"]).replace("200 g", take["portion"])
    ahead = draw(st.booleans())
    serving = f"[{take['covers']}, {take['ahead']}]" if ahead else take["covers"]
    service = f"""\
day: {draw(st.sampled_from(["Monday", "Sunday"]))}
at: {draw(st.sampled_from(["0:00", "23:59"]))}
plates: {{chuck-plate: {serving}}}
steps: [{{what: taste, for: {take["step"]}}}]
"""
    more = CHILLED if ahead else draw(st.sampled_from(["", CHILLED]))
    cook += f"{more}hands-on: {take['hands-on']}\n"
    return {**FILES, KITCHEN: kitchen, COOK: cook, PLATE: plate, SERVICE: service}


@given(kitchens())
@settings(max_examples=150, deadline=None)
def test_extreme_numbers_are_answered(files: dict[str, str]) -> None:
    with TemporaryDirectory() as folder:
        found, problems = compute_content(write(Path(folder), files), None, TODAY)
    assert all(problem.place.line for problem in problems if problem.is_error)
    if found is None:
        assert any(problem.is_error for problem in problems)
        return
    view = View.of(found, problems)
    assert list(schedule_pages(view))
    assert equipment_page(view)
    assert [prep_page(view, plan) for plan in found.services.values()]
    assert [log_page(view, cook) for cook in found.content.cooks.values()]


def friday(covers: int) -> str:
    return f"day: Friday\nat: 18:00\nplates: {{chuck-plate: {covers}}}\n"


def test_seventy_million_portions_are_counted(tmp_path: Path) -> None:
    """Nine portions a piece of 2.4 kg: 7,777,778 pieces, 18,666,667.2 kg into a bath of 12 kg."""
    files = {**FILES, SERVICE: friday(70_000_000)}
    found, problems = compute_content(write(tmp_path, files), None, TODAY)
    assert found is not None
    (planned,) = found.services["friday"].cooks
    assert (planned.pieces, round(planned.raw_kg, 1)) == (7_777_778, 18_666_667.2)
    reported = [p.message.replace("\xa0", " ") for p in problems]
    assert any(
        "puts 18,666,667 kg into Bath, which holds 12.00 kg" in message for message in reported
    )


@pytest.mark.parametrize("day", ["9999-12-31", "0001-01-01", f"{LAST_YEAR + 1}-01-01"])
def test_a_day_beyond_a_kitchen_s_years_is_refused_at_its_line(tmp_path: Path, day: str) -> None:
    files = {**FILES, KITCHEN: FILES[KITCHEN].replace("2026-10-01", day), SERVICE: friday(20)}
    found, problems = compute_content(write(tmp_path, files), None, TODAY)
    assert found is None
    (problem,) = [p for p in problems if p.is_error]
    assert str(problem.place) == f"{KITCHEN}:3:8"
    assert problem.hint == f"wanted: years from {FIRST_YEAR} to {LAST_YEAR}"


def test_the_command_line_s_day_has_the_same_range(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    root = write(tmp_path, FILES)
    with pytest.raises(SystemExit) as refused:
        main(["check", str(root), "--as-of", "9999-12-31"])
    assert refused.value.code == 2
    assert '"9999-12-31" is out of range' in capsys.readouterr().err


@pytest.mark.parametrize("day", [date(FIRST_YEAR, 1, 1), date(LAST_YEAR, 12, 31)])
def test_the_first_and_last_day_still_have_their_week(tmp_path: Path, day: date) -> None:
    files = {**FILES, SERVICE: friday(20).replace("20}", "[20, 14 d]}")}
    files[COOK] += CHILLED
    root = write(tmp_path, files)
    found, _ = compute_content(root, day, TODAY)
    assert found is not None
    first = next(found.services["friday"].starts())[0].start
    served = found.services["friday"].at
    assert served - first == timedelta(days=14, hours=30 + 2 + 1.5)


def test_staff_steps_beyond_a_year_are_refused(tmp_path: Path) -> None:
    steps = "steps:\n" + "  - {what: age, for: 200 d}\n" * 2
    _, problems = compute_content(
        write(tmp_path, {**FILES, SERVICE: friday(20) + steps}), None, TODAY
    )
    (problem,) = [p for p in problems if p.is_error]
    assert str(problem.place) == f"{SERVICE}:6:22"


bookings = st.builds(
    lambda load, pieces: (load, pieces), st.floats(0.1, 60), st.integers(1, 40)
)  # fmt: skip


@given(st.lists(bookings, min_size=1, max_size=5), st.floats(0.5, 30))
@settings(deadline=None)
def test_pieces_counted_by_the_many_are_those_put_in_one_by_one(
    loads: list[tuple[float, int]], holds: float
) -> None:
    day = (TODAY_AT, TODAY_AT + timedelta(hours=1))
    several = [Booking(str(n), "bath", 57, *day, kg, pcs) for n, (kg, pcs) in enumerate(loads)]
    assert taken_at_once(several, holds) == one_by_one(loads, holds)


def one_by_one(loads: list[tuple[float, int]], holds: float) -> int:
    """The largest first, each piece into the first with room for it."""
    rooms: list[float] = []
    for kg, pieces in sorted(loads, key=lambda load: -load[0] / load[1]):
        piece = kg / pieces
        for _ in range(pieces):
            place = next((n for n, room in enumerate(rooms) if room / piece > 1 - 1e-9), None)
            if place is None:
                rooms.append(holds - piece)
            else:
                rooms[place] -= piece
    return max(len(rooms), 1)
