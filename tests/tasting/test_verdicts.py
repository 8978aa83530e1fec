"""Sentences: graded, counted, and never more than the test supports."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass

import numpy as np
import pytest
import scipy.stats
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import binom, binomtest, page_trend_test

from builder.tasting.agreement import kendalls_w, taster_agreement
from builder.tasting.comparisons import (
    benchmark_differences,
    equivalence_within_margin,
    no_worse_by_margin,
    paired_differences,
)
from builder.tasting.discrimination import (
    discrimination_difference,
    discrimination_similarity,
    share_who_can_tell,
)
from builder.tasting.distance_sentences import distance_sentence, needed_sentence
from builder.tasting.margin_verdicts import no_worse_verdict
from builder.tasting.needed import tasters_for_difference, tasters_for_similarity
from builder.tasting.panel_sentences import (
    anova_sentence,
    concordance_sentence,
    differences_sentence,
    next_cook_words,
    repeats_sentence,
    right_sentence,
    right_window_sentence,
    standing_sentence,
    study_sentence,
)
from builder.tasting.protocols import DUO_TRIO, PAIRED_EITHER_WAY, TRIANGLE, Protocol
from builder.tasting.rank_verdicts import ranks_verdict, trend_sentence
from builder.tasting.ranks import benchmark_ranks, friedman_test, page_trend
from builder.tasting.right import just_about_right_shares, right_window
from builder.tasting.scales import scale_use
from builder.tasting.scores import score_anova, taster_anova
from builder.tasting.studies import study_durations
from builder.tasting.thurstone import sensory_distance, thurstonian_share_correct
from builder.tasting.verdicts import Grade, difference_verdict, share_sentence, similarity_verdict

nan = math.nan
TABLES = {
    "one taster": [[5, 6, 7, 4]],
    "one sample": [[5], [6], [7]],
    "one taster, one sample": [[5]],
    "all ties": [[5, 5, 5, 5]] * 6,
    "each taster one score": [[1] * 4, [5] * 4, [9] * 4],
    "two alike": [[5, 6], [5, 6]],
    "all alike": [[3, 6, 7, 5]] * 6,
    "benchmark missing": [[nan, 6, 7, 5], [nan, 5, 7, 6], [nan, 4, 8, 5]],
    "one score": [[nan, nan, 6, nan], [nan, nan, nan, nan]],
    "scattered": [[5, nan, 7, 4], [nan, 6, 8, 5], [4, 6, nan, nan], [5, 5, 9, 3]],
    "ends": [[1, 9, 1, 9], [9, 1, 9, 1]],
}


def numbers(value: object) -> Iterator[float]:
    """Every number inside a result."""
    if isinstance(value, float):
        yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from numbers(item)
    elif is_dataclass(value):
        for field in fields(value):
            yield from numbers(getattr(value, field.name))


def check(result: object) -> None:
    assert all(math.isfinite(number) for number in numbers(result)), result


def check_sentence(sentence: str, tasters: int | None = None) -> None:
    assert "taster" in sentence
    assert sentence.endswith(".")
    claims = r"\b(the same|safe|identical|equal|alike to)\b|\b(nan|inf|None)\b"
    assert not re.search(claims, sentence), sentence
    if tasters is not None:
        assert re.search(rf"\b{tasters} tasters?\b", sentence), sentence


@pytest.mark.parametrize("name", TABLES)
def test_degenerate_scores_give_results_and_sentences(name: str) -> None:
    table = np.array(TABLES[name], dtype=float)
    tasters, samples = table.shape
    names = [f"S{column}" for column in range(samples)]
    friedman, ranks = friedman_test(table), benchmark_ranks(table, 0)
    trend, anova = page_trend(table), score_anova(table)
    compared, panel = benchmark_differences(table, 0), taster_agreement(table)
    for result in (friedman, ranks, trend, anova, compared, panel, scale_use(table)):
        check(result)
    check(taster_anova(table[:, :, None]))
    verdict = ranks_verdict(friedman, ranks, names, "tenderness")
    check_sentence(verdict.sentence, tasters)
    check_sentence(trend_sentence(trend, "tenderness", "duration"), trend.tasters or None)
    check_sentence(anova_sentence(anova, "tenderness"), anova.tasters)
    check_sentence(differences_sentence(compared, names, "tenderness"))
    check_sentence(standing_sentence(panel, [f"T{j}" for j in range(tasters)]), tasters)
    concordance = kendalls_w(table)
    check(concordance)
    check_sentence(concordance_sentence(concordance, "tenderness"), concordance.tasters or None)


@pytest.mark.parametrize("name", TABLES)
def test_degenerate_scores_give_margins_and_durations(name: str) -> None:
    table = np.array(TABLES[name], dtype=float)
    hours = [12.0 * (column + 1) for column in range(table.shape[1])]
    last = table.shape[1] - 1
    differences = paired_differences(table, 0)[:, last]
    no_worse = no_worse_by_margin(differences, 0.5)
    check(no_worse)
    equivalence = equivalence_within_margin(differences, 0.5)
    check(equivalence)
    check_sentence(
        no_worse_verdict(no_worse, "shank", "fillet", "taste").sentence, no_worse.tasters
    )
    study = study_durations(table, hours)
    check(study)
    check_sentence(study_sentence(study, "tenderness"), study.tasters)
    if study.next_cook is not None:
        said = f"{study.tasters} tasters, next: {next_cook_words(study.next_cook)}."
        check_sentence(said, study.tasters)
    answers = np.sign(table - 5)
    window = right_window(answers, hours)
    check(window)
    check_sentence(right_window_sentence(window), window.tasters)
    for shares in just_about_right_shares(answers):
        check(shares)
        check_sentence(right_sentence(shares, "too firm", "overdone"), shares.answers)


@pytest.mark.parametrize("protocol", [TRIANGLE, DUO_TRIO, PAIRED_EITHER_WAY])
@pytest.mark.parametrize(
    ("correct", "tasters"), [(0, 1), (1, 1), (0, 12), (12, 12), (4, 12), (200, 600)]
)
def test_nobody_and_everybody_correct(protocol: Protocol, correct: int, tasters: int) -> None:
    test = discrimination_difference(correct, tasters, protocol)
    share = share_who_can_tell(correct, tasters, protocol)
    distance = sensory_distance(correct, tasters, protocol)
    for result in (test, share, distance):
        check(result)
    check_sentence(difference_verdict(test).sentence, tasters)
    check_sentence(share_sentence(share, protocol), tasters)
    check_sentence(distance_sentence(distance), tasters)
    if not protocol.two_sided:
        similar = discrimination_similarity(correct, tasters, protocol, 0.3)
        check(similar)
        check_sentence(similarity_verdict(similar).sentence, tasters)


def test_an_end_of_a_distance_is_called_by_its_own_side() -> None:
    """14 of 24 in a triangle: at the lower end so many or more come in 5 of 100 panels (binomial).

    A share of one side's 95 % has a distance of one side's 95 %, be the interval one of 90 %.
    """
    distance = sensory_distance(14, 24, TRIANGLE, 0.9)
    assert distance.lower is not None
    at_the_end = thurstonian_share_correct(distance.lower, TRIANGLE)
    assert scipy.stats.binom.sf(13, 24, at_the_end) == pytest.approx(0.05, abs=1e-6)
    assert distance_sentence(distance).endswith("(a 95 % limit each).")
    either_way = sensory_distance(14, 24, PAIRED_EITHER_WAY, 0.95)
    assert distance_sentence(either_way, ("a", "b")).endswith("(95 % limits).")


def test_a_difference_that_is_not_shown_is_never_likeness() -> None:
    verdict = difference_verdict(discrimination_difference(4, 12, TRIANGLE))
    assert verdict.grade is Grade.NOT_ENOUGH
    assert verdict.more is not None
    needed = tasters_for_difference(0.3, TRIANGLE, 0.05, 0.9)
    assert verdict.more + 12 == needed.at_least
    assert (
        f"not enough tasters to say; about {verdict.more} more would settle it" in verdict.sentence
    )
    many = difference_verdict(discrimination_difference(100, 300, TRIANGLE))
    assert many.grade is Grade.NOT_SHOWN
    assert "no proof of likeness" in many.sentence


def test_a_trend_is_one_on_the_whole_for_a_peak_has_one_too() -> None:
    """Most at the third of four, and Page's L is large all the same [scipy's page_trend_test]."""
    peaked = [[1, 2, 4, 3], [1, 3, 4, 2], [1, 2, 4, 3], [1, 3, 4, 2], [1, 2, 4, 3], [2, 1, 4, 3]]
    assert page_trend_test(peaked).pvalue < 0.05
    assert " on the whole (" in trend_sentence(page_trend(peaked), "liking", "cooking time")


def test_six_guests_cannot_show_similarity() -> None:
    """ISO 4120's tables start far above six tasters for similarity (from memory)."""
    for correct in range(1, 5):
        test = discrimination_similarity(correct, 6, TRIANGLE, 0.3)
        verdict = similarity_verdict(test)
        assert verdict.grade is Grade.NOT_ENOUGH
        assert verdict.more is not None
        assert verdict.more > 30


