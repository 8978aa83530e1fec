"""How a challenger stands beside the benchmark, and what the odd tastings say."""

from __future__ import annotations

import re

import pytest
from scipy.stats import beta

from builder.costing.choice_words import choice_sentences
from builder.costing.tasting_grades import Standing, against_benchmark, beside_benchmark
from builder.costing.tasting_words import headline, supported
from builder.pages.tasting_evidence import other_duration
from builder.pages.tastings import tasting_pages
from tests.pages_data.kitchens import by_path, html_of, text_of
from tests.tastings.kitchens import BATH, KITCHEN, computed, demo, result_of

HEAD = """test: scores
samples: {ribeye: ribeye-grill, short: chuck-24h, long: chuck-36h}
benchmark: ribeye
attributes: {tenderness: line 0-100}
margin: 10 %
"""
PAIR = """test: duo-trio
samples: {short: chuck-24h, long: chuck-36h}
tasters: 12
"""


def scored(rows: list[tuple[int, int, int]], head: str = HEAD) -> str:
    """A tasting with these scores of ribeye, short and long by taster."""
    lines = [f"tasters: {len(rows)}\nscores:\n"]
    for number, (ribeye, short, long) in enumerate(rows, start=1):
        lines.append(f"  T{number}: {{ribeye: {ribeye}, short: {short}, long: {long}}}\n")
    return head + "".join(lines)


def standings(yaml: str) -> list[Standing]:
    result = result_of(yaml)
    return [beside_benchmark(result, column)[0].standing for column in (1, 2)]


WOBBLE = (0, 2, -2, 1, -1, 3, -3, 0, 2, -2, 1, -1)


@pytest.mark.parametrize(
    ("shift", "noise", "standing"),
    [
        (0, 1, Standing.WITHIN),
        (30, 1, Standing.ABOVE),
        (-5, 1, Standing.BELOW_BY_LESS),
        (-30, 1, Standing.WORSE),
        (-10, 2, Standing.BELOW),
        (5, 6, Standing.NO_WORSE),
        (0, 9, Standing.NOT_ENOUGH),
        (-11, 12, Standing.NOT_SHOWN),
    ],
)
def test_every_standing(shift: int, noise: int, standing: Standing) -> None:
    """Differences of known mean and spread; the wobble has mean 0, spread 1.86."""
    rows = [(60, 60 + shift + noise * wobble, 60) for wobble in WOBBLE]
    assert standings(scored(rows))[0] is standing


def test_below_is_said_even_where_it_is_no_worse() -> None:
    """A panel that is fine enough shows 5 points of 100: a margin of 10 must not hide it."""
    rows = [(60, 55 + wobble, 55 - wobble) for wobble in WOBBLE]
    sentence = against_benchmark(result_of(scored(rows)), 1)
    assert "below it, by no more than 10 points of 100, in tenderness" in sentence


def test_the_first_attribute_leads() -> None:
    sentence = against_benchmark(demo().costed.tastings["chuck-durations"], 3)
    assert sentence.index("tenderness") < sentence.index("flavour")
    assert "still open in tenderness (about 55 more tasters would settle it)" in sentence


def test_the_tie_lies_within_the_margin_both_ways() -> None:
    """Both ways are compared with statsmodels in test_figures."""
    lead = headline(demo().costed.tastings["duck-leg-or-breast"])
    assert "as close as you asked in liking and flavour (within 10 points of 100)" in lead


# Choices


def test_few_can_tell_is_not_followed_by_a_call_in_case_many_can() -> None:
    """12 of 24 in a duo-trio: P(X <= 12 | .65) = .094 <= beta .10 by binomial."""
    at_most = 2 * beta.ppf(0.9, 13, 12) - 1
    assert round(100 * at_most) == 29
    words = " ".join(choice_sentences(result_of(f"{PAIR.replace('12', '24')}correct: 12\n")))
    assert "fewer than 30 % can tell (p = 0.094)" in words
    assert "at most 29 % can tell (one-sided 90 % limit)" in words
    assert "would do if 30 % can tell" not in words
    assert "no proof of likeness" in words


