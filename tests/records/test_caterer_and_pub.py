"""Slips that two made-up kitchens, a caterer and a pub, showed to pass or to get a wrong hint.

All values are invented (common practice, no published source). What a test says is belied by the
kitchens of `shankbook new`, changed as each test says.
"""

from __future__ import annotations

import shutil
from collections.abc import Mapping
from pathlib import Path

import pytest

from builder.problems import Problem
from tests.kitchens import read, write
from tests.site.sites import STARTER

CUSTOMARY_STARTER = STARTER.with_name("customary")
CHUCK, TRIM, STEAK = "cooks/chuck-roll-30h.yaml", "cuts/chuck-roll.yaml", "plates/chuck-steak.yaml"


def changed(
    folder: Path,
    edits: Mapping[str, tuple[str, str]],
    starter: Path = STARTER,
    files: Mapping[str, str] | None = None,
) -> list[Problem]:
    """What is reported of a starter with these changes, by file, and with further files."""
    shutil.copytree(starter, folder)
    for file, (old, new) in edits.items():
        text = (folder / file).read_text(encoding="utf-8")
        assert text.count(old) >= 1, (file, old)
        (folder / file).write_text(text.replace(old, new, 1), encoding="utf-8")
    return read(write(folder, dict(files or {})))[1]


def of(problems: list[Problem], file: str) -> list[Problem]:
    return [problem for problem in problems if problem.place.file == file]


def test_a_doubt_about_a_cheap_side_does_not_hide_that_the_meat_costs_more_than_the_plate(
    tmp_path: Path,
) -> None:
    """Chuck by the gram; its sauce is in doubt, too, and is a small part of the food."""
    edits = {TRIM: ("13.50/kg", "0.15/g"), "pantry/bone-sauce.yaml": ("1.2 L", "12 L")}
    problems = changed(tmp_path / "k", edits)
    assert [p.message[:8] for p in of(problems, "pantry/bone-sauce.yaml")] == ["12 L is "]
    (dear,) = of(problems, STEAK)
    assert dear.message.startswith("its food costs 1")
    assert dear.message.endswith("% of what guests pay without tax")
    # The plate is priced as the other of its section, so its own price is not the slip.
    assert "did you mean" not in dear.hint


def test_a_side_in_doubt_that_is_most_of_the_food_is_reported_alone(tmp_path: Path) -> None:
    """Bones at a hundred times their price make the sauce the dear part of the plate."""
    problems = changed(tmp_path / "k", {"pantry/bones.yaml": ("2.80/kg", "280/kg")})
    assert of(problems, "pantry/bones.yaml")
    assert not of(problems, STEAK)


def test_dried_beans_take_up_the_water_that_nobody_writes(tmp_path: Path) -> None:
    """Pulses weigh 2.2 to 2.7 times as much once they are cooked (from memory)."""
    files = {
        "pantry/dry-pintos.yaml": "name: Dry pintos\nprice: 2.30/kg\n",
        "pantry/pintos.yaml": "of: {dry-pintos: 5 kg}\nmakes: 12.5 kg\nhands-on: 25 min\n",
    }
    assert not of(changed(tmp_path / "k", {}, files=files), "pantry/pintos.yaml")


def test_tests_of_one_piece_say_nothing_of_the_load(tmp_path: Path) -> None:
    """A kitchen that smokes seven pieces weighs one of them before and after."""
    smoke = (
        "cut: chuck-roll\nhow: smoke\nat: 120 °C\nfor: 12 h\nload: {load}\n"
        "piece: {{weight: 5 kg}}\nhands-on: 90 min\n"
        "tests:\n  - {{date: 2026-01-14, in: 5.2 kg, out: 3.2 kg}}\n"
        "  - {{date: 2026-01-21, in: 4.9 kg, out: 3.0 kg}}\n"
    )
    file = "cooks/smoke.yaml"
    said = [p.message for p in of(changed(tmp_path / "a", {}, files={
        file: smoke.format(load="35 kg")}), file)]  # fmt: skip
    assert not [each for each in said if "the weights of its tests" in each]
    smaller = smoke.format(load="35 kg").replace("weight: 5 kg", "weight: 2 kg")
    said = [p.message for p in of(changed(tmp_path / "b", {}, files={file: smaller}), file)]
    assert [each for each in said if "the weights of its tests" in each]


