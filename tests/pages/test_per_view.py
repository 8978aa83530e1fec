"""What is kept for a view is made once, is that view's own, and goes with it."""

from __future__ import annotations

import gc
from dataclasses import replace
from weakref import ref

import pytest

from builder.pages.per_view import per_view
from builder.pages.view import View
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