@pytest.mark.parametrize(
    ("test", "tasters", "correct"),
    [("triangle", 24, 5), ("triangle", 12, 2), ("triangle", 8, 1), ("duo-trio", 10, 3),
     ("triangle", 24, 7), ("duo-trio", 24, 11)],
)  # fmt: skip
def test_fewer_correct_than_guessing_brings_claim_nothing(
    test: str, tasters: int, correct: int
) -> None:
    """Guessing brings a third in a triangle, half in a duo-trio."""
    assert correct < tasters / (3 if test == "triangle" else 2)
    yaml = PAIR.replace("duo-trio", test).replace("12", str(tasters)) + f"correct: {correct}\n"
    result = result_of(yaml)
    words = " ".join(choice_sentences(result))
    assert "fewer correct than guessing brings" in words.lower()
    assert not re.search(r"at most \d+ % can tell|between \d|: fewer than 30 % can tell", words)
    assert result.choice is not None
    shown = result.choice.shown
    assert (shown.at_least, shown.estimate, shown.at_most) == (0, 0, 1)
    assert result.choice.distance.upper is None


def test_the_tile_has_the_level_of_the_test_for_likeness() -> None:
    """13 of 36 in a triangle: exact one-sided 90 % limit, guessing taken off."""
    result = result_of(f"{PAIR.replace('duo-trio', 'triangle').replace('12', '36')}correct: 13\n")
    assert result.choice is not None
    expected = (beta.ppf(0.9, 14, 23) - 1 / 3) * 1.5
    assert result.choice.shown.at_most == pytest.approx(expected)
    words = " ".join(choice_sentences(result))
    assert f"at most {100 * expected:.0f} % can tell (one-sided 90 % limit)" in words


