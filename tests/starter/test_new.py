"""What `new` writes: kitchens in every unit and currency, and single records, all of them clean."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.build import compute_content
from builder.cli import DONE, IN_THE_WAY, USAGE, main
from builder.costing.costed import Costed
from builder.problems import Problem
from builder.starter import Choices, start
from builder.starter.records import KINDS, new_record
from tests.kitchens import TODAY

CUSTOMARY = "us customary"
CHOICES = [
    Choices(),
    Choices(units=CUSTOMARY),
    Choices(units=CUSTOMARY, authority="us-food-code-2017"),
    Choices(currency="GBP", authority="uk-core-equivalents"),
    Choices(currency="EUR", locale="de_DE"),
    Choices(currency="JPY", locale="ja_JP"),
    Choices(currency="CHF"),
]


def checked(root: Path) -> tuple[Costed | None, list[Problem]]:
    return compute_content(root, None, TODAY)


def errors(root: Path) -> list[str]:
    return [f"{p.place}: {p.message}" for p in checked(root)[1] if p.is_error]


@pytest.mark.parametrize("choices", CHOICES, ids=str)
def test_a_kitchen_in_any_money_and_units_is_clean(tmp_path: Path, choices: Choices) -> None:
    start(tmp_path / "k", choices)
    costed, problems = checked(tmp_path / "k")
    assert [p.message for p in problems if p.is_error] == []
    assert costed is not None
    kitchen = costed.content.kitchen
    assert (kitchen.currency, kitchen.locale) == (choices.money, choices.numbers)
    assert str(kitchen.authority or "") == choices.authority
    assert (kitchen.units == CUSTOMARY) == (choices.units == CUSTOMARY)


def test_the_customary_kitchen_is_the_metric_one_in_what_a_cook_would_weigh(
    tmp_path: Path,
) -> None:
    """Both are of one kitchen: 0.45359237 kg a pound, rounded, moves no figure by much."""
    found = []
    for units in ("metric", CUSTOMARY):
        start(tmp_path / units, Choices(units=units))
        costed, _ = checked(tmp_path / units)
        assert costed is not None
        plates = costed.rows.plates
        found.append(
            {name: costed.figures.value("plate", "food_cost", plates[name]) for name in plates}
        )
    metric, customary = found
    assert customary == pytest.approx(metric, rel=0.04)


WRONG = [
    (["--currency", "CDA"], "is no currency"),
    (["--locale", "xx_QQ"], "is no locale"),
    (["--authority", "us-food-code-2018"], 'did you mean "us-food-code-2017"?'),
]


@pytest.mark.parametrize(("options", "said"), WRONG)
def test_what_is_not_known_is_refused_and_nothing_written(
    tmp_path: Path, options: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["new", str(tmp_path / "k"), *options]) == USAGE
    assert said in capsys.readouterr().err
    assert not (tmp_path / "k").exists()


MISUSED = [
    (["cut"], "needs a name"),
    (["cutt", "Cheek"], 'did you mean "cut"?'),
    (["cut", "Cheek", "--currency", "USD"], "kitchen.yaml says it"),
    (["folder", "--like", "a"], "are of one record"),
]


@pytest.mark.parametrize(("arguments", "said"), MISUSED)
def test_arguments_that_do_not_go_together(
    arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["new", *arguments]) == USAGE
    assert said in capsys.readouterr().err


@pytest.mark.parametrize("units", ["metric", CUSTOMARY])
def test_every_kind_of_record_is_clean_where_it_is_written(tmp_path: Path, units: str) -> None:
    root = tmp_path / "k"
    start(root, Choices(units=units))
    for kind in KINDS:
        path = new_record(root, kind, f"Beef cheek {kind}")
        assert errors(root) == [], path
        # 10 to 30 lines beside the header and the remark on top.
        assert 5 <= len(path.read_text().splitlines()) <= 32
    costed, _ = checked(root)
    assert costed is not None
    assert costed.content.cooks["beef-cheek-cook"].cut == "beef-cheek-cut"
    assert costed.content.plates["beef-cheek-plate"].title == "Beef cheek plate"


def test_a_copy_leaves_out_what_belongs_to_the_other_one(tmp_path: Path) -> None:
    root = tmp_path / "k"
    start(root)
    plate = root / "plates/chuck-steak.yaml"
    plate.write_text(plate.read_text() + "sold:\n  2026-01: 80\nchecked: 2026-02-01\nnote: salt\n")
    assert (
        main(["new", "plate", "Chuck: small", "--like", "chuck-steak", "--content", str(root)])
        == DONE
    )
    costed, problems = checked(root)
    assert costed is not None, problems
    copy, other = (costed.content.plates[name] for name in ("chuck-small", "chuck-steak"))
    assert copy.title == "Chuck: small"
    assert (copy.sold, copy.checked) == ({}, None)
    assert (copy.note, copy.price.value, copy.cook) == (other.note, other.price.value, other.cook)


def test_nothing_is_overwritten(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    root = tmp_path / "k"
    start(root)
    before = (root / "cuts/ribeye.yaml").read_bytes()
    assert main(["new", "cut", "Ribeye", "--content", str(root)]) == IN_THE_WAY
    assert "is there already" in capsys.readouterr().err
    assert main(["new", "cut", "Cheek", "--like", "ribeyes", "--content", str(root)]) == IN_THE_WAY
    assert 'did you mean "ribeye"?' in capsys.readouterr().err
    assert (root / "cuts/ribeye.yaml").read_bytes() == before
    assert not (root / "cuts/cheek.yaml").exists()


# A pub: five cuts, two sub-recipes, eight plates, a swap, a tasting and a service, as `new`
# writes them, and what somebody then gets wrong.
PUB = [
    *(("cut", name) for name in ("Beef cheek", "Ox tail", "Pork belly", "Lamb neck", "Ribeye cap")),
    *(("cook", f"{name} braise") for name in ("Beef cheek", "Ox tail", "Pork belly", "Lamb neck")),
    ("pantry", "Red wine"), ("pantry", "Potatoes"),
    ("recipe", "Red wine gravy"), ("recipe", "Potatoes mash"),
    *(("plate", f"{name} plate") for name in ("Beef cheek", "Ox tail", "Pork belly", "Lamb neck")),
    *(("plate", f"{name} pie") for name in ("Beef cheek", "Ox tail", "Pork belly", "Lamb neck")),
    ("swap", "Cheek for tail"), ("tasting", "Cheek or tail"), ("service", "Sunday lunch"),
]  # fmt: skip
SLIPS: list[tuple[str, str, str]] = [
    ("kitchen.yaml", "tax: 5 %", "tax: 5"),
    ("cuts/beef-cheek.yaml", "price: 13.50/kg", "price: 13,50/kg"),
    ("cuts/ox-tail.yaml", "date: 2026-01-12", "date: 12.1.2026"),
    ("cuts/pork-belly.yaml", "species: beef", "species: pig"),
    ("cooks/lamb-neck-braise.yaml", "cut: lamb-neck ", "cut: Lamb neck"),
    ("cooks/ox-tail-braise.yaml", "hands-on: 35 min", "hand-on: 35 min"),
    ("pantry/red-wine-gravy.yaml", "makes: 1.2 L", "makes: 1.2"),
    ("plates/pork-belly-pie.yaml", "menu: mains", "menu: main"),
    ("plates/lamb-neck-pie.yaml", "portion: 180 g", "portion: 180"),
    ("services/sunday-lunch.yaml", "at: 18:00", "at: 6 pm"),
]


def test_a_pub_is_clean_in_three_rounds(tmp_path: Path) -> None:
    root = tmp_path / "pub"
    start(root)
    for kind, name in PUB:
        new_record(root, kind, name)
    assert errors(root) == []
    counts = {k: len(list((root / k).glob("*.yaml"))) for k in ("plates", "cuts", "pantry")}
    assert counts == {"plates": 10, "cuts": 7, "pantry": 7}
    left = list(SLIPS)
    for file, good, wrong in left:
        text = (root / file).read_text()
        assert text.count(good) == 1, (file, good)
        (root / file).write_text(text.replace(good, wrong))
    rounds = 0
    while found := errors(root):
        rounds += 1
        told = [slip for slip in left if any(named(root, slip, each) for each in found)]
        assert told, found
        assert len(told) == len(found), found
        for file, good, wrong in told:
            path = root / file
            path.write_text(path.read_text().replace(wrong, good))
        left = [slip for slip in left if slip not in told]
    assert left == []
    assert rounds <= 3


def named(root: Path, slip: tuple[str, str, str], error: str) -> bool:
    """Whether an error names the line of a slip."""
    file, _, wrong = slip
    text = (root / file).read_text()
    line = text[: text.index(wrong)].count("\n") + 1
    return error.startswith(f"{file}:{line}:")
