"""What is said of samples that are no series: cooked at unlike temperatures, with few tasters.

Answers are made up so that the truth is plain from the counts beside each check.
"""

from __future__ import annotations

import re

import numpy as np
import pytest
from scipy.stats import page_trend_test

from builder.costing.tasting_words import headline, supported
from builder.pages.tasting_evidence import other_duration
from builder.pages.tastings import short_verdict
from builder.pages.view import View
from builder.tasting.rank_verdicts import trend_sentence
from builder.tasting.ranks import page_trend
from tests.tastings.kitchens import BATH, computed, result_of

WORDS = {"f": "too firm", "r": "right", "m": "mushy"}
PLATE = "menu: mains\ncook: c24\nportion: 200 g\nprice: 30.00\nevidence: trial\n"


def tasted(
    texture: dict[str, str], liking: dict[str, list[int]], head: str = "", *, apart: bool = True
) -> View:
    """A kitchen whose cooks of so many hours were tasted, each at a temperature of its own."""
    cooks = {
        f"cooks/{name}.yaml": f"for: {name[1:]} h\nloss: 20 %\n"
        + BATH.replace("57 °C", f"{57 + apart * place} °C")
        for place, name in enumerate(texture)
    }
    samples = ", ".join(f"{name}: {name}" for name in texture)
    count = len(next(iter(liking.values())))
    bench = "bench: ribeye-grill, " if "bench" in liking else ""
    yaml = f"test: scores\ntasters: {count}\n{head}samples: {{{bench}{samples}}}\n"
    yaml += "attributes: {liking: line 0-100, texture: [too firm, right, mushy]}\nscores:\n"
    for at in range(count):
        cells = [f"{n}: [{liking[n][at]}, {WORDS[answers[at]]}]" for n, answers in texture.items()]
        cells += [f"bench: [{liking['bench'][at]}, right]"] if bench else []
        yaml += f"  T{at + 1}: {{{', '.join(cells)}}}\n"
    view, problems = computed({"tastings/trial.yaml": yaml, **cooks, "plates/steak.yaml": PLATE})
    assert view is not None, [str(p) for p in problems]
    return view


def lead(view: View) -> str:
    result = view.costed.tastings["trial"]
    assert supported(result) is None
    return headline(result)


BENCH = "benchmark: bench\nmargin: 15 %\n"
EIGHT = {
    "c12": [48, 51, 43, 50, 47, 44, 53, 49], "c24": [76, 73, 79, 74, 77, 75, 70, 78],
    "c36": [64, 60, 70, 51, 61, 66, 57, 63], "bench": [78, 77, 75, 79, 74, 80, 76, 73],
}  # fmt: skip
TEXTURE = {"c12": "fffffffr", "c24": "rrrrrrrr", "c36": "rmrmrmrr"}


def test_challengers_at_unlike_temperatures_get_an_answer_to_what_was_asked() -> None:
    """12 h: 7 of 8 too firm; 24 h: all 8 right and as good; 36 h: 3 of 8 mushy, 15 points less."""
    said = lead(tasted(TEXTURE, EIGHT, BENCH))
    assert said.startswith("8 tasters: c24 came out best; all 8 found texture right; liking 75.3")
    assert "C12 is out: too firm to 7 of 8." in said
    assert "C36 (5 of 8 right) is out: lower liking than another." in said
    assert "nothing is said of hours between them" in said
    assert "Next: taste c24 again (" in said
    assert "C24 against bench: as close as you asked in liking (within 15 points of 100)" in said
    assert "against bench" not in said.replace("C24 against bench", "")
    assert "The risk that a right one is out is 5 % at most, all counted." in said


def test_the_list_says_which_came_closest() -> None:
    result = tasted(TEXTURE, EIGHT, BENCH).costed.tastings["trial"]
    assert short_verdict(result).startswith("8 tasters: c24 came out best; all 8 found")


def test_without_a_benchmark_samples_are_named_too() -> None:
    """Five tasters: 12 h too firm to all, 24 h right to all, 36 h right to 3."""
    scores = {name: marks[:5] for name, marks in EIGHT.items() if name != "bench"}
    said = lead(tasted({"c12": "fffff", "c24": "rrrrr", "c36": "rmrmr"}, scores))
    assert said.startswith("5 tasters: c24 came out best; all 5 found texture right")
    assert "C12 is out: too firm to all 5." in said
    assert "C36 (3 of 5 right) may be right too. Tasters can't tell c24 and c36 apart" in said
    assert "Next: taste c24 and c36 again (9 more tasters" in said
    assert "came first so far" not in said


