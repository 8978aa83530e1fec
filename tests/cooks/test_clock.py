"""The kitchen's clock: nights in which it changes, and hours in which nobody is there.

Changes of the clock: in Canada and the United States from 2007 on the second Sunday in March and
the first in November at 2:00 (United States Energy Policy Act of 2005, section 110); in Great
Britain the last Sundays of March and October at 1:00 UTC (Summer Time Order 2002). Both from
memory. Offsets below are written out: Toronto UTC-4 in summer, UTC-5 in winter, London UTC+1, UTC.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path

import pytest
from babel.dates import format_date

from builder.costing.costed import Costed
from builder.costing.services import bookings, elapsed, kept_hours
from builder.problems import Problem
from tests.cooks.kitchens import BATH, COOK, FILES, KITCHEN, costed, pages, problems

SERVICE = "services/sunday.yaml"
CHILLED = "cool: {to: 3 °C, within: 2 h, in: ice bath}\nreheat: {at: 80 °C, for: 1 h}\n"


def kitchen(
    *more: str, day: str = "2026-10-01", cook: str = "", hours: str = "14 h", **service: str
) -> Mapping[str, str]:
    """The kitchen with more lines, computed for a day, its cook of so many hours in a service."""
    said = {"day": "Sunday", "at": "12:00", "plates": "{chuck-plate: 20}", **service}
    return {
        **FILES,
        KITCHEN: FILES[KITCHEN].replace("2026-10-01", day) + "".join(f"{line}\n" for line in more),
        COOK: FILES[COOK].replace("30 h", hours) + cook,
        SERVICE: "".join(f"{key}: {value}\n" for key, value in said.items()),
    }


def first_start(found: Costed) -> datetime:
    return next(found.services["sunday"].starts())[0].start


def reported(root: Path, files: Mapping[str, str]) -> list[Problem]:
    return [p for p in problems(root, files) if p.record == "services/sunday"]


@pytest.mark.parametrize(
    ("zone", "day", "start", "served_utc", "way"),
    [
        ("America/Toronto", "2026-11-01", "Sat 23:00", 17, "back by 60 minutes on Sun 2:00"),
        ("America/Toronto", "2026-03-08", "Sat 21:00", 16, "forward by 60 minutes on Sun 2:00"),
        ("Europe/London", "2026-10-25", "Sat 23:00", 12, "back by 60 minutes on Sun 2:00"),
        ("Europe/London", "2026-03-29", "Sat 21:00", 11, "forward by 60 minutes on Sun 1:00"),
        ("America/Toronto", "2026-11-08", "Sat 22:00", 17, ""),
        ("America/Regina", "2026-11-01", "Sat 22:00", 18, ""),
    ],
)
def test_fourteen_hours_over_a_change_of_the_clock_are_fourteen(
    tmp_path: Path, zone: str, day: str, start: str, served_utc: int, way: str
) -> None:
    files = kitchen(f"time zone: {zone}", day=day)
    found = costed(tmp_path, files)
    began, served = first_start(found), found.services["sunday"].at
    assert f"{began:%a %H:%M}" == start
    assert served.astimezone(UTC).hour == served_utc
    assert elapsed(served) - elapsed(began) == timedelta(hours=14)
    messages = [p.message for p in reported(tmp_path / "again", files)]
    assert len(messages) == (1 if way else 0)
    printed = format_date(date.fromisoformat(day), locale="en_CA")
    assert all(way in message and printed in message for message in messages)
    (booking,) = bookings(found.content, found.services)
    assert (booking.booking.end - booking.booking.start) / timedelta(hours=1) == 15
    assert [kept.shared_once for kept in kept_hours(found.content, [booking])] == [15]


def test_a_week_with_a_change_prints_the_clock_s_own_times(tmp_path: Path) -> None:
    files = kitchen("time zone: America/Toronto", day="2026-11-01", hours="10 h")
    found = pages(costed(tmp_path, files))
    assert "Sun 2:00 a.m." in found["schedule.html"][1]
    assert "Times are those of America/Toronto" in found["schedule.html"][1]
    twice = kitchen("time zone: America/Toronto", day="2026-11-01", hours="11 h", at="12:30")
    text = pages(costed(tmp_path / "twice", twice))["services/sunday.html"][1]
    assert "Sun 1:30 a.m. (the second time)" in text


def test_a_service_in_the_hour_left_out_is_the_hour_after(tmp_path: Path) -> None:
    files = kitchen("time zone: America/Toronto", day="2026-03-08", at="02:30")
    served = costed(tmp_path, files).services["sunday"].at
    assert f"{served:%H:%M}" == "03:30"


def test_without_a_time_zone_the_page_says_what_is_not_counted(tmp_path: Path) -> None:
    found = costed(tmp_path, kitchen(day="2026-11-01"))
    assert f"{first_start(found):%a %H:%M}" == "Sat 22:00"
    assert "The file names no time zone" in pages(found)["schedule.html"][1]
    (asked,) = reported(tmp_path / "again", kitchen("locale: en_CA", day="2026-11-01"))
    assert str(asked.place) == KITCHEN
    assert "the clocks change on Sun 2:00 a.m. (Nov 1, 2026)" in plain(asked)
    assert asked.hint.startswith("add time zone: America/")


@pytest.mark.parametrize(
    ("locale", "day", "hours", "zone"),
    [
        ("en_GB", "2026-10-25", "14 h", "Europe/London"),
        ("en_GB", "2026-10-19", "14 h", "Europe/London"),
        ("en_GB", "2026-11-01", "14 h", ""),
        ("en_GB", "2026-10-25", "2 h", ""),
        ("ja_JP", "2026-10-25", "14 h", ""),
        ("en_US", "2026-03-08", "48 h", "America/"),
    ],
)
def test_a_zone_is_asked_for_once_in_a_week_of_a_change(
    tmp_path: Path, locale: str, day: str, hours: str, zone: str
) -> None:
    """Of the locale's country, and where a start lies on an earlier day than the service."""
    files = kitchen(f"locale: {locale}", day=day, hours=hours)
    again = {**files, "services/late.yaml": files[SERVICE].replace("12:00", "13:00")}
    found = [p for p in problems(tmp_path, again) if "time zone" in p.message]
    assert len(found) == bool(zone)
    assert all(f"add time zone: {zone}" in problem.hint for problem in found)
    assert all({p.record, *p.also} == {"services/sunday", "services/late"} for p in found)


