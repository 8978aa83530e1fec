"""Lookups, totals, running folds and nested records on tables small enough to do by hand."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.engine.arith import Column
from builder.engine.book import Book, Entry, Origin
from builder.engine.figures import Figures, compute
from builder.engine.model import Model
from builder.engine.tables import Fold, Table, formula
from tests.moving import with_row

NAN = math.nan


def entry(value: float) -> Entry:
    return Entry(value, Origin())


def boxes(weights: list[tuple[int, float]], parents: int) -> Figures:
    """Boxes with their contents: every fold over (box, weight) pairs in their order."""
    box, thing = Table("box", "A box"), Table("thing", "A thing in a box")
    thing.link("box", box)
    box.given("size", "L", "Its size", 7.0, "all alike")
    thing.given("weight", "kg", "Its weight")
    thing.lookup("size", "box", box, missing=-5.0)
    for fold in Fold:
        box.total(fold.value, thing, "weight", "box", "Folded", fold=fold)
    thing.running("sum_before", "weight", "box", "Sum before")
    thing.running("product_before", "weight", "box", "Product before", fold=Fold.PRODUCT)
    book = Book(Model([thing, box]))
    for _ in range(parents):
        book.add(box)
    for parent, weight in weights:
        book.add(thing, {"box": parent}, {"weight": entry(weight)})
    return compute(book)


def column(figures: Figures, table: str, name: str) -> list[float]:
    return [figures.value(table, name, row) for row in range(figures.size(table))]


THINGS = [(1, 2.0), (0, 3.0), (1, 5.0), (-1, 11.0), (1, 4.0), (0, 0.5)]


@pytest.mark.parametrize(
    ("fold", "by_hand"),
    [
        (Fold.SUM, [3.5, 11.0, 0.0]),
        (Fold.PRODUCT, [1.5, 40.0, 1.0]),
        (Fold.COUNT, [2.0, 3.0, 0.0]),
        (Fold.LEAST, [0.5, 2.0, NAN]),
        (Fold.MOST, [3.0, 5.0, NAN]),
    ],
)
def test_totals(fold: Fold, by_hand: list[float]) -> None:
    """A box without things has sum 0, product 1, and no smallest or largest."""
    assert column(boxes(THINGS, 3), "box", fold.value) == pytest.approx(by_hand, nan_ok=True)


@pytest.mark.parametrize(
    ("fold", "by_hand"),
    [(Fold.SUM, NAN), (Fold.PRODUCT, NAN), (Fold.COUNT, 1.0), (Fold.LEAST, 2.0), (Fold.MOST, 2.0)],
)
def test_what_is_not_known_poisons_sums_and_is_not_counted(fold: Fold, by_hand: float) -> None:
    figures = boxes([(0, 2.0), (0, NAN)], 1)
    assert figures.value("box", fold.value, 0) == pytest.approx(by_hand, nan_ok=True)


def test_running_folds_see_the_rows_before_them_in_their_own_group() -> None:
    figures = boxes(THINGS, 3)
    sums = column(figures, "thing", "sum_before")
    products = column(figures, "thing", "product_before")
    assert sums == pytest.approx([0.0, 0.0, 2.0, NAN, 7.0, 3.0], nan_ok=True)
    assert products == pytest.approx([1.0, 1.0, 2.0, NAN, 10.0, 3.0], nan_ok=True)


def test_a_lookup_without_a_link_takes_the_value_for_missing() -> None:
    assert column(boxes(THINGS, 3), "thing", "size") == [7.0, 7.0, 7.0, -5.0, 7.0, 7.0]


def test_children_are_the_rows_that_point_here_in_their_order() -> None:
    figures = boxes(THINGS, 3)
    parents = [figures.linked("thing", "box", row) for row in range(len(THINGS))]
    by_hand = [[row for row, parent in enumerate(parents) if parent == box] for box in range(3)]
    assert [figures.children("thing", "box", box) for box in range(3)] == by_hand
    assert figures.children("thing", "box", -1) == []


def test_empty_tables_have_empty_columns() -> None:
    figures = boxes([], 0)
    assert figures.column("box", "sum").shape[0] == 0
    assert figures.column("thing", "sum_before").shape[0] == 0
    assert column(boxes([(-1, 2.0)], 0), "thing", "size") == [-5.0]


def nest() -> tuple[Table, Table]:
    """Dolls in dolls: what a doll weighs is its own wood and the dolls in it."""
    doll, inner = Table("doll", "A doll"), Table("inner", "A doll in a doll")
    inner.link("outer", doll)
    inner.link("doll", doll)
    doll.given("wood", "kg", "Its own wood")
    inner.given("count", "count", "How many of them")
    inner.recursive("one", "doll", doll, "weight", "kg", "Weight of one")

    @formula(inner, unit="kg", source="test")
    def together(count: Column, one: Column) -> Column:
        """Weight of all of them."""
        return count * one

    doll.total("inside", inner, "together", "outer", "Weight of the dolls inside")

    @formula(doll, unit="kg", source="test")
    def weight(wood: Column, inside: Column) -> Column:
        """Weight of a doll."""
        return wood + inside

    return doll, inner


def dolls(woods: list[float], nested: list[tuple[int, int, int]]) -> Figures:
    doll, inner = nest()
    book = Book(Model([doll, inner]))
    for wood in woods:
        book.add(doll, values={"wood": entry(wood)})
    for outer, small, count in nested:
        book.add(inner, {"outer": outer, "doll": small}, {"count": entry(count)})
    return compute(book)


@given(st.data())
def test_nested_records_weigh_what_exact_recursion_gives(data: st.DataObject) -> None:
    """Any nesting without a circle, in any order of rows, against Fraction recursion."""
    size = data.draw(st.integers(1, 7))
    woods = data.draw(st.lists(st.integers(1, 9), min_size=size, max_size=size))
    rank = data.draw(st.permutations(range(size)))
    pairs = [(a, b) for a in range(size) for b in range(size) if rank[a] > rank[b]]
    nested = [
        (outer, small, data.draw(st.integers(1, 3)))
        for outer, small in data.draw(
            st.lists(st.sampled_from(pairs), max_size=10) if pairs else st.just([])
        )
    ]

    def exact(row: int) -> Fraction:
        return woods[row] + sum(
            (count * exact(small) for outer, small, count in nested if outer == row), Fraction(0)
        )

    figures = dolls([float(wood) for wood in woods], nested)
    assert column(figures, "doll", "weight") == [float(exact(row)) for row in range(size)]


def test_a_nest_as_deep_as_there_are_records() -> None:
    figures = dolls([1.0] * 40, [(row, row + 1, 1) for row in range(39)])
    assert figures.value("doll", "weight", 0) == 40.0


def test_records_in_a_circle_are_refused() -> None:
    with pytest.raises(ValueError, match="made of each other in a circle"):
        dolls([1.0, 1.0], [(0, 1, 1), (1, 0, 1)])


def test_the_book_refuses_a_name_that_is_not_an_input() -> None:
    doll, inner = nest()
    book = Book(Model([doll, inner]))
    with pytest.raises(KeyError, match="weight"):
        book.add(doll, values={"weight": entry(1.0)})
    with pytest.raises(KeyError, match="lid"):
        book.add(inner, {"lid": 0})


def test_draws_run_side_by_side() -> None:
    """Each draw of one call is what a call of its own gives."""
    figures = dolls([1.0, 2.0, 4.0], [(0, 1, 2), (1, 2, 3)])
    series = [0.0, 4.0, 5.5]
    together = with_row(figures, ("doll", "wood"), 2, series)
    assert together.column("doll", "weight").shape == (3, 3)
    for draw, value in enumerate(series):
        alone = with_row(figures, ("doll", "wood"), 2, [value])
        np.testing.assert_array_equal(
            together.column("doll", "weight")[:, draw], alone.column("doll", "weight")[:, 0]
        )
    assert together.column("doll", "weight")[0].tolist() == [5.0, 29.0, 38.0]


@given(
    st.lists(st.tuples(st.integers(-1, 4), st.floats(-1e6, 1e6) | st.just(NAN)), max_size=12),
    st.integers(0, 2**32 - 1),
)
def test_many_draws_fold_as_one_draw_does(things: list[tuple[int, float]], seed: int) -> None:
    """Few, many and very many columns are folded in ways of their own: to the same bits."""
    figures = boxes(things, 5)
    for columns in (7, 600):
        drawn = np.random.default_rng(seed).normal(size=(len(things), columns))
        drawn[np.isnan(figures.column("thing", "weight")[:, 0])] = NAN
        together = figures.moved({("thing", "weight"): drawn})
        for at in (0, columns - 1):
            alone = figures.moved({("thing", "weight"): drawn[:, [at]]})
            for fold in Fold:
                many = together.column("box", fold.value)
                one = alone.column("box", fold.value)[:, 0]
                np.testing.assert_array_equal(many[:, min(at, many.shape[1] - 1)], one)
