"""Lead, list, tile, table and texture section of a tasting say one thing."""

from __future__ import annotations

import re

import numpy as np
import pytest
from scipy.stats import binom

from builder.costing.decisions import judged_at
from builder.costing.tasting_grades import Standing, beside_benchmark
from builder.costing.tasting_results import TastingResult
from builder.costing.tasting_words import headline, supported
from builder.language import written_in
from builder.pages.tastings import tasting_pages
from builder.pages.view import View
from builder.tasting.comparisons import no_worse_by_margin
from builder.tasting.judged import Fault, Margin
from builder.tasting.pairs import all_pairs
from builder.tasting.shortlist import shortlist
from tests.pages_data.kitchens import by_path, html_of, text_of
from tests.tasting.panels import Array
from tests.tastings.kitchens import BATH, computed

COOKS = {f"cooks/c{h}.yaml": f"for: {h} h\nloss: 20 %\n{BATH}" for h in (18, 24, 36, 48, 60, 72)}
BESIDE = """test: scores
samples: {rib: ribeye-grill, a: c24, b: c48}
benchmark: rib
margin: 12 %
attributes: {liking: line 0-100}
"""


def view_of(yaml: str) -> View:
    view, problems = computed({"tastings/trial.yaml": yaml, **COOKS})
    assert view is not None, [str(p) for p in problems]
    return view


def result_of(yaml: str) -> TastingResult:
    return view_of(yaml).costed.tastings["trial"]


def page_of(yaml: str, path: str = "tastings/trial.html") -> str:
    """What a page of the tastings says, up to where its figures come from."""
    words = text_of(html_of(by_path(tasting_pages(view_of(yaml)))[path]))
    return re.sub(r"\s+", " ", words)


def beside(tasters: int, gaps: int = 0) -> str:
    """24 h lies 24 to 28 points below the rib, 48 h level with it."""
    lines = []
    for n in range(tasters):
        a = "–" if n >= tasters - gaps else 52 + 2 * (n % 4)
        lines.append(f"  T{n + 1}: {{rib: {80 + n % 4}, a: {a}, b: {79 + n % 2}}}\n")
    return f"{BESIDE}tasters: {tasters}\nscores:\n{''.join(lines)}"


def test_a_duration_that_is_worse_than_the_benchmark_is_out_everywhere() -> None:
    yaml = beside(9)
    result = result_of(yaml)
    words = headline(result)
    assert "24 h is out: worse than rib by more than 12 points in liking." in words
    assert "may be right" not in words
    support = supported(result)
    assert support is not None
    assert support.columns == (2,)
    page = page_of(yaml)
    assert "Durations not ruled out 48 h" in page
    assert "24 h less rib −26.7 points: worse than rib by more than 12 points" in page


@pytest.mark.parametrize(("tasters", "gaps"), [(9, 5), (4, 0), (3, 0), (2, 0)])
def test_too_few_to_tell_claim_nothing_anywhere(tasters: int, gaps: int) -> None:
    """All of 5 agreeing is 1/32 > .05 / 2 one-sided, of 6 is 2/64 <= .05 two-sided."""
    assert 2**-5 > 0.05 / 2
    yaml = beside(tasters, gaps)
    words, page = headline(result_of(yaml)), page_of(yaml)
    assert "No duration is out: fewer than 6 answers can't show one off, even if all agree" in words
    assert "24 h scores" in words
    assert "fewer than 6 can't show it worse, even if all agree" in words
    for claim in ("(?<!no )worse than rib by", "(?<!no )worse by more than the", "a below rib"):
        assert not re.search(claim, words + page)
    assert (gaps > 0) == ("b −" in page and "no worse than rib by more than" in page)


def test_more_tasters_that_would_do_are_at_least_those_who_can_tell() -> None:
    words = headline(result_of(beside(2)))
    assert "(it takes at least 4 more tasters)" in words
    assert "1 more tasters" not in words


def panel(seed: int) -> str:
    """Ten tasters, four durations, liking and texture drawn; seeded."""
    generator = np.random.default_rng(seed)
    words, truth = ("too firm", "right", "mushy"), (40, 66, 74, 70)
    shares = ((0.7, 0.3, 0), (0.2, 0.8, 0), (0, 0.8, 0.2), (0, 0.3, 0.7))
    lines = []
    for n in range(10):
        taste = generator.normal(0, 6)
        cells = [f"rib: [{72 + taste:.0f}, right]"]
        for hours, mean, share in zip((18, 36, 48, 72), truth, shares, strict=True):
            score = float(np.clip(mean + taste + generator.normal(0, 9), 0, 100))
            cells.append(f"h{hours}: [{score:.0f}, {generator.choice(words, p=share)}]")
        lines.append(f"  T{n + 1}: {{{', '.join(cells)}}}\n")
    return (
        "test: scores\nsamples: {rib: ribeye-grill, h18: c18, h36: c36, h48: c48, h72: c72}\n"
        "benchmark: rib\nmargin: 12 %\ntasters: 10\n"
        "attributes: {liking: line 0-100, texture: [too firm, right, mushy]}\n"
        f"scores:\n{''.join(lines)}"
    )