@pytest.mark.parametrize(("test", "most"), [("triangle", 12), ("duo-trio", 12)])
def test_no_likeness_is_claimed_of_a_few_guests(test: str, most: int) -> None:
    """Up to 12 guests only fewer correct answers than guessing brings would be few enough."""
    for tasters in (6, 8, 10, most):
        for correct in range(tasters // 2 + 1):
            yaml = PAIR.replace("duo-trio", test).replace("12", str(tasters))
            words = " ".join(choice_sentences(result_of(f"{yaml}correct: {correct}\n")))
            assert not re.search(r"correct in the [a-z-]+: fewer than 30 % can tell", words)
            assert f"{tasters} tasters can never show that fewer than 30 % can tell" in words


def test_a_difference_too_small_to_matter_is_said_to_be_both() -> None:
    """82 of 200 in a triangle: p .014 for a difference, and P(X <= 82 | .533) < .001."""
    yaml = PAIR.replace("duo-trio", "triangle").replace("12", "200")
    words = " ".join(choice_sentences(result_of(f"{yaml}correct: 82\n")))
    assert "different (p = 0.014)" in words
    assert "fewer than 30 % can tell (p < 0.001)" in words


def test_a_spreadsheets_true_and_false_are_answers() -> None:
    result = result_of(PAIR, "taster,answer\nT1,TRUE\nT2,FALSE\n")
    assert [choice.hit for choice in result.ballots.choices] == [True, False]


# Durations


def test_two_cooks_of_one_duration_are_averaged_not_dropped() -> None:
    """24 h scored 40 under one code and 80 under another: 60 beside 36 h's 50."""
    yaml = (
        "test: scores\nsamples: {one: chuck-24h, two: chuck-24h-again, long: chuck-36h}\n"
        "tasters: 6\nattributes: {tenderness: line 0-100}\nscores:\n"
    )
    for number, wobble in enumerate(WOBBLE[:6], start=1):
        yaml += f"  T{number}: {{one: {40 + wobble}, two: {80 + wobble}, long: {50 - wobble}}}\n"
    again = {"cooks/chuck-24h-again.yaml": KITCHEN["cooks/chuck-24h.yaml"]}
    view, problems = computed({"tastings/trial.yaml": yaml, **again})
    assert view is not None, problems
    result = view.costed.tastings["trial"]
    study = result.attributes[0].study
    assert study is not None
    assert list(study.hours) == [24, 36]
    assert study.best_tried.best == 0
    assert [result.represented_by(column) for column in range(3)] == [0, 0, 2]


def test_ways_of_cooking_without_a_temperature_make_no_series() -> None:
    cooks = {
        f"cooks/{how}.yaml": f"cut: chuck\nhow: {how}\nfor: {hours} h\nload: 5 kg\nloss: 30 %\n"
        for how, hours in (("braise", 4), ("smoke", 12))
    }
    yaml = (
        "test: scores\nsamples: {braise: braise, smoke: smoke}\ntasters: 2\n"
        "attributes: {tenderness: 0-5}\nscores: {T1: {braise: 3, smoke: 4}, T2: {braise: 2,"
        " smoke: 4}}\n"
    )
    view, problems = computed({"tastings/trial.yaml": yaml, **cooks})
    assert view is not None, problems
    assert supported(view.costed.tastings["trial"]) is None


def test_a_plate_of_the_other_cook_of_that_duration_is_no_other_duration() -> None:
    again = {
        "cooks/chuck-24h-again.yaml": KITCHEN["cooks/chuck-24h.yaml"],
        "plates/again.yaml": KITCHEN["plates/steak.yaml"].replace("chuck-24h", "chuck-24h-again"),
    }
    yaml = HEAD.replace("long: chuck-36h", "again: chuck-24h-again, long: chuck-36h")
    yaml += "tasters: 8\nscores:\n"
    for number, wobble in enumerate(WOBBLE[:8], start=1):
        marks = f"ribeye: 60, short: {70 + wobble}, again: {70 - wobble}, long: {20 + wobble}"
        yaml += f"  T{number}: {{{marks}}}\n"
    view, problems = computed({"tastings/trial.yaml": yaml, **again})
    assert view is not None, problems
    result = view.costed.tastings["trial"]
    assert other_duration(result, view.costed.content.plates["again"]) is None


def test_a_window_of_few_tasters_says_so_in_the_lead() -> None:
    yaml = (
        "test: scores\nsamples: {short: chuck-24h, long: chuck-36h}\ntasters: 2\n"
        "attributes: {texture: [too firm, right, falling apart]}\n"
        "scores: {T1: {short: right, long: right}, T2: {short: right, long: right}}\n"
    )
    lead = headline(result_of(yaml))
    assert "right wherever it was tried (24 h to 36 h), neither end is located" in lead
    assert "; not enough tasters to be sure of 24 h and 36 h." in lead


def test_what_is_not_sure_is_named_beside_what_is_out() -> None:
    """12 tasters find 24 h right, 36 h mushy: that is sure, and 24 h needs 14."""
    marks = "".join(f"  T{n}: {{short: right, long: mushy}}\n" for n in range(1, 13))
    yaml = (
        "test: scores\nsamples: {short: chuck-24h, long: chuck-36h}\ntasters: 12\n"
        f"attributes: {{texture: [too firm, right, mushy]}}\nscores:\n{marks}"
    )
    lead = headline(result_of(yaml))
    assert "36 h is out: mushy to all 12." in lead
    assert "more than 20 % find 36 h mushy; not enough tasters to be sure of 24 h." in lead


# Planning


def test_more_are_asked_where_a_challenger_reaches_a_part_of_them() -> None:
    """8 samples, 4 to a mouth, the benchmark to all: each challenger to 3 of 7."""
    cooks = {f"cooks/c{n}.yaml": f"for: {10 + n} h\nloss: 20 %\n{BATH}" for n in range(7)}
    samples = ", ".join(["ribeye: ribeye-grill", *(f"c{n}: c{n}" for n in range(7))])
    whole = (
        f"test: scores\nsamples: {{{samples}}}\nbenchmark: ribeye\nmargin: 10 %\ntasters: 30\n"
        "attributes: {tenderness: 9-point}\n"
    )
    counts = []
    for most in (6, 4):
        yaml = f"{whole}most samples: {most}\n"
        view, problems = computed({"tastings/trial.yaml": yaml, **cooks})
        assert view is not None, problems
        found = re.search(r"At least (\d+) tasters", headline(view.costed.tastings["trial"]))
        assert found is not None
        counts.append(int(found[1]))
    # 59 who taste both, of whom 5 of 7 and 3 of 7 are reached.
    assert counts == [83, 138]


def test_a_plan_without_a_benchmark_says_what_it_lacks() -> None:
    yaml = HEAD.replace("benchmark: ribeye\n", "").replace("margin: 10 %\n", "") + "tasters: 5\n"
    assert "Without a benchmark and a margin" in headline(result_of(yaml))


@pytest.mark.parametrize("key", ["benchmark", "margin"])
def test_a_plan_says_only_what_it_lacks(key: str) -> None:
    left = re.sub(rf"^{key}: .*\n", "", HEAD, flags=re.MULTILINE)
    assert f"Without a {key}, how many tasters" in headline(result_of(left + "tasters: 5\n"))


# One thing under two codes


def repeated() -> str:
    """Chuck of 24 h under two codes; a taster's two scores lie 2 apart."""
    yaml = HEAD.replace("long: chuck-36h", "again: chuck-24h, long: chuck-36h")
    yaml += "tasters: 8\nscores:\n"
    for number, wobble in enumerate(WOBBLE[:8], start=1):
        marks = f"ribeye: 60, short: {70 + wobble}, again: {72 + wobble}, long: {40 - wobble}"
        yaml += f"  T{number}: {{{marks}}}\n"
    return yaml


def test_one_cook_under_two_codes_shows_the_scatter_of_tasters() -> None:
    """Two scores 2 apart: variance 2 within each taster, so a standard deviation of 1.4."""
    view, problems = computed({"tastings/trial.yaml": repeated()})
    assert view is not None, problems
    repeats = view.costed.tastings["trial"].attributes[0].repeats
    assert repeats is not None
    assert repeats.columns == (1, 2)
    assert repeats.anova.error.mean_square == pytest.approx(2)
    page = by_path(tasting_pages(view))["tastings/trial.html"]
    words = text_of(html_of(page))
    assert "24 h and 24 h again were one thing; a taster's own scores of it scatter by 1.4" in words
    assert "Beyond own scatter" in words


def test_samples_that_are_all_different_have_no_such_column() -> None:
    page = by_path(tasting_pages(demo()))["tastings/chuck-durations.html"]
    assert "Beyond own scatter" not in text_of(html_of(page))


# Words on the page


def words_of(yaml: str) -> str:
    """The page of one tasting in the small kitchen, as it reads."""
    view, problems = computed({"tastings/trial.yaml": yaml})
    assert view is not None, problems
    return text_of(html_of(by_path(tasting_pages(view))["tastings/trial.html"]))


def test_a_pair_shows_the_lead_of_who_is_ahead_and_no_duration() -> None:
    answers = "".join(f"  T{n}: {'short' if n < 5 else 'long'}\n" for n in range(1, 13))
    words = words_of(f"{PAIR.replace('duo-trio', 'paired')}answers:\n{answers}")
    assert "Lead of long over short" in words
    assert "Which is chosen?" in words
    assert "Chose short" in words
    assert "10 or more, or 2 or fewer" in words
    assert "Share who can tell" not in words
    assert "Durations not ruled out" not in words
    assert not re.search(r"-\d+ %", words)


def test_ranks_have_a_table_of_ranks_and_no_curve() -> None:
    yaml = HEAD.replace("test: scores", "test: ranks\nasks: tenderness")
    yaml = yaml.replace(
        "attributes: {tenderness: line 0-100}\nmargin: 10 %\n", "tasters: 6\nranks:\n"
    )
    words = words_of(yaml + "".join(f"  T{n}: [long, short, ribeye]\n" for n in range(1, 7)))
    assert "Above the benchmark" in words
    assert "points of 100" not in words
    assert "curve" not in words


def test_a_cook_without_a_time_is_not_started_at_service() -> None:
    words = words_of(f"{HEAD}tasters: 4\n")
    assert "no time stated" in words
    assert "be ready with it: its file states no time" in words


def test_a_lone_taster_and_a_lone_serving_are_counted_in_good_words() -> None:
    words = words_of(scored([(60, 70, 50)]))
    assert "1 tasters" not in words
    assert "served 1 times" not in words


def test_a_level_is_said_to_three_digits() -> None:
    """5 % shared by two is 2.5 %, not 2 %."""
    words = words_of(scored([(60, 60 + wobble, 50) for wobble in WOBBLE]))
    assert "one-sided bound at 97.5%" in words
    assert "up to 2.5% shows it" in words


def test_a_duration_worth_cooking_is_named_between_those_tried() -> None:
    """30 h and 42 h may be right: the geometric middle is 35.5 h."""
    words = text_of(html_of(by_path(tasting_pages(demo()))["tastings/chuck-durations.html"]))
    assert "Next: taste 30 h and 42 h again with more tasters and cook 35 h as well." in words
