"""The type check knows the figures that there are."""

from __future__ import annotations

from tests.figure_names import FILE, source


def test_the_names_written_down_are_those_of_the_model() -> None:
    assert FILE.read_text() == source(), "run python -m tests.figure_names"