@pytest.mark.parametrize("seed", range(8))
def test_lead_and_sections_agree_on_drawn_panels(seed: int) -> None:
    yaml = panel(seed)
    result, page = result_of(yaml), page_of(yaml)
    words = headline(result)
    assert result.decision is not None
    for column in result.series:
        judged, line = judged_at(result, column), beside_benchmark(result, column)[0]
        assert judged is not None
        assert ((Fault.WORSE, None) in judged.faults) == (line.standing is Standing.WORSE)
        out = re.search(rf"\b{judged.hours:g} h[^.]* (?:is|are) out", words)
        assert bool(out) == judged.out
    following = re.search(r"Next: (\w)([^.]*)\.", words)
    assert following is not None
    assert f"Worth cooking next {following[1].upper()}{following[2]}." in page
    counts = re.search(
        r"(\d+) more tasters would settle (?:it|the closest of them) if none finds it off", words
    )
    if counts and "more would settle" in page:
        assert f"{counts[1]} more would settle" in page
    assert "if none complains" not in page


def test_both_counts_of_missing_tasters_are_one_binomial() -> None:
    """P(X <= 2 | 30, .2) = .044, P(X <= 2 | 29, .2) = .052."""
    assert binom.cdf(2, 30, 0.2) <= 0.05 < binom.cdf(2, 29, 0.2)
    page = page_of(NO_BENCHMARK)
    assert "18 more tasters would settle it if none finds it off" in page
    assert "not enough tasters to be sure; 18 more would settle 36 h if none finds it off" in page


NO_BENCHMARK = """test: scores
samples: {h18: c18, h36: c36, h60: c60}
tasters: 12
attributes: {tenderness: 9-point, texture: [too firm, right, mushy]}
scores:
""" + "".join(
    f"  T{n + 1}: {{h18: [{2 + n % 3}, {'right' if n == 10 else 'too firm'}],"
    f" h36: [{7 + n % 3}, {'too firm' if n in (2, 9) else 'right'}],"
    f" h60: [{7 + (n + 1) % 3}, {'right' if n in (1, 6, 9) else 'mushy'}]}}\n"
    for n in range(12)
)  # fmt: skip


def test_the_next_cook_is_said_once() -> None:
    page = page_of(NO_BENCHMARK)
    assert "60 h is out: mushy to 9 of 12" in page
    assert "Worth cooking next Taste 36 h again" in page
    outs = "18 h is out: too firm to 11 of 12. 60 h is out: mushy to 9 of 12."
    assert outs in page_of(NO_BENCHMARK, "tastings.html")
    assert "100 h" not in page
    assert "All counted, 18 h and 60 h are out." in page


# Ranks, and groups


def ranked(tasters: int, head: str, order: str) -> str:
    lines = "".join(f"  T{n + 1}: [{order}]\n" for n in range(tasters))
    return f"test: ranks\n{head}tasters: {tasters}\nranks:\n{lines}"


def test_ranks_answer_which_in_lead_and_list_alike() -> None:
    """Six who all agree on two samples are 2 of 64 arrangements: .031."""
    yaml = ranked(6, "samples: {a: c24, b: c48, c: c72}\n", "a, c, b")
    words = headline(result_of(yaml))
    assert words.startswith("6 tasters: 24 h came first in preference. 48 h and 72 h are out")
    assert "24 h above 48 h and 72 h; 72 h above 48 h" in words
    listed = page_of(yaml, "tastings.html")
    assert "24 h came first in preference. 48 h and 72 h are out" in listed


def test_four_who_all_rank_alike_tell_a_sample_from_the_benchmark() -> None:
    """The benchmark at one end and another sample at the other, in all: 4 of 6 ** 4, .003."""
    head = "samples: {rib: ribeye-grill, a: c24, b: c48}\nbenchmark: rib\n"
    words = headline(result_of(ranked(4, head, "rib, b, a")))
    assert words.startswith("4 tasters: 48 h came first in preference of those beside rib")
    assert "samples differ; 24 h below rib." in words
    assert "can't tell any from rib" not in words


def test_ranks_of_other_things_than_durations_name_the_first() -> None:
    words = headline(result_of(ranked(3, "samples: {a: c24, b: ribeye-grill}\n", "b, a")))
    assert "b came first so far (mean rank 2.0, where 1 is the last place)" in words


