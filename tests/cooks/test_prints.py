"""A bath, a hold or a storage at just a limit that is printed in both units says one thing."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import pytest

from tests.cooks.kitchens import COOK, KITCHEN, changed, costed, pages, problems

UNITS = ["metric", "us customary"]


def under(units: str, *changes: tuple[str, str], more: str = "") -> Mapping[str, str]:
    kitchen = changed(KITCHEN, ("currency: CAD\n", f"currency: CAD\nunits: {units}\n"))
    return {**changed(COOK, *changes, more=more), KITCHEN: kitchen[KITCHEN]}


def reported(root: Path, files: Mapping[str, str]) -> tuple[list[str], str]:
    """The warnings of the build, and the cook's page."""
    found = problems(root / "told", files)
    assert not [p.message for p in found if p.is_error]
    page = pages(costed(root / "pages", files), found)["cooks/chuck-30h.html"][1]
    warned = [p.message.replace("\xa0", " ") for p in found if str(p.place.file) == COOK]
    return warned, page.replace("\xa0", " ")


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("bath", ["54.4 °C", "130 °F", "57.2 °C", "135 °F"])
def test_a_bath_at_a_limit_meets_it_and_never_says_the_contrary(
    tmp_path: Path, units: str, bath: str
) -> None:
    messages, page = reported(tmp_path, under(units, ("57 °C", bath), ("60 mm", "40 mm")))
    assert "The plan meets US model Food Code" in page
    assert not re.search(r"never (reaches|gets|brings)|stays below", page)
    assert messages == []


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("bath", ["54.4 °C", "130 °F"])
def test_a_thick_piece_in_it_comes_up_slowly_and_gets_there(
    tmp_path: Path, units: str, bath: str
) -> None:
    messages, page = reported(tmp_path, under(units, ("57 °C", bath), ("for: 30 h", "for: 48 h")))
    # The other is of the name, which says 30 h.
    caution, _ = sorted(messages, key=lambda message: "coming up" not in message)
    assert "coming up, the core takes about " in caution
    assert "stays below" not in page
    assert "never reaches" not in page
    assert "The cook itself meets" in page


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("aimed", ["130 °F", "54.4 °C"])
@pytest.mark.parametrize("bath", ["130 °F", "54.4 °C"])
def test_a_core_aimed_at_the_bath_by_the_other_print_is_no_mistake(
    tmp_path: Path, units: str, aimed: str, bath: str
) -> None:
    files = under(units, ("at: 57 °C", f"at: {bath}\ncore: {aimed}"), ("60 mm", "40 mm"))
    messages, page = reported(tmp_path, files)
    assert messages == []
    assert "The plan meets US model Food Code" in page


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("held", ["54.4 °C", "130 °F"])
def test_hot_holding_of_a_roast_by_either_print(tmp_path: Path, units: str, held: str) -> None:
    _, page = reported(tmp_path, under(units, ("60 mm", "40 mm"), more=f"hold at: {held}\n"))
    assert "The hot holding meets" in page


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("cold", ["1.1 °C", "34 °F"])
def test_thirty_days_in_the_bag_by_either_print(tmp_path: Path, units: str, cold: str) -> None:
    """A file that cools to 5 °C only does not say when the bag is as cold as 30 days ask."""
    keep = f"store: {{at: {cold}, for: 30 d}}\n"
    for to, meets in ((cold, True), ("5 °C", False)):
        more = f"cool: {{to: {to}, within: 48 h, in: ice bath}}\n{keep}"
        _, page = reported(tmp_path, under(units, ("60 mm", "40 mm"), more=more))
        assert ("In its bag in the cold, the plan meets" in page) is meets
        assert ("within 48 h for 30 days, and the files do not show" in page) is not meets


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("again", ["73.9 °C", "165 °F"])
def test_reheating_in_a_bath_of_just_what_is_asked(tmp_path: Path, units: str, again: str) -> None:
    reheat = f"reheat: {{at: {again}, for: 2 h}}\n"
    more = f"cool: {{to: 5 °C, within: 6 h, in: ice bath}}\n{reheat}hold at: 60 °C\n"
    _, page = reported(tmp_path, under(units, ("60 mm", "12 mm"), more=more))
    assert "The reheating meets" in page
    assert "never reaches" not in page


@pytest.mark.parametrize(
    ("held", "words"),
    [
        ("60 °C", "meets: 3-501.16(A)(1)"),
        ("56 °C", "can't be judged yet: 3-501.16(A)(1)"),
        ("50 °C", "does not meet: 3-501.16(A)(1)"),
    ],
)
def test_hot_holding_of_a_piece_that_the_file_leaves_open(
    tmp_path: Path, held: str, words: str
) -> None:
    """3-501.16(A)(1) [read] asks 135 °F, and 130 °F of roasts: less is too little of any."""
    files = changed(
        COOK, ("form: intact\n", ""), ("counts as: roast\n", ""), more=f"hold at: {held}\n"
    )
    reported = [p.message for p in problems(tmp_path / "told", files) if "hot holding" in p.message]
    assert bool(reported) is (held == "50 °C")
    page = pages(costed(tmp_path / "pages", files))["cooks/chuck-30h.html"][1]
    assert words in page.replace("\xa0", " ")
    assert "no rule set is applied" not in page
