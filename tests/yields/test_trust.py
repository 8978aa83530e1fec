"""Which yield counts: assumed, measured, stated, published, none [our rule]."""

from __future__ import annotations

import pytest

from tests.moving import with_row
from tests.yields.exact import ExactChain, ExactStage
from tests.yields.test_chain import costed, value

CHAIN = ExactChain(900, 8000, None, {}, ExactStage((), 30), {}, 100)
TEST = "tests: [{date: 2026-09-01, in: 5 kg, out: 3.5 kg}]\n"
STATED = "loss: 25 %\n"
PUBLISHED = "published: usda 23099\n"


@pytest.mark.parametrize(
    ("cook", "counts"),
    [
        (TEST + STATED + PUBLISHED, 0.70),
        (TEST + PUBLISHED, 0.70),
        (STATED + PUBLISHED, 0.75),
        ("yield: 80 %\n" + PUBLISHED, 0.80),
        (PUBLISHED, 0.64),  # USDA Table of Cooking Yields, under blade pot roast [mirror]
        ("published: {yield: 69 %, source: a book}\n", 0.69),
        ("", 1.0),
    ],
)
def test_the_better_evidence_wins(cook: str, counts: float) -> None:
    files = CHAIN.files()
    files["cooks/shank.yaml"] = "cut: shank\nhow: braise\nload: 8 kg\n" + cook
    figures = costed(files).figures
    assert value(figures, "stage", "stage_yield") == pytest.approx(counts, rel=1e-12)
    tried = with_row(figures, ("stage", "assumed_yield"), 0, [0.5])
    assert value(tried, "batch", "overall_yield") == pytest.approx(0.5, rel=1e-12)


def test_a_cure_may_gain() -> None:
    files = CHAIN.files()
    files["cooks/shank.yaml"] += "cure: {gain: 12 %}\n"
    figures = costed(files).figures
    assert value(figures, "batch", "overall_yield") == pytest.approx(1.12 * 0.7, rel=1e-12)
    assert value(figures, "batch", "ap_weight") == pytest.approx(8 / 1.12, rel=1e-12)


def test_todays_worth_wins_over_that_of_the_tests() -> None:
    files = CHAIN.files()
    files["cooks/shank.yaml"] = (
        "cut: shank\nhow: braise\nload: 8 kg\nparts: {juices: 4.00/kg}\n"
        "tests: [{date: 2026-09-01, in: 5 kg, out: 3.5 kg, parts: {juices: [500 g, 1.00/kg]}}]\n"
    )
    figures = costed(files).figures
    assert value(figures, "batch", "credits") == pytest.approx(8 * 0.1 * 4.00, rel=1e-12)