def test_a_load_that_does_not_go_in_is_said_of_the_load_alone(tmp_path: Path) -> None:
    """Four pieces go into the bath and forty do not; no weight of a piece is the slip then."""
    edits = {CHUCK: ("equipment: bath", "load: 40 pieces\nequipment: bath")}
    found = of(changed(tmp_path / "k", edits), CHUCK)
    assert [p.message for p in found] == ["40 pieces, 74 kg, is more than bath holds"]


def test_a_test_that_does_not_balance_is_no_measure_for_the_others(tmp_path: Path) -> None:
    """Nothing is said of the other tests, whose weights are right."""
    third = (
        "    - {date: 2026-01-26, in: 8.80 kg, out: 7.40 kg, parts: {grind: [7.6 kg, 7.50/kg]}}\n"
    )
    folder = tmp_path / "k"
    text = (STARTER / TRIM).read_text(encoding="utf-8").rstrip() + "\n" + third
    found = of(changed(folder, {}, files={TRIM: text}), TRIM)
    lines = {problem.place.line for problem in found}
    assert lines == {text.count("\n")}
    assert [p.hint[:21] for p in found if p.message.startswith("7.6 kg")] == [
        "did you mean 0.76 kg?"
    ]


def test_a_part_that_is_next_to_nothing_has_the_hint_of_its_unit(tmp_path: Path) -> None:
    third = (
        "    - {date: 2026-01-26, in: 8.80 kg, out: 7.40 kg, parts: {grind: [0.76 g, 7.50/kg]}}\n"
    )
    text = (STARTER / TRIM).read_text(encoding="utf-8").rstrip() + "\n" + third
    (found,) = of(changed(tmp_path / "k", {}, files={TRIM: text}), TRIM)
    assert found.hint.startswith("did you mean 0.76 kg?")


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("gas: 4.1 L", "did you mean 4.1 m3?"),
        ("gas: 4.1 m3", ""),
        ("energy: 0.15 kWh", "did you mean"),
        ("energy: 15 kWh", ""),
    ],
)
def test_no_batch_takes_less_than_its_meat_takes_up(
    written: str, said: str, tmp_path: Path
) -> None:
    """20 kg from 4 to 90 °C take 1.6 kWh or more: lean meat takes up 3.5 kJ/kg K (handbooks)."""
    text = (
        "cut: chuck-roll\nhow: smoke\nat: 120 °C\ncore: 90 °C\nfor: 12 h\nload: 20 kg\n"
        f"piece: {{weight: 5 kg, starts at: 4 °C}}\nhands-on: 90 min\nloss: 35 %\n{written}\n"
    )
    kitchen = {"kitchen.yaml": ("energy: 0.14/kWh", "energy: 0.14/kWh\ngas: 0.05/kWh")}
    found = of(changed(tmp_path / "k", kitchen, files={"cooks/s.yaml": text}), "cooks/s.yaml")
    about = [p for p in found if "is less than warming 20 kg to 90 °C takes" in p.message]
    assert [p.hint.startswith(said) for p in about] == ([True] if said else [])


def test_a_heat_in_a_scale_that_no_other_cook_is_in_is_the_slip_of_its_hours(
    tmp_path: Path,
) -> None:
    """250 °C for 14 h among cooks in °F: the scale is wrong, the hours are not."""
    smoke = "cut: chuck-roll\nhow: smoke\nat: 250 °C\nfor: 14 h\nload: 40 lb\nloss: 35 %\n"
    problems = changed(tmp_path / "k", {}, CUSTOMARY_STARTER, {"cooks/smoke.yaml": smoke})
    (found,) = [p for p in problems if "is long at 250 °C" in p.message]
    assert found.hint.startswith("did you mean 250 °F?")


def test_a_clock_time_where_a_temperature_is_wanted_asks_for_no_duration(tmp_path: Path) -> None:
    found = of(changed(tmp_path / "k", {CHUCK: ("at: 57 °C", "at: 5:00 pm")}), CHUCK)
    assert [(p.message, p.hint) for p in found] == [
        ('"5:00 pm" is a time on a clock', "units that fit: °C, °F")
    ]


def test_two_numbers_with_a_dash_are_listed_as_two(tmp_path: Path) -> None:
    found = changed(tmp_path / "k", {"kitchen.yaml": ("[50, 100]", "50-100")})
    assert [p.hint for p in found] == ["write [50, 100], or start each entry with a dash"]


