"""Every published yield test, cost and menu, from the files a kitchen writes to the figure.

Each row of values.csv is one printed figure with its source (sources.csv) and
status: "read" at the source, "secondary" in a re-quote, "ours" where only the
inputs are published. Figures are compared unrounded, by the source's own way:

    rounded    within half a unit of the last printed place
    truncated  from the printed figure up to one unit above it
    stepwise   within one unit, where earlier steps were rounded as well
    quarter    within a quarter, the step to which the source gives pence
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from builder.costing.costed import Costed
from builder.problems import Problem
from tests.kitchens import PUBLISHED, costed_from, read, write
from tests.moving import with_row
from tests.published.kitchens import EXAMPLES, lamb_loin
from tests.published.rows import LB, printed_value, row_of

HERE = Path(__file__).parent
BITS = 1e-9
PUBLISHED_KITCHEN = "published kitchen"


def table(name: str) -> list[dict[str, str]]:
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


VALUES = table("values.csv")


@pytest.fixture(scope="module")
def kitchens(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, Costed]:
    """Every example through the whole chain, once."""
    costed = {
        name: costed_from(write(tmp_path_factory.mktemp("kitchen"), files))
        for name, files in EXAMPLES.items()
    }
    return {**costed, PUBLISHED_KITCHEN: costed_from(PUBLISHED)}


def agrees(value: float, printed: str, rounding: str) -> bool:
    """Whether an unrounded value is one that the source would print so."""
    place = float(Decimal(1).scaleb(int(Decimal(printed).as_tuple().exponent)))
    off = value - float(printed)
    match rounding:
        case "rounded":
            return abs(off) <= place / 2 + BITS
        case "truncated":
            return -BITS <= off < place
        case "stepwise":
            return abs(off) <= place + BITS
        case "quarter":
            return abs(off) <= 0.25
    raise ValueError(f"no rounding is called {rounding}")


@pytest.mark.parametrize(
    "row", VALUES, ids=[f"{v['example']}: {v['record']} {v['figure']} {v['unit']}" for v in VALUES]
)
def test_the_chain_gives_the_published_figure(
    row: dict[str, str], kitchens: Mapping[str, Costed]
) -> None:
    costed = kitchens[row["example"]]
    value = printed_value(costed, row["table"], row["record"], row["figure"], row["unit"])
    assert agrees(value, row["printed"], row["rounding"]), (value, row["source"], row["status"])


def test_every_value_names_its_source_and_status() -> None:
    assert {row["source"] for row in VALUES} == {row["source"] for row in table("sources.csv")}
    assert all(row["status"].split(":")[0].split(" ")[0] in STATUSES for row in VALUES)


STATUSES = {"read", "secondary", "ours"}


def problems_of(root: Path) -> list[Problem]:
    costed, problems = read(root)
    assert costed is None
    return [problem for problem in problems if problem.is_error]


def test_a_published_cooking_block_that_does_not_balance_is_refused(tmp_path: Path) -> None:
    """Dittmer & Keefe, example 6.3, a posted form: 5 lb 0 oz + 1 lb 0 oz from 5 lb 8 oz."""
    files = lamb_loin("5 lb 0 oz")
    line = next(
        n for n, text in enumerate(files["cooks/roast.yaml"].splitlines(), 1) if "bones" in text
    )
    column = files["cooks/roast.yaml"].splitlines()[line - 1].index("5 lb 0 oz") + 1
    [problem] = problems_of(write(tmp_path, files))
    assert str(problem.place) == f"cooks/roast.yaml:{line}:{column}"
    assert "does not balance: out + parts is 8 oz more than in" in problem.message


# Where the sources are wrong, the figure that they print and the one that their own inputs give.
MISPRINTS = [
    ("rib 103", "batch", "rib-109", "net_cost", "money", 22.40, 28.40, "walk-through"),
    ("household joints", "batch", "middle-ribs", "cost_per_servable_kg", "money/lb", 18.50, 15.43,
     "beeton"),
    ("forequarter", "batch", "rib", "cost_per_servable_kg", "money/lb", 6.29, 11.493, "worksheet"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("example", "of", "record", "figure", "unit", "printed", "right", "source"), MISPRINTS
)
def test_a_misprint_is_not_followed(
    example: str,
    of: str,
    record: str,
    figure: str,
    unit: str,
    printed: float,
    right: float,
    source: str,
    kitchens: Mapping[str, Costed],
) -> None:
    value = printed_value(kitchens[example], of, record, figure, unit)
    assert abs(value - right) < 0.01
    assert abs(value - printed) > 3


def at_price(costed: Costed, cook: str, price: float) -> Costed:
    """The same kitchen with one cut at another AP price [money/kg]."""
    cut = costed.figures.linked("batch", "cut", costed.rows.cooks[cook])
    figures = with_row(costed.figures, ("cut", "ap_price"), cut, [price])
    return replace(costed, figures=figures)


@pytest.mark.parametrize(
    ("example", "plate", "per_lb"),
    [("yields and factors", "leg-of-lamb", 9.35), ("striploin", "striploin", 6.10)],
)
def test_a_cost_factor_gives_the_portion_cost_at_a_new_price(
    example: str, plate: str, per_lb: float, kitchens: Mapping[str, Costed]
) -> None:
    """Dittmer & Keefe: cost factor per lb x portion (lb) x new price, here without credits."""
    costed = kitchens[example]
    row = row_of(costed, "plate", plate)
    factor = costed.figures.value("batch", "cost_factor_per_kg", costed.rows.cooks[plate])
    portion = costed.figures.value("plate", "portion", row) / LB
    moved = at_price(costed, plate, per_lb / LB)
    assert moved.figures.value("plate", "portion_cost_by_weight", row) == pytest.approx(
        factor * portion * per_lb, rel=1e-12
    )


def test_the_menu_adds_up_to_its_published_totals(kitchens: Mapping[str, Costed]) -> None:
    """Sales 10,425.95, food cost 3,350.20 or 32.13 % of it: ours from the published inputs."""
    figures = kitchens["menu of entrees"].figures
    for table in ("section", "menu"):
        of = "kitchen" if table == "menu" else table
        assert figures.value(of, f"{table}_sales", 0) == pytest.approx(10425.95, abs=0.005)
        assert figures.value(of, f"{table}_food", 0) == pytest.approx(3350.20, abs=0.005)
        assert figures.value(of, f"{table}_food_share", 0) == pytest.approx(0.3213, abs=0.00005)
        assert figures.value(of, f"{table}_sold", 0) == 629


def test_a_hundred_covers_of_the_dearer_entree_earn_490_more(
    kitchens: Mapping[str, Costed],
) -> None:
    """Dittmer & Keefe, ch. 11 [read]: 4.90 x 100."""
    figures = kitchens["two entrees"].figures
    change = figures.value("swap", "margin_change", 0) * figures.value("swap", "swap_count", 0)
    assert change == pytest.approx(490.0, abs=0.005)
