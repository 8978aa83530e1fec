"""A bath by any name, what a medium can be, and the one warning for keys that are missing."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.cooking.verdict import Outcome
from builder.costing.costed import Costed
from builder.starter import start
from tests.cooks.kitchens import BATH, COOK, FILES, KITCHEN, changed, costed, pages, problems
from tests.kitchens import read, write

NAMES = [
    "sous vide", "Sous-vide", "bath", "water-bath", "Waterbath", "WATER BATH", "circulator",
    "immersion bath", "Thermocirculator", "stirred water tank", "bain-marie",
]  # fmt: skip


def margin(kitchen: Costed) -> float:
    """Minutes to spare of the cook's hold, which only a modelled bath has."""
    verdict = kitchen.heat.verdict(
        kitchen.content.cooks["chuck-30h"], kitchen.content.cuts["chuck"]
    )
    assert verdict is not None
    assert verdict.hold is not None
    return verdict.hold.margin_min


@pytest.mark.parametrize("name", NAMES)
def test_a_bath_by_any_name_is_a_water_bath(tmp_path: Path, name: str) -> None:
    plain = costed(tmp_path / "plain")
    called = costed(tmp_path / "how", changed(COOK, ("how: water bath", f"how: {name}")))
    assert margin(called) == margin(plain)
    gear = BATH.replace("water bath", name)
    kind = costed(tmp_path / "kind", changed(KITCHEN, (BATH, gear)))
    for kitchen in (called, kind):
        energy = [k.figures.value("batch", "batch_energy", 0) for k in (kitchen, plain)]
        assert energy[0] == energy[1] > 0


@pytest.mark.parametrize("name", NAMES)
def test_no_bath_is_at_300_degrees(tmp_path: Path, name: str) -> None:
    files = changed(COOK, ("how: water bath", f"how: {name}"), ("at: 57 °C", "at: 300 °C"))
    reported = [p for p in problems(tmp_path, files) if p.is_error]
    assert [str(p.place) for p in reported] == [f"{COOK}:3:5"]
    assert "300 °C is outside 30 to 95 °C" in reported[0].message


@pytest.mark.parametrize(
    ("how", "at", "message"),
    [
        ("poaching", "101 °C", "outside 30 to 100 °C"),
        ("simmering liquid", "220 °F", "outside 30 to 100 °C"),
        ("steam oven", "180 °C", "outside 30 to 130 °C"),
        ("steamed", "180 °C", "outside 30 to 130 °C"),
    ],
)
def test_a_medium_is_no_hotter_than_it_can_be(
    tmp_path: Path, how: str, at: str, message: str
) -> None:
    """Water boils at 100 °C and steam in an open oven is little hotter."""
    files = changed(
        COOK,
        ("how: water bath", f"how: {how}"),
        ("at: 57 °C", f"at: {at}"),
        ("equipment: bath\n", ""),
    )
    (reported,) = [p for p in problems(tmp_path, files) if p.is_error]
    assert message in reported.message


def test_a_bath_reheats_no_hotter_than_a_bath(tmp_path: Path) -> None:
    files = changed(COOK, more="cool: {to: 5 °C, within: 6 h}\nreheat: {at: 105 °C, for: 1 h}\n")
    (reported,) = [p for p in problems(tmp_path, files) if p.is_error]
    assert "reheated in a water bath: 105 °C is outside 30 to 95 °C" in reported.message


@pytest.mark.parametrize(
    ("how", "at", "words"),
    [
        ("slow cook", "57 °C", '"slow cook" on bath, which is a water bath'),
        ("low temperature", "57 °C", '"low temperature" on bath, which is a water bath'),
        ("low temperature", "300 °C", "bath is a water bath, and 300 °C is above boiling"),
        ("grill", "240 °C", "bath is a water bath, and 240 °C is above boiling"),
    ],
)
def test_another_way_on_a_bath_is_an_error(tmp_path: Path, how: str, at: str, words: str) -> None:
    """Neither the core nor the limit of the water would be looked at."""
    gear = (BATH, BATH.replace("water bath", "immersion bath"))
    files = changed(COOK, ("how: water bath", f"how: {how}"), ("at: 57 °C", f"at: {at}"))
    reported = problems(tmp_path, {**files, KITCHEN: changed(KITCHEN, gear)[KITCHEN]})
    (found,) = [p for p in reported if p.is_error]
    assert found.message == words
    assert "how: water bath" in found.hint


@pytest.mark.parametrize("how", NAMES)
@pytest.mark.parametrize("kind", NAMES)
def test_no_pair_of_names_hides_a_bath_of_300_degrees(tmp_path: Path, how: str, kind: str) -> None:
    gear = (BATH, BATH.replace("water bath", kind))
    files = changed(COOK, ("how: water bath", f"how: {how}"), ("at: 57 °C", "at: 300 °C"))
    reported = problems(tmp_path, {**files, KITCHEN: changed(KITCHEN, gear)[KITCHEN]})
    assert [str(p.place) for p in reported if p.is_error] == [f"{COOK}:3:5"]


