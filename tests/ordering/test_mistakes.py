"""Mistakes in how an item is sold, at their place, with what would be right."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.problems import Severity
from tests.kitchens import read, write
from tests.ordering.kitchens import BASE
from tests.records.mistakes import Mistake
from tests.records.test_mistakes import made, name

CREAM, CARROT, SHOULDER, FLOUR, LIST, BREAD = (
    "pantry/cream.yaml",
    "pantry/carrot.yaml",
    "cuts/shoulder.yaml",
    "pantry/flour.yaml",
    "prices/list.csv",
    "pantry/bread.yaml",
)
PAGES = {CREAM, CARROT, SHOULDER, FLOUR, LIST, BREAD}
FILES = {**BASE, LIST: "date,item,price,sold as,minimum,deposit\n2026-09-01,carrot,2.00/kg,,,\n"}
_CRATE, _LEAST = "{pack: crate of 6 x 1 L, deposit: 4.50}", "minimum 3 kg"

MISTAKES = [
    Mistake(CREAM, _CRATE, "§crate", '"crate" does not say what is in it', "crate of"),
    Mistake(CREAM, _CRATE, "{pack: §6 x 1 L crate}", "no pack with", "crate of 6 x 1 L"),
    Mistake(CREAM, _CRATE, "{§crate: 6 x 1 L}", '"crate" is a pack', "pack: crate of 6 x 1 L"),
    Mistake(CREAM, _CRATE, "§2 crates of 6 L", "several packs", "minimum: 2 crates"),
    Mistake(CARROT, _LEAST, "§crate of 6 x 1 L", "does not fit how carrot", "litre: 1.02 kg"),
    Mistake(CREAM, _CRATE, "{pack: crate of 6 L, minimum: §12 kg}", "does not fit", "litre:"),
    Mistake(CREAM, _CRATE, "{pack: crate of 6 L, steps: §1 L}", "in one way", "keep pack"),
    Mistake(CREAM, _CRATE, "{pack: crate of 6 L, minimum: §0 L}", "0 L is nothing", "write more"),
    Mistake(CREAM, _CRATE, "§crate of 0 L", "holds nothing", "how much is in it"),
    Mistake(CREAM, _CRATE, "{pack: crate of 6 L, §deposits: 4.50}", "unknown key", '"deposit"'),
    Mistake(CREAM, _CRATE, "{pack: crate of 6 L, deposit: §4,50}", "has a comma", "4.50"),
    Mistake(CREAM, "30.00/crate", "§30.00/case", "sold by the crate", "30.00/crate"),
    Mistake(CREAM, "30.00/crate", "§30,00/crate", "has a comma", "30.00/crate"),
    Mistake(CREAM, "sold as: " + _CRATE, "", "how much a crate holds", "30.00/crate of 10 kg"),
    Mistake(CARROT, _LEAST, "{steps: 1 kg, deposit: §3.00}", "a deposit is for a pack", "crate"),
    Mistake(CARROT, _LEAST, "{minimum: §2 cases}", "2 cases is not said", "case of 10 kg"),
    Mistake(CARROT, _LEAST, "§minimum 3", '"3" has no unit', "kg"),
    Mistake(SHOULDER, "piece of about 2 kg", "§by the piece", "what one weighs", "about 1.8 kg"),
    Mistake(SHOULDER, "piece of about 2 kg", "§case of 2 L", "does not fit", "by weight"),
    Mistake(SHOULDER, "piece of about 2 kg", "§case of 4", "does not fit", "each: 250 g"),
    Mistake(BREAD, "makes: 1 kg", "makes: 1 kg\nsold as: §case of 4 kg", "made, not", "take"),
    Mistake(LIST, "2.00/kg,", "§20.00/bag,", "how much a bag holds", "in pantry/carrot"),
    Mistake(LIST, "2.00/kg,,,", "2.00/kg,,,§3.00", "a deposit is for a pack", "crate"),
    Mistake(LIST, "2.00/kg,,", "2.00/kg,§box,", "does not say what is in it", "box of"),
    Mistake(LIST, "sold as", "§sold", 'unknown column "sold"', '"sold as"'),
]  # fmt: skip


@pytest.mark.parametrize("mistake", MISTAKES, ids=name)
def test_a_mistake_is_one_error_at_its_place(mistake: Mistake, tmp_path: Path) -> None:
    text, place = made(mistake, FILES[mistake.file])
    costed, problems = read(write(tmp_path, {**FILES, mistake.file: text}))
    assert costed is None
    errors = [problem for problem in problems if problem.is_error]
    assert [str(error.place).startswith(place) for error in errors] == [True]
    assert mistake.message in errors[0].message
    assert mistake.hint in errors[0].hint


def test_without_mistakes_there_is_no_problem(tmp_path: Path) -> None:
    costed, problems = read(write(tmp_path, FILES))
    assert costed is not None
    assert [each for each in problems if each.place.file in PAGES] == []


DOUBTS = [
    Mistake(FLOUR, "minimum: 20 kg", "minimum: §18 kg", "3.6 times 5 kg", "minimum: 20 kg"),
    Mistake(
        CREAM, "deposit: 4.50", "minimum: §8 L", "1.333 times crate of 6 x 1 L", "minimum: 2 crates"
    ),
    Mistake(
        SHOULDER, "piece of about 2 kg", "{piece: 2 kg, minimum: §5 kg}", "2.5 times", "6 kg"
    ),
    Mistake(
        CREAM, "30.00/crate", "§30.00/crate of 6 x 750 ml", "and sold as crate of 6 x 1 L", "alike"
    ),
    Mistake(LIST, "2.00/kg,,,", "2.00/kg,bag of 5 kg,§7 kg,", "1.4 times", "minimum: 2 bags"),
]  # fmt: skip


@pytest.mark.parametrize("doubt", DOUBTS, ids=name)
def test_what_can_not_be_ordered_so_is_a_warning(doubt: Mistake, tmp_path: Path) -> None:
    text, place = made(doubt, FILES[doubt.file])
    costed, problems = read(write(tmp_path, {**FILES, doubt.file: text}))
    assert costed is not None
    [found] = [each for each in problems if each.place.file in PAGES]
    assert str(found.place).startswith(place)
    assert found.severity is Severity.WARNING
    assert doubt.message in found.message
    assert doubt.hint in found.hint