@pytest.mark.parametrize("protocol", [TRIANGLE, DUO_TRIO])
def test_what_more_tasters_would_do_is_only_said_of_half_of_the_panels(protocol: Protocol) -> None:
    """Where nobody can tell, about half of all panels guess below chance [exact binomial]."""
    needed = tasters_for_similarity(0.3, protocol, 0.1)
    assert needed.first is not None
    for panel in range(needed.first, needed.first + 30):
        fewer = binom.cdf(math.ceil(panel * protocol.guess) - 1, panel, protocol.guess)
        assert 0.42 < fewer < 0.58
    verdict = similarity_verdict(discrimination_similarity(5, 9, protocol, 0.3))
    assert verdict.sentence.endswith(
        "more would do if nobody can, unless fewer are correct than guessing brings, as in about"
        " half of such panels."
    )


def test_similarity_is_said_as_a_limit() -> None:
    verdict = similarity_verdict(discrimination_similarity(13, 36, TRIANGLE, 0.3))
    assert verdict.grade is Grade.FEW_CAN_TELL
    assert "fewer than 30 % can tell" in verdict.sentence


def test_everybody_correct_is_no_call_for_more_tasters() -> None:
    verdict = similarity_verdict(discrimination_similarity(12, 12, TRIANGLE, 0.3))
    assert verdict.grade is Grade.MANY_CAN_TELL
    assert verdict.sentence == "12 tasters, 12 correct in the triangle: more than 30 % can tell."