def test_a_sous_vide_in_an_oven_is_an_error(tmp_path: Path) -> None:
    files = changed(COOK, ("how: water bath", "how: sous vide"))
    kitchen = changed(KITCHEN, (BATH, "{kind: combi oven, pans: 6, holds: 12 kg}"))[KITCHEN]
    (reported,) = [p for p in problems(tmp_path, {**files, KITCHEN: kitchen}) if p.is_error]
    assert reported.message == 'bath is no water bath, its kind is "combi oven"'
    assert "how: steam oven" in reported.hint


@pytest.mark.parametrize("how", ["oven", "pan", "braise"])
@pytest.mark.parametrize("sealed", ["", "sealed: yes\n"])
def test_a_way_that_is_not_modelled_is_called_so(tmp_path: Path, how: str, sealed: str) -> None:
    files = changed(
        COOK,
        ("how: water bath\n", f"how: {how}\n{sealed}"),
        ("at: 57 °C", "at: 150 °C"),
        ("equipment: bath\n", ""),
    )
    made = pages(costed(tmp_path, files))
    page, text = made["cooks/chuck-30h.html"]
    said = "The plan can't be compared with US model Food Code, 2017 and later: this way of cooking"
    assert said in page.answer
    assert "Measure it instead: a calibrated probe" in text
    assert "not covered by" not in text
    assert "is not modelled here" in made["cooks.html"][1]


@pytest.mark.parametrize(
    ("form", "meant"),
    [
        ("minced", "ground"),
        ("bladed", "tenderised"),
        ("pumped", "injected"),
        ("filled", "stuffed"),
    ],
)
def test_a_form_is_hinted_by_what_it_means(tmp_path: Path, form: str, meant: str) -> None:
    reported = problems(tmp_path, changed(COOK, ("form: intact", f"form: {form}")))
    assert [p.hint for p in reported if p.is_error] == [f'did you mean "{meant}"?']


def test_a_form_may_be_spelled_as_in_the_united_states(tmp_path: Path) -> None:
    reported = problems(tmp_path, changed(COOK, ("form: intact", "form: Tenderized")))
    assert [p for p in reported if p.is_error] == []


def test_one_warning_names_all_the_keys_that_are_missing(tmp_path: Path) -> None:
    files = changed(
        COOK,
        ("form: intact\n", ""),
        ("counts as: roast\n", ""),
        ("for: 30 h\n", ""),
        ("shape: slab, thickness: 60 mm, ", ""),
    )
    (reported,) = [p for p in problems(tmp_path, files) if "can't be compared with" in p.message]
    assert not reported.is_error
    assert reported.record == "cooks/chuck-30h"
    for key in ("form:", "counts as:", "for:", "piece: {thickness:"):
        assert key in reported.hint


@pytest.mark.parametrize("missing", ["form: intact\n", "counts as: roast\n"])
def test_each_key_that_a_verdict_waits_for_is_reported(tmp_path: Path, missing: str) -> None:
    reported = problems(tmp_path, changed(COOK, (missing, "")))
    (found,) = [p for p in reported if "can't be compared with" in p.message]
    assert missing.partition(":")[0] in found.hint


def test_a_rule_set_for_any_meat_waits_for_no_form(tmp_path: Path) -> None:
    """The UK's equivalents are for the core of any meat, whatever was done to it."""
    files = changed(COOK, ("form: intact\n", ""), ("counts as: roast\n", ""), ("57 °C", "62 °C"))
    kitchen = changed(KITCHEN, ("us-food-code-2017", "uk-core-equivalents"))[KITCHEN]
    found, reported = read(write(tmp_path, {**files, KITCHEN: kitchen}))
    assert found is not None
    assert [p.message for p in reported if "compared with" in p.message] == []
    verdict = found.heat.verdict(found.content.cooks["chuck-30h"], found.content.cuts["chuck"])
    assert verdict is not None
    assert verdict.outcome is Outcome.MEETS


def test_keys_that_change_nothing_are_not_asked_for(tmp_path: Path) -> None:
    """A complete cook, and a braise whose core is not computed whatever the piece is called."""
    hot = ("at: 57 °C", "at: 150 °C")
    braise = changed(COOK, ("how: water bath", "how: braise"), hot, ("counts as: roast\n", ""))
    braise = {**braise, COOK: braise[COOK].replace("equipment: bath\n", "")}
    for name, files in (("whole", FILES), ("braise", braise)):
        reported = problems(tmp_path / name, files)
        assert [p.message for p in reported if "can't be compared with" in p.message] == []


