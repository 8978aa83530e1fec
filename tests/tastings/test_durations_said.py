"""What is said of durations: leads of panels with a known truth, and the risk that they state."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from scipy.stats import binom

from builder.costing.tasting_results import TastingResult
from builder.costing.tasting_words import headline, supported
from builder.costing.window_words import window_words
from builder.tasting.following import FollowingKind
from builder.tasting.judged import Question
from builder.tasting.right import right_window
from builder.tasting.shortlist import shortlist
from tests.tasting.panels import PANELS, Array, Truth
from tests.tastings.kitchens import BATH, computed

GOLDEN = Path(__file__).parent / "durations_said.txt"
WORDS = {-1.0: "too firm", 0.0: "right", 1.0: "mushy"}


def _answer(liking: float, texture: float) -> str:
    return "–" if np.isnan(texture) else f"[{liking:g}, {WORDS[texture]}]"


def lead(hours: tuple[float, ...], texture: Array, liking: Array, head: str = "") -> str:
    """The lead of a tasting of these answers, from files to words."""
    result = result_of(hours, texture, liking, head)
    assert supported(result) is not None
    return headline(result)


def result_of(
    hours: tuple[float, ...], texture: Array, liking: Array, head: str = ""
) -> TastingResult:
    """A tasting of these answers, computed from its file."""
    names = [f"c{h:g}" for h in hours]
    cooks = {f"cooks/{n}.yaml": f"for: {n[1:]} h\nloss: 20 %\n{BATH}" for n in names}
    yaml = f"test: scores\ntasters: {len(texture)}\n{head}"
    if not head:
        yaml += f"samples: {{{', '.join(f'{n}: {n}' for n in names)}}}\n"
    yaml += "attributes: {liking: line 0-100, texture: [too firm, right, mushy]}\nscores:\n"
    for number, (scores, answers) in enumerate(zip(liking, texture, strict=True), start=1):
        cells = [f"{n}: {_answer(a, b)}" for n, a, b in zip(names, scores, answers, strict=False)]
        if head:
            cells.append(f"bench: [{scores[-1]:g}, right]")
        yaml += f"  T{number}: {{{', '.join(cells)}}}\n"
    view, problems = computed({"tastings/trial.yaml": yaml, **cooks})
    assert view is not None, [str(p) for p in problems]
    return view.costed.tastings["trial"]


def test_leads_of_twenty_small_panels_read_as_reviewed() -> None:
    """Write the file anew with what is printed, after reading every lead beside its truth."""
    said = []
    for seed, truth in enumerate(PANELS):
        words = lead(truth.hours, *truth.drawn(seed))
        right = ", ".join(f"{h:g} h" for h in sorted(truth.right)) or "none"
        said.append(
            f"{seed + 1}. {truth.words}; {truth.tasters} tasters; right: {right}\n   {words}\n"
        )
        assert "came out best" in words or "equally good" in words
        assert "Next: " in words or "shown right" in words
    text = "\n".join(said)
    if not GOLDEN.exists():
        GOLDEN.write_text(text, encoding="utf-8")
    assert text == GOLDEN.read_text(encoding="utf-8")


def case() -> tuple[Array, Array]:
    """Seven tasters; 24 h: 6 right, 48 h: 5 right, 72 h mushy to all; liking 80, 61, 4 and 97."""
    texture = np.array([[0] * 6 + [-1], [-1, 0, 0, 0, 0, -1, 0], [1] * 7], dtype=float).T
    wobble = np.array([[9, -14, 18, -6, 3, -10, 0], [-25, 22, 4, 12, -18, 5, 0]]).T
    liking = np.column_stack([80 + wobble[:, 0], 61 + wobble[:, 1], [4] * 7, [97] * 7])
    return texture, liking.astype(float)


def test_a_duration_that_most_found_right_leads() -> None:
    texture, liking = case()
    samples = "samples: {bench: ribeye-grill, c24: c24, c48: c48, c72: c72}\n"
    words = lead((24, 48, 72), texture, liking, f"{samples}benchmark: bench\nmargin: 15 %\n")
    assert words.startswith("7 tasters: 24 h came out best; 6 of 7 found texture right, 1 too firm")
    assert "72 h is out: mushy to all 7." in words
    assert "48 h (5 of 7 right) may be right too." in words
    assert "asters can't tell 24 h and 48 h apart on texture." in words
    assert "Next: taste 24 h and 48 h again (15 more tasters would settle" in words
    assert "below it in liking, by how much is still open" in words
    assert "The risk that a right one is out is 5 % at most" in words
    assert "no duration" not in words.lower()
    assert "49.6" not in words


def test_fifteen_more_is_the_binomial() -> None:
    """P(X <= 1 | 22, .2) = .048, P(X <= 1 | 21, .2) = .058 (binomial by hand)."""
    chance = [0.8**n + n * 0.2 * 0.8 ** (n - 1) for n in (21, 22)]
    assert chance[1] <= 0.05 < chance[0]
    following = shortlist((24, 48, 72), None, [Question(case()[0], 0.2)]).following
    assert following is not None
    assert following.more == 22 - 7


def test_a_window_against_the_counts_is_not_drawn() -> None:
    """Pooled 3 of 14 too firm, .214, would put 24 h with 1 of 7 outside a limit of .2."""
    window = right_window(case()[0], [24, 48, 72], limit=0.2)
    assert not window.exists
    assert "no window is drawn" in window.note


def test_a_window_that_agrees_with_the_counts_is_pooled_and_says_so() -> None:
    answers = np.array([[-1] * 8 + [0] * 2, [-1] * 9 + [0], [0] * 10, [1] * 10], dtype=float).T
    window = right_window(answers, [12, 18, 24, 48], limit=0.2)
    assert window.exists
    assert "pooled" in window.note


# The stated risk


ALIKE = Truth("", (24, 48, 72), (0.2,) * 3, (0.2,) * 3, (60.0,) * 3, 8)
TWO = Truth("", (24, 48, 72), (0.2, 0.0, 0.0), (0.0, 0.2, 0.95), (70.0, 70.0, 20.0), 7)
GAPS = Truth("", (18, 24, 36, 48), (0.1,) * 4, (0.2,) * 4, (60.0,) * 4, 11, 0.25)


@pytest.mark.parametrize("truth", [ALIKE, TWO, GAPS], ids=["alike", "two", "gaps"])
def test_a_right_duration_is_ruled_out_no_more_often_than_stated(truth: Truth) -> None:
    """Seeded simulation of 250 panels, 5 % and 3 standard errors of the count."""
    panels, wrong = 250, 0
    for seed in range(panels):
        texture, liking = truth.drawn(seed)
        found = shortlist(truth.hours, liking, [Question(texture, 0.2)])
        left = {truth.hours[place] for place in found.left}
        wrong += not truth.right <= left
    assert truth.right
    assert wrong / panels <= 0.05 + 3 * np.sqrt(0.05 * 0.95 / panels)


def test_two_right_durations_are_both_named_and_the_mushy_one_is_out() -> None:
    both = out = 0
    for seed in range(60):
        texture, liking = TWO.drawn(seed)
        found = shortlist(TWO.hours, liking, [Question(texture, 0.2)])
        both += {0, 1} <= set(found.left)
        out += 2 not in found.left
    assert both >= 54
    assert out >= 48


# Parts of the decision


def test_the_limit_is_kept_apart_for_each_question() -> None:
    late = np.array([[0, 1]] * 9, dtype=float)
    early = np.array([[-1, 0]] * 9, dtype=float)
    found = shortlist((24, 48), None, [Question(late, 0.2), Question(early, 0.2)])
    assert [each.faults[0][1] for each in found.judged] == [1, 0]
    assert not found.left


@pytest.mark.parametrize(
    ("answers", "step", "hours"),
    [([-1, -1], FollowingKind.LONGER, (96.0,)), ([1, 1], FollowingKind.SHORTER, (12.0,)),
     ([-1, 1], FollowingKind.BETWEEN, (34.0,))],
)  # fmt: skip
def test_where_all_are_out_the_next_cook_lies_where_the_answers_point(
    answers: list[int], step: FollowingKind, hours: tuple[float, ...]
) -> None:
    found = shortlist((24, 48), None, [Question([answers] * 9, 0.2)])
    assert found.following is not None
    assert (found.left, found.following.step, found.following.hours) == ((), step, hours)


def test_one_that_is_shown_right_is_settled() -> None:
    """P(X = 0 | 14, .2) = .044: fourteen without a complaint show it, thirteen don't."""
    for tasters, more in ((14, 0), (13, 1)):
        found = shortlist((24, 48), None, [Question([[0, 1]] * tasters, 0.2)])
        assert found.following is not None
        assert found.following.more == more
        assert (found.following.step is FollowingKind.SETTLED) == (more == 0)


def test_what_few_can_never_show_is_said() -> None:
    """.2² = .04 > .05 / (2 x 3 x 2): two tasters can't put any of three out."""
    words = lead((24, 48, 72), np.array([[0, 0, 1.0]] * 2), np.array([[60, 60, 20.0]] * 2))
    assert "fewer than 4 answers can't show one off, even if all agree" in words
    assert 0.2**4 <= 0.05 / 12 < 0.2**3


def test_a_share_above_the_limit_that_may_be_chance_is_said_as_a_count() -> None:
    """4 of 12, where up to 20 % may: P(4 and more) is 0.21 by the binomial, so 16 h is not out."""
    assert binom.sf(3, 12, 0.2) == pytest.approx(0.205, abs=0.001)
    texture = np.array([[-1.0 if taster < 4 else 0.0, 0.0, 1.0] for taster in range(12)])
    result = result_of((16, 30, 44), texture, np.full((12, 3), 50.0))
    assert "is right at 30 h; more than 20 % find 44 h mushy; 4 of 12 found 16 h too firm" in (
        window_words(result, result.rights[0])
    )
    assert "16 h (8 of 12 right) may be right too" in headline(result)
