"""What people type finds what the kitchen wrote: other words for cuts, ways, allergens, money."""

from __future__ import annotations

import pytest

from builder.data.synonyms import groups, other_words, plain
from builder.pages.search import search_records
from tests.pages_data.opened import demo_view


def test_a_word_is_in_one_group_and_as_it_is_compared() -> None:
    every = [word for group in groups() for word in group]
    assert len(every) == len(set(every))
    assert all(plain(word) == word for word in every)
    assert all(len(group) > 1 for group in groups())


def test_part_of_a_word_is_not_the_word() -> None:
    assert "milk" not in list(other_words("milkweed"))
    assert "grill" not in list(other_words("charcoal"))


@pytest.mark.parametrize(
    ("asked", "kind", "found"),
    [
        ("sous vide", "cook", "cooks/chuck-roll-30h.html"),
        ("eye round", "cut", "cuts/beef-eye-of-round.html"),
        ("sirloin", "cut", "cuts/beef-striploin.html"),
        ("shin", "cut", "cuts/beef-shank.html"),
        ("dairy", "plate", "plates/chuck-steak.html"),
        ("over target", "plate", "plates/ribeye-steak.html"),
        ("sells and earns", "plate", "plates/chuck-steak.html"),
        ("gross profit", "method", "methods/plate-contribution-margin.html"),
        ("Harrow Lane", "plate", "plates/chuck-steak.html"),
    ],
)
def test_other_words_find_the_record(asked: str, kind: str, found: str) -> None:
    words = {
        path: f" {plain(f'{title} {more}')} "
        for title, each, path, more in search_records(demo_view())
        if each == kind
    }
    assert all(f" {word} " in words[found] for word in plain(asked).split())
