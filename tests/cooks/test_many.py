"""Many cores solved at once are the cores solved one by one."""

from __future__ import annotations

import re
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.cooking.pieces import ICE_BATH, WATER_BATH, CoreEstimate, Piece, solve
from builder.cooking.schedule import Booking, hours_kept
from builder.costing.costed import Costed
from builder.costing.services import bookings, kept_hours
from tests.cooks.kitchens import (
    BATH,
    COOK,
    FILES,
    KITCHEN,
    changed,
    costed,
    pages,
    problems,
)

MONDAY = datetime(2026, 9, 28)

pieces = st.builds(
    Piece,
    st.floats(5, 200),
    st.floats(0, 2),
    st.floats(0, 30),
    st.sampled_from([0.0, 0.1]),
)
estimates = st.builds(
    CoreEstimate, pieces, st.sampled_from([WATER_BATH, ICE_BATH]), st.floats(45, 90)
)


@given(st.lists(estimates, min_size=1, max_size=5), st.lists(st.floats(31, 95), max_size=4))
@settings(max_examples=40, deadline=None)
def test_solved_together_or_alone(several: list[CoreEstimate], targets: list[float]) -> None:
    """Times agree to a billionth, and only what can be reached is solved."""
    for alone, solved in zip(several, solve(several, [targets] * len(several)), strict=True):
        assert set(solved.reached) == {t for t in targets if alone.reaches(t)}
        for target, found in solved.reached.items():
            expected = alone.reach_min(target)
            assert (found.low, found.typical, found.high) == pytest.approx(
                (expected.low, expected.typical, expected.high), rel=1e-9
            )


def test_a_cook_among_many_says_what_it_says_alone(tmp_path: Path) -> None:
    """The same file beside twenty other cooks, of other thicknesses and temperatures."""
    chilled = changed(COOK, more="cool: {to: 3 °C, within: 2 h}\n")
    others = {
        f"cooks/other-{n}.yaml": chilled[COOK]
        .replace("60 mm", f"{20 + 5 * n} mm")
        .replace("57 °C", f"{55 + n / 2} °C")
        for n in range(20)
    }
    alone = costed(tmp_path / "alone", chilled)
    among = costed(tmp_path / "among", {**chilled, **others})
    cut, cook = alone.content.cuts["chuck"], alone.content.cooks["chuck-30h"]
    first, second = (kitchen.heat.verdict(cook, cut) for kitchen in (alone, among))
    assert first is not None
    assert second is not None
    assert (first.sentence, first.reasons) == (second.sentence, second.reasons)
    assert [c.verdict.reasons for c in alone.heat.chillings(cook)] == [
        c.verdict.reasons for c in among.heat.chillings(among.content.cooks["chuck-30h"])
    ]


def test_a_thinner_or_longer_cook_keeps_more_in_hand(tmp_path: Path) -> None:
    """Through the files: the minutes to spare grow with the hours and shrink with thickness."""

    def to_spare(name: str, *change: tuple[str, str]) -> float:
        kitchen = costed(tmp_path / name, changed(COOK, *change) if change else FILES)
        cook = kitchen.content.cooks["chuck-30h"]
        verdict = kitchen.heat.verdict(cook, kitchen.content.cuts["chuck"])
        assert verdict is not None
        assert verdict.hold is not None
        return verdict.hold.margin_min

    plain = to_spare("plain")
    assert to_spare("long", ("for: 30 h", "for: 31 h")) == pytest.approx(plain + 60)
    assert to_spare("thin", ("thickness: 60 mm", "thickness: 50 mm")) > plain
    assert to_spare("hot", ("at: 57 °C", "at: 58 °C")) > plain
    assert to_spare("uneven", ("thickness: 60 mm", "thickness: 60 mm, spread: 10 %")) < plain


# Several of one kind of equipment: arithmetic on loads and hours, common practice.