def last_sunday(year: int, month: int) -> date:
    last = date(year, month, 31)
    return last - timedelta(days=last.isoweekday() % 7)


def sunday_of(year: int, month: int, number: int) -> date:
    first = date(year, month, 1)
    return first + timedelta(days=-first.isoweekday() % 7 + 7 * (number - 1))


@pytest.mark.parametrize("hours", [12, 48])
@pytest.mark.parametrize(
    ("zone", "change", "offsets"),
    [
        ("Europe/London", last_sunday(2027, 3), (0, 1)),
        ("Europe/London", last_sunday(2027, 10), (1, 0)),
        ("America/New_York", sunday_of(2027, 3, 2), (-5, -4)),
        ("America/New_York", sunday_of(2027, 11, 1), (-4, -5)),
    ],
)
@pytest.mark.parametrize("after", [-1, 0, 1, 2])
def test_real_hours_and_local_clock_times_around_every_change(
    tmp_path: Path, zone: str, change: date, offsets: tuple[int, int], hours: int, after: int
) -> None:
    """By hand from UTC: noon local less the offset of its day, back so many hours, and local again.

    Every change is before 4:00 on its Sunday, so noon of that day has the new offset.
    """
    served = change + timedelta(days=after)
    noon = datetime.combine(served, time(12)) - timedelta(hours=offsets[after >= 0])
    begins = noon - timedelta(hours=hours)
    at = 1 if zone == "Europe/London" else 2 - offsets[0]
    passed = begins >= datetime.combine(change, time(at))
    local = begins + timedelta(hours=offsets[passed])
    files = kitchen(f"time zone: {zone}", day=f"{served}", hours=f"{hours} h")
    files = {**files, SERVICE: files[SERVICE].replace("Sunday", f"{served:%A}")}
    found = costed(tmp_path, files)
    start, plan = first_start(found), found.services["sunday"]
    assert f"{plan.at:%a %H:%M}" == f"{served:%a} 12:00"
    assert f"{start:%Y-%m-%d %H:%M}" == f"{local:%Y-%m-%d %H:%M}"
    assert elapsed(plan.at) - elapsed(start) == timedelta(hours=hours)


