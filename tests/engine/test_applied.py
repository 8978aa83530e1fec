"""A figure that a method gives: entered with its row, traced to what the method was applied to."""

from __future__ import annotations

import numpy as np
import pytest

from builder.engine.arith import Column
from builder.engine.book import Book, Entry, Origin
from builder.engine.figures import Figures, compute
from builder.engine.javascript import model_script
from builder.engine.methods import METHODS, method
from builder.engine.model import Model
from builder.engine.tables import Given, Table, formula
from builder.engine.wording import how_it_is_made

try:

    @method(unit="min", source="test", title="time to boil")
    def boiling_time(volume: float) -> float:
        """Four minutes a litre."""
        return 4 * volume

finally:
    # The register is the whole program's: the pages list what is in it.
    METHOD = METHODS.pop("boiling_time")


@pytest.fixture
def pots(monkeypatch: pytest.MonkeyPatch) -> tuple[Model, Figures]:
    monkeypatch.setitem(METHODS, "boiling_time", METHOD)
    pot = Table("pot", "A pot")
    pot.given("volume", "L", "What it holds")
    pot.applied("boiling", "h", "Time to boil", boiling_time, "volume")

    pot.given("spoons", "count", "Spoons in it")

    @formula(pot, unit="count", source="test")
    def handles(spoons: Column) -> Column:
        """One a spoon, one the pot's."""
        return spoons + 1

    @formula(pot, unit="h up", source="test", limit="boiling")
    def twice(boiling: Column) -> Column:
        """Time for two."""
        return 2 * boiling

    model = Model([pot])
    book = Book(model)
    for volume in (3.0, 5.0):
        values = {
            "volume": Entry(volume, Origin(reason="written")),
            "boiling": Entry(boiling_time(volume) / 60, Origin()),
        }
        book.add(pot, values=values)
    book.add(pot)
    return model, compute(book)


def test_its_value_is_the_methods_and_formulas_go_on_from_it(pots: tuple[Model, Figures]) -> None:
    _, figures = pots
    np.testing.assert_allclose(figures.column("pot", "boiling")[:, 0], [0.2, 1 / 3, np.nan])
    np.testing.assert_allclose(figures.column("pot", "twice")[:, 0], [0.4, 2 / 3, np.nan])


def test_it_is_traced_to_what_the_method_was_applied_to(pots: tuple[Model, Figures]) -> None:
    model, figures = pots
    assert figures.made_from(("pot", "boiling"), 1) == [(("pot", "volume"), 1)]
    assert model.upstream([("pot", "twice")]) == {("pot", "boiling"), ("pot", "volume")}
    assert how_it_is_made(model.definition(("pot", "boiling"))) == "time to boil, from volume"


def test_a_moved_input_leaves_it_as_it_was_computed(pots: tuple[Model, Figures]) -> None:
    model, figures = pots
    assert model.downstream([("pot", "volume")]) == frozenset()
    assert not model.moves(("pot", "volume"))
    assert model.moves(("pot", "spoons"))
    moved = figures.moved({("pot", "volume"): np.array([[9.0], [9.0], [9.0]])})
    np.testing.assert_array_equal(moved.column("pot", "boiling"), figures.column("pot", "boiling"))
    with pytest.raises(ValueError, match=r"pot\.boiling is computed"):
        figures.moved({("pot", "boiling"): np.zeros((3, 1))})


def test_the_page_gets_its_value_and_no_formula(pots: tuple[Model, Figures]) -> None:
    script = model_script(pots[0])
    begins = '"boiling":{"unit":"h","label":"boiling","about":"Time to boil",'
    assert f'{begins}"methods":["time to boil"]' in script
    assert '"about":"Time for two.","needs":["boiling"]' in script
    assert '"limit":"boiling"' in script
    assert script.count('"fixed":true') == 1
    assert '"volume":{"unit":"L","label":"volume","about":"What it holds","fixed":true}' in script


def test_a_limit_that_is_no_figure_is_refused_at_import() -> None:
    pot = Table("pot", "A pot")
    pot.declare("boiling", "h", "Time to boil", Given(), "minutes")
    with pytest.raises(ValueError, match="minutes, which is declared nowhere"):
        Model([pot])


def test_a_function_that_is_no_method_is_refused_at_import() -> None:
    with pytest.raises(KeyError, match="boiling_time"):
        Table("pot", "A pot").applied("boiling", "h", "Time to boil", boiling_time)