TWO = "{kind: water bath, how many: 2, volume: 20 L, holds: 12 kg, cover: open, turn-round: 1 h}"
OTHERS = {
    "cooks/shank.yaml": FILES[COOK].replace("57 °C", "65 °C"),
    "cooks/rib.yaml": FILES[COOK].replace("57 °C", "71 °C"),
    "plates/shank-plate.yaml": "menu: mains\ncook: shank\nportion: 200 g\nprice: 25.00\n",
    "plates/rib-plate.yaml": "menu: mains\ncook: rib\nportion: 200 g\nprice: 25.00\n",
}


def of_two(plates: str, *, bath: str = TWO) -> dict[str, str]:
    """A kitchen of two baths alike, with one service."""
    kitchen = changed(KITCHEN, (BATH, bath))
    service = f"day: Friday\nat: 18:00\nplates: {{{plates}}}\n"
    return {**kitchen, **OTHERS, "services/friday.yaml": service}


def gear(kitchen: Costed, figure: str) -> float:
    return kitchen.figures.value("equipment", figure, kitchen.rows.equipment["bath"])


def clashes(root: Path, files: dict[str, str]) -> list[str]:
    found = [p for p in problems(root, files) if p.place.file.startswith("services/")]
    return [p.message.replace("\xa0", " ") for p in found]


def test_two_baths_hold_what_one_does_not(tmp_path: Path) -> None:
    """279 h booked, of 2 x 168: the same forecast that needs two baths has them."""
    one = costed(tmp_path / "one")
    two = costed(tmp_path / "two", changed(KITCHEN, (BATH, TWO)))
    assert gear(one, "use") == pytest.approx(279 / 168)
    assert gear(two, "use") == pytest.approx(279 / 336)
    assert gear(one, "equipment_needed") == gear(two, "equipment_needed") == 2
    reported = [p.record for p in problems(tmp_path / "three", changed(KITCHEN, (BATH, TWO)))]
    assert "equipment" not in reported
    portions = [k.figures.value("plate", "portions_a_week", 0) for k in (one, two)]
    assert portions[1] == 2 * portions[0]


def test_a_forecast_past_all_of_them_is_reported(tmp_path: Path) -> None:
    files = {**changed(KITCHEN, (BATH, TWO))}
    path = "plates/chuck-plate.yaml"
    files[path] = files[path].replace("forecast: 400", "forecast: 900")
    (found,) = [p for p in problems(tmp_path, files) if p.record == "equipment"]
    message = found.message.replace("\N{NO-BREAK SPACE}", " ")
    assert "books 620 h of 336 h, so 4 are needed where there are 2" in message


def test_two_temperatures_take_two_baths_and_three_clash(tmp_path: Path) -> None:
    two = of_two("chuck-plate: 18, shank-plate: 18")
    three = of_two("chuck-plate: 18, shank-plate: 18, rib-plate: 18")
    assert clashes(tmp_path / "two", two) == []
    (found,) = clashes(tmp_path / "three", three)
    assert " need 3 at once, from Thu 12:00 p.m. to Fri 7:00 p.m.; there are 2" in found


def test_a_cook_without_a_temperature_is_booked_at_none(tmp_path: Path) -> None:
    """Nothing says that it differs from its neighbour; both together are still too much."""
    files = of_two("chuck-plate: 40, shank-plate: 40", bath=BATH)
    files["cooks/shank.yaml"] = OTHERS["cooks/shank.yaml"].replace("at: 65 °C\n", "")
    kitchen = costed(tmp_path / "booked", files)
    heats = [w.booking.temperature_c for w in bookings(kitchen.content, kitchen.services)]
    assert sorted(heats, key=str) == [57.0, None]
    found = clashes(tmp_path / "clashes", files)
    assert [words for words in found if "at once" in words] == []
    assert any("(57 °C, for Friday) and Shank (no temperature stated" in w for w in found), found
    assert "no temperature stated" in pages(kitchen)["schedule.html"][1]


