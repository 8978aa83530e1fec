"""What is kept for a view is made once, is that view's own, and goes with it."""

from __future__ import annotations

import gc
from dataclasses import replace
from weakref import ref

import pytest

from builder.language import Deferred, current_language, tr, written_in
from builder.pages.per_view import per_record, per_view
from builder.pages.view import View
from builder.pages.withheld import WITHHELD
from builder.records.base import Record
from tests.pages.gallery import first_kitchen


def test_a_result_is_made_once_a_view_and_key() -> None:
    view = first_kitchen()
    asked: list[tuple[View, str]] = []

    @per_view
    def name(view: View, key: str) -> str:
        asked.append((view, key))
        return f"{key} of {id(view)}"

    other = replace(view)
    assert name(view, "mains") == name(view, "mains") != name(other, "mains")
    name(view, "grill")
    assert asked == [(view, "mains"), (other, "mains"), (view, "grill")]


def test_what_raises_is_asked_again() -> None:
    view = first_kitchen()
    divisors = iter([0, 1])

    @per_view
    def number(_: View, __: str) -> int:
        return 7 // next(divisors)

    with pytest.raises(ZeroDivisionError):
        number(view, "mains")
    assert number(view, "mains") == 7


def test_a_view_is_not_kept_by_its_results() -> None:
    view = replace(first_kitchen())

    @per_view
    def number(_: View, __: str) -> int:
        return 7

    number(view, "mains")
    gone = ref(view)
    del view
    gc.collect()
    assert gone() is None


def test_each_language_has_its_own_result() -> None:
    view, empty = first_kitchen(), Deferred("Nothing recorded yet.")

    @per_view
    def words(_: View, __: str) -> str:
        return f"{current_language()}: {tr(empty)}"

    with written_in("fr"):
        french = words(view, "mains")
    assert french.startswith("fr: ")
    assert words(view, "mains") == f"en: {empty}"
    with written_in("fr"):
        assert words(view, "mains") == french


def test_what_is_kept_of_a_record_is_of_its_path_alone() -> None:
    view = first_kitchen()
    asked: list[str] = []

    @per_record
    def title(_: View, record: Record) -> str:
        asked.append(record.path)
        return record.title

    records = [*view.costed.content.plates.values(), *view.costed.content.pantry.values()]
    assert [title(view, each) for each in (*records, *records)] == [
        each.title for each in (*records, *records)
    ]
    assert asked == [each.path for each in records]


def test_a_view_writes_a_figure_in_its_own_way_whatever_another_has_written() -> None:
    view = first_kitchen()
    plain = view.cell("plate", "food_cost", 0)
    other = replace(view, shown=lambda *_: "as the other writes it")
    barred = replace(view, hidden=frozenset({("plate", "food_cost")}))
    assert other.cell("plate", "food_cost", 0).text == "as the other writes it"
    assert barred.cell("plate", "food_cost", 0).text == WITHHELD
    assert barred.text("plate", "food_cost", 0) == WITHHELD
    assert barred.href("plate", "food_cost", 0) == ""
    assert view.cell("plate", "food_cost", 0) == plain
    assert plain.href == "=plate.food_cost.0"
