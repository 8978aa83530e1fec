"""A warning goes all the way: the build's output, the cook, its plate, its log, the prep sheet."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import pytest

from builder.cooking.rule_library import rule_sets
from builder.pages.components import Notices
from builder.pages.cook_after import after_sections
from builder.pages.view import View
from tests.cooks.kitchens import COOK, FILES, KITCHEN, changed, costed, pages, problems

AUTHORITIES = [*rule_sets(), ""]
SERVICE = "day: friday\nat: 18:00\nplates: {chuck-plate: 20}\n"


def under(authority: str, *changes: tuple[str, str], more: str = "") -> Mapping[str, str]:
    """The kitchen under an authority or none, with a service and changes of the cook."""
    line = f"authority: {authority}\n" if authority else ""
    kitchen = changed(KITCHEN, ("authority: us-food-code-2017\n", line))[KITCHEN]
    files = {**changed(COOK, *changes, more=more), "services/friday.yaml": SERVICE}
    return {**files, KITCHEN: kitchen}


def everywhere(root: Path, files: Mapping[str, str], words: str) -> None:
    """The words stand in the build's output and on each page that is about the cook."""
    reported = problems(root / "told", files)
    assert [p.message for p in reported if p.is_error] == []
    assert any(words in p.message.replace("\xa0", " ") and p.place.line for p in reported)
    found = pages(costed(root / "pages", files), reported)
    for path in (
        "cooks/chuck-30h.html",
        "plates/chuck-plate.html",
        "forms/chuck-30h-log.html",
        "forms/friday-prep.html",
        "services/friday.html",
        "schedule.html",
        "cooks.html",
        "cuts/chuck.html",
    ):
        # Pages say what fails, and why, in short sentences of their own.
        text = found[path][1].replace("\xa0", " ").replace("). ", "): ")
        in_short = text.casefold().replace("; ", ". ")
        assert words.casefold().replace("; ", ". ") in in_short, path
        assert "decide" in text
        assert not re.search(r"\bsafe(ly)?\b", text, re.IGNORECASE)


@pytest.mark.parametrize("authority", AUTHORITIES)
def test_a_long_cook_below_54_4_degrees_is_a_caution_everywhere(
    tmp_path: Path, authority: str
) -> None:
    files = under(authority, ("at: 57 °C", "at: 45 °C"), ("for: 30 h", "for: 48 h"))
    everywhere(tmp_path, files, "below 54.4 °C, where bacteria can grow")


@pytest.mark.parametrize("authority", AUTHORITIES)
def test_what_fails_comes_before_the_money_of_a_swap(tmp_path: Path, authority: str) -> None:
    """A plate by a cook of 48 h at 45 °C is dear to nobody before its caution is read."""
    dear = FILES["plates/chuck-plate.yaml"].replace("portion: 200 g", "portion: 600 g")
    files = {
        **under(authority, ("at: 57 °C", "at: 45 °C"), ("for: 30 h", "for: 48 h")),
        "plates/dear.yaml": dear,
        "swaps/cool.yaml": "benchmark: dear\nchallengers: [chuck-plate]\nforecast: 100\n",
    }
    reported = problems(tmp_path / "told", files)
    found = pages(costed(tmp_path / "pages", files), reported)
    lead = found["swaps/cool.html"][0].answer
    assert lead.index("where bacteria can grow") < lead.index(" margin a plate ")
    # It is not among the savings that the first page leads with, and each page says why.
    assert " margin a plate " not in found["index.html"][0].answer
    counted = r"(is not counted among the swaps that earn more: |Not counted: [^(]*\()"
    why = f"{counted}(there is a caution on|its cook does not)"
    for path in ("swaps/cool.html", "swaps.html", "index.html"):
        assert re.search(why, found[path][1]), path
    # The money itself is known: nothing of it is in doubt.
    assert "in doubt" not in found["swaps.html"][1] + found["swaps/cool.html"][1]


