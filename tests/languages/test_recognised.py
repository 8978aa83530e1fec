"""What code finds in a message or an error, it finds in every language of the pages."""

from collections.abc import Iterator

import pytest

from builder.cooking.rule_fields import Fault, Fields, RuleSetError
from builder.display.style import Style
from builder.language import tr, written_in
from builder.pages.message_units import hint_in_units, in_kitchen_units
from builder.quantities import Dimension, QuantityError, parse_quantity
from builder.reading.folder import ContentFile
from builder.reading.sales import parse_sales
from builder.records.ballot_files import load_ballots
from builder.records.ranges import RANGE, WANTED, limits_in
from builder.records.sizes import _mass

CUSTOMARY = Style.of("en_US", "USD", "us customary")
METRIC = Style.of("en_CA", "CAD")


@pytest.fixture(autouse=True, params=["en", "fr"])
def language(request: pytest.FixtureRequest) -> Iterator[str]:
    with written_in(request.param):
        yield request.param


def test_both_ends_of_a_range_are_in_the_kitchens_unit(language: str) -> None:
    # 1 US liquid gallon is 3.785411784 L, exactly: 1 L is 0.2642 gal, 2000 L are 528.34 gal.
    between = {"en": "to", "fr": "à"}[language]
    assert limits_in("L", 1, 2000) == f"1 {between} 2000 L"
    assert in_kitchen_units(limits_in("L", 1, 2000), CUSTOMARY) == f"0.265 {between} 528 gal"


def test_limits_of_a_hint_are_in_the_kitchens_unit() -> None:
    # 1 oz is 28.349523125 g, exactly; an end is rounded inwards.
    between = tr(RANGE, rounded="56.7", rounded2="113", unit="g")
    hint = tr(WANTED, words=tr(RANGE, rounded="2", rounded2="4", unit="oz"))
    assert hint_in_units(hint, METRIC) == tr(WANTED, words=between)


def test_a_limit_in_both_units_stays(language: str) -> None:
    limit = {"en": "57 °C or 135 °F", "fr": "57 °C ou 135 °F"}[language]
    assert in_kitchen_units(limit, METRIC) == limit


def test_a_word_of_the_kitchen_is_no_slip_of_a_unit() -> None:
    found = {}
    for text in ("40 wings", "3 punds"):
        with pytest.raises(QuantityError) as refused:
            parse_quantity(text, Dimension.MASS)
        found[text] = refused.value.own_word
    assert found == {"40 wings": True, "3 punds": False}


def test_a_weight_in_a_word_of_the_kitchen_says_how_to_write_pieces() -> None:
    with pytest.raises(QuantityError) as refused:
        _mass("40 wings")
    assert "40 pieces" in refused.value.hint


def test_a_form_without_tasters_is_read_on() -> None:
    data = b"Your code,tender\nT1,9\n"
    ballots, problems = load_ballots(
        (ContentFile("tastings/shank.csv", "tastings", "shank", data, ""),)
    )
    assert [str(row["taster"]) for row in ballots["shank"]] == ["T1"]
    assert '"your code"' in problems[0].hint


def test_a_heading_of_the_till_says_where_to_name_it() -> None:
    _, problems = parse_sales("sales/a.csv", b"day;item\n", [("count", "qty")])
    assert "till: {columns: {count: ...}}" in problems[0].hint


def test_faults_of_a_rule_set() -> None:
    faults = []
    for value, known in (({"holdz": 1}, ["holds"]), ({}, ["holds"])):
        with pytest.raises(RuleSetError) as refused:
            Fields.of(value, (), known).need("holds")
        faults.append(refused.value.fault)
    assert faults == [Fault.UNKNOWN_KEY, Fault.MISSING]