def test_a_load_may_lie_in_several_by_whole_pieces(tmp_path: Path) -> None:
    """Pieces of 2.4 kg, five to a bath of 12 kg: 10 fit into two baths, 11 do not."""
    assert clashes(tmp_path / "ten", of_two("chuck-plate: 90")) == []
    (found,) = clashes(tmp_path / "eleven", of_two("chuck-plate: 91"))
    assert re.search(" needs 3 at once, from .*; there are 2$", found)


def test_pages_say_how_many_there_are(tmp_path: Path) -> None:
    found = pages(costed(tmp_path, of_two("chuck-plate: 18")))
    assert "there are 2, all alike" in found["equipment.html"][1]
    assert "A load ties up one (Bath)" in found["cooks/chuck-30h.html"][1]
    assert "how many there are, all alike" in found["writing.html"][1] + "".join(
        text for path, (_, text) in found.items() if path.startswith("writing/")
    )


def test_shared_hours_are_kept_once(tmp_path: Path) -> None:
    """30 and 24 h at one temperature that end together, and turn-round: 31 h of a bath, not 56."""
    day = "cut: chuck\n" + FILES[COOK].partition("\n")[2].replace("for: 30 h", "for: 24 h")
    files = of_two("chuck-plate: 18, shank-plate: 18", bath=BATH)
    files["cooks/shank.yaml"] = day
    kitchen = costed(tmp_path, files)
    (kept,) = kept_hours(kitchen.content, bookings(kitchen.content, kitchen.services))
    assert (kept.loads, kept.each_for_itself, kept.shared_once) == (2, 56, 31)
    assert "31 h" in pages(kitchen)["schedule.html"][1]


def test_a_load_that_fills_two_keeps_both_whether_shared_or_not(tmp_path: Path) -> None:
    """60 portions fill two baths of 12 kg, each for 31 h; 18 more join in the second."""
    files = of_two("chuck-plate: 60", bath=BATH)
    kitchen = costed(tmp_path, files)
    (kept,) = kept_hours(kitchen.content, bookings(kitchen.content, kitchen.services))
    assert (kept.each_for_itself, kept.shared_once) == (62, 62)
    assert "A load that fills two counts twice" in pages(kitchen)["schedule.html"][1]


def _booking(start: int, hours: int, kg: float, pieces: int, at: float) -> Booking:
    first = MONDAY + timedelta(hours=start)
    return Booking("cook", "bath", at, first, first + timedelta(hours=hours), kg, pieces)


loads = st.builds(
    _booking, st.integers(0, 30), st.integers(1, 30), st.floats(0.1, 60), st.integers(0, 20),
    st.sampled_from([57.0, 65.0]),
)  # fmt: skip


@given(st.lists(loads, min_size=1, max_size=5), st.floats(0.5, 30))
@settings(deadline=None)
def test_sharing_never_takes_longer_than_each_for_itself(
    booked: list[Booking], holds: float
) -> None:
    alone = sum(hours_kept([each], holds) for each in booked)
    assert hours_kept(booked, holds) <= alone + 1e-9


def test_a_week_comes_round_in_the_hours_kept(tmp_path: Path) -> None:
    """A Monday's cook that begins on Sunday keeps its bath on Sunday's end of the same week."""
    files = of_two("chuck-plate: 18", bath=BATH)
    files["services/friday.yaml"] = files["services/friday.yaml"].replace("Friday", "Monday")
    kitchen = costed(tmp_path, files)
    (kept,) = kept_hours(kitchen.content, bookings(kitchen.content, kitchen.services))
    assert (kept.each_for_itself, kept.shared_once) == (31, 31)


def test_a_cook_weeks_ahead_keeps_its_hours_of_every_week(tmp_path: Path) -> None:
    """As the week repeats, a load cooked two weeks before its service is one of each week."""
    files = of_two("chuck-plate: {covers: 18, ahead: 14 d}", bath=BATH)
    files[COOK] = files[COOK] + "cool: {to: 5 °C, within: 6 h, in: ice bath}\n"
    kitchen = costed(tmp_path, files)
    (kept,) = kept_hours(kitchen.content, bookings(kitchen.content, kitchen.services))
    assert (kept.each_for_itself, kept.shared_once) == (31, 31)