def test_a_fault_of_the_benchmarks_cook_is_said_and_its_saving_counts_nowhere(
    tmp_path: Path,
) -> None:
    """The challenger's cook is sound; the dear plate's lies 48 h at 45 °C."""
    cool = FILES[COOK].replace("at: 57 °C", "at: 45 °C").replace("for: 30 h", "for: 48 h")
    dear = FILES["plates/chuck-plate.yaml"].replace("portion: 200 g", "portion: 600 g")
    files = {
        **FILES,
        "cooks/cool.yaml": cool,
        "plates/dear.yaml": dear.replace("cook: chuck-30h", "cook: cool"),
        "swaps/cool.yaml": "benchmark: dear\nchallengers: [chuck-plate]\nforecast: 100\n",
    }
    found = pages(costed(tmp_path / "cool", files), problems(tmp_path / "told", files))
    assert "Cool: " in found["swaps/cool.html"][0].answer
    for path in ("swaps/cool.html", "swaps.html", "index.html"):
        assert "the benchmark's cook" in found[path][1].replace("’", "'"), path
    assert found["swaps.html"][0].answer.startswith("0 of 1 challenger")
    sound = {**files, "cooks/cool.yaml": FILES[COOK]}
    counted = pages(costed(tmp_path / "sound", sound))["swaps.html"][0].answer
    assert counted.startswith("1 of 1 challenger")


@pytest.mark.parametrize(("within", "count"), [("30 min", 1), ("20 h", 0)])
def test_a_cooling_longer_than_the_file_asks_is_a_caution_once(
    within: str, count: int, tmp_path: Path
) -> None:
    """No slab of 60 mm is at 4 °C in half an hour; in 20 h it is."""
    files = changed(COOK, more=f"cool: {{to: 4 °C, within: {within}, in: ice bath}}\n")
    found = [p for p in problems(tmp_path, files) if "the file gives it to 4" in p.message]
    assert len(found) == count
    assert all(p.place.file == COOK and p.place.line for p in found)


def test_the_list_of_cooks_does_not_say_meets_alone_beside_a_caution(tmp_path: Path) -> None:
    """Cooling fails after a cook that meets its own clause."""
    files = under(
        "us-food-code-2017",
        ("thickness: 60 mm", "thickness: 110 mm"),
        ("at: 57 °C", "at: 70 °C"),
        more="cool: {to: 5 °C, within: 24 h, in: cold room}\n",
    )
    text = pages(costed(tmp_path, files))["cooks.html"][1]
    row = re.search(r"Chuck 30h meets .*", text)
    assert row
    assert row.group().startswith("Chuck 30h meets with a caution")
    kept = pages(costed(tmp_path / "kept"))["cooks.html"][1]
    assert "caution," not in kept


def test_nothing_is_to_spare_where_the_cooling_fails(tmp_path: Path) -> None:
    files = under(
        "us-food-code-2017",
        ("thickness: 60 mm", "thickness: 110 mm"),
        ("at: 57 °C", "at: 70 °C"),
        more="cool: {to: 5 °C, within: 24 h, in: cold room}\n",
    )
    reported = problems(tmp_path / "told", files)
    page, text = pages(costed(tmp_path / "pages", files), reported)["cooks/chuck-30h.html"]
    assert page.answer.startswith(("Cooling", "Caution: cooling"))
    assert "The cook itself meets" in page.answer
    assert "To spare" not in text


@pytest.mark.parametrize("authority", AUTHORITIES)
def test_a_slow_come_up_is_reported_under_every_authority(tmp_path: Path, authority: str) -> None:
    """160 mm in 61 °C takes half a day to 54.4 °C; two authorities limit it themselves."""
    thick = ("thickness: 60 mm", "thickness: 160 mm")
    files = under(authority, thick, ("at: 57 °C", "at: 61 °C"), ("for: 30 h", "for: 40 h"))
    words = "longer than 6 h (Appendix A)" if "fsis" in authority else "coming up, the core takes"
    if authority.startswith("au"):
        # The core is long between 55 and 60 °C too, which that authority forbids.
        words = "coming up, the core takes"
    everywhere(tmp_path, files, words)


@pytest.mark.parametrize("authority", AUTHORITIES)
def test_slow_cooling_is_reported_under_every_authority(tmp_path: Path, authority: str) -> None:
    thick = ("thickness: 60 mm", "thickness: 160 mm")
    more = "cool: {to: 5 °C, within: 12 h, in: blast chiller}\n"
    everywhere(tmp_path, under(authority, thick, more=more), "cooling, the core takes")


