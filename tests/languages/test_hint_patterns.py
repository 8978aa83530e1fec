"""Examples and units of hints are found in every language that the pages are written in."""

from collections.abc import Iterator

import pytest

from builder import language
from builder.language import Catalogue, tr
from builder.problems import Place, Problem
from builder.quantities import Dimension
from builder.quantities.units import units_that_fit
from builder.records.customary import in_customary
from builder.records.hint_examples import with_example

_TEXTS = {
    "units that fit: {units}": "unités possibles : {units}",
    "units such as {units}": "unités comme {units}",
    "such as|for example": "comme|par exemple",
    ", for example ": ", par exemple ",
    "a weight, for example 2 kg": "un poids, par exemple 2 kg",
}


@pytest.fixture(autouse=True)
def _french() -> Iterator[None]:
    texts = {english: (french,) for english, french in _TEXTS.items()}
    before = language._current.set(Catalogue("fr", texts))
    yield
    language._current.reset(before)


def _turned(hint: str) -> str:
    return in_customary(Problem(Place("a.yaml"), "message", hint)).hint


def test_units_of_the_kitchen_come_first() -> None:
    assert _turned(units_that_fit([Dimension.MASS])) == "unités possibles : lb, oz, g, kg"
    assert "unités comme lb, qt" in _turned(units_that_fit(list(Dimension)))


def test_example_is_in_units_of_the_kitchen() -> None:
    # 2 kg are 4.409 lb by the exact pound of 0.45359237 kg.
    assert _turned(tr("a weight, for example 2 kg")) == "un poids, par exemple 4.4 lb"


def test_example_of_the_key_takes_the_place_of_the_one_of_its_kind() -> None:
    hint = with_example(tr("a weight, for example 2 kg"), "7.5 kg")
    assert hint == "un poids, par exemple 7.5 kg"