def test_a_price_that_its_comma_parts_is_written_as_one(tmp_path: Path) -> None:
    """The empty last cell of the row hides that it has one too many."""
    text = "date,item,price,supplier,note\n2026-09-03,butter,11,20/kg,Fen Dairy,\n"
    found = of(changed(tmp_path / "k", {}, files={"prices/fen.csv": text}), "prices/fen.csv")
    assert [(p.message, p.hint) for p in found] == [
        ("this row has 6 cells, the header 5", "a comma ends a cell: write 11.20/kg")
    ]


def test_what_a_litre_weighs_is_reported_once(tmp_path: Path) -> None:
    """A litre of cream of 1.01 g makes its share of a batch nothing, which is no second slip."""
    files = {
        "pantry/cream.yaml": "price: 6.20/L\nlitre: 1.01 g\n",
        "pantry/potato.yaml": "price: 1.20/kg\n",
        "pantry/mash.yaml": "of: {potato: 10 kg, cream: 1.2 L}\nmakes: 8.9 kg\nhands-on: 45 min\n",
    }
    problems = changed(tmp_path / "k", {}, files=files)
    assert len(of(problems, "pantry/cream.yaml")) == 1
    assert not of(problems, "pantry/mash.yaml")


def test_samples_called_by_the_hours_of_each_other_are_reported(tmp_path: Path) -> None:
    """h24 is the cook of 36 h, and h36 that of 24 h; other names say nothing of hours."""
    cook = (STARTER / CHUCK).read_text(encoding="utf-8")
    cooks = {f"cooks/c{n}.yaml": cook.replace("for: 30 h", f"for: {n} h") for n in (24, 36)}
    file = "tastings/t.yaml"
    text = "test: scores\ntasters: 8\nattributes: {{liking: 9-point}}\nsamples: {{{}}}\n"
    for number, (samples, said) in enumerate((
        ("h24: c36, h36: c24", ["did you mean c24?", "did you mean c36?"]),
        ("h24: c24, h36: c36", []),
        ("ham: c36, h2: c24", []),
    )):  # fmt: skip
        files = {**cooks, file: text.format(samples)}
        found = of(changed(tmp_path / str(number), {}, files=files), file)
        about = [p for p in found if "its short name" in p.message]
        assert [p.hint[: len("did you mean c24?")] for p in about] == said


def test_a_dish_is_not_chilled_for_an_hour(tmp_path: Path) -> None:
    """1 h for 1 d: chilling alone takes longer than that."""
    chilled = "finish: {how: sear, loss: 3 %}\ncool: {to: 3 °C, within: 2 h, in: ice bath}\n"
    chilled += "store: {at: 3 °C, for: 5 d}\nreheat: {at: 57 °C, for: 1 h}\n"
    service = "day: friday\nat: 18:00\nplates: {chuck-steak: [20, 1 h]}\n"
    edits = {CHUCK: ("finish: {how: sear, loss: 3 %}", chilled)}
    problems = changed(tmp_path / "k", edits, files={"services/fri.yaml": service})
    assert [p for p in problems if p.message.startswith("1 h is far outside what is usual")]


def test_temperatures_that_overlap_in_turn_are_counted_as_the_most(tmp_path: Path) -> None:
    """14 h, 12 h and 9 h before one service: two at once at first, then three."""
    gear = "equipment:\n  smoker: {kind: smoker, holds: 80 kg}\n"
    files: dict[str, str] = {}
    for name, hours, heat in (("a", 14, 120), ("b", 12, 115), ("c", 9, 130)):
        files[f"cooks/{name}.yaml"] = (
            f"cut: chuck-roll\nhow: smoke\nat: {heat} °C\nfor: {hours} h\nload: 20 kg\n"
            "equipment: smoker\nloss: 35 %\nhands-on: 20 min\n"
        )
        files[f"plates/{name}.yaml"] = f"menu: mains\ncook: {name}\nportion: 180 g\nprice: 26.00\n"
    files["services/fri.yaml"] = "day: friday\nat: 18:00\nplates: {a: 20, b: 20, c: 20}\n"
    problems = changed(tmp_path / "k", {"kitchen.yaml": ("equipment:\n", gear)}, files=files)
    (found,) = [p for p in problems if "temperatures at once" in p.message]
    assert "Smoker is wanted at up to 3 temperatures at once, from " in found.message