@pytest.mark.parametrize("answers", [[0, 0, 1], [-1, 1, 1]])
def test_a_window_is_reported_in_the_kitchens_own_words(answers: list[int]) -> None:
    window = right_window([answers] * 6, [12, 24, 48])
    sentence = right_window_sentence(window, "too dry", "too greasy")
    assert "too dry" in sentence
    assert "too greasy" in sentence
    assert not re.search("firm|overdone|tender|both ends", sentence)


def test_missing_tasters_would_do() -> None:
    """The panel that a margin verdict asks for reaches the power in simulation, 4 SE."""
    generator = np.random.default_rng(13)
    differences = generator.normal(0, 10, 6)
    test = no_worse_by_margin(differences - differences.mean(), 7)
    verdict = no_worse_verdict(test, "shank", "fillet", "tenderness")
    assert verdict.grade is Grade.NOT_ENOUGH
    assert verdict.more is not None
    assert test.spread is not None
    count = 6 + verdict.more
    panels = generator.normal(0, test.spread, (4_000, count))
    shown = np.mean([no_worse_by_margin(panel, 7).established for panel in panels])
    assert shown > 0.8 - 4 * np.sqrt(0.8 * 0.2 / 4_000)


def test_clearly_worse_is_said() -> None:
    verdict = no_worse_verdict(
        no_worse_by_margin([-20, -22, -18, -25, -19], 5), "shank", "fillet", "flavour"
    )
    assert verdict.grade is Grade.WORSE
    assert "worse than fillet by more than 5 points" in verdict.sentence
    alike = no_worse_verdict(no_worse_by_margin([-25.0] * 8, 10), "shank", "fillet", "flavour")
    assert alike.grade is Grade.WORSE