def test_the_first_of_other_things_says_who_is_put_above_it() -> None:
    """11 of 14 give a 62 and b 60, 3 give 5 and 95: means 49.8 and 67.5."""
    marks = ["a: 62, b: 60, c: 30"] * 11 + ["a: 5, b: 95, c: 30"] * 3
    lines = "".join(f"  T{n}: {{{each}}}\n" for n, each in enumerate(marks, start=1))
    pan = "cut: ribeye\nhow: pan\nload: 5 kg\nloss: 15 %\n"
    pans = {f"cooks/pan-{n}.yaml": pan for n in (1, 2)}
    yaml = (
        "test: scores\nsamples: {a: pan-1, b: ribeye-grill, c: pan-2}\n"
        f"attributes: {{liking: line 0-100}}\ntasters: 14\nscores:\n{lines}"
    )
    view, problems = computed({"tastings/trial.yaml": yaml, **pans})
    assert view is not None, problems
    words = headline(view.costed.tastings["trial"])
    assert "b came first so far (67.5 of 100), though 11 of 14 put a above it (mean 49.8)." in words


def test_a_page_of_ranks_says_which_end_is_high() -> None:
    words = page_of(ranked(6, "samples: {a: c24, b: ribeye-grill}\n", "b, a"))
    assert "Mean rank 1 for the last place; the first has the largest number" in words
    assert "Each last place counts 1, so the highest came first." in words


@pytest.mark.parametrize("asked", [False, True])
def test_nothing_is_called_right_where_nobody_was_asked_what_is(asked: bool) -> None:
    """A and B lie a point apart, C 40 below; with the question on texture, right to all."""
    mark = ", right" if asked else ""
    texture = ", texture: [firm, right, soft]" if asked else ""
    lines = "".join(
        f"  T{n + 1}: {{rib: [{80 + n % 3}{mark}], a: [{79 + n % 4}{mark}],"
        f" b: [{78 + n % 5}{mark}], c: [{40 + n % 3}{mark}]}}\n"
        for n in range(9)
    )
    trial = (
        "test: scores\nsamples: {rib: ribeye-grill, a: a, b: b, c: c24}\nbenchmark: rib\n"
        f"margin: 12 %\ntasters: 9\nattributes: {{liking: line 0-100{texture}}}\nscores:\n{lines}"
    )
    grilled = "cut: ribeye\nhow: grill\nload: 5 kg\nloss: 18 %\n"
    others = {f"cooks/{name}.yaml": grilled for name in ("a", "b")}
    view, _ = computed({"tastings/trial.yaml": trial, **COOKS, **others})
    assert view is not None
    words = headline(view.costed.tastings["trial"])
    assert "C is out: " in words or "C (all 9 right) is out: " in words
    assert ("may be right too." in words) == asked
    assert ("B may be as good in liking." in words) != asked
    assert ("The risk that any is out wrongly is 5 % at most" in words) != asked
    assert ("The risk that a right one is out is 5 % at most" in words) == asked


def test_means_and_most_tasters_that_disagree_are_both_said() -> None:
    rows = [(60, 61)] * 9 + [(100, 0)] * 3
    lines = "".join(f"  T{n + 1}: {{A: {a}, B: {b}}}\n" for n, (a, b) in enumerate(rows))
    yaml = "test: scores\nsamples: {A: c24, B: c48}\ntasters: 12\n"
    yaml += f"attributes: {{liking: line 0-100}}\nscores:\n{lines}"
    words = headline(result_of(yaml))
    assert "liking 70.0 of 100, though 9 of 12 put 48 h above it (mean 45.8)" in words


def test_every_group_that_is_told_apart_is_in_the_lead() -> None:
    lines = "".join(
        f"  T{n + 1}: {{A: {80 + n % 3}, B: {40 + n % 4}, C: {79 + 2 * (n % 3)}, D: 60}}\n"
        for n in range(9)
    )
    head = "test: scores\nsamples: {A: c24, B: c48, C: c72, D: ribeye-grill}\ntasters: 9\n"
    words = headline(result_of(f"{head}attributes: {{liking: line 0-100}}\nscores:\n{lines}"))
    assert "24 h and 72 h above 48 h and D; D above 48 h" in words


def _three_of_four_each() -> str:
    """A benchmark and three durations, three of the four to each of twelve tasters."""
    names, means = ("rib", "a", "b", "c"), (85, 35, 80, 70)
    lines = ""
    for taster in range(12):
        served = {
            name: str(mean + (7 * taster + 5 * column) % 11)
            for column, (name, mean) in enumerate(zip(names, means, strict=True))
        }
        served[names[taster % 4]] = "–"
        lines += f"  T{taster + 1}: {{{', '.join(f'{n}: {s}' for n, s in served.items())}}}\n"
    head = BESIDE.replace("b: c48}", "b: c48, c: c72}")
    return f"{head}tasters: 12\nscores:\n{lines}"


