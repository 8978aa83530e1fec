"""What few tasters can show by order, scales whose low end is best, and durations of two cooks."""

from __future__ import annotations

from itertools import permutations, product

import numpy as np
import pytest

from builder.costing.tasting_results import TastingResult
from builder.costing.tasting_words import headline, planned
from builder.pages.tasting_evidence import other_duration
from builder.tasting.comparisons import fewest_for_orders
from builder.tasting.pairs import all_pairs
from tests.tastings.kitchens import BATH, PLACE, computed, result_of

THREE = "samples: {a: chuck-24h, b: ribeye-grill, c: chuck-36h}\n"


def chance_of_agreement(samples: int, tasters: int, beside: bool) -> float:
    """Share of all rearrangements whose largest rank-sum difference is as large as can be.

    Every rearrangement within tasters is counted; beside: differences to the first sample only.
    """
    reached = counted = 0
    for orders in product(permutations(range(samples)), repeat=tasters):
        sums = np.sum(orders, axis=0)
        largest = np.abs(sums - sums[0]).max() if beside else np.ptp(sums)
        reached += largest == tasters * (samples - 1)
        counted += 1
    return reached / counted


@pytest.mark.parametrize("beside", [False, True])
@pytest.mark.parametrize("samples", [2, 3, 4])
def test_the_fewest_by_order_are_those_of_every_rearrangement_counted(
    samples: int, beside: bool
) -> None:
    panels = {2: 7, 3: 5, 4: 3}[samples]
    for alpha in (0.05, 0.02):
        chances = (chance_of_agreement(samples, n, beside) for n in range(1, panels + 1))
        fewest = next(n for n, chance in enumerate(chances, start=1) if chance <= alpha)
        assert fewest_for_orders(samples, alpha, beside) == fewest


def test_three_who_agree_on_three_samples_are_enough() -> None:
    """6 of 216 rearrangements reach it, .028."""
    table = [[9, 5, 1], [8, 4, 2], [9, 6, 3]]
    least = min(pair.adjusted_p_value for pair in all_pairs(table))
    assert least == pytest.approx(6 / 216, abs=0.006)


def _ranked(*orders: str, head: str = THREE) -> TastingResult:
    rows = "".join(f"  T{n}: [{order}]\n" for n, order in enumerate(orders, start=1))
    return result_of(f"test: ranks\n{head}tasters: {len(orders)}\nasks: liking\nranks:\n{rows}")


def test_a_panel_that_can_show_an_order_is_not_called_too_small() -> None:
    apart = headline(_ranked("a, b, c", "a, b, c", "a, b, c"))
    assert "36 h" in apart and "above" in apart and "can't tell" not in apart
    open_still = headline(_ranked("a, b, c", "c, a, b", "b, c, a", "a, c, b", "b, a, c"))
    assert "could not tell any two samples apart" in open_still
    assert "fewer than 6 tasters" not in open_still
    two = headline(_ranked("a, b, c", "a, b, c"))
    assert "fewer than 3 tasters can't tell any two samples apart, even if all agree" in two


@pytest.mark.parametrize("panel", [3, 4, 5])
def test_a_lead_counts_all_samples_that_durations_are_compared_among(panel: int) -> None:
    """Of four samples, the pair at the ends is one of 12: 12 / 12^3 is .007 with three tasters."""
    rows = "".join(f"  T{n}: {{a: [{6 + n % 2}], b: [9], c: [{7 - n % 2}], d: [1]}}\n"
                   for n in range(1, panel + 1))  # fmt: skip
    head = (
        "test: scores\nsamples: {a: chuck-24h, b: ribeye-grill, c: chuck-36h, d: duck}\n"
        f"tasters: {panel}\nattributes: {{liking: 9-point}}\nscores:\n"
    )
    duck = "cut: ribeye\nhow: pan\nload: 5 kg\npiece: {weight: 5 kg}\nloss: 20 %\n"
    view, _ = computed({PLACE: f"{head}{rows}", "cooks/duck.yaml": duck})
    assert view is not None
    result = view.costed.tastings["trial"]
    (found,) = result.attributes
    told = [pair for pair in found.pairs if pair.adjusted_p_value <= result.alpha]
    assert told and result.decision is not None
    assert result.decision.fewest == 3 and "fewer than" not in headline(result)


def test_four_who_agree_tell_samples_from_a_benchmark_by_ranks() -> None:
    found = _ranked(*["b, a, c"] * 4, head=f"{THREE}benchmark: b\n")
    assert found.fewest == 3
    assert "36 h below b" in headline(found)


TOUGH = """test: scores
samples: {ribeye: ribeye-grill, short: chuck-24h, long: chuck-36h}
tasters: 8
attributes: {toughness: {scale: 0-10, best: low}}
"""


@pytest.mark.parametrize("head", ["", "benchmark: ribeye\nmargin: 10 %\n"])
def test_a_scale_whose_low_end_is_best_is_said_with_its_direction(head: str) -> None:
    rows = "".join(
        f"  T{n}: {{ribeye: [{2 + n % 2}], short: [{8 + n % 3 % 2}], long: [{n % 2}]}}\n"
        for n in range(1, 9)
    )
    words = headline(result_of(f"{TOUGH}{head}scores:\n{rows}"))
    assert "toughness" in words.lower()
    said = words.lower().split("toughness")[1:]
    assert all(after.startswith(" (100 is best)") for after in said), words