@pytest.mark.parametrize("reported", [1, 0, -1])
def test_a_difference_that_is_shown_is_said_beside_the_margin(reported: int) -> None:
    """No worse by more than the margin may still be below: both are said."""
    test = no_worse_by_margin([-3, -4, -2, -5, -3, -4], 10)
    sentence = no_worse_verdict(test, "shank", "fillet", "flavour", reported=reported).sentence
    assert "no worse than fillet by more than 10 points" in sentence
    assert ("it scores below it" in sentence, "it scores above it" in sentence) == (
        reported < 0,
        reported > 0,
    )


@pytest.mark.parametrize(("confidence", "needed"), [(0.95, 5), (0.75, 2), (0.99, 7)])
def test_alike_differences_ask_for_as_many_as_the_binomial(confidence: float, needed: int) -> None:
    """All n on one side: scipy's one-sided p falls to 1 − confidence with the last of them."""
    tails = [binomtest(n, n, 0.5, alternative="greater").pvalue for n in (needed - 1, needed)]
    assert tails[1] <= 1 - confidence < tails[0]
    alike = no_worse_by_margin([2.0] * (needed - 1), 5, confidence)
    verdict = no_worse_verdict(alike, "shank", "fillet", "flavour", fewest=3)
    assert verdict.grade is Grade.NOT_ENOUGH
    assert verdict.more == max(1, 3 - (needed - 1))
    enough = no_worse_by_margin([2.0] * needed, 5, confidence)
    assert enough.established


def test_one_taster_asks_for_no_number_of_others() -> None:
    verdict = no_worse_verdict(no_worse_by_margin([4.0], 10), "shank", "fillet", "flavour")
    assert (verdict.grade, verdict.more) == (Grade.NOT_ENOUGH, None)
    assert "one shows no spread" in verdict.sentence


def test_fewer_than_guessing_brings_points_to_the_key() -> None:
    """0 of 12: the upper exact limit of correct answers, .265, lies below a third."""
    sentence = share_sentence(share_who_can_tell(0, 12, TRIANGLE), TRIANGLE)
    assert "check the key" in sentence
    assert "between 0 % and 0 %" not in sentence


@pytest.mark.parametrize(("chose_first", "ahead"), [(9, "butt leads loin"), (3, "loin leads butt")])
def test_a_pair_names_who_leads(chose_first: int, ahead: str) -> None:
    """Lead 2 x 9/12 - 1 = 50 %; limits from Clopper-Pearson of 9 of 12, .428 to .945."""
    share = share_who_can_tell(chose_first, 12, PAIRED_EITHER_WAY)
    sentence = share_sentence(share, PAIRED_EITHER_WAY, ("butt", "loin"))
    assert f"{ahead} by an estimated 50 %" in sentence
    assert "between −14 % and 89 %" in sentence
    test = discrimination_difference(chose_first, 12, PAIRED_EITHER_WAY)
    verdict = difference_verdict(test, names=("butt", "loin"))
    assert f"12 tasters, {chose_first} for butt and {12 - chose_first} for loin" in verdict.sentence
    assert "if one leads by 30 %" in verdict.sentence