BY_PLACE = '"{}" knows no summer time: write the zone by a place that keeps your clock{}'


@pytest.mark.parametrize(
    ("written", "hint"),
    [
        ("Amerca/Toronto", 'did you mean "America/Toronto"?'),
        ("america/new york", 'did you mean "America/New_York"?'),
        ("Europe/Bonn", "the IANA name of a place, such as America/Toronto"),
        ("Toronto", 'did you mean "America/Toronto"?'),
        ("UTC+2", BY_PLACE.format("UTC+2", ", such as Europe/Athens")),
        ("GMT+1", BY_PLACE.format("GMT+1", ", such as Europe/Paris")),
        ("GMT-05:00", BY_PLACE.format("GMT-05:00", ", such as America/New_York")),
        ("Etc/GMT+25", BY_PLACE.format("Etc/GMT+25", "")),
        ("Londn", 'did you mean "Europe/London"?'),
        ("Vancuver", 'did you mean "America/Vancouver"?'),
        ("America/Londn", 'did you mean "Europe/London"?'),
        ("PST", "the IANA name of a place, such as America/Toronto"),
        ("../posixrules", "the IANA name of a place, such as America/Toronto"),
    ],
)
def test_an_unknown_zone_is_refused_at_its_line(tmp_path: Path, written: str, hint: str) -> None:
    found = problems(tmp_path, kitchen(f"time zone: {written}"))
    (problem,) = [p for p in found if p.is_error]
    assert (str(problem.place), problem.hint) == (f"{KITCHEN}:8:12", hint)


# Hours in which somebody is there

ALL_DAYS = "staffed: 07:00-23:00"


def hint(problem: Problem) -> str:
    return problem.hint.replace("\xa0", " ")


def plain(problem: Problem) -> str:
    """What a problem says, its no-break spaces as plain ones."""
    return problem.message.replace("\xa0", " ")


def test_work_at_night_is_reported_with_a_longer_time_in_the_cold(tmp_path: Path) -> None:
    """Served Sunday 12:00, reheated at 11:00, 8 h in the cold from 03:00, 2 h of ice before.

    By hand: the ice bath wants hands at its start (01:00) and its end (03:00). Ending at 23:00 is
    the first end, going back, in the staffed hours, with the start at 21:00 and the cook's, 30 h
    before, on Friday 15:00.
    """
    cook = CHILLED + "store: {at: 3 °C, for: 3 d}\n"
    files = kitchen(ALL_DAYS, cook=cook, hours="30 h", plates="{chuck-plate: [20, 8 h]}")
    (found,) = reported(tmp_path, files)
    assert str(found.place) == f"{SERVICE}:3:24"
    assert plain(found).endswith(
        "outside the staffed hours for Chuck 30h: chill Sun 1:00 a.m., keep cold Sun 3:00 a.m."
    )
    assert hint(found) == (
        "start it on Fri 3:00 p.m. and keep it 12 h in the cold, of the 3 d that it may be stored; "
        "write chuck-plate: [20, 12 h]"
    )
    mended = {**files, SERVICE: files[SERVICE].replace("8 h", "12 h")}
    assert reported(tmp_path / "mended", mended) == []
    week = pages(costed(tmp_path / "lead", files))["schedule.html"][0]
    assert week.lead.endswith("nothing clashes.")
    assert week.also == ("2 steps need hands outside the staffed hours.",)
    lead = pages(costed(tmp_path / "now", mended))["schedule.html"][0].lead
    assert lead.endswith("nothing clashes.")