TWO_HEATS = """test: scores
samples: {c18: hot-18, c24: hot-24, c36: chuck-36h, ribeye: ribeye-grill}
benchmark: ribeye
tasters: 6
attributes: {liking: 9-point, texture: [too firm, right, mushy]}
margin: 12 %
scores:
"""


def test_a_duration_of_another_temperature_is_not_passed_over() -> None:
    hot = BATH.replace("57 °C", "65 °C")
    cooks = {f"cooks/hot-{h}.yaml": f"for: {h} h\nloss: 20 %\n{hot}" for h in (18, 24)}
    cooks["plates/late.yaml"] = "menu: mains\ncook: chuck-36h\nportion: 200 g\nprice: 30.00\n"
    rows = "".join(
        f"  T{n}: {{c18: [{3 + n % 2}, too firm], c24: [6, right], c36: [{7 + n % 2}, right],"
        f" ribeye: [8, right]}}\n"
        for n in range(1, 7)
    )
    view, problems = computed({PLACE: TWO_HEATS + rows, **cooks})
    assert view is not None, [str(p) for p in problems]
    result = view.costed.tastings["trial"]
    words = headline(result)
    assert words.startswith("6 tasters: of 18 h and 24 h, 24 h came out best")
    assert "C36 has a higher mean liking (81.3 against 62.5)." in words
    assert other_duration(result, view.costed.content.plates["late"]) is None
    elsewhere = other_duration(result, view.costed.content.plates["steak"])
    assert elsewhere is not None
    assert "of 18 h and 24 h, 24 h came out best; " in str(elsewhere.text)


RANKED = "test: ranks\nasks: tenderness\ntasters: 8\nranks:\n" + "".join(
    f"  T{n}: [c36, c24, c18]\n" for n in range(1, 9)
)
SCORED = "test: scores\nattributes: {tenderness: 9-point}\ntasters: 8\nscores:\n" + "".join(
    f"  T{n}: {{c18: 4, c24: 6, c36: 8}}\n" for n in range(1, 9)
)


@pytest.mark.parametrize(
    ("answers", "lead"),
    [
        (RANKED, "8 tasters: of 18 h and 24 h, 24 h came first in tenderness."),
        (SCORED, "8 tasters: of 18 h and 24 h, 24 h scored highest"),
    ],
)
def test_the_first_of_a_series_is_not_said_first_of_all(answers: str, lead: str) -> None:
    """C36 is of another temperature, and every taster puts it above both of the series."""
    hot = BATH.replace("57 °C", "65 °C")
    cooks = {f"cooks/hot-{h}.yaml": f"for: {h} h\nloss: 20 %\n{hot}" for h in (18, 24)}
    samples = "samples: {c18: hot-18, c24: hot-24, c36: chuck-36h}\n"
    view, problems = computed({PLACE: samples + answers, **cooks})
    assert view is not None, [str(p) for p in problems]
    assert headline(view.costed.tastings["trial"]).startswith(lead)


@pytest.mark.parametrize(
    ("correct", "words"),
    [
        (8, "Tasters pick long over short for tenderness."),
        (0, "check the key, or short has more."),
    ],
)
def test_a_directed_pair_says_which_has_more(correct: int, words: str) -> None:
    """8 of 8 is .5 ** 8 = .004 to either side."""
    yaml = "test: paired\nexpected: long\nasks: tenderness\ntasters: 8\n"
    samples = "samples: {short: chuck-24h, long: chuck-36h}\n"
    assert words in headline(result_of(f"{yaml}{samples}correct: {correct}\n"))


def test_a_plan_of_two_questions_says_once_that_its_tasters_are_too_few() -> None:
    head = "test: paired\nsamples: {a: chuck-24h, b: chuck-36h}\nasks: tenderness\nexpected: b\n"
    said = planned(result_of(f"{head}tasters: 14\n"))
    assert [line for line in said if "asked are" in line] == ["The 14 asked are too few."]
    assert sum(line.startswith("At least") for line in said) == 2


@pytest.mark.parametrize(
    ("fifth", "words"),
    [
        ("long: –", "5 tasters: 36 h came out best; all 4 who tasted it found texture right"),
        ("long: [8, right]", "5 tasters: 36 h came out best; all 5 found texture right"),
    ],
)
def test_all_are_those_who_tasted_it(fifth: str, words: str) -> None:
    """Of five tasters one did not taste the longest, so all are four."""
    head = "test: scores\nsamples: {short: chuck-24h, long: chuck-36h}\ntasters: 5\n"
    head += "attributes: {liking: 9-point, texture: [too firm, right, mushy]}\nscores:\n"
    rows = [f"  T{n}: {{short: [4, too firm], long: [8, right]}}\n" for n in range(1, 5)]
    last = f"  T5: {{short: [4, too firm], {fifth}}}\n"
    assert headline(result_of("".join([head, *rows, last]))).startswith(words)