@pytest.mark.parametrize("how", ["smoke", "oven", "confit"])
def test_the_way_of_cooking_does_not_matter(tmp_path: Path, how: str) -> None:
    files = under("", ("how: water bath", f"how: {how}"), ("at: 57 °C", "at: 50 °C"))
    files = {**files, COOK: files[COOK].replace("equipment: bath\n", "")}
    reported = [p for p in problems(tmp_path, files) if "bacteria can grow" in p.message]
    assert [str(p.place) for p in reported] == [f"{COOK}:3:5"]


def test_a_core_aimed_low_in_a_hot_oven_is_reported_at_the_core(tmp_path: Path) -> None:
    hot = ("at: 57 °C", "at: 90 °C\ncore: 50 °C")
    files = under("", ("how: water bath", "how: smoke"), ("equipment: bath\n", ""), hot)
    (reported,) = [p for p in problems(tmp_path, files) if "bacteria can grow" in p.message]
    assert str(reported.place) == f"{COOK}:4:7"


@pytest.mark.parametrize(
    ("food", "bath"),
    [("ground", 60), ("injected", 60), ("tenderised", 57), ("stuffed", 70), ("poultry", 65)],
)
def test_a_food_cooked_below_its_clause_is_reported_everywhere(
    tmp_path: Path, food: str, bath: int
) -> None:
    form = "intact" if food == "poultry" else food
    files = under(
        "us-food-code-2017", ("form: intact", f"form: {form}"), ("at: 57 °C", f"at: {bath} °C")
    )
    if food == "poultry":
        files = {**files, "cuts/chuck.yaml": FILES["cuts/chuck.yaml"].replace("beef", "poultry")}
    row = "165 °F / 73.9 °C" if food in {"stuffed", "poultry"} else "145 °F / 62.8 °C"
    everywhere(tmp_path, files, f"this cook never brings the core to {row}; lower needs a variance")
    page, log = (
        pages(costed(tmp_path / "log", files))[path]
        for path in ("cooks/chuck-30h.html", "forms/chuck-30h-log.html")
    )
    assert page[0].answer.startswith("The plan does not meet US model Food Code")
    assert f"To show: the core is at {row} or above" in log[1]


@pytest.mark.parametrize(("food", "bath"), [("poultry", "58"), ("ground", "59.9"), ("", "58")])
def test_a_cook_colder_than_every_row_of_the_uk_is_reported_everywhere(
    tmp_path: Path, food: str, bath: str
) -> None:
    form = f"form: {food}" if food == "ground" else ""
    files = under("uk-core-equivalents", ("form: intact", form), ("57", bath))
    if food == "poultry":
        files = {**files, "cuts/chuck.yaml": FILES["cuts/chuck.yaml"].replace("beef", "poultry")}
    lower = "lower needs a validated HACCP plan that the local authority's officer accepts"
    everywhere(tmp_path, files, f"never brings the core to 60 °C; {lower}")
    found = pages(costed(tmp_path / "log", files))
    assert "To show: the core is at 60 °C or above" in found["forms/chuck-30h-log.html"][1]
    assert found["cooks/chuck-30h.html"][0].answer.startswith("The plan does not meet UK core")


def test_a_seared_piece_of_unknown_form_is_not_taken_as_a_whole_cut(tmp_path: Path) -> None:
    seared = ("form: intact", "seared: yes")
    files = under("uk-core-equivalents", seared, ("57", "55"), ("for: 30 h", "for: 1 h"))
    lead = pages(costed(tmp_path, files))["cooks/chuck-30h.html"][0].answer
    assert "The plan meets" not in lead


def test_nothing_is_to_spare_beside_what_is_not_met(tmp_path: Path) -> None:
    """27 h to spare of the hold, and 15 h of come-up where 6 h are allowed."""
    thick = ("thickness: 60 mm", "thickness: 160 mm")
    for authority in ("us-fsis-appendix-a-1999-6.5-log", "au-victoria-55-60"):
        files = under(authority, thick, ("for: 30 h", "for: 60 h"))
        found = pages(costed(tmp_path / authority, files))
        page, text = found["cooks/chuck-30h.html"]
        assert page.answer.startswith("The plan does not meet")
        assert "To spare" not in text
        assert "rule met after" not in str(page.sections)
        row = re.search(r"Chuck 30h does not meet .*", found["cooks.html"][1])
        assert row
        assert (
            " h" not in row.group().split("Appendix A" if "fsis" in authority else "60 °C")[1][:6]
        )
    kept = pages(costed(tmp_path / "kept"))["cooks/chuck-30h.html"][1]
    assert "To spare" in kept