def test_a_start_that_another_cook_has_the_bath_for_comes_last(tmp_path: Path) -> None:
    """Another cook has the bath, at 75 °C, from Friday 10:00 to 17:00, its turn-round with it.

    By hand: from Friday 15:00 (above) it is taken. Out before Friday 10:00 with the ice bath in the
    staffed hours it is out on Thursday 21:00, in on Wednesday 15:00, 60 h in the cold. Where the
    store allows 12 h of these only, the first way is all there is.
    """
    other = {
        "cooks/lunch.yaml": FILES[COOK].replace("57 °C", "75 °C").replace("30 h", "6 h"),
        "plates/lunch.yaml": FILES["plates/chuck-plate.yaml"].replace("chuck-30h", "lunch"),
        "services/friday.yaml": "day: Friday\nat: 16:00\nplates: {lunch: 20}\n",
    }
    for store, start, ends in (
        ("3 d", "Wed 3:00 p.m.", "write chuck-plate: [20, 60 h]"),
        ("12 h", "Fri 3:00 p.m.", "[20, 12 h]; Bath is then wanted by another cook, too"),
    ):
        cook = f"{CHILLED}store: {{at: 3 °C, for: {store}}}\n"
        files = kitchen(ALL_DAYS, cook=cook, hours="30 h", plates="{chuck-plate: [20, 8 h]}")
        (found,) = reported(tmp_path / store, {**files, **other})
        assert hint(found).startswith(f"start it on {start} ")
        assert hint(found).endswith(ends)


def test_the_cold_is_no_longer_than_the_store_allows(tmp_path: Path) -> None:
    """12 h would do, of which 10 are allowed: going forward, the chill has to start at 07:00."""
    cook = CHILLED + "store: {at: 3 °C, for: 10 h}\n"
    files = kitchen(ALL_DAYS, cook=cook, hours="30 h", plates="{chuck-plate: [20, 8 h]}")
    (found,) = reported(tmp_path, files)
    assert "start it on Sat 1:00 a.m." not in hint(found)
    assert "keep it 12 h" not in hint(found)


def test_without_the_cold_an_overnight_cook_is_proposed(tmp_path: Path) -> None:
    """Twelve hours before noon is midnight; the staff leave at 23:00."""
    (found,) = reported(tmp_path, kitchen(ALL_DAYS, hours="12 h"))
    assert plain(found).endswith("cook Sun 12:00 a.m.")
    assert hint(found) == (
        "cook it overnight: in on Sat 11:00 p.m., before the staff leave, "
        "out on Sun 12:00 p.m., 13 h instead of 12 h; taste whether it is as good after the "
        "longer cook"
    )


def test_where_only_the_preparing_is_outside_it_is_done_before(tmp_path: Path) -> None:
    """In at 7:00, five hours before noon, with 30 min of work before that: no cook is longer."""
    files = kitchen(ALL_DAYS, cook="hands-on: 30 min\n", hours="5 h")
    (found,) = reported(tmp_path, files)
    assert plain(found).endswith("outside the staffed hours for Chuck 30h: prepare Sun 6:30 a.m.")
    assert hint(found) == (
        "prepare it by Sat 11:00 p.m. and keep it cold until it goes in as planned"
    )


def test_a_longer_cook_within_a_day_is_not_called_overnight(tmp_path: Path) -> None:
    """Nobody is there from 6:00 to 11:00: five hours before noon is 7:00."""
    hours = ALL_DAYS.replace("07:00-23:00", "04:00-06:00, 11:00-23:00")
    (found,) = reported(tmp_path, kitchen(hours, hours="5 h"))
    assert hint(found).startswith("cook it longer: in on Sun 6:00 a.m., before the staff leave, ")


@pytest.mark.parametrize(
    ("at", "hours"),
    [("45 °C", "12 h"), ("52 °C", "12 h"), ("54.3 °C", "12 h")],
)
def test_no_longer_cook_is_proposed_that_fails_itself(at: str, hours: str, tmp_path: Path) -> None:
    """At 57 °C the same cook may take an hour more; below 54.4 °C nothing is proposed."""
    files = kitchen(ALL_DAYS, hours=hours)
    (found,) = reported(tmp_path, {**files, COOK: files[COOK].replace("57 °C", at)})
    assert "overnight" not in hint(found)
    # It is held back for the rule, and nobody is led to think that no cook would do.
    assert found.hint.startswith("a longer cook would move it into them, and is not proposed")
    assert "cool:, store: and reheat:" in found.hint