@pytest.mark.parametrize(("at", "asked"), [("95 °C", False), ("60 °C", True)])
def test_a_braise_is_asked_for_keys_only_where_they_change_the_answer(
    tmp_path: Path, at: str, asked: bool
) -> None:
    """At 60 °C ground beef would fail 3-401.11(A)(2); at 95 °C nothing is known of any piece."""
    files = changed(
        COOK,
        ("how: water bath", "how: braise"),
        ("at: 57 °C", f"at: {at}"),
        ("equipment: bath\n", ""),
        ("form: intact\n", ""),
        ("counts as: roast\n", ""),
    )
    reported = [p for p in problems(tmp_path / "told", files) if "keys are missing" in p.message]
    assert bool(reported) is asked
    text = pages(costed(tmp_path / "pages", files))["cooks/chuck-30h.html"][1]
    assert ("way of cooking is not modelled here" in text) is not asked


def test_the_first_kitchen_says_what_the_rules_ask_for(tmp_path: Path) -> None:
    start(tmp_path / "ours")
    kitchen = tmp_path / "ours" / "kitchen.yaml"
    kitchen.write_text(kitchen.read_text("utf-8") + "authority: us-food-code-2017\n", "utf-8")
    found, reported = read(tmp_path / "ours")
    assert found is not None
    assert [p.message for p in reported if "compared with" in p.message] == []
    verdict = found.heat.verdict(
        found.content.cooks["chuck-roll-30h"], found.content.cuts["chuck-roll"]
    )
    assert verdict is not None
    assert verdict.clause == "3-401.11(B)"


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (("for: 30 h\n", ""), "the file does not say how long it cooks (for:)."),
        (("equipment: bath\n", ""), "the file does not name its equipment (equipment:)."),
    ],
)
def test_why_no_hours_are_booked(tmp_path: Path, change: tuple[str, str], words: str) -> None:
    text = pages(costed(tmp_path, changed(COOK, change)))["cooks/chuck-30h.html"][1]
    assert f"No hours are booked: {words}" in text


@pytest.mark.parametrize(
    ("change", "metric", "customary"),
    [
        (("at: 57 °C", "at: 300 °F"), "300 °F is outside 30 to 95 °C", "86 to 203 °F"),
        (("at: 57 °C", "at: 20 °C"), "20 °C is outside 30 to 95 °C", "86 to 203 °F"),
        (("thickness: 60 mm", "thickness: 20 in"), "20 in is outside 1 to 400 mm", "15.7 in"),
        (("thickness: 60 mm", "thickness: 50 cm"), "50 cm is outside 0.1 to 40 cm", "15.7 in"),
        ((BATH, "{kind: water bath, volume: 2000 gal}"), "1 to 2000 L", "0.265 to 528 gal"),
        ((BATH, "{kind: water bath, volume: 60 ml}"), "1000 to 2000000 mL", "0.265 to 528 gal"),
        ((BATH, "{kind: water bath, holds: 9000 lb}"), "0.1 to 2000 kg", "0.221 to 4409 lb"),
        ((BATH, "{kind: water bath, turn-round: 10 d}"), "10 d is outside 0 to 7 d", "0 to 7 d"),
    ],
)
@pytest.mark.parametrize("units", ["metric", "us customary"])
def test_a_limit_is_named_in_the_units_of_the_kitchen(
    tmp_path: Path, units: str, change: tuple[str, str], metric: str, customary: str
) -> None:
    """203 °F are 95 °C, 528 gal (US) 1999 L and 4409 lb 1999.9 kg, by the exact factors."""
    file = COOK if change[0] in FILES[COOK] else KITCHEN
    files = dict(changed(file, change))
    files[KITCHEN] += f"units: {units}\n"
    (reported,) = [p for p in problems(tmp_path, files) if "is outside" in p.message]
    words = metric if units == "metric" else customary
    assert words in reported.message
    limit = reported.message.rpartition(" is outside ")[2]
    assert reported.hint.startswith(("did you mean", "the smallest", f"wanted: {limit}"))
    assert reported.is_error


@pytest.mark.parametrize(
    ("changes", "clause"),
    [
        (
            [("how: water bath", "how: pan"), ("equipment: bath\n", "")],
            "the plan can't be compared with one",
        ),
        (
            [
                ("how: water bath", "how: pan"),
                ("equipment: bath\n", ""),
                ("as: roast", "as: steak"),
            ],
            "3-401.11(A)(1)",
        ),
        ([("form: intact\n", "")], "the plan can't be compared with one"),
    ],
)
def test_a_page_names_the_clause_that_asks_where_none_decides_yet(
    tmp_path: Path, changes: list[tuple[str, str]], clause: str
) -> None:
    """No clause covers what is beside every rule; what is only not reckoned here is not that."""
    words = pages(costed(tmp_path, changed(COOK, *changes)))["cooks/chuck-30h.html"][1]
    assert "none covers this plan" not in words
    assert clause in words
