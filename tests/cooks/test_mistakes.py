"""What a person gets wrong in a cook, a service or a rule file: where it is, and what to do."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import pytest

from builder.costing.plans import HOT_MEDIA
from builder.records.plans import MODELLED
from tests.cooks.kitchens import COOK, FILES, KITCHEN, changed, costed, problems
from tests.kitchens import read, write

HOLD = """\
title: House code
authority: Nobody
jurisdiction: Nowhere
edition: "1"
status: invented
holds:
  - clause: "1"
    title: roasts
    status: invented
    rows:
      - [55 °C, 100 min]
      - [60 °C, 20 min]
"""


def with_thickness(value: str) -> Mapping[str, str]:
    return changed(COOK, ("thickness: 60 mm", f"thickness: {value}"))


def service(text: str) -> Mapping[str, str]:
    return {**FILES, "services/friday.yaml": text}


CASES: list[tuple[Mapping[str, str], str, str, str]] = [
    (with_thickness("0 mm"), f"{COOK}:7:33", "outside 1 to 400 mm", "smallest dimension"),
    (with_thickness("3 m"), f"{COOK}:7:33", "3 m is outside 0.001 to 0.4 m", "60 mm"),
    (with_thickness("60"), f"{COOK}:7:33", "60", "mm"),
    (changed(COOK, ("for: 30 h", "for: 30")), f"{COOK}:4:6", "30", "h"),
    (
        changed(COOK, ("for: 30 h", "for: 30 d")),
        f"{COOK}:4:6",
        "30 d is more than can be",
        "Up to 7 d",
    ),
    (
        changed(COOK, more="core: 60 °C\n"),
        f"{COOK}:3:5",
        "57 °C never brings a core to 60 °C",
        f"core is written at {COOK}:11:7",
    ),
    (
        changed(COOK, ("form: intact", "form: [intact, ground]")),
        f"{COOK}:5:16",
        "marked intact can't also be ground",
        "keep one",
    ),
    (changed(COOK, ("form: intact", "form: grinded")), f"{COOK}:5:7", "not known", '"ground"'),
    (
        changed(COOK, ("starts at: 4 °C", "starts at: -40 °C")),
        f"{COOK}:7:51",
        "outside -30 to 100 °C",
        "wanted",
    ),
    (
        changed(COOK, ("starts at: 4 °C", "starts at: 60 °C")),
        f"{COOK}:3:5",
        "does not warm",
        "starts at",
    ),
    (changed(COOK, ("at: 57 °C", "at: 120 °C")), f"{COOK}:3:5", "30 to 95 °C", ""),
    (
        changed(KITCHEN, ("holds: 12 kg", "holds: 12 kg, how many: 0")),
        f"{KITCHEN}:7:66",
        "how many: 0 is outside 1 to 100",
        "wanted",
    ),
    (changed(COOK, more="energy: 3 kWh\ngas: 1 m³\n"), f"{COOK}:12:6", "one figure", "keep one"),
    (
        changed(COOK, more="reheat: {at: 80 °C, for: 1 h}\n"),
        f"{COOK}:11:14",
        "once it was chilled",
        "cool",
    ),
    (
        changed(KITCHEN, ("us-food-code-2017", "us-food-code-2107")),
        f"{KITCHEN}:5:12",
        'no rule set "us-food-code-2107"',
        'did you mean "us-food-code-2017"?',
    ),
    (
        service("day: Freitag\nat: 18:00\nplates: {chuck-plate: 40}\n"),
        "services/friday.yaml:1:6",
        "Freitag",
        "friday",
    ),
    (
        service("day: Friday\nat: 6 pm\nplates: {chuck-plate: 40}\n"),
        "services/friday.yaml:2:5",
        "no time of day",
        "18:00",
    ),
    (
        service("day: Friday\nat: 18:00\nplates: {chuck-plat: 40}\n"),
        "services/friday.yaml:3:10",
        'no plate "chuck-plat"',
        "chuck-plate",
    ),
    (
        service("day: Friday\nat: 18:00\nplates: {chuck-plate: [40, 2 d]}\n"),
        "services/friday.yaml:3:28",
        "its cook is not chilled",
        "cool",
    ),
    (
        {**FILES, "rules/house.yaml": HOLD.replace("100 min", "10 min")},
        "rules/house.yaml:12:9",
        "a hotter row has no longer hold",
        "entry 2",
    ),
    (
        {**FILES, "rules/house.yaml": HOLD.replace("55 °C", "55")},
        "rules/house.yaml:11:10",
        "55",
        "rows",
    ),
    (
        {**FILES, "rules/house.yaml": HOLD.replace("edition:", "editon:")},
        "rules/house.yaml:4:1",
        "unknown key",
        "editon",
    ),
]


@pytest.mark.parametrize(("files", "place", "message", "hint"), CASES)
def test_each_mistake_is_reported_at_its_place(
    tmp_path: Path, files: Mapping[str, str], place: str, message: str, hint: str
) -> None:
    found = [p for p in problems(tmp_path, files) if p.is_error]
    assert [str(p.place) for p in found] == [place]
    assert message in found[0].message
    assert hint in found[0].hint


def test_mistakes_come_out_all_at_once(tmp_path: Path) -> None:
    files = {
        **changed(COOK, ("thickness: 60 mm", "thickness: 0 mm"), more="core: 60 °C\n"),
        "rules/house.yaml": HOLD.replace("60 °C, 20", "50 °C, 20"),
        "services/friday.yaml": "day: Friday\nat: 18:00\nplates: {none: 40}\n",
    }
    assert len({p.place.file for p in problems(tmp_path, files) if p.is_error}) == 3


def test_a_rule_file_of_the_kitchen_is_the_authority(tmp_path: Path) -> None:
    files = {**changed(KITCHEN, ("us-food-code-2017", "house")), "rules/house.yaml": HOLD}
    kitchen = costed(tmp_path, files)
    cook = kitchen.content.cooks["chuck-30h"]
    verdict = kitchen.heat.verdict(cook, kitchen.content.cuts["chuck"])
    assert verdict is not None
    assert verdict.sentence.startswith("meets House code, 1 (1): arithmetic on published tables")


def test_a_rule_file_can_not_take_the_name_of_one_of_the_tool(tmp_path: Path) -> None:
    files = {**FILES, "rules/us-food-code-2017.yaml": HOLD}
    (found,) = [p for p in problems(tmp_path, files) if p.is_error]
    assert "comes with the tool" in found.message


def test_a_plain_form_and_a_list_of_one_say_the_same(tmp_path: Path) -> None:
    one, _ = read(write(tmp_path / "a", FILES))
    listed = changed(COOK, ("form: intact", "form: [intact]"))
    other, _ = read(write(tmp_path / "b", listed))
    assert one is not None
    assert other is not None
    assert one.content.cooks["chuck-30h"].form == other.content.cooks["chuck-30h"].form


def test_a_rule_file_that_cannot_be_read_is_reported_once(tmp_path: Path) -> None:
    """The kitchen names it, and it is there: that it cannot be read is the only mistake."""
    files = {**changed(KITCHEN, ("us-food-code-2017", "house")), "rules/house.yaml": "- a list\n"}
    (found,) = [p for p in problems(tmp_path, files) if p.is_error]
    assert found.place.file == "rules/house.yaml"


def test_a_slip_is_looked_for_in_every_way_of_cooking_that_is_modelled() -> None:
    assert set(HOT_MEDIA) == set(MODELLED)


def test_a_key_that_is_written_one_level_up_too_is_not_sent_there(tmp_path: Path) -> None:
    """The way of cooking is above already; a chilling has keys of its own."""
    text = re.sub(r"cool: .*\n", "", FILES[COOK])
    files = {**FILES, COOK: text + "cool: {how: ice bath, to: 3 °C, within: 2 h}\n"}
    [problem] = [p for p in problems(tmp_path, files) if 'unknown key "how"' in p.message]
    assert problem.hint == "keys that fit: to, within, in"
