"""Hours between durations tried are said no finer than the steps between those allow."""

from __future__ import annotations

import re

from builder.tasting.panel_sentences import right_window_sentence, study_sentence
from builder.tasting.right import right_window
from builder.tasting.studies import study_durations


def test_a_window_names_what_was_tried_and_no_hours_between() -> None:
    """Six tasters at 12-hour steps can't place an end to the hour, as a line between them does."""
    answers = [
        [-1, -1, 0, 1],
        [-1, 0, 0, 1],
        [-1, 0, 0, 1],
        [-1, 0, 0, 0],
        [0, 0, 1, 1],
        [-1, 0, 0, 1],
    ]
    window = right_window(answers, [12, 24, 36, 48])
    assert (window.right_at, window.below_at, window.above_at) == ((24, 36), 12, 48)
    assert round(window.start.hours or 0, 1) == 23.4
    sentence = right_window_sentence(window, "too firm", "mushy")
    assert "at 24 h and 36 h at most 20 % find it too firm" in sentence
    hours = {float(each) for each in re.findall(r"([\d.]+) h", sentence)}
    assert hours
    assert all(each % 3 == 0 for each in hours), sentence


def test_a_window_between_two_durations_tried_is_no_duration_that_is_right() -> None:
    window = right_window([[-1, 1], [-1, 1], [0, 0]], [24, 48], limit=0.4)
    assert window.exists
    assert window.right_at == ()
    sentence = right_window_sentence(window, "too firm", "mushy")
    assert (
        "at no duration tried do at most 40 % find it too firm and at most 40 % mushy" in sentence
    )
    # One of three found either right, which no sentence denies.
    assert "is it right" not in sentence


def test_the_best_time_is_said_no_finer_than_a_quarter_of_the_steps_tried() -> None:
    scores = [[4, 7, 7, 5], [5, 8, 7, 4], [3, 7, 6, 3], [4, 6, 7, 5], [5, 7, 6, 4], [3, 8, 8, 5]]
    study = study_durations(scores, [12, 24, 36, 48])
    assert study.curve is not None
    assert study.curve.limits is not None
    found = re.search(
        r"best near (\S+) h, from (\S+) h to (\S+) h", study_sentence(study, "liking")
    )
    assert found is not None
    best, low, high = map(float, found.groups())
    assert {best % 3, low % 3, high % 3} == {0}
    assert low <= study.curve.limits[0]
    assert high >= study.curve.limits[1]