@pytest.mark.parametrize(
    ("how", "clause", "words"),
    [
        (
            "how: water bath\nsealed: no",
            "3-501.17",
            "kept for 14 days at 3 °C ends on day 15; day 7",
        ),
        ("how: water bath", "3-502.12(D)", "kept for 14 days at 3 °C, of 7 days allowed"),
    ],
)
def test_storing_too_long_is_reported_everywhere(
    tmp_path: Path, how: str, clause: str, words: str
) -> None:
    more = "cool: {to: 5 °C, within: 6 h, in: ice bath}\nstore: {at: 3 °C, for: 14 d}\n"
    files = under(
        "us-food-code-2017", ("how: water bath", how), ("at: 57 °C", "at: 60 °C"), more=more
    )
    everywhere(tmp_path, files, f"({clause}): {words}")


@pytest.mark.parametrize("cooled", ["", "cool: {to: 5 °C, within: 6 h, in: ice bath}\n"])
def test_storing_that_waits_for_the_cooling_is_reported_at_its_line(
    tmp_path: Path, cooled: str
) -> None:
    """3-502.12(D) asks how the bag was cooled: without the key nobody can say."""
    more = f"{cooled}store: {{at: 1 °C, for: 20 d}}\n"
    files = under("us-food-code-2017", ("at: 57 °C", "at: 60 °C"), more=more)
    reported = [
        p for p in problems(tmp_path, files) if "storing can't be compared with" in p.message
    ]
    assert [p.record for p in reported] == ([] if cooled else ["cooks/chuck-30h"])
    assert all("add cool:" in p.hint for p in reported)


def test_storing_does_not_meet_where_the_cooling_before_it_does_not(tmp_path: Path) -> None:
    more = "cool: {to: 5 °C, within: 6 h, in: blast chiller}\nstore: {at: 1 °C, for: 5 d}\n"
    reported = problems(tmp_path, under("us-food-code-2017", more=more))
    (stored,) = [p.message for p in reported if p.message.startswith("storing")]
    assert "cooling that meets 3-501.14, and this one does not" in stored


def test_a_plate_that_lies_ahead_for_too_long_is_reported_at_its_line(tmp_path: Path) -> None:
    more = "sealed: no\ncool: {to: 5 °C, within: 6 h, in: ice bath}\n"
    files = {
        **under("us-food-code-2017", more=more),
        "services/friday.yaml": SERVICE.replace("20}", "{covers: 20, ahead: 10 d}}"),
    }
    (reported,) = [p for p in problems(tmp_path, files) if "3-501.17" in p.message]
    assert reported.record == "services/friday"
    assert str(reported.place).startswith("services/friday.yaml:3:")


def test_where_an_authority_is_silent_the_page_says_so(tmp_path: Path) -> None:
    more = "cool: {to: 5 °C, within: 6 h, in: ice bath}\nreheat: {at: 80 °C, for: 2 h}\n"
    found = pages(costed(tmp_path, under("uk-core-equivalents", ("57", "62"), more=more)))
    name = rule_sets()["uk-core-equivalents"].name
    cook, rules, log = (
        found[path][1]
        for path in ("cooks/chuck-30h.html", "rules.html", "forms/chuck-30h-log.html")
    )
    assert f"{name} has no clause here for cooling and reheating; local code decides" in cook
    assert cook.count("no clause here") == 1
    assert "no rule of this set covers" not in cook
    assert f"{name} has no clause here" in log
    assert rules.count("no clause here; local code decides") == 2


def test_a_cooling_that_is_not_estimated_says_so(tmp_path: Path) -> None:
    more = "cool: {to: 5 °C, within: 6 h, in: ice bath}\n"
    files = under("us-food-code-2017", ("shape: slab, thickness: 60 mm, ", ""), more=more)
    assert (
        "The cooling is not estimated" in pages(costed(tmp_path, files))["cooks/chuck-30h.html"][1]
    )


