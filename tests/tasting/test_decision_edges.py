"""Where a decision turns: a chance of just the level counts, one above it does not."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import nextafter

import numpy as np
import pandas as pd
import pytest
import statsmodels.formula.api as smf  # type: ignore[import-untyped]
from scipy.stats import binom
from scipy.stats import t as student

from builder.tasting.agreement import Standing, TasterAgreement, taster_agreement
from builder.tasting.comparisons import benchmark_differences, fewest_for_signs
from builder.tasting.discrimination import discrimination_difference, discrimination_similarity
from builder.tasting.durations import Shape, duration_curve, near_best_window
from builder.tasting.following import FollowingKind
from builder.tasting.judged import Question
from builder.tasting.panel_sentences import (
    anova_sentence,
    differences_sentence,
    repeats_sentence,
    standing_sentence,
    study_sentence,
)
from builder.tasting.protocols import TRIANGLE
from builder.tasting.rank_verdicts import ranks_verdict, trend_sentence
from builder.tasting.ranks import benchmark_ranks, friedman_test, page_trend
from builder.tasting.scores import score_anova
from builder.tasting.shortlist import shortlist
from builder.tasting.studies import not_distinguishable_from_best, study_durations

TABLE = np.array([[3, 6, 7, 5], [4, 7, 7, 4], [2, 6, 8, 5], [3, 5, 7, 6], [5, 4, 8, 6.0]])
HOURS = (12.0, 24.0, 36.0, 48.0)
CUBE = np.stack([TABLE, TABLE + np.array([1, 0, -1, 2])], axis=2)
ANOVA, REPEATS = score_anova(TABLE), score_anova(CUBE)
OVER_TASTERS = REPEATS.samples_over_tasters
APART, TREND = benchmark_differences(TABLE, 0), page_trend(TABLE)
FRIEDMAN, RANKS = friedman_test(TABLE), benchmark_ranks(TABLE, 0)
BEST, STUDY = not_distinguishable_from_best(TABLE), study_durations(TABLE, HOURS)
AGREEMENT = taster_agreement(TABLE)[4]


def _p(value: float | None) -> float:
    assert value is not None
    return value


def _by_ranks(alpha: float) -> str:
    """As if the ranks of all samples differed for sure, what is said of each."""
    return ranks_verdict(replace(FRIEDMAN, p_value=0.0), RANKS, "abcd", "juice", alpha).sentence


# What is said at a level, the chance that it turns at, and words that only a finding has.
SAID: list[tuple[Callable[[float], str], float, str]] = [
    (lambda a: anova_sentence(ANOVA, "juice", a), _p(ANOVA.samples.p_value), "juice differs"),
    (
        lambda a: repeats_sentence(REPEATS, "a and b", "juice", a),
        _p(OVER_TASTERS.p_value if OVER_TASTERS else None),
        "samples differ",
    ),
    (
        lambda a: differences_sentence(APART, "abcd", "juice", a),
        min(line.adjusted_p_value for line in APART.differences),
        "juice less that of a: ",
    ),
    (
        lambda a: ranks_verdict(FRIEDMAN, RANKS, "abcd", "juice", a).sentence,
        FRIEDMAN.p_value,
        "samples differ",
    ),
    (_by_ranks, min(line.adjusted_p_value for line in RANKS.comparisons), "c above a"),
    (lambda a: trend_sentence(TREND, "juice", "time", a), TREND.p_value, "juice rises"),
]


@pytest.mark.parametrize(("said", "chance", "words"), SAID)
def test_a_chance_of_just_the_level_is_a_finding(
    said: Callable[[float], str], chance: float, words: str
) -> None:
    assert 0 < chance < 1
    assert words in said(chance)
    assert words in said(nextafter(chance, 1))
    assert words not in said(nextafter(chance, 0))


@pytest.mark.parametrize(("fewest", "told"), [(4, True), (5, True), (6, False)])
def test_with_as_many_tasters_as_it_takes_ranks_tell_samples_apart(fewest: int, told: bool) -> None:
    """Five tasters, at a level at which what they say is a finding."""
    alpha = min(line.adjusted_p_value for line in RANKS.comparisons)
    sure = replace(FRIEDMAN, p_value=0.0)
    said = ranks_verdict(sure, RANKS, "abcd", "juice", alpha, fewest=fewest).sentence
    assert ("c above a" in said) is told


def test_a_binomial_tail_of_just_the_level_is_a_finding() -> None:
    """A billionth less than the tail is not, but what only rounding takes off is."""
    different = discrimination_difference(8, 12, TRIANGLE).p_value
    similar = discrimination_similarity(13, 36, TRIANGLE, 0.3).p_value
    for level, found in ((1.0, True), (1 - 1e-15, True), (1 - 1e-9, False)):
        test = discrimination_difference(8, 12, TRIANGLE, different * level)
        assert test.different is found
        like = discrimination_similarity(13, 36, TRIANGLE, 0.3, similar * level)
        assert like.similar is found


def test_a_rival_drops_out_at_just_the_level() -> None:
    place = max((c for c in range(4) if c != BEST.best), key=lambda c: BEST.p_values[c])
    chance = BEST.p_values[place]
    assert place not in not_distinguishable_from_best(TABLE, chance).rivals
    assert place in not_distinguishable_from_best(TABLE, nextafter(chance, 0)).rivals
    name = f"{HOURS[place]:g} h"
    assert "clearly above all others" in study_sentence(STUDY, "juice", chance)
    assert f"{name} may be as good" in study_sentence(STUDY, "juice", nextafter(chance, 0))


def test_a_taster_agrees_at_just_the_level() -> None:
    """All 24 orders of four different scores are counted, so that a chance is so many of 24."""
    chance = _p(AGREEMENT.p_value)
    assert chance * 24 == pytest.approx(round(chance * 24))
    assert taster_agreement(TABLE, chance)[4].standing is Standing.AGREES
    assert taster_agreement(TABLE, nextafter(chance, 0))[4].standing is not Standing.AGREES
    turned = TABLE.copy()
    turned[4] = 10 - turned[4]
    assert taster_agreement(turned, chance)[4].standing is Standing.CONTRARY
    assert taster_agreement(turned, nextafter(chance, 0))[4].standing is Standing.NOT_SHOWN


def test_a_curve_misfits_at_just_the_level() -> None:
    curve = duration_curve(TABLE, HOURS)
    assert curve is not None
    assert not replace(curve, confidence=0.75, misfit_p_value=0.25).fits
    assert replace(curve, confidence=0.75, misfit_p_value=nextafter(0.25, 1)).fits


# What to cook next


@pytest.mark.parametrize(
    ("hours", "answers", "left", "step", "added"),
    [
        # Of three the first is out (.2 to the third power); the other is off, still too firm.
        ((24, 48), [[-1, -1], [-1, -1], [-1, 0]], (1,), FollowingKind.LONGER, (96.0,)),
        ((24, 48), [[1, 1], [1, 1], [0, 1]], (0,), FollowingKind.SHORTER, (12.0,)),
        # Off at the end where nothing longer or shorter helps: right lies between, at 33.9 h.
        ((24, 48), [[-1, 1], [-1, 1], [-1, 0]], (1,), FollowingKind.BETWEEN, (34.0,)),
        ((24, 48), [[-1, 1], [-1, 1], [0, 1]], (0,), FollowingKind.BETWEEN, (34.0,)),
        ((24, 25), [[-1, 1], [-1, 1], [0, 1]], (0,), FollowingKind.MORE, ()),
        # The closest is too firm, like the rival after it; too soft begins later, at 45.0 h.
        ((12, 42, 48), [[-1, -1, 1]] * 3 + [[0, 0, 1]] * 2, (0, 1), FollowingKind.BETWEEN, (45.0,)),
        ((12, 42, 60), [[0, -1, 1]] * 5 + [[-1, -1, 1]] * 5, (0,), FollowingKind.BETWEEN, (50.0,)),
        # Out by too firm between the closest and a shorter one that nobody could rule out.
        ((18, 36, 48), [[-1, -1, 0]] * 2 + [[0, -1, 0]] * 4, (0, 2), FollowingKind.MORE, ()),
        # Two are left, further apart than 1.3 times: their geometric middle, 41.6 h.
        ((12, 36, 48), [[-1, 0, 0]] * 4, (1, 2), FollowingKind.BETWEEN, (42.0,)),
        ((12, 40, 52), [[-1, 0, 0]] * 4, (1, 2), FollowingKind.MORE, ()),
        # All are out, and right lies between none: too soft, then too firm.
        ((24, 48), [[1, -1]] * 9, (), FollowingKind.MORE, ()),
        ((12, 24, 48), [[1, -1, 1]] * 9, (), FollowingKind.BETWEEN, (34.0,)),
        ((24, 25), [[-1, 1]] * 9, (), FollowingKind.MORE, ()),
        # 2 of 5 at either end of both durations: no time is right for such tasters. At just the
        # limit, 1 of 5, one more panel may say otherwise.
        ((24, 48), [[-1, 1]] * 2 + [[1, -1]] * 2 + [[0, 0]], (0, 1), FollowingKind.OTHER, ()),
        ((24, 48), [[-1, 1]] * 2 + [[1, -1], [0, -1], [0, 0]], (0, 1), FollowingKind.MORE, ()),
        ((24, 48), [[-1, 1]] * 7 + [[1, -1]] * 5, (), FollowingKind.OTHER, ()),
    ],
)
def test_the_next_cook_lies_where_the_answers_point(
    hours: tuple[float, ...],
    answers: list[list[int]],
    left: tuple[int, ...],
    step: FollowingKind,
    added: tuple[float, ...],
) -> None:
    """By hand, after the sentence of each step."""
    found = shortlist(hours, None, [Question(answers, 0.2)])
    assert found.following is not None
    assert (found.left, found.following.step, found.following.hours) == (left, step, added)


def test_more_tasters_are_asked_for_up_to_sixty() -> None:
    """The smallest panel whose binomial tail is at most 5 %, counted up from those who answered."""
    off = 15
    panel = next(n for n in range(off, 300) if binom.cdf(off, n, 0.2) <= 0.05)
    for more, said in ((59, 59), (60, 60), (61, None)):
        answers = [[-1]] * off + [[0]] * (panel - more - off)
        found = shortlist((24,), None, [Question(answers, 0.2)]).following
        assert found is not None
        assert found.more == said


@pytest.mark.parametrize(
    ("scores", "note"),
    [
        ([[3], [4]], "one duration only: nothing to compare"),
        ([[3, 3], [4, 4]], "nobody told any two durations apart"),
        ([[3, 5], [4, 6]], "a curve needs at least 4 durations"),
        ([[3, 5, 6], [4, 6, 9]], "a curve needs at least 4 durations"),
        ([[3, 5, 6, 4], [4, 6, 9, 4], [5, 5, 5, 5]], "a curve needs at least 3 tasters who told"),
        ([[3, 5, 6, 4]] * 3, ""),
        ([[1, 4, 9, 16]] * 3, "no spread is left between tasters"),
    ],
)
def test_why_no_curve_is_drawn(scores: list[list[float]], note: str) -> None:
    """The first of the reasons that applies; the parabola of the last leaves no residual."""
    study = study_durations(scores, [12.0 * (place + 1) for place in range(len(scores[0]))])
    assert (study.curve is None) == bool(note)
    assert study.note.startswith(note)


@pytest.mark.parametrize(
    ("scores", "added"),
    [([3, 5, 9], (54.0,)), ([9, 5, 3], (6.0,)), ([3, 9, 5], (17.0,))],
)
def test_a_fourth_duration_lies_past_the_end_that_is_the_best(
    scores: list[float], added: tuple[float, ...]
) -> None:
    """Of 12, 24 and 36 h: half as long again, half as long, or the root of 12 x 24."""
    study = study_durations([scores] * 6, (12.0, 24.0, 36.0))
    assert study.next_cook is not None
    assert study.next_cook.hours == added


@pytest.mark.parametrize(("alike", "tasters"), [(0, 6), (3, 10)])
def test_where_few_tell_twice_as_many_are_asked_and_six_at_least(alike: int, tasters: int) -> None:
    study = study_durations([[3, 5, 6, 4], [4, 6, 9, 4]] + [[5] * 4] * alike, HOURS)
    assert study.next_cook is not None
    assert study.next_cook.tasters == tasters


@pytest.mark.parametrize(("bend", "tasters"), [(-0.9, True), (-0.2, False), (0.9, False)])
def test_tasters_are_asked_for_where_sixteen_times_as_many_would_do(
    bend: float, tasters: bool
) -> None:
    """A bend seen with t falls short by (t at 5 % / t)², of which 16 is the most; by statsmodels.

    Where it would take more, or where the curve hangs, durations further apart are asked for.
    """
    noise = np.array([[1, -1, -1, 1], [-1, 1, 1, -1], [2, 1, -1, -2], [-2, -1, 1, 2]]) * 2.0
    scores = 50 + noise + bend * np.array([1, -1, -1, 1])
    frame = pd.DataFrame(
        [(j, HOURS[i], v) for (j, i), v in np.ndenumerate(scores)], columns=["j", "h", "y"]
    )
    model = smf.ols("y ~ C(j) + h + I(h**2)", frame).fit()
    ratio = student.ppf(0.975, model.df_resid) / -model.tvalues["I(h ** 2)"]
    assert bool(0 < ratio < 4) == tasters
    study = study_durations(scores, HOURS)
    assert study.curve is not None
    assert study.next_cook is not None
    assert (study.next_cook.tasters is not None) is tasters
    assert study.next_cook.hours == (() if tasters else (6.0, 64.0))


def test_fewest_tasters_at_exactly_their_own_chance() -> None:
    """All of n agreeing is one pattern of 2^n: five on one side are 1/32, on either side 1/16."""
    assert fewest_for_signs(1 / 32, two_sided=False) == 5
    assert fewest_for_signs(1 / 16) == 5
    assert fewest_for_signs(1 / 33, two_sided=False) == 6


def test_one_taster_answers_and_several_answer() -> None:
    """A verb goes with its number; T3 agrees, so that something is said of the others alone."""
    line = TasterAgreement(0, 9, 0.1, 0.4, Standing.CONTRARY)
    agrees = TasterAgreement(2, 9, 0.9, 0.01, Standing.AGREES)
    one = standing_sentence([line, agrees], ["T1", "", "T3"])
    two = standing_sentence([line, replace(line, taster=1), agrees], ["T1", "T2", "T3"])
    assert one.startswith("2 tasters: T1 answers ")
    assert two.startswith("3 tasters: T1 and T2 answer ")


def test_a_window_that_ends_just_at_the_longest_is_not_open() -> None:
    """y = 9 - (x - 2)^2 by hand: within one point from 1 to 3, the durations tried."""
    curve = duration_curve(
        [[3, 6, 7, 5], [4, 7, 7, 4], [2, 6, 8, 5], [3, 5, 7, 6]], [12, 24, 36, 48]
    )
    assert curve is not None
    fit = replace(curve.fit, linear=0.0, curvature=-1.0, centre=2.0, half=1.0)
    by_hand = replace(curve, fit=fit, shape=Shape.PEAK, log_time=False)
    window = near_best_window(by_hand, 1)
    assert window is not None
    assert (window.start, window.end) == (1, 3)
    assert (window.open_start, window.open_end) == (False, False)
    wider = near_best_window(by_hand, 1.1)
    assert wider is not None
    assert (wider.start, wider.end, wider.open_start, wider.open_end) == (1, 3, True, True)