@pytest.mark.parametrize(
    ("texture", "following"),
    [
        ({"c12": "ffffffff", "c24": "mmmmmmmm"}, "cook between c12 and c24"),
        ({"c12": "ffffffff", "c24": "ffffffff"}, "cook longer or hotter than these"),
        ({"c12": "mmmmmmmm", "c24": "mmmmmmmm"}, "cook shorter or cooler than these"),
    ],
)
def test_where_all_are_out_the_next_cook_follows_from_the_complaints(
    texture: dict[str, str], following: str
) -> None:
    scores = dict.fromkeys(texture, EIGHT["c12"])
    said = lead(tasted(texture, scores))
    assert said.startswith("8 tasters: no sample came close; nobody found any right")
    assert f"Next: {following}." in said
    assert ("too firm to all 8." in said) is ("f" in texture["c12"])


def test_of_two_equally_close_nothing_is_said_that_holds_of_one_only() -> None:
    """Both 2 of 8 right at one mean; one 6 too firm, the other 6 mushy."""
    scores = {"c12": EIGHT["c12"], "c24": EIGHT["c12"]}
    said = lead(tasted({"c12": "ffffffrr", "c24": "mmmmmmrr"}, scores))
    assert said.startswith(
        "8 tasters: c12 and c24 came out equally good; liking 48.1 of 100; yet every sample tried "
        "is out. C12 is out: too firm to 6 of 8. C24 is out: mushy to 6 of 8."
    )


def test_one_that_is_shown_right_is_cooked() -> None:
    """20 of 20 right shows fewer than 20 % off at 1 %; the other is mushy to all."""
    scores = {"c12": [70] * 20, "c24": [70] * 20}
    said = lead(tasted({"c12": "r" * 20, "c24": "m" * 20}, scores))
    assert "Next: cook c12, shown right within your limit." in said


def test_a_panel_too_small_says_what_it_can_t_show() -> None:
    """Two tasters: even agreed they can't show a sample off at 5 %."""
    said = lead(tasted({"c12": "ff", "c24": "rr"}, {"c12": [40, 42], "c24": [70, 72]}))
    assert "No sample is out: fewer than" in said
    assert "answers can't show one off, even if all agree." in said


def test_hours_are_named_where_only_the_time_differs() -> None:
    view = tasted(TEXTURE, EIGHT, BENCH, apart=False)
    said = headline(view.costed.tastings["trial"])
    assert said.startswith("8 tasters: 24 h came out best")
    assert "temperature" not in said


def test_more_tasters_than_a_kitchen_seats_are_not_counted() -> None:
    """About 13 points below the benchmark with a margin of 15, tasters 13 points apart."""
    low, bench = [51, 72, 55, 77, 55, 71, 58, 66], [78, 76, 74, 77, 75, 76, 79, 73]
    scores = {"c12": low, "c24": [mark - 1 for mark in low], "bench": bench}
    said = lead(tasted({"c12": "rrrrrrrr", "c24": "rrrrrrrr"}, scores, BENCH))
    assert "(more than 100 more tasters would be needed)" in said
    assert not re.search(r"\(\d{3,} more tasters", said)


def test_a_plate_whose_sample_is_out_is_told_so() -> None:
    texture = {"c24": "mmmmmmmm", "c36": "rrrrrrrr"}
    view = tasted(texture, {"c24": EIGHT["c12"], "c36": EIGHT["c24"]})
    plate, result = view.costed.content.plates["steak"], view.costed.tastings["trial"]
    notice = other_duration(result, plate)
    assert notice is not None
    assert str(notice.text).startswith("8 tasters: c36 came out best; ")
    assert str(notice.text).endswith(" is out: c24.")
    well = tasted({"c24": "rrrrrrrr", "c36": "mmmmmmmm"}, {"c24": [70] * 8, "c36": [30] * 8})
    assert other_duration(well.costed.tastings["trial"], plate) is None


def test_scores_that_fall_are_not_called_no_rise() -> None:
    """Against scipy's Page test of the columns turned round, doubled for both directions."""
    scores = np.array([[5, 3, 2], [4, 3, 1], [5, 4, 2], [3, 4, 1], [5, 2, 1]])
    expected = 2 * page_trend_test(scores[:, ::-1], method="exact").pvalue
    found = page_trend(scores)
    assert 2 * found.falling == pytest.approx(expected)
    said = trend_sentence(found, "liking", "cooking time")
    assert said.startswith("5 tasters: liking falls with cooking time on the whole (p = 0.00")
    assert trend_sentence(found, "liking", "cooking time", expected * 0.99).startswith(
        "5 tasters: no rise of liking"
    )


SCORED = """test: scores
samples: {bench: {plate: steak}, b: {plate: ribeye-steak}, c: ribeye-grill}
benchmark: bench
tasters: 7
margin: 10 %
attributes: {liking: line 0-100}
scores:
"""


def test_of_samples_that_were_only_scored_none_is_called_closest() -> None:
    """C scores 90 and b 62 beside a benchmark of 60: c is highest, and far from closest to it."""
    rows = "".join(f"  T{n}: {{bench: {60 + n}, b: {62 + n}, c: {90 + n}}}\n" for n in range(1, 8))
    said = headline(result_of(SCORED + rows))
    assert "c scored highest of those beside bench; liking 94.0 of 100" in said
    assert "out best" not in said