def test_a_longer_cook_is_held_back_for_what_is_so(tmp_path: Path) -> None:
    """An oven's core is not modelled; holding at 50 °C fails however long the cook is."""
    files = kitchen(ALL_DAYS, hours="12 h")
    baked = {
        **files,
        KITCHEN: files[KITCHEN].replace("kind: water bath, volume: 20 L, ", "kind: oven, "),
        COOK: files[COOK].replace("water bath", "oven").replace("57 °C", "120 °C"),
    }
    (oven,) = reported(tmp_path / "oven", baked)
    assert "not proposed, for this way of cooking is not modelled here; or serve" in oven.hint
    held = {**files, COOK: files[COOK] + "hold at: 50 °C\n"}
    (hot,) = reported(tmp_path / "hot", held)
    assert "not proposed: another warning of this cook, which does not depend on" in hot.hint
    for found in (oven, hot):
        assert "does not pass" not in found.hint
        assert "cool:, store: and reheat:" in found.hint
    thick = {**files, COOK: files[COOK].replace("thickness: 60 mm, ", "")}
    (unknown,) = reported(tmp_path / "thick", thick)
    assert "not proposed, for no rule here answers for this cook" in unknown.hint


def test_a_shorter_hold_starts_later(tmp_path: Path) -> None:
    """Four hours of cooking and two of holding start at 6:00; with one of holding at 7:00."""
    files = kitchen(ALL_DAYS, cook="hold: {how: oven, loss: 1 %, for: 2 h}\n", hours="4 h")
    (found,) = reported(tmp_path, files)
    assert hint(found) == "start it on Sun 7:00 a.m. and hold it 1 h instead of 2 h"


def test_where_nothing_helps_the_keys_are_named(tmp_path: Path) -> None:
    (found,) = reported(tmp_path, kitchen("staffed: 11:50-12:00", hours="30 h"))
    assert found.hint.startswith("nothing that the plan allows moves it into them")
    assert "cool:, store: and reheat:" in found.hint


def test_the_staff_s_own_steps_count_to_their_end(tmp_path: Path) -> None:
    steps = "[{what: draw up the line, for: 2 h}]"
    files = kitchen("staffed: {sunday: 10:30-15:00}", hours="1 h", at="12:00", steps=steps)
    (found,) = reported(tmp_path, files)
    assert str(found.place) == f"{SERVICE}:2:5"
    assert "draw up the line Sun 10:00 a.m." in plain(found)


def test_hours_past_midnight_and_round_the_week(tmp_path: Path) -> None:
    """Saturday's staff are there until Sunday 2:00; all week is never left alone."""
    night = "staffed: {sat: 17:00-02:00, sun: 09:00-15:00}"
    assert reported(tmp_path / "night", kitchen(night, hours="10 h 30 min")) == []
    assert reported(tmp_path / "later", kitchen(night, hours="9 h 30 min")) != []
    always = kitchen("staffed: 0:00-24:00", day="2026-10-01", hours="6 d", at="0:05")
    assert reported(tmp_path / "always", always) == []


@pytest.mark.parametrize(
    ("written", "message", "hinted"),
    [
        ("7 am - 11 pm", "are no hours of a 24-hour clock", "write 07:00-23:00"),
        ("7.30-23.00", "are no hours of a 24-hour clock", "write 07:30-23:00"),
        ("25:00-26:00", "are no hours of a day", "from 00:00 to 24:00"),
        ("{sut: 7-23}", "is no weekday", "write days as mon, sat or mon-fri"),
        ("{mon-fri: 7-23, fri: 9-12}", "friday is there twice", f"first at {KITCHEN}:8:11"),
        ("{sun: closed}", "nobody is ever there", "write hours such as 07:00-23:00"),
    ],
)
def test_hours_that_are_none_are_refused(
    tmp_path: Path, written: str, message: str, hinted: str
) -> None:
    found = problems(tmp_path, kitchen(f"staffed: {written}"))
    (problem,) = [p for p in found if p.is_error]
    assert message in problem.message
    assert problem.hint == hinted
    assert problem.place.line == 8


# Clock times by five minutes


def test_starts_are_on_five_minutes_and_no_step_is_cut_short(tmp_path: Path) -> None:
    """12 min of searing before 18:03: the last start is 17:45, and 30 h before it the bath."""
    finish = "finish: {how: sear, loss: 3 %, for: 12 min}\n"
    found = costed(tmp_path, kitchen(cook=finish, hours="30 h 1 min", at="18:03"))
    steps = found.services["sunday"].cooks[0].steps
    assert [f"{step.start:%a %H:%M}" for step in steps] == ["Sat 11:40", "Sun 17:45"]
    assert all(s.end - s.start >= timedelta(minutes=s.step.duration_min) for s in steps)
    assert BATH in found.content.files[KITCHEN].data.decode()