def test_the_mean_in_the_lead_is_the_mean_in_the_table() -> None:
    view = view_of(_three_of_four_each())
    result, page = (
        view.costed.tastings["trial"],
        by_path(tasting_pages(view))["tastings/trial.html"],
    )
    found = result.attributes[0]
    assert found.anova is not None and found.study is not None
    mean, apart = found.anova.adjusted_means[2], found.study.best_tried.means[1]
    assert mean is not None and apart is not None and abs(mean - apart) > 0.1
    assert f"48 h scored highest of those beside rib; liking {mean:.1f} of 100" in headline(result)
    assert f"{mean:.1f}" in text_of(html_of(page))


def test_nobody_who_had_every_sample_is_said_in_words() -> None:
    page = by_path(tasting_pages(view_of(_three_of_four_each())))["tastings/trial.html"]
    words = text_of(html_of(page))
    assert "for nobody had every sample" in words
    assert "so there is no agreement on ranks to work out." in words
    assert not re.search(r"\b0 (tasters|had)", words)


def test_without_a_benchmark_too_it_is_said_which_of_the_tests_counts() -> None:
    """Five of six put b higher: means differ by their test, the two alone are not told apart."""
    scores = [(7, 8), (6, 8), (7, 7), (5, 8), (6, 7), (7, 9)]
    lines = "".join(f"  T{n + 1}: {{a: {a}, b: {b}}}\n" for n, (a, b) in enumerate(scores))
    yaml = "test: scores\nsamples: {a: c18, b: c24}\nattributes: {liking: 9-point}\ntasters: 6\n"
    page = by_path(tasting_pages(view_of(f"{yaml}scores:\n{lines}")))["tastings/trial.html"]
    words = text_of(html_of(page))
    assert "mean liking differs between samples" in words
    assert "could not tell any two samples apart" in words
    assert "Where tests disagree, the comparison of all pairs counts" in words


# The stated risks


def test_pairs_that_do_not_differ_are_rarely_told_apart_beside_others_that_do() -> None:
    """Two pairs alike, far from each other: 5 % of 200 panels at most, 3 standard errors."""
    generator, wrong = np.random.default_rng(5), 0
    for _ in range(200):
        table = generator.normal(0, 5, (8, 4)) + np.array([0, 0, 30, 30])
        reported = {(p.first, p.second) for p in all_pairs(table) if p.adjusted_p_value <= 0.05}
        wrong += bool(reported & {(0, 1), (2, 3)})
    assert wrong / 200 <= 0.05 + 3 * np.sqrt(0.05 * 0.95 / 200)


def _margin(scores: Array, benchmark: Array) -> Margin:
    tests = [no_worse_by_margin(column - benchmark, 10, 1 - 0.05 / 3) for column in scores.T]
    return Margin([test.worse_p_value for test in tests], 6)


def test_a_duration_just_within_the_margin_is_rarely_out() -> None:
    """All three lie exactly the margin below: 5 % of 300 panels at most, 3 standard errors."""
    generator, wrong = np.random.default_rng(8), 0
    for _ in range(300):
        benchmark = generator.normal(70, 6, 8)
        scores = benchmark[:, None] - 10 + generator.normal(0, 8, (8, 3))
        found = shortlist((24, 48, 72), scores, [], margin=_margin(scores, benchmark))
        wrong += any(judged.out for judged in found.judged)
    assert wrong / 300 <= 0.05 + 3 * np.sqrt(0.05 * 0.95 / 300)


def test_durations_all_worse_than_the_benchmark_lead_away_from_time() -> None:
    rows = "".join(
        f"  T{n + 1}: {{rib: [90, right], a: [{40 + n}, right], b: [{42 + n}, right]}}\n"
        for n in range(8)
    )
    yaml = BESIDE.replace("line 0-100}", "line 0-100, texture: [too firm, right, mushy]}")
    words = headline(result_of(f"{yaml}tasters: 8\nscores:\n{rows}"))
    assert "yet every duration tried is out" in words
    assert "Next: change more than the time, such as the temperature." in words


def test_a_ranking_in_french_has_no_english_and_says_its_label_once() -> None:
    with written_in("fr"):
        said = page_of(
            ranked(8, "samples: {rib: ribeye-grill, a: c24, b: c48}\nbenchmark: rib\n", "a, rib, b")
        )
    assert "Pareil dégustateurs" in said
    assert "À cuire ensuite Cuire des durées proches de" in said
    assert "Chaque dernière place compte 1" in said