def test_a_seared_surface_is_as_the_file_states(tmp_path: Path) -> None:
    files = under(
        "us-food-code-2017",
        ("how: water bath", "how: grill"),
        ("at: 57 °C", "at: 240 °C"),
        ("for: 30 h", "for: 12 min"),
        ("counts as: roast", "counts as: steak\nseared: yes"),
    )
    files = {**files, COOK: files[COOK].replace("equipment: bath\n", "")}
    text = pages(costed(tmp_path, files))["cooks/chuck-30h.html"][1]
    assert "The surface is seared, as the file states; the clause asks" in text
    assert "never brings" not in text


def test_a_kitchen_without_faults_is_told_nothing(tmp_path: Path) -> None:
    more = "cool: {to: 5 °C, within: 6 h, in: ice bath}\n"
    reported = problems(tmp_path, under("us-food-code-2017", more=more))
    assert [p.message for p in reported if "caution" in p.message or "meet" in p.message] == []


FAILS_AGAIN = """\
cool: {to: 5 °C, within: 6 h, in: ice bath}
reheat: {at: 60 °C, for: 1 h}
hold at: 60 °C
"""


def test_a_reheating_is_warned_of_though_a_service_serves_the_cook_unchilled(
    tmp_path: Path,
) -> None:
    files = under("us-food-code-2017", more=FAILS_AGAIN)
    words = "reheating does not meet"
    ahead = {**files, "services/friday.yaml": SERVICE.replace("20}", "{covers: 20, ahead: 1 d}}")}
    everywhere(tmp_path / "ahead", ahead, words)
    reported = problems(tmp_path / "now", files)
    assert [p.message for p in reported if words in p.message]
    found = pages(costed(tmp_path / "page", files), reported)
    assert words in found["cooks/chuck-30h.html"][1]
    assert words not in found["forms/friday-prep.html"][1]
    # Another service that chills it has the warning on its sheet, this one has not.
    both = {**files, "services/sunday.yaml": ahead["services/friday.yaml"]}
    reported = problems(tmp_path / "both", both)
    assert [p.message for p in reported if words in p.message]
    found = pages(costed(tmp_path / "pages", both), reported)
    assert words not in found["forms/friday-prep.html"][1].lower()
    assert words in found["forms/sunday-prep.html"][1].lower()
    # Without a service the file's own plan counts.
    alone = {path: text for path, text in files.items() if not path.startswith("services")}
    assert [p.message for p in problems(tmp_path / "alone", alone) if words in p.message]


def test_a_caution_writes_no_minutes_that_the_model_does_not_know(tmp_path: Path) -> None:
    files = under("us-food-code-2017", ("60 mm", "6.3 in"), ("at: 57 °C", "at: 61 °C"))
    (slow,) = [p.message for p in problems(tmp_path, files) if "coming up" in p.message]
    assert re.search(r"takes about \d+\sh from", slow)
    text = pages(costed(tmp_path / "pages", files))["cooks/chuck-30h.html"][1]
    # 6.3 in are 160.02 mm.
    assert "160 mm" in text.replace("\xa0", " ")
    half = under("us-food-code-2017", ("60 mm", "2 in"))
    text = pages(costed(tmp_path / "half", half))["cooks/chuck-30h.html"][1].replace("\xa0", " ")
    assert "51 mm" in text
    assert "50.8 mm" not in text


def test_a_verdict_that_meets_is_no_caution(tmp_path: Path) -> None:
    """One that fails, or is not covered, is: of chilling, keeping, reheating and hot holding."""
    thin, thick = ("60 mm", "40 mm"), ("60 mm", "110 mm")
    more = "cool: {to: 5 °C, within: 6 h, in: ice bath}\nhold at: 60 °C\n"
    for size, expected in ((thin, {"note"}), (thick, {"note", "caution"})):
        kitchen = costed(tmp_path / size[1], under("us-food-code-2017", size, more=more))
        (cook,) = (c for c in kitchen.content.cooks.values() if c.cool)
        cut = kitchen.content.cuts[str(cook.cut)]
        said = [
            (notice.severity, str(notice.text))
            for section in after_sections(View.of(kitchen, []), cook, cut)
            if isinstance(section, Notices)
            for notice in section.items[:1]
        ]
        assert {severity for severity, _ in said} == expected, said
        assert all(("meets" in words) is (severity == "note") for severity, words in said), said
