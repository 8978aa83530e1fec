"""What method pages and tables say of numbers is plain: units, ends of intervals, what is left."""

from __future__ import annotations

import re

import pytest

import builder.pages.methods  # noqa: F401 - registers every method
from builder.costing.model import MODEL
from builder.engine.methods import METHODS
from builder.pages.how_sure import rest_words


@pytest.mark.parametrize("name", ["blind_codes", "codes_by_taster", "plan_scoring_session"])
def test_what_is_no_number_has_no_unit(name: str) -> None:
    assert METHODS[name].unit == ""


def test_a_plain_number_is_called_one() -> None:
    assert METHODS["difference_test_power"].unit_words == "number"
    assert not any(method.unit_words == "1" for method in METHODS.values())


def test_an_end_of_an_interval_is_named_by_its_figure() -> None:
    """A name of a figure need not be a noun: "unexplained" is none."""
    ends = [
        figure.about
        for table in MODEL.tables.values()
        for name, figure in table.figures.items()
        if re.fullmatch(r".*_(?:low|high)", name) and "9 times in 10" in figure.about
    ]
    assert "Unexplained: high end, 9 times in 10" in ends
    assert not [about for about in ends if "what the" in about]


def test_a_table_of_one_row_is_not_called_these() -> None:
    assert rest_words(1, 1) == "1 other input moves it less than this one."
    assert rest_words(2, 1) == "2 other inputs each move it less than this one."
    assert rest_words(1, 3) == "1 other input moves it less than these."
