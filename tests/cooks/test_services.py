"""Services counted back by hand, and two cooks that want one bath at once.

A back-schedule is arithmetic on the calendar: common practice, no published source.
1 October 2026 is a Thursday, so its week runs from Monday 28 September.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

from builder.costing.services import bookings
from builder.pages.booking_charts import bookings_chart
from builder.pages.view import View
from builder.problems import Problem
from tests.cooks.kitchens import COOK, FILES, KITCHEN, costed, pages, problems

OTHER = "cooks/shank.yaml"
SHANK = FILES[COOK].replace("57 °C", "65 °C").replace("30 h", "36 h")
CHILLED = "cool: {to: 3 °C, within: 2 h, in: ice bath}\nreheat: {at: 80 °C, for: 90 min}\n"


def kitchen(*, other: str = SHANK, **services: str) -> Mapping[str, str]:
    plate = "menu: mains\ncook: shank\nportion: 200 g\nprice: 25.00\n"
    files = {**FILES, OTHER: other, "plates/shank-plate.yaml": plate}
    return {**files, **{f"services/{name}.yaml": text for name, text in services.items()}}


def clashes(root: Path, files: Mapping[str, str]) -> list[Problem]:
    """What is wrong with the plans of services, by where it is written."""
    return [p for p in problems(root, files) if p.place.file.startswith("services/")]


def plain(problem: Problem) -> str:
    """What a problem says, its no-break spaces as plain ones."""
    return problem.message.replace("\xa0", " ")


def test_a_friday_is_counted_back_across_midnight(tmp_path: Path) -> None:
    files = dict(kitchen(friday="day: Friday\nat: 18:00\nplates: {chuck-plate: 30}\n"))
    files[COOK] += "hands-on: 45 min\nfinish: {how: sear, loss: 3 %, for: 20 min}\n"
    plan = costed(tmp_path, files).services["friday"]
    starts = [(f"{s.start:%a %d %H:%M}", s.step.name) for s in plan.cooks[0].steps]
    assert starts == [
        ("Thu 01 10:55", "prepare"),
        ("Thu 01 11:40", "cook"),
        ("Fri 02 17:40", "finish"),
    ]


def test_a_cook_ahead_is_chilled_kept_and_reheated(tmp_path: Path) -> None:
    files = dict(kitchen(friday="day: Friday\nat: 18:00\nplates: {chuck-plate: [30, 2 d]}\n"))
    files[COOK] += CHILLED
    plan = costed(tmp_path, files).services["friday"]
    starts = [(f"{s.start:%a %H:%M}", s.step.name) for s in plan.cooks[0].steps]
    assert starts == [
        ("Tue 08:30", "cook"),
        ("Wed 14:30", "chill"),
        ("Wed 16:30", "keep cold"),
        ("Fri 16:30", "reheat"),
    ]


def test_whole_pieces_go_in(tmp_path: Path) -> None:
    """30 portions of 200 g at 9 from a piece: four pieces of 2.4 kg."""
    files = kitchen(friday="day: Friday\nat: 18:00\nplates: {chuck-plate: 30}\n")
    (planned,) = costed(tmp_path, files).services["friday"].cooks
    assert (planned.pieces, round(planned.raw_kg, 6), planned.covers) == (4, 9.6, 30)


def test_two_temperatures_of_one_bath_are_one_warning_and_on_the_page_of_each_service(
    tmp_path: Path,
) -> None:
    files = kitchen(
        friday="day: Friday\nat: 18:00\nplates: {chuck-plate: 20}\n",
        saturday="day: Saturday\nat: 12:00\nplates: {shank-plate: 20}\n",
    )
    (found,) = clashes(tmp_path, files)
    assert (found.record, str(found.place)) == ("equipment", "services/friday.yaml:3:23")
    said = "Bath is wanted at 2 temperatures at once, from Fri 12:00 a.m. to Fri 7:00 p.m.: "
    assert plain(found).startswith(said)
    assert not found.is_error
    printed = pages(costed(tmp_path / "again", files))
    for path in (
        "schedule.html",
        "services/friday.html",
        "services/saturday.html",
        "forms/friday-prep.html",
        "forms/saturday-prep.html",
    ):
        assert printed[path][1].replace("\xa0", " ").count(said.strip()) == 1, path
    assert "one clash to fix" in printed["schedule.html"][0].answer


DAILY = {
    "monday": "day: Monday\nat: 18:00\nplates: {chuck-plate: 20}\n",
    "tuesday": "day: Tuesday\nat: 12:00\nplates: {shank-plate: 20}\n",
    "wednesday": "day: Wednesday\nat: 18:00\nplates: {chuck-plate: 20}\n",
    "saturday": "day: Saturday\nat: 12:00\nplates: {shank-plate: 20}\n",
    "sunday": "day: Sunday\nat: 12:00\nplates: {chuck-plate: 20}\n",
}


def test_clashes_of_one_bath_are_one_warning_in_sentences(tmp_path: Path) -> None:
    """A cook of 57 °C before and one after a cook of 65 °C, and both at the weekend.

    By hand: the shank of Tuesday keeps the bath from Mon 0:00 to Tue 13:00; Monday's chuck from
    Sun 12:00 to Mon 19:00, Wednesday's from Tue 12:00 to Wed 19:00. Saturday's shank from Fri 0:00
    to Sat 13:00, Sunday's chuck from Sat 6:00 to Sun 13:00, which meets Monday's: 2 × 3 pieces of
    2.4 kg, where 12 kg have room.
    """
    (found,) = clashes(tmp_path, kitchen(**DAILY))
    assert plain(found).startswith("Bath has 4 clashes in the week. Bath is wanted at 2 temp")
    hours = re.findall(r"from (\w{3} [\d:]+ [ap]\.m\. to \w{3} [\d:]+ [ap]\.m\.)", plain(found))
    assert hours == [
        "Mon 12:00 a.m. to Mon 7:00 p.m.",
        "Tue 12:00 p.m. to Tue 1:00 p.m.",
        "Sat 6:00 a.m. to Sat 1:00 p.m.",
        "Sun 12:00 p.m. to Sun 1:00 p.m.",
    ]
    assert "put 14.40 kg into Bath, which holds 12.00 kg, from" in plain(found)
    assert ".." not in found.message
    assert "move it to other equipment; cook in 2 loads, or move 2.40 kg" in found.hint.replace(
        "\xa0", " "
    )
    printed = pages(costed(tmp_path / "again", kitchen(**DAILY)))
    assert "4 clashes to fix" in printed["schedule.html"][0].answer
    tuesday = printed["services/tuesday.html"][1].replace("\xa0", " ")
    assert "Bath has 2 clashes in the week" in tuesday
    assert "Sat 6:00 a.m. to Sat" not in tuesday


def test_remedies_are_in_the_order_of_the_clashes(tmp_path: Path) -> None:
    """Too much on Monday, two temperatures on Thursday."""
    days = {
        "monday": "day: Monday\nat: 18:00\nplates: {chuck-plate: 20}\n",
        "late": "day: Monday\nat: 19:00\nplates: {chuck-plate: 20}\n",
        "thursday": "day: Thursday\nat: 18:00\nplates: {chuck-plate: 20}\n",
        "friday": "day: Friday\nat: 12:00\nplates: {shank-plate: 20}\n",
    }
    (found,) = clashes(tmp_path, kitchen(**days))
    said = plain(found)
    assert said.index("which holds 12.00 kg") < said.index("at 2 temperatures at once")
    assert found.hint.index("cook in") < found.hint.index("start one earlier")


def test_a_cook_that_meets_one_after_the_other_is_one_clash(tmp_path: Path) -> None:
    """72 h at 65 °C meet two cooks of 57 °C in turn, of which the second begins as one ends."""
    long = SHANK.replace("36 h", "96 h")
    days = {
        "wednesday": "day: Wednesday\nat: 18:00\nplates: {chuck-plate: 20}\n",
        "friday": "day: Friday\nat: 01:00\nplates: {chuck-plate: 20}\n",
        "saturday": "day: Saturday\nat: 12:00\nplates: {shank-plate: 20}\n",
    }
    files = kitchen(other=long, **days)
    (found,) = clashes(tmp_path, files)
    words = plain(found)
    assert words.startswith(
        "Bath is wanted at 2 temperatures at once, from Tue 12:00 p.m. to Fri 2:00 a.m.: "
    )
    assert words.count("Chuck 30h (57 °C") == 2
    assert words.count("Shank (65 °C") == 1
    printed = pages(costed(tmp_path / "again", files))
    assert "one clash to fix" in printed["schedule.html"][0].answer
    page = printed["services/friday.html"][1].replace("\xa0", " ")
    assert "from Tue 12:00 p.m. to Fri 2:00 a.m." in page


def test_clashes_of_two_pieces_of_equipment_are_two_warnings(tmp_path: Path) -> None:
    friday = "day: Friday\nat: 18:00\nplates: {chuck-plate: 60, shank-plate: 60}\n"
    files = dict(kitchen(other=SHANK.replace("equipment: bath", "equipment: tub"), friday=friday))
    files[KITCHEN] = files[KITCHEN].replace(
        "  bath:", "  tub: {kind: water bath, volume: 40 L, holds: 12 kg}\n  bath:", 1
    )
    found = clashes(tmp_path, files)
    assert [p.record for p in found] == ["equipment", "equipment"]
    lead = pages(costed(tmp_path / "again", files))["schedule.html"][0].answer
    assert "2 clashes to fix on 2 pieces of equipment" in lead


def test_one_temperature_is_shared_while_it_holds(tmp_path: Path) -> None:
    friday = "day: Friday\nat: 18:00\nplates: {{chuck-plate: {}, shank-plate: {}}}\n"
    same = SHANK.replace("65 °C", "57 °C")
    few = kitchen(other=same, friday=friday.format(18, 18))
    many = kitchen(other=same, friday=friday.format(27, 27))
    assert clashes(tmp_path / "few", few) == []
    (found,) = clashes(tmp_path / "many", many)
    assert "put 14.40 kg into Bath, which holds 12.00 kg" in plain(found)


def test_a_load_too_large_for_its_bath_clashes_with_itself(tmp_path: Path) -> None:
    (found,) = clashes(
        tmp_path, kitchen(friday="day: Friday\nat: 18:00\nplates: {chuck-plate: 60}\n")
    )
    assert "puts 16.80 kg into Bath" in plain(found)


def test_the_week_comes_round(tmp_path: Path) -> None:
    """Monday's 30 hours begin on Sunday, in the bath that Sunday's lunch still has."""
    files = kitchen(
        monday="day: Monday\nat: 18:00\nplates: {chuck-plate: 20}\n",
        sunday="day: Sunday\nat: 13:00\nplates: {shank-plate: 20}\n",
    )
    found = clashes(tmp_path, files)
    assert len(found) == 1
    assert "from Sun 12:00 p.m. to Sun 2:00 p.m." in plain(found[0])


def test_the_turn_round_keeps_the_bath(tmp_path: Path) -> None:
    """The bath takes an hour to be emptied and heated anew; half an hour between is too little."""
    close = kitchen(
        friday="day: Friday\nat: 06:00\nplates: {chuck-plate: 20}\n",
        saturday="day: Saturday\nat: 18:30\nplates: {shank-plate: 20}\n",
    )
    apart = {**close, "services/saturday.yaml": close["services/saturday.yaml"].replace("18", "19")}
    assert clashes(tmp_path / "close", close) != []
    assert clashes(tmp_path / "apart", apart) == []


def test_pages_of_the_week_and_of_a_service(tmp_path: Path) -> None:
    files = kitchen(friday="day: Friday\nat: 18:00\nplates: {chuck-plate: 20}\n")
    found = pages(costed(tmp_path, files))
    page, text = found["services/friday.html"]
    assert page.answer.replace("\xa0", " ") == (
        "20 covers on Friday at 6:00 p.m.; the first start is Thursday at 12:00 p.m. "
        "It starts with Chuck 30h (cook)."
    )
    assert "Thu 12:00 p.m." in text
    assert "nothing clashes" in found["schedule.html"][0].answer
    assert "3 pieces, 7.20 kg" in found["forms/friday-prep.html"][1].replace("\xa0", " ")
    for name in ("schedule.html", "equipment.html"):
        assert "Chilling and reheating are in no count" in found[name][1]


def test_loads_of_one_cook_that_lie_in_a_bath_at_once_have_a_lane_each(tmp_path: Path) -> None:
    """Bars over each other would hide where the second begins."""
    lunch = "day: Friday\nat: 12:00\nplates: {chuck-plate: 30}\n"
    two = kitchen(lunch=lunch, dinner=lunch.replace("12:00", "18:00"))
    apart = kitchen(lunch=lunch, tuesday=lunch.replace("Friday", "Tuesday"))
    assert lanes(tmp_path / "two", two) == [
        "Bath: Chuck 30h, Lunch",
        "Bath: Chuck 30h, Dinner",
    ]
    assert set(lanes(tmp_path / "apart", apart)) == {"Bath: Chuck 30h"}


def lanes(root: Path, files: Mapping[str, str]) -> list[str]:
    view = View.of(costed(root, files), ())
    chart = bookings_chart(view, bookings(view.costed.content, view.costed.services))
    assert chart is not None
    return [str(row["lane"]) for row in chart.rows if row["role"] == "step"]


def test_a_forecast_that_does_not_fit_is_reported_at_the_bath(tmp_path: Path) -> None:
    (found,) = [p for p in problems(tmp_path, FILES) if p.record == "equipment"]
    assert str(found.place) == f"{KITCHEN}:7:3"
    assert "books 279 h of 168 h, so 2 are needed" in found.message.replace(
        "\N{NO-BREAK SPACE}", " "
    )
    lead = pages(costed(tmp_path / "again", FILES))["equipment.html"][0].answer
    words = lead.replace("\N{NO-BREAK SPACE}", " ")
    assert words == (
        "Over-booked: Bath, with 279 h needed a week and 168 h there. "
        "It is counted for a week's forecast."
    )


def test_a_start_a_week_and_more_before_says_so(tmp_path: Path) -> None:
    """A weekday alone would name the wrong week."""
    files = dict(kitchen(friday="day: Friday\nat: 18:00\nplates: {chuck-plate: [20, 9 d]}\n"))
    files[COOK] += CHILLED
    found = pages(costed(tmp_path, files))
    page, text = found["services/friday.html"]
    assert (
        "the first start is Tuesday at 8:30 a.m., 10 days before. It starts with Chuck 30h (cook)."
        in page.answer.replace("\xa0", " ")
    )
    assert "Tue 8:30 a.m., 10 days before" in text
    assert "Tue 8:30 a.m., 10 days before" in found["schedule.html"][0].answer.replace("\xa0", " ")
    assert "Tue 8:30 a.m., 10 days before" in found["forms/friday-prep.html"][1]


def test_longer_in_the_cold_than_it_is_stored_is_reported(tmp_path: Path) -> None:
    files = dict(kitchen(friday="day: Friday\nat: 18:00\nplates: {chuck-plate: [20, 5 d]}\n"))
    files[COOK] += CHILLED + "store: {at: 3 °C, for: 2 d}\n"
    (found,) = clashes(tmp_path, files)
    assert found.message.endswith(": kept cold for 5 d, and its cook is stored for 2 d at most")
    assert str(found.place) == "services/friday.yaml:3:28"
    assert not found.is_error


def test_a_cook_without_its_hours_has_no_start_and_says_so(tmp_path: Path) -> None:
    friday = "day: Friday\nat: 18:00\nplates: {chuck-plate: 20, shank-plate: 20}\n"
    files = dict(kitchen(friday=friday))
    files[COOK] = files[COOK].replace("for: 30 h\n", "") + (
        "hands-on: 45 min\nfinish: {how: sear, loss: 3 %, for: 20 min}\n"
    )
    found = costed(tmp_path, files)
    timeless, _ = found.services["friday"].cooks
    assert [step.step.name for step in timeless.steps] == ["finish"]
    (warning,) = [p for p in clashes(tmp_path / "again", files) if "no start" in p.message]
    assert str(warning.place) == "services/friday.yaml:3:23"
    assert not warning.is_error
    assert warning.message == "no start is given for Chuck 30h: its hours are not written"
    assert COOK in warning.hint
    printed = pages(found)
    lead = printed["services/friday.html"][0].answer.replace("\xa0", " ")
    assert lead.startswith(
        "40 covers on Friday at 6:00 p.m.; of what has its hours written the first"
    )
    assert lead.endswith("; no start is given for Chuck 30h: its hours are not written.")
    assert (
        "Not known Cook Chuck 30h Not written Bath 3 pieces" in printed["services/friday.html"][1]
    )
    assert "Chuck 30h: its hours are not written" in printed["forms/friday-prep.html"][1]
    assert "no start is given for Chuck 30h" in printed["schedule.html"][1]
