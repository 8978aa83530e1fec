"""Weights that no scale can have shown are refused; rounding excuses little, and is named."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.problems import Problem
from builder.records.content import load
from builder.records.weights import check_weights
from tests.kitchens import TODAY, write
from tests.kitchens.small import SMALL

STAGE = "{tests: [{date: 2026-09-03, %s}, {date: 2026-09-04, in: 4 kg, out: 3 kg}]}"


def reported(root: Path, weights: str, stage: str = "finish") -> list[Problem]:
    """What is said about one weighing of one stage of a cook."""
    cook = f"cut: ribeye\nhow: grill\nload: 4 kg\n{stage}: {STAGE % weights}\n"
    content, problems = load(write(root, {**SMALL, "cooks/one.yaml": cook}), None, TODAY)
    assert content is not None
    assert problems == []
    found = check_weights(content)
    return [p for p in found if p.place.file == "cooks/one.yaml" and "balance" in p.message]


REFUSED = [
    ("in: 2 kg, out: 3 kg", "out is 1 kg more than in"),
    ("in: 6 kg, out: 5 kg, parts: {bone: 2 kg}", "out + parts is 1 kg more than in"),
    ("in: 4.00 kg, out: 4.01 kg", "out is 0.01 kg more than in"),
    ("in: 4.0 kg, out: 3.0 kg, parts: {fat: 1.1 kg}, loss: 0 kg", "is 0.1 kg more than in"),
    # Half a last place of four weights in whole kilograms would excuse 2 kg of 20.
    ("in: 20 kg, out: 15 kg, parts: {fat: 2 kg}, loss: 2 kg", "is 1 kg less than in"),
    ("in: 5 lb 9 oz, out: 5 lb, loss: 1 oz", "out + loss is 8 oz less than in"),
    ("in: 5 lb 8 1/2 oz, out: 4 lb 8 oz, loss: 15 oz", "out + loss is 1.5 oz less than in"),
    ("in: 90 lb, out: 70 lb 8 1/2 oz, loss: 17 lb 7 oz", "out + loss is 2 lb 0.5 oz less than in"),
    ("in: 900 g, out: 700 g, loss: 100 g", "out + loss is 100 g less than in"),
]


@pytest.mark.parametrize(("weights", "message"), REFUSED)
def test_more_than_went_in_is_refused(weights: str, message: str, tmp_path: Path) -> None:
    [problem] = reported(tmp_path, weights)
    assert problem.is_error
    assert problem.message.startswith("does not balance")
    assert message in problem.message
    written = weights.partition("in: ")[2].partition(",")[0]
    assert f"in is {written}" in problem.hint


def test_a_cure_may_gain(tmp_path: Path) -> None:
    assert reported(tmp_path, "in: 2 kg, out: 3 kg", "cure") == []
    assert reported(tmp_path / "parts", "in: 6 kg, out: 5 kg, parts: {brine: 2 kg}", "cure") == []


@pytest.mark.parametrize(
    "weights", ["in: 9.9 kg, out: 8.2 kg, loss: 1.7 kg", "in: 3 kg, out: 3 kg"]
)
def test_weights_that_close_are_fine(weights: str, tmp_path: Path) -> None:
    assert reported(tmp_path, weights) == []


@pytest.mark.parametrize(
    ("weights", "off"),
    [
        ("in: 8.42 kg, out: 7.10 kg, parts: {grind: 0.74 kg}, loss: 0.57 kg", "is 0.01 kg less"),
        ("in: 5 lb 8.5 oz, out: 4 lb 0.0 oz, loss: 1 lb 8.4 oz", "is 0.1 oz less"),
        ("in: 4 kg, out: 4 kg, loss: 1 g", "is 1 g more"),
        # A half as a fraction is no rougher than as a decimal.
        ("in: 5 lb 8 1/2 oz, out: 4 lb 0 1/2 oz, loss: 1 lb 8.1 oz", "is 0.1 oz more"),
    ],
)
def test_closing_by_rounding_alone_is_a_warning(weights: str, off: str, tmp_path: Path) -> None:
    [problem] = reported(tmp_path, weights)
    assert not problem.is_error
    assert problem.record == "cooks/one"
    assert problem.message.startswith("balances only by rounding")
    assert f"{off} than in" in problem.message


def test_a_fraction_counts_like_its_decimal(tmp_path: Path) -> None:
    for n, half in enumerate(("8 1/2", "8½", "8.5")):
        [problem] = reported(
            tmp_path / str(n), f"in: 5 lb {half} oz, out: 5 lb 0.0 oz, loss: 8.2 oz"
        )
        assert problem.is_error
        assert "0.3 oz less" in problem.message


@settings(max_examples=60, deadline=None)
@given(
    st.integers(1, 9999), st.integers(1, 9999), st.integers(0, 999), st.integers(0, 9999),
    st.integers(0, 2),
)  # fmt: skip
def test_the_verdict_is_that_of_exact_fractions(
    tmp_path_factory: pytest.TempPathFactory, into: int, out: int, part: int, loss: int, places: int
) -> None:
    """Random weights to 0, 1 or 2 decimals [kg]: refused, warned of or passed as exactly held."""
    unit = Fraction(1, 10**places)
    loss = loss if loss % 2 else max(into - out - part + loss % 3 - 1, 0)
    inside, outside, kept, lost = (
        f"{float(number * unit):.{places}f} kg" for number in (into, out, part, loss)
    )
    off = (into - out - part - loss) * unit
    slack = min(4 * unit / 2, into * unit / 100)
    weights = f"in: {inside}, out: {outside}, parts: {{fat: {kept}}}, loss: {lost}"
    found = [problem.is_error for problem in reported(tmp_path_factory.mktemp("w"), weights)]
    refused = into < out + part or abs(off) > slack
    assert found == ([True] if refused else [False] if off else [])
