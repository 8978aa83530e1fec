"""From files to statistics: the demo and small tastings against scipy, tables and arithmetic."""

from __future__ import annotations

import csv
from fractions import Fraction
from math import comb

import numpy as np
import pytest
from scipy.stats import friedmanchisquare, ttest_1samp
from statsmodels.stats.weightstats import ttost_paired  # type: ignore[import-untyped]

from builder.costing.tasting_results import TastingResult
from builder.costing.tasting_words import headline, questions, spread_so_far, supported
from builder.tasting.margin_verdicts import no_worse_verdict
from builder.tasting.verdicts import Grade
from tests.tastings.kitchens import ROOT, SCORES, TRIANGLE, demo, result_of, trial


def held(name: str) -> TastingResult:
    """A tasting of the demo."""
    return demo().costed.tastings[name]


# Against scipy and the rows of the file itself


def rows_of_chuck() -> dict[str, np.ndarray[tuple[int], np.dtype[np.float64]]]:
    """Tenderness of each sample by taster, read by Python's own csv module."""
    found: dict[str, list[float]] = {}
    with (ROOT / "tastings/chuck-durations.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            found.setdefault(row["Sample"], []).append(float(row["Tenderness"]))
    return {name: np.array(values) for name, values in found.items()}


def test_friedman_of_the_demo_is_scipy_s() -> None:
    found = held("chuck-durations").attributes[0].friedman
    other = friedmanchisquare(*rows_of_chuck().values())
    assert found.statistic == pytest.approx(other.statistic)
    assert found.chi_square_p_value == pytest.approx(other.pvalue)


def test_bounds_of_the_demo_are_scipy_s_t_test_at_a_fifth_of_the_level() -> None:
    """Five challengers share 5 %; nine points reach over 8, so a point is 12.5 of 100."""
    rows, result = rows_of_chuck(), held("chuck-durations")
    for column, sample in enumerate(result.samples):
        if sample.name == "ribeye":
            continue
        differences = 12.5 * (rows[sample.name] - rows["ribeye"])
        test = ttest_1samp(differences, popmean=-12.0, alternative="greater")
        found = result.attributes[0].no_worse[column]
        assert found.confidence == pytest.approx(0.99)
        assert found.p_value == pytest.approx(test.pvalue)
        assert found.lower == pytest.approx(test.confidence_interval(0.99).low)


def test_both_ways_of_the_demo_are_statsmodels_two_one_sided_tests() -> None:
    rows, result = rows_of_chuck(), held("chuck-durations")
    points = {name: (values - 1) / 8 * 100 for name, values in rows.items()}
    for column, found in result.attributes[0].within.items():
        name = result.samples[column].name
        expected = ttost_paired(points[name], points["ribeye"], -12, 12)[0]
        assert found.p_value == pytest.approx(expected, rel=1e-9)
        assert found.alpha == pytest.approx(0.01)


def test_a_taster_s_own_scale_is_rescaled() -> None:
    """118 mm of 150 are 78.67 of 100, by hand."""
    result = held("duck-leg-or-breast")
    line = result.tasters.index("T11")
    assert result.attributes[0].table[line] == pytest.approx([11800 / 150, 12300 / 150])


def test_the_triangle_of_the_demo() -> None:
    """ISO 4120's table asks 13 of 24 at 5 %; the chance of 14 or more by exact fractions."""
    choice = held("short-rib-triangle").choice
    assert choice is not None
    assert (choice.difference.correct, choice.difference.tasters) == (14, 24)
    assert choice.difference.minimum_correct == 13
    tail = sum(
        comb(24, k) * Fraction(1, 3) ** k * Fraction(2, 3) ** (24 - k) for k in range(14, 25)
    )
    assert choice.difference.p_value == pytest.approx(float(tail))
    assert choice.share.estimate == pytest.approx((14 / 24 - 1 / 3) * 1.5)


def test_both_ways_to_write_a_triangle_agree() -> None:
    """ISO 4120: 8 of 12 is enough at 5 %."""
    answers = ", ".join(f"T{n}: {'correct' if n <= 8 else 'wrong'}" for n in range(1, 13))
    by_taster = result_of(TRIANGLE.replace("correct: 8", f"answers: {{{answers}}}"))
    assert by_taster.choice == result_of(TRIANGLE).choice
    assert by_taster.choice is not None
    assert by_taster.choice.difference.different


def test_cups_are_judged_by_the_trays() -> None:
    """Everybody names the cup whose sample stands once on the tray: everybody is correct."""
    plan = result_of(TRIANGLE).plan
    samples = {line.code: line.sample for line in plan.key}
    odd = {}
    for tray in plan.trays:
        there = [samples[code] for code in tray.codes]
        odd[tray.taster] = next(c for c in tray.codes if there.count(samples[c]) == 1)
    answers = ", ".join(f"{taster}: {code}" for taster, code in odd.items())
    choice = result_of(TRIANGLE.replace("correct: 8", f"answers: {{{answers}}}")).choice
    assert choice is not None
    assert choice.difference.correct == 12


def test_a_pair_that_asks_either_way_counts_the_first() -> None:
    yaml = "test: paired\nasks: tenderness\nsamples: {a: chuck-24h, b: chuck-36h}\ntasters: 8\n"
    answers = "answers: {T1: b, T2: b, T3: b, T4: b, T5: a, T6: b, T7: b, T8: b}\n"
    choice = result_of(yaml + answers).choice
    assert choice is not None
    assert (choice.difference.correct, choice.similarity) == (1, None)
    directed = result_of(f"{yaml}expected: b\n{answers}").choice
    assert directed is not None
    assert directed.difference.correct == 7


def test_ranks_in_either_form_agree() -> None:
    yaml = "test: ranks\nsamples: {a: chuck-24h, b: chuck-36h, c: ribeye-grill}\ntasters: 2\n"
    listed = result_of(f"{yaml}ranks:\n  T1: [c, a = b]\n  T2: [b, c, a]\n")
    rows = "taster,sample,rank\nT1,c,1\nT1,a,2\nT1,b,2\nT2,b,1\nT2,c,2\nT2,a,3\n"
    assert listed.attributes[0].table.tolist() == result_of(yaml, rows).attributes[0].table.tolist()
    assert listed.attributes[0].friedman.mean_ranks == (1.25, 2.25, 2.5)


# Verdicts of the demo


def grades(name: str) -> set[Grade]:
    """What the tests against the margin support, over all samples and attributes."""
    return {
        no_worse_verdict(test, "a", "b", found.name, held(name).power).grade
        for found in held(name).attributes
        for test in found.no_worse.values()
    }


def test_the_clear_winner_is_above_in_everything() -> None:
    result = held("pork-butt-or-loin")
    assert grades("pork-butt-or-loin") == {Grade.NO_WORSE}
    assert all((t.lower or 0) > 0 for a in result.attributes for t in a.no_worse.values())
    assert result.attributes[1].differences is not None
    assert result.attributes[1].differences.differences[0].adjusted_p_value > 0.05
    assert (
        "10 tasters, butt against loin: above it in tenderness and juiciness. No worse by"
        in headline(result)
    )


def test_the_overdone_end_drops_out_though_it_scores_tender() -> None:
    result = held("chuck-durations")
    hours = [sample.hours for sample in result.samples]
    assert [hours[column] for column in result.series] == [18, 24, 30, 42, 60]
    study = result.attributes[0].study
    assert study is not None
    assert 60.0 in [study.hours[column] for column in study.best_tried.rivals]
    support = supported(result)
    assert support is not None
    assert ([hours[column] for column in support.columns], support.reported) == ([30, 42], True)


def test_the_tie_is_no_worse_and_not_above() -> None:
    assert grades("duck-leg-or-breast") == {Grade.NO_WORSE}
    assert "above it" not in headline(held("duck-leg-or-breast"))


def test_four_tasters_are_too_few() -> None:
    assert grades("lamb-first-try") == {Grade.NOT_ENOUGH}
    assert "can't settle it (about 37 more tasters would)" in headline(held("lamb-first-try"))


def test_guests_can_tell_two_days_from_three() -> None:
    assert "Some can tell three days from two days. 24 tasters, 14 correct" in headline(
        held("short-rib-triangle")
    )


def test_the_planned_one_reckons_with_the_kitchen_s_own_spread() -> None:
    result = held("lamb-second-try")
    spread = spread_so_far(demo().costed.tastings.values())
    assert not result.held
    assert spread is not None
    (needed,) = (question.needed.at_least for question in questions(result, spread))
    assert needed is not None
    assert needed <= len(result.tasting.tasters)
    assert f"At least {needed} tasters" in headline(result, spread)


@pytest.mark.parametrize("name", list(demo().costed.tastings))
def test_the_count_of_tasters_is_in_every_verdict(name: str) -> None:
    assert f"{held(name).count} tasters" in headline(held(name))


# The ends of what can be asked


@pytest.mark.parametrize("correct", [0, 12])
def test_nobody_and_everybody_correct(correct: int) -> None:
    result = result_of(TRIANGLE.replace("correct: 8", f"correct: {correct}"))
    assert "12 tasters" in headline(result)
    assert "nan" not in headline(result).lower()


def test_one_taster_gets_a_sentence_and_a_warning() -> None:
    yaml = "".join(SCORES.splitlines(keepends=True)[:-2]).replace("[T1, T2, T3]", "[T1]")
    view, problems = trial(yaml)
    assert view is not None
    assert [p.message for p in problems] == ["one taster is no panel"]
    assert "1 taster: " in headline(view.costed.tastings["trial"])


def test_one_sample_gets_a_sentence() -> None:
    yaml = (
        "test: scores\nsamples: {a: chuck-24h}\ntasters: 2\nattributes: {liking: 0-5}\n"
        "scores: {T1: {a: 3}, T2: {a: 4}}\n"
    )
    assert headline(result_of(yaml)) == "2 tasters: one sample only, so nothing is compared."


def test_all_ties_get_a_sentence() -> None:
    yaml = (
        SCORES.partition("scores:\n")[0]
        + "scores:\n"
        + "".join(
            f"  T{n}: {{ribeye: [5, right], short: [5, right], long: [5, right]}}\n"
            for n in (1, 2, 3)
        )
    )
    result = result_of(yaml)
    support = supported(result)
    assert support is not None
    assert not support.reported
    assert headline(result).startswith("3 tasters: 24 h and 36 h came out equally good")
    assert "No duration is out" in headline(result)


def test_a_tasting_all_of_dashes_is_not_held() -> None:
    yaml = SCORES.partition("scores:\n")[0] + "scores:\n  T1: {ribeye: –, short: –, long: –}\n"
    assert headline(result_of(yaml)).startswith("Planned: 3 tasters")


def test_a_missing_score_is_left_out_not_filled_in() -> None:
    result = result_of(SCORES.replace("T2: {ribeye: [6, right]", "T2: {ribeye: [–, right]"))
    assert np.isnan(result.attributes[0].table[1, 0])
    assert result.attributes[0].no_worse[1].tasters == 2


@pytest.mark.parametrize("correct", [5, 6, 7])
def test_a_difference_that_shows_is_a_distance_above_nothing(correct: int) -> None:
    """Both limits of one side and level: of 9 in a triangle, 6 is the first that shows.

    6 is the least number of ISO 4120's table for 9 assessors at 5 % [from memory].
    """
    choice = result_of(TRIANGLE.replace("12\ncorrect: 8", f"9\ncorrect: {correct}")).choice
    assert choice is not None
    assert choice.distance.lower is not None
    shows = choice.distance.lower > 0
    assert shows == (correct >= 6) == (choice.share.at_least > 0)