def test_own_repeated_judgements_are_the_scatter() -> None:
    """Two judgements 5, 5, 5, 0, 5 and 5 apart: error mean square Σ d²/2 / 6 = 125/12."""
    cube = [[[60, 65], [80, 80]], [[55, 50], [75, 70]], [[70, 65], [90, 85]]]
    sentence = repeats_sentence(score_anova(cube), "a and b", "flavour")
    check_sentence(sentence, 3)
    assert "scatter by 3.2 points" in sentence


def test_a_panel_of_too_few_samples_is_said_once() -> None:
    table = [[5, 7], [4, 6], [6, 9]]
    sentence = standing_sentence(taster_agreement(table), ["T1", "T2", "T3"])
    assert sentence == (
        "3 tasters: too few samples to tell anybody from somebody answering at random."
    )


def test_ranks_name_who_stands_where() -> None:
    scores = [
        [5, 2, 8],
        [6, 1, 9],
        [5, 3, 7],
        [4, 2, 9],
        [5, 1, 8],
        [6, 2, 9],
        [5, 1, 7],
        [5, 2, 9],
    ]
    names = ["fillet", "shank 12 h", "shank 36 h"]
    verdict = ranks_verdict(friedman_test(scores), benchmark_ranks(scores, 0), names, "tenderness")
    assert verdict.grade is Grade.DIFFERENT
    assert "8 tasters" in verdict.sentence
    none_alone = [[5, 2, 8], [6, 1, 9], [5, 3, 7], [4, 2, 9]]
    few = ranks_verdict(
        friedman_test(none_alone), benchmark_ranks(none_alone, 0), names, "tenderness"
    )
    assert "they could not tell any one from fillet" in few.sentence


def test_tasters_needed_are_said_with_at_least() -> None:
    sentence = needed_sentence(tasters_for_difference(0.3, TRIANGLE, 0.05, 0.9), "a difference")
    assert sentence == "At least 57 tasters to show a difference; chance of showing it: 90 %."
    far = needed_sentence(tasters_for_difference(0.01, TRIANGLE), "a difference")
    assert far.startswith("More than 1500 tasters")


@settings(max_examples=60)
@given(st.integers(1, 80), st.data())
def test_no_discrimination_sentence_ever_claims_likeness(tasters: int, data: st.DataObject) -> None:
    correct = data.draw(st.integers(0, tasters))
    verdict = difference_verdict(discrimination_difference(correct, tasters, TRIANGLE))
    check_sentence(verdict.sentence, tasters)
    assert verdict.tasters == tasters
    assert verdict.grade in {Grade.DIFFERENT, Grade.NOT_ENOUGH, Grade.NOT_SHOWN}


@pytest.mark.parametrize(
    ("order", "said"),
    [
        ((2, 3, 1), "b above a and c below a"),
        ((1, 2, 3), "c above a"),
        ((3, 2, 1), "c below a"),
    ],
)
def test_ranks_say_which_side_of_the_benchmark_a_sample_is(
    order: tuple[int, int, int], said: str
) -> None:
    """Twelve tasters of one mind: a rank apart counts 12, two count 24, of the 9.8 that show."""
    scores = [list(order)] * 12
    verdict = ranks_verdict(friedman_test(scores), benchmark_ranks(scores, 0), "abc", "juiciness")
    assert verdict.grade is Grade.DIFFERENT
    assert said in verdict.sentence


def test_a_taster_who_scored_all_apart_is_not_said_to_have_scored_too_few() -> None:
    """Two samples tie in what the others gave: of 24 orders two are as near, 1/12 at the least."""
    panel = taster_agreement([[1, 2, 3, 4], [1, 3, 2, 4], [1, 2, 3, 4]])
    assert standing_sentence(panel, ["T1", "T2", "T3"]) == (
        "3 tasters: T2 may be answering at random; T1 and T3 can't be judged, as "
        "these tasters and the rest both tell too few samples apart."
    )
